//! What a point rejects, said by the answer.

use std::collections::BTreeSet;
use std::ops::Range;

use super::guide::Point;
use super::judge::{Judge, earns_by_direction, limit};
use super::meaning::Accord;
use super::pattern::{Pattern, Unit, Wanted};
use super::read::{Claim, Piece};

/// Where the stretches end.
fn things(places: &[Range<usize>]) -> impl Iterator<Item = usize> + '_ {
    places.iter().map(|place| place.end)
}

/// So many things make a short refused sentence.
const SHORT: usize = 3;

impl Judge<'_> {
    /// Where the response says what the point rejects, judged by what the statement does not say itself.
    pub(super) fn rejected(&self, point: &Point, statement: &Pattern) -> Option<Vec<Range<usize>>> {
        for text in &point.reject {
            let mut pattern = self.pattern(text);
            if pattern.alone {
                continue;
            }
            let own = |unit: &Unit| {
                !statement.units.iter().any(|known| {
                    known.negated == unit.negated && unit.keys.first().is_some_and(|key| known.keys.contains(key))
                })
            };
            let telling: Vec<Unit> = pattern.units.iter().filter(|unit| own(unit) && !unit.prompted).cloned().collect();
            let whole = self.matcher().in_one_sentence(&pattern);
            let few = pattern.units.len() <= 2;
            // One word that stands for all of it says none of it: "a high melting temperature means that they melt easily".
            let places: BTreeSet<usize> = things(&whole.says).collect();
            if pattern.units.len() >= 3 && places.len() < 2 {
                continue;
            }
            // Said in full, and more plainly than anything of the statement.
            let said = pattern.units.len() >= 3
                && self.matcher().named_together(&pattern) > limit::IN_FULL
                && self.matcher().named_together(statement) < limit::LESS_PLAINLY
                && if pattern.wanted.is_empty() {
                    self.in_one_clause(&pattern)
                } else {
                    self.says_so(&pattern) > limit::IN_FULL
                };
            if said {
                return Some(whole.says);
            }
            // Where the direction earns by itself, no reason is asked for.
            if !earns_by_direction(point) && self.refused(&pattern, statement, &telling) {
                return Some(whole.says);
            }
            if telling.is_empty() || (telling.len() < 2 && !few) || whole.coverage < limit::REJECTED {
                continue;
            }
            if self.matcher().named_together(&pattern)
                < if pattern.units.len() <= 4 { limit::REJECTED_SHORT } else { limit::REJECTED_LONG }
            {
                continue;
            }
            if pattern.wanted.is_empty() && !self.in_one_clause(&pattern) {
                continue;
            }
            pattern.units = telling;
            let found = self.matcher().in_one_sentence(&pattern);
            let agrees = pattern.wanted.is_empty() || self.says_so(&pattern) >= limit::AGREEMENT;
            if found.coverage >= limit::REJECTED_OWN && found.denied <= 0.0 && agrees {
                return Some(if whole.says.is_empty() { found.says } else { whole.says });
            }
        }
        None
    }

    /// Whether one clause names most things of a sentence: "the enzyme splits the dye" is not said by "more enzyme,
    /// quicker splitting, and the dye …".
    fn in_one_clause(&self, pattern: &Pattern) -> bool {
        let names = |piece: &Piece, unit: &Unit| {
            unit.keys.first().is_some_and(|key| piece.keys.contains(key) || piece.also.contains(key))
        };
        // Of a short one, all of it, what does so before what it does.
        let short = pattern.units.len() <= SHORT;
        self.reading.clauses.iter().any(|clause| {
            let own = self.reading.within(clause);
            let place = |unit: &Unit| own.iter().position(|piece| names(piece, unit));
            let places: Vec<Option<usize>> = pattern.units.iter().map(place).collect();
            let seen = places.iter().flatten().count();
            let in_order = match places.as_slice() {
                [Some(one), Some(other), ..] => one <= other,
                _ => false,
            };
            if short { seen == places.len() && (in_order || places.len() < 2) } else { seen * 3 >= places.len() * 2 }
        })
    }

    /// Share of the directions of a rejected sentence that the answer claims, by claims that speak of nothing in the guide more
    /// plainly.
    pub(super) fn says_so(&self, pattern: &Pattern) -> f64 {
        let matcher = self.matcher();
        let claimed = |wanted: &Wanted, number: usize, claim: &Claim| {
            let known = matcher.same_quantity(wanted, claim, false);
            known.is_some_and(|(share, mirrored)| {
                let said = if mirrored { claim.direction.mirrored() } else { claim.direction };
                let agrees = wanted.direction.accord(said) == Accord::Agree;
                !claim.aside && !claim.hedged && agrees && share > self.course.plain(number) - 0.05
            })
        };
        // A claim says one thing: two directions are two claims.
        let mut used: Vec<usize> = Vec::new();
        for wanted in &pattern.wanted {
            let mut claims = self.reading.claims.iter().enumerate();
            let found = claims.find(|(number, claim)| !used.contains(number) && claimed(wanted, *number, claim));
            used.extend(found.map(|(number, _)| number));
        }
        let all = u32::try_from(pattern.wanted.len().max(1)).map_or(1.0, f64::from);
        u32::try_from(used.len()).map_or(0.0, f64::from) / all
    }
}
