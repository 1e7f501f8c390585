//! The concepts: YAML files read into typed parts, checked, and joined into the graph.
//!
//! Comes in: sources (bytes with a name). Goes out: a [`Graph`], or every fault of every file.
//! **Must not know**: scenarios, seeds, prose, rendering.

mod check;
mod embedded;
pub mod graph;
mod ids;
mod length;
mod load;
mod path;
pub mod written;

pub use check::{check, draft, finite_difference, is_open, is_unfinished, load_and_check};
pub use embedded::{embedded, is_concept_file};
pub use graph::Graph;
pub use ids::{ActIx, ContextIx, EntityIx, FieldIx, InfluenceIx, PrincipleIx, QuantityIx, RigIx, SettingIx};
pub use length::least_words;
pub use load::{Written, load, unreadable, yaml_fault};
pub use path::{Path, Settings, Side, TwistAt, sides};
