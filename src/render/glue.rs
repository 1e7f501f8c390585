//! Numbers keep their units: "40 %" and "0.30 mol/L" are not parted at the end of a line.

/// Units that are plain words.
const WORDS: &[&str] =
    &["mm", "cm", "nm", "mL", "L", "bar", "s", "min", "h", "bp", "kbp", "V", "mV", "minutes", "hours"];

/// A space that keeps what stands on both sides together.
const NARROW: char = '\u{a0}';

/// The text with every space between a number and its unit made one that does not break.
pub(super) fn glue(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(' ') {
        out.push_str(before);
        let next = after.split(' ').next().unwrap_or_default();
        let keeps =
            before.chars().last().or_else(|| out.chars().last()).is_some_and(|c| c.is_ascii_digit()) && is_unit(next);
        out.push(if keeps { NARROW } else { ' ' });
        rest = after;
    }
    out.push_str(rest);
    out
}

fn is_unit(word: &str) -> bool {
    let word = word.trim_end_matches(['.', ',', ';', ':', ')', '?']);
    let compound = word.contains('/') && word.chars().all(|c| !c.is_whitespace()) && word.chars().count() <= 14;
    word.starts_with(['%', '°', 'µ']) || WORDS.contains(&word) || compound
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &str) {
        assert_eq!(glue(text).replace(NARROW, "~"), expected, "{text:?}");
    }

    #[test]
    fn numbers_keep_their_units() {
        case("from 0 % to 40 %.", "from 0~% to 40~%.");
        case("0.30 mol/L, at 22 °C", "0.30~mol/L, at 22~°C");
        case("20 in 5 min", "20 in 5~min");
        case("see 7 and 8", "see 7 and 8");
        case("no number %", "no number %");
        case("", "");
    }
}
