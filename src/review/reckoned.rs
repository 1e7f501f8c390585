//! What an answer's own setup comes to: the expression that it writes, worked out and set beside the guide's result.

use super::figure::{Figures, Value};
use super::judge::{Judge, Verdict, both, limit, says};
use super::read::{Number, Reading};
use super::verdict::Status;

/// How far what a setup comes to may lie outside the guide's range: its numbers may be rounded.
const ROUNDED: f64 = 0.02;
/// The least power of ten by which units may be left out, and how many there are from there on.
const LEAST_POWER: f64 = 1e-12;
const POWERS: usize = 25;
/// So many numbers make a setup.
const SETUP: usize = 2;

impl Judge<'_> {
    /// A point for a setup or a result.
    pub(super) fn figures(&self, figures: &Figures) -> Verdict {
        let value = figures.value_seen(self.reading);
        if !figures.setup.is_empty() {
            let (share, places) = figures.setup_seen(self.reading);
            if let (Some(_), Value::Right { place, .. }) = (&figures.value, &value) {
                return (Status::Found, says(std::slice::from_ref(place)));
            }
            let shown = self.reading.numbers.len() > figures.setup.len() && figures.setup.len() <= limit::FEW;
            let reckoned = self.result().and_then(|range| comes_to(figures, range, self.reading));
            return match share {
                // Whatever result stands behind it, it is this reckoning or another.
                share if reckoned == Some(false) && share >= limit::LOOK => (Status::NotFound, both(&[], &places)),
                _ if figures.divides(&self.reading.text, &places) => (Status::NotFound, both(&[], &places)),
                share if reckoned == Some(true) && share >= limit::LOOK => (Status::Found, says(&places)),
                share if share < limit::ALL && shown => (Status::NotFound, both(&[], &places)),
                share if share >= limit::SETUP => (Status::Found, says(&places)),
                share if share >= limit::LOOK => (Status::LookAgain, says(&places)),
                _ => (Status::NotFound, Vec::new()),
            };
        }
        match value {
            Value::Right { place, bare: true, .. } if figures.needs_unit => (Status::NotFound, says(&[place])),
            Value::Right { place, .. } => (Status::Found, says(&[place])),
            Value::Wrong { place } => (Status::NotFound, both(&[], &[place])),
            Value::Missing => (Status::NotFound, Vec::new()),
        }
    }

    /// The range of the result that the question asks for.
    fn result(&self) -> Option<(f64, f64)> {
        let read = |text: &str| self.dictionary.of_guide(text);
        let figures = self.question.points.iter().filter_map(|point| Figures::of(point, self.question, read));
        let mut results = figures.filter_map(|figures| figures.value.filter(|_| figures.setup.is_empty()));
        results.next().map(|value| (value.low, value.high))
    }
}

/// Whether the setup in an answer comes to the guide's result, in whatever units; `None` where it has none that can be worked
/// out.
pub(super) fn comes_to(figures: &Figures, (low, high): (f64, f64), reading: &Reading) -> Option<bool> {
    let mut seen = None;
    let mut start = 0;
    let ends = reading.text.match_indices(['=', '≈', '\n', ';', ':']).map(|(at, mark)| (at, at + mark.len()));
    for (end, next) in ends.chain([(reading.text.len(), reading.text.len())]) {
        let own = |number: &&Number| start <= number.bytes.start && number.bytes.end <= end;
        let numbers: Vec<&Number> = reading.numbers.iter().filter(own).collect();
        let value = tokens(reading.text.get(start..end).unwrap_or_default(), start, &numbers)
            .filter(|_| numbers.len() >= SETUP.max(figures.setup.len().min(3)))
            .and_then(|tokens| Parser { tokens: &tokens, at: 0 }.whole());
        if let Some(value) = value {
            seen = Some(seen == Some(true) || within(value, low, high));
        }
        start = next;
    }
    seen
}

