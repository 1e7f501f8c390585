//! From a stretch of Markdown to words and facts, each with its place.
//!
//! Emphasis, quotation marks, targets of links and comments are passed over. A fact is read the same way from the file
//! and from the scenario made again, so what matters is that harmless changes of wording leave it as it is.

use std::ops::Range;

use super::direction;
use super::fact::{Fact, Kind, Number, Token};
use super::{number, unit};
use crate::quantity::in_words;

/// The words and facts of a stretch of a text.
pub(super) fn tokens(text: &str, range: &Range<usize>) -> Vec<Token> {
    let mut lexer = Lexer { text: text.get(range.clone()).unwrap_or_default(), at: 0, tokens: Vec::new() };
    lexer.run();
    let mut tokens = lexer.tokens;
    share_units(&mut tokens);
    points(&mut tokens);
    let mut tokens = direction::directions(&tokens);
    for token in &mut tokens {
        token.span = token.span.start + range.start..token.span.end + range.start;
    }
    tokens
}

struct Lexer<'a> {
    text: &'a str,
    at: usize,
    tokens: Vec<Token>,
}

impl<'a> Lexer<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn before(&self) -> Option<char> {
        self.text.get(..self.at).and_then(|before| before.chars().next_back())
    }

    fn push(&mut self, length: usize, kind: Kind) {
        self.tokens.push(Token { span: self.at..self.at + length, kind });
        self.at += length;
    }

    fn run(&mut self) {
        while let Some(letter) = self.rest().chars().next() {
            if self.skip() || self.number() {
                continue;
            }
            if letter.is_alphabetic() {
                self.word();
            } else if let Some(sign) = self.operator(letter) {
                self.push(letter.len_utf8(), Kind::Fact(Fact::Operator(sign)));
            } else if ",;:.?!→–—-±(".contains(letter) {
                self.push(letter.len_utf8(), Kind::Mark(if letter == '—' { '–' } else { letter }));
            } else {
                self.at += letter.len_utf8();
            }
        }
    }

    /// Passes over the target of a link or picture, and over comments.
    fn skip(&mut self) -> bool {
        for (open, close) in [("](", ')'), ("<!--", '>')] {
            if let Some(inner) = self.rest().strip_prefix(open) {
                let length = inner.find(close).map_or(inner.len(), |at| at + 1);
                self.at += open.len() + length;
                return true;
            }
        }
        false
    }

    /// A number with sign and unit.
    fn number(&mut self) -> bool {
        let rest = self.rest();
        let joined = self.before().is_some_and(char::is_alphanumeric);
        let sign = rest.chars().next().filter(|c| "-−".contains(*c));
        let follows = self.before().is_some_and(|c| c == ')' || c == '%');
        let after_sign = sign.map_or(0, char::len_utf8);
        // "plot-12.svg", "CO-2": a part of a name.
        let before = self.text.get(..self.at).unwrap_or_default();
        let in_name = before.strip_suffix('-').is_some_and(|before| before.ends_with(char::is_alphabetic));
        if (sign.is_some() && follows) || (joined && !self.after_ph()) || in_name {
            return false;
        }
        let digits = rest.get(after_sign..).unwrap_or_default();
        if !digits.starts_with(|c: char| c.is_ascii_digit()) {
            return false;
        }
        let Some((value, length)) = number::at_start(digits) else { return false };
        let value = if sign.is_some() { -value } else { value };
        let length = after_sign + length;
        let after = rest.get(length..).unwrap_or_default();
        let (unit, unit_length) = unit_after(after);
        if unit.is_none() && after.starts_with(char::is_alphabetic) {
            // "2nd", "3D": a word.
            return false;
        }
        let number = Number { value, unit, in_words: false, of_points: false };
        self.push(length + unit_length, Kind::Fact(Fact::Number(number)));
        true
    }

    /// "pH7": the number does belong to itself.
    fn after_ph(&self) -> bool {
        self.text.get(..self.at).is_some_and(|before| before.ends_with("pH"))
    }

    /// Letters and digits up to the next other sign; number words and their units.
    fn word(&mut self) {
        let rest = self.rest();
        let inner = |c: char| c.is_alphanumeric() || c == '\'' || c == '’';
        let mut length = rest.find(|c| !inner(c)).unwrap_or(rest.len());
        if rest.starts_with("pH") {
            length = 2;
        }
        // "twenty-five" is one word, "seven-day" is two.
        if let Some(after) = rest.get(length..).and_then(|rest| rest.strip_prefix('-')) {
            let second = after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len());
            let both = rest.get(..length + 1 + second).unwrap_or_default().to_lowercase();
            if in_words::value(&both).is_some() {
                length = both.len();
            }
        }
        let word = rest.get(..length).unwrap_or_default().to_lowercase();
        let Some(value) = in_words::value(&word).map(f64::from) else {
            return self.push(length, Kind::Word(word));
        };
        let (unit, unit_length) = unit_after(rest.get(length..).unwrap_or_default());
        // In words a unit is written in words too: "one m" would be a slip, "one a" is none.
        let spelt = unit.is_some() && unit_length > 3;
        let (unit, unit_length) = if spelt { (unit, unit_length) } else { (None, 0) };
        let number = Number { value, unit, in_words: true, of_points: false };
        self.push(length + unit_length, Kind::Fact(Fact::Number(number)));
    }

    /// A sign between the parts of an expression.
    fn operator(&self, letter: char) -> Option<char> {
        let sign = match letter {
            '+' | '×' | '/' => letter,
            '·' => '×',
            '−' | '-' => '−',
            '÷' => '/',
            '±' => return Some('±'),
            _ => return None,
        };
        let before = self.text.get(..self.at)?;
        let after = self.text.get(self.at + letter.len_utf8()..)?;
        let tight = sign == '/' || letter == '-';
        let spaced = before.ends_with(' ') && after.starts_with(' ');
        if letter == '/' && (before.ends_with(' ') || after.starts_with(' ')) {
            return None;
        }
        if letter == '-' && !spaced && !before.ends_with(')') {
            return None;
        }
        let end = before.trim_end_matches([' ', '*', '_', '`']).len();
        let after_number = self.tokens.last().is_some_and(|last| {
            last.span.end == end && matches!(&last.kind, Kind::Fact(Fact::Number(number)) if !number.in_words)
        });
        let fits = (after_number || ends_operand(before, tight)) && starts_operand(after);
        fits.then_some(sign)
    }
}

