//! Points for numbers: a value within its tolerance, in any unit of its kind; and the setup apart from the result.

use std::ops::Range;
use std::sync::Arc;

use super::guide::{Point, Question};
use super::judge::limit;
use super::read::{Number, Reading};
use crate::quantity::Unit;

/// A number that earns.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Wanted {
    pub(crate) low: f64,
    pub(crate) high: f64,
    pub(crate) unit: Option<Unit>,
    /// Significant figures of the guide's own answer.
    pub(crate) figures: usize,
}

/// What a point asks of numbers.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Figures {
    pub(crate) value: Option<Wanted>,
    /// Numbers that a setup shows; empty where none is asked for.
    pub(crate) setup: Vec<Number>,
    /// The setup divides.
    pub(crate) divided: bool,
    /// A bare number does not earn.
    pub(crate) needs_unit: bool,
}

/// What was found of a value.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Value {
    Right {
        place: Range<usize>,
        bare: bool,
        figures: usize,
    },
    /// Of the right kind, and outside.
    Wrong {
        place: Range<usize>,
    },
    Missing,
}

/// Relative tolerance where a guide names none (common practice, no source).
const TOLERANCE: f64 = 0.02;

impl Figures {
    /// What a point asks of numbers; `None` where it asks for words.
    pub(crate) fn of(point: &Point, question: &Question, read: impl Fn(&str) -> Arc<Reading>) -> Option<Self> {
        let statement = point.statement.trim();
        let lower = statement.to_lowercase();
        let is_setup = lower.starts_with("setup");
        let reckons = ["calculate", "estimate", "determine"].iter().any(|term| question.command_term.contains(term));
        let is_answer = lower.starts_with("answer:") || lower.contains("; accept ");
        let needs_unit = point.reject.iter().any(|text| text.to_lowercase().contains("no unit"));
        let range = accepted(point, &read);
        if is_setup {
            let reading = read(statement);
            let setup = reading.numbers.iter().filter(|number| !is_conversion(number, &reading)).cloned().collect();
            let divided = reading.numbers.windows(2).any(|pair| match pair {
                [one, other] => statement.get(one.bytes.end..other.bytes.start).is_some_and(divides),
                _ => false,
            });
            return Some(Self { value: range, setup, divided, needs_unit });
        }
        if range.is_some() || is_answer || (reckons && !read(statement).numbers.is_empty()) {
            let value = range.or_else(|| read(statement).numbers.first().map(around));
            return Some(Self { value, setup: Vec::new(), divided: false, needs_unit });
        }
        None
    }

    /// Whether the response shows the setup: most of its numbers, put together.
    pub(crate) fn setup_seen(&self, reading: &Reading) -> (f64, Vec<Range<usize>>) {
        let mut places = Vec::new();
        let mut open: Vec<&Number> = reading.numbers.iter().collect();
        let mut seen = 0_u32;
        let mut missing: Vec<&Number> = Vec::new();
        for wanted in &self.setup {
            if let Some(at) = open.iter().position(|number| same(number, wanted)) {
                places.push(open.remove(at).bytes.clone());
                seen += 1;
            } else {
                missing.push(wanted);
            }
        }
        // "/ 335" for "/ (200 + 135)": the sum shows both, where it is not itself set out.
        let added = reading.numbers.windows(2).any(|pair| match pair {
            [one, other] => reading.slice(&(one.bytes.end..other.bytes.start)).trim() == "+",
            _ => false,
        });
        let sums = if added || self.setup.len() > limit::FEW { 0 } else { self.setup.len() };
        for (at, one) in self.setup.iter().take(sums).enumerate() {
            for other in self.setup.iter().skip(at + 1) {
                let sum = one.value + other.value;
                let own = |number: &Number| {
                    [one.value, other.value].iter().any(|value| value.total_cmp(&number.value).is_eq())
                };
                let shown = open.iter().position(|number| (number.value - sum).abs() <= 1e-6 * sum.abs());
                if let Some(place) = shown.filter(|_| missing.iter().any(|number| own(number))) {
                    places.push(open.remove(place).bytes.clone());
                    seen += u32::try_from(missing.iter().filter(|number| own(number)).count()).unwrap_or(0);
                    missing.retain(|number| !own(number));
                }
            }
        }
        let all = u32::try_from(self.setup.len().max(1)).unwrap_or(1);
        (f64::from(seen) / f64::from(all), places)
    }

