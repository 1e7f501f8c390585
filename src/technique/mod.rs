//! Techniques: paths that nobody has walked before, dressed as something a bench could do.
//!
//! Comes in: the graph, a wish, a seed. Goes out: a [`Technique`] or the reason why not.
//! **Must not know**: laws, prose, data. A technique holds no sign; the derivation does.

mod catalogue;
mod compose;
mod names;
mod novelty;
mod refusal;

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::concepts::graph::Graph;
use crate::concepts::{ActIx, ContextIx, EntityIx, Path, RigIx, Settings, TwistAt};
use crate::concepts::{FieldIx, InfluenceIx, PrincipleIx, written::TwistKind};
use crate::seed::Seed;

pub use catalogue::{Candidate, Catalogue, STEPS};
pub use compose::{SHORT_STEPS, compose, form_of};
pub use novelty::{contains_known, known_name, real_name};
pub use refusal::{Refusal, Refusals};

/// Length of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Form {
    /// Three or four points.
    Short,
    /// Ten points.
    Long,
}

impl Form {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Short, Self::Long];

    /// As files and programs write it: `short` or `long`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Long => "long",
        }
    }

    /// The form of this word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|form| form.word() == word)
    }
}

/// What is asked for.
#[derive(Debug, Clone, Default)]
pub struct Wish {
    /// Fields that the path must cross, all of them.
    pub fields: Vec<FieldIx>,
    /// Principles that it must exercise, all of them.
    pub principles: Vec<PrincipleIx>,
    /// Influences that its path must hold, all of them.
    pub influences: Vec<InfluenceIx>,
    /// The whole path, in order; drawn where it is not given.
    pub steps: Option<Vec<InfluenceIx>>,
    /// The bench act; drawn where it is not given.
    pub act: Option<ActIx>,
    /// The rig; drawn where it is not given.
    pub rig: Option<RigIx>,
    /// Who investigates; drawn where it is not given.
    pub context: Option<ContextIx>,
    /// Paths that others have taken.
    pub taken: BTreeSet<Path>,
    /// Length; drawn where it is not given.
    pub form: Option<Form>,
    /// Twist.
    pub twist: TwistWish,
}

/// What is asked of the twist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TwistWish {
    /// Long questions have one, short ones often.
    #[default]
    Any,
    /// None.
    Without,
    /// This kind.
    Kind(TwistKind),
    /// This one.
    At(TwistAt),
}

/// An invented technique: everything that was chosen, and nothing that follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Technique {
    /// The seed of the scenario.
    pub seed: Seed,
    /// The draw of that seed that held: its number names the streams of parameters and noise.
    pub attempt: u32,
    /// Length of the question.
    pub form: Form,
    /// The bench act that is the treatment.
    pub act: ActIx,
    /// Levels of the treatment, rising, in the dial's unit.
    pub levels: Vec<f64>,
    /// The bench arrangement that reads.
    pub rig: RigIx,
    /// Who investigates.
    pub context: ContextIx,
    /// From treatment to readout.
    pub path: Path,
    /// What holds of the apparatus.
    pub settings: Settings,
    /// The second question.
    pub twist: Option<TwistAt>,
    /// Readings at each level.
    pub replicates: u32,
    /// Which of its names each entity goes by.
    pub names: BTreeMap<EntityIx, usize>,
    /// The technique's own name.
    pub title: String,
}

impl Technique {
    /// Fields that its path crosses.
    pub fn fields(&self, graph: &Graph) -> std::collections::BTreeSet<FieldIx> {
        self.path.steps().iter().map(|step| graph.field_of(*step)).collect()
    }

    /// Principles of its path, in order, each once.
    pub fn principles(&self, graph: &Graph) -> Vec<PrincipleIx> {
        let mut met = Vec::new();
        for step in self.path.steps() {
            let principle = graph.influence(*step).principle;
            if !met.contains(&principle) {
                met.push(principle);
            }
        }
        met
    }
}
