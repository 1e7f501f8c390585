//! A view as a list of ids with their names: what an author refers to.

use std::fmt::Write as _;

use super::{View, sign};
use crate::concepts::graph::Graph;

/// Quantities, principles and influences, one a line, ids first.
pub fn list(graph: &Graph, view: &View) -> String {
    let mut text = format!("{}\n\nquantities\n", view.title);
    let width = |ids: &mut dyn Iterator<Item = usize>| ids.max().unwrap_or(0);
    let wide = width(&mut view.quantities.iter().map(|ix| graph.quantity(*ix).id.len()));
    for ix in &view.quantities {
        let one = graph.quantity(*ix);
        let role = super::graphml::role(one.role);
        let _ = writeln!(text, "  {:wide$}  {} ({role}, unit {})", one.id, one.name, one.unit.code());
    }
    let principles: std::collections::BTreeSet<_> =
        view.influences.iter().map(|ix| graph.influence(*ix).principle).collect();
    let wide = width(&mut principles.iter().map(|ix| graph.principle(*ix).id.len()));
    text.push_str("\nprinciples\n");
    for ix in principles {
        let one = graph.principle(ix);
        let _ = writeln!(text, "  {:wide$}  {}", one.id, one.name);
    }
    let wide = width(&mut view.influences.iter().map(|ix| graph.influence(*ix).id.len()));
    text.push_str("\ninfluences\n");
    for ix in &view.influences {
        let one = graph.influence(*ix);
        let id = |quantity| graph.quantity(quantity).id.as_str();
        let mark = if view.marked.contains(ix) { "*" } else { " " };
        let _ = writeln!(text, " {mark}{:wide$}  {} {} {}", one.id, id(one.from), sign(one), id(one.to));
    }
    text
}
