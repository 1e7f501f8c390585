//! A question that does not say what is to be done.

use super::super::{Found, Lint, Manuscript};
use super::term::terms;
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "no-command-term",
        meaning: "a question has no command term",
        wrong: "(a) What about the control?",
        right: "(a) **Identify** the control.",
    },
    hint: "begin with identify, describe, explain, calculate, ...",
    source: Some("Hogan & Murphy 2007, Appl Meas Educ 20:427: define the task (the recommendation from memory)"),
    severity: Severity::Error,
    after_edit: true,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let without = manuscript.questions.iter().filter(|question| terms(&question.text).is_empty());
    without.map(|question| Found::new(question.place(), &*question.text, "no command term")).collect()
}
