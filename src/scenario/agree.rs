//! The one place where both verdicts meet: what the signs say and what the numbers do.

use thiserror::Error;

use crate::experiment::{Data, Trend};
use crate::reasoning::{Derivation, Direction, Verdict};
use crate::technique::Refusal;

/// The two engines say different things: such a scenario is never written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Disagreement {
    /// About the plain run.
    #[error("signs and numbers disagree about the plain run")]
    Plain,
    /// About the twisted run.
    #[error("signs and numbers disagree about the twisted run")]
    Twisted,
    /// The twist leaves the answer as it was.
    #[error("the twist does not change the answer")]
    SameAnswer,
}

impl From<Disagreement> for Refusal {
    fn from(disagreement: Disagreement) -> Self {
        match disagreement {
            Disagreement::Plain | Disagreement::Twisted => Self::Disagreement,
            Disagreement::SameAnswer => Self::TwistDoesNotShow,
        }
    }
}

/// The directions on which both engines agree: of the plain run, and of the twisted one.
///
/// # Errors
/// Where they do not.
pub fn agree(
    plain: &Derivation,
    twisted: Option<&Derivation>,
    data: &Data,
) -> Result<(Direction, Option<Direction>), Disagreement> {
    let shown = direction(data.plain.trend);
    if plain.direction() != Some(shown) {
        return Err(Disagreement::Plain);
    }
    let (Some(derivation), Some(run)) = (twisted, data.twisted.as_ref()) else { return Ok((shown, None)) };
    let twisted = direction(run.trend);
    match derivation.verdict() {
        Verdict::Determined(said) if *said != twisted => Err(Disagreement::Twisted),
        // Openly a matter of magnitude: the laws decide. A draw that leaves no direction is no question.
        Verdict::Rival if twisted == Direction::Unchanged => Err(Disagreement::Twisted),
        Verdict::Withheld(_) => Err(Disagreement::Twisted),
        Verdict::Determined(_) | Verdict::Rival if twisted == shown => Err(Disagreement::SameAnswer),
        Verdict::Determined(_) | Verdict::Rival => Ok((shown, Some(twisted))),
    }
}

fn direction(trend: Trend) -> Direction {
    match trend {
        Trend::Rises => Direction::Rises,
        Trend::Falls => Direction::Falls,
        Trend::Unchanged => Direction::Unchanged,
    }
}
