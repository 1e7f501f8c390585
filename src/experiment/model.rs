//! The numerical model of a technique: which law gives each quantity, and the values that follow at one level.

use std::collections::{BTreeMap, BTreeSet};

use thiserror::Error;

use super::parameters::Parameters;
use crate::concepts::graph::{DeclaredSign, Graph, SymbolSource, Twist};
use crate::concepts::written::TwistKind;
use crate::concepts::{InfluenceIx, QuantityIx, Settings, Side, TwistAt};
use crate::laws::Value;
use crate::technique::Technique;

/// Why a model gives no value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Fault {
    /// Two laws would give the same quantity.
    #[error("two laws claim a quantity")]
    TwoLaws(QuantityIx),
    /// A law does not hold at these values, or gives one that nobody would believe.
    #[error("a quantity leaves its range")]
    OutOfRange(QuantityIx),
}

/// What gives one quantity: one law, with the influences that drive its symbols.
#[derive(Debug, Clone)]
struct Mechanism {
    to: QuantityIx,
    // INVARIANT: not empty; all use the same law.
    drivers: Vec<InfluenceIx>,
}

/// What a twist does to the numbers.
#[derive(Debug, Clone, Default)]
struct Change {
    /// These drivers see their quantity at this value, whatever it does. Without a value: as at the first level.
    frozen: BTreeMap<InfluenceIx, Option<f64>>,
    /// These quantities are held at this value.
    held: BTreeMap<QuantityIx, f64>,
}

/// A technique's numerical model.
#[derive(Debug, Clone)]
pub struct Model {
    dial: QuantityIx,
    // INVARIANT: in an order in which every driver's quantity comes before what it drives.
    mechanisms: Vec<Mechanism>,
    parameters: Parameters,
    change: Change,
    /// Values at the first level of the plain run: what a thing was made in.
    first: BTreeMap<QuantityIx, f64>,
}

impl Model {
    /// The plain model.
    ///
    /// # Errors
    /// Where two laws claim a quantity, or the first level is impossible.
    pub fn new(graph: &Graph, technique: &Technique) -> Result<Self, Fault> {
        let mut model = Self::build(graph, technique, &technique.settings, None, None)?;
        let level = technique.levels.first().copied().unwrap_or(0.0);
        model.first = model.at(graph, &technique.settings, level)?;
        Ok(model)
    }

    /// The model after a twist; things are as they were made in the plain run.
    ///
    /// # Errors
    /// As [`Model::new`].
    pub fn twisted(&self, graph: &Graph, technique: &Technique, at: TwistAt) -> Result<Self, Fault> {
        let Some(twist) = at.get(graph) else { return Ok(self.clone()) };
        let settings = technique.settings.after(twist);
        let mut model = Self::build(graph, technique, &settings, Some(at), Some(&self.parameters))?;
        model.first = self.first.clone();
        model.apply(graph, at.influence, twist);
        // What nothing drives any more stays where it was, unless the twist says where it goes.
        let driven: BTreeSet<QuantityIx> = model.mechanisms.iter().map(|mechanism| mechanism.to).collect();
        for (quantity, value) in &self.first {
            if *quantity != model.dial && !driven.contains(quantity) {
                model.change.held.entry(*quantity).or_insert(*value);
            }
        }
        Ok(model)
    }

    /// The model with one quantity held at a value, whatever drives it.
    #[must_use]
    pub fn with(&self, quantity: QuantityIx, value: f64) -> Self {
        let mut model = self.clone();
        model.change.held.insert(quantity, value);
        model
    }

    /// The values drawn and set.
    pub fn parameters(&self) -> &Parameters {
        &self.parameters
    }

    fn build(
        graph: &Graph,
        technique: &Technique,
        settings: &Settings,
        twist: Option<TwistAt>,
        drawn: Option<&Parameters>,
    ) -> Result<Self, Fault> {
        let dial = graph.act(technique.act).dial;
        let readout = graph.rig(technique.rig).readout;
        // Where a twist holds a quantity at a new value, what follows from that value must be computed too.
        let moved = twist.map(|at| graph.influence(at.influence).to);
        let starts: Vec<QuantityIx> = [Some(dial), moved].into_iter().flatten().collect();
        let mechanisms = mechanisms(graph, settings, &starts, readout)?;
        let mut parameters = drawn.cloned().unwrap_or_default();
        for influence in mechanisms.iter().flat_map(|mechanism| &mechanism.drivers) {
            parameters.draw(graph, *influence, technique.seed, technique.attempt);
        }
        Ok(Self { dial, mechanisms, parameters, change: Change::default(), first: BTreeMap::new() })
    }

