//! The ends of a treatment: "brightest at 300" tells a relation where 300 is the last level.

use std::cmp::Ordering;
use std::sync::Arc;

use super::guide::Guide;
use super::meaning::{Direction, Grammar, Link};
use super::read::{Claim, Piece, Reading, Role};

/// The first and the last level of the treatment, as the questions name them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    first: f64,
    last: f64,
    /// They are sizes: "small ones" are the first.
    sizes: bool,
}

/// Tells where one level is set beside another ("one of 5 has more than one of 2") whether it is the higher one, which needs no
/// knowledge of where the treatment ends.
pub(super) fn compare(reading: &mut Reading) {
    let levels: Vec<Option<Direction>> = reading.claims.iter().map(|claim| compared(reading, claim)).collect();
    for (claim, level) in reading.claims.iter_mut().zip(levels) {
        claim.level = claim.level.or(level);
    }
}

fn compared(reading: &Reading, claim: &Claim) -> Option<Direction> {
    let sentence = reading.clauses.get(claim.clause).filter(|_| claim.compares)?.sentence;
    let than = reading.pieces.iter().enumerate().skip(claim.at);
    let than = than.take_while(|(_, piece)| piece.sentence == sentence).find(|(_, piece)| piece.lower == "than")?.0;
    let own = reading.pieces.iter().enumerate().filter(|(_, piece)| piece.sentence == sentence);
    let numbers: Vec<(usize, f64)> = own
        .filter_map(|(at, piece)| match piece.role {
            Role::Number(number) => Some((at, reading.numbers.get(number)?.value)),
            _ => None,
        })
        .collect();
    let [(before, one), (after, other)] = numbers.as_slice() else { return None };
    let between = *before < than && than < *after && *after - than <= 5;
    match one.total_cmp(other) {
        Ordering::Greater if between => Some(Direction::Up),
        Ordering::Less if between => Some(Direction::Down),
        _ => None,
    }
}

/// The first and the last level that a question names.
pub(super) fn asked(text: &str, read: impl Fn(&str) -> Arc<Reading>) -> Option<(f64, f64)> {
    Levels::named(text, &read).map(|levels| (levels.first, levels.last))
}

impl Levels {
    /// From the first question that says "from … to …", each with a number, or from the guide.
    pub(super) fn of(guide: &Guide, read: impl Fn(&str) -> Arc<Reading>) -> Option<Self> {
        let ends =
            guide.ends.as_ref().map(|ends| Self { first: ends.first, last: ends.last, sizes: ends.unit == "µm" });
        guide.questions.iter().find_map(|question| Self::named(&question.text, &read)).or(ends)
    }

    fn named(text: &str, read: &impl Fn(&str) -> Arc<Reading>) -> Option<Self> {
        let (_, rest) = text.rsplit_once(" from ")?;
        let (from, to) = rest.split_once(" to ")?;
        let number = |text: &str| read(text).numbers.first().map(|number| number.value);
        let unit = read(to).numbers.first().and_then(|number| number.unit.as_ref().map(|unit| unit.code().to_owned()));
        Some(Self { first: number(from)?, last: number(to)?, sizes: unit.as_deref() == Some("um") })
    }

    /// Tells of each claim at which end of the treatment it is made. Where the question itself asks from the first level to
    /// the last, what is told of the first is turned round, so that every claim is of that change.
    pub(super) fn tell(self, reading: &mut Reading, asked: &str, read: impl Fn(&str) -> Arc<Reading>) {
        let from_first = Self::named(asked, &read).is_some();
        let end =
            |claim: &Claim| self.end(reading, claim).or_else(|| self.occasion(reading, claim).filter(|_| from_first));
        // One relation, told at one end of it: "after 60 min there is less".
        let one = !from_first && asked.contains("escribe");
        let end = |claim: &Claim| end(claim).or_else(|| self.told_at(reading, claim).filter(|_| one));
        let known = read(asked);
        let end = |claim: &Claim| end(claim).or_else(|| self.lacking(reading, claim, &known).filter(|_| one));
        let ends: Vec<Option<bool>> = reading.claims.iter().map(end).collect();
        let backwards = self.told_backwards(reading).filter(|_| from_first);
        let sentence = |claim: &Claim| reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let turned: Vec<bool> =
            reading.claims.iter().map(|claim| backwards.is_some() && sentence(claim) >= backwards).collect();
        let ends = ends.into_iter().zip(turned).map(|(end, turned)| end.or(Some(false).filter(|_| turned)));
        let ends: Vec<Option<bool>> = ends.collect();
        let other: Vec<bool> =
            reading.claims.iter().map(|claim| from_first && self.of_another(reading, claim)).collect();
        reading.claims.iter_mut().zip(other).filter(|(_, other)| *other).for_each(|(claim, _)| claim.aside = true);
        for (claim, end) in reading.claims.iter_mut().zip(ends) {
            match end {
                Some(last) if from_first => {
                    claim.direction = if last { claim.direction } else { claim.direction.mirrored() }
                }
                Some(last) => {
                    let rises = last == (self.last > self.first);
                    claim.level = Some(if rises { Direction::Up } else { Direction::Down });
                }
                None => {}
            }
        }
    }

