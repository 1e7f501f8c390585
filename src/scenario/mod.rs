//! The scenario: what a reader gets, as a value. Words, numbers, questions, scaffold, guide and map from one path.
//!
//! Comes in: a technique, its derivations, its data. Goes out: a [`Scenario`], or the [`Disagreement`] that forbids it.
//! **Must not know**: HTML; and it never works out a sign or a number itself.

mod agree;
mod apparatus;
mod belief;
mod calculation;
mod figure;
mod front;
mod generate;
mod gloss;
mod guide;
mod join;
mod likeness;
mod map;
mod mention;
mod parts;
pub mod proofread;
mod samples;
mod scaffold;
mod stimulus;
mod text;
mod write;

use serde::Serialize;

pub use agree::{Disagreement, agree};
pub use figure::{Figure, FrontPlot, Item, Known, Panel, Readings, Scene, Shape};
pub use front::{FORMAT, Front, FrontError, FrontParameter, FrontTwist};
pub use generate::{Generator, Run, generate};
pub use guide::phrase;
pub use likeness::{Alike, Texts, too_alike};
pub use write::write;

use crate::concepts::written::TwistKind;
use crate::technique::Form;

/// A finished scenario. The shape of its JSON is the shape of `generate --format json`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Scenario {
    /// Version of this shape.
    pub version: u32,
    /// File name without ending: the title in lower case, and the seed.
    pub id: String,
    /// The technique's name.
    pub title: String,
    /// The seed that makes it again.
    pub seed: u64,
    /// Length.
    pub form: Form,
    /// Id of the quantity that is set.
    pub treatment: String,
    /// Id of the quantity that is read.
    pub readout: String,
    /// The treatment as a reader meets it.
    pub dial: QuantityView,
    /// The readout as a reader meets it.
    pub reading: QuantityView,
    /// Influence ids in order.
    pub path: Vec<String>,
    /// `+` or `-` for each step of the plain run.
    pub signs: Vec<&'static str>,
    /// What the signs say of the plain run.
    pub prediction: Prediction,
    /// The plain run.
    pub data: Table,
    /// The second question.
    pub twist: Option<TwistView>,
    /// Principle ids, in the order of the path.
    pub principles: Vec<String>,
    /// Field ids, in the order of the path.
    pub fields: Vec<String>,
    /// The questions.
    pub parts: Vec<Part>,
    /// The scoring guide.
    pub guide: Vec<Point>,
    /// The steps from principle to prediction.
    pub scaffold: Vec<ScaffoldStep>,
    /// Who wants to know what, and why the direct way fails.
    pub purpose: String,
    /// The apparatus and the procedure.
    pub how: Vec<String>,
    /// Rare words of both that are not the biology asked for, and what they mean.
    pub gloss: Vec<(String, String)>,
    /// What the figure shows.
    pub figure: Figure,
    /// What it exercises.
    pub map: MapView,
    /// Answers to a long question as students might write them, marked point by point.
    pub samples: Vec<SampleAnswer>,
    /// What the readings are compared with.
    pub controls: Controls,
    /// For the talk after it.
    pub debrief: Vec<String>,
    /// Hazards of what it names.
    pub cautions: Vec<String>,
    /// The whole as Markdown, filled in by `render`.
    pub markdown: String,
    /// What is needed to make it again.
    #[serde(skip)]
    pub front: Front,
    /// Words that would hand over a step of the path: for proofreading.
    #[serde(skip)]
    pub never: Vec<String>,
    /// Things with names of their own: for proofreading.
    #[serde(skip)]
    pub nouns: Vec<NounView>,
}

/// A thing and what it is called.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NounView {
    /// What it is, for its first mention.
    pub intro: String,
    /// Singular.
    pub one: String,
    /// Plural or mass noun.
    pub many: String,
    /// Whether the name is made up.
    pub coined: bool,
    /// Names that it goes by elsewhere, and not here.
    pub others: Vec<String>,
}

/// What the readings are compared with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Controls {
    /// Where the treatment is least.
    pub negative: String,
    /// What shows that the reading can respond: a later quantity of the path, set directly.
    pub positive: String,
}

/// An answer as a student might write it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SampleAnswer {
    /// `full`, `middling` or `misconception`.
    pub kind: &'static str,
    /// The answer to each part, by label.
    pub answers: Vec<(String, String)>,
    /// Points that it earns.
    pub earned: Vec<String>,
}

/// A quantity as a reader meets it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct QuantityView {
    /// Id in the graph.
    pub id: String,
    /// For headers.
    pub name: String,
    /// In running text.
    pub the: String,
    /// UCUM code of the unit shown.
    pub unit: String,
    /// The unit as printed; empty for none.
    pub unit_shown: String,
}

