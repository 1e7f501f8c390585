//! Rendering: a scenario as Markdown, as one page, as JSON, and its figures.
//!
//! Comes in: a [`Scenario`]. Goes out: text. **Must not know**: the graph, seeds: it cannot change a fact.

mod body;
pub mod document;
mod drawing;
pub mod figure;
mod front;
mod glue;
mod markdown;
mod page;
mod practice;
mod readings;
mod schematic;
mod sheet;
pub mod table;
mod templates;

pub use document::Document;
pub use drawing::Drawing;
pub use figure::{Picture, blank_grid};
pub use markdown::markdown;
pub use page::{Copy, PageError, chart, page, student_markdown};
pub use practice::{Entry, Known, Practice, practice, practice_index};
pub use readings::readings;
pub use schematic::schematic;
pub use sheet::{Asked, Sheet, Stretch};
pub use templates::Templates;

use thiserror::Error;

use crate::scenario::Scenario;

/// Why nothing was rendered: a template is at fault.
#[derive(Debug, Error)]
#[error("{0}")]
pub struct RenderError(String);

impl From<tera::Error> for RenderError {
    fn from(error: tera::Error) -> Self {
        Self(error.to_string())
    }
}

impl From<serde_json::Error> for RenderError {
    fn from(error: serde_json::Error) -> Self {
        Self(error.to_string())
    }
}

/// One line of JSON: the shape of [`Scenario`], with the Markdown in it.
///
/// # Errors
/// A fault in a template.
pub fn json(templates: &Templates, scenario: &Scenario) -> Result<String, RenderError> {
    let mut whole = scenario.clone();
    whole.markdown = markdown(templates, scenario)?;
    Ok(serde_json::to_string(&whole)?)
}

/// Fills in a template by name.
///
/// # Errors
/// A fault in the template.
pub fn fill(templates: &Templates, name: &str, context: &tera::Context) -> Result<String, RenderError> {
    Ok(templates.tera.render(name, context)?)
}

/// The pictures that the Markdown of a scenario refers to, each with what its file name adds to the scenario's id.
pub fn pictures(scenario: &Scenario) -> Vec<(&'static str, Picture)> {
    let plot = plot(scenario).map(|picture| (Drawing::Plot.ending(), picture));
    let apparatus = schematic(&scenario.figure.panels).map(|picture| (Drawing::Apparatus.ending(), picture));
    let chart = figure::Chart::of(scenario).zip(scenario.figure.readings);
    let seen = chart.and_then(|(chart, kind)| readings(&chart, kind));
    let seen = seen.map(|picture| (Drawing::Readings.ending(), picture));
    plot.into_iter().chain(apparatus).chain(seen).collect()
}

/// The data plot of a scenario; `None` where its table has no shape that can be plotted.
pub fn plot(scenario: &Scenario) -> Option<Picture> {
    figure::Chart::of(scenario).map(|chart| figure::plot(&chart))
}
