//! Why a draw was not taken, and how often.

use std::collections::BTreeMap;

use serde::Serialize;
use thiserror::Error;

/// The reason for one rejected draw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Error, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Refusal {
    /// Two steps need settings that exclude each other.
    #[error("two steps need settings that exclude each other")]
    SettingsClash,
    /// The path stays within one field.
    #[error("the path stays within one field")]
    OneField,
    /// Two steps build up at the same time with nothing that ends the first.
    #[error("two steps build up at once, and nothing ends the first")]
    RatesOverlap,
    /// More than one way leads from the treatment to the readout.
    #[error("a second way leads to the readout, so the path alone does not decide")]
    SecondRoute,
    /// Loops or opposed ways: the signs do not decide.
    #[error("the signs do not decide the direction")]
    NotDeterminate,
    /// A textbook technique with too little added.
    #[error("it is a textbook technique with too little added")]
    KnownTechnique,
    /// Its name belongs to a real technique.
    #[error("its name belongs to a real technique")]
    KnownName,
    /// No context has a purpose for the act.
    #[error("no context has a purpose for this treatment")]
    NoContext,
    /// No twist of the kind or answer asked for.
    #[error("the path offers no twist of the kind asked for")]
    NoTwist,
    /// A quantity leaves the range in which it is believable or its law holds.
    #[error("a quantity leaves its believable range")]
    OutOfRange,
    /// Two laws would give the same quantity.
    #[error("two laws claim the same quantity")]
    TwoLaws,
    /// The readout does not change enough to be seen above the noise.
    #[error("the change would not show above the noise")]
    NotVisible,
    /// A mean lies by chance further from the model than its bar would tell.
    #[error("a mean lies by chance too far from what the technique gives")]
    Outlier,
    /// The readout does not keep one direction over the levels.
    #[error("the readout does not keep one direction over the levels")]
    NotOneDirection,
    /// The two engines disagree.
    #[error("signs and numbers disagree")]
    Disagreement,
    /// The twisted answer is the plain one, or does not show.
    #[error("the twist changes nothing that shows")]
    TwistDoesNotShow,
    /// The text would be longer than a reader has time for.
    #[error("the text would be too long for its form")]
    TooLong,
    /// The text failed its own proofreading.
    #[error("the text failed its proofreading")]
    ProseFault,
    /// Another scenario of the run has the same path, twist and context.
    #[error("another scenario of the run has the same path, twist and context")]
    Repeated,
    /// Its twist's answer would make up too much of the run.
    #[error("one answer would make up more than half of the run's twists")]
    AnswerQuota,
    /// It would share too many sentences with another scenario of the run.
    #[error("it would share too many sentences with another scenario of the run")]
    TooAlike,
}

/// Rejected draws by reason.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Refusals(BTreeMap<Refusal, u64>);

impl Refusals {
    /// Counts one more.
    pub fn count(&mut self, refusal: Refusal) {
        self.add(refusal, 1);
    }

    /// Counts some more.
    pub fn add(&mut self, refusal: Refusal, n: u64) {
        *self.0.entry(refusal).or_default() += n;
    }

    /// Adds those of another count.
    pub fn extend(&mut self, other: &Self) {
        for (refusal, n) in &other.0 {
            self.add(*refusal, *n);
        }
    }

    /// Reasons with their counts, in a fixed order.
    pub fn iter(&self) -> impl Iterator<Item = (Refusal, u64)> + '_ {
        self.0.iter().map(|(refusal, n)| (*refusal, *n))
    }
}
