//! Statements that name things and say of none which way it goes ("Gametes are formed by meiosis."): a term of the trade may not
//! be missing, nor another thing stand in a thing's place.

use std::ops::Range;

use super::correction::opens;
use super::guide::Point;
use super::judge::{Fared, Judge, limit};
use super::matching::Match;
use super::meaning::Link;
use super::pattern::{Pattern, Unit};
use super::read::{Clause, Piece, Role};

impl Judge<'_> {
    /// How such a statement fares, and where it is denied. Without one of its terms it is told in part; it is denied where an answer
    /// has the opposite of one of its things instead.
    pub(super) fn undirected(&self, pattern: &Pattern, found: &Match, fared: Fared) -> (Fared, Option<Range<usize>>) {
        let enough = found.coverage + found.denied >= limit::WORDS_ALONE;
        match (fared, self.exchanged(pattern)) {
            // "The cytoplasm is hypotonic to the bath", for a bath that is hypertonic to the cytoplasm.
            (Fared::Partly | Fared::Denied, None) if enough && self.told_from_the_other_side(pattern) => {
                (Fared::Said, None)
            }
            (Fared::Said | Fared::Partly | Fared::Denied, Some(place)) if enough => (Fared::Denied, Some(place)),
            (Fared::Said, _) if self.lacks_a_term(pattern) => (Fared::Partly, None),
            _ => (fared, None),
        }
    }

    /// Whether a stretch says such a statement itself: "No, water leaves the cell by osmosis" takes back something else.
    pub(super) fn says_in(&self, point: &Point, stretch: &Range<usize>) -> bool {
        let pattern = self.pattern(point.said());
        let inside = |piece: &&Piece| stretch.contains(&piece.bytes.start);
        let own: Vec<Piece> = self.reading.pieces.iter().filter(inside).cloned().collect();
        let said = pattern.units.iter().filter(|unit| self.says(unit, &own, true));
        let weight: f64 = said.map(|unit| unit.weight).sum();
        pattern.wanted.is_empty() && weight >= limit::WORDS_ALONE * pattern.weight()
    }

    /// Whether a term of the statement stands nowhere in the answer: what is formed is told, and not by what.
    fn lacks_a_term(&self, pattern: &Pattern) -> bool {
        let mut terms = pattern.units.iter().filter(|unit| !unit.prompted && self.is_of_trade(unit));
        terms.any(|unit| !self.says(unit, &self.reading.pieces, true))
    }

    /// Whether the answer has another term instead of one of the statement's: the phloem for the xylem. Two words that compare say the
    /// same from two sides, and are none.
    pub(super) fn has_another_term(&self, pattern: &Pattern) -> bool {
        let all = &self.reading.pieces;
        let mut terms = pattern.units.iter().filter(|unit| self.is_of_trade(unit) && !self.compares(unit));
        terms.any(|unit| self.says(unit, all, false) && !self.says(unit, all, true))
    }

    fn is_of_trade(&self, unit: &Unit) -> bool {
        unit.keys.iter().any(|key| self.dictionary.is_of_trade(key))
    }

    fn compares(&self, unit: &Unit) -> bool {
        unit.keys.iter().any(|key| self.dictionary.compares(key))
    }

    /// Where a clause tells the statement with the opposite of one of its things in that one's place, or denies it, and nothing
    /// behind says it rightly: "Water enters the cell" for what leaves it.
    fn exchanged(&self, pattern: &Pattern) -> Option<Range<usize>> {
        let sure = |clause: &&Clause| {
            let mut all = self.reading.clauses.iter().filter(|one| one.sentence == clause.sentence);
            !clause.hedged && !all.any(|one| one.link == Some(Link::If))
        };
        let heavy = |unit: &&Unit| !unit.keys.iter().all(|key| self.dictionary.is_light(key));
        self.reading.clauses.iter().filter(sure).find_map(|clause| {
            pattern.units.iter().filter(heavy).find_map(|unit| self.exchanged_in(clause, unit, pattern))
        })
    }

    /// The same for one of its things in one clause.
    fn exchanged_in(&self, clause: &Clause, unit: &Unit, pattern: &Pattern) -> Option<Range<usize>> {
        let own = self.reading.within(clause);
        // Where what is compared stands in the other order, the same word is the wrong one.
        let right = !(self.compares(unit) && self.turned_round(pattern, own));
        let at = own.iter().position(|piece| self.says_unit(unit, piece) == Some(!right))?;
        let place = own.get(at)?.bytes.clone();
        let behind: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.bytes.start > place.start).collect();
        let rightly = right && behind.into_iter().any(|piece| self.says_unit(unit, piece) == Some(true));
        if rightly || self.says(unit, own, right) {
            return None;
        }
        let before: Vec<&Piece> = self
            .reading
            .pieces
            .iter()
            .filter(|piece| {
                piece.sentence == clause.sentence && piece.bytes.end <= own.last().map_or(0, |one| one.bytes.end)
            })
            .collect();
        let taken_up = self.takes_up(clause, own);
        // "Gametes are made | by …": a clause that begins with it goes on from what stands before.
        let goes_on = !own.get(..at)?.iter().any(|piece| piece.role == Role::Content);
        let within = |unit: &Unit, wanted: bool| before.iter().any(|piece| self.says_unit(unit, piece) == Some(wanted));
        let subject = pattern.units.first()?;
        let of_it = taken_up || self.says(subject, own, true) || (goes_on && within(subject, true)) || subject == unit;
        let told = |one: &&Unit| within(one, true) || within(one, false) || (taken_up && *one == subject);
        let weight: f64 = pattern.units.iter().filter(told).map(|unit| unit.weight).sum();
        (of_it && weight >= limit::HALF * pattern.weight()).then_some(place)
    }

    /// Whether a clause has what is compared in the other order: the last thing of the statement first, and the first one last.
    fn turned_round(&self, pattern: &Pattern, own: &[Piece]) -> bool {
        let place = |unit: &Unit| own.iter().position(|piece| self.says_unit(unit, piece) == Some(true));
        let (Some(first), Some(last)) = (pattern.units.first(), pattern.units.last()) else { return false };
        let word = own.iter().position(|piece| piece.keys.iter().any(|key| self.dictionary.compares(key)));
        match (place(first), word, place(last)) {
            (Some(first), Some(word), Some(last)) => last < word && word < first,
            _ => false,
        }
    }

    pub(super) fn told_from_the_other_side(&self, pattern: &Pattern) -> bool {
        let Some(compared) = pattern.units.iter().find(|unit| self.compares(unit)) else { return false };
        self.reading.clauses.iter().any(|clause| {
            let own = self.reading.within(clause);
            self.turned_round(pattern, own) && self.says(compared, own, false)
        })
    }

    /// Whether a clause speaks of what was spoken of before: "It …", "Actually …".
    fn takes_up(&self, clause: &Clause, own: &[Piece]) -> bool {
        let sentence = self.reading.sentences.get(clause.sentence);
        let corrects = sentence.is_some_and(|sentence| opens(self.reading.slice(&sentence.bytes)));
        corrects || own.iter().find(|piece| piece.role != Role::Plain).is_some_and(|piece| piece.role == Role::Pronoun)
    }

    /// Whether one of these pieces says a unit, or denies it where that is asked.
    fn says(&self, unit: &Unit, pieces: &[Piece], wanted: bool) -> bool {
        pieces.iter().any(|piece| self.says_unit(unit, piece) == Some(wanted))
    }

    /// Whether a piece says a unit, or denies it; nothing where it is of something else.
    fn says_unit(&self, unit: &Unit, piece: &Piece) -> Option<bool> {
        if !matches!(piece.role, Role::Content | Role::Turn(_)) {
            return None;
        }
        if self.matcher().share(unit, piece) >= limit::HALF {
            return Some(piece.negated == unit.negated);
        }
        let mut opposites = unit.keys.iter().flat_map(|key| self.dictionary.opposites(key));
        opposites.any(|key| piece.keys.iter().any(|own| own == key)).then_some(piece.negated != unit.negated)
    }
}
