//! What a point refuses, said by one clause of the answer in whatever order and whichever way round.

use super::judge::{Judge, limit};
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Unit};
use super::read::{Clause, Piece, Role};

/// So many things and directions make a sentence that a student may say as a whole.
const SAYABLE: std::ops::RangeInclusive<usize> = 2..=5;

impl Judge<'_> {
    /// Whether a clause says what a short refused sentence says; `telling` are the things that the statement does not name.
    pub(super) fn refused(&self, pattern: &Pattern, statement: &Pattern, telling: &[Unit]) -> bool {
        let heavy = |unit: &&Unit| !unit.keys.first().is_none_or(|key| self.dictionary.is_light(key));
        let sayable = SAYABLE.contains(&(pattern.units.len() + pattern.wanted.len()));
        let own = telling.iter().any(|unit| heavy(&unit));
        if !sayable || !pattern.units.iter().any(|unit| heavy(&unit)) {
            return false;
        }
        if pattern.wanted.is_empty() {
            return own && (self.one_clause_says(&pattern.units, true) || self.says_its_reason(pattern));
        }
        if own && pattern.wanted.len() == 1 {
            return self.one_clause_says(&pattern.units, false) && self.moves_it(pattern);
        }
        // "Heat lowers the activation energy", where the statement has heat and that energy, and says nothing of the kind.
        let fits = |one: &super::pattern::Wanted| {
            statement.wanted.iter().any(|known| {
                known.direction.accord(one.direction) != Accord::Oppose && self.matcher().alike(known, one)
            })
        };
        let last = pattern.wanted.last();
        let strange = last.is_some_and(|one| one.direction != Direction::Same && !fits(one));
        strange
            && pattern.wanted.len() >= 2
            && telling.is_empty()
            && self.one_clause_says(&pattern.units, false)
            && self.says_so(pattern) > limit::IN_FULL
    }

    /// "the reaction stops when the enzyme is used up": the occasion of it alone betrays the thought.
    fn says_its_reason(&self, pattern: &Pattern) -> bool {
        let reading = self.dictionary.of_guide(&pattern.text);
        let reason = |clause: &&Clause| matches!(clause.link, Some(Link::If | Link::Because));
        reading.clauses.iter().filter(reason).any(|clause| {
            let named = |unit: &&Unit| {
                let has = |piece: &Piece| unit.keys.first().is_some_and(|key| piece.keys.first() == Some(key));
                reading.within(clause).iter().any(has)
            };
            let units: Vec<Unit> = pattern.units.iter().filter(named).cloned().collect();
            units.len() >= 2 && self.one_clause_says(&units, true)
        })
    }

    /// Whether one clause names all these things, what does it before what is done, or behind "by"; "it" stands for the first
    /// where that was named before.
    fn one_clause_says(&self, units: &[Unit], in_order: bool) -> bool {
        let names = |piece: &Piece, unit: &Unit| {
            unit.keys.first().is_some_and(|key| piece.keys.contains(key) || piece.also.contains(key))
        };
        self.reading.clauses.iter().any(|clause| {
            let own = self.reading.within(clause);
            let until = clause.aside_from.map_or(own.len(), |from| from.saturating_sub(clause.pieces.start));
            let own = own.get(..until).unwrap_or(own);
            let place = |unit: &Unit| {
                own.iter().position(|piece| names(piece, unit) && (!in_order || piece.negated == unit.negated))
            };
            let places: Vec<Option<usize>> = units.iter().map(place).collect();
            let rest = places.iter().skip(1).all(Option::is_some);
            if units.len() == 1 {
                return places.first().is_some_and(Option::is_some);
            }
            match (places.first().copied().flatten(), places.get(1).copied().flatten()) {
                (Some(first), Some(second)) if rest => {
                    let before = own.get(..first).unwrap_or_default();
                    let by = before.iter().rfind(|piece| piece.role != Role::Article);
                    !in_order || first <= second || by.is_some_and(|piece| piece.lower == "by")
                }
                (None, Some(second)) if rest && in_order && units.len() >= 3 => {
                    let it = own.iter().position(|piece| piece.role == Role::Pronoun && piece.lower == "it");
                    let before = self.reading.pieces.get(..clause.pieces.start).unwrap_or_default();
                    let topic = before.iter().rfind(|piece| piece.role == Role::Content && !piece.verb);
                    let known = units.first().is_some_and(|unit| topic.is_some_and(|piece| names(piece, unit)));
                    it.is_some_and(|it| it < second) && known
                }
                _ => false,
            }
        })
    }

    /// Whether the answer says of what a refused sentence speaks that it goes up or down, and means nothing of the guide by it: a
    /// membrane "less permeable" is as much another reason as one "more permeable".
    fn moves_it(&self, pattern: &Pattern) -> bool {
        let matcher = self.matcher();
        let Some(wanted) = pattern.wanted.first() else { return false };
        self.reading.claims.iter().enumerate().any(|(number, claim)| {
            let known = matcher.same_quantity(wanted, claim, false);
            let moves = matches!(claim.direction, Direction::Up | Direction::Down);
            let own = known.is_some_and(|(share, _)| share > self.course.plain(number) + 0.05);
            own && moves && !claim.aside && !claim.hedged
        })
    }
}
