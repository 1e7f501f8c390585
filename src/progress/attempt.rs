//! An attempt: one student's way through one scenario, as a growing list of answers, scores and corrections.
//!
//! Nothing in it is ever changed or taken out: a later entry of the same step or point stands above an earlier one.

use std::collections::{BTreeMap, BTreeSet};

use super::moment::Moment;
use super::names::{
    AttemptId, CommandTerm, HabitId, PartLabel, PointLabel, PrincipleId, ScenarioId, StepKey, StudentCode,
};
use super::support::Support;

/// One student's way through one scenario.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attempt {
    /// Unique.
    pub id: AttemptId,
    /// Whose, where several share a file.
    pub student: Option<StudentCode>,
    /// When it began.
    pub started: Moment,
    /// Support at its beginning.
    pub support: Support,
    /// What was practised.
    pub scenario: Practised,
    /// In the order in which they were given.
    pub answers: Vec<Answer>,
    /// In the order in which they were given.
    pub scores: Vec<Score>,
    /// In the order in which they were made.
    pub corrections: Vec<Correction>,
}

/// A scenario as an attempt remembers it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Practised {
    /// Its name.
    pub id: ScenarioId,
    /// Its title; one line.
    pub title: String,
    /// Its seed.
    pub seed: u64,
    /// Its length.
    pub form: Form,
    /// Points that it is worth.
    pub points: u32,
    /// Principles that it exercises.
    pub principles: Vec<PrincipleId>,
    /// What makes it again, opaque here; none for a question of another kind.
    pub front: Option<String>,
}

/// Length of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// Three or four points.
    Short,
    /// Ten points.
    Long,
}

impl Form {
    /// As written.
    pub fn word(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Long => "long",
        }
    }

    /// From the word.
    pub fn find(word: &str) -> Option<Self> {
        [Self::Short, Self::Long].into_iter().find(|form| form.word() == word)
    }
}

/// What was written at one step of the loop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// Where.
    pub step: StepKey,
    /// What; empty where it was left blank.
    pub text: String,
    /// Whether it was right, where the program can tell.
    pub check: Option<Check>,
    /// When.
    pub at: Moment,
}

/// What the program found of a direction.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    /// Whether it was right.
    pub right: bool,
    /// The principle of the step.
    pub principle: Option<PrincipleId>,
}

/// A point as the student scored it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Score {
    /// The part.
    pub part: PartLabel,
    /// The point of its guide.
    pub point: PointLabel,
    /// Points are whole: earned or not.
    pub earned: bool,
    /// Principles that it shows.
    pub principles: Vec<PrincipleId>,
    /// What the part asks for.
    pub command_term: CommandTerm,
    /// Habits that lost it.
    pub habits: Vec<HabitId>,
    /// When.
    pub at: Moment,
}

/// A later word on a point.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// Which.
    pub point: PointLabel,
    /// What holds from now on.
    pub verdict: Verdict,
    /// Why; one line.
    pub reason: Option<String>,
    /// When.
    pub at: Moment,
}

/// What a correction says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The point counts neither as earned nor as lost.
    Void,
    /// Earned after all.
    Earned,
    /// Not earned after all.
    NotEarned,
}

impl Verdict {
    /// As written.
    pub fn word(self) -> &'static str {
        match self {
            Self::Void => "void",
            Self::Earned => "earned",
            Self::NotEarned => "not-earned",
        }
    }

    /// From the word.
    pub fn find(word: &str) -> Option<Self> {
        [Self::Void, Self::Earned, Self::NotEarned].into_iter().find(|verdict| verdict.word() == word)
    }
}

/// A point as it stands after all corrections.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing<'a> {
    /// As scored.
    pub score: &'a Score,
    /// As it counts now.
    pub verdict: Verdict,
}

impl Attempt {
    /// Every scored point as it counts now, in the order of the guide.
    pub fn standing(&self) -> Vec<Standing<'_>> {
        let mut latest: BTreeMap<&PointLabel, &Score> = BTreeMap::new();
        for score in &self.scores {
            let newer = latest.get(&score.point).is_none_or(|before| before.at <= score.at);
            if newer {
                latest.insert(&score.point, score);
            }
        }
        let verdict = |score: &Score| {
            let own = if score.earned { Verdict::Earned } else { Verdict::NotEarned };
            let later = self.corrections.iter().filter(|correction| correction.point == score.point);
            // The last of those made at the same time.
            later.max_by_key(|correction| correction.at).map_or(own, |correction| correction.verdict)
        };
        latest.into_values().map(|score| Standing { score, verdict: verdict(score) }).collect()
    }

    /// Points earned, and points that count.
    pub fn points(&self) -> (u32, u32) {
        let standing = self.standing();
        let n = |wanted: &[Verdict]| standing.iter().filter(|one| wanted.contains(&one.verdict)).count();
        let small = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        (small(n(&[Verdict::Earned])), small(n(&[Verdict::Earned, Verdict::NotEarned])))
    }

    /// Whether every point of the scenario has been scored.
    pub fn is_finished(&self) -> bool {
        let scored: BTreeSet<&PointLabel> = self.scores.iter().map(|score| &score.point).collect();
        scored.len() >= usize::try_from(self.scenario.points).unwrap_or(usize::MAX)
    }

    /// The answer that stands at a step.
    pub fn answer(&self, step: &str) -> Option<&Answer> {
        self.answers.iter().filter(|answer| answer.step.as_str() == step).max_by_key(|answer| answer.at)
    }

    /// When the last entry was made.
    pub fn last(&self) -> Moment {
        let answers = self.answers.iter().map(|answer| answer.at);
        let scores = self.scores.iter().map(|score| score.at);
        answers.chain(scores).max().unwrap_or(self.started).max(self.started)
    }
}
