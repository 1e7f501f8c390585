//! The checks of a scenario file, one a file.

pub(super) mod data;
pub(super) mod guide;
pub(super) mod points;
pub(super) mod prose;
pub(super) mod questions;
pub(super) mod sections;
pub(super) mod steps;
pub(super) mod wording;
