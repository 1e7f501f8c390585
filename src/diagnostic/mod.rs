//! Diagnostics: what is wrong in an author's file, where, and what to do about it.
//!
//! Comes in: findings of loading and checking. Goes out: text with an excerpt and a caret, or JSON of the same facts.
//! **Must not know**: biology; where a file came from.

pub mod code;
mod fold;
mod json;
mod terminal;

pub use code::Code;
pub use fold::folded;
pub use json::json;
pub use terminal::terminal;

use crate::source::{FileId, Span};

/// How grave it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The file cannot be used.
    Error,
    /// It can, but somebody should look.
    Warning,
}

/// One fault in an author's file.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnostic {
    /// Which fault.
    pub code: &'static Code,
    /// How grave.
    pub severity: Severity,
    /// Lower-case fragment, no full stop, the user's words in backticks.
    pub message: String,
    /// Where.
    pub primary: Span,
    /// Other places that belong to it, and why.
    pub related: Vec<(Span, String)>,
    /// What to do about it.
    pub hints: Vec<String>,
}

impl Diagnostic {
    /// An error.
    pub fn error(code: &'static Code, primary: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            severity: Severity::Error,
            message: message.into(),
            primary,
            related: Vec::new(),
            hints: Vec::new(),
        }
    }

    /// A warning.
    pub fn warning(code: &'static Code, primary: Span, message: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(code, primary, message) }
    }

    /// The same with another place.
    #[must_use]
    pub fn related(mut self, span: Span, message: impl Into<String>) -> Self {
        self.related.push((span, message.into()));
        self
    }

    /// The same with a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hints.push(hint.into());
        self
    }

    /// The same with "did you mean", where one of the words is near, else with the list of words where it is short.
    #[must_use]
    pub fn did_you_mean<'a>(self, given: &str, words: impl IntoIterator<Item = &'a str>) -> Self {
        let words: Vec<&str> = words.into_iter().collect();
        if let Some(near) = nearest(given, &words) {
            return self.hint(format!("did you mean `{near}`?"));
        }
        if (1..=14).contains(&words.len()) {
            return self.possible(&words);
        }
        match words.len() {
            0 => self.hint("none is declared in these files"),
            n => self.hint(format!("none of the {n} there are is spelt like it")),
        }
    }

    /// The same with the list of all words that would do.
    #[must_use]
    pub fn possible(self, words: &[&str]) -> Self {
        let list: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
        self.hint(format!("possible here: {}", list.join(", ")))
    }

    /// The order in which faults are shown: by file and place, then by code.
    pub fn order(&self) -> (FileId, usize, usize, &'static str) {
        (self.primary.file, self.primary.start, self.primary.end, self.code.name)
    }
}

/// The word that was probably meant: at most a third of the letters differ.
pub fn nearest<'a>(given: &str, words: &[&'a str]) -> Option<&'a str> {
    let length = given.chars().count();
    if length > 200 {
        return None;
    }
    words
        .iter()
        .map(|word| (strsim::damerau_levenshtein(given, word), *word))
        .filter(|(distance, word)| *distance > 0 && *distance <= (length.max(word.chars().count()) / 3).max(1))
        .min()
        .map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_words_are_found_and_far_ones_are_not() {
        assert_eq!(nearest("osmosi", &["diffusion", "osmosis"]), Some("osmosis"));
        assert_eq!(nearest("solute-potental", &["solute-potential", "water-potential"]), Some("solute-potential"));
        assert_eq!(nearest("gel", &["osmosis"]), None);
    }
}
