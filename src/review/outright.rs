//! Predictions told without a word of direction: "Up, because …", "about 0.4 at 5 and 0.1 at 60", "the one at 60 well above
//! the one at 5".

use std::ops::Range;

use super::judge::Judge;
use super::matching::{Found, Match};
use super::meaning::{Accord, Direction, Link};
use super::pattern::Pattern;
use super::read::{Piece, Role};
use super::unchanged::levels_alike;
use super::words::lists;

/// How far apart two readings may lie and still count as one.
const ALIKE: f64 = 0.03;
/// How many times larger or smaller than the guide's a reading may be told.
const FAR: f64 = 6.0;
/// How many words before a level "above" may stand.
const NEXT: usize = 5;

impl Judge<'_> {
    /// What is told of a prediction, also in these ways. They go with the claims of the answer or against them.
    pub(super) fn predicted(&self, pattern: &Pattern) -> Match {
        let mut found = self.opened(pattern);
        let Some(wanted) = pattern.wanted.last().map(|wanted| wanted.direction) else { return found };
        let guide = self.dictionary.of_guide(&pattern.text);
        let near = |value: f64| {
            let value = value.abs();
            let known = guide.numbers.iter().map(|number| number.value.abs());
            known.into_iter().any(|known| value > known / FAR && value < known * FAR)
        };
        let told = (0..self.reading.sentences.len()).filter_map(|sentence| self.told_at_levels(sentence, &near));
        let corrected = self.corrected();
        for (direction, place) in told.chain(corrected) {
            let accord = wanted.accord(direction);
            if let Some(last) = found.turns.last_mut() {
                *last = match (accord, *last) {
                    (Accord::Agree, Found::Missing | Found::Unclear) => Found::Agrees,
                    (Accord::Oppose, Found::Missing | Found::Unclear) => Found::Opposed,
                    (Accord::Oppose, Found::Agrees) => Found::Both,
                    (_, before) => before,
                };
            }
            match accord {
                Accord::Agree => found.says.push(place),
                Accord::Oppose => found.denies.push(place),
                Accord::Unclear => {}
            }
        }
        found
    }

    /// The same with nothing but its opening: "Up, because …", "Not up but down".
    pub(super) fn opened(&self, pattern: &Pattern) -> Match {
        let mut found = self.matcher().find(pattern);
        let wanted = pattern.wanted.last().map(|wanted| wanted.direction);
        let opening = opening(&self.reading.text).filter(|_| pattern.direction_alone);
        if let (Some(wanted), Some((direction, place)), Some(last)) = (wanted, opening, found.turns.last_mut())
            && matches!(last, Found::Missing | Found::Unclear)
        {
            let accord = wanted.accord(direction);
            *last = if accord == Accord::Agree { Found::Agrees } else { Found::Opposed };
            if accord == Accord::Agree { &mut found.says } else { &mut found.denies }.push(place);
        }
        let none = self.none_anywhere(pattern).filter(|_| pattern.direction_alone);
        if let (Some(wanted), Some(place), Some(last)) = (wanted, none, found.turns.last_mut())
            && matches!(last, Found::Missing | Found::Unclear)
        {
            let agrees = wanted == Direction::Same;
            *last = if agrees { Found::Agrees } else { Found::Opposed };
            if agrees { &mut found.says } else { &mut found.denies }.push(place);
        }
        found
    }

    /// "There will be none at any dose", "no gas in any of them": an answer that opens by saying that all levels read nothing.
    pub(super) fn none_anywhere(&self, pattern: &Pattern) -> Option<Range<usize>> {
        let wanted = pattern.wanted.last()?;
        let own = self.reading.clauses.iter().take_while(|clause| clause.sentence == 0);
        let mut own = own.take_while(|clause| !matches!(clause.link, Some(Link::Because | Link::So)));
        own.find_map(|clause| {
            let pieces = self.reading.within(clause);
            let none = pieces.iter().position(|piece| matches!(piece.lower.as_str(), "no" | "none" | "nothing"))?;
            let mut named = pieces.iter().skip(none + 1).take_while(|piece| piece.role != Role::Preposition);
            let strange = named.any(|piece| {
                let known = |key: &String| wanted.about.iter().any(|(known, _)| known == key);
                piece.role == Role::Content && !piece.keys.iter().any(|key| known(key) || self.dictionary.is_light(key))
            });
            let place = pieces.first()?.bytes.start..pieces.last()?.bytes.end;
            let text = self.reading.slice(&place).to_lowercase();
            let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
            (levels_alike(&words) > 0 && !strange).then_some(place)
        })
    }

    /// What a sentence tells of the change from the first level to the last, by a reading at each ("0.4 at 5 and 0.1 at 60"), or
    /// by setting one above the other.
    fn told_at_levels(&self, sentence: usize, near: &impl Fn(f64) -> bool) -> Option<(Direction, Range<usize>)> {
        let (first, last) = self.levels?;
        let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == sentence).collect();
        let open = |piece: &&Piece| matches!(piece.role, Role::Aside | Role::Negator | Role::Hedge);
        if own.iter().any(|piece| open(piece) && piece.lower != "than") {
            return None;
        }
        let number = |piece: &Piece| match piece.role {
            Role::Number(number) => self.reading.numbers.get(number).map(|number| number.value),
            _ => None,
        };
        let told: Vec<(usize, f64)> =
            own.iter().enumerate().filter_map(|(at, piece)| Some((at, number(piece)?))).collect();
        let end = |value: f64| match () {
            () if value.total_cmp(&first).is_eq() => Some(false),
            () if value.total_cmp(&last).is_eq() => Some(true),
            () => None,
        };
        let place = own.first()?.bytes.start..own.last()?.bytes.end;
        match told.as_slice() {
            [(_, a), (_, b), (_, c), (_, d)] => {
                let (one, other, ends) = match (end(*a), end(*b), end(*c), end(*d)) {
                    (Some(one), None, Some(other), None) => (*b, *d, (one, other)),
                    (None, Some(one), None, Some(other)) => (*a, *c, (one, other)),
                    _ => return None,
                };
                let (at_first, at_last) = match ends {
                    (false, true) => (one, other),
                    (true, false) => (other, one),
                    _ => return None,
                };
                (near(one) && near(other)).then_some((change(at_first, at_last), place))
            }
            [(one, a), (other, b)] => {
                let ends = (end(*a)?, end(*b)?);
                let between = own.get(one + 1..*other)?;
                // "the liquid above is paler, at 40 …": not above that level.
                let near = between.iter().rev().take(NEXT);
                let near = near.take_while(|piece| !matches!(piece.role, Role::Mark(_) | Role::Copula | Role::Turn(_)));
                let near: Vec<&str> = near.map(|piece| piece.lower.as_str()).collect();
                let has = |words: &[&str]| near.iter().any(|word| words.contains(word));
                let above = match (has(&["above"]), has(&["below", "under", "beneath"])) {
                    (true, false) => true,
                    (false, true) => false,
                    _ => return None,
                };
                match ends {
                    (true, false) => Some((if above { Direction::Up } else { Direction::Down }, place)),
                    (false, true) => Some((if above { Direction::Down } else { Direction::Up }, place)),
                    _ => None,
                }
            }
            _ => None,
        }
    }

    /// "Actually it still rises", "no wait, up": a prediction taken back by a word of direction for which nothing is named but "it".
    fn corrected(&self) -> Option<(Direction, Range<usize>)> {
        let matcher = self.matcher();
        let claims = self.reading.claims.iter().filter(|claim| !claim.aside && !claim.hedged);
        let mut told = claims.filter(|claim| {
            let before: Vec<&Piece> =
                self.reading.pieces.get(..claim.at).unwrap_or_default().iter().rev().take(4).collect();
            let between = before.iter().take_while(|piece| piece.lower != "it");
            let bare = between.clone().all(|piece| piece.role != Role::Content && piece.role != Role::Negator);
            let it = before.get(between.count()).is_some_and(|piece| piece.lower == "it");
            let own = self.reading.pieces.get(claim.at);
            let of_kind = own.is_some_and(|piece| match piece.role {
                Role::Turn(turn) => turn.about.is_empty(),
                _ => false,
            });
            bare && it && of_kind && super::correction::corrects(matcher.reading, claim)
        });
        let claim = told.next_back().map(|claim| (claim.direction, self.reading.claim_bytes(claim)));
        claim.or_else(|| {
            // Places are those of the text as it stands, so no letter may change its length.
            let text = self.reading.text.to_ascii_lowercase();
            let at = lists().corrects.iter().filter_map(|phrase| Some(text.find(phrase)? + phrase.len())).max()?;
            let rest = text.get(at..)?;
            let (direction, place) = opening(rest.trim_start_matches([',', ' ', '.', ':', '-']))?;
            let skipped = rest.len() - rest.trim_start_matches([',', ' ', '.', ':', '-']).len();
            Some((direction, at + skipped + place.start..at + skipped + place.end))
        })
    }
}

