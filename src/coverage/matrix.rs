//! The matrix: which item exercises which principle, and what follows from its rows.

use super::{Bits, How, Item};
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;

/// Fewest items from which on one can speak of too much.
const ENOUGH: usize = 4;

/// What one principle gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Total {
    /// The principle.
    pub principle: PrincipleIx,
    /// Items that exercise it.
    pub n_items: usize,
    /// Those of them in which the path says so.
    pub n_by_path: usize,
    /// Items that lean on it.
    pub n_resting: usize,
}

/// Principles × items.
#[derive(Debug, Clone, Default)]
pub struct Matrix {
    /// One row a principle that is asked about, in the order of the graph.
    pub totals: Vec<Total>,
    /// What each item exercises, by place of the principle.
    pub rows: Vec<Bits>,
    /// The principles asked about, by place.
    pub asked: Bits,
}

impl Matrix {
    /// Counts what the items exercise of the principles asked about.
    pub fn of(graph: &Graph, items: &[Item], asked: &Bits) -> Self {
        let mut totals: Vec<Total> = graph
            .principles()
            .map(|(principle, _)| Total { principle, n_items: 0, n_by_path: 0, n_resting: 0 })
            .collect();
        let mut rows = Vec::with_capacity(items.len());
        for item in items {
            for one in &item.principles {
                let Some(total) = totals.get_mut(one.principle.place()) else { continue };
                total.n_items += usize::from(one.counts());
                total.n_by_path += usize::from(one.counts() && one.how == How::Path);
                total.n_resting += usize::from(one.how == How::Prerequisite);
            }
            rows.push(item.exercises().map(PrincipleIx::place).collect());
        }
        totals.retain(|total| asked.contains(total.principle.place()));
        Self { totals, rows, asked: asked.clone() }
    }

    /// Principles that no item exercises.
    pub fn gaps(&self) -> Vec<PrincipleIx> {
        self.totals.iter().filter(|total| total.n_items == 0).map(|total| total.principle).collect()
    }

    /// Principles that more than half of the items exercise, the most used first; none where there are few items.
    pub fn overused(&self) -> Vec<Total> {
        let n = self.rows.len();
        let much = |total: &&Total| n >= ENOUGH && 2 * total.n_items > n;
        let mut found: Vec<Total> = self.totals.iter().filter(much).copied().collect();
        found.sort_by(|a, b| b.n_items.cmp(&a.n_items).then(a.principle.cmp(&b.principle)));
        found
    }
}
