//! A view in `GraphML`.
//!
//! # Source
//! `GraphML` primer and schema 1.0 (graphml.graphdrawing.org; from memory): keys are declared, then data refer to them.

use std::fmt::Write as _;

use super::{View, escaped, sign_word};
use crate::concepts::graph::Graph;

/// Attributes of nodes and of edges, in the order in which they are written.
const OF_NODES: &[&str] = &["name", "symbol", "unit", "entity", "role", "field"];
const OF_EDGES: &[&str] = &["sign", "principle", "law", "because", "marked"];

/// The view as a `GraphML` document: quantities as nodes by id, influences as edges.
pub fn graphml(graph: &Graph, view: &View) -> String {
    let mut text = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<graphml xmlns=\"http://graphml.graphdrawing.org/xmlns\" \
         xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" \
         xsi:schemaLocation=\"http://graphml.graphdrawing.org/xmlns http://graphml.graphdrawing.org/xmlns/1.0/graphml.xsd\">\n",
    );
    for (kind, names) in [("node", OF_NODES), ("edge", OF_EDGES)] {
        for name in names {
            let of = if *name == "marked" { "boolean" } else { "string" };
            let _ =
                writeln!(text, "  <key id=\"{kind}-{name}\" for=\"{kind}\" attr.name=\"{name}\" attr.type=\"{of}\"/>");
        }
    }
    let _ =
        writeln!(text, "  <graph id=\"toehold\" edgedefault=\"directed\">\n    <desc>{}</desc>", escaped(&view.title));
    for ix in &view.quantities {
        let quantity = graph.quantity(*ix);
        let role = role(quantity.role);
        let field = quantity.field.map_or("", |field| graph.field(field).id.as_str());
        let entity = &graph.entity(quantity.entity).id;
        let values = [&quantity.name, &quantity.symbol, quantity.unit.code(), entity, role, field];
        let _ = writeln!(text, "    <node id=\"{}\">{}</node>", escaped(&quantity.id), data("node", OF_NODES, &values));
    }
    for ix in &view.influences {
        let one = graph.influence(*ix);
        let marked = if view.marked.contains(ix) { "true" } else { "false" };
        let principle = &graph.principle(one.principle).id;
        let values = [sign_word(one), principle, one.law.law.id, &one.because, marked];
        let _ = writeln!(
            text,
            "    <edge id=\"{}\" source=\"{}\" target=\"{}\">{}</edge>",
            escaped(&one.id),
            escaped(&graph.quantity(one.from).id),
            escaped(&graph.quantity(one.to).id),
            data("edge", OF_EDGES, &values)
        );
    }
    text + "  </graph>\n</graphml>\n"
}

/// `treatment`, `intermediate` or `readout`.
pub(super) fn role(role: crate::concepts::written::Role) -> &'static str {
    use crate::concepts::written::Role;
    match role {
        Role::Treatment => "treatment",
        Role::Intermediate => "intermediate",
        Role::Readout => "readout",
    }
}

fn data(kind: &str, names: &[&str], values: &[&str]) -> String {
    let of = |(name, value): (&&str, &&str)| format!("<data key=\"{kind}-{name}\">{}</data>", escaped(value));
    names.iter().zip(values).map(of).collect()
}
