//! The concepts: YAML files read into typed parts, checked, and joined into the graph.
//!
//! Comes in: sources (bytes with a name). Goes out: a [`Graph`], or every fault of every file.
//! **Must not know**: scenarios, seeds, prose, rendering.

pub mod graph;
mod ids;
mod path;
pub mod written;

pub use graph::Graph;
pub use ids::{ActIx, ContextIx, EntityIx, FieldIx, InfluenceIx, PrincipleIx, QuantityIx, RigIx, SettingIx};
pub use path::{Path, Settings, Side, TwistAt, sides};
