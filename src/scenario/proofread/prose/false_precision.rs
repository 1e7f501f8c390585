//! More digits than anybody could have measured.

use super::super::numbers::numbers;
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "false-precision",
        meaning: "a number has more than four significant digits",
        wrong: "The dye is at 38.6172 mmol/L.",
        right: "The dye is at 38.6 mmol/L.",
    },
    hint: "round it",
    source: Some("common practice, no source"),
    severity: Severity::Error,
    after_edit: false,
    check,
};

const MOST_DIGITS: usize = 4;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    let told = |kind| matches!(kind, Kind::Purpose | Kind::Procedure | Kind::Question | Kind::Answer);
    for passage in manuscript.passages().iter().filter(|passage| told(passage.kind)) {
        for number in numbers(passage.text) {
            let digits = number.significant();
            if digits > MOST_DIGITS {
                found.push(Found::new(&*passage.place, number.text, format!("{digits} significant digits")));
            }
        }
    }
    found
}
