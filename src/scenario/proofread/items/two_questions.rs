//! Two questions in one part.

use super::super::{Found, Lint, Manuscript};
use super::term::terms;
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "two-questions",
        meaning: "one part asks two things",
        wrong: "(a) **Identify** the control and explain why it is needed.",
        right: "(a) **Identify** the control. (b) **Explain** why it is needed.",
    },
    hint: "give each its own part and points",
    source: Some("Haladyna, Downing & Rodriguez 2002, Appl Meas Educ 15:309, guideline 1: one content, one mental act"),
    severity: Severity::Error,
    after_edit: true,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        let asked = terms(&question.text);
        let pair = asked == ["predict", "justify"];
        let marks = question.text.matches('?').count();
        let message = if asked.len() > 1 && !pair {
            format!("it asks to {}", asked.join(" and to "))
        } else if marks > 1 || (marks == 1 && !asked.is_empty()) {
            format!("{} questions", marks + usize::from(marks == 1))
        } else {
            continue;
        };
        found.push(Found::new(question.place(), &*question.text, message));
    }
    found
}
