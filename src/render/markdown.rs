//! A scenario as one Markdown file that a teacher can read, edit, print and keep under version control.

use serde::Serialize;
use tera::Context;

use super::front::front_matter;
use super::{RenderError, Templates};
use crate::scenario::{ScaffoldStep, Scenario};
use crate::technique::Form;

/// A scaffold step as the template prints it.
#[derive(Debug, Serialize)]
struct StepView<'a> {
    recall: &'a str,
    role: &'a str,
    step: &'a str,
    told: bool,
    answer: &'a str,
    role_answer: &'a str,
    /// The quantity that the step leads to.
    to: &'a str,
    ends: &'static str,
}

/// A row of the guide as the template prints it.
#[derive(Debug, Serialize)]
struct RowView {
    point: String,
    statement: String,
    accept: String,
    reject: String,
}

/// The whole file.
///
/// # Errors
/// A fault in a template.
pub fn markdown(templates: &Templates, scenario: &Scenario) -> Result<String, RenderError> {
    let mut context = Context::from_serialize(scenario)?;
    context.insert("front", &front_matter(&scenario.front)?);
    context.insert("points", &scenario.parts.iter().map(|part| part.points).sum::<u32>());
    let form = match scenario.form {
        Form::Short => "Short",
        Form::Long => "Long",
    };
    context.insert("form_word", form);
    context.insert("how_text", &scenario.how.join(" "));
    context.insert("printed", &printed(scenario));
    context.insert("header", &header(scenario));
    context.insert("steps", &steps(scenario));
    context.insert("rows", &rows(scenario));
    context.insert("ends", ends(scenario.prediction.direction));
    context.insert("changed", &scenario.twist.as_ref().map(|twist| &twist.answer));
    let text = templates.tera.render("scenario.md", &context)?;
    Ok(text)
}

fn steps(scenario: &Scenario) -> Vec<StepView<'_>> {
    scenario
        .scaffold
        .iter()
        .map(|step: &ScaffoldStep| StepView {
            recall: &step.recall,
            role: &step.role,
            step: &step.step,
            told: step.told,
            answer: &step.answer,
            role_answer: &step.role_answer,
            to: step.step.rsplit_once(": ").map_or("", |(_, to)| to),
            ends: ends(step.direction),
        })
        .collect()
}

/// How the sentence of a step ends.
fn ends(direction: &str) -> &'static str {
    match direction {
        "rises" => "goes up",
        "falls" => "goes down",
        _ => "stays the same",
    }
}

fn header(scenario: &Scenario) -> Vec<String> {
    scenario.data.columns.iter().map(|column| cell(&column.header())).collect()
}

fn printed(scenario: &Scenario) -> Vec<Vec<String>> {
    scenario.data.printed.iter().map(|row| row.iter().map(|text| cell(text)).collect()).collect()
}

fn rows(scenario: &Scenario) -> Vec<RowView> {
    let joined = |texts: &[String]| cell(&texts.join("; "));
    scenario
        .guide
        .iter()
        .map(|point| RowView {
            point: point.point.clone(),
            statement: cell(&point.statement),
            accept: joined(&point.accept),
            reject: joined(&point.reject),
        })
        .collect()
}

/// A text within a table cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}