    /// Whether a response divides what is to be multiplied, or the other way round: "0.686 / 10" for "0.686 × 10".
    pub(crate) fn divides(&self, text: &str, places: &[Range<usize>]) -> bool {
        let mut sorted: Vec<&Range<usize>> = places.iter().collect();
        sorted.sort_by_key(|place| place.start);
        let between: Vec<&str> =
            sorted.windows(2).filter_map(|pair| text.get(pair.first()?.end..pair.last()?.start)).collect();
        let divided = between.iter().any(|part| divides(part) || part.contains("divided"));
        let written = between.iter().any(|part| part.contains(['/', '÷', '×', '*', 'x', '·', '(']));
        written && places.len() == self.setup.len() && self.setup.len() >= 2 && divided != self.divided
    }

    /// The value in the response. The last number of its kind counts, since results follow setups.
    pub(crate) fn value_seen(&self, reading: &Reading) -> Value {
        let Some(wanted) = &self.value else { return Value::Missing };
        let mut wrong = Value::Missing;
        for number in reading.numbers.iter().rev() {
            let value = match (&wanted.unit, &number.unit) {
                (Some(unit), _) => number.in_unit(unit),
                (None, None) => Some(number.value),
                (None, Some(_)) => None,
            };
            let Some(value) = value else { continue };
            let slack = 1e-9 * wanted.high.abs().max(wanted.low.abs());
            let bare = wanted.unit.as_ref().is_some_and(|unit| !unit.display().is_empty()) && number.unit.is_none();
            if value >= wanted.low - slack && value <= wanted.high + slack {
                return Value::Right { place: number.bytes.clone(), bare, figures: number.figures };
            }
            let is_given = self.setup.iter().any(|given| same(number, given));
            if wrong == Value::Missing && !bare && !is_given {
                wrong = Value::Wrong { place: number.bytes.clone() };
            }
        }
        wrong
    }
}

/// The range that a point accepts: "accept 17.8 to 18.5 µmol/L", or "3.1 to 3.3" among the alternatives.
fn accepted(point: &Point, read: &impl Fn(&str) -> Arc<Reading>) -> Option<Wanted> {
    let lower = point.statement.to_lowercase();
    let behind = lower.find("accept ").and_then(|at| point.statement.get(at + "accept ".len()..));
    let texts = behind.into_iter().chain(point.accept.iter().map(String::as_str));
    for text in texts {
        let text = text.trim_start();
        let reading = read(text);
        if let [low, high, ..] = reading.numbers.as_slice() {
            let between = text.get(low.bytes.end..high.bytes.start).unwrap_or_default().trim();
            if low.bytes.start == 0 && matches!(between, "to" | "–" | "-" | "and") {
                let unit = high.unit.clone().or_else(|| low.unit.clone());
                let (one, other) = (low.value, high.value);
                let figures = read(&point.statement).numbers.first().map_or(2, |number| number.figures);
                return Some(Wanted { low: one.min(other), high: one.max(other), unit, figures });
            }
        }
    }
    None
}

/// The range around a number for which the guide names none.
fn around(number: &Number) -> Wanted {
    let slack = TOLERANCE * number.value.abs();
    let (low, high) = (number.value - slack, number.value + slack);
    Wanted { low, high, unit: number.unit.clone(), figures: number.figures }
}

/// A range around a value, for ideas written by hand.
pub(crate) fn within(value: f64, tolerance: Option<f64>, unit: Option<Unit>) -> Wanted {
    let slack = tolerance.unwrap_or(TOLERANCE * value.abs());
    Wanted { low: value - slack, high: value + slack, unit, figures: 0 }
}

