//! What an answer takes back: a later sentence that sets itself against what was said.

use std::ops::Range;

use super::correction::opens;
use super::guide::Point;
use super::judge::{Judge, limit};
use super::kinds::against;
use super::read::Piece;

impl Judge<'_> {
    /// A later sentence that sets itself against what was said ("But …", "… though") and speaks of this point. Where its
    /// claims are of the guide, they decide; else it is of the point that it names most of.
    pub(super) fn taken_back(&self, point: &Point) -> Option<Range<usize>> {
        let own = self.question.points.iter().position(|one| one.id == point.id)?;
        for (number, sentence) in self.reading.sentences.iter().enumerate().skip(1) {
            let pieces: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number).collect();
            if !against(&pieces, false) && !opens(self.reading.slice(&sentence.bytes)) {
                continue;
            }
            let claims: Vec<usize> =
                (0..self.reading.claims.len()).filter(|at| self.sentence_of(*at) == Some(number)).collect();
            let told = self.course.told_by(&claims);
            let speaks = if told.is_empty() {
                let counts: Vec<usize> = self.question.points.iter().map(|one| self.names(one, &pieces)).collect();
                let most = counts.iter().max().copied().unwrap_or(0);
                most > 0 && counts.iter().position(|count| *count == most) == Some(own)
            } else {
                told.contains(&(own, false))
            };
            if speaks {
                return Some(sentence.bytes.clone());
            }
        }
        None
    }

    /// The sentence of a claim.
    fn sentence_of(&self, claim: usize) -> Option<usize> {
        let claim = self.reading.claims.get(claim)?;
        self.reading.clauses.get(claim.clause).map(|clause| clause.sentence)
    }

    /// How many of the things of a point these pieces name; what its steps lead to counts twice.
    fn names(&self, point: &Point, pieces: &[&Piece]) -> usize {
        let pattern = self.pattern(point.said());
        let outcome = |key: &String| {
            let effects = pattern.wanted.iter().filter(|wanted| !wanted.cause);
            effects.flat_map(|wanted| &wanted.about).any(|(known, weight)| known == key && *weight >= limit::HALF)
        };
        let telling = pattern.units.iter().filter(|unit| !unit.prompted || pattern.direction_alone);
        let keys = telling.filter_map(|unit| unit.keys.first());
        let seen = keys.filter(|key| pieces.iter().any(|piece| piece.keys.contains(key)));
        seen.map(|key| 1 + usize::from(outcome(key))).sum()
    }
}
