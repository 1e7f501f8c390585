//! A question that says most of its own answer.

use std::collections::BTreeSet;

use super::super::words::content;
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "cued-answer",
        meaning: "nearly all the words that earn a point stand in the question",
        wrong: "(a) **Identify** the wells without sugar, with which sugared wells are compared. Earns: the wells without sugar.",
        right: "(a) **Identify** the wells with which the others are compared. Earns: the wells without sugar.",
    },
    hint: "ask without the words of the answer",
    source: Some(
        "Haladyna, Downing & Rodriguez 2002, Appl Meas Educ 15:309, guideline 28: no clues to the right answer",
    ),
    severity: Severity::Warning,
    after_edit: true,
    check,
};

/// Fewest words of matter from which a share can be told.
const FEWEST: usize = 2;
/// Four of five.
const MOST: (usize, usize) = (4, 5);

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        let asked: BTreeSet<String> = content(&question.text).into_iter().collect();
        for answer in manuscript.answers_to(question) {
            let earns: BTreeSet<String> = content(&answer.statement).into_iter().collect();
            let cued = earns.intersection(&asked).count();
            if earns.len() >= FEWEST && MOST.1 * cued >= MOST.0 * earns.len() {
                let message =
                    format!("{cued} of {} words of point {} stand in the question", earns.len(), answer.point);
                found.push(Found::new(question.place(), &*question.text, message));
            }
        }
    }
    found
}
