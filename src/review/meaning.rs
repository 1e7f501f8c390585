//! What a word can do in a sentence.

use serde::{Deserialize, Serialize};

/// Which way a quantity goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Direction {
    /// More of it.
    Up,
    /// Less of it.
    Down,
    /// Neither.
    Same,
    /// More or less, it is not said which.
    Changed,
    /// "Does not rise": the same or less.
    NotUp,
    /// "Does not fall": the same or more.
    NotDown,
}

/// How two directions go together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Accord {
    Agree,
    Oppose,
    Unclear,
}

impl Direction {
    /// Under "not".
    pub(crate) fn denied(self) -> Self {
        match self {
            Self::Up => Self::NotUp,
            Self::Down => Self::NotDown,
            Self::Same => Self::Changed,
            Self::Changed => Self::Same,
            Self::NotUp => Self::Up,
            Self::NotDown => Self::Down,
        }
    }

    /// Of the opposite quantity.
    pub(crate) fn mirrored(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
            Self::NotUp => Self::NotDown,
            Self::NotDown => Self::NotUp,
            other => other,
        }
    }

    /// How what is said (`other`) goes together with what is wanted.
    pub(crate) fn accord(self, other: Self) -> Accord {
        use Direction::{Changed, Down, NotDown, NotUp, Same, Up};
        match (self, other) {
            (one, two) if one == two => Accord::Agree,
            (Changed, Up | Down) | (Same, NotUp | NotDown) => Accord::Agree,
            (Up, Down | Same | NotUp) | (Down, Up | Same | NotDown) | (Same, Up | Down | Changed) | (Changed, Same) => {
                Accord::Oppose
            }
            _ => Accord::Unclear,
        }
    }
}

/// What a direction word needs around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Grammar {
    /// Its subject goes that way: "the volume falls".
    Intransitive,
    /// Its object goes that way: "raises the volume".
    Transitive,
    /// Its object if it has one, or its subject.
    Either,
    /// "higher": before what it speaks of, or after a verb.
    Comparative,
    /// Only of what stands before it: "stays the same".
    Predicate,
}

/// A direction word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Turn {
    pub(crate) direction: Direction,
    pub(crate) grammar: Grammar,
    /// The quantity that the word itself speaks of ("faster": rate); empty for none.
    pub(crate) about: &'static str,
}

/// How a clause hangs on the one before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Link {
    /// It gives the reason.
    Because,
    /// It gives the result.
    So,
    /// It adds.
    And,
    /// It sets against.
    But,
    /// It gives the condition.
    If,
    /// It tells more of what was named.
    Which,
}

/// Words of little meaning of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Little {
    Article,
    Preposition,
    Copula,
    Plain,
}

/// What a word or phrase does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Meaning {
    Turn(Turn),
    Negator,
    /// Looks like a negation and is none.
    NoNegator,
    Link(Link),
    /// Opens what is not claimed of this case.
    Aside,
    Pronoun,
    /// The answer does not commit itself.
    Hedge,
    Little(Little),
    /// Stands for the group of this number in `words/senses.txt`.
    Sense(usize),
    /// The term of this number in the lexicon.
    Term(usize),
}
