//! Two spaces in a row, or a space before punctuation.

use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "stray-space",
        meaning: "two spaces stand in a row, or a space stands before punctuation",
        wrong: "Dye is added  to each well .",
        right: "Dye is added to each well.",
    },
    hint: "take the space out",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for passage in manuscript.passages() {
        let mut rest = passage.text;
        let mut before = "";
        while let Some((left, right)) = rest.split_once(' ') {
            let last = left.rsplit(' ').next().filter(|word| !word.is_empty()).unwrap_or(before);
            let next = right.split(' ').next().unwrap_or_default();
            let stray = right.starts_with(' ') || is_stop(next);
            if stray {
                let gap = if right.starts_with(' ') { "  " } else { " " };
                let quote = format!("{last}{gap}{}", right.trim_start().split(' ').next().unwrap_or_default());
                found.push(Found::new(&*passage.place, quote, "a stray space"));
            }
            before = if left.is_empty() { before } else { last };
            rest = right.trim_start_matches(' ');
        }
    }
    found
}

/// Whether a word is punctuation alone that follows its word without a space; an ellipsis may stand alone.
fn is_stop(word: &str) -> bool {
    word.starts_with(['.', ',', ';', ':', '?', '!'])
        && !word.starts_with("...")
        && !word.contains(char::is_alphanumeric)
}
