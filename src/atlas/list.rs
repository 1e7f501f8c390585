//! A view as a list of ids with their names: what an author refers to. Of the whole graph also the parts of the bench.

use std::fmt::Write as _;

use super::{View, sign};
use crate::concepts::graph::{Context, Entity, Graph};

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
    if view.influences.len() == graph.influences().count() {
        bench(graph, &mut text);
    }
    text
}

/// Entities, settings, acts, rigs and contexts.
fn bench(graph: &Graph, text: &mut String) {
    let quantity = |ix| graph.quantity(ix).id.as_str();
    let called = |one: &Entity| one.names.first().map_or("", |name| name.one.as_str()).to_owned();
    let acts = |one: &Context| {
        let acts: Vec<&str> = one.purposes.iter().map(|purpose| graph.act(purpose.act).id.as_str()).collect();
        format!("{} (for {})", one.group, acts.join(", "))
    };
    rows("entities", graph.entities().map(|(_, one)| (one.id.as_str(), called(one))), text);
    rows("settings", graph.settings().map(|(_, one)| (one.id.as_str(), one.holds.clone())), text);
    rows("acts", graph.acts().map(|(_, one)| (one.id.as_str(), format!("sets {}", quantity(one.dial)))), text);
    rows("rigs", graph.rigs().map(|(_, one)| (one.id.as_str(), format!("reads {}", quantity(one.readout)))), text);
    rows("contexts", graph.contexts().map(|(_, one)| (one.id.as_str(), acts(one))), text);
}

fn rows<'g>(heading: &str, rows: impl Iterator<Item = (&'g str, String)>, text: &mut String) {
    let rows: Vec<(&str, String)> = rows.collect();
    let wide = rows.iter().map(|(id, _)| id.len()).max().unwrap_or(0);
    let _ = writeln!(text, "\n{heading}");
    for (id, words) in rows {
        let _ = writeln!(text, "  {id:wide$}  {words}");
    }
}
