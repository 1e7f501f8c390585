//! Claims that no word of direction makes by itself: what is done ("Adding salt …"), what is there, what is likewise, what there is
//! none of; and what is told of a phrase behind what describes it.

use super::claim::{Claim, RULING, Reader, add};
use super::clause::Clause;
use super::piece::{Piece, Role};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Direction, Grammar, Link, Turn};

impl Reader<'_> {
    /// "Adding salt …", "Cutting …": more of it, as the cause of what follows.
    pub(super) fn doing(&self, number: usize) -> Option<Claim> {
        let start = self.clause.pieces.start;
        let first = self.pieces.get(start)?;
        let acts = self.clause.pieces.clone().skip(1).any(|place| {
            self.pieces.get(place).is_some_and(|piece| piece.verb || piece.acts || matches!(piece.role, Role::Turn(_)))
        });
        // "Pairing affects …": it is not said which way.
        let open = self.clause.pieces.clone().any(|place| {
            matches!(self.role(Some(place)), Some(Role::Turn(Turn { direction: Direction::Changed, .. })))
        });
        // ", leaving less inside": what comes of it.
        let result = start
            .checked_sub(1)
            .and_then(|before| self.pieces.get(before))
            .is_some_and(|piece| piece.sentence == first.sentence && piece.role == Role::Mark(','))
            && matches!(first.lower.as_str(), "leaving" | "making" | "giving" | "letting" | "taking");
        if open
            || result
            || first.role != Role::Content
            || !first.verb
            || !first.lower.split(' ').next().is_some_and(|word| word.ends_with("ing"))
            || first.negated
            || !acts
        {
            return None;
        }
        let (about, end) = self.right(start);
        let class: Vec<&'static str> = about.iter().filter_map(|(key, _)| self.dictionary.class(key)).collect();
        let hedged = self.clause.hedged;
        let pieces = start..end.max(start + 1);
        let direction = Direction::Up;
        (!about.is_empty() && !self.reversed(start)).then_some(Claim {
            direction,
            about,
            carried: false,
            clause: number,
            at: start,
            pieces,
            aside: false,
            hedged,
            class,
            attributive: true,
            compares: false,
            level: None,
            relates: false,
            presence: false,
        })
    }

    /// "Salt lowers the melting point": what opens a clause and does something to something.
    pub(super) fn presence(&self, number: usize) -> Option<Claim> {
        let start = self.clause.pieces.start;
        let named = |place: usize| match self.role(Some(place)) {
            Some(Role::Content) => self.pieces.get(place).is_some_and(|piece| !piece.negated),
            role => matches!(role, Some(Role::Article)),
        };
        let end = self.clause.pieces.end;
        // "Detergent | makes …": the verb is what joins the clauses.
        let acts = (start..end).find(|place| !named(*place)).unwrap_or(end);
        let joins = acts == end && matches!(self.pieces.get(end).map(|piece| piece.role), Some(Role::Link(Link::So)));
        // "… that work |": no subject of its own.
        if acts == start || self.clause.link == Some(Link::Which) {
            return None;
        }
        let turn = matches!(
            self.role(Some(acts)),
            Some(Role::Turn(Turn { grammar: Grammar::Transitive | Grammar::Either, .. }))
        );
        let object =
            matches!(self.role(Some(acts + 1)), Some(Role::Article | Role::Content | Role::Pronoun | Role::Turn(_)));
        let makes = matches!(self.word(Some(acts)), "make" | "makes" | "gives" | "give" | "lets" | "causes");
        let (about, _) = self.left(acts);
        let class = about.iter().filter_map(|(key, _)| self.dictionary.class(key)).collect();
        (((object && (turn || makes)) || joins) && !about.is_empty()).then_some(Claim {
            direction: Direction::Up,
            about,
            carried: false,
            clause: number,
            at: start,
            pieces: start..acts,
            aside: true,
            hedged: self.clause.hedged,
            class,
            attributive: true,
            compares: false,
            level: None,
            relates: false,
            presence: true,
        })
    }

    /// "It hardly makes any oxygen": next to none of it.
    pub(super) fn none(&self, at: usize, number: usize) -> Option<Claim> {
        let piece = self.pieces.get(at).filter(|piece| piece.lower == "any" && piece.negated)?;
        let named = piece.role == Role::Article && self.role(Some(at + 1)) == Some(Role::Content);
        let (about, end) = self.right(at + 1);
        let class = about.iter().filter_map(|(key, _)| self.dictionary.class(key)).collect();
        (named && !about.is_empty()).then_some(Claim {
            direction: Direction::Down,
            about,
            carried: false,
            clause: number,
            at,
            pieces: at..end.max(at + 1),
            aside: self.clause.aside_from.is_some_and(|from| from < at),
            hedged: self.clause.hedged,
            class,
            attributive: true,
            compares: false,
            level: None,
            relates: false,
            presence: false,
        })
    }

    /// "… so does the rate": the direction is that of what was told before.
    pub(super) fn likewise(&self, number: usize, before: Option<&Claim>) -> Option<Claim> {
        let start = self.clause.pieces.start;
        let turns =
            self.clause.pieces.clone().any(|at| matches!(self.role(Some(at)), Some(Role::Turn(_) | Role::Negator)));
        let does = ["do", "does", "is", "are", "will", "did"].contains(&self.word(Some(start)));
        let before = before.filter(|_| does && !turns && self.clause.link == Some(Link::So))?;
        let (about, end) = self.right(start + 1);
        let class = about.iter().filter_map(|(key, _)| self.dictionary.class(key)).collect();
        let pieces = start..end.max(start + 1);
        (!about.is_empty()).then(|| Claim {
            about,
            class,
            clause: number,
            at: start,
            pieces,
            attributive: false,
            ..before.clone()
        })
    }
}

