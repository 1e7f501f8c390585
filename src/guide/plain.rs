//! A plain guide: JSON or YAML `{question, command_term, count?, points: [{id, statement, accept, reject, ideas?}]}`.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::{GuideError, options};
use crate::quantity::Unit;
use crate::review::{Guide, Point, Question};

/// As written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    question: String,
    #[serde(default)]
    command_term: String,
    #[serde(default)]
    count: Option<usize>,
    points: Vec<Point>,
}

const HINT: &str =
    "a plain guide is `{question, command_term, count?, points: [{id, statement, accept, reject, ideas?}]}`";

/// Reads a plain guide.
///
/// # Errors
/// A text of another shape, no point, two points of one id, an empty statement, a unit that is none; with its place.
pub fn plain(text: &str) -> Result<Guide, GuideError> {
    let written: Written =
        serde_yaml::from_str_with_options(text, options()).map_err(|error| GuideError::of_yaml(&error, HINT))?;
    let mut ids = BTreeSet::new();
    if written.points.is_empty() {
        return Err(GuideError::new(line_of(text, "points"), "`points` is empty", "give at least one point"));
    }
    if written.count == Some(0) {
        let hint = "`count` is how many things the question asks for; leave it out where it asks for none";
        return Err(GuideError::new(line_of(text, "count"), "`count` is 0", hint));
    }
    for point in &written.points {
        let line = line_of(text, &point.id);
        if point.id.trim().is_empty() {
            return Err(GuideError::new(line_of(text, "points"), "a point has an empty `id`", "give each point an id"));
        }
        if !ids.insert(point.id.clone()) {
            return Err(GuideError::new(line, format!("two points have the id `{}`", point.id), "give each its own"));
        }
        if point.statement.trim().is_empty() && point.ideas.is_empty() {
            let message = format!("point `{}` says nothing", point.id);
            return Err(GuideError::new(line, message, "write its `statement`: what earns it, as a sentence"));
        }
        for idea in point.ideas.iter().filter(|idea| !idea.unit.is_empty()) {
            if let Err(error) = Unit::parse(&idea.unit) {
                return Err(GuideError::new(line_of(text, &idea.unit), error.to_string(), "units are UCUM codes"));
            }
        }
    }
    let command_term = if written.command_term.is_empty() { command(&written.question) } else { written.command_term };
    let question = Question {
        id: String::new(),
        text: written.question,
        command_term,
        count: written.count,
        points: written.points,
    };
    Ok(Guide { questions: vec![question], ..Guide::default() })
}

/// Terms that tell what to do, for questions whose guide names none.
const TERMS: &[&str] = &[
    "identify",
    "describe",
    "explain",
    "predict",
    "justify",
    "calculate",
    "construct",
    "evaluate",
    "design",
    "state",
    "why",
];

/// The command term that a question uses.
fn command(question: &str) -> String {
    let lower = question.to_lowercase();
    let found: Vec<&str> = TERMS.iter().copied().filter(|term| lower.contains(term)).collect();
    found.join(" and ")
}

/// The line on which a word first stands, counted from 1.
fn line_of(text: &str, word: &str) -> usize {
    text.lines().position(|line| line.contains(word)).map_or(1, |line| line + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str =
        "question: Explain why the cell swells.\npoints:\n  - id: p1\n    statement: Water enters by osmosis.\n";

    #[test]
    fn reads_yaml_and_json() {
        let guide = plain(GOOD).unwrap();
        assert_eq!(guide.questions[0].command_term, "explain and why");
        let json =
            r#"{"question": "Q?", "command_term": "state", "count": 2, "points": [{"id": "a", "statement": "s"}]}"#;
        assert_eq!(plain(json).unwrap().questions[0].count, Some(2));
    }

    #[track_caller]
    fn broken(text: &str, line: usize, message: &str) {
        let error = plain(text).unwrap_err();
        assert!(error.message.contains(message) && error.line == line, "{error:?}");
    }

    #[test]
    fn says_what_is_wrong_and_where() {
        broken("question: Q\npoints: []\n", 2, "empty");
        broken("question: Q\npoints:\n  - id: a\n    statment: s\n", 4, "statment");
        broken("question: Q\npoints:\n  - {id: a, statement: s}\n  - {id: a, statement: t}\n", 3, "two points");
        broken("question: Q\npoints:\n  - {id: a, statement: ''}\n", 3, "says nothing");
        broken("points:\n  - {id: a, statement: s}\n", 1, "question");
        broken(
            "question: Q\npoints:\n  - id: a\n    statement: s\n    ideas: [{value: 3, unit: furlong}]\n",
            5,
            "furlong",
        );
    }
}
