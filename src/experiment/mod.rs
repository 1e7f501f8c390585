//! The experiment: laws composed along a technique, run at every level, read with honest noise.
//!
//! Comes in: the graph and a technique. Goes out: [`Data`] of the plain run and of the twisted one.
//! **Must not know**: `reasoning`. The direction found here comes from numbers alone.

mod model;
mod noise;
mod parameters;
mod simulate;

pub use model::{Fault, Model};
pub use parameters::{Parameter, Parameters};
pub use simulate::{Counts, Data, Row, Run, Trend, Unknown, simulate};
