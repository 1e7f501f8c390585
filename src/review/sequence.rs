//! What two sequences of numbers have in common, by `similar`.

use std::convert::Infallible;

use similar::DiffOp;
use similar::algorithms::{Capture, myers};

/// The edits that turn one sequence into the other. One algorithm on plain numbers keeps the WebAssembly small.
pub(super) fn diff(one: &[u32], other: &[u32]) -> Vec<DiffOp> {
    let mut edits = Capture::new();
    let done: Result<(), Infallible> = myers::diff(&mut edits, one, 0..one.len(), other, 0..other.len());
    match done {
        Ok(()) => edits.into_ops(),
    }
}
