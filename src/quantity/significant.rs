//! Numbers as readers write them: significant figures, decimals, a proper minus sign, powers of ten; and back.

use std::fmt::Write as _;

/// Least and greatest decimal exponent that is written out in full; beyond, powers of ten are used.
const PLAIN: std::ops::RangeInclusive<i32> = -4..=5;

/// The number rounded to so many significant figures (at least one).
pub fn round_to(value: f64, figures: usize) -> f64 {
    if !value.is_finite() {
        return value;
    }
    format!("{:.*e}", figures.max(1) - 1, value).parse().unwrap_or(value)
}

/// The number rounded to so many decimals.
pub fn round_decimals(value: f64, decimals: usize) -> f64 {
    format!("{value:.decimals$}").parse().unwrap_or(value)
}

/// The number to so many significant figures: "0.30", "−7.4", "3.2 × 10⁻⁸".
pub fn figures(value: f64, figures: usize) -> String {
    if !value.is_finite() {
        return endless(value);
    }
    let places = figures.max(1) - 1;
    let written = format!("{value:.places$e}");
    let (mantissa, exponent) = written.split_once('e').unwrap_or((&written, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    if PLAIN.contains(&exponent) || value == 0.0 {
        plain(mantissa, exponent)
    } else {
        format!("{} × 10{}", mantissa.replace('-', "−"), superscript(exponent))
    }
}

/// The number to so many decimals: "12.50", "−0.3". A number that rounds to nought has no sign.
pub fn decimals(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return endless(value);
    }
    let written = format!("{value:.decimals$}");
    match written.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|byte| byte == b'0' || byte == b'.') => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => written,
    }
}

/// The number with as few figures as say it, at most so many: "0.3", "23130", "−7.36".
pub fn shortest(value: f64, most: usize) -> String {
    if !value.is_finite() {
        return endless(value);
    }
    let rounded = round_to(value, most);
    let written = format!("{rounded:e}");
    let mantissa = written.split_once('e').map_or(written.as_str(), |(mantissa, _)| mantissa);
    figures(rounded, mantissa.bytes().filter(u8::is_ascii_digit).count())
}

/// Reads a number that a person wrote: a proper or a plain minus sign, "× 10⁻⁸" or "e-8".
pub fn parse(text: &str) -> Option<f64> {
    let plain: String = text.trim().chars().map(|c| if c == '−' { '-' } else { c }).collect();
    let value = match plain.split_once('×') {
        Some((mantissa, power)) => {
            let power: String = power.trim().strip_prefix("10")?.chars().map(lowered).collect::<Option<_>>()?;
            format!("{}e{power}", mantissa.trim()).parse().ok()
        }
        None => plain.parse().ok(),
    };
    value.filter(|number: &f64| !number.is_nan())
}

/// How many significant figures a written number shows: noughts before the first other digit don't count, nor do those
/// that end a whole number.
pub fn count(text: &str) -> usize {
    let mantissa = text.split(['×', 'e', 'E']).next().unwrap_or_default();
    let digits: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    let digits = if mantissa.contains('.') { digits } else { digits.trim_end_matches('0') };
    digits.len()
}

/// A power as superscript digits.
pub(crate) fn superscript(power: i32) -> String {
    power.to_string().chars().map(raised).collect()
}

/// Digits and sign written out in full: the point moved by the exponent.
fn plain(mantissa: &str, exponent: i32) -> String {
    let negative = mantissa.starts_with('-');
    let digits: Vec<char> = mantissa.chars().filter(char::is_ascii_digit).collect();
    let nought = digits.iter().all(|digit| *digit == '0');
    let mut text = String::new();
    if negative && !nought {
        text.push('−');
    }
    let whole = usize::try_from(exponent + 1).unwrap_or(0);
    if whole == 0 {
        text.push_str("0.");
        text.extend(std::iter::repeat_n('0', usize::try_from(-exponent - 1).unwrap_or(0)));
        text.extend(digits);
    } else {
        for place in 0..whole.max(digits.len()) {
            if place == whole {
                text.push('.');
            }
            text.push(digits.get(place).copied().unwrap_or('0'));
        }
    }
    text
}

fn endless(value: f64) -> String {
    let mut text = String::new();
    let _ = write!(text, "{value}");
    match text.as_str() {
        "inf" => "∞".to_owned(),
        "-inf" => "−∞".to_owned(),
        _ => "not a number".to_owned(),
    }
}

fn raised(digit: char) -> char {
    match digit {
        '0' => '⁰',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '4' => '⁴',
        '5' => '⁵',
        '6' => '⁶',
        '7' => '⁷',
        '8' => '⁸',
        '9' => '⁹',
        '-' | '−' => '⁻',
        other => other,
    }
}

fn lowered(digit: char) -> Option<char> {
    ('0'..='9').chain(['-']).find(|plain| raised(*plain) == digit || *plain == digit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(value: f64, n: usize, expected: &str) {
        assert_eq!(figures(value, n), expected);
    }

    #[test]
    fn figures_are_significant() {
        case(0.3, 2, "0.30");
        case(-7.3567, 2, "−7.4");
        case(3.2e-8, 2, "3.2 × 10⁻⁸");
        case(-3.25e-8, 3, "−3.25 × 10⁻⁸");
        case(15342.0, 2, "15000");
        case(23130.0, 5, "23130");
        case(9.96, 2, "10");
        case(0.0996, 2, "0.10");
        case(0.0, 3, "0.00");
        case(-0.0, 3, "0.00");
        case(1.2e7, 2, "1.2 × 10⁷");
        case(0.00045, 2, "0.00045");
        case(f64::INFINITY, 2, "∞");
        case(100.0, 1, "100");
    }

    #[test]
    fn decimals_drop_the_sign_of_nought() {
        assert_eq!(decimals(-0.04, 1), "0.0");
        assert_eq!(decimals(-0.06, 1), "−0.1");
        assert_eq!(decimals(12.5, 2), "12.50");
    }

    #[test]
    fn shortest_says_no_more_than_needed() {
        assert_eq!(shortest(0.3, 4), "0.3");
        assert_eq!(shortest(23130.0, 5), "23130");
        assert_eq!(shortest(2.0 / 3.0, 3), "0.667");
        assert_eq!(shortest(100.0, 4), "100");
    }

    #[test]
    fn reads_what_it_writes() {
        assert_eq!(parse("−3.25 × 10⁻⁸"), Some(-3.25e-8));
        assert_eq!(parse(" 0.30 "), Some(0.3));
        assert_eq!(parse("-7e2"), Some(-700.0));
        assert_eq!(parse("nan"), None);
        assert_eq!(parse("3 apples"), None);
    }

    #[test]
    fn counts_figures() {
        for (text, n) in
            [("0.30", 2), ("−7.4", 2), ("1500", 2), ("1500.", 4), ("3.20 × 10⁻⁸", 3), ("0", 0), ("6e23", 1)]
        {
            assert_eq!(count(text), n, "{text}");
        }
    }
}
