//! Slips of the pen that an edit brings in are warned of at their line; how a text reads is its author's own affair.

use toehold::diagnostic::Severity;

use super::Desk;
use super::edits::{Place, lines, replaced};

/// The text with something written behind the first full stop of the first line in a place, and that line's number.
fn with(text: &str, place: Place, more: &str) -> (String, usize) {
    let all = lines(text);
    let line = all.iter().find(|line| line.place == place && line.text.contains(". ")).unwrap();
    let at = line.range.start + line.text.find(". ").unwrap() + 2;
    (replaced(text, at..at, &format!("{more} ")), line.number)
}

#[test]
fn slips_are_warned_of_where_they_stand() {
    let desk = Desk::new();
    let slips = [
        ("repeated-word", "They look at the the label."),
        ("wrong-article", "They look at an label."),
        ("unbalanced", "They look at the label (again."),
        ("unbalanced", "They look at the “label."),
        ("placeholder", "They look at the label, TODO."),
    ];
    for text in desk.scenarios(77, 5) {
        for (code, slip) in slips {
            let (edited, line) = with(&text, Place::Prose, slip);
            let found = desk.proof(edited.into_bytes());
            let told: Vec<&str> = found.diagnostics.iter().map(|one| one.code.name).collect();
            assert_eq!(told, [code], "{slip}\n{}", found.text());
            assert!(found.at_line(line), "{slip} in line {line}\n{}", found.text());
            assert!(found.diagnostics.iter().all(|one| one.severity == Severity::Warning));
        }
    }
}

#[test]
fn style_is_not_spoken_of() {
    let desk = Desk::new();
    let styles = [
        "They look. They wait. They look. They wait.",
        "They  look at the label .",
        "They looked at the label, and it was there; this had been so before, and nobody had thought of it.",
    ];
    for text in desk.scenarios(78, 5) {
        for style in styles {
            let found = desk.proof(with(&text, Place::Prose, style).0.into_bytes());
            assert!(found.diagnostics.is_empty(), "{style}\n{}", found.text());
        }
    }
}
