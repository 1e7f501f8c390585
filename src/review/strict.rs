//! Plain guides: statements from elsewhere are held to their own words.
//!
//! A scenario's statements are written with the words that this reviewer knows; those of a plain guide are not. What it calls found
//! there has every thing of the statement, in its place; where another thing stands for one of them ("the petals protect the bud"),
//! or what speaks against it is of another case ("at 20 °C it would not"), a person must decide.

use std::collections::BTreeSet;

use super::correction::opens;
use super::course::Course;
use super::guide::{Point, PointKind};
use super::judge::{Judge, Verdict};
use super::meaning::{Accord, Direction};
use super::pattern::Pattern;
use super::read::{Claim, Clause, Number, Piece, Reading, Role};
use super::surely::supposes;
use super::verdict::{Status, Stretch};
use crate::quantity::in_words;

/// Of so many things one may be left out, where nothing else stands for it.
const MANY: usize = 5;

/// Words that exclude each other, which tell no thing by themselves.
const PLACES: &[(&str, &str)] = &[
    ("before", "after"),
    ("to", "from"),
    ("towards", "from"),
    ("to", "away"),
    ("towards", "away"),
    ("into", "out"),
    ("left", "right"),
    ("with", "without"),
    ("partially", "fully"),
    ("partly", "fully"),
    ("identical", "different"),
];

/// Words before the things that they lead.
const LEADS: &[&str] = &["into", "to", "from", "by", "towards"];

