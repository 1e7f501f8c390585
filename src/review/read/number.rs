//! Numbers with their units, as students write them.

use std::ops::Range;

use super::unit_name::unit;
use crate::quantity::{Unit, in_words, significant};

/// A number in a text; its place in bytes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Number {
    pub(crate) bytes: Range<usize>,
    /// The bytes of the number alone.
    pub(crate) figure: Range<usize>,
    pub(crate) value: f64,
    pub(crate) unit: Option<Unit>,
    /// Significant figures as written.
    pub(crate) figures: usize,
}

impl Number {
    /// The value in another unit; where this one has no unit, the value as it stands.
    pub(crate) fn in_unit(&self, to: &Unit) -> Option<f64> {
        match &self.unit {
            Some(unit) => unit.convert(self.value, to).ok(),
            None => Some(self.value),
        }
    }
}

/// Numbers in words beside the whole ones; all count only before a unit.
const IN_WORDS: &[(&str, f64)] = &[("a half", 0.5), ("half a", 0.5), ("hundred", 100.0)];

/// Every number of a text in order.
pub(crate) fn numbers(text: &str) -> Vec<Number> {
    let mut found: Vec<Number> = Vec::new();
    let mut at = 0;
    let mut before = ' ';
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let number = if before.is_alphanumeric() || before == '_' { None } else { at_start(text, at, before) };
        if let Some(number) = number {
            at = number.bytes.end;
            before = text.get(..at).and_then(|head| head.chars().next_back()).unwrap_or(' ');
            found.push(number);
        } else {
            before = letter;
            at += letter.len_utf8();
        }
    }
    share_units(text, &mut found);
    found
}

/// The number that begins at this byte.
fn at_start(text: &str, at: usize, before: char) -> Option<Number> {
    let rest = text.get(at..)?;
    if let Some(number) = worded(text, at) {
        return Some(number);
    }
    let signed = rest.starts_with(['-', '−', '–']) && !matches!(before, ')' | ']');
    let sign = if signed { rest.chars().next().map_or(0, char::len_utf8) } else { 0 };
    let figure = rest.get(sign..)?;
    let length = plain(figure)?;
    // A letter right behind that begins no unit ("2nd", "5a") makes it a name.
    let mantissa = figure.get(..length)?;
    let cleaned: String = mantissa.chars().filter(|c| *c != ',').collect();
    let mut value: f64 = cleaned.parse().ok()?;
    let mut end = sign + length;
    let mut figures = significant::count(mantissa);
    if let Some((more, power)) = bare_power(mantissa, rest.get(end..)?) {
        value = format!("1e{power}").parse().ok()?;
        end += more;
    } else if let Some((more, fraction)) = mixed(rest.get(end..)?) {
        value += fraction;
        end += more;
        figures += 1;
    } else if let Some((more, power)) = power_of_ten(rest.get(end..)?) {
        value = format!("{cleaned}e{power}").parse().ok()?;
        end += more;
    }
    let value = if signed { -value } else { value };
    let whole = at..at + end;
    let behind = rest.get(end..)?;
    let found = unit(behind);
    let times = behind.strip_prefix('x').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    let glued = behind.starts_with(char::is_alphabetic) && !times;
    match found {
        Some((length, unit)) => {
            Some(Number { bytes: at..whole.end + length, figure: whole, value, unit: Some(unit), figures })
        }
        None if glued => None,
        None => Some(Number { bytes: whole.clone(), figure: whole, value, unit: None, figures }),
    }
}

/// Digits with a point, and commas between thousands: its length.
fn plain(text: &str) -> Option<usize> {
    let digits = |from: usize| text.get(from..).map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count());
    let mut end = digits(0);
    if end == 0 && !(text.starts_with('.') && digits(1) > 0) {
        return None;
    }
    while (1..=3).contains(&end) || end > 4 {
        let comma = text.get(end..).is_some_and(|rest| rest.starts_with(','));
        if !comma || digits(end + 1) != 3 {
            break;
        }
        end += 4;
    }
    if text.get(end..).is_some_and(|rest| rest.starts_with('.')) && digits(end + 1) > 0 {
        end += 1 + digits(end + 1);
    }
    Some(end)
}

