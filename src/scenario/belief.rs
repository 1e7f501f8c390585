//! Which wrong belief leads to which wrong answer at a step.

use super::text::Voice;
use crate::concepts::graph::{DeclaredSign, Misconception};
use crate::concepts::written::WrongSign;
use crate::concepts::{InfluenceIx, Side};

/// A wrong answer to the question where a step leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WrongAnswer {
    /// The other direction.
    Opposite,
    /// No change.
    NoChange,
}

impl<'a> Voice<'a> {
    /// The belief that leads to a wrong answer at this step; one that is held at this very step comes first.
    pub(super) fn belief_behind(&self, ix: InfluenceIx, answer: WrongAnswer) -> Option<&'a Misconception> {
        self.beliefs(ix).into_iter().find(|wrong| self.leads_to(ix, wrong) == Some(answer))
    }

    /// The belief that most likely stands behind a wrong account of this step.
    pub(super) fn likeliest_belief(&self, ix: InfluenceIx) -> Option<&'a Misconception> {
        let beliefs = self.beliefs(ix);
        let leads = beliefs.iter().find(|wrong| self.leads_to(ix, wrong).is_some());
        // One with a sign that is right here would mislead.
        leads.or_else(|| beliefs.iter().find(|wrong| wrong.gives.is_none())).copied()
    }

    /// What is wrongly believed at this step.
    fn beliefs(&self, ix: InfluenceIx) -> Vec<&'a Misconception> {
        let all = &self.graph.principle(self.graph.influence(ix).principle).misconceptions;
        let own = all.iter().filter(|wrong| wrong.at.contains(&ix));
        own.chain(all.iter().filter(|wrong| wrong.at.is_empty())).collect()
    }

    /// Where a belief leads at this step; `None` where it says nothing of a direction, or the right one.
    fn leads_to(&self, ix: InfluenceIx, wrong: &Misconception) -> Option<WrongAnswer> {
        let rises = match self.graph.influence(ix).sign {
            DeclaredSign::Plus => true,
            DeclaredSign::Minus => false,
            DeclaredSign::Turning { .. } => self.technique.settings.sides.get(&ix) == Some(&Side::Below),
        };
        match wrong.gives? {
            WrongSign::None => Some(WrongAnswer::NoChange),
            WrongSign::Flipped => Some(WrongAnswer::Opposite),
            WrongSign::Plus => (!rises).then_some(WrongAnswer::Opposite),
            WrongSign::Minus => rises.then_some(WrongAnswer::Opposite),
        }
    }
}
