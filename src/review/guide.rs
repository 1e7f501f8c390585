//! A scoring guide as plain data: questions, and what earns each of their points.

use serde::{Deserialize, Serialize};

use super::meaning::Direction;

/// The questions that responses answer.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Guide {
    /// In the order asked. Where there is one, every response answers it; else a response answers the one of its id.
    pub questions: Vec<Question>,
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