/// " 1/2" behind a whole number.
fn mixed(text: &str) -> Option<(usize, f64)> {
    let rest = text.strip_prefix(' ')?;
    let mut parts = rest.splitn(2, '/');
    let above: f64 = parts.next().filter(|part| part.len() == 1)?.parse().ok()?;
    let below = parts.next()?;
    let digit: f64 = below.get(..1)?.parse().ok()?;
    let ends = below.get(1..).is_none_or(|tail| !tail.starts_with(|c: char| c.is_alphanumeric() || c == '.'));
    (ends && digit > 0.0).then_some((4, above / digit))
}

/// "× 10⁻⁸", "x10^-8", "e-8": its length and power.
fn power_of_ten(text: &str) -> Option<(usize, i32)> {
    if let Some(rest) = text.strip_prefix(['e', 'E']) {
        let sign = usize::from(rest.starts_with(['-', '+']));
        let digits = rest.get(sign..)?.bytes().take_while(u8::is_ascii_digit).count();
        let power = rest.get(..sign + digits)?.trim_start_matches('+').parse().ok()?;
        return (digits > 0).then_some((1 + sign + digits, power));
    }
    let trimmed = text.trim_start_matches(' ');
    let rest = trimmed.strip_prefix(['×', 'x', '*', '·'])?.trim_start_matches(' ').strip_prefix("10")?;
    let plain: String = rest.chars().take_while(|c| raised(*c).is_some()).filter_map(raised).collect();
    let (length, power) = if plain.is_empty() {
        let rest = rest.strip_prefix('^')?;
        let open = usize::from(rest.starts_with('('));
        let inner = rest.get(open..)?;
        let sign = inner.chars().next().filter(|c| matches!(c, '-' | '−' | '+'));
        let skip = sign.map_or(0, char::len_utf8);
        let digits = inner.get(skip..)?.bytes().take_while(u8::is_ascii_digit).count();
        let power: i32 = inner.get(skip..skip + digits)?.parse().ok()?;
        // "10^(−0.447)" is no power of ten that moves the point.
        if inner.get(skip + digits..).is_some_and(|tail| tail.starts_with('.')) {
            return None;
        }
        let close = usize::from(open == 1 && inner.get(skip + digits..).is_some_and(|tail| tail.starts_with(')')));
        (1 + open + skip + digits + close, if matches!(sign, Some('-' | '−')) { -power } else { power })
    } else {
        let bytes = rest.chars().take_while(|c| raised(*c).is_some()).map(char::len_utf8).sum();
        (bytes, plain.parse().ok()?)
    };
    Some((text.len() - rest.len() + length, power))
}

/// The power behind a ten that stands alone: "10⁻³".
fn bare_power(mantissa: &str, behind: &str) -> Option<(usize, i32)> {
    let plain: String = behind.chars().take_while(|c| raised(*c).is_some()).filter_map(raised).collect();
    let length = behind.chars().take_while(|c| raised(*c).is_some()).map(char::len_utf8).sum();
    (mantissa == "10" && !plain.is_empty()).then_some((length, plain.parse().ok()?))
}

/// A superscript as a plain digit or sign.
pub(super) fn raised(letter: char) -> Option<char> {
    let place = "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().position(|c| c == letter);
    match (place, letter) {
        (Some(digit), _) => u32::try_from(digit).ok().and_then(|digit| char::from_digit(digit, 10)),
        (None, '⁻') => Some('-'),
        _ => None,
    }
}

fn worded(text: &str, at: usize) -> Option<Number> {
    let rest = text.get(at..)?;
    let lower: String = rest.chars().take(14).collect::<String>().to_lowercase();
    let ends = |length: usize| rest.get(length..).is_some_and(|tail| tail.starts_with([' ', '-']));
    let other = IN_WORDS.iter().find(|(word, _)| lower.starts_with(word) && ends(word.len()));
    // "twenty-five minutes", "ten-minute".
    let run = lower.find(|letter: char| !letter.is_ascii_lowercase() && letter != '-').unwrap_or(lower.len());
    let run = lower.get(..run)?;
    let whole = [run, run.split('-').next()?].into_iter().find_map(|word| Some((word, in_words::value(word)?)));
    let whole = whole.filter(|(word, _)| ends(word.len())).map(|(word, value)| (word, f64::from(value)));
    let (word, value) = other.copied().or(whole)?;
    let (length, unit) = unit(rest.get(word.len()..)?)?;
    // "one a day" holds no unit; a name of one or two letters after a word is more likely a word.
    let name = rest.get(word.len()..word.len() + length)?.trim();
    (name.chars().count() > 2).then(|| Number {
        bytes: at..at + word.len() + length,
        figure: at..at + word.len(),
        value,
        unit: Some(unit),
        figures: 1,
    })
}

