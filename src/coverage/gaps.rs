//! What is missing between principles: pairs that never meet, and which path would fill most gaps.

use std::collections::BTreeSet;

use super::{Bits, Matrix};
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;
use crate::technique::Catalogue;

/// Two principles, the first of which stands first in the graph.
pub type Pair = (PrincipleIx, PrincipleIx);

/// Pairs of principles that stand together on a path that a technique can take.
pub fn joinable(graph: &Graph, catalogue: &Catalogue) -> BTreeSet<Pair> {
    let mut pairs = BTreeSet::new();
    for set in paths(graph, catalogue) {
        pairs.extend(pairs_of(&set));
    }
    pairs
}

/// The principles of every path, each set once.
fn paths(graph: &Graph, catalogue: &Catalogue) -> BTreeSet<Vec<PrincipleIx>> {
    let of = |steps: &[crate::concepts::InfluenceIx]| {
        let set: BTreeSet<PrincipleIx> = steps.iter().map(|step| graph.influence(*step).principle).collect();
        set.into_iter().collect()
    };
    catalogue.candidates().iter().map(|candidate| of(candidate.path.steps())).collect()
}

fn pairs_of(set: &[PrincipleIx]) -> Vec<Pair> {
    let later = |place: usize| set.iter().skip(place + 1).copied();
    set.iter().enumerate().flat_map(|(place, one)| later(place).map(|other| (*one, other))).collect()
}

/// Pairs of principles asked about that each stand in some item, and in none together.
pub fn never_together(matrix: &Matrix) -> Vec<Pair> {
    let met: Vec<PrincipleIx> =
        matrix.totals.iter().filter(|total| total.n_items > 0).map(|total| total.principle).collect();
    let distinct: BTreeSet<&Bits> = matrix.rows.iter().collect();
    let together =
        |(one, two): &Pair| distinct.iter().any(|row| row.contains(one.place()) && row.contains(two.place()));
    pairs_of(&met).into_iter().filter(|pair| !together(pair)).collect()
}

/// The principles of the path that holds the most of these; the shortest such path where several do. Empty where none
/// holds any.
pub fn target(graph: &Graph, catalogue: &Catalogue, missing: &[PrincipleIx]) -> Vec<PrincipleIx> {
    let held = |set: &[PrincipleIx]| missing.iter().filter(|one| set.contains(one)).count();
    let best = paths(graph, catalogue).into_iter().max_by_key(|set| (held(set), usize::MAX - set.len()));
    let best = best.unwrap_or_default();
    missing.iter().copied().filter(|one| best.contains(one)).collect()
}
