//! The same word twice in a row.

use super::super::words::words;
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "repeated-word",
        meaning: "a word stands twice in a row",
        wrong: "Dye leaves the the sacs.",
        right: "Dye leaves the sacs.",
    },
    hint: "take one out",
    source: None,
    severity: Severity::Error,
    after_edit: true,
    check,
};

/// Words that may stand twice: "what he had had", "that that cell".
const MAY: &[&str] = &["that", "had"];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for passage in manuscript.passages() {
        let all = words(passage.text);
        for (one, next) in all.iter().zip(all.iter().skip(1)) {
            let between = passage.text.get(one.end..next.start).unwrap_or_default();
            let spaces = !between.is_empty() && between.chars().all(char::is_whitespace);
            if spaces && one.is(next.text) && one.text.contains(char::is_alphabetic) && !one.is_one_of(MAY) {
                let quote = passage.text.get(one.start..next.end).unwrap_or_default();
                found.push(Found::new(&*passage.place, quote, format!("`{}` stands twice", next.text)));
            }
        }
    }
    found
}
