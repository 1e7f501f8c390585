//! Whether a path or a name is new.

use std::collections::BTreeSet;

use crate::concepts::graph::Graph;
use crate::concepts::{FieldIx, Path};

/// Whether the path contains a textbook technique as a run and adds fewer than two influences of another field.
pub fn contains_known(graph: &Graph, path: &Path) -> bool {
    graph.known().iter().any(|known| {
        let fields: BTreeSet<FieldIx> = known.path.iter().map(|ix| graph.field_of(*ix)).collect();
        let steps = path.steps();
        let runs = steps.windows(known.path.len()).any(|run| run == known.path.as_slice());
        let added =
            steps.iter().filter(|ix| !known.path.contains(ix) && !fields.contains(&graph.field_of(**ix))).count();
        runs && added < 2
    })
}

/// Whether a title is the name of a textbook technique, spelling and word order aside.
pub(super) fn known_name(graph: &Graph, title: &str) -> bool {
    let words = bag(title);
    let names = graph.known().iter().flat_map(|known| known.other_names.iter().chain([&known.name]));
    names.map(|name| bag(name)).any(|name| name == words)
}

/// The words of a name, in lower case, sorted, without a plural s.
fn bag(name: &str) -> Vec<String> {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let mut words: Vec<String> =
        words.map(str::to_lowercase).map(|word| word.trim_end_matches('s').to_owned()).collect();
    words.sort();
    words
}
