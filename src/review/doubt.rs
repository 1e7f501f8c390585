//! What an answer leaves open: told under a doubt, or as one of two things.

use std::collections::BTreeSet;

use super::judge::Judge;
use super::read::{Piece, Role};
use super::verdict::Stretch;

/// Hedges that doubt nothing by themselves: "the acid could act", "it doesn't matter either", "suppose it is less".
const SUPPOSING: &[&str] = &["could", "either", "suppose", "roughly", "flatter", "somewhat"];

/// Words that may stand before the hedge with which a sentence opens.
const BEFORE: &[&str] = &["so", "well", "and", "then", "i", "i'd", "would"];

impl Judge<'_> {
    /// Whether all that speaks for a point stands in sentences that leave it open. What one sentence guesses, another may still
    /// tell outright.
    pub(super) fn in_doubt(&self, places: &[Stretch]) -> bool {
        let number = |place: &Stretch| {
            let holds = |range: &std::ops::Range<usize>| range.contains(&place.bytes.start);
            self.reading.sentences.iter().position(|sentence| holds(&sentence.bytes))
        };
        let said: BTreeSet<usize> = places.iter().filter(|place| place.says).filter_map(number).collect();
        !said.is_empty() && said.into_iter().all(|sentence| self.doubtful(sentence))
    }

    /// Whether a sentence commits itself to nothing: it opens with a guess, guesses twice, or guesses between two things. One
    /// "might" in passing may hedge anything.
    fn doubtful(&self, sentence: usize) -> bool {
        let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == sentence).collect();
        let word = |at: usize| own.get(at).map_or("", |piece| piece.lower.as_str());
        let guesses = |at: &usize| {
            let piece = own.get(*at).filter(|piece| piece.role == Role::Hedge);
            let alone = |piece: &&Piece| !SUPPOSING.contains(&piece.lower.as_str());
            let i_suppose = word(*at) == "suppose" && at.checked_sub(1).is_some_and(|before| word(before) == "i");
            i_suppose || piece.is_some_and(alone)
        };
        let hedges: Vec<usize> = (0..own.len()).filter(guesses).collect();
        let Some(first) = hedges.first() else { return false };
        let opens = (0..*first).all(|at| BEFORE.contains(&word(at)));
        let between = own.iter().any(|piece| piece.lower == "or" || piece.lower.starts_with("or "));
        opens || between || hedges.len() >= 2
    }
}

/// What stands behind the "or" of an answer that names one thing or another.
pub(super) fn alternative(text: &str) -> Option<&str> {
    let (_, rest) = text.split_once(" or ")?;
    (!rest.contains(" nor ")).then_some(rest)
}
