//! The matrix of a class: principles × students by code, from the points scored in progress files. No names are needed.
//!
//! Comes in: texts of progress files, version 1 (their shape is that of `toehold progress export` and of the student's
//! page). Goes out: earned and scored points. Of a point scored twice the later score stands; a correction stands above it.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;

/// The version of the file that is read.
const VERSION: u32 = 1;
/// Code of students whose file gives none.
const NO_CODE: &str = "(no code)";

#[derive(Debug, Deserialize)]
struct File {
    toehold_progress: u32,
    student: Option<String>,
    attempts: Vec<Attempt>,
}

#[derive(Debug, Deserialize)]
struct Attempt {
    id: String,
    student: Option<String>,
    #[serde(default)]
    scores: Vec<Score>,
    #[serde(default)]
    corrections: Vec<Correction>,
}

#[derive(Debug, Deserialize)]
struct Score {
    point: String,
    earned: bool,
    principles: Vec<String>,
}

#[derive(Debug, Deserialize)]
struct Correction {
    point: String,
    verdict: Verdict,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Verdict {
    Void,
    Earned,
    NotEarned,
}

/// Points of one student on one principle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Points {
    /// Earned.
    pub earned: u32,
    /// Scored.
    pub scored: u32,
}

/// A class: the points of each student by principle.
#[derive(Debug, Clone, Default)]
pub struct Class {
    /// By student's code, then by principle.
    pub students: BTreeMap<String, BTreeMap<PrincipleIx, Points>>,
    /// Ids of principles that these concepts do not have.
    pub unknown: BTreeSet<String>,
    attempts: BTreeSet<(String, String)>,
}

/// Why a file is not taken in.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {message}")]
pub struct ClassError {
    /// Counted from 1.
    pub line: usize,
    /// Counted from 1.
    pub column: usize,
    /// Lower-case fragment.
    pub message: String,
}

/// Whether a text is a progress file, of whatever version and however faulty its attempts.
pub fn is_progress_file(text: &str) -> bool {
    #[derive(Deserialize)]
    struct Sign {
        #[serde(rename = "toehold_progress")]
        _version: serde::de::IgnoredAny,
    }
    text.trim_start().starts_with('{') && serde_json::from_str::<Sign>(text).is_ok()
}

impl Class {
    /// Takes a progress file in; an attempt that was met in another counts once.
    ///
    /// # Errors
    /// It is no progress file of this version.
    pub fn add(&mut self, graph: &Graph, text: &str) -> Result<(), ClassError> {
        let file: File = serde_json::from_str(text).map_err(|error| ClassError {
            line: error.line(),
            column: error.column(),
            message: format!("this is no progress file: {error}"),
        })?;
        if file.toehold_progress != VERSION {
            let message = format!("progress files of version {} are not known", file.toehold_progress);
            return Err(ClassError { line: 1, column: 1, message });
        }
        for attempt in &file.attempts {
            let code = attempt.student.as_ref().or(file.student.as_ref()).map_or(NO_CODE, String::as_str);
            if self.attempts.insert((code.to_owned(), attempt.id.clone())) {
                self.count(graph, code, attempt);
            }
        }
        Ok(())
    }

    fn count(&mut self, graph: &Graph, code: &str, attempt: &Attempt) {
        // Later entries of a point stand above earlier ones.
        let scores: BTreeMap<&str, &Score> = attempt.scores.iter().map(|one| (one.point.as_str(), one)).collect();
        let verdicts: BTreeMap<&str, Verdict> =
            attempt.corrections.iter().map(|one| (one.point.as_str(), one.verdict)).collect();
        let own = self.students.entry(code.to_owned()).or_default();
        for (point, score) in scores {
            let earned = match verdicts.get(point) {
                Some(Verdict::Void) => continue,
                Some(Verdict::Earned) => true,
                Some(Verdict::NotEarned) => false,
                None => score.earned,
            };
            for id in &score.principles {
                let Some(ix) = graph.find_principle(id) else {
                    self.unknown.insert(id.clone());
                    continue;
                };
                let points = own.entry(ix).or_default();
                points.scored += 1;
                points.earned += u32::from(earned);
            }
        }
    }

    /// Points of all students on a principle.
    pub fn of_all(&self, principle: PrincipleIx) -> Points {
        let all = self.students.values().filter_map(|own| own.get(&principle));
        all.fold(Points::default(), |sum, one| Points {
            earned: sum.earned + one.earned,
            scored: sum.scored + one.scored,
        })
    }

    /// Principles that anyone was scored on, where the fewest points were earned first.
    pub fn weakest(&self, graph: &Graph) -> Vec<(PrincipleIx, Points)> {
        let all = graph.principles().map(|(ix, _)| (ix, self.of_all(ix)));
        let mut met: Vec<(PrincipleIx, Points)> = all.filter(|(_, points)| points.scored > 0).collect();
        // Shares compared without division.
        met.sort_by(|(_, a), (_, b)| (a.earned * b.scored).cmp(&(b.earned * a.scored)));
        met
    }
}
