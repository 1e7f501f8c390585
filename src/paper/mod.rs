//! A paper: a sitting of several questions in versions, with a marking guide apart.
//!
//! Comes in: what makes scenarios, a [`Plan`], scenario files where there are some. Goes out: a [`Paper`], and its copies
//! as pages, Markdown and JSON. **Must not know**: how a scenario is derived or simulated; files on disk.

mod assemble;
mod balance;
mod copies;
mod formulas;
mod guide;
mod json;

use thiserror::Error;

use crate::concepts::FieldIx;
use crate::render::document::DocumentError;
use crate::render::{RenderError, Sheet};
use crate::scenario::Scenario;
use crate::seed::Seed;

pub use assemble::{Written, assemble, read};
pub use balance::Balance;
pub use copies::{Copies, Holds, Look, Size, copies, page, pictures};
pub use json::json;

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Plan {
    /// Same seed, same bytes.
    pub seed: Seed,
    /// Short questions in each version.
    pub n_short: usize,
    /// Long questions in each version.
    pub n_long: usize,
    /// Minutes of reading, before extra time.
    pub reading_minutes: u32,
    /// Minutes of writing, before extra time.
    pub writing_minutes: u32,
    /// Extra time, in per cent of both.
    pub extended_percent: u32,
    /// Names of the versions.
    pub names: Vec<String>,
    /// How the versions differ.
    pub vary: Vary,
    /// Fields to draw from; all of them where it is empty.
    pub fields: Vec<FieldIx>,
}

/// How versions differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Vary {
    /// No technique is in two versions.
    Technique,
    /// The same techniques and questions with other levels, parameters and readings.
    Parameters,
}

/// A sitting.
#[derive(Debug, Clone)]
pub struct Paper {
    /// The seed of its draws.
    pub seed: Seed,
    /// The graph's version.
    pub concepts: String,
    /// Minutes of reading, with extra time.
    pub reading_minutes: u32,
    /// Minutes of writing, with extra time.
    pub writing_minutes: u32,
    /// Extra time that these hold, in per cent.
    pub extended_percent: u32,
    /// Its versions, at least one.
    pub versions: Vec<Version>,
}

/// A version of a paper.
#[derive(Debug, Clone)]
pub struct Version {
    /// `A`, `B`, ...
    pub name: String,
    /// Its questions, short ones first.
    pub questions: Vec<Question>,
}

/// A question of a paper.
#[derive(Debug, Clone)]
pub struct Question {
    /// Counted from 1.
    pub number: usize,
    /// The scenario as made from its front matter.
    pub scenario: Scenario,
    /// Its file's text: edited, where a teacher has edited it.
    pub text: String,
    /// The text is not what the program writes.
    pub edited: bool,
    /// The text taken apart.
    pub sheet: Sheet,
}

impl Question {
    /// Points, as its text says.
    pub fn points(&self) -> u32 {
        self.sheet.parts.iter().map(|part| part.points).sum()
    }
}

impl Version {
    /// Points of all questions.
    pub fn points(&self) -> u32 {
        self.questions.iter().map(Question::points).sum()
    }
}

impl Paper {
    /// Minutes of writing for each point of a version.
    pub fn minutes_per_point(&self, version: &Version) -> f64 {
        f64::from(self.writing_minutes) / f64::from(version.points().max(1))
    }
}

/// Why there is no paper.
#[derive(Debug, Error)]
pub enum PaperError {
    /// Not enough different techniques.
    #[error("only {found} different {form} questions are to be had for version {version}, {needed} are needed")]
    TooFew {
        /// `short` or `long`.
        form: &'static str,
        /// The version that could not be filled.
        version: String,
        /// How many there are.
        found: usize,
        /// How many are asked for.
        needed: usize,
    },
    /// The same scenario twice.
    #[error("`{one}` and `{other}` are the same question")]
    Same {
        /// The first file.
        one: String,
        /// The second.
        other: String,
    },
    /// A text that asks for nothing.
    #[error("`{0}` has no part that is worth points")]
    NoPoints(String),
    /// A technique that has only one set of numbers.
    #[error("“{0}” has no other parameters under which the same questions can be asked")]
    NoOtherParameters(String),
    /// A file at fault.
    #[error("{place}:{}:{}: {fault}", .fault.line, .fault.column)]
    Document {
        /// The file.
        place: String,
        /// What and where.
        fault: DocumentError,
    },
    /// Front matter that does not fit the concepts.
    #[error("`{place}` cannot be made again: {why}")]
    Front {
        /// The file.
        place: String,
        /// The reason.
        why: crate::scenario::FrontError,
    },
    /// A template is at fault.
    #[error("a template does not work: {0}")]
    Template(#[from] RenderError),
}

/// Minutes with so many per cent more, in whole minutes, rounded up in the writer's favour.
fn extended(minutes: u32, percent: u32) -> u32 {
    let hundredths = u64::from(minutes) * u64::from(100 + percent);
    u32::try_from(hundredths.div_ceil(100)).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn extra_time_is_rounded_up() {
        assert_eq!(extended(80, 0), 80);
        assert_eq!(extended(80, 25), 100);
        assert_eq!(extended(10, 25), 13);
    }
}