    /// "4.5 is lower than all of them": told of a number that is no level.
    fn of_another(self, reading: &Reading, claim: &Claim) -> bool {
        let start = reading.clauses.get(claim.clause).map_or(0, |clause| clause.pieces.start);
        let before = reading.pieces.get(start..claim.at).unwrap_or_default();
        let than = reading.pieces.get(claim.at + 1).is_some_and(|piece| piece.lower == "than");
        let opens = |lead: &[Piece]| lead.last().is_none_or(|piece| matches!(piece.role, Role::Mark(_)));
        match before {
            [lead @ .., number, is] if is.role == Role::Copula && than && opens(lead) => match number.role {
                Role::Number(number) => reading.numbers.get(number).is_some_and(|number| {
                    let (low, high) = (self.first.min(self.last), self.first.max(self.last));
                    number.value < low || number.value > high
                }),
                _ => false,
            },
            _ => false,
        }
    }

    /// The sentence from which on an answer goes from the last level to the first: "from 9 down to 7 it gets dimmer".
    fn told_backwards(self, reading: &Reading) -> Option<usize> {
        let value = |piece: &super::read::Piece| match piece.role {
            Role::Number(number) => reading.numbers.get(number).map(|number| number.value),
            _ => None,
        };
        let is =
            |piece: &super::read::Piece, level: f64| value(piece).is_some_and(|value| value.total_cmp(&level).is_eq());
        let to = |piece: &super::read::Piece| piece.lower.ends_with("to") || piece.lower.starts_with("toward");
        (0..reading.sentences.len()).find(|number| {
            let own: Vec<_> = reading.pieces.iter().filter(|piece| piece.sentence == *number).collect();
            let last = own.iter().position(|piece| is(piece, self.last));
            let from = own.iter().take(last.unwrap_or(0)).any(|piece| piece.lower == "from");
            let first = own.windows(2).position(|pair| matches!(pair, [one, next] if to(one) && is(next, self.first)));
            from && matches!((last, first), (Some(last), Some(first)) if last < first)
        })
    }

    /// At which end of the treatment a claim is made that sets nothing beside another: by the last level named before it in its
    /// sentence ("At 10 nearly all is still inside, so it is dim"), or by the want of the thing ("With none of it …").
    fn occasion(self, reading: &Reading, claim: &Claim) -> Option<bool> {
        // "so it rises" is told of all levels.
        let state = match reading.pieces.get(claim.at)?.role {
            // "makes it dim".
            Role::Turn(turn) => {
                matches!(turn.grammar, Grammar::Comparative | Grammar::Predicate)
                    || reading.pieces.get(claim.at)?.lower == "dim"
            }
            _ => false,
        };
        let sentence = reading.clauses.get(claim.clause).filter(|_| state)?.sentence;
        let own = reading.pieces.iter().enumerate().filter(|(_, piece)| piece.sentence == sentence);
        let before: Vec<(usize, Role)> =
            own.take_while(|(at, _)| *at < claim.at).map(|(at, piece)| (at, piece.role)).collect();
        let word = |at: usize| reading.pieces.get(at).map_or("", |piece| piece.lower.as_str());
        let mut end = None;
        for (at, role) in &before {
            let Role::Number(number) = role else { continue };
            let led = at.checked_sub(1).map_or("", word);
            let value = reading.numbers.get(*number).map(|number| number.value)?;
            end = match () {
                () if !matches!(led, "at" | "with" | "after" | "for") => return None,
                () if value.total_cmp(&self.last).is_eq() => Some(true),
                () if value.total_cmp(&self.first).is_eq() => Some(false),
                () => return None,
            };
        }
        let lacks = self.first.abs() <= 0.0
            && matches!(before.as_slice(), [(at, _), (next, _), ..] if word(*at) == "with" && matches!(word(*next), "no" | "none"));
        // "Unheated ones …".
        let plain = self.first.abs() <= 0.0
            && before
                .first()
                .is_some_and(|(at, _)| matches!(word(*at), "unheated" | "untreated" | "unsoaked" | "unlit"));
        let lacks = lacks || plain;
        // "big ones", "the biggest sacs", but not "the biggest share".
        let things = |at: usize| {
            let next = reading.pieces.get(at + 1);
            next.is_none_or(|piece| {
                piece.role != Role::Content || piece.keys.first().is_some_and(|key| key.starts_with("t:"))
            })
        };
        let size = |at: usize| match word(at) {
            _ if !things(at) => None,
            "small" | "smaller" | "smallest" | "tiny" => Some(false),
            "big" | "bigger" | "biggest" | "large" | "larger" | "largest" => Some(true),
            _ => None,
        };
        let sized = before.iter().rev().find_map(|(at, _)| size(*at)).filter(|_| self.sizes && self.first < self.last);
        end.or(sized).or_else(|| lacks.then_some(false))
    }

