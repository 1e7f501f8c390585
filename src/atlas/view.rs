//! Which part of the graph is shown.

use std::collections::{BTreeMap, BTreeSet};

use super::{sign, verb};
use crate::concepts::graph::Graph;
use crate::concepts::written::Role;
use crate::concepts::{FieldIx, InfluenceIx, PrincipleIx, QuantityIx, Settings};
use crate::render::Picture;
use crate::render::figure::{Arrow, Frame, Thing, Web, web};

/// A part of the graph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View {
    /// What it is, for a heading.
    pub title: String,
    /// Its quantities.
    pub quantities: BTreeSet<QuantityIx>,
    /// Its influences; the ends of each are among the quantities.
    pub influences: BTreeSet<InfluenceIx>,
    /// Those that it is about, where not all are.
    pub marked: BTreeSet<InfluenceIx>,
}

impl View {
    /// The whole graph.
    pub fn whole(graph: &Graph) -> Self {
        let all = graph.influences().map(|(ix, _)| ix);
        Self::of(graph, "All fields".to_owned(), all.collect(), BTreeSet::new())
    }

    /// The influences of a field, and what they join.
    pub fn field(graph: &Graph, field: FieldIx) -> Self {
        let own = graph.influences().map(|(ix, _)| ix).filter(|ix| graph.field_of(*ix) == field);
        Self::of(graph, format!("The field of {}", graph.field(field).name), own.collect(), BTreeSet::new())
    }

    /// The influences that rest on a principle, marked, and those that lead to them or go on from them.
    pub fn principle(graph: &Graph, principle: PrincipleIx) -> Self {
        let own: BTreeSet<InfluenceIx> =
            graph.influences().filter(|(_, one)| one.principle == principle).map(|(ix, _)| ix).collect();
        let title = format!("The neighbourhood of {}", graph.principle(principle).name);
        Self::of(graph, title, around(graph, &own), own)
    }

    /// A path, marked, and the influences that act on its quantities under these settings.
    pub fn path(graph: &Graph, title: &str, steps: &[InfluenceIx], settings: &Settings) -> Self {
        let own: BTreeSet<InfluenceIx> = steps.iter().copied().collect();
        let ends = steps.iter().map(|step| graph.influence(*step)).flat_map(|one| [one.from, one.to]);
        let entering = ends.flat_map(|quantity| graph.entering(quantity));
        let acting = entering.filter(|ix| settings.allow(graph.influence(*ix)));
        let shown = acting.chain(own.iter().copied()).collect();
        Self::of(graph, format!("The path of {title} in the graph"), shown, own)
    }

    fn of(graph: &Graph, title: String, influences: BTreeSet<InfluenceIx>, marked: BTreeSet<InfluenceIx>) -> Self {
        let ends = influences.iter().map(|ix| graph.influence(*ix)).flat_map(|one| [one.from, one.to]);
        Self { title, quantities: ends.collect(), influences, marked }
    }

    /// What it shows, in words: for those who do not see the picture.
    pub fn description(&self, graph: &Graph) -> String {
        let shown: Vec<InfluenceIx> = if self.marked.is_empty() {
            self.influences.iter().copied().collect()
        } else {
            self.marked.iter().copied().collect()
        };
        let arrows: Vec<String> = shown
            .iter()
            .map(|ix| {
                let one = graph.influence(*ix);
                let name = |quantity| graph.quantity(quantity).name.as_str();
                format!("{} {} {}", name(one.from), verb(one), name(one.to))
            })
            .collect();
        let (n, m) = (self.quantities.len(), self.influences.len());
        let about = if self.marked.is_empty() { "They are" } else { "Drawn thick" };
        format!("{n} quantities joined by {m} influences. {about}: {}.", arrows.join("; "))
    }

    /// The view as a picture; with `links`, boxes and arrows lead to the parts of a page.
    pub fn picture(&self, graph: &Graph, name: &str, links: bool) -> Picture {
        let places: Vec<QuantityIx> = self.quantities.iter().copied().collect();
        let things = places.iter().map(|ix| {
            let quantity = graph.quantity(*ix);
            Thing {
                name: quantity.name.clone(),
                frame: match quantity.role {
                    Role::Treatment => Frame::Thick,
                    Role::Intermediate => Frame::Thin,
                    Role::Readout => Frame::Double,
                },
                link: links.then(|| format!("#quantity-{}", quantity.id)),
            }
        });
        // Influences between the same two quantities are drawn once: those marked, if there are any.
        let mut drawn_once: BTreeMap<(QuantityIx, QuantityIx), (InfluenceIx, BTreeSet<&'static str>)> = BTreeMap::new();
        for ix in self.marked.iter().chain(&self.influences) {
            let one = graph.influence(*ix);
            let (first, signs) = drawn_once.entry((one.from, one.to)).or_insert_with(|| (*ix, BTreeSet::new()));
            if self.marked.contains(ix) || !self.marked.contains(first) {
                signs.insert(sign(one));
            }
        }
        let arrows = drawn_once.into_values().filter_map(|(ix, signs)| {
            let one = graph.influence(ix);
            Some(Arrow {
                from: places.binary_search(&one.from).ok()?,
                to: places.binary_search(&one.to).ok()?,
                sign: if signs.len() > 1 { "+/−" } else { sign(one) },
                marked: self.marked.contains(&ix),
                link: links.then(|| format!("#influence-{}", one.id)),
            })
        });
        let drawn = Web { things: things.collect(), arrows: arrows.collect() };
        web(name, &self.title, &self.description(graph), &drawn)
    }
}

/// These influences, and those that enter or leave their ends.
fn around(graph: &Graph, own: &BTreeSet<InfluenceIx>) -> BTreeSet<InfluenceIx> {
    let ends: BTreeSet<QuantityIx> =
        own.iter().map(|ix| graph.influence(*ix)).flat_map(|one| [one.from, one.to]).collect();
    let touching = |ix: &QuantityIx| graph.leaving(*ix).into_iter().chain(graph.entering(*ix)).collect::<Vec<_>>();
    ends.iter().flat_map(touching).collect()
}
