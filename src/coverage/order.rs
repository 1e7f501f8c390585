//! An order in which items can be worked through: what a principle requires comes before it.

use std::collections::BTreeSet;

use super::Item;
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;

/// An item in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Place among the items given.
    pub item: usize,
    /// Prerequisites of it that only a later item exercises: none where the order holds.
    pub too_early: Vec<PrincipleIx>,
}

/// Puts these items (by place) in an order that respects prerequisites, as far as one does.
///
/// An item is taken as soon as all that its principles require and that any of these items exercises has been met; taking
/// one never makes another wait, so an order without fault is found wherever there is one. Where there is none, the item
/// that waits for the fewest is next, and what it waits for is told.
pub fn in_order(graph: &Graph, items: &[Item], chosen: &[usize]) -> Vec<Placed> {
    let exercised =
        |place: &usize| -> BTreeSet<PrincipleIx> { items.get(*place).into_iter().flat_map(Item::exercises).collect() };
    let mut open: Vec<(usize, BTreeSet<PrincipleIx>, BTreeSet<PrincipleIx>)> = chosen
        .iter()
        .map(|place| {
            let own = exercised(place);
            let needs = graph.with_prerequisites(&own).difference(&own).copied().collect();
            (*place, own, needs)
        })
        .collect();
    let offered: BTreeSet<PrincipleIx> = open.iter().flat_map(|(_, own, _)| own.iter().copied()).collect();
    let mut met: BTreeSet<PrincipleIx> = BTreeSet::new();
    let mut placed = Vec::new();
    while !open.is_empty() {
        let waits = |needs: &BTreeSet<PrincipleIx>| -> Vec<PrincipleIx> {
            needs.iter().filter(|need| offered.contains(need) && !met.contains(need)).copied().collect()
        };
        let next = open
            .iter()
            .enumerate()
            .min_by_key(|(_, (place, own, needs))| (waits(needs).len(), needs.len() + own.len(), *place))
            .map_or(0, |(next, _)| next);
        let (item, own, needs) = open.remove(next);
        placed.push(Placed { item, too_early: waits(&needs) });
        met.extend(own);
    }
    placed
}