impl Judge<'_> {
    /// The verdict of a plain guide's statement: one that holds only as far as words show it is for a person to see.
    pub(super) fn strictly(&self, point: &Point, verdict: Verdict) -> Verdict {
        let plain = self.question.id.is_empty() && point.kind == PointKind::Statement;
        let texts = || std::iter::once(point.said()).chain(point.accept.iter().map(String::as_str));
        if !plain || super::judge::is_open(point) {
            return verdict;
        }
        let answer = words_of(&self.reading.text);
        if verdict.0 != Status::Contradicted && point.reject.iter().any(|text| words_of(text) == answer) {
            return (Status::NotFound, verdict.1);
        }
        if texts().any(|text| words_of(text) == answer) {
            return (Status::Found, vec![Stretch { bytes: 0..self.reading.text.len(), says: true }]);
        }
        let numbers = !self.dictionary.of_guide(&point.statement).numbers.is_empty();
        if numbers && verdict.0 != Status::Contradicted {
            return self.by_number(point, verdict);
        }
        match verdict {
            (Status::Found, places)
                if point.reject.iter().any(|text| says_as_written(&answer, text, &point.statement)) =>
            {
                (Status::NotFound, places)
            }
            (Status::Found, places) if !texts().any(|text| self.holds(text)) || self.says_it_otherwise(point) => {
                (Status::LookAgain, places)
            }
            (Status::Contradicted, places) if !self.denies_surely(point, &places) => (Status::LookAgain, places),
            verdict => verdict,
        }
    }

    /// Whether a sentence of several tells the statement otherwise: turned round, denied, or with a counterpart.
    fn says_it_otherwise(&self, point: &Point) -> bool {
        let pattern = self.pattern(point.said());
        let wanted = self.dictionary.of_guide(&pattern.text);
        let things: Vec<&Piece> = wanted.pieces.iter().filter(|piece| self.is_heavy(piece)).collect();
        let corrected = self.reading.sentences.iter().rposition(|one| opens(self.reading.slice(&one.bytes)));
        let sentences = self.reading.sentences.iter().skip(corrected.unwrap_or(0));
        self.reading.sentences.len() > 1
            && sentences.into_iter().any(|sentence| {
                let reading = Reading::of(self.reading.slice(&sentence.bytes), self.dictionary);
                let one = Judge { reading: &reading, course: Course::default(), ..*self };
                let named = things.iter().filter(|piece| names_one_of(piece, &reading.pieces)).count();
                let negates = |reading: &Reading| reading.pieces.iter().any(|piece| piece.role == Role::Negator);
                let other = one.changes_places(&wanted)
                    || one.turns_roles(&wanted)
                    || one.goes_elsewhere(&wanted)
                    || negates(&reading) != negates(&wanted);
                named * 3 >= things.len() * 2 && !supposes(&reading.pieces.iter().collect::<Vec<_>>()) && other
            })
    }

    /// A statement with a number: another one is wrong, and the number alone will do where nothing else is said beside it.
    fn by_number(&self, point: &Point, (status, places): Verdict) -> Verdict {
        let wanted = self.dictionary.of_guide(&point.statement);
        if status == Status::Found && point.accept.iter().any(|text| self.holds(text)) {
            return (status, places);
        }
        if !self.has_its_numbers(&wanted) {
            let status = match status {
                _ if self.has_another_number(&wanted) => Status::NotFound,
                Status::Found => Status::LookAgain,
                status => status,
            };
            return (status, places);
        }
        let known = |piece: &Piece| names_one_of(piece, &wanted.pieces) || names_one_of(piece, &self.prompt.pieces);
        let negates = |reading: &Reading| reading.pieces.iter().any(|piece| piece.role == Role::Negator);
        let strange = self.reading.pieces.iter().any(|piece| self.is_heavy(piece) && !known(piece))
            || negates(self.reading) != negates(&wanted);
        let place = self.reading.numbers.first().map(|number| number.bytes.clone());
        match status {
            Status::NotFound | Status::LookAgain if !strange => {
                (Status::Found, place.into_iter().map(|bytes| Stretch { bytes, says: true }).collect())
            }
            Status::Found if !self.holds(&point.statement) => (Status::LookAgain, places),
            _ => (status, places),
        }
    }

    /// Whether a number of the same unit stands there with another size, written so that nothing is left to read.
    fn has_another_number(&self, wanted: &Reading) -> bool {
        let in_words = self
            .reading
            .pieces
            .iter()
            .any(|piece| matches!(piece.lower.as_str(), "million" | "thousand" | "hundred" | "half" | "percent"));
        let kind = |number: &Number| number.unit.as_ref().map(|unit| unit.code().to_owned());
        let other = |one: &Number, number: &Number| {
            kind(one) == kind(number) && (one.value.abs() - number.value.abs()).abs() > 1e-9
        };
        let mut all = self.reading.numbers.iter().peekable();
        all.peek().is_some() && !in_words && all.all(|one| wanted.numbers.iter().any(|number| other(one, number)))
    }

    pub(super) fn is_heavy(&self, piece: &Piece) -> bool {
        piece.role == Role::Content && !piece.keys.iter().all(|key| self.dictionary.is_light(key))
    }

    /// Whether the answer has all of a text, and nothing in the place of anything.
    fn holds(&self, text: &str) -> bool {
        let pattern = self.pattern(text);
        let wanted = self.dictionary.of_guide(&pattern.text);
        let bare = pattern.direction_alone || wanted.pieces.len() < 2;
        bare || (self.has_its_things(&pattern, &wanted)
            && self.has_its_numbers(&wanted)
            && !self.changes_places(&wanted)
            && (self.told_from_the_other_side(&pattern)
                || !(self.turns_roles(&wanted) || self.goes_elsewhere(&wanted)))
            && !self.tells_its_counterpart(&pattern)
            && self.goes_its_ways(&wanted))
    }

    fn has_its_things(&self, pattern: &Pattern, wanted: &Reading) -> bool {
        let heavy = |piece: &&Piece| self.is_heavy(piece);
        let asked = |piece: &Piece| names_one_of(piece, &self.prompt.pieces);
        let own: Vec<&Piece> = wanted.pieces.iter().filter(heavy).filter(|piece| !asked(piece)).collect();
        // A quantity that is claimed rightly is there, whatever it is called.
        let claimed: BTreeSet<&String> =
            wanted.claims.iter().flat_map(|claim| &claim.about).map(|(key, _)| key).collect();
        // "… because it is not released": it is there, and denied.
        let denied = |piece: &Piece| {
            let mut all =
                self.reading.pieces.iter().filter(|one| names_one_of(piece, std::slice::from_ref(*one))).peekable();
            all.peek().is_some() && all.all(|one| one.negated != piece.negated)
        };
        if wanted.pieces.iter().filter(heavy).any(denied) {
            return false;
        }
        let there = |piece: &Piece| {
            let mut all = self.reading.pieces.iter().filter(|one| names_one_of(piece, std::slice::from_ref(*one)));
            let compared = piece.keys.iter().any(|key| self.dictionary.compares(key));
            all.any(|one| one.negated == piece.negated) || (compared && self.told_from_the_other_side(pattern))
        };
        let missing: Vec<&&Piece> = own.iter().filter(|piece| !there(piece)).collect();
        if missing.is_empty() {
            return true;
        }
        let foreign = self.reading.pieces.iter().filter(heavy).any(|piece| {
            let part = wanted.pieces.iter().any(|one| one.lower.split(' ').any(|word| word == piece.lower));
            !names_one_of(piece, &wanted.pieces)
                && !part
                && !asked(piece)
                && !piece.keys.iter().any(|key| claimed.contains(key))
        });
        // What it is all about may not be missing either.
        let first =
            missing.first().zip(own.first()).is_some_and(|(missing, own)| missing.bytes == own.bytes && !own.verb);
        let verbs = own.iter().filter(|piece| piece.verb || piece.acts).count();
        let terms = missing.iter().any(|piece| piece.keys.iter().any(|key| self.dictionary.is_of_trade(key)));
        // "Goes in" for "enters": what is done may be told by little words.
        let things = missing.iter().filter(|piece| verbs > 1 || !(piece.verb || piece.acts)).count();
        !foreign && !terms && !first && things * MANY <= own.len()
    }

    /// Whether every number of the statement stands in the answer.
    fn has_its_numbers(&self, wanted: &Reading) -> bool {
        wanted.numbers.iter().all(|number| {
            self.reading.numbers.iter().any(|one| {
                let value = number.unit.as_ref().map_or(Some(one.value), |unit| one.in_unit(unit));
                value.is_some_and(|value| (value - number.value).abs() <= 0.02 * number.value.abs() + 1e-9)
            })
        })
    }

    /// Whether the answer has "after" where the statement has "before".
    fn changes_places(&self, wanted: &Reading) -> bool {
        let has = |reading: &Reading, word: &str| {
            reading.pieces.iter().any(|piece| piece.lower.split(' ').any(|one| one == word))
        };
        let count = |reading: &Reading| -> BTreeSet<u32> {
            reading.pieces.iter().filter_map(|piece| in_words::value(&piece.lower)).collect()
        };
        // "Two cells thick", for one.
        let (own, other) = (count(wanted), count(self.reading));
        let counts = !own.is_empty() && !other.is_empty() && own.is_disjoint(&other);
        counts
            || PLACES.iter().flat_map(|(one, other)| [(one, other), (other, one)]).any(|(own, other)| {
                has(wanted, own) && !has(wanted, other) && has(self.reading, other) && !has(self.reading, own)
            })
    }

    /// Whether what does something and what it is done to have changed places: "the rabbits eat the foxes".
    fn turns_roles(&self, wanted: &Reading) -> bool {
        let things = |reading: &Reading| -> Vec<usize> {
            let thing =
                |at: &usize| reading.pieces.get(*at).is_some_and(|piece| piece.role == Role::Content && !piece.verb);
            (0..reading.pieces.len()).filter(thing).collect()
        };
        let led = |reading: &Reading, at: usize| {
            let mut before = reading.pieces.get(..at).unwrap_or_default().iter().rev();
            before.find(|piece| piece.role != Role::Article).is_some_and(|piece| piece.role == Role::Preposition)
        };
        let passive = |reading: &Reading| reading.pieces.iter().any(|piece| piece.role == Role::Copula);
        let all = things(wanted);
        let (Some(first), Some(last)) = (all.first(), all.last()) else { return false };
        let (Some(one), Some(other)) = (wanted.pieces.get(*first), wanted.pieces.get(*last)) else { return false };
        if first == last || passive(wanted) != passive(self.reading) || led(wanted, *first) {
            return false;
        }
        let place =
            |piece: &Piece| self.reading.pieces.iter().position(|own| names_one_of(piece, std::slice::from_ref(own)));
        match (place(one), place(other)) {
            // What a word leads ("in light") may stand anywhere.
            (Some(one), Some(other)) => {
                other < one && !led(self.reading, other) && (!led(wanted, *last) || led(self.reading, one))
            }
            _ => false,
        }
    }

    /// Whether something else of the statement stands behind a word that leads one of its things: "maltose into starch".
    fn goes_elsewhere(&self, wanted: &Reading) -> bool {
        let led = |reading: &Reading| -> Vec<(String, Piece)> {
            let mut found = Vec::new();
            for (at, piece) in reading.pieces.iter().enumerate().filter(|(_, piece)| piece.role == Role::Content) {
                let before = reading.pieces.get(..at).unwrap_or_default().iter();
                let lead = before.rev().find(|one| one.role != Role::Article && !matches!(one.role, Role::Turn(_)));
                found.extend(
                    lead.filter(|one| one.role == Role::Preposition).map(|one| (one.lower.clone(), piece.clone())),
                );
            }
            found
        };
        // "from a low … to a high …": the first thing behind the word is a direction.
        let ways = |reading: &Reading, word: &str| -> Vec<Direction> {
            let at =
                (0..reading.pieces.len()).filter(|at| reading.pieces.get(*at).is_some_and(|piece| piece.lower == word));
            at.filter_map(|at| {
                let mut later = reading.pieces.get(at + 1..)?.iter();
                match later.find(|piece| piece.role != Role::Article)?.role {
                    Role::Turn(turn) => Some(turn.direction),
                    _ => None,
                }
            })
            .collect()
        };
        let crossed = ["from", "to"].iter().any(|word| {
            let (own, told) = (ways(wanted, word), ways(self.reading, word));
            !own.is_empty() && !told.is_empty() && !own.iter().any(|way| told.contains(way))
        });
        if crossed {
            return true;
        }
        let told = led(self.reading);
        led(wanted).iter().filter(|(lead, _)| LEADS.contains(&lead.as_str())).any(|(lead, thing)| {
            let mut same = told.iter().filter(|(word, _)| word == lead).peekable();
            same.peek().is_some()
                && same.all(|(_, other)| {
                    !names_one_of(thing, std::slice::from_ref(other)) && names_one_of(other, &wanted.pieces)
                })
        })
    }

    /// Whether a clause tells of what the statement is about with the counterpart of one of its things, whatever else is said.
    fn tells_its_counterpart(&self, pattern: &Pattern) -> bool {
        let Some(subject) = pattern.units.first() else { return false };
        // What is taken back counts no more: "Water enters. No, it leaves."
        let mut sentences = self.reading.sentences.iter();
        let since = sentences.rposition(|one| opens(self.reading.slice(&one.bytes))).unwrap_or(0);
        let supposed = |clause: &Clause| {
            let own = self.reading.pieces.iter().filter(|piece| piece.sentence == clause.sentence);
            supposes(&own.collect::<Vec<_>>())
        };
        self.reading.clauses.iter().filter(|clause| clause.sentence >= since && !supposed(clause)).any(|clause| {
            let own = self.reading.within(clause);
            let counterpart = |piece: &&Piece| {
                let mut opposites =
                    pattern.units.iter().flat_map(|unit| &unit.keys).flat_map(|key| self.dictionary.opposites(key));
                !piece.negated && opposites.any(|key| piece.keys.iter().any(|own| own == key))
            };
            let names = |piece: &Piece| subject.keys.first().is_some_and(|key| piece.keys.contains(key));
            let compares = pattern.units.iter().flat_map(|unit| &unit.keys).any(|key| self.dictionary.compares(key));
            !compares && own.iter().any(names) && own.iter().any(|piece| counterpart(&piece))
        })
    }

    /// Whether every direction of the statement is told so, or, where it is a relation, every one turned round; in its order, where
    /// one thing goes both ways ("from a high … to a low …").
    fn goes_its_ways(&self, wanted: &Reading) -> bool {
        let shares = |one: &Claim, other: &Claim| {
            one.about.iter().any(|(key, weight)| {
                *weight >= 1.0
                    && !self.dictionary.is_light(key)
                    && other.about.iter().any(|(known, weight)| known == key && *weight >= 1.0)
            })
        };
        let of = |reading: &Reading, claim: &Claim| -> Vec<Direction> {
            let all = reading.claims.iter().filter(|one| !one.aside && shares(one, claim));
            all.map(|one| one.direction).collect()
        };
        let claims: Vec<&Claim> =
            wanted.claims.iter().filter(|claim| !claim.aside && !claim.about.is_empty()).collect();
        let opposed = |claim: &&&Claim| {
            let told = of(self.reading, claim);
            let accord = |wanted: Accord| told.iter().any(|direction| claim.direction.accord(*direction) == wanted);
            accord(Accord::Oppose) && !accord(Accord::Agree)
        };
        let against = claims.iter().filter(opposed).count();
        let relates = claims.first().is_some_and(|first| first.attributive || wanted.leads(first))
            || wanted.pieces.first().is_some_and(|piece| piece.lower == "as");
        let in_order = claims.iter().all(|claim| {
            let (own, told) = (of(wanted, claim), of(self.reading, claim));
            own.len() < 2
                || own.iter().all(|one| *one == claim.direction)
                || told.len() < own.len()
                || told.starts_with(&own)
        });
        in_order && (against == 0 || (relates && against == claims.len()))
    }
}

