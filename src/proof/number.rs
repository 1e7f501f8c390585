//! Numbers as people write them: `−7.4`, `0.30`, `24 000`, `1,500`, `3.2 × 10⁻⁸`, `1e-5`.

/// The number without sign that a text begins with, and how many bytes it takes.
pub(super) fn at_start(text: &str) -> Option<(f64, usize)> {
    let (digits, mut length) = digits(text)?;
    let mut value: f64 = digits.parse().ok()?;
    let rest = text.get(length..)?;
    if let Some((power, more)) = superscript(rest) {
        value = libm::pow(value, f64::from(power));
        length += more;
    } else if let Some((power, more)) = times_ten(rest).or_else(|| exponent(rest)) {
        // By way of text: the nearest float to what is written.
        value = format!("{digits}e{power}").parse().ok()?;
        length += more;
    }
    value.is_finite().then_some((value, length))
}

/// The digits with a plain point, and the bytes that they take.
fn digits(text: &str) -> Option<(String, usize)> {
    let mut out = String::new();
    let mut at = 0;
    let mut has_point = false;
    let mut grouped = false;
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let rest = text.get(at + letter.len_utf8()..).unwrap_or_default();
        if letter.is_ascii_digit() {
            out.push(letter);
            at += 1;
            continue;
        }
        let follow = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        match letter {
            '.' if follow > 0 && !has_point => {
                has_point = true;
                out.push('.');
            }
            ',' | ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' | '\'' | '’'
                if follow == 3 && !has_point && !out.is_empty() && (grouped || (out.len() <= 3 && out != "0")) =>
            {
                grouped = true;
            }
            // A comma for a decimal point.
            ',' if follow > 0 && !has_point && !grouped && !out.is_empty() && !rest.get(follow..)?.starts_with(',') => {
                has_point = true;
                out.push('.');
            }
            _ => break,
        }
        at += letter.len_utf8();
    }
    out.starts_with(|c: char| c.is_ascii_digit()).then_some((out, at))
}

/// `⁻⁸`.
fn superscript(text: &str) -> Option<(i32, usize)> {
    const RAISED: &str = "⁰¹²³⁴⁵⁶⁷⁸⁹";
    let mut power = String::new();
    let mut length = 0;
    for letter in text.chars() {
        match RAISED.chars().position(|raised| raised == letter) {
            Some(digit) => power.push_str(&digit.to_string()),
            None if letter == '⁻' && power.is_empty() => power.push('-'),
            None => break,
        }
        length += letter.len_utf8();
    }
    Some((power.parse().ok()?, length))
}

/// ` × 10⁻⁸` or ` × 10^-8`.
fn times_ten(text: &str) -> Option<(i32, usize)> {
    let after = text.trim_start_matches(' ').strip_prefix(['×', '·', 'x'])?;
    let after = after.trim_start_matches(' ').strip_prefix("10")?;
    let (power, length) = superscript(after).or_else(|| {
        let plain = after.strip_prefix('^')?;
        let (power, length) = whole(plain)?;
        Some((power, length + 1))
    })?;
    Some((power, text.len() - after.len() + length))
}

/// `e-8`.
fn exponent(text: &str) -> Option<(i32, usize)> {
    let (power, length) = whole(text.strip_prefix(['e', 'E'])?)?;
    let ends = !text.get(length + 1..)?.starts_with(char::is_alphanumeric);
    ends.then_some((power, length + 1))
}

/// A whole number with a sign.
fn whole(text: &str) -> Option<(i32, usize)> {
    let sign = text.chars().next().filter(|c| "-−+".contains(*c));
    let start = sign.map_or(0, char::len_utf8);
    let rest = text.get(start..)?;
    let length = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let number: i32 = rest.get(..length)?.parse().ok()?;
    let negative = sign.is_some_and(|sign| sign != '+');
    Some((if negative { -number } else { number }, start + length))
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "places come from the same text")]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, value: f64, rest: &str) {
        let (read, length) = at_start(text).unwrap_or_else(|| panic!("no number in {text:?}"));
        assert_eq!((read, &text[length..]), (value, rest), "{text}");
    }

    #[test]
    fn numbers_are_read_as_people_write_them() {
        case("0.30 mol/L", 0.3, " mol/L");
        case("7.", 7.0, ".");
        case("5, 10 and 15", 5.0, ", 10 and 15");
        case("24,000 L", 24_000.0, " L");
        case("24 000 L", 24_000.0, " L");
        case("1 234 567", 1_234_567.0, "");
        case("0,30 mol/L", 0.3, " mol/L");
        case("5,10,20", 5.0, ",10,20");
        case("3.2 × 10⁻⁸ m", 3.2e-8, " m");
        case("3.2 × 10^-8", 3.2e-8, "");
        case("10⁻⁶ mol", 1e-6, " mol");
        case("1e-5.", 1e-5, ".");
        case("2 e", 2.0, " e");
        case("100 20", 100.0, " 20");
    }
}
