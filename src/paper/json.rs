//! A paper as JSON: version A at the top level, the others beside it.

use serde_json::{Value, json as object};

use super::{Paper, Question, Version};
use crate::render::RenderError;

/// Version of this shape.
const SHAPE: u32 = 1;

/// One line of JSON.
///
/// # Errors
/// A scenario that cannot be written as JSON.
pub fn json(paper: &Paper) -> Result<String, RenderError> {
    let Some((first, others)) = paper.versions.split_first() else { return Ok("{}".into()) };
    let others = others.iter().map(|version| {
        Ok(object!({
            "name": version.name,
            "points": version.points(),
            "minutes_per_point": paper.minutes_per_point(version),
            "questions": questions(version)?,
        }))
    });
    let others: Vec<Value> = others.collect::<Result<_, RenderError>>()?;
    let whole = object!({
        "version": SHAPE,
        "seed": paper.seed.0,
        "concepts": paper.concepts,
        "reading_minutes": paper.reading_minutes,
        "writing_minutes": paper.writing_minutes,
        "extended_percent": paper.extended_percent,
        "name": first.name,
        "points": first.points(),
        "minutes_per_point": paper.minutes_per_point(first),
        "questions": questions(first)?,
        "versions": others,
    });
    Ok(whole.to_string())
}

/// The scenarios, each with its text.
fn questions(version: &Version) -> Result<Vec<Value>, RenderError> {
    let question = |question: &Question| {
        let mut scenario = question.scenario.clone();
        scenario.markdown.clone_from(&question.text);
        serde_json::to_value(&scenario).map_err(RenderError::from)
    };
    version.questions.iter().map(question).collect()
}