    fn apply(&mut self, graph: &Graph, at: InfluenceIx, twist: &Twist) {
        for (place, value) in &twist.set {
            self.parameters.set(at, *place, *value);
        }
        let to = graph.influence(at).to;
        match (twist.kind, twist.held_at) {
            (TwistKind::Cut, held) if twist.set.is_empty() => {
                self.change.frozen.insert(at, held);
            }
            (TwistKind::Bypass, Some(value)) => {
                self.change.held.insert(to, value);
            }
            // Only where no law takes over.
            (TwistKind::RemoveSetting | TwistKind::RateOrEndPoint, Some(value))
                if !self.mechanisms.iter().any(|mechanism| mechanism.to == to) =>
            {
                self.change.held.insert(to, value);
            }
            _ => {}
        }
    }

    /// Every affected quantity at one level of the treatment.
    ///
    /// # Errors
    /// The quantity that leaves its range.
    pub fn at(&self, graph: &Graph, settings: &Settings, level: f64) -> Result<BTreeMap<QuantityIx, f64>, Fault> {
        let mut values = self.change.held.clone();
        values.insert(self.dial, level);
        for mechanism in &self.mechanisms {
            if self.change.held.contains_key(&mechanism.to) {
                continue;
            }
            let value = self.evaluate(graph, settings, mechanism, &values)?;
            if exceeds(graph, mechanism, value, &values) {
                return Err(Fault::OutOfRange(mechanism.to));
            }
            values.insert(mechanism.to, value);
        }
        Ok(values)
    }

    fn evaluate(
        &self,
        graph: &Graph,
        settings: &Settings,
        mechanism: &Mechanism,
        values: &BTreeMap<QuantityIx, f64>,
    ) -> Result<f64, Fault> {
        let fault = || Fault::OutOfRange(mechanism.to);
        let mut inputs: Vec<Option<Value>> = Vec::new();
        for ix in &mechanism.drivers {
            let influence = graph.influence(*ix);
            let seen = match self.change.frozen.get(ix) {
                Some(Some(held)) => *held,
                Some(None) => *self.first.get(&influence.from).ok_or_else(fault)?,
                None => {
                    let value = *values.get(&influence.from).ok_or_else(fault)?;
                    within(value, influence.over, side_range(graph, settings, *ix)).ok_or_else(fault)?
                }
            };
            let from = graph.quantity(influence.from);
            let seen = from.unit.convert(seen, &influence.law.input_unit).map_err(|_| fault())?;
            inputs.resize(influence.law.sources.len(), None);
            for (place, source) in influence.law.sources.iter().enumerate() {
                let value = match source {
                    SymbolSource::Driven => Some(Value::Number(seen)),
                    SymbolSource::AtFirst => {
                        let first = self
                            .first
                            .get(&influence.from)
                            .map_or(Ok(seen), |first| from.unit.convert(*first, &influence.law.input_unit));
                        Some(Value::Number(first.map_err(|_| fault())?))
                    }
                    _ => self.parameters.get(*ix, place).cloned(),
                };
                let place = inputs.get_mut(place).ok_or_else(fault)?;
                if *source == SymbolSource::Driven || place.is_none() {
                    *place = value;
                }
            }
        }
        let law = mechanism.drivers.first().map(|ix| &graph.influence(*ix).law).ok_or_else(fault)?;
        let inputs: Option<Vec<Value>> = inputs.into_iter().collect();
        let value = law.law.value(&inputs.ok_or_else(fault)?).map_err(|_| fault())?;
        let to = graph.quantity(mechanism.to);
        let value = law.output_unit.convert(value, &to.unit).map_err(|_| fault())?;
        within(value, to.range, None).ok_or_else(fault)
    }
}

