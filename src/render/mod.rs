//! Rendering: a scenario as Markdown, as one page, as JSON, and its figures.
//!
//! Comes in: a [`Scenario`]. Goes out: text. **Must not know**: the graph, seeds: it cannot change a fact.

mod body;
pub mod document;
pub mod figure;
mod front;
mod markdown;
mod page;
pub mod table;
mod templates;

pub use document::Document;
pub use figure::{Picture, blank_grid};
pub use markdown::markdown;
pub use page::{Copy, PageError, chart, page, student_markdown};
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

/// One line of JSON: the shape of [`Scenario`], with the Markdown in it.
///
/// # Errors
/// A fault in a template.
pub fn json(templates: &Templates, scenario: &Scenario) -> Result<String, RenderError> {
    let mut whole = scenario.clone();
    whole.markdown = markdown(templates, scenario)?;
    serde_json::to_string(&whole).map_err(|error| RenderError(error.to_string()))
}

/// The pictures that the Markdown of a scenario refers to, each with what its file name adds to the scenario's id.
pub fn pictures(scenario: &Scenario) -> Vec<(&'static str, Picture)> {
    plot(scenario).map(|picture| ("", picture)).into_iter().collect()
}

/// The data plot of a scenario; `None` where its table has no shape that can be plotted.
pub fn plot(scenario: &Scenario) -> Option<Picture> {
    figure::Chart::of(scenario).map(|chart| figure::plot(&chart))
}