/// Takes in what is said of a phrase behind what describes it: "fewer of the strands | that carry enzyme are paired", "fewer
/// sites | that work".
pub(super) fn told_behind(claims: &mut [Claim], pieces: &[Piece], clauses: &[Clause], dictionary: &Dictionary) {
    for claim in claims.iter_mut().filter(|claim| claim.carried && !claim.presence) {
        stuff_that(claim, pieces, clauses, dictionary);
    }
    for claim in claims.iter_mut().filter(|claim| claim.attributive && !claim.carried && !claim.presence) {
        let own = clauses.get(claim.clause);
        let next = clauses.get(claim.clause + 1).filter(|next| Some(next.sentence) == own.map(|own| own.sentence));
        let (Some(own), Some(next)) = (own, next) else { continue };
        let word = next
            .pieces
            .start
            .checked_sub(1)
            .and_then(|before| pieces.get(before))
            .map_or("", |piece| piece.lower.as_str());
        let ends = own.pieces.end == claim.pieces.end;
        let turns =
            next.pieces.clone().any(|place| pieces.get(place).is_some_and(|piece| matches!(piece.role, Role::Turn(_))));
        let role = |place: usize| pieces.get(place).map(|piece| piece.role);
        let reader = Reader { pieces, clause: next, dictionary };
        let behind = match word {
            "that" | "which" | "who" => {
                let be = next.pieces.clone().rfind(|place| role(*place) == Some(Role::Copula));
                let verb = pieces.get(next.pieces.start).is_some_and(|piece| piece.verb);
                let from = be.map(|be| be + 1).or(Some(next.pieces.start).filter(|_| verb));
                from.filter(|_| !turns).map(|from| reader.right(from).0)
            }
            _ => None,
        };
        for (key, weight) in behind.filter(|_| ends).unwrap_or_default() {
            if weight >= 1.0 && !dictionary.is_light(&key) {
                add(&mut claim.about, &key, RULING);
            }
        }
    }
}

/// "more of the stuff | that quenches", "less of what | is split": a thing by what it does, and not what was spoken of before.
fn stuff_that(claim: &mut Claim, pieces: &[Piece], clauses: &[Clause], dictionary: &Dictionary) {
    let Some(own) = clauses.get(claim.clause) else { return };
    let Some(next) = clauses.get(claim.clause + 1).filter(|next| next.sentence == own.sentence) else { return };
    let word = |at: usize| pieces.get(at).map_or("", |piece| piece.lower.as_str());
    let behind: Vec<&str> = (claim.at + 1..own.pieces.end).map(word).collect();
    let stuff = matches!(behind.as_slice(), ["of", "the" | "that", "stuff" | "thing" | "substance"] | ["stuff"]);
    let relative = matches!(word(next.pieces.start.wrapping_sub(1)), "that" | "which");
    if !stuff || !relative {
        return;
    }
    let (about, _) = Reader { pieces, clause: next, dictionary }.right(next.pieces.start);
    if !about.is_empty() {
        claim.about = about;
        claim.carried = false;
        claim.attributive = true;
    }
}
