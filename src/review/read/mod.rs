//! The reader: what a text says, as far as words show it.
//!
//! Comes in: a text and a dictionary. Goes out: a [`Reading`]: sentences, clauses and how they hang together, pieces with
//! their keys, numbers with units, and claims (which quantity goes which way). **Must not know**: guides and points.

mod alike;
mod case;
mod claim;
mod clause;
mod deed;
mod denial;
mod homograph;
mod implied;
mod number;
mod phrase;
mod piece;
#[cfg(test)]
mod tests;
pub(crate) mod token;
mod unit_name;
mod view;
mod wording;

use std::ops::Range;

pub(crate) use claim::Claim;
pub(crate) use clause::Clause;
pub(crate) use number::Number;
pub(crate) use phrase::says_which;
pub(crate) use piece::{Piece, Role};
pub use view::{ReadClaim, ReadLink, ReadNumber, ReadSpan, ReadTerm, View};

use super::dictionary::Dictionary;
use super::meaning::{Direction, Link};

/// A text as read.
#[derive(Debug, Clone)]
pub(crate) struct Reading {
    pub(crate) text: String,
    pub(crate) sentences: Vec<token::Sentence>,
    pub(crate) pieces: Vec<Piece>,
    pub(crate) clauses: Vec<Clause>,
    pub(crate) numbers: Vec<Number>,
    pub(crate) claims: Vec<Claim>,
}

impl Reading {
    /// Reads a text.
    pub(crate) fn of(text: &str, dictionary: &Dictionary) -> Self {
        let sentences = token::sentences(text);
        let numbers = number::numbers(text);
        let mut pieces = piece::pieces(text, &sentences, &numbers, dictionary);
        let clauses = clause::clauses(&mut pieces);
        denial::disbelieve(&clauses, &mut pieces);
        let claims = claim::claims(&pieces, &clauses, dictionary);
        Self { text: text.to_owned(), sentences, pieces, clauses, numbers, claims }
    }

    /// The pieces of a clause.
    pub(crate) fn within(&self, clause: &Clause) -> &[Piece] {
        self.pieces.get(clause.pieces.clone()).unwrap_or_default()
    }

    /// Whether a claim tells what the rest of its sentence follows from: with "if", in the first half of a comparison ("the
    /// more …, the …"), or before "so".
    pub(crate) fn leads(&self, claim: &Claim) -> bool {
        let Some(own) = self.clauses.get(claim.clause) else { return false };
        let next = self.clauses.get(claim.clause + 1).filter(|next| next.sentence == own.sentence);
        let half = |clause: &Clause| clause::starts_with_the(self.within(clause));
        let opens = claim.clause.checked_sub(1).and_then(|before| self.clauses.get(before)).map(|one| one.sentence)
            != Some(own.sentence);
        own.link == Some(Link::If)
            || next.is_some_and(|next| (half(own) && half(next)) || (opens && next.link == Some(Link::So)))
    }

    /// Whether a claim is the first of its sentence.
    pub(crate) fn opens_sentence(&self, claim: &Claim) -> bool {
        let sentence = |claim: &Claim| self.clauses.get(claim.clause).map(|clause| clause.sentence);
        !self.claims.iter().any(|other| !other.aside && other.at < claim.at && sentence(other) == sentence(claim))
    }

    /// Whether a clause puts a case: "if", "when".
    pub(crate) fn supposes(&self, claim: &Claim) -> bool {
        let start = self.clauses.get(claim.clause).map_or(0, |clause| clause.pieces.start);
        let word =
            start.checked_sub(1).and_then(|before| self.pieces.get(before)).map_or("", |piece| piece.lower.as_str());
        matches!(word, "if" | "when" | "whenever")
    }

    /// "It makes no difference": said outright, and not as what is kept alike.
    pub(crate) fn tells_none(&self, claim: &Claim) -> bool {
        let word = self.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
        ["difference", "effect", "influence", "impact", "matter"].iter().any(|ending| word.ends_with(ending))
    }

    /// Whether its sentence goes on to tell of a change.
    pub(crate) fn goes_on(&self, claim: &Claim) -> bool {
        let sentence = |claim: &Claim| self.clauses.get(claim.clause).map(|clause| clause.sentence);
        let moves = |claim: &Claim| matches!(claim.direction, Direction::Up | Direction::Down);
        self.claims.iter().any(|other| other.at > claim.at && sentence(other) == sentence(claim) && moves(other))
    }

    /// "the volume being equal": told as what is kept alike.
    pub(crate) fn being(&self, claim: &Claim) -> bool {
        let word = |place: Option<usize>| {
            let piece = place.and_then(|place| self.pieces.get(place));
            piece.map_or("", |piece| self.slice(&piece.bytes))
        };
        word(claim.at.checked_sub(1)) == "being" || word(Some(claim.at)).starts_with("being")
    }

    /// Whether a claim is set against what was said: "But …", "…, although …".
    pub(crate) fn set_against(&self, claim: &Claim) -> bool {
        let sentence = self.clauses.get(claim.clause).map(|clause| clause.sentence);
        let own = self.clauses.get(..=claim.clause).unwrap_or_default();
        own.iter().any(|clause| Some(clause.sentence) == sentence && clause.link == Some(Link::But))
    }

    /// Whether the occasion of a claim follows in its sentence: "… when there is more".
    pub(crate) fn heads(&self, claim: &Claim) -> bool {
        let sentence = self.clauses.get(claim.clause).map(|clause| clause.sentence);
        let later = self.clauses.iter().skip(claim.clause + 1);
        later.take_while(|clause| Some(clause.sentence) == sentence).any(|clause| clause.link == Some(Link::If))
    }

    /// The words of a range of bytes.
    pub(crate) fn slice(&self, bytes: &Range<usize>) -> &str {
        self.text.get(bytes.clone()).unwrap_or_default()
    }
}
