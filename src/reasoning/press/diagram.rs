//! A signed diagram: things, and the arrows by which one raises or lowers another.
//!
//! **Must not know**: files, and how strong an arrow is.

use std::collections::BTreeMap;

use crate::reasoning::Sign;

/// Things joined by signed arrows (a community matrix of which only the signs are known).
///
/// An arrow from a thing to itself is a self-effect; a thing that has none drawn has none. An arrow drawn with both
/// signs is taken as one of unknown sign.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Diagram {
    /// Names, in the order of first mention.
    pub nodes: Vec<String>,
    // INVARIANT: both ends are places in `nodes`.
    edges: Vec<(usize, Sign, usize)>,
}

/// Signs by (from, to); `None` where the diagram gives both.
pub(super) type Effects = BTreeMap<(usize, usize), Option<Sign>>;

impl Diagram {
    /// A diagram without anything in it.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an arrow, and the things at its ends where they are new.
    pub fn connect(&mut self, from: &str, sign: Sign, to: &str) {
        let edge = (self.place(from), sign, self.place(to));
        self.edges.push(edge);
    }

    /// The place of a thing by name.
    pub fn find(&self, name: &str) -> Option<usize> {
        self.nodes.iter().position(|node| node == name)
    }

    /// The arrows as given, as (from, sign, to).
    pub fn edges(&self) -> &[(usize, Sign, usize)] {
        &self.edges
    }

    fn place(&mut self, name: &str) -> usize {
        self.find(name).unwrap_or_else(|| {
            self.nodes.push(name.to_owned());
            self.nodes.len() - 1
        })
    }

    /// One effect for each pair that has an arrow.
    pub(super) fn effects(&self) -> Effects {
        let mut effects = Effects::new();
        for &(from, sign, to) in &self.edges {
            effects
                .entry((from, to))
                .and_modify(|known: &mut Option<Sign>| *known = known.filter(|other| *other == sign))
                .or_insert(Some(sign));
        }
        effects
    }

    pub(super) fn name(&self, place: usize) -> &str {
        self.nodes.get(place).map_or("", String::as_str)
    }
}
