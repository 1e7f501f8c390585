//! The map as a table for the terminal, as CSV, as JSON and as a page: the same facts each time.

mod class;
mod csv;
mod json;
mod page;
mod table;

pub use class::{class_csv, class_json, class_table};
pub use csv::csv;
pub use json::{VERSION, json};
pub use page::page;
pub use table::table;

use std::collections::BTreeSet;

use super::{Cover, Evidence, Item, Matrix, Pair, Placed, never_together};
use crate::concepts::graph::Graph;

/// Items and what follows from them.
#[derive(Debug, Clone, Copy)]
pub struct Report<'a> {
    /// The graph.
    pub graph: &'a Graph,
    /// What was read.
    pub items: &'a [Item],
    /// Which of them exercises what.
    pub matrix: &'a Matrix,
    /// Pairs that a path can join; empty where gaps are not asked for.
    pub joinable: &'a BTreeSet<Pair>,
    /// Gaps, over-use and pairs are asked for.
    pub with_gaps: bool,
    /// The smallest set, where it was asked for, in an order to work through.
    pub cover: Option<&'a (Cover, Vec<Placed>)>,
}

impl Report<'_> {
    /// Pairs that never meet although a path could join them, and how many others never meet.
    fn apart(&self) -> (Vec<Pair>, usize) {
        let all = never_together(self.matrix);
        let n_all = all.len();
        let possible: Vec<Pair> = all.into_iter().filter(|pair| self.joinable.contains(pair)).collect();
        let n_others = n_all - possible.len();
        (possible, n_others)
    }
}

/// What shows it, in words.
fn evidence(graph: &Graph, evidence: &Evidence) -> String {
    match evidence {
        Evidence::Step(step) => {
            let influence = graph.influence(*step);
            let name = |ix| graph.quantity(ix).name.as_str();
            format!("{} → {}: {}", name(influence.from), name(influence.to), influence.because)
        }
        Evidence::Sentence(sentence, _) => sentence.to_string(),
        Evidence::RequiredBy(principle) => format!("{} requires it", graph.principle(*principle).name),
    }
}

/// How sure the cover is, as a sentence without full stop.
fn cover_words(cover: &Cover) -> String {
    let n = cover.chosen.len();
    if cover.exact {
        return format!("{n}: no fewer do it (proved)");
    }
    format!(
        "{n}: at least {} are needed, so this is at most {:.2} times the fewest",
        cover.at_least, cover.at_most_times
    )
}
