//! A view in the DOT language of Graphviz.

use std::fmt::Write as _;

use super::{View, sign};
use crate::concepts::graph::Graph;
use crate::concepts::written::Role;

/// The view as a digraph: quantities as nodes by id, influences as edges.
pub fn dot(graph: &Graph, view: &View) -> String {
    let mut text =
        format!("digraph toehold {{\n  label={};\n  node [shape=box, fontname=\"Helvetica\"];\n", quoted(&view.title));
    for ix in &view.quantities {
        let quantity = graph.quantity(*ix);
        let style = match quantity.role {
            Role::Treatment => ", penwidth=3",
            Role::Intermediate => "",
            Role::Readout => ", peripheries=2",
        };
        let _ = writeln!(text, "  {} [label={}{style}];", quoted(&quantity.id), quoted(&quantity.name));
    }
    for ix in &view.influences {
        let one = graph.influence(*ix);
        let width = if view.marked.contains(ix) { ", penwidth=3" } else { "" };
        let _ = writeln!(
            text,
            "  {} -> {} [id={}, label={}, tooltip={}{width}];",
            quoted(&graph.quantity(one.from).id),
            quoted(&graph.quantity(one.to).id),
            quoted(&one.id),
            quoted(sign(one)),
            quoted(&graph.principle(one.principle).name)
        );
    }
    text + "}\n"
}

/// A quoted string: only the quotation mark and the backslash have a meaning of their own there.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', " "))
}
