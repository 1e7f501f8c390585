//! Reasoning: from signs alone to a prediction, as a value that another module can check.
//!
//! Comes in: the graph, a bench act, a path, settings, a twist. Goes out: a [`Derivation`].
//! **Must not know**: laws, any number, randomness.

mod derive;
pub mod press;
mod sign;
mod verify;

pub use derive::{Derivation, Route, Step, Verdict, Withheld, derive, derive_with_unknown};
pub use sign::{Direction, Sign, StepSign};
pub use verify::{Unproved, necessary, verify};