/// Whether a value lies above what another quantity allows.
fn exceeds(graph: &Graph, mechanism: &Mechanism, value: f64, values: &BTreeMap<QuantityIx, f64>) -> bool {
    let unit = &graph.quantity(mechanism.to).unit;
    let limits = mechanism.drivers.iter().filter_map(|ix| graph.influence(*ix).limit);
    let mut most = limits.filter_map(|(of, share)| {
        let whole = graph.quantity(of).unit.convert(*values.get(&of)?, unit).ok()?;
        Some(share * whole)
    });
    most.any(|most| value > most)
}

/// The value, if it lies in both ranges.
fn within(value: f64, range: (f64, f64), narrower: Option<(f64, f64)>) -> Option<f64> {
    let inside = |(low, high): (f64, f64)| value >= low && value <= high;
    (inside(range) && narrower.is_none_or(inside)).then_some(value)
}

/// The range of a turning influence's quantity on the side in use.
fn side_range(graph: &Graph, settings: &Settings, ix: InfluenceIx) -> Option<(f64, f64)> {
    match (graph.influence(ix).sign, settings.sides.get(&ix)) {
        (DeclaredSign::Turning { at }, Some(Side::Below)) => Some((f64::NEG_INFINITY, at)),
        (DeclaredSign::Turning { at }, Some(Side::Above)) => Some((at, f64::INFINITY)),
        _ => None,
    }
}

/// The laws at work between the dial and the readout, in the order in which they can be computed.
fn mechanisms(
    graph: &Graph,
    settings: &Settings,
    starts: &[QuantityIx],
    readout: QuantityIx,
) -> Result<Vec<Mechanism>, Fault> {
    let active: Vec<InfluenceIx> =
        graph.influences().filter(|(_, influence)| settings.allow(influence)).map(|(ix, _)| ix).collect();
    let ahead = closure(&active, starts, |ix| (graph.influence(ix).from, graph.influence(ix).to));
    let behind = closure(&active, &[readout], |ix| (graph.influence(ix).to, graph.influence(ix).from));
    let mut left: Vec<InfluenceIx> = active
        .into_iter()
        .filter(|ix| ahead.contains(&graph.influence(*ix).from) && behind.contains(&graph.influence(*ix).to))
        .collect();
    let mut ordered = Vec::new();
    let driven: BTreeSet<QuantityIx> = left.iter().map(|ix| graph.influence(*ix).to).collect();
    let mut known: BTreeSet<QuantityIx> = starts.iter().copied().filter(|start| !driven.contains(start)).collect();
    while !left.is_empty() {
        let ready = |to: QuantityIx| {
            let mut entering = left.iter().filter(|ix| graph.influence(**ix).to == to);
            entering.all(|ix| known.contains(&graph.influence(*ix).from))
        };
        // A loop leaves nothing ready: such a technique is not composed, and has no numbers here.
        let Some(to) = left.iter().map(|ix| graph.influence(*ix).to).find(|to| ready(*to)) else {
            return Err(Fault::TwoLaws(readout));
        };
        let (drivers, rest): (Vec<_>, Vec<_>) = left.into_iter().partition(|ix| graph.influence(*ix).to == to);
        if !one_law(graph, &drivers) {
            return Err(Fault::TwoLaws(to));
        }
        ordered.push(Mechanism { to, drivers });
        known.insert(to);
        left = rest;
    }
    Ok(ordered)
}

/// Whether these influences use one law, each by a symbol of its own.
fn one_law(graph: &Graph, drivers: &[InfluenceIx]) -> bool {
    let laws: BTreeSet<&str> = drivers.iter().map(|ix| graph.influence(*ix).law.law.id).collect();
    let places: BTreeSet<usize> = drivers.iter().map(|ix| graph.influence(*ix).law.input).collect();
    laws.len() <= 1 && places.len() == drivers.len()
}

fn closure(
    influences: &[InfluenceIx],
    starts: &[QuantityIx],
    ends: impl Fn(InfluenceIx) -> (QuantityIx, QuantityIx),
) -> BTreeSet<QuantityIx> {
    let mut met: BTreeSet<QuantityIx> = starts.iter().copied().collect();
    let mut open = starts.to_vec();
    while let Some(here) = open.pop() {
        for ix in influences {
            let (near, far) = ends(*ix);
            if near == here && met.insert(far) {
                open.push(far);
            }
        }
    }
    met
}
