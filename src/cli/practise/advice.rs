//! What the reviewer says of an answer, as lines for the terminal.

use super::scoring::Advice;
use crate::cli::review::words;
use crate::review::{EvidenceRole, Habit, PointReview, Response, Review, Reviewer, Status, StepState};
use crate::scenario::Part;

/// Reviews the answer to one part.
pub(super) fn advice(reviewer: &Reviewer, part: &Part, answer: &str) -> Advice {
    let response = Response { id: part.label.clone(), text: answer.to_owned() };
    let Some(review) = reviewer.review(&response) else { return Advice::default() };
    let points = review.points.iter().map(|point| (point.id.clone(), line(point))).collect();
    let habits = review.habits.iter().filter_map(id).collect();
    Advice { points, remarks: remarks(&review), habits }
}

fn line(point: &PointReview) -> String {
    let status = match point.status {
        Status::Found => "found",
        Status::NotFound => "not found",
        Status::Contradicted => "contradicted",
        Status::LookAgain => "look again",
    };
    let quoted = |role: EvidenceRole| {
        let texts = point.evidence.iter().filter(|evidence| evidence.role == role);
        texts.map(|evidence| format!("“{}”", evidence.text)).collect::<Vec<_>>().join(", ")
    };
    let (says, denies) = (quoted(EvidenceRole::Earns), quoted(EvidenceRole::Denies));
    match (says.is_empty(), denies.is_empty()) {
        (true, true) => status.to_owned(),
        (false, true) => format!("{status}: {says}"),
        (true, false) => format!("{status}: {denies} against it"),
        (false, false) => format!("{status}: {says}, but {denies} against it"),
    }
}

fn remarks(review: &Review) -> Vec<String> {
    let habits = review.habits.iter().map(words);
    let missing = review.chain.iter().filter(|step| step.state == StepState::Missing);
    habits.chain(missing.map(|step| format!("a step was not seen: {}", step.step))).collect()
}

/// The habit as it is counted; none for what costs nothing.
fn id(habit: &Habit) -> Option<&'static str> {
    match habit {
        Habit::Restates { .. } => Some("restates"),
        Habit::Bullets { .. } => Some("bullets"),
        Habit::OverCount { .. } => Some("over-count"),
        Habit::NoReason { .. } => Some("no-reason"),
        Habit::NoSetup => Some("no-setup"),
        Habit::UnitMissing { .. } => Some("unit-missing"),
        Habit::Blank | Habit::Figures { .. } => None,
    }
}
