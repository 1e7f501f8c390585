//! The author's bench: skeletons of new parts, schemas for editors, and mending of what is mechanical.
//!
//! Comes in: an id, or the text of a concept file. Goes out: text. **Must not know**: files on disk, seeds, prose.

mod mend;
mod schema;
mod skeleton;

pub use mend::{Mend, mend};
pub use schema::{concepts as concepts_schema, plan as plan_schema, scenario as scenario_schema};
pub use skeleton::{Kind, skeleton};
