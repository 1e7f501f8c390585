//! What a review says: statuses, evidence, habits, and the chain of steps beside the guide's.

use std::ops::Range;

use serde::Serialize;

use super::habit::Habit;
use super::read::Reading;

/// What was seen of a point. A person's score stands above it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Status {
    /// The response says it.
    Found,
    /// Nothing of it was seen.
    NotFound,
    /// The response says the opposite, or says it and denies it.
    Contradicted,
    /// Parts of it were seen; a person must decide.
    LookAgain,
}

/// The review of one response.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Review {
    /// Id of the response.
    pub response: String,
    /// Every point of its question, in the guide's order.
    pub points: Vec<PointReview>,
    /// Habits that cost points, or might.
    pub habits: Vec<Habit>,
    /// The guide's steps in order, and what became of each; empty where the guide has fewer than two.
    pub chain: Vec<Step>,
}

/// What was seen of one point.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PointReview {
    /// Id of the point.
    pub id: String,
    /// What was seen.
    pub status: Status,
    /// Where, in order.
    pub evidence: Vec<Evidence>,
}

/// A stretch of the response. Places count characters (Unicode scalar values) from 0; `end` is one past the last.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Evidence {
    /// First character.
    pub start: usize,
    /// One past the last.
    pub end: usize,
    /// As written.
    pub text: String,
    /// Whether it speaks for the point or against it.
    pub role: EvidenceRole,
}

/// What a stretch does for a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum EvidenceRole {
    /// It says what earns.
    Earns,
    /// It denies it.
    Denies,
}

/// A step of the guide's chain.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// As the guide says it.
    pub step: String,
    /// Id of its point.
    pub point: String,
    /// What became of it.
    pub state: StepState,
}

/// What became of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum StepState {
    /// Told in its place.
    Said,
    /// Told, out of order.
    Elsewhere,
    /// The missing link.
    Missing,
}

/// A stretch in bytes, before it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stretch {
    pub(super) bytes: Range<usize>,
    pub(super) says: bool,
}

/// Stretches in characters, by place; those that touch or lie close together are one.
pub(super) fn evidence(reading: &Reading, stretches: &[Stretch]) -> Vec<Evidence> {
    let mut sorted: Vec<&Stretch> = stretches.iter().filter(|stretch| !stretch.bytes.is_empty()).collect();
    sorted.sort_by_key(|stretch| (!stretch.says, stretch.bytes.start, stretch.bytes.end));
    let mut joined: Vec<Stretch> = Vec::new();
    for stretch in sorted {
        match joined.last_mut() {
            Some(last) if last.says == stretch.says && near(reading, last.bytes.end, stretch.bytes.start) => {
                last.bytes.end = last.bytes.end.max(stretch.bytes.end);
            }
            _ => joined.push(stretch.clone()),
        }
    }
    let mut shown: Vec<Evidence> = joined
        .iter()
        .map(|stretch| {
            let span = reading.span(&stretch.bytes);
            let role = if stretch.says { EvidenceRole::Earns } else { EvidenceRole::Denies };
            Evidence { start: span.start, end: span.end, text: span.text, role }
        })
        .collect();
    shown.sort();
    shown
}

/// Whether little stands between two places of one sentence.
fn near(reading: &Reading, end: usize, start: usize) -> bool {
    let between = reading.text.get(end.min(start)..start).unwrap_or_default();
    start <= end || (between.chars().count() <= 20 && !between.contains(['.', '\n', ';']))
}