fn change(first: f64, last: f64) -> Direction {
    match () {
        () if (first - last).abs() <= ALIKE * first.abs().max(last.abs()) => Direction::Same,
        () if last > first => Direction::Up,
        () => Direction::Down,
    }
}

/// Which way an answer says with its first word: "Up.", "Down it goes", "Not up but down", "No longer up but down".
fn opening(text: &str) -> Option<(Direction, Range<usize>)> {
    let direction = |word: &str| match word {
        "up" | "upward" | "upwards" => Some(Direction::Up),
        "down" | "downward" | "downwards" => Some(Direction::Down),
        _ => None,
    };
    let sentence = text.split(['.', '!', ';', ':', '\n']).next()?.to_ascii_lowercase();
    let words: Vec<&str> =
        sentence.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let all = 0..sentence.len();
    match words.as_slice() {
        ["not", first, rest @ ..] | ["no", "longer", first, rest @ ..] if direction(first).is_some() => {
            let but = rest.iter().position(|word| *word == "but")?;
            Some((direction(rest.get(but + 1)?)?, all))
        }
        // "Up to 60 …", "Up until …": how far.
        [first, next, ..] if matches!(*next, "to" | "until" | "till") && *first == "up" => None,
        [first, ..] => Some((direction(first)?, all)),
        [] => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: Option<Direction>) {
        assert_eq!(opening(text).map(|(direction, _)| direction), expected, "{text}");
    }

    #[test]
    fn the_first_word_tells_which_way() {
        case("Up. The gate is a lock now.", Some(Direction::Up));
        case("Down it goes, since the gate is shut.", Some(Direction::Down));
        case("Not up but down.", Some(Direction::Down));
        case("No longer down but up, as the gate opens.", Some(Direction::Up));
        case("Not down any more. The gate opens.", None);
        case("Up to 40 they rise.", None);
        case("It goes up.", None);
    }

    #[test]
    fn readings_show_a_change() {
        assert_eq!(change(0.2, 0.4), Direction::Up);
        assert_eq!(change(90.0, 40.0), Direction::Down);
        assert_eq!(change(1.0, 1.01), Direction::Same);
    }
}
