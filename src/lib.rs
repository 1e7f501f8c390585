//! Toehold: original invented-technique questions whose data are computed and whose answers are proved.

pub mod cli;
pub mod concepts;
pub mod diagnostic;
pub mod laws;
pub mod quantity;
pub mod source;
