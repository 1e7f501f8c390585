//! A scoring guide as plain data: questions, and what earns each of their points.

use serde::{Deserialize, Serialize};

use super::meaning::Direction;

/// The questions that responses answer.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Guide {
    /// In the order asked. Where there is one, every response answers it; else a response answers the one of its id.
    pub questions: Vec<Question>,
    /// Where the treatment begins and ends, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ends: Option<Ends>,
}

/// The first and the last level of a treatment.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ends {
    /// In the unit.
    pub first: f64,
    /// In the unit.
    pub last: f64,
    /// As printed.
    #[serde(default)]
    pub unit: String,
}

/// One question and its points.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Label of the part; empty in a plain guide.
    #[serde(default)]
    pub id: String,
    /// As asked.
    #[serde(default)]
    pub text: String,
    /// "explain", "calculate", ...; empty where none is known.
    #[serde(default)]
    pub command_term: String,
    /// How many were asked for, where a number was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<usize>,
    /// What earns, point by point.
    pub points: Vec<Point>,
}

/// One point.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// `b1`.
    pub id: String,
    /// What it asks for; a plain guide need not say.
    #[serde(default)]
    pub kind: PointKind,
    /// What earns it, as a sentence.
    pub statement: String,
    /// Also earns.
    #[serde(default)]
    pub accept: Vec<String>,
    /// Does not earn.
    #[serde(default)]
    pub reject: Vec<String>,
    /// What must be seen; derived from the statement where it is empty.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ideas: Vec<Idea>,
}

impl Point {
    /// What students are to say: of a reason why a step behaves otherwise, not what then becomes of the chain, which is its
    /// last sentence.
    pub(crate) fn said(&self) -> &str {
        let whole = self.statement.trim_end();
        let last = whole.trim_end_matches('.').rfind(". ").filter(|_| self.kind.is_reason());
        last.and_then(|at| whole.get(..=at)).unwrap_or(whole)
    }
}

/// What a point asks for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PointKind {
    /// A statement, however it is told.
    #[default]
    Statement,
    /// That the steps are joined by reasons.
    Link,
    /// Why a step of a changed experiment no longer acts.
    Reason,
    /// Why a step of a changed experiment goes the other way.
    Reversal,
    /// A second effect of the same treatment, and what it leads to.
    SecondEffect,
    /// That two effects oppose each other, and which is the larger.
    Balance,
}

impl PointKind {
    /// Whether it asks for the reason of a changed experiment.
    pub(crate) fn is_reason(self) -> bool {
        matches!(self, Self::Reason | Self::Reversal)
    }
}

/// One thing that an answer must say, written by hand.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Idea {
    /// Words or phrases that must all be there; alternatives stand in one of them with `|` between.
    #[serde(default)]
    pub terms: Vec<String>,
    /// Which way the quantity of these terms goes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub direction: Option<Direction>,
    /// A reason must be given.
    #[serde(default)]
    pub link: bool,
    /// A number that must be there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// UCUM code of its unit.
    #[serde(default)]
    pub unit: String,
    /// How far off it may be, in that unit; where nothing is said, 2 %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tolerance: Option<f64>,
}

/// A student's text.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Response {
    /// Label of the part that it answers, or a name of its own under a plain guide.
    pub id: String,
    /// As written.
    pub text: String,
}
