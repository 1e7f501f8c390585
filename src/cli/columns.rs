//! Text for people fitted to the width of their terminal: long lines go on below, indented to their last column.

use super::{Failure, World};
use crate::diagnostic::folded;

/// A narrower terminal than this is not fitted to.
const NARROWEST: usize = 30;

/// Runs what writes to `out`; where that is a table in a terminal, its lines are fitted to the width. What is piped stays as
/// it is.
///
/// # Errors
/// Those of what is run, and output that cannot be written.
pub(super) fn fit<T>(
    is_table: bool,
    world: &mut World<'_>,
    run: impl FnOnce(&mut World<'_>) -> Result<T, Failure>,
) -> Result<T, Failure> {
    let Some(width) = world.width.filter(|_| is_table) else { return run(world) };
    let mut text = Vec::new();
    let result = run(&mut World { input: world.input, out: &mut text, err: world.err, ..*world });
    world.out.write_all(fitted(&String::from_utf8_lossy(&text), width).as_bytes())?;
    result
}

/// The text with no line longer than this many characters, where words allow.
pub(super) fn fitted(text: &str, width: usize) -> String {
    if width < NARROWEST {
        return text.to_owned();
    }
    text.split('\n').flat_map(|line| folded(line, width, hang(line, width))).collect::<Vec<_>>().join("\n")
}

/// Where the last column begins: after the last two spaces in a row of the first half, else a little further in than the
/// line itself.
fn hang(line: &str, width: usize) -> usize {
    let letters: Vec<char> = line.chars().collect();
    let half = letters.get(..width / 2).unwrap_or(&letters);
    let begins = |pair: &[char]| matches!(pair, [' ', ' ', next] if *next != ' ');
    let last = half.windows(3).rposition(begins).map(|at| at + 2);
    let lead = letters.iter().take_while(|letter| **letter == ' ').count();
    last.filter(|at| *at > lead).unwrap_or((lead + 2).min(width / 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(line: &str, expected: &[&str]) {
        assert_eq!(fitted(line, 30), expected.join("\n"));
    }

    #[test]
    fn long_lines_go_on_in_their_last_column() {
        case("  short", &["  short"]);
        case("  name  one two three four five six seven", &["  name  one two three four", "        five six seven"]);
        case("a, b, c, d, e, f, g, h, i, j, k, l", &["a, b, c, d, e, f, g, h, i, j,", "  k, l"]);
    }

    #[test]
    fn a_word_is_never_parted_and_a_very_narrow_terminal_is_left_alone() {
        let long = "x".repeat(50);
        case(&long, &[&long]);
        case(&format!("{long} and more"), &[&long, "  and more"]);
        assert_eq!(fitted("one two three four", 5), "one two three four");
    }
}
