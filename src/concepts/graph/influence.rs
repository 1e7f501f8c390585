//! Influences as checked: a signed, lawful arrow, its law and its twists.

use std::collections::{BTreeMap, BTreeSet};

use super::{Fragment, Recall};
use crate::concepts::ids::{PrincipleIx, QuantityIx, SettingIx};
use crate::concepts::written::{Transfer, TwistKind};
use crate::laws::Law;
use crate::quantity::Unit;

/// Direction of an influence as declared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DeclaredSign {
    /// Raising `from` raises `to`.
    Plus,
    /// Raising `from` lowers `to`.
    Minus,
    /// Raises below this value of `from`, lowers above it.
    Turning {
        /// In the unit of `from`.
        at: f64,
    },
}

/// Where the value of a law's symbol comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum SymbolSource {
    /// The influence's `from`.
    Driven,
    /// Always this.
    Fixed(f64),
    /// Drawn once a scenario: `low + k·step`.
    Free {
        /// Least.
        low: f64,
        /// Greatest.
        high: f64,
        /// Step.
        step: f64,
    },
    /// One of these is drawn.
    Letters(Vec<String>),
    /// What `from` is at the first level.
    AtFirst,
}

/// How an influence uses a law.
#[derive(Debug, Clone)]
pub struct LawUse {
    /// The law.
    pub law: &'static Law,
    /// Place of the driven symbol in the law's inputs.
    pub input: usize,
    /// One source for each of the law's inputs, in the law's order.
    pub sources: Vec<SymbolSource>,
    /// What inputs stand for here, by place, where that is not in the law's own words.
    pub meanings: BTreeMap<usize, String>,
    /// Unit in which the driven symbol is read.
    pub input_unit: Unit,
    /// Unit in which the law gives its value.
    pub output_unit: Unit,
}

/// A second question out of the same path.
#[derive(Debug, Clone)]
pub struct Twist {
    /// Id, unique within the influence.
    pub id: String,
    /// What is done to the path.
    pub kind: TwistKind,
    /// The bench fact.
    pub agent: String,
    /// Why the step now behaves otherwise, as a clause.
    pub because: String,
    /// What a student who misses the point writes.
    pub trap: String,
    /// What may have gone wrong where nothing followed along this step.
    pub fault: Option<String>,
    /// Other reasons that earn the point for why the step behaves otherwise.
    pub accept: Vec<String>,
    /// What is dangerous about it.
    pub hazards: Vec<String>,
    /// Places of law inputs and their new values.
    pub set: Vec<(usize, f64)>,
    /// Where `to` (bypass) or `from` (cut) is held.
    pub held_at: Option<f64>,
    /// Whether that value lies below the plain run's at every level.
    pub limiting: bool,
    /// Setting taken away.
    pub remove: Option<SettingIx>,
    /// Setting brought in.
    pub add: Option<SettingIx>,
}

/// A signed, lawful arrow.
#[derive(Debug, Clone)]
pub struct Influence {
    /// Id as written.
    pub id: String,
    /// Quantity that acts.
    pub from: QuantityIx,
    /// Quantity acted on.
    pub to: QuantityIx,
    /// Direction.
    pub sign: DeclaredSign,
    /// What a student must know.
    pub principle: PrincipleIx,
    /// The law that gives `to`.
    pub law: LawUse,
    /// Why, in one true sentence.
    pub because: String,
    /// Settings under which it acts.
    pub needs: BTreeSet<SettingIx>,
    /// Settings under which it does not.
    pub excludes: BTreeSet<SettingIx>,
    /// How `from`'s entity reaches `to`'s.
    pub transfer: Option<Transfer>,
    /// Range of `from` in which it is used: `from`'s own, or narrower.
    pub over: (f64, f64),
    /// The share of another quantity that `to` cannot exceed.
    pub limit: Option<(QuantityIx, f64)>,
    /// Time to settle, or over which it builds up, in seconds.
    pub time_s: f64,
    /// Builds up for as long as it is allowed to.
    pub builds_up: bool,
    /// What the liquid is called that it leaves.
    pub liquid: Option<String>,
    /// Told to the student.
    pub told: Option<Fragment>,
    /// Bench facts.
    pub acts: Vec<Fragment>,
    /// Words that would hand the step over.
    pub never: Vec<String>,
    /// "What plays its part here?"
    pub role: Recall,
    /// What happens when `from` rises.
    pub up: String,
    /// What happens when `from` falls.
    pub down: String,
    /// Also earns.
    pub accept: Vec<String>,
    /// Does not earn.
    pub reject: Vec<String>,
    /// Adjectives for a title.
    pub name_words: Vec<String>,
    /// Second questions.
    pub twists: Vec<Twist>,
}