/// Whether one of these pieces names the same thing.
pub(super) fn names_one_of(piece: &Piece, others: &[Piece]) -> bool {
    others.iter().any(|other| {
        piece.keys.first().is_some_and(|key| other.keys.contains(key) || other.also.contains(key))
            || other.keys.first().is_some_and(|key| piece.keys.contains(key) || piece.also.contains(key))
            || (!piece.lower.is_empty() && piece.lower == other.lower)
    })
}

/// Whether an answer has a refused phrase as it is written, and does not deny it; the statement has it not.
fn says_as_written(answer: &[String], refused: &str, statement: &str) -> bool {
    let (refused, statement) = (words_of(refused), words_of(statement));
    let has =
        |words: &[String]| refused.len() >= 2 && words.windows(refused.len()).any(|run| run == refused.as_slice());
    let denies = |word: &String| matches!(word.as_str(), "not" | "never" | "no" | "t" | "without" | "instead");
    has(answer) && !has(&statement) && !answer.iter().any(denies)
}

/// The words of a text without articles.
fn words_of(text: &str) -> Vec<String> {
    let words = text.split(|letter: char| !(letter.is_alphanumeric() || matches!(letter, '-' | '−' | ':' | '%')));
    let words = words.map(|word| word.trim_matches(':').to_lowercase());
    words.filter(|word| !word.is_empty() && !matches!(word.as_str(), "the" | "a" | "an")).collect()
}
