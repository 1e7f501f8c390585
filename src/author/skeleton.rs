//! Commented beginnings of new parts: valid YAML, in which only what is to be filled in is at fault.

use crate::concepts::graph::Graph;
use crate::technique::{SHORT_STEPS, STEPS};

/// What is begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A thing that can be more or less.
    Quantity,
    /// A unit of knowing.
    Principle,
    /// A signed, lawful arrow.
    Influence,
    /// Invented people and reasons.
    Context,
    /// A question.
    Scenario,
}

/// Ids named in a comment at most.
const MOST_NAMED: usize = 60;

/// The skeleton of a part with this id; `field` is that of a principle.
pub fn skeleton(graph: &Graph, kind: Kind, id: &str, field: &str) -> String {
    let text = match kind {
        Kind::Quantity => include_str!("skeletons/quantity.yaml"),
        Kind::Principle => include_str!("skeletons/principle.yaml"),
        Kind::Influence => include_str!("skeletons/influence.yaml"),
        Kind::Context => include_str!("skeletons/context.yaml"),
        Kind::Scenario => include_str!("skeletons/scenario.md"),
    };
    let field = match graph.find_field(field) {
        Some(_) => format!("field: {{ id: {field} }}"),
        None => format!("field: {{ id: {field}, name: \"FILL IN: the field as a reader sees it\" }}"),
    };
    text.replace("{ID}", id)
        .replace("{FIELD}", &field)
        .replace("{FEWEST}", &STEPS.start().to_string())
        .replace("{MOST}", &STEPS.end().to_string())
        .replace("{SHORT}", &SHORT_STEPS.to_string())
        .replace("{ENTITIES}", &list(graph.entities().map(|(_, entity)| entity.id.as_str())))
        .replace("{ACTS}", &list(graph.acts().map(|(_, act)| act.id.as_str())))
        .replace("{RIGS}", &list(graph.rigs().map(|(_, rig)| rig.id.as_str())))
        .replace("{CONTEXTS}", &list(graph.contexts().map(|(_, context)| context.id.as_str())))
}

fn list<'a>(ids: impl Iterator<Item = &'a str>) -> String {
    ids.take(MOST_NAMED).collect::<Vec<_>>().join(", ")
}
