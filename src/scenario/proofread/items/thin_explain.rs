//! An explanation of many steps for few points.

use super::super::{Found, Lint, Manuscript};
use super::term::terms;
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "thin-explain",
        meaning: "a point for explaining needs more than three steps",
        wrong: "(b) **Explain** ... *(1)* Earns: A; B; C; D.",
        right: "(b) **Explain** ... *(2)* Earns: A; B. C; D.",
    },
    hint: "give it more points, or ask about fewer steps",
    source: Some("Hogan & Murphy 2007, Appl Meas Educ 20:427: points in proportion to the work (from memory)"),
    severity: Severity::Warning,
    after_edit: true,
    check,
};

/// Steps that one point may need.
const MOST_STEPS: usize = 3;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    let explains = manuscript.questions.iter().filter(|question| terms(&question.text).contains(&"explain"));
    for question in explains {
        for answer in manuscript.answers_to(question) {
            let steps = answer.statement.split("; ").count();
            if steps > MOST_STEPS {
                found.push(Found::new(
                    question.place(),
                    &*question.text,
                    format!("point {} needs {steps} steps", answer.point),
                ));
            }
        }
    }
    found
}
