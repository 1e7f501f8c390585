//! The marker's copy: what each question exercises, its answers and points, and a sheet to mark on.

use serde::Serialize;
use tera::Context;

use super::copies::{StretchView, stretch_view};
use super::{Question, Version};
use crate::concepts::graph::Graph;
use crate::render::Stretch;
use crate::render::document::Kind;
use crate::scenario::Scenario;

/// Columns of the marking sheet, one a student.
const COLUMNS: usize = 8;

/// A question in the guide.
#[derive(Debug, Serialize)]
struct QuestionView<'a> {
    number: usize,
    title: &'a str,
    points: u32,
    seed: u64,
    edited: bool,
    drawn: Option<&'a str>,
    sections: Vec<StretchView<'a>>,
}

/// A row of the key.
#[derive(Debug, Serialize)]
struct KeyView<'a> {
    number: usize,
    title: &'a str,
    answer: String,
    principles: Vec<&'a str>,
    fields: Vec<&'a str>,
    terms: &'a [String],
    skills: &'a [String],
}

/// A question in the marking sheet.
#[derive(Debug, Serialize)]
struct MarkView {
    number: usize,
    points: u32,
    parts: Vec<(char, u32)>,
}

/// Puts everything into the context that the guide's templates need.
pub(super) fn fill(context: &mut Context, graph: &Graph, version: &Version) {
    let questions: Vec<QuestionView<'_>> = version.questions.iter().map(question).collect();
    let keys: Vec<KeyView<'_>> = version.questions.iter().map(|question| key(graph, question)).collect();
    let marks: Vec<MarkView> = version.questions.iter().map(marks).collect();
    context.insert("questions", &questions);
    context.insert("keys", &keys);
    context.insert("marks", &marks);
    context.insert("columns", &(1..=COLUMNS).collect::<Vec<_>>());
}

fn question(question: &Question) -> QuestionView<'_> {
    let sheet = &question.sheet;
    // The map is in the key, and a sitting has no steps to answer. The scoring guide comes first: a marker looks for it most.
    let elsewhere = |section: &&Stretch| {
        let heading = section.heading.to_lowercase();
        heading == "map" || (section.kind == Some(Kind::Answers) && heading.contains("steps"))
    };
    let mut sections: Vec<_> = sheet.answers.iter().filter(|section| !elsewhere(section)).collect();
    sections.sort_by_key(|section| section.kind != Some(Kind::Guide));
    QuestionView {
        number: question.number,
        title: &sheet.title,
        points: question.points(),
        seed: question.scenario.seed,
        edited: question.edited,
        drawn: sheet.drawn.as_deref(),
        sections: sections.into_iter().map(|section| stretch_view(section, "", "")).collect(),
    }
}

fn key<'a>(graph: &'a Graph, question: &'a Question) -> KeyView<'a> {
    let scenario = &question.scenario;
    let principles = scenario.principles.iter().filter_map(|id| graph.find_principle(id));
    let fields = scenario.fields.iter().filter_map(|id| graph.find_field(id));
    KeyView {
        number: question.number,
        title: &question.sheet.title,
        answer: answer(scenario),
        principles: principles.map(|ix| graph.principle(ix).name.as_str()).collect(),
        fields: fields.map(|ix| graph.field(ix).name.as_str()).collect(),
        terms: &scenario.map.command_terms,
        skills: &scenario.map.skills,
    }
}

/// What is read as the treatment goes up, and what in the changed experiment.
fn answer(scenario: &Scenario) -> String {
    let then = |direction: &str| match direction {
        "unchanged" => "stays the same".to_owned(),
        word => word.to_owned(),
    };
    let plain = format!("{} {}", scenario.reading.the, then(scenario.prediction.direction));
    match &scenario.twist {
        Some(twist) => format!("{plain}; in the changed experiment it {}", then(twist.prediction.direction)),
        None => plain,
    }
}

fn marks(question: &Question) -> MarkView {
    MarkView {
        number: question.number,
        points: question.points(),
        parts: question.sheet.parts.iter().map(|part| (part.label, part.points)).collect(),
    }
}
