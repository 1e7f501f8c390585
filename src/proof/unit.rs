//! Units as a person types them: printed (`µmol/(L·min)`), plain (`umol/L`), in words (`minutes`).

use crate::quantity::Unit;

/// Words and shapes for units that have another code.
const WORDS: &[(&str, &str)] = &[
    ("second", "s"),
    ("seconds", "s"),
    ("sec", "s"),
    ("minute", "min"),
    ("minutes", "min"),
    ("mins", "min"),
    ("hour", "h"),
    ("hours", "h"),
    ("hr", "h"),
    ("hrs", "h"),
    ("day", "d"),
    ("days", "d"),
    ("week", "wk"),
    ("weeks", "wk"),
    ("percent", "%"),
    ("per cent", "%"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("centimetre", "cm"),
    ("centimetres", "cm"),
    ("metre", "m"),
    ("metres", "m"),
    ("degrees Celsius", "Cel"),
    ("degrees C", "Cel"),
    ("degC", "Cel"),
    ("℃", "Cel"),
    ("M", "mol/L"),
    ("mM", "mmol/L"),
    ("uM", "umol/L"),
    ("nM", "nmol/L"),
];

/// Words that are also codes of units, and hardly ever meant so.
const NOT_UNITS: &[&str] = &["a", "as", "am", "pm", "A", "at", "u", "d", "e"];

/// The longest unit that a text could begin with, in bytes.
const LONGEST: usize = 40;

/// The unit that a text begins with, and how many bytes of it are the unit.
pub(super) fn at_start(text: &str) -> Option<(Unit, usize)> {
    for (word, code) in WORDS {
        if let Some(rest) = text.strip_prefix(word)
            && !rest.starts_with(char::is_alphanumeric)
            && !rest.starts_with(['/', '·', '²', '³', '⁻'])
        {
            return Some((Unit::parse(code).ok()?, word.len()));
        }
    }
    let mut end = run(text);
    while end > 0 {
        let candidate = text.get(..end)?;
        if let Some(unit) = read(candidate) {
            return Some((unit, end));
        }
        end = shorter(candidate);
    }
    None
}

/// The unit that a whole text is.
pub(super) fn read(text: &str) -> Option<Unit> {
    let text = text.trim();
    if NOT_UNITS.contains(&text) || !text.starts_with(|c: char| c.is_alphabetic() || "%°1".contains(c)) {
        return None;
    }
    if let Some((_, code)) = WORDS.iter().find(|(word, _)| *word == text) {
        return Unit::parse(code).ok();
    }
    let mut code = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            'µ' | 'μ' => code.push('u'),
            'º' => code.push('°'),
            '·' | '⋅' | '*' => code.push('.'),
            '⁻' | '−' => code.push('-'),
            '⁰' => code.push('0'),
            '¹' => code.push('1'),
            '²' => code.push('2'),
            '³' => code.push('3'),
            '⁴'..='⁹' => code.extend(char::from_digit(u32::from(letter) - u32::from('⁰'), 10)),
            '^' => {}
            other => code.push(other),
        }
    }
    // A power of ten is written 10*6 in codes.
    if let Some(rest) = code.strip_prefix("10").filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
        code = format!("10*{rest}");
    }
    Unit::parse(&code).ok()
}

/// How far letters and signs go that units are made of.
fn run(text: &str) -> usize {
    let mut depth = 0_i32;
    for (at, letter) in text.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        let belongs = letter.is_alphanumeric() || "%°º·⋅/()⁻^⁰⁴⁵⁶⁷⁸⁹".contains(letter);
        if !belongs || depth < 0 || at > LONGEST {
            return at;
        }
    }
    text.len()
}

/// The length of the text without its last part: units end where a word or a bracket does.
fn shorter(text: &str) -> usize {
    let cut = text.trim_end_matches(char::is_alphanumeric);
    if cut.len() < text.len() {
        return cut.len();
    }
    text.char_indices().last().map_or(0, |(at, _)| at)
}

/// Whether two units say the same of a number: equal in dimension, factor and zero.
pub(super) fn same(one: &Unit, other: &Unit) -> bool {
    let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
    let at = |value: f64| one.convert(value, other).is_ok_and(|there| close(there, value));
    at(0.0) && at(1.0) && counts_particles(one) == counts_particles(other)
}

/// Whether it is a unit of osmoles.
pub(super) fn counts_particles(unit: &Unit) -> bool {
    unit.code().contains("osm")
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "places come from the same text")]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, code: &str, rest: &str) {
        let (unit, length) = at_start(text).unwrap_or_else(|| panic!("no unit in {text:?}"));
        assert!(same(&unit, &Unit::parse(code).unwrap()), "{text}: {unit:?}");
        assert_eq!(&text[length..], rest);
    }

    #[test]
    fn units_are_read_as_printed_and_as_typed() {
        case("µmol/L.", "umol/L", ".");
        case("umol/L of it", "umol/L", " of it");
        case("% to", "%", " to");
        case("%)(1 − 0.3)", "%", ")(1 − 0.3)");
        case("L/(mol·cm))(1 cm)", "L/(mol.cm)", ")(1 cm)");
        case("mol/L)(295 K)", "mol/L", ")(295 K)");
        case("°C, for", "Cel", ", for");
        case("minutes.", "min", ".");
        case("cm²/(V·s) and", "cm2/(V.s)", " and");
        case("s⁻¹", "s-1", "");
        case("10⁶/mL", "10*6/mL", "");
        case("mM", "mmol/L", "");
        case("per cent", "%", "");
    }

    #[test]
    fn words_are_no_units() {
        for text in ["wells", "a drop", "as the", "and 7", "mean", "at", "levels", "", "points)", "(a) b"] {
            assert!(at_start(text).is_none(), "{text}: {:?}", at_start(text));
        }
    }
}
