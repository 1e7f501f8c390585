//! The report: where points are lost, by principle, by command term and by habit, and what to practise next and why.

use std::collections::BTreeMap;

use super::attempt::{Attempt, Standing, Verdict};
use super::estimate::Estimate;
use super::names::{CommandTerm, HabitId, PrincipleId};

/// A principle as the concepts have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// Its id.
    pub id: PrincipleId,
    /// Principles that it rests on.
    pub requires: Vec<PrincipleId>,
    /// Whether a scenario can exercise it.
    pub practicable: bool,
}

/// What attempts show together.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Attempts.
    pub n_attempts: usize,
    /// Those of which every point has been scored.
    pub n_finished: usize,
    /// Points earned, and points that count.
    pub points: (u32, u32),
    /// Weakest first.
    pub principles: Vec<(PrincipleId, OfPrinciple)>,
    /// Weakest first.
    pub command_terms: Vec<(CommandTerm, Estimate)>,
    /// Points that each habit lost, most first.
    pub habits: Vec<(HabitId, u32)>,
}

/// What is known of a principle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OfPrinciple {
    /// Of its points.
    pub estimate: Estimate,
    /// Directions of its steps that were right at the first try.
    pub right: u32,
    /// Directions asked.
    pub asked: u32,
}

/// What to practise next.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// The principle.
    pub principle: PrincipleId,
    /// Why.
    pub why: Why,
}

/// Why a principle comes next.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// The weakest whose prerequisites are in place.
    Weakest(Estimate),
    /// Of the practised ones none is weak; this one has not been met and what it rests on is in place.
    Unmet,
}

/// Reports on attempts in the order in which they began.
pub fn report(attempts: &[Attempt]) -> Report {
    let mut points = (0, 0);
    let mut principles: BTreeMap<PrincipleId, (Vec<bool>, u32, u32)> = BTreeMap::new();
    let mut terms: BTreeMap<CommandTerm, Vec<bool>> = BTreeMap::new();
    let mut habits: BTreeMap<HabitId, u32> = BTreeMap::new();
    for attempt in attempts {
        for Standing { score, verdict } in attempt.standing() {
            if verdict == Verdict::Void {
                continue;
            }
            let earned = verdict == Verdict::Earned;
            points = (points.0 + u32::from(earned), points.1 + 1);
            for principle in &score.principles {
                principles.entry(principle.clone()).or_default().0.push(earned);
            }
            terms.entry(score.command_term.clone()).or_default().push(earned);
            for habit in score.habits.iter().filter(|_| !earned) {
                *habits.entry(habit.clone()).or_default() += 1;
            }
        }
        for (principle, right) in directions(attempt) {
            let of = principles.entry(principle.clone()).or_default();
            of.1 += u32::from(right);
            of.2 += 1;
        }
    }
    let of = |(points, right, asked): (Vec<bool>, u32, u32)| OfPrinciple {
        estimate: Estimate::latest(&points),
        right,
        asked,
    };
    let mut principles: Vec<_> = principles.into_iter().map(|(id, seen)| (id, of(seen))).collect();
    principles.sort_by(|(_, one), (_, other)| one.estimate.mean.total_cmp(&other.estimate.mean));
    let mut terms: Vec<_> = terms.into_iter().map(|(term, points)| (term, Estimate::latest(&points))).collect();
    terms.sort_by(|(_, one), (_, other)| one.mean.total_cmp(&other.mean));
    let mut habits: Vec<_> = habits.into_iter().collect();
    habits.sort_by(|(_, one), (_, other)| other.cmp(one));
    let n_finished = attempts.iter().filter(|attempt| attempt.is_finished()).count();
    Report { n_attempts: attempts.len(), n_finished, points, principles, command_terms: terms, habits }
}

/// Directions of an attempt's steps with the principle of each, as first given.
fn directions(attempt: &Attempt) -> Vec<(&PrincipleId, bool)> {
    let mut first: BTreeMap<&str, (&PrincipleId, bool)> = BTreeMap::new();
    for answer in attempt.answers.iter().filter(|answer| answer.step.as_str().ends_with("/direction")) {
        if let Some((principle, right)) =
            answer.check.as_ref().and_then(|check| Some((check.principle.as_ref()?, check.right)))
        {
            first.entry(answer.step.as_str()).or_insert((principle, right));
        }
    }
    first.into_values().collect()
}

/// What to practise next: of all principles that a scenario can exercise and whose prerequisites are in place, the one with
/// the lowest estimate. A principle that has not been met stands at the prior's mean, one half: before those that mostly
/// succeed, after those that mostly fail. A prerequisite is in place where its own estimate is at least one half.
///
/// `known` stands in the order in which principles are to be met.
pub fn next(report: &Report, known: &[Known]) -> Option<Next> {
    ranked(report, known).into_iter().next()
}

/// All that could come next, best first.
pub fn ranked(report: &Report, known: &[Known]) -> Vec<Next> {
    let estimate = |id: &PrincipleId| {
        let seen = report.principles.iter().find(|(seen, _)| seen == id).map(|(_, of)| of.estimate);
        seen.filter(|estimate| estimate.of > 0)
    };
    let mean = |id: &PrincipleId| estimate(id).unwrap_or(Estimate::of(0, 0)).mean;
    let in_place = |principle: &&Known| principle.requires.iter().all(|id| mean(id) >= 0.5);
    // Of unmet ones those first that rest on the least: a first scenario begins with foundations.
    let weight = |principle: &Known| (estimate(&principle.id).is_none(), principle.requires.len());
    let mut open: Vec<&Known> = known.iter().filter(|principle| principle.practicable).filter(in_place).collect();
    open.sort_by(|one, other| mean(&one.id).total_cmp(&mean(&other.id)).then_with(|| weight(one).cmp(&weight(other))));
    let why = |principle: &Known| estimate(&principle.id).map_or(Why::Unmet, Why::Weakest);
    open.into_iter().map(|principle| Next { principle: principle.id.clone(), why: why(principle) }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn id(text: &str) -> PrincipleId {
        PrincipleId::new(text).expect("a name")
    }

    fn known(text: &str, requires: &[&str]) -> Known {
        Known { id: id(text), requires: requires.iter().map(|text| id(text)).collect(), practicable: true }
    }

    fn seen(points: &[(&str, u32, u32)]) -> Report {
        let of = |earned, of| OfPrinciple { estimate: Estimate::of(earned, of), right: 0, asked: 0 };
        let principles = points.iter().map(|(name, earned, n)| (id(name), of(*earned, *n))).collect();
        Report { principles, ..report(&[]) }
    }

    #[track_caller]
    fn case(points: &[(&str, u32, u32)], then: &str) {
        let known =
            [known("water", &[]), known("light", &[]), known("osmosis", &["water"]), known("lysis", &["osmosis"])];
        assert_eq!(next(&seen(points), &known).expect("a principle").principle, id(then), "{points:?}");
    }

    #[test]
    fn the_weakest_comes_next_whose_prerequisites_are_in_place() {
        case(&[], "water");
        case(&[("osmosis", 0, 3)], "osmosis");
        case(&[("osmosis", 0, 3), ("water", 0, 1)], "water");
        case(&[("osmosis", 0, 5), ("water", 2, 5), ("lysis", 0, 9)], "water");
        case(&[("water", 3, 3), ("light", 3, 3), ("osmosis", 3, 4)], "lysis");
        case(&[("water", 3, 3), ("light", 9, 9), ("osmosis", 3, 4), ("lysis", 2, 2)], "osmosis");
    }
}
