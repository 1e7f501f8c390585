//! What is denied by the clause before: "It isn't true that …", "I wouldn't say that …".

use super::clause::Clause;
use super::piece::{Piece, Role};
use crate::review::meaning::Link;

/// So many pieces at most say that something is not so.
const SHORT: usize = 6;

/// Denies what is said not to be so.
pub(super) fn disbelieve(clauses: &[Clause], pieces: &mut [Piece]) {
    for pair in clauses.windows(2) {
        let [before, clause] = pair else { continue };
        if before.sentence != clause.sentence || clause.link != Some(Link::Which) || !doubts(before, pieces) {
            continue;
        }
        // "that more dye | makes the light fall": the verb joins the clauses.
        let onward = clauses.iter().find(|next| next.pieces.start == clause.pieces.end + 1);
        let onward = onward.filter(|next| next.link == Some(Link::So) && next.sentence == clause.sentence);
        let own = pieces.get(clause.pieces.clone()).unwrap_or_default();
        let makes = pieces.get(clause.pieces.end).is_some_and(|piece| piece.lower.starts_with("make"));
        let says = own.iter().any(|piece| piece.verb || piece.role == Role::Copula);
        deny(onward.filter(|_| makes && !says).unwrap_or(clause), pieces);
    }
}

/// Whether a clause says no more than that something is not so, and the sentence does not go on to say that it is the opposite.
fn doubts(clause: &Clause, pieces: &[Piece]) -> bool {
    let own = pieces.get(clause.pieces.clone()).unwrap_or_default();
    let last = own.last().map_or("", |piece| piece.lower.rsplit(' ').next().unwrap_or_default());
    let belief = matches!(last, "true" | "right" | "correct" | "think" | "say" | "believe" | "agree" | "expect");
    let once = own.iter().filter(|piece| piece.role == Role::Negator).count() == 1;
    let mut sentence = pieces.iter().filter(|piece| piece.sentence == clause.sentence);
    let reversed = sentence
        .any(|piece| matches!(piece.lower.as_str(), "reverse" | "opposite" | "round" | "around" | "vice versa"));
    belief && once && own.len() <= SHORT && !reversed
}

/// Denies what a clause says of its subject; where nothing goes up or down there, all of it.
fn deny(clause: &Clause, pieces: &mut [Piece]) {
    let own = pieces.get_mut(clause.pieces.clone()).unwrap_or_default();
    let verb = own.iter().position(|piece| piece.verb || piece.role == Role::Copula).unwrap_or(0);
    let turns = |piece: &Piece| matches!(piece.role, Role::Turn(_));
    let from = if own.iter().skip(verb).any(turns) { verb } else { 0 };
    own.iter_mut().skip(from).for_each(|piece| piece.negated = !piece.negated);
}
