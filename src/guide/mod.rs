//! Guides from files: a scenario's scoring guide, or a plain one for a question from elsewhere; their lexicon; responses.
//!
//! Comes in: the text of a file, and the concept graph where there is one. Goes out: [`review::Guide`], [`review::Lexicon`]
//! and [`review::Response`]s as plain data. **Must not know**: where a file came from; how a response is judged.
//!
//! [`review::Guide`]: crate::review::Guide
//! [`review::Lexicon`]: crate::review::Lexicon
//! [`review::Response`]: crate::review::Response

mod lexicon;
mod plain;
mod reasons;
mod responses;
mod scenario;

pub use lexicon::lexicon;
pub use plain::plain;
pub use responses::responses;
pub use scenario::{of_document, of_scenario, scenario};

use thiserror::Error;

/// Why a text holds no guide or no responses.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{message}")]
pub struct GuideError {
    /// Counted from 1.
    pub line: usize,
    /// In characters, counted from 1.
    pub column: usize,
    /// Lower-case fragment.
    pub message: String,
    /// What to do about it.
    pub hint: String,
}

impl GuideError {
    fn new(line: usize, message: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { line, column: 1, message: message.into(), hint: hint.into() }
    }

    /// A fault of YAML or JSON, at its place.
    fn of_yaml(error: &serde_yaml::Error, hint: &str) -> Self {
        let place = error.location();
        let whole = error.to_string();
        let first = whole.lines().next().unwrap_or_default();
        let message = first.split_once("column").and_then(|(_, rest)| rest.split_once(": ")).map_or(first, |(_, m)| m);
        Self {
            line: place.map_or(1, |place| usize::try_from(place.line()).unwrap_or(1)),
            column: place.map_or(1, |place| usize::try_from(place.column()).unwrap_or(1)),
            message: in_plain_words(message),
            hint: hint.to_owned(),
        }
    }
}

/// The parser advises programmers; who writes a guide is told what is there.
fn in_plain_words(message: &str) -> String {
    const WORDS: &[(&str, &str)] = &[
        ("DuplicateKeyPolicy", "the same key stands twice"),
        ("from_str_multiple", "there is more than one document (`---`)"),
        ("Option<", "a text is expected, and there is none"),
    ];
    let known = WORDS.iter().find(|(mark, _)| message.contains(mark));
    known.map_or_else(|| message.to_owned(), |(_, plain)| (*plain).to_owned())
}

/// How YAML is read: booleans are `true` and `false` alone, so that a name `n` or `y` is a name.
fn options() -> serde_yaml::Options {
    serde_yaml::options! { strict_booleans: true, with_snippet: false }
}
