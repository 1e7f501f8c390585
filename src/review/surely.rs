//! Whether what speaks against a statement of a plain guide surely does: it is of this case, and says what the statement does not.

use std::ops::Range;
use std::sync::Arc;

use super::guide::Point;
use super::judge::Judge;
use super::read::{Claim, Piece, Reading, Role};
use super::strict::names_one_of;
use super::verdict::Stretch;

/// Words that tell when.
const TIMES: &[&str] = &["before", "after", "during"];

/// Words by which a sentence speaks of another case.
const ANOTHER_CASE: &[&str] = &["would", "could", "might", "otherwise", "were", "unless", "without", "if", "had"];

impl Judge<'_> {
    /// Whether one of these denials is sure.
    pub(super) fn denies_surely(&self, point: &Point, places: &[Stretch]) -> bool {
        let statement = self.dictionary.of_guide(&self.pattern(point.said()).text);
        let others = point.accept.iter().chain(&point.reject).map(|text| self.dictionary.of_guide(text));
        let guide: Vec<Arc<Reading>> = std::iter::once(Arc::clone(&statement)).chain(others).collect();
        let earned = places.iter().any(|one| one.says);
        let several = self.reading.sentences.len() > 1;
        places.iter().filter(|stretch| !stretch.says).any(|stretch| {
            let own = self.sentence_at(&stretch.bytes);
            let strange = (earned || (several && point.reject.is_empty())) && self.is_of_something_else(&own, &guide);
            !strange
                && !supposes(&own)
                && !tells_another_time(&own, &statement)
                && !same_form(&own, &statement)
                && !self.says_it_as_well(&own, &statement)
                && !self.is_told_by_the_guide(&stretch.bytes, &statement)
        })
    }

    /// The pieces of the sentence in which a stretch begins.
    fn sentence_at(&self, bytes: &Range<usize>) -> Vec<&Piece> {
        let touches = |piece: &&Piece| bytes.start < piece.bytes.end && piece.bytes.start < bytes.end;
        let sentence = self.reading.pieces.iter().find(touches).map(|piece| piece.sentence);
        self.reading.pieces.iter().filter(|piece| Some(piece.sentence) == sentence).collect()
    }

    /// "In wet soil …", "at 20 °C …": with a number, or a thing of which neither the guide nor the question speaks.
    fn is_of_something_else(&self, own: &[&Piece], guide: &[Arc<Reading>]) -> bool {
        let opposes = |piece: &Piece, other: &Piece| {
            piece.keys.iter().any(|key| other.keys.iter().any(|known| self.dictionary.opposed(key, known)))
        };
        let known = |piece: &Piece| {
            let of = |one: &Reading| {
                let other = |other: &Piece| {
                    // "sac" in "leaves the sac", which is one piece.
                    opposes(piece, other) || other.lower.split(' ').any(|word| word == piece.lower)
                };
                names_one_of(piece, &one.pieces) || one.pieces.iter().any(other)
            };
            of(self.prompt) || guide.iter().any(|one| of(one))
        };
        own.iter().any(|piece| matches!(piece.role, Role::Number(_)) || (self.is_heavy(piece) && !known(piece)))
    }

    /// "It is denatured, not killed": all of the statement is told beside what is denied.
    fn says_it_as_well(&self, own: &[&Piece], statement: &Reading) -> bool {
        let things: Vec<&Piece> = statement.pieces.iter().filter(|piece| self.is_heavy(piece)).collect();
        let there = |thing: &&Piece| {
            own.iter().any(|piece| piece.negated == thing.negated && names_one_of(thing, std::slice::from_ref(*piece)))
        };
        own.iter().any(|piece| piece.negated) && !things.is_empty() && things.iter().all(there)
    }

    /// "It rises and then stays the same": what the statement itself tells denies nothing.
    fn is_told_by_the_guide(&self, bytes: &Range<usize>, statement: &Reading) -> bool {
        let here = self.reading.claims.iter().filter(|claim| {
            let place = self.reading.claim_bytes(claim);
            place.start < bytes.end && bytes.start < place.end
        });
        let told = |claim: &Claim| {
            statement.claims.iter().any(|known| {
                let shared = known.about.iter().any(|(key, _)| claim.about.iter().any(|(own, _)| own == key));
                known.direction == claim.direction && (shared || known.about.is_empty())
            })
        };
        here.into_iter().any(told)
    }
}

/// Whether a sentence puts another case.
pub(super) fn supposes(own: &[&Piece]) -> bool {
    own.iter().any(|piece| piece.lower.split(' ').any(|word| ANOTHER_CASE.contains(&word)))
}

/// "… after exercise", where the statement is of what happens during it.
fn tells_another_time(own: &[&Piece], statement: &Reading) -> bool {
    let known = |word: &str| statement.pieces.iter().any(|piece| piece.lower == word);
    own.iter().any(|piece| TIMES.contains(&piece.lower.as_str()) && !known(&piece.lower))
}

/// "There is no oxygen in the water", "the water has no oxygen"; "lower in the vein than …", "the artery has more than …": what is
/// denied or compared may stand in any order.
fn same_form(own: &[&Piece], statement: &Reading) -> bool {
    let compares = |piece: &Piece| piece.lower == "than";
    let negates = |piece: &Piece| piece.role == Role::Negator;
    (own.iter().any(|piece| compares(piece)) && statement.pieces.iter().any(compares))
        || (own.iter().any(|piece| negates(piece)) && statement.pieces.iter().any(negates))
}
