//! Words on a terminal: wrapped lines, headings, the table with its bars.

use crate::diagnostic::folded;
use crate::scenario::{Part, Scenario, Table};

/// Columns of a line.
const WIDTH: usize = 78;
/// Columns of the longest bar.
const BAR: usize = 24;

/// Text in lines, each after this margin; lines that the text has itself are kept.
pub(super) fn wrapped(text: &str, margin: &str) -> String {
    let width = WIDTH.saturating_sub(margin.chars().count());
    let words = |paragraph: &str| paragraph.split_whitespace().collect::<Vec<_>>().join(" ");
    let lines = text.lines().flat_map(|paragraph| folded(&words(paragraph), width, 0));
    lines.fold(String::new(), |text, line| text + margin + &line + "\n")
}

/// A heading, bold where colours show.
pub(super) fn heading(text: &str, colour: bool) -> String {
    if colour { format!("\n\u{1b}[1m{text}\u{1b}[0m\n\n") } else { format!("\n== {text} ==\n\n") }
}

/// A question with its command term in capitals, free of marks.
pub(super) fn question(part: &Part) -> String {
    let mut text = String::new();
    for (number, piece) in part.text.split("**").enumerate() {
        // A symbol that is slanted in print stands as it is.
        let piece = piece.replace('*', "");
        text.push_str(&if number % 2 == 1 { piece.to_uppercase() } else { piece });
    }
    let points = if part.points == 1 { "1 point".to_owned() } else { format!("{} points", part.points) };
    format!("({}) {text} [{points}]", part.label)
}

/// The levels alone: what can be seen before the prediction.
pub(super) fn covered(scenario: &Scenario) -> String {
    let table = &scenario.data;
    let header = table.columns.first().map(crate::scenario::Column::header).unwrap_or_default();
    let readout = table.columns.get(1).map(crate::scenario::Column::header).unwrap_or_default();
    let width = header.chars().count();
    let rows = table.printed.iter().map(|[level, ..]| format!("{level:>width$}  (covered)\n"));
    rows.fold(format!("{header}  {readout}\n"), |text, row| text + &row)
}

/// The whole table, with a bar for each mean.
pub(super) fn table(table: &Table) -> String {
    let headers: Vec<String> = table.columns.iter().map(crate::scenario::Column::header).collect();
    let width = |column: usize| {
        let header = headers.get(column).map_or(0, |header| header.chars().count());
        let cells = table.printed.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count());
        cells.max().unwrap_or(0).max(header)
    };
    let widths: Vec<usize> = (0..headers.len()).map(width).collect();
    let line = |cells: &[String]| {
        let cells = cells.iter().zip(&widths).map(|(cell, width)| format!("{cell:>width$}"));
        cells.collect::<Vec<_>>().join("  ")
    };
    let means = || table.rows.iter().map(|row| row.1);
    // Bars begin at zero where no mean lies below it; else there are none.
    let top = means().fold(0.0, f64::max);
    let bars = top > 0.0 && means().all(|mean| mean >= 0.0);
    let mut text = line(&headers) + "\n";
    for (printed, row) in table.printed.iter().zip(&table.rows) {
        text.push_str(&line(printed));
        if bars {
            text.extend(["  ", &"#".repeat(bar(row.1 / top))]);
        }
        text.push('\n');
    }
    text
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of 24 columns")]
fn bar(share: f64) -> usize {
    libm::round(share.clamp(0.0, 1.0) * 24.0) as usize % (BAR + 1)
}

/// The reading that the model's curve gives at a level, between its points on a straight line; none outside of it.
pub(super) fn on_curve(curve: &[(f64, f64)], level: f64) -> Option<f64> {
    let pairs = curve.iter().zip(curve.iter().skip(1));
    let mut within = pairs.filter(|((from, _), (to, _))| (*from..=*to).contains(&level));
    let ((from, low), (to, high)) = within.next()?;
    Some(if to > from { low + (high - low) * (level - from) / (to - from) } else { *low })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_longer_than_the_terminal() {
        let text = wrapped(&"one two three ".repeat(30), "  ");
        assert!(
            text.lines()
                .all(|line| line.chars().count() <= WIDTH && line.starts_with("  one") | line.starts_with("  t"))
        );
        assert_eq!(wrapped("a\n\nb", ""), "a\n\nb\n");
    }

    #[test]
    fn the_curve_is_read_between_its_points() {
        let curve = [(0.0, 1.0), (2.0, 3.0), (4.0, 3.5)];
        assert_eq!(on_curve(&curve, 1.0), Some(2.0));
        assert_eq!(on_curve(&curve, 4.0), Some(3.5));
        assert_eq!(on_curve(&curve, 5.0), None);
        assert_eq!(on_curve(&curve, f64::NAN), None);
    }
}