/// Whether two numbers are one, in whatever unit or power of a thousand.
fn same(one: &Number, other: &Number) -> bool {
    let close = |a: f64, b: f64| (a - b).abs() <= 1e-6 * a.abs().max(b.abs());
    if close(one.value, other.value) {
        return true;
    }
    match (&one.unit, &other.unit) {
        (Some(_), Some(unit)) => one.in_unit(unit).is_some_and(|value| close(value, other.value)),
        _ => [1e3, 1e6, 1e9, 1e-3, 1e-6, 1e-9, 1e2, 1e-2].iter().any(|power| close(one.value * power, other.value)),
    }
}

/// Whether a stroke between two numbers divides them: behind a letter it belongs to a unit.
fn divides(between: &str) -> bool {
    between.match_indices(['/', '÷']).any(|(at, _)| {
        let before = between.get(..at).unwrap_or_default().trim_end();
        let unit = before.ends_with(|last: char| last.is_alphabetic() || "²³·".contains(last));
        let after = between.get(at..).unwrap_or_default().trim_start_matches(['/', '÷', ' ', '(']);
        !unit && !after.starts_with(char::is_alphabetic)
    })
}

/// "1000 µmol/mmol": a factor between two units of one kind.
fn is_conversion(number: &Number, reading: &Reading) -> bool {
    let is_factor = number.unit.as_ref().is_some_and(|unit| unit.dimension().is_none() && unit.code().contains('/'));
    is_factor && !reading.text.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::Lexicon;
    use crate::review::dictionary::Dictionary;

    fn point(statement: &str, reject: &str) -> Point {
        Point { statement: statement.to_owned(), reject: vec![reject.to_owned()], ..Point::default() }
    }

    #[track_caller]
    fn case(statement: &str, response: &str, expected: &str) {
        let dictionary = Dictionary::new(&Lexicon::default(), &[]);
        let read = |text: &str| dictionary.of_guide(text);
        let question = Question { command_term: "calculate".to_owned(), ..Question::default() };
        let figures = Figures::of(&point(statement, "no unit"), &question, read).unwrap();
        let reading = read(response);
        let got = match figures.value_seen(&reading) {
            Value::Right { bare: true, .. } => "bare",
            Value::Right { .. } => "right",
            Value::Wrong { .. } => "wrong",
            Value::Missing => "missing",
        };
        assert_eq!(got, expected, "{response}");
    }

    #[test]
    fn values_within_their_range_in_any_unit() {
        let guide = "Answer: 18.1 µmol/L; accept 17.8 to 18.5 µmol/L.";
        case(guide, "18.1 µmol/L", "right");
        case(guide, "0.0181 mmol/L", "right");
        case(guide, "c = 0.504 × 6 × 0.006 = 18.14 umol per litre", "right");
        case(guide, "The answer is 18.1.", "bare");
        case(guide, "18.1 mmol/L", "wrong");
        case(guide, "21 µmol/L", "wrong");
        case(guide, "I don't know", "missing");
        case("0.25 mol/L", "250 mM", "right");
        case("0.25 mol/L", "0.27 M", "wrong");
    }

    #[test]
    fn setups_are_seen_apart_from_results() {
        let dictionary = Dictionary::new(&Lexicon::default(), &[]);
        let read = |text: &str| dictionary.of_guide(text);
        let setup = point("Setup: c = (0.504)(6 mmol/L × 1000 µmol/mmol)(0.006).", "a bare answer");
        let figures = Figures::of(&setup, &Question::default(), read).unwrap();
        assert_eq!(figures.setup.len(), 3);
        for (response, expected) in
            [("c = 0.504 x 6 x 0.006 = 99", 1.0), ("0.504 × 0.006 mol/L × 0.006", 1.0), ("18.1 µmol/L", 0.0)]
        {
            let (share, _) = figures.setup_seen(&read(response));
            assert!((share - expected).abs() < 1e-9, "{response}: {share}");
        }
    }
}
