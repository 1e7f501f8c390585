//! The terms that a guide's topic is spoken of with, as plain data.

use serde::{Deserialize, Serialize};

/// Terms and their forms. Made elsewhere, from concepts or by hand; empty will do.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Lexicon {
    /// Terms, each with the forms that mean it.
    pub terms: Vec<Term>,
    /// Further words that are spelled right, so that none of them is taken for a slip of another.
    pub glossary: Vec<String>,
}

/// One term.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    /// What it is called in results.
    pub id: String,
    /// Words and phrases that mean it, in base form or any other.
    pub forms: Vec<String>,
    /// Whether it can be more or less.
    #[serde(default)]
    pub quantity: bool,
}
