//! Lints of questions and their points, one a file; `term` finds the command terms.

pub(super) mod cued_answer;
pub(super) mod how_many;
pub(super) mod negative_stem;
pub(super) mod no_command_term;
pub(super) mod points_mismatch;
pub(super) mod term;
pub(super) mod thin_explain;
pub(super) mod two_questions;
pub(super) mod vague_word;
