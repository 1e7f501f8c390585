//! What attempts, students, principles, points and steps are called: short plain words, since they come from files too.

use std::fmt;

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Characters of a name at most.
const LONGEST: usize = 120;

/// A name that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error(
    "`{shown}` cannot be {what}: it takes 1 to {LONGEST} letters, digits, spaces and . _ / - , and begins with a letter or digit"
)]
pub struct NameError {
    shown: String,
    what: &'static str,
}

/// A name is printed on terminals and written into tables: no control characters, nothing that a spreadsheet runs.
fn fits(text: &str) -> bool {
    let inner = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '.' | '_' | '/' | '-');
    text.chars().count() <= LONGEST && text.starts_with(char::is_alphanumeric) && text.chars().all(inner)
}

macro_rules! name {
    ($(#[$doc:meta])* $name:ident, $what:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(try_from = "String", into = "String")]
        pub struct $name(String);

        impl $name {
            /// The name, if it can be one.
            ///
            /// # Errors
            /// Empty, too long, or with characters that no name has.
            pub fn new(text: impl Into<String>) -> Result<Self, NameError> {
                let text = text.into();
                if fits(&text) {
                    return Ok(Self(text));
                }
                let shown = text.chars().take(40).map(|c| if c.is_control() { '?' } else { c }).collect();
                Err(NameError { shown, what: $what })
            }

            /// As written.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl TryFrom<String> for $name {
            type Error = NameError;

            fn try_from(text: String) -> Result<Self, NameError> {
                Self::new(text)
            }
        }

        impl From<$name> for String {
            fn from(name: $name) -> Self {
                name.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

name!(
    /// An attempt: unique among all attempts of all devices.
    AttemptId,
    "the id of an attempt"
);
name!(
    /// A student's code: no names are needed.
    StudentCode,
    "a student's code"
);
name!(
    /// A scenario, by the name of its file.
    ScenarioId,
    "the id of a scenario"
);
name!(
    /// A principle of the concepts.
    PrincipleId,
    "the id of a principle"
);
name!(
    /// A command term: describe, explain, predict and justify, ...
    CommandTerm,
    "a command term"
);
name!(
    /// A habit of answering that costs points: restates, bullets, no-reason, ...
    HabitId,
    "the id of a habit"
);
name!(
    /// A part of a question.
    PartLabel,
    "the label of a part"
);
name!(
    /// A point of a scoring guide.
    PointLabel,
    "the label of a point"
);
name!(
    /// A place in the loop of practice: `plan`, `step-2/direction`, `prediction`, `part-b`, ...
    StepKey,
    "the key of a step"
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_short_and_plain() {
        for good in ["a", "b12", "step-2/direction", "predict and justify", "K-7.2_x"] {
            assert!(AttemptId::new(good).is_ok(), "{good}");
        }
        let long = "x".repeat(LONGEST + 1);
        for bad in ["", " a", "-a", "=1+1", "a\u{1b}[2J", "a\nb", "a\"b", "<b>", long.as_str()] {
            assert!(AttemptId::new(bad).is_err(), "{bad:?}");
        }
        let error = StudentCode::new("a\u{1b}[2J").expect_err("no name");
        assert!(error.to_string().starts_with("`a?[2J` cannot be a student's code"));
    }
}
