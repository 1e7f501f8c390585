//! What a sentence of the guide looks for in an answer: derived by the same reader that reads the answer.

use super::dictionary::Dictionary;
use super::meaning::Direction;
use super::read::{Claim, Reading, Role, says_which};

/// One thing named, and how much it tells.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Unit {
    /// Any of these will do in full; the first is the most telling.
    pub(crate) keys: Vec<String>,
    pub(crate) weight: f64,
    pub(crate) negated: bool,
    /// The question itself names it.
    pub(crate) prompted: bool,
}

/// A direction wanted.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Wanted {
    pub(crate) direction: Direction,
    pub(crate) about: Vec<(String, f64)>,
    /// What kind of quantity it is, where that is known.
    pub(crate) class: Vec<&'static str>,
    /// It stands before its quantity, in a first clause: the cause, as a rule.
    pub(crate) cause: bool,
}

/// A sentence of the guide as a pattern.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pattern {
    /// Without remarks to the scorer.
    pub(crate) text: String,
    pub(crate) units: Vec<Unit>,
    pub(crate) wanted: Vec<Wanted>,
    /// The direction earns by itself.
    pub(crate) direction_alone: bool,
    /// In a rejected alternative: it fails only where nothing else is said.
    pub(crate) alone: bool,
}

/// Weights of things named: by the question too, light words.
const PROMPTED: f64 = 0.4;
const LIGHT: f64 = 0.3;

impl Pattern {
    /// The pattern of a statement or an alternative. `prompt` holds the keys that the question names.
    pub(crate) fn of(text: &str, prompt: &Reading, dictionary: &Dictionary) -> Self {
        let (plain, direction_alone, alone) = without_remarks(text);
        let reading = dictionary.of_guide(&plain);
        let prompted = |keys: &[String]| {
            keys.first().is_some_and(|key| prompt.pieces.iter().any(|piece| piece.keys.contains(key)))
        };
        let mut units: Vec<Unit> = Vec::new();
        for clause in &reading.clauses {
            for (offset, piece) in reading.within(clause).iter().enumerate() {
                let aside = clause.aside_from.is_some_and(|from| from <= clause.pieces.start + offset);
                if piece.role != Role::Content || aside || piece.keys.is_empty() {
                    continue;
                }
                let known = units.iter_mut().find(|unit| unit.keys.first() == piece.keys.first());
                if known.is_some_and(|unit| unit.negated == piece.negated) {
                    continue;
                }
                let prompted = prompted(&piece.keys);
                let light = piece.keys.iter().all(|key| dictionary.is_light(key));
                let weight = if light { LIGHT } else { 1.0 } * if prompted { PROMPTED } else { 1.0 };
                units.push(Unit { keys: piece.keys.clone(), weight, negated: piece.negated, prompted });
            }
        }
        let mut wanted: Vec<Wanted> = Vec::new();
        let described = |claim: &&Claim| claim.attributive && says_which(&reading.pieces, claim.at);
        for claim in reading.claims.iter().filter(|claim| !claim.aside && !described(claim)) {
            let cause = claim.attributive && wanted.is_empty();
            let about = if claim.about.is_empty() { behind(&reading, claim) } else { claim.about.clone() };
            let new = Wanted { direction: claim.direction, about, class: claim.class.clone(), cause };
            let empty = new.about.is_empty() && !direction_alone;
            if !empty && !wanted.iter().any(|known| known.direction == new.direction && known.about == new.about) {
                wanted.push(new);
            }
        }
        // Beside what changes, "the same amount" only says what is kept alike.
        if wanted.iter().any(|one| matches!(one.direction, Direction::Up | Direction::Down)) && !direction_alone {
            wanted.retain(|one| one.direction != Direction::Same);
        }
        Self { text: plain, units, wanted, direction_alone, alone }
    }

    /// The steps of a statement: its parts between semicolons, each a pattern of its own.
    pub(crate) fn steps(text: &str, prompt: &Reading, dictionary: &Dictionary) -> Vec<Self> {
        let (plain, ..) = without_remarks(text);
        let parts = plain.split(';').map(str::trim).filter(|part| !part.is_empty());
        parts.map(|part| Self::of(part, prompt, dictionary)).collect()
    }

    /// Total weight of its units.
    pub(crate) fn weight(&self) -> f64 {
        self.units.iter().map(|unit| unit.weight).sum()
    }

    /// Whether it looks for anything.
    pub(crate) fn is_empty(&self) -> bool {
        self.units.is_empty() && self.wanted.is_empty()
    }
}

/// "There is no change in the rate": of what stands behind it.
fn behind(reading: &Reading, claim: &Claim) -> Vec<(String, f64)> {
    let later = reading.pieces.iter().skip(claim.at + 1);
    if later.clone().next().is_none_or(|piece| !matches!(piece.lower.as_str(), "in" | "between")) {
        return Vec::new();
    }
    let own = later.skip_while(|piece| matches!(piece.role, Role::Preposition | Role::Article));
    let own = own.take_while(|piece| piece.role == Role::Content);
    own.flat_map(|piece| &piece.keys).map(|key| (key.clone(), 1.0)).collect()
}

/// A guide's sentence without what it tells the scorer: "The direction alone earns.", "(a misconception: …)", quotes.
fn without_remarks(text: &str) -> (String, bool, bool) {
    let mut plain = text.to_owned();
    while let Some(start) = plain.find("(a misconception") {
        let end = plain.get(start..).and_then(|rest| rest.find(')')).map_or(plain.len(), |end| start + end + 1);
        plain.replace_range(start..end, "");
    }
    let direction_alone = plain.to_lowercase().contains("direction alone");
    let sentences: Vec<&str> = plain.split_inclusive(". ").collect();
    let kept: Vec<&str> = sentences
        .iter()
        .copied()
        .filter(|sentence| {
            let lower = sentence.to_lowercase();
            !["alone earns", "earns even", "does not earn"].iter().any(|mark| lower.contains(mark))
        })
        .collect();
    let mut plain = if kept.is_empty() { plain.clone() } else { kept.concat() };
    let trimmed = plain.trim_end_matches(['.', ' ']);
    let alone = trimmed.ends_with(" alone");
    if alone {
        plain = trimmed.trim_end_matches("alone").to_owned();
    }
    for label in ["The link:", "Setup and value:", "Setup:", "Answer:", "For example,"] {
        if let Some(rest) = plain.strip_prefix(label) {
            plain = rest.trim_start().to_owned();
        }
    }
    let plain = plain.replace(['“', '”', '"'], " ").trim().to_owned();
    (plain, direction_alone, alone)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn remarks_to_the_scorer_are_no_part_of_it() {
        let (plain, direction, _) = without_remarks("The rate falls, to 3. The direction alone earns.");
        assert_eq!((plain.as_str(), direction), ("The rate falls, to 3.", true));
        let (plain, _, alone) = without_remarks("“human error” alone");
        assert_eq!((plain.as_str(), alone), ("human error", true));
        let (plain, ..) = without_remarks("“It is cut” (a misconception: it is not)");
        assert_eq!(plain, "It is cut");
        let (plain, ..) = without_remarks("Setup: c = 2 × 3. Earns even if the arithmetic fails.");
        assert_eq!(plain, "c = 2 × 3.");
    }
}
