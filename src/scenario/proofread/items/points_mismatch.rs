//! Points that do not match what is asked, or the guide.

use super::super::{Found, Lint, Manuscript, Question};
use super::term::terms;
use crate::diagnostic::{Code, Severity};
use crate::quantity::in_words;

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "points-mismatch",
        meaning: "a question is worth other points than its command term or its guide says",
        wrong: "(a) **Calculate** the rate. *(1)*",
        right: "(a) **Calculate** the rate. *(2)*",
    },
    hint: "identify, describe, estimate, evaluate 1 each; calculate, predict and justify 2; explain one a step or two",
    source: Some("common practice, no source"),
    severity: Severity::Error,
    after_edit: true,
    check,
};

/// Least and most points by command term.
const WORTH: &[(&str, u32, u32)] = &[
    ("identify", 1, 1),
    ("describe", 1, 1),
    ("estimate", 1, 1),
    ("evaluate", 1, 2),
    ("calculate", 2, 2),
    ("explain", 1, 4),
    ("predict", 1, 1),
    ("justify", 1, 1),
];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        let n_guide = manuscript.answers_to(question).count();
        let message = match worth(question) {
            Some((low, high)) if !(low..=high).contains(&question.points) => {
                let should = if low == high { low.to_string() } else { format!("{low} to {high}") };
                format!("{} points where {should} are due", question.points)
            }
            _ if !manuscript.answers.is_empty() && u32::try_from(n_guide) != Ok(question.points) => {
                format!("{} points, and {n_guide} in the guide", question.points)
            }
            _ => continue,
        };
        found.push(Found::new(question.place(), &*question.text, message));
    }
    found
}

/// Points that the command terms are worth; a number of things asked for multiplies them.
fn worth(question: &Question) -> Option<(u32, u32)> {
    let asked = terms(&question.text);
    let mut sum = (0, 0);
    for term in &asked {
        let (_, low, high) = WORTH.iter().find(|(name, ..)| name == term)?;
        sum = (sum.0 + low, sum.1 + high);
    }
    let things = things(&question.text);
    (!asked.is_empty()).then_some((sum.0 * things, sum.1 * things))
}

/// "Identify two wells": two.
fn things(text: &str) -> u32 {
    let after = text.rsplit("**").next().unwrap_or_default();
    after.split_whitespace().next().and_then(in_words::value).unwrap_or(1)
}
