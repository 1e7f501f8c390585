//! Influences as written: arrows with their laws and twists.
//!
//! Comes in: the `influences` of a YAML file. Goes out: arrows whose references are text with a place. **Must not know**:
//! whether a law exists or a sign is right.

use serde::Deserialize;
use serde_yaml::Spanned;

use super::{Fragment, Recall, Text};

/// The sign of an influence as declared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum SignWritten {
    /// Raising `from` raises `to`.
    #[serde(rename = "+")]
    Plus,
    /// Raising `from` lowers `to`.
    #[serde(rename = "-")]
    Minus,
    /// Raises below `turns_at`, lowers above.
    #[serde(rename = "turning")]
    Turning,
}

/// How specimen and compartment change hands between `from` and `to`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Transfer {
    /// `from` acts where `to` is: they touch, or the light falls on it.
    Contact,
    /// A portion is taken out; what it left behind no longer acts on it.
    Sample,
    /// It is put into another apparatus.
    Load,
}

/// A signed, lawful arrow.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Influence {
    /// Kebab-case id (`solute-lowers-potential`).
    pub id: Text,
    /// Quantity that acts.
    pub from: Text,
    /// Quantity acted on.
    pub to: Text,
    /// Direction.
    pub sign: Spanned<SignWritten>,
    /// Where a turning sign turns, in the unit of `from`.
    pub turns_at: Option<Spanned<f64>>,
    /// The principle that a student must know.
    pub principle: Text,
    /// The law that gives `to`.
    pub law: LawUse,
    /// Why, in one true sentence.
    pub because: Text,
    /// Settings under which it acts.
    #[serde(default)]
    pub needs: Vec<Text>,
    /// Settings under which it does not.
    #[serde(default)]
    pub excludes: Vec<Text>,
    /// How `from`'s entity reaches `to`'s, where they differ.
    pub transfer: Option<Spanned<Transfer>>,
    /// Narrower range of `from` in which it is used.
    pub over: Option<Spanned<[f64; 2]>>,
    /// What `to` cannot exceed: the reaction ends before its substrate runs short, say.
    pub limit: Option<Limit>,
    /// Time in seconds after which `to` has settled; or, for a rate, the time over which it builds up.
    pub time_s: f64,
    /// Whether `to` builds up for as long as it is allowed to (a rate), rather than settling.
    #[serde(default)]
    pub builds_up: bool,
    /// What the liquid is called that this step leaves, for `{{ liquid }}` in what follows (`stopped mix`).
    #[serde(default)]
    pub liquid: Option<Text>,
    /// Told to the student because nobody could know it; a step that is told asks for no recall.
    pub told: Option<Fragment>,
    /// Bench facts that make the step real.
    #[serde(default)]
    pub acts: Vec<Fragment>,
    /// Words that would hand the step over; they may not stand in the stimulus.
    #[serde(default)]
    pub never: Vec<Text>,
    /// "What plays its part here?"
    pub role: Recall,
    /// What happens when `from` rises: a whole clause, no capital, no full stop. Of a turning influence two clauses, for
    /// below and for above the turning point, parted by ` // `.
    pub up: Text,
    /// What happens when `from` falls.
    pub down: Text,
    /// Also earns.
    #[serde(default)]
    pub accept: Vec<Text>,
    /// Does not earn.
    #[serde(default)]
    pub reject: Vec<Text>,
    /// Adjectives for a technique that uses it (`packed`).
    #[serde(default)]
    pub name_words: Vec<Text>,
    /// Second questions that touch this step.
    #[serde(default)]
    pub twists: Vec<TwistWritten>,
}

/// How an influence uses a law.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LawUse {
    /// The law's id.
    pub name: Text,
    /// The symbol that `from` gives.
    pub input: Text,
    /// Symbols with one value always.
    #[serde(default)]
    pub fixed: Vec<FixedSymbol>,
    /// Symbols drawn once a scenario.
    #[serde(default)]
    pub free: Vec<FreeSymbol>,
    /// Letter symbols: one of these is drawn.
    #[serde(default)]
    pub letters: Vec<LettersSymbol>,
    /// Symbols that take the value `from` has at the first level (the state in which a thing was made).
    #[serde(default)]
    pub at_first: Vec<Text>,
}

/// A symbol with one value.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FixedSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// Its value in the law's unit (`.inf` where the law allows it).
    pub value: Spanned<f64>,
    /// What it stands for here, where the law's own words would leave open of what.
    #[serde(default)]
    pub means: Option<Text>,
}

/// A symbol drawn from a range.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FreeSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
    /// Step: drawn values are `low + k·step`.
    pub step: f64,
}

/// A letter symbol.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LettersSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// What may be drawn.
    pub any_of: Vec<Text>,
}

/// A share of another quantity.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// The quantity; where nothing on the way gives it, nothing is limited.
    pub of: Text,
    /// The share.
    pub share: f64,
}

/// Kinds of twist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TwistKind {
    /// A blocker: `to` no longer follows `from`.
    Cut,
    /// `to` is supplied directly: nothing upstream matters.
    Bypass,
    /// A condition flips the sign.
    Reverse,
    /// The step no longer limits.
    Saturate,
    /// Something the step needs is taken away.
    RemoveSetting,
    /// A second path of opposite sign opens; which wins is a matter of magnitude.
    RivalPath,
    /// The reading is made at the end instead of early.
    RateOrEndPoint,
}

/// A second question out of the same path.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TwistWritten {
    /// Kebab-case id, unique within the influence.
    pub id: Text,
    /// What is done to the path.
    pub kind: Spanned<TwistKind>,
    /// The bench fact, one or two whole sentences (`A second batch of {{ vesicle.many }} holds …`).
    pub agent: Text,
    /// Why the step now behaves otherwise: a whole clause, no capital, no full stop.
    pub because: Text,
    /// What a student who misses the point writes.
    pub trap: Text,
    /// What may have gone wrong where nothing followed along this step: one whole sentence, past tense.
    pub fault: Option<Text>,
    /// Other reasons that earn the point for why the step behaves otherwise.
    #[serde(default)]
    pub accept: Vec<Text>,
    /// What is dangerous about it.
    #[serde(default)]
    pub hazards: Vec<Text>,
    /// Numerical engine: parameters of this influence's law that change.
    #[serde(default)]
    pub set: Vec<FixedSymbol>,
    /// Numerical engine: the value at which `to` is held (bypass) or `from` is seen (cut), in that quantity's unit.
    pub held_at: Option<Spanned<f64>>,
    /// Of a bypass: the value held lies below that of the plain run at every level, so that it limits what follows.
    #[serde(default)]
    pub limiting: bool,
    /// Setting taken away.
    pub remove: Option<Text>,
    /// Setting brought in.
    pub add: Option<Text>,
}