    /// "In the tube without the blocker it goes fastest": at the lower end, where what is lacking is what the question asks about.
    fn lacking(self, reading: &Reading, claim: &Claim, asked: &Reading) -> Option<bool> {
        let sentence = reading.clauses.get(claim.clause).filter(|_| claim.compares)?.sentence;
        let own: Vec<_> = reading.pieces.iter().filter(|piece| piece.sentence == sentence).collect();
        let numbers = own.iter().any(|piece| matches!(piece.role, Role::Number(_)));
        let without = own.windows(2).find_map(|pair| match pair {
            [one, next] if one.lower == "without" => Some(*next),
            _ => None,
        })?;
        let key = without.keys.first()?;
        let named = asked.pieces.iter().any(|piece| piece.keys.contains(key));
        (named && !numbers).then_some(self.last < self.first)
    }

    /// At which end of the treatment a state is told, by the one number of its sentence: "is less after 60 min".
    fn told_at(self, reading: &Reading, claim: &Claim) -> Option<bool> {
        let piece = reading.pieces.get(claim.at)?;
        let Role::Turn(turn) = piece.role else { return None };
        let clause = reading.clauses.get(claim.clause)?;
        let state = turn.grammar == Grammar::Comparative || piece.lower == "lower";
        if !state || claim.relates || claim.presence || clause.link == Some(Link::If) {
            return None;
        }
        let own = reading.pieces.iter().enumerate().filter(|(_, piece)| piece.sentence == clause.sentence);
        let mut numbers = own.filter_map(|(at, piece)| match piece.role {
            Role::Number(number) => Some((at, reading.numbers.get(number)?.value)),
            _ => None,
        });
        let (at, value) = numbers.next()?;
        let led = at.checked_sub(1).and_then(|before| reading.pieces.get(before))?;
        if numbers.next().is_some()
            || !matches!(led.lower.as_str(), "at" | "after" | "by")
            || !clause.pieces.contains(&at)
        {
            return None;
        }
        match () {
            () if value.total_cmp(&self.last).is_eq() => Some(true),
            () if value.total_cmp(&self.first).is_eq() => Some(false),
            () => None,
        }
    }

    /// Whether a claim is made of the last level; `None` where it is of neither end.
    fn end(self, reading: &Reading, claim: &Claim) -> Option<bool> {
        if !claim.compares {
            return None;
        }
        let clause = reading.clauses.get(claim.clause)?;
        // "back down from 8.8 towards 7", "each extra 10 min": a way, not a level.
        let way = |place: usize| {
            let before = place.checked_sub(1).and_then(|before| reading.pieces.get(before));
            before.is_some_and(|piece| {
                matches!(
                    piece.lower.as_str(),
                    "from" | "to" | "towards" | "toward" | "by" | "about" | "extra" | "each" | "every"
                )
            })
        };
        let numbers = |place: &usize| match reading.pieces.get(*place).map(|piece| piece.role) {
            Some(Role::Number(number)) if !way(*place) => {
                reading.numbers.get(number).map(|number| (*place, number.value))
            }
            _ => None,
        };
        let mut told: Vec<(usize, f64)> = clause.pieces.clone().filter_map(|place| numbers(&place)).collect();
        if told.is_empty() {
            let sentence =
                |place: &usize| reading.pieces.get(*place).is_some_and(|piece| piece.sentence == clause.sentence);
            told = (0..reading.pieces.len()).filter(sentence).filter_map(|place| numbers(&place)).collect();
        }
        let here = |(place, _): &&(usize, f64)| {
            clause.aside_from.is_none_or(|from| *place < from || *place >= clause.pieces.end)
        };
        let which = |value: f64| match () {
            () if value.total_cmp(&self.last).is_eq() => Some(true),
            () if value.total_cmp(&self.first).is_eq() => Some(false),
            () => None,
        };
        // "most at 8 and at 40 the least": the number right before it.
        let beside = claim.at.checked_sub(1).map(|before| {
            if reading.pieces.get(before).is_some_and(|piece| piece.role == Role::Article) {
                before.saturating_sub(1)
            } else {
                before
            }
        });
        if let Some((_, value)) = told.iter().find(|(place, _)| Some(*place) == beside) {
            return which(*value);
        }
        match told.iter().find(here) {
            // "at 40 it splits less than at 20".
            Some((_, value)) if told.len() <= 2 => which(*value),
            // "brighter than at 0".
            None => told.first().and_then(|(_, value)| which(*value)).map(|last| !last),
            Some(_) => None,
        }
    }
}
