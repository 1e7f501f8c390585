//! The reader: what a text says, as far as words show it.
//!
//! Comes in: a text and a dictionary. Goes out: a [`Reading`]: sentences, clauses and how they hang together, pieces with
//! their keys, numbers with units, and claims (which quantity goes which way). **Must not know**: guides and points.

mod claim;
mod clause;
mod number;
mod phrase;
mod piece;
pub(crate) mod token;
mod unit_name;
mod view;
mod wording;

use std::ops::Range;

pub(crate) use claim::Claim;
pub(crate) use clause::Clause;
pub(crate) use number::Number;
pub(crate) use piece::{Piece, Role};
pub use view::{ReadClaim, ReadLink, ReadNumber, ReadSpan, ReadTerm, View};

use super::dictionary::Dictionary;

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
        let claims = claim::claims(&pieces, &clauses, dictionary);
        Self { text: text.to_owned(), sentences, pieces, clauses, numbers, claims }
    }

    /// The pieces of a clause.
    pub(crate) fn within(&self, clause: &Clause) -> &[Piece] {
        self.pieces.get(clause.pieces.clone()).unwrap_or_default()
    }

    /// The words of a range of bytes.
    pub(crate) fn slice(&self, bytes: &Range<usize>) -> &str {
        self.text.get(bytes.clone()).unwrap_or_default()
    }
}
