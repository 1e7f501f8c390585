//! The second, small checker: replays a derivation and shares no code with the engine that made it.
//!
//! It spreads sets of signs over the graph until nothing changes, instead of following ways one by one.

use std::collections::{BTreeMap, BTreeSet};

use thiserror::Error;

use super::derive::{Derivation, Verdict, derive_with_unknown};
use super::sign::{Direction, Sign, StepSign};
use crate::concepts::graph::{DeclaredSign, Graph};
use crate::concepts::written::TwistKind;
use crate::concepts::{InfluenceIx, Path, QuantityIx, Settings, Side, TwistAt};

/// Why a derivation does not hold.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Unproved {
    /// A route is no chain from treatment to readout, or its product is wrong.
    #[error("a way of the derivation does not hold together")]
    BrokenRoute,
    /// Spreading signs over the graph gives another answer.
    #[error("the derivation says {said}, the graph says {found}")]
    OtherAnswer {
        /// The derivation's verdict.
        said: String,
        /// The checker's own.
        found: String,
    },
}

/// Replays a derivation on the graph.
///
/// # Errors
/// What does not hold.
pub fn verify(
    graph: &Graph,
    path: &Path,
    settings: &Settings,
    twist: Option<TwistAt>,
    derivation: &Derivation,
) -> Result<(), Unproved> {
    let quantities = path.quantities(graph);
    let (Some(treatment), Some(readout)) = (quantities.first(), quantities.last()) else {
        return Err(Unproved::BrokenRoute);
    };
    for route in derivation.routes() {
        let mut here = *treatment;
        let mut minus = 0;
        for step in &route.steps {
            let influence = graph.influence(step.influence);
            if influence.from != here {
                return Err(Unproved::BrokenRoute);
            }
            here = influence.to;
            minus += usize::from(step.sign == StepSign::Acts(Sign::Minus));
        }
        if here != *readout || (minus % 2 == 1) != (route.sign == Sign::Minus) {
            return Err(Unproved::BrokenRoute);
        }
    }
    if derivation.routes().is_empty() && derivation.direction().is_some_and(|said| said != Direction::Unchanged) {
        // Loop analysis found it, and has replayed its own proof: spreading signs cannot see that a loop is harmless.
        return Ok(());
    }
    let found = spread(graph, settings, twist, *treatment, *readout);
    let said = match derivation.verdict() {
        Verdict::Determined(direction) => direction.word(),
        Verdict::Rival => "rival",
        // A withheld answer claims nothing.
        Verdict::Withheld(_) => return Ok(()),
    };
    if said == found { Ok(()) } else { Err(Unproved::OtherAnswer { said: said.into(), found: found.into() }) }
}

/// Whether the prediction is lost when what this step teaches is withheld.
pub fn necessary(graph: &Graph, path: &Path, settings: &Settings, twist: Option<TwistAt>, step: InfluenceIx) -> bool {
    let without = derive_with_unknown(graph, path, settings, twist, Some(step));
    matches!(without.verdict(), Verdict::Withheld(_))
}

/// The signs with which the treatment reaches the readout, found by relaxation.
fn spread(
    graph: &Graph,
    settings: &Settings,
    twist: Option<TwistAt>,
    treatment: QuantityIx,
    readout: QuantityIx,
) -> &'static str {
    let mut signs: BTreeMap<QuantityIx, BTreeSet<bool>> = BTreeMap::from([(treatment, BTreeSet::from([true]))]);
    // A sign travels one arrow a round, and two signs a quantity are all there is: twice the quantities suffice.
    for _ in 0..=2 * graph.quantities().count() {
        for (ix, influence) in graph.influences() {
            let Some(up) = raises(graph, settings, twist, ix) else { continue };
            let arriving: Vec<bool> =
                signs.get(&influence.from).into_iter().flatten().map(|risen| *risen == up).collect();
            signs.entry(influence.to).or_default().extend(arriving);
        }
    }
    let at_readout: Vec<bool> = signs.get(&readout).into_iter().flatten().copied().collect();
    match at_readout.as_slice() {
        [] => Direction::Unchanged.word(),
        [true] => Direction::Rises.word(),
        [false] => Direction::Falls.word(),
        _ => "rival",
    }
}

/// Whether an influence raises its target after the twist; `None` where it does not act.
fn raises(graph: &Graph, settings: &Settings, twist: Option<TwistAt>, ix: InfluenceIx) -> Option<bool> {
    let influence = graph.influence(ix);
    let declared = twist.and_then(|at| Some((at.influence, at.get(graph)?)));
    let present = |setting: &crate::concepts::SettingIx| {
        let added = declared.is_some_and(|(_, twist)| twist.add.as_ref() == Some(setting));
        let removed = declared.is_some_and(|(_, twist)| twist.remove.as_ref() == Some(setting));
        added || (settings.holds.contains(setting) && !removed)
    };
    if !influence.needs.iter().all(present) || influence.excludes.iter().any(present) {
        return None;
    }
    let mut up = match influence.sign {
        DeclaredSign::Plus => true,
        DeclaredSign::Minus => false,
        DeclaredSign::Turning { .. } => *settings.sides.get(&ix)? == Side::Below,
    };
    if let Some((at, twist)) = declared {
        match twist.kind {
            TwistKind::Cut | TwistKind::Saturate if at == ix => return None,
            TwistKind::Bypass if graph.influence(at).to == influence.to => return None,
            TwistKind::Reverse if at == ix && twist.remove.is_none() && twist.add.is_none() => up = !up,
            _ => {}
        }
    }
    Some(up)
}