/// A direction.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Prediction {
    /// `rises`, `falls` or `unchanged`.
    pub direction: &'static str,
}

/// Data as printed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Table {
    /// Header of each column: treatment, mean, ±2 SEM, n.
    pub columns: Vec<Column>,
    /// Level, mean, two SEM, n.
    pub rows: Vec<(f64, f64, f64, u32)>,
    /// The rows as printed, in columns of even decimals.
    #[serde(skip)]
    pub printed: Vec<[String; 4]>,
    /// Noiseless readout at each level.
    pub noiseless: Vec<f64>,
    /// Noiseless curve, for the page's slider.
    pub curve: Vec<(f64, f64)>,
}

/// A column's header.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Name.
    pub name: String,
    /// Unit as printed; empty for none.
    pub unit: String,
}

impl Column {
    /// Name and unit: "Sucrose outside (mol/L)".
    pub fn header(&self) -> String {
        if self.unit.is_empty() { self.name.clone() } else { format!("{} ({})", self.name, self.unit) }
    }
}

/// The second question and its answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TwistView {
    /// What is done to the path.
    pub kind: TwistKind,
    /// Id of the influence that it touches.
    pub at: String,
    /// `+`, `-` or `0` for each step of the path.
    pub signs: Vec<&'static str>,
    /// What then happens.
    pub prediction: Prediction,
    /// The bench fact.
    pub agent: String,
    /// The twisted run.
    pub data: Option<Table>,
    /// The way that opens, for a rival: influence ids in order.
    pub rival_path: Option<Vec<String>>,
    /// Label of the part that asks of it.
    pub part: String,
    /// What it does to the chain: the step that it touches, and what the guide says of that.
    pub answer: String,
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Part {
    /// `a`, `b`, ...
    pub label: String,
    /// Kind of question.
    pub kind: PartKind,
    /// What is asked for.
    pub command_term: String,
    /// Points.
    pub points: u32,
    /// The question, with the command term in `**`.
    pub text: String,
    /// Skill that it calls on.
    pub skill: &'static str,
}

/// Kinds of question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PartKind {
    /// A principle in its place.
    Describe,
    /// The whole chain.
    Explain,
    /// A variable, a control, something kept the same.
    Identify,
    /// A number with its setup.
    Calculate,
    /// Whether the data support a claim.
    Evaluate,
    /// The twist.
    PredictAndJustify,
    /// A reading turned into a level.
    Estimate,
    /// A graph from the table.
    Construct,
    /// A further control.
    Propose,
    /// What the technique cannot tell.
    Limitation,
    /// A reading that nobody expected.
    Unexpected,
}

/// One point of the guide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Point {
    /// Label of the part.
    pub part: String,
    /// `a`, or `b1`, `b2` where a part has several.
    pub point: String,
    /// What earns it.
    pub statement: String,
    /// Also earns.
    pub accept: Vec<String>,
    /// Does not earn.
    pub reject: Vec<String>,
    /// Principle that it shows, where it shows one.
    pub principle: Option<String>,
    /// As a good student would write it.
    pub model: String,
    /// As a student would write it who holds the misconception behind the likeliest wrong answer.
    pub wrong: String,
}

/// One step of "what do you already know".
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ScaffoldStep {
    /// Influence id.
    pub influence: String,
    /// The question that calls the principle to mind; empty for a told step.
    pub recall: String,
    /// Its model answer.
    pub answer: String,
    /// What plays its part here.
    pub role: String,
    /// Its model answer.
    pub role_answer: String,
    /// The unfinished sentence of the step.
    pub step: String,
    /// `rises`, `falls` or `unchanged`: how the sentence ends.
    pub direction: &'static str,
    /// The text itself tells this step.
    pub told: bool,
    /// What a wrong direction betrays, where a misconception is known that leads there.
    pub replies: Vec<Reply>,
}

impl ScaffoldStep {
    /// What to say to this direction.
    #[must_use]
    pub fn reply(&self, direction: &str) -> Option<&str> {
        self.replies.iter().find(|reply| reply.to == direction).map(|reply| reply.text.as_str())
    }
}

/// What is said to one wrong direction of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Reply {
    /// `rises`, `falls` or `unchanged`.
    pub to: &'static str,
    /// The belief that leads there, in quotes, and why it fails.
    pub text: String,
}

/// What a scenario exercises.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MapView {
    /// Names of the principles of the path.
    pub principles: Vec<String>,
    /// Names of those that they rest on.
    pub rests_on: Vec<String>,
    /// Names of the fields.
    pub fields: Vec<String>,
    /// Command terms.
    pub command_terms: Vec<String>,
    /// Skills.
    pub skills: Vec<String>,
    /// One line: steps, fields, twist.
    pub difficulty: String,
}
