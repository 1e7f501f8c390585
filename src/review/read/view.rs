//! A reading as others see it: JSON with places in characters.

use std::ops::Range;

use serde::Serialize;

use super::Reading;
use super::piece::Role;
use crate::review::meaning::{Direction, Link};

/// Version of the shape of [`View`].
const VERSION: u32 = 1;

/// Everything that was read of a text. All places count characters (Unicode scalar values) from 0; `end` is the first
/// character that no longer belongs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// Version of this shape.
    pub version: u32,
    /// The sentences.
    pub sentences: Vec<ReadSpan>,
    /// Numbers and their units.
    pub numbers: Vec<ReadNumber>,
    /// What is named: words and phrases, with the keys by which they are matched.
    pub terms: Vec<ReadTerm>,
    /// Directions and what they speak of.
    pub directions: Vec<ReadClaim>,
    /// Words that negate.
    pub negations: Vec<ReadSpan>,
    /// Words that link.
    pub links: Vec<ReadLink>,
}

/// A stretch of the text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadSpan {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// As written.
    pub text: String,
}

/// A number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadNumber {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// As written.
    pub text: String,
    /// In that unit.
    pub value: f64,
    /// UCUM code; none where no unit was read.
    pub unit: Option<String>,
    /// Significant figures shown.
    pub figures: usize,
}

/// Something named.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadTerm {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// As written.
    pub text: String,
    /// Keys by which it is matched; a term of the lexicon begins with `t:`.
    pub keys: Vec<String>,
    /// Under a negation.
    pub negated: bool,
}

/// A direction.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadClaim {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// Direction and quantity as written.
    pub text: String,
    /// Which way, negations taken in.
    pub direction: Direction,
    /// Keys of the quantity.
    pub of: Vec<String>,
    /// The quantity was taken over from before.
    pub carried: bool,
    /// Told of another case, or of what others believe.
    pub aside: bool,
}

/// A link.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadLink {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// As written.
    pub text: String,
    /// What it does.
    pub kind: Link,
}

impl Reading {
    /// The reading in characters.
    pub(crate) fn view(&self) -> View {
        let named = |role: Role| role == Role::Content;
        View {
            version: VERSION,
            sentences: self.sentences.iter().map(|one| self.span(&one.bytes)).collect(),
            numbers: self.numbers.iter().map(|one| self.view_number(one)).collect(),
            terms: self.pieces.iter().filter(|piece| named(piece.role)).map(|piece| self.view_term(piece)).collect(),
            directions: self.claims.iter().map(|claim| self.view_claim(claim)).collect(),
            negations: self
                .pieces
                .iter()
                .filter(|piece| piece.role == Role::Negator)
                .map(|piece| self.span(&piece.bytes))
                .collect(),
            links: self.pieces.iter().filter_map(|piece| self.view_link(piece)).collect(),
        }
    }

    /// A stretch given in bytes, in characters.
    pub(crate) fn span(&self, bytes: &Range<usize>) -> ReadSpan {
        let before = |byte: usize| self.text.get(..byte).map_or(0, |head| head.chars().count());
        ReadSpan { start: before(bytes.start), end: before(bytes.end), text: self.slice(bytes).to_owned() }
    }

    fn view_number(&self, number: &super::Number) -> ReadNumber {
        let ReadSpan { start, end, text } = self.span(&number.bytes);
        let unit = number.unit.as_ref().map(|unit| unit.code().to_owned());
        ReadNumber { start, end, text, value: number.value, unit, figures: number.figures }
    }

    fn view_term(&self, piece: &super::Piece) -> ReadTerm {
        let ReadSpan { start, end, text } = self.span(&piece.bytes);
        ReadTerm { start, end, text, keys: piece.keys.clone(), negated: piece.negated }
    }

    fn view_claim(&self, claim: &super::Claim) -> ReadClaim {
        let ReadSpan { start, end, text } = self.span(&self.claim_bytes(claim));
        ReadClaim {
            start,
            end,
            text,
            direction: claim.direction,
            of: claim.about.iter().map(|(key, _)| key.clone()).collect(),
            carried: claim.carried,
            aside: claim.aside,
        }
    }

    /// Where a claim stands.
    pub(crate) fn claim_bytes(&self, claim: &super::Claim) -> Range<usize> {
        let pieces = self.pieces.get(claim.pieces.clone()).unwrap_or_default();
        let start = pieces.first().map_or(0, |piece| piece.bytes.start);
        start..pieces.last().map_or(start, |piece| piece.bytes.end)
    }

    fn view_link(&self, piece: &super::Piece) -> Option<ReadLink> {
        let Role::Link(kind) = piece.role else { return None };
        let ReadSpan { start, end, text } = self.span(&piece.bytes);
        Some(ReadLink { start, end, text, kind })
    }
}
