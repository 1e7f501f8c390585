//! How much room letters take: there is no font at hand, so widths are taken on the wide side.

/// Width of a text in units of its letter height; a little more than common sans-serif faces need.
pub(super) fn width(text: &str) -> f64 {
    text.chars().map(letter).sum()
}

/// Widths of common sans-serif faces (Arial, Helvetica, Liberation Sans), rounded up; from memory.
fn letter(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | ' ' => 0.30,
        'f' | 't' | 'r' | '(' | ')' | '/' | '-' | '[' | ']' | '"' | '“' | '”' => 0.38,
        'm' | 'w' | 'M' | 'W' | '%' | '—' | '…' => 0.93,
        'A'..='Z' => 0.72,
        _ => 0.58,
    }
}

/// The text in lines no wider than `room`, all in the same unit; a word wider than that has a line of its own.
pub(super) fn wrap(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if (width(line) + width(" ") + width(word)) * size <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// The text without characters that SVG cannot hold.
pub(super) fn clean(text: &str) -> String {
    let allowed = |c: &char| !c.is_control() && !matches!(*c, '\u{fffe}' | '\u{ffff}');
    text.chars().map(|c| if c.is_whitespace() { ' ' } else { c }).filter(allowed).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, room: f64, expected: &[&str]) {
        assert_eq!(wrap(text, 10.0, room), expected, "{text:?} in {room}");
    }

    #[test]
    fn lines_hold_what_fits() {
        case("one two three", 1000.0, &["one two three"]);
        case("one two three", 45.0, &["one two", "three"]);
        case("incompressible", 10.0, &["incompressible"]);
        case("", 10.0, &[]);
    }

    #[test]
    fn characters_that_no_picture_can_hold_are_left_out() {
        assert_eq!(clean("a\u{1}b\tc"), "ab c");
    }
}