/// Whether a value is that of a range, but for a power of ten.
fn within(value: f64, low: f64, high: f64) -> bool {
    let slack = ROUNDED * low.abs().max(high.abs());
    let powers = std::iter::successors(Some(LEAST_POWER), |power| Some(power * 10.0)).take(POWERS);
    powers.map(|power| value * power).any(|value| value >= low - slack && value <= high + slack)
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Token {
    Value(f64),
    Sign(char),
    Ln,
}

/// A stretch as an expression; `None` where it says anything else.
fn tokens(text: &str, from: usize, numbers: &[&Number]) -> Option<Vec<Token>> {
    let text = text.trim_end().trim_end_matches(['.', ',']);
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        if let Some(number) = numbers.iter().find(|number| number.bytes.start == from + at) {
            let signed = text.get(at..).is_some_and(|rest| rest.starts_with(['-', '−', '–', '+']));
            // "1-0.2": the sign takes away.
            if signed && matches!(tokens.last(), Some(Token::Value(_) | Token::Sign(')'))) {
                tokens.push(Token::Sign('+'));
            }
            tokens.push(Token::Value(number.value));
            at = number.bytes.end - from;
            continue;
        }
        match letter {
            ' ' => {}
            '×' | '*' | '·' | 'x' | 'X' => tokens.push(Token::Sign('*')),
            '/' | '÷' => tokens.push(Token::Sign('/')),
            '+' => tokens.push(Token::Sign('+')),
            '-' | '−' | '–' => tokens.push(Token::Sign('-')),
            '(' | '[' => tokens.push(Token::Sign('(')),
            ')' | ']' => tokens.push(Token::Sign(')')),
            'l' if text.get(at..).is_some_and(|rest| rest.starts_with("ln")) => {
                tokens.push(Token::Ln);
                at += 1;
            }
            _ => return None,
        }
        at += letter.len_utf8();
    }
    Some(tokens)
}

/// Works out an expression, from left to right.
struct Parser<'a> {
    tokens: &'a [Token],
    at: usize,
}

impl Parser<'_> {
    fn whole(mut self) -> Option<f64> {
        let value = self.sum()?;
        (self.at == self.tokens.len() && value.is_finite()).then_some(value)
    }

    fn takes(&mut self, sign: char) -> bool {
        let next = self.tokens.get(self.at) == Some(&Token::Sign(sign));
        self.at += usize::from(next);
        next
    }

    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            if self.takes('+') {
                value += self.product()?;
            } else if self.takes('-') {
                value -= self.product()?;
            } else {
                return Some(value);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.factor()?;
        loop {
            if self.takes('*') {
                value *= self.factor()?;
            } else if self.takes('/') {
                value /= self.factor()?;
            } else if self.tokens.get(self.at) == Some(&Token::Sign('(')) {
                value *= self.factor()?;
            } else {
                return Some(value);
            }
        }
    }

    fn factor(&mut self) -> Option<f64> {
        if self.takes('-') {
            return self.factor().map(|value| -value);
        }
        if self.takes('(') {
            let value = self.sum()?;
            return self.takes(')').then_some(value);
        }
        match self.tokens.get(self.at)? {
            Token::Value(value) => {
                self.at += 1;
                Some(*value)
            }
            Token::Ln => {
                self.at += 1;
                // No other logarithm stands in the guides.
                self.factor().filter(|value| value.total_cmp(&2.0).is_eq()).map(|_| std::f64::consts::LN_2)
            }
            Token::Sign(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::dictionary::Dictionary;
    use crate::review::{Lexicon, Point, Question};

    #[track_caller]
    fn case(response: &str, expected: Option<bool>) {
        let dictionary = Dictionary::new(&Lexicon::default(), &[]);
        let read = |text: &str| dictionary.of_guide(text);
        let point = Point { statement: "Setup: c = (1 − 0.2)(4 mmol/L)(0.05).".to_owned(), ..Point::default() };
        let figures = Figures::of(&point, &Question::default(), read).unwrap();
        assert_eq!(comes_to(&figures, (0.158, 0.162), &read(response)), expected, "{response}");
    }

    #[test]
    fn a_setup_is_worked_out() {
        case("c = (1 − 0.2) × 4 × 0.05 = 99", Some(true));
        case("(1-0.2)*4*0.05", Some(true));
        case("c = 0.8 × 4000 × 0.05", Some(true));
        case("0.05 × 4 mmol/L × (1 − 0.2)", Some(true));
        case("c = 0.2 × 4 × 0.05 = 0.04", Some(false));
        case("(1 − 0.2) × 4 / 0.05", Some(false));
        case("1 − 0.2 × 4 × 0.05", Some(false));
        case("(1 + 0.2)(4)(0.05)", Some(false));
        case("I took 0.8 of the 4 and then 0.05 of it", None);
        case("0.16 mmol/L", None);
    }
}
