//! A diagram's strongly connected parts, each with its matrix and its table of responses.
//!
//! In a stable community every part is stable by itself, so each is solved alone; what passes between parts is a plain
//! composition, done in the parent module.

use petgraph::algo::tarjan_scc;
use petgraph::graph::{DiGraph, NodeIndex};

use super::balance::{self, Table};
use super::diagram::Effects;
use super::terms::{Answer, Budget, Cause, Matrix};
use super::verify;
use crate::reasoning::Sign;

/// One strongly connected part.
#[derive(Debug, Clone)]
pub(super) struct Component {
    /// Its things, as places in the diagram; a local number is a place in this list.
    pub things: Vec<usize>,
    /// Signs of −A among them.
    pub matrix: Matrix,
    /// Responses to a push inside the part, by local (responding, pushed).
    pub table: Table,
    /// Whether the part can come to rest at all.
    pub settles: bool,
}

/// Partial products that the expansions of one diagram may look at.
const WORK: u64 = 20_000_000;

/// The parts, causes before effects.
pub(super) fn components(size: usize, effects: &Effects) -> Vec<Component> {
    let mut graph = DiGraph::<(), ()>::new();
    let nodes: Vec<NodeIndex> = (0..size).map(|_| graph.add_node(())).collect();
    for (from, to) in effects.keys() {
        if let (Some(&from), Some(&to)) = (nodes.get(*from), nodes.get(*to)) {
            graph.add_edge(from, to, ());
        }
    }
    let mut budget = Budget::new(WORK);
    let parts = tarjan_scc(&graph).into_iter().rev();
    parts.map(|part| solved(part.into_iter().map(NodeIndex::index).collect(), effects, &mut budget)).collect()
}

fn solved(mut things: Vec<usize>, effects: &Effects, budget: &mut Budget) -> Component {
    things.sort_unstable();
    let things = in_narrow_order(&things, effects);
    let local = |thing: usize| things.iter().position(|other| *other == thing);
    let mut inner: Vec<(usize, usize, Option<Sign>)> =
        effects.iter().filter_map(|(&(from, to), &sign)| Some((local(from)?, local(to)?, sign))).collect();
    if let [only] = things.as_slice()
        && !effects.keys().any(|(_, to)| to == only)
    {
        // Nothing acts on it, not even itself: its level is held from outside, and a lasting push is a new level.
        inner.push((0, 0, Some(Sign::Minus)));
    }
    let size = things.len();
    if size > Matrix::LARGEST {
        let cells = (0..size).flat_map(|a| (0..size).map(move |b| ((a, b), Answer::Open(Cause::Unfinished))));
        return Component { matrix: Matrix::default(), table: cells.collect(), settles: true, things };
    }
    let matrix = Matrix::new(size, &inner);
    // Where the budget ends the part is taken to settle: what is said of it then says nothing false.
    let can_settle = matrix.can_settle(budget).unwrap_or(true);
    let mut table = balance::by_terms(&matrix, budget);
    let mut settled = table.clone();
    let steps = balance::settle(&matrix, &mut settled, budget);
    if verify::replay(size, &inner, &steps) {
        table = settled;
    }
    // Proofs that contradict one another show that there is no such stable community.
    let settles = can_settle && !balance::is_at_odds(&matrix, &table, budget);
    Component { things, matrix, table, settles }
}

/// The things in an order that keeps expansions narrow: always the next one that leaves the fewest columns begun and not
/// ended.
fn in_narrow_order(things: &[usize], effects: &Effects) -> Vec<usize> {
    let mut left = things.to_vec();
    let mut order: Vec<usize> = Vec::with_capacity(things.len());
    let inside = |thing: &usize| things.binary_search(thing).is_ok();
    while !left.is_empty() {
        let cost = |candidate: usize| {
            let placed = |thing: &usize| *thing == candidate || order.contains(thing);
            things
                .iter()
                .filter(|from| {
                    let mut targets = effects.keys().filter(|(f, to)| f == *from && inside(to)).map(|(_, to)| to);
                    let begun = placed(from) || targets.clone().any(placed);
                    begun && !(placed(from) && targets.all(placed))
                })
                .count()
        };
        let best = left.iter().enumerate().min_by_key(|(_, thing)| cost(**thing)).map_or(0, |(place, _)| place);
        order.push(left.remove(best));
    }
    order
}
