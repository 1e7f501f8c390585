//! Whether a path or a name is new.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use super::names::Names;
use crate::concepts::graph::Graph;
use crate::concepts::{FieldIx, InfluenceIx, Path};

/// Names of real techniques, with their source and licence in the first lines.
static LISTED: &str = include_str!("technique-names.txt");

/// The list, indexed once.
static REAL: LazyLock<Names> = LazyLock::new(|| Names::new(LISTED.lines().filter(|line| !line.starts_with('#'))));

/// Whether the path contains a textbook technique as a run and adds fewer than two influences of another field.
pub fn contains_known(graph: &Graph, path: &Path) -> bool {
    // Arrows between the same two quantities are one step of an assay, whichever of its two readings is taken.
    let ends = |ix: InfluenceIx| (graph.influence(ix).from, graph.influence(ix).to);
    let steps: Vec<_> = path.steps().iter().map(|ix| (*ix, ends(*ix))).collect();
    graph.known().iter().any(|known| {
        let same = |run: &[(InfluenceIx, _)]| run.iter().zip(&known.path).all(|((_, step), ix)| *step == ends(*ix));
        if !steps.windows(known.path.len()).any(same) {
            return false;
        }
        let fields: BTreeSet<FieldIx> = known.path.iter().map(|ix| graph.field_of(*ix)).collect();
        let in_known = |step: &_| known.path.iter().any(|ix| ends(*ix) == *step);
        let added = steps.iter().filter(|(ix, step)| !in_known(step) && !fields.contains(&graph.field_of(*ix)));
        added.count() < 2
    })
}

/// The real technique whose name a title is, or holds: a textbook technique of the graph, or one of the list. Spelling
/// within a letter, word order, plural and hyphens aside.
pub fn known_name(graph: &Graph, title: &str) -> Option<String> {
    let known = graph.known().iter().flat_map(|known| known.other_names.iter().chain([&known.name]));
    Names::new(known.map(String::as_str)).find(title).or_else(|| real_name(title))
}

/// The listed name that a title is, or holds.
pub fn real_name(title: &str) -> Option<String> {
    REAL.find(title)
}
