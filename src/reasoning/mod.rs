//! Reasoning with signs alone: what follows from the arrows, and what does not.
//!
//! Comes in: signed arrows. Goes out: a direction, or a refusal that says why. **Must not know**: the laws, any
//! magnitude, randomness.

pub mod press;
pub mod sign;

pub use sign::Sign;
