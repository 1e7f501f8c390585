//! The student's chain of steps beside the guide's, so that the missing link is visible.

use std::ops::Range;

use similar::DiffOp;

use super::guide::{PointKind, Question};
use super::judge::Judge;
use super::matching::{Found, Matcher};
use super::pattern::Pattern;
use super::verdict::{PointReview, Status, Step, StepState};

/// The guide's steps and what became of each. A step is one clause of a statement that says which way a quantity goes or
/// how one thing brings about the next; numbers are none.
pub(super) fn chain(question: &Question, judge: &Judge<'_>, points: &[PointReview]) -> Vec<Step> {
    let mut steps: Vec<(String, String)> = Vec::new();
    let mut places: Vec<Option<usize>> = Vec::new();
    for point in &question.points {
        let reckoned = judge.figures_of(point).is_some();
        if point.kind == PointKind::Link || reckoned {
            continue;
        }
        let clauses: Vec<&str> = point.statement.trim_end_matches('.').split(';').map(str::trim).collect();
        // What is found is not missing, in whatever words it is told.
        let found = points.iter().find(|one| one.id == point.id && one.status == Status::Found);
        let elsewhere = found.filter(|_| clauses.len() == 1).and_then(|one| one.evidence.last());
        let elsewhere = elsewhere.and_then(|one| judge.reading.text.char_indices().nth(one.start)).map(|(at, _)| at);
        for clause in clauses {
            places.push(place(clause, judge).or(elsewhere));
            steps.push((clause.to_owned(), point.id.clone()));
        }
    }
    if steps.len() < 2 {
        return Vec::new();
    }
    let number = |step: usize| u32::try_from(step).unwrap_or(u32::MAX);
    let guide: Vec<u32> = (0..steps.len()).map(number).collect();
    let mut told: Vec<(usize, usize)> =
        places.iter().enumerate().filter_map(|(step, place)| Some((place.as_ref().copied()?, step))).collect();
    told.sort_unstable();
    let student: Vec<u32> = told.into_iter().map(|(_, step)| number(step)).collect();
    let mut in_place = vec![false; steps.len()];
    for op in super::sequence::diff(&guide, &student) {
        if let DiffOp::Equal { old_index, len, .. } = op {
            in_place.iter_mut().skip(old_index).take(len).for_each(|flag| *flag = true);
        }
    }
    let states = in_place.into_iter().zip(places);
    let state = |(in_place, place): (bool, Option<usize>)| match (in_place, place) {
        (true, _) => StepState::Said,
        (false, Some(_)) => StepState::Elsewhere,
        (false, None) => StepState::Missing,
    };
    steps.into_iter().zip(states.map(state)).map(|((step, point), state)| Step { step, point, state }).collect()
}

/// Where the response tells a step, in bytes.
fn place(text: &str, judge: &Judge<'_>) -> Option<usize> {
    let pattern = Pattern::of(text, judge.prompt, judge.dictionary);
    let matcher = Matcher { reading: judge.reading, dictionary: judge.dictionary, topic: judge.topic };
    let found = matcher.find(&pattern);
    let named = found.named();
    let told = match found.effect() {
        Some(effect) => effect == Found::Agrees && named >= super::judge::limit::WITH_DIRECTIONS,
        None => named >= super::judge::limit::WORDS_ALONE,
    };
    let last = |places: &[Range<usize>]| places.iter().map(|place| place.start).max();
    if told { last(&found.says) } else { None }
}