/// "10 to 20 %", "10, 15 and 20 mL": the last one's unit is that of all.
fn share_units(text: &str, numbers: &mut [Number]) {
    for place in (1..numbers.len()).rev() {
        let (head, tail) = numbers.split_at_mut(place);
        let (Some(before), Some(after)) = (head.last_mut(), tail.first()) else { continue };
        let between = text.get(before.bytes.end..after.bytes.start).unwrap_or_default().trim();
        if before.unit.is_none() && matches!(between, "to" | "-" | "–" | "," | "and" | "or" | "±" | ", and" | "") {
            before.unit.clone_from(&after.unit);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[(f64, &str)]) {
        let got: Vec<(f64, String)> = numbers(text)
            .into_iter()
            .map(|number| (number.value, number.unit.map_or(String::new(), |unit| unit.code().to_owned())))
            .collect();
        let expected: Vec<(f64, String)> = expected.iter().map(|(value, unit)| (*value, (*unit).to_owned())).collect();
        assert_eq!(got, expected, "{text}");
    }

    #[test]
    fn reads_numbers_and_units() {
        case("18.1 µmol/L", &[(18.1, "umol/L")]);
        case("18.1 umol per litre", &[(18.1, "umol/L")]);
        case("0.3 mol dm-3", &[(0.3, "mol/dm3")]);
        case("0.3 mol dm⁻³", &[(0.3, "mol/dm3")]);
        case("3.2 × 10⁻⁸ m", &[(3.2e-8, "m")]);
        case("3.2 x 10^-8 m", &[(3.2e-8, "m")]);
        case("6e23", &[(6e23, "")]);
        case("−7.4 bar, 64 %, 64% and 25 °C", &[(-7.4, "bar"), (64.0, "%"), (64.0, "%"), (25.0, "Cel")]);
        case("10 to 20 minutes", &[(10.0, "min"), (20.0, "min")]);
        case("two minutes", &[(2.0, "min")]);
        case("1,500 bp", &[(1500.0, "bp")]);
        case("2 1/2 h", &[(2.5, "h")]);
        case("the 2nd and the 3-fold", &[(3.0, "")]);
        case("CO2 and H2O", &[]);
        case("one a day", &[]);
        case("pH 7.2", &[(7.2, "")]);
        case("c = (0.504)(6 mmol/L)(0.006)", &[(0.504, ""), (6.0, "mmol/L"), (0.006, "")]);
        case("5 m/s2 or 5 m s^-2", &[(5.0, "m/s2"), (5.0, "m/s2")]);
        case("30 per cent", &[(30.0, "%")]);
        case("12 µm", &[(12.0, "um")]);
        case("ends 5.", &[(5.0, "")]);
        case("ends 2 mmol/dm3.", &[(2.0, "mmol/dm3")]);
        case("5 cm3. Or 5 m2, 2 mmol dm-3. 5 m s-1.", &[(5.0, "cm3"), (5.0, "m2"), (2.0, "mmol/dm3"), (5.0, "m/s")]);
        case("3 m 2.5 times", &[(3.0, "m"), (2.5, "")]);
        case("2 µmol/(L·min), 2 umol/(L min)", &[(2.0, "umol/L/min"), (2.0, "umol/L/min")]);
        case("40/min or 2 micromol L-1 min-1", &[(40.0, "/min"), (2.0, "umol/L/min")]);
        case("5 × 10⁻³ µmol/nmol and 10⁻³ m", &[(5e-3, "umol/nmol"), (1e-3, "m")]);
    }
}