/// The unit after a number, a space or a line break between them at most.
fn unit_after(text: &str) -> (Option<crate::quantity::Unit>, usize) {
    // Emphasis may end between them.
    let between = [' ', '\u{a0}', '\u{202f}', '\u{2009}', '\r', '\n', '-', '*', '_', '`'];
    let gap = text.len() - text.trim_start_matches(between).len();
    let lines = text.get(..gap).map_or(0, |gap| gap.matches('\n').count());
    if lines > 1 {
        return (None, 0);
    }
    match text.get(gap..).and_then(unit::at_start) {
        Some((unit, length)) => (Some(unit), gap + length),
        None => (None, 0),
    }
}

/// Whether a text ends in something that can stand before an operator: a number, a bracket, a symbol.
fn ends_operand(text: &str, tight: bool) -> bool {
    let text = text.trim_end_matches([' ', '*', '_', '`']);
    if text.ends_with([')', '%']) || text.ends_with(|c: char| c.is_ascii_digit()) {
        return true;
    }
    let word = text.get(text.trim_end_matches(char::is_alphanumeric).len()..).unwrap_or_default();
    let length = word.chars().count();
    (1..=2).contains(&length) && !(tight && word.chars().all(|c| c.is_ascii_lowercase()) && length == 2)
}

/// Whether a text starts with something that can stand after an operator.
fn starts_operand(text: &str) -> bool {
    let text = text.trim_start_matches([' ', '*', '_', '`']);
    if text.starts_with(['(', '−']) || text.starts_with(|c: char| c.is_ascii_digit()) {
        return true;
    }
    let length = text.chars().take_while(|c| c.is_alphanumeric()).count();
    (1..=2).contains(&length)
}

/// "0, 5 and 10 %", "62.6 to 65.2 %": the unit at the end is that of all.
fn share_units(tokens: &mut [Token]) {
    let mut shared: Option<crate::quantity::Unit> = None;
    for token in tokens.iter_mut().rev() {
        match &mut token.kind {
            Kind::Fact(Fact::Number(number)) => {
                if number.unit.is_none() && !number.in_words {
                    number.unit.clone_from(&shared);
                }
                shared.clone_from(&number.unit);
            }
            Kind::Word(word) if ["to", "and", "or", "then"].contains(&word.as_str()) => {}
            Kind::Mark(',' | '–' | '-') => {}
            _ => shared = None,
        }
    }
}

/// Marks numbers of points.
fn points(tokens: &mut [Token]) {
    let mut after_points = false;
    for token in tokens.iter_mut().rev() {
        if let Kind::Fact(Fact::Number(number)) = &mut token.kind {
            number.of_points = after_points;
        }
        after_points = matches!(&token.kind, Kind::Word(word) if word == "point" || word == "points");
    }
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "places come from the same text")]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[&str]) {
        let tokens = tokens(text, &(0..text.len()));
        let facts: Vec<&str> =
            tokens.iter().filter(|token| token.fact().is_some()).map(|token| &text[token.span.clone()]).collect();
        assert_eq!(facts, expected, "{text}");
    }

    #[test]
    fn facts_are_found_in_sentences() {
        case("At 44 °C, the same throughout", &["44 °C"]);
        case("Readings from eight tubes; twenty minutes.", &["eight", "twenty minutes"]);
        case("F = F0·(1 − E). Setup: (100 %)(1 − 0.361)", &["·", "1", "−", "100 %", "1", "−", "0.361"]);
        case("Ψ = −7.4 bar, a 5-step path of CO2", &["−7.4 bar", "5"]);
        case(
            "A = (24000 L/(mol·cm))(1 cm)(2.02 µmol/L × 10⁻⁶ mol/µmol)",
            &["24000 L/(mol·cm)", "1 cm", "2.02 µmol/L", "×", "10⁻⁶ mol/µmol"],
        );
        case("(30 min − 10 min)/(2 s)", &["30 min", "−", "10 min", "/", "2 s"]);
        case("(98 − 100)/100 × 100 %", &["98", "−", "100", "/", "100", "×", "100 %"]);
        case("![at 5 %](plot-5.svg) <!-- 7 --> Na+ and up / down", &["5 %"]);
        case("the file wells-long-42.svg, 5-10 and 5–10", &["5-10", "5", "10"]);
        case("the double-stranded 2nd pH7 of ±2 SEM", &["7", "±", "2"]);
        case("level\n20\r\n% of it", &["20\r\n%"]);
        case("about **105** % or `4` min", &["105** %", "4` min"]);
    }

    #[test]
    fn units_are_shared_within_a_list() {
        let text = "0, 5 and 20 % here, from 3 on";
        let units: Vec<String> = tokens(text, &(0..text.len()))
            .iter()
            .filter_map(|token| match token.fact() {
                Some(Fact::Number(number)) => {
                    Some(number.unit.as_ref().map_or_else(String::new, |unit| unit.code().to_owned()))
                }
                _ => None,
            })
            .collect();
        assert_eq!(units, ["%", "%", "%", ""]);
    }
}
