//! Habits of an answer that cost points, or might: named, not punished.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use super::figure::{Figures, Value};
use super::guide::Question;
use super::meaning::Link;
use super::read::{Reading, Role};
use super::verdict::{PointReview, Status};

/// A habit and what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Habit {
    /// Nothing was written.
    Blank,
    /// The question is told again.
    Restates {
        /// Share of the answer's words that are the question's, in its order, in per cent.
        per_cent: usize,
    },
    /// A list where sentences are due.
    Bullets {
        /// Items.
        items: usize,
    },
    /// More was named than asked for: only the first ones were read.
    OverCount {
        /// How many were asked for.
        asked: usize,
        /// How many there are.
        given: usize,
    },
    /// The command term asks for a reason and none is given.
    NoReason {
        /// The command term.
        command_term: String,
    },
    /// A result without the way to it.
    NoSetup,
    /// A number without its unit.
    UnitMissing {
        /// The unit that it has in the guide, as printed.
        unit: String,
    },
    /// More or fewer significant figures than the guide's answer: mentioned, not punished.
    Figures {
        /// As written.
        shown: usize,
        /// In the guide.
        guide: usize,
    },
}

/// Shares of an answer's words, in per cent, from which on it restates the question.
pub(super) const RESTATES: usize = 60;
/// The same from which on it says nothing else.
pub(super) const RESTATES_ALL: usize = 90;

/// The habits of one response.
pub(super) fn habits(
    question: &Question,
    prompt: &Reading,
    reading: &Reading,
    given: usize,
    points: &[PointReview],
    read: impl Fn(&str) -> Arc<Reading>,
) -> Vec<Habit> {
    let mut habits = Vec::new();
    let term = question.command_term.to_lowercase();
    let asks = |terms: &[&str]| terms.iter().any(|wanted| term.contains(wanted));
    if reading.pieces.is_empty() {
        return vec![Habit::Blank];
    }
    let per_cent = restated(prompt, reading);
    let earns = points.iter().any(|point| matches!(point.status, Status::Found | Status::Contradicted));
    if per_cent >= RESTATES && !earns {
        habits.push(Habit::Restates { per_cent });
    }
    let items = reading.sentences.iter().filter(|sentence| sentence.bullet).count();
    if items >= 2 && !asks(&["identify", "list", "name", "state", "calculate", "construct"]) {
        habits.push(Habit::Bullets { items });
    }
    if let Some(asked) = question.count.filter(|asked| given > *asked) {
        habits.push(Habit::OverCount { asked, given });
    }
    let is_reason = |role: Role| matches!(role, Role::Link(Link::Because | Link::So));
    let reasons = reading.pieces.iter().any(|piece| is_reason(piece.role));
    // Where a reason was recognised, or a statement stands beside the prediction, one was given without a linking word.
    let predicts = asks(&["predict"]) && question.points.len() > 1;
    let of_reason = |point: &&PointReview| {
        let own = question.points.iter().position(|one| one.id == point.id);
        let text = own.and_then(|own| question.points.get(own)).map_or("", |one| one.statement.as_str());
        // The first point of a prediction with its reasons is the prediction.
        !(text.contains("direction alone") || (predicts && own == Some(0)))
    };
    let given_reason = points.iter().filter(of_reason).any(|point| point.status != Status::NotFound);
    let single = reading.sentences.len() < 2 && reading.clauses.len() < 3;
    if asks(&["justify", "evaluate", "why", "explain"]) && !reasons && !given_reason && single {
        habits.push(Habit::NoReason { command_term: question.command_term.clone() });
    }
    numbers(question, reading, read, &mut habits);
    habits
}

fn numbers(question: &Question, reading: &Reading, read: impl Fn(&str) -> Arc<Reading>, habits: &mut Vec<Habit>) {
    let all: Vec<Figures> = question.points.iter().filter_map(|point| Figures::of(point, question, &read)).collect();
    let mut has_setup = true;
    let mut right = false;
    for figures in &all {
        if !figures.setup.is_empty() {
            has_setup = figures.setup_seen(reading).0 >= super::judge::limit::SETUP;
        }
        if let Value::Right { bare, figures: shown, .. } = figures.value_seen(reading) {
            right = true;
            let Some(wanted) = &figures.value else { continue };
            if let Some(unit) = wanted.unit.as_ref().filter(|_| bare) {
                habits.push(Habit::UnitMissing { unit: unit.display().to_owned() });
            }
            if wanted.figures > 0 && shown.abs_diff(wanted.figures) > 1 {
                habits.push(Habit::Figures { shown, guide: wanted.figures });
            }
        }
    }
    let gives_number = right || !reading.numbers.is_empty();
    // The line of "cm3/min" divides no numbers.
    let mut beside = reading.text.clone();
    for number in reading.numbers.iter().rev() {
        beside.replace_range(number.bytes.clone(), " ");
    }
    let reckoned = beside.contains(['=', '×', '*', '/', '·', '+']) || beside.contains(" x ");
    if !has_setup && gives_number && !reckoned && all.iter().any(|figures| !figures.setup.is_empty()) {
        habits.push(Habit::NoSetup);
    }
}

/// Share of the answer's words that stand in the question in the same order, in per cent.
pub(super) fn restated(prompt: &Reading, reading: &Reading) -> usize {
    let mut numbers: BTreeMap<String, u32> = BTreeMap::new();
    let mut intern = |reading: &Reading| -> Vec<u32> {
        let words = reading.pieces.iter().filter(|piece| !matches!(piece.role, Role::Mark(_) | Role::Number(_)));
        words
            .map(|piece| {
                let next = u32::try_from(numbers.len()).unwrap_or(u32::MAX);
                *numbers.entry(piece.lower.clone()).or_insert(next)
            })
            .collect()
    };
    let (asked, answered) = (intern(prompt), intern(reading));
    if answered.len() < 4 || asked.is_empty() {
        return 0;
    }
    let same: usize = super::sequence::diff(&asked, &answered)
        .iter()
        .filter_map(|op| match op {
            similar::DiffOp::Equal { len, .. } => Some(*len),
            _ => None,
        })
        .sum();
    100 * same / answered.len()
}
