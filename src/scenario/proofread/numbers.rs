//! Numbers as written in running text, and whether a unit follows.

/// A number in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Number<'a> {
    pub(super) text: &'a str,
    pub(super) start: usize,
    pub(super) end: usize,
}

/// Numbers that stand alone: not part of a word such as "pUC19" or of a formula such as "4πr²".
pub(super) fn numbers(text: &str) -> Vec<Number<'_>> {
    let mut found = Vec::new();
    let mut place = 0;
    let mut before = ' ';
    while let Some(letter) = text.get(place..).and_then(|rest| rest.chars().next()) {
        if !letter.is_ascii_digit() {
            place += letter.len_utf8();
            before = letter;
            continue;
        }
        let length = length(text.get(place..).unwrap_or_default());
        let end = place + length;
        let after = text.get(end..).and_then(|rest| rest.chars().next()).unwrap_or(' ');
        if !before.is_alphanumeric() && !after.is_alphabetic() {
            found.push(Number { text: text.get(place..end).unwrap_or_default(), start: place, end });
        }
        before = '0';
        place = end;
    }
    found
}

/// Bytes of the digits at the start, with a decimal point that digits follow.
fn length(text: &str) -> usize {
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(text);
    let decimals = text.get(whole..).and_then(|rest| rest.strip_prefix('.')).map_or(0, digits);
    if decimals == 0 { whole } else { whole + 1 + decimals }
}

impl Number<'_> {
    /// Digits that say something: not leading zeros, nor the zeros that end a whole number.
    pub(super) fn significant(&self) -> usize {
        let digits: String = self.text.chars().filter(char::is_ascii_digit).collect();
        let digits = digits.trim_start_matches('0');
        let digits = if self.text.contains('.') { digits } else { digits.trim_end_matches('0') };
        digits.len()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stand_alone() {
        let text = "At 0.30 mol/L, pUC19 and 4πr²; 12 wells hold 1,000.";
        let found: Vec<&str> = numbers(text).iter().map(|number| number.text).collect();
        assert_eq!(found, ["0.30", "12", "1", "000"]);
    }

    #[test]
    fn digits_count_where_they_say_something() {
        for (text, digits) in [("0.0050", 2), ("23000", 2), ("2953", 4), ("35.271", 5), ("0", 0), ("10.0", 3)] {
            assert_eq!(numbers(text)[0].significant(), digits, "{text}");
        }
    }
}
