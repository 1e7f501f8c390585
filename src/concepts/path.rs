//! Path, settings and twist: what a technique is made of, shared by the qualitative and the numerical engine by
//! definition and applied by each in its own way.
//!
//! **Must not know**: how either engine applies them.

use std::collections::{BTreeMap, BTreeSet};

use super::graph::{DeclaredSign, Graph, Influence, Twist};
use super::ids::{InfluenceIx, QuantityIx, SettingIx};

/// A chain of influences: the `to` of each is the `from` of the next.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Path {
    // INVARIANT: not empty; chained; no quantity twice.
    steps: Vec<InfluenceIx>,
}

impl Path {
    /// The path of these influences, if they chain and meet no quantity twice.
    pub fn new(graph: &Graph, steps: Vec<InfluenceIx>) -> Option<Self> {
        let first = graph.influence(*steps.first()?);
        let mut met = BTreeSet::from([first.from]);
        let mut here = first.from;
        for step in &steps {
            let influence = graph.influence(*step);
            if influence.from != here || !met.insert(influence.to) {
                return None;
            }
            here = influence.to;
        }
        Some(Self { steps })
    }

    /// The influences in order; never empty.
    pub fn steps(&self) -> &[InfluenceIx] {
        &self.steps
    }

    /// The quantities on the way, treatment and readout included.
    pub fn quantities(&self, graph: &Graph) -> Vec<QuantityIx> {
        let from = self.steps.iter().take(1).map(|step| graph.influence(*step).from);
        from.chain(self.steps.iter().map(|step| graph.influence(*step).to)).collect()
    }
}

/// On which side of its turning point an influence is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Where raising `from` raises `to`.
    Below,
    /// Where raising `from` lowers `to`.
    Above,
}

/// What holds of the apparatus.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Settings {
    /// Settings in force.
    pub holds: BTreeSet<SettingIx>,
    /// Side of each turning influence in use.
    pub sides: BTreeMap<InfluenceIx, Side>,
}

impl Settings {
    /// Whether this influence acts: what it needs holds and nothing that it excludes does.
    pub fn allow(&self, influence: &Influence) -> bool {
        influence.needs.is_subset(&self.holds) && influence.excludes.is_disjoint(&self.holds)
    }

    /// The first two settings in force that exclude each other.
    pub fn clash(&self, graph: &Graph) -> Option<(SettingIx, SettingIx)> {
        self.holds.iter().find_map(|one| {
            let other = graph.setting(*one).excludes.intersection(&self.holds).next()?;
            Some((*one, *other))
        })
    }

    /// The settings after a twist has taken one away or brought one in.
    #[must_use]
    pub fn after(&self, twist: &Twist) -> Self {
        let mut changed = self.clone();
        if let Some(gone) = twist.remove {
            changed.holds.remove(&gone);
        }
        if let Some(come) = twist.add {
            changed.holds.insert(come);
        }
        changed
    }
}

/// A twist of one step of a technique.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct TwistAt {
    /// The step that it touches.
    pub influence: InfluenceIx,
    /// Place among that influence's twists.
    pub number: usize,
}

impl TwistAt {
    /// The twist as declared. `None` if the number is not one of that influence's.
    pub fn get(self, graph: &Graph) -> Option<&Twist> {
        graph.influence(self.influence).twists.get(self.number)
    }
}

/// Sides that an influence can be used on.
pub fn sides(influence: &Influence) -> &'static [Option<Side>] {
    match influence.sign {
        DeclaredSign::Plus | DeclaredSign::Minus => &[None],
        DeclaredSign::Turning { .. } => &[Some(Side::Below), Some(Side::Above)],
    }
}
