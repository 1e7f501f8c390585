//! Values of the laws' symbols: fixed, or drawn once a scenario.

use std::collections::BTreeMap;

use crate::concepts::InfluenceIx;
use crate::concepts::graph::{Graph, LawUse, SymbolSource};
use crate::laws::Value;
use crate::seed::Seed;

/// The value of one symbol of one influence's law.
#[derive(Debug, Clone, PartialEq)]
pub struct Parameter {
    /// The influence.
    pub influence: InfluenceIx,
    /// Place among the law's inputs.
    pub input: usize,
    /// Its value in the law's unit.
    pub value: Value,
}

/// Every drawn or fixed value, by influence and place.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parameters(BTreeMap<(InfluenceIx, usize), Value>);

impl Parameters {
    /// Draws the values of one influence's law. Influences that lead to the same quantity by the same law are one
    /// mechanism and draw alike, since the stream is named by both. Where another arrow between the same two quantities
    /// took part before, what both laws name alike is one thing and keeps its value.
    pub(super) fn draw(&mut self, graph: &Graph, influence: InfluenceIx, seed: Seed, attempt: u32) {
        let part = graph.influence(influence);
        let to = &graph.quantity(part.to).id;
        for (place, source) in part.law.sources.iter().enumerate() {
            let symbol = part.law.law.inputs.get(place).map_or("", |input| input.id);
            let label = format!("parameter/{attempt}/{to}/{}/{symbol}", part.law.law.id);
            let kept = self.kept(graph, influence, symbol, source);
            if let Some(value) = kept.or_else(|| draw_one(source, seed, &label)) {
                self.0.insert((influence, place), value);
            }
        }
    }

    /// The value that this symbol has in another arrow between the same two quantities, if it may be drawn here too.
    fn kept(&self, graph: &Graph, influence: InfluenceIx, symbol: &str, source: &SymbolSource) -> Option<Value> {
        let SymbolSource::Free { low, high, .. } = source else { return None };
        let ends = |ix: InfluenceIx| (graph.influence(ix).from, graph.influence(ix).to);
        let twins = self.0.iter().filter(|((ix, _), _)| *ix != influence && ends(*ix) == ends(influence));
        let mut same = twins.filter(|((ix, place), _)| {
            graph.influence(*ix).law.law.inputs.get(*place).is_some_and(|input| input.id == symbol)
        });
        same.find_map(|(_, value)| match value {
            Value::Number(number) if (*low..=*high).contains(number) => Some(value.clone()),
            _ => None,
        })
    }

    /// Sets one value, as a twist does.
    pub(super) fn set(&mut self, influence: InfluenceIx, place: usize, value: f64) {
        self.0.insert((influence, place), Value::Number(value));
    }

    /// The value of this influence's law at this place.
    pub fn get(&self, influence: InfluenceIx, place: usize) -> Option<&Value> {
        self.0.get(&(influence, place))
    }

    /// The value of this influence's symbol of this name.
    pub fn named(&self, law: &LawUse, influence: InfluenceIx, symbol: &str) -> Option<&Value> {
        law.law.input(symbol).and_then(|(place, _)| self.get(influence, place))
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = Parameter> + '_ {
        self.0.iter().map(|((influence, input), value)| Parameter {
            influence: *influence,
            input: *input,
            value: value.clone(),
        })
    }
}

fn draw_one(source: &SymbolSource, seed: Seed, label: &str) -> Option<Value> {
    let mut stream = seed.stream(label);
    match source {
        SymbolSource::Driven | SymbolSource::AtFirst => None,
        SymbolSource::Fixed(value) => Some(Value::Number(*value)),
        SymbolSource::Letters(any_of) => stream.pick(any_of).cloned().map(Value::Text),
        SymbolSource::Free { low, high, step } => {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "checked: a small whole number"
            )]
            let n = libm::round((high - low) / step) as usize;
            #[expect(clippy::cast_precision_loss, reason = "a small whole number")]
            let k = stream.below(n + 1) as f64;
            // Rounded to the step's own decimals, so that 0.1 + 2·0.1 is 0.3.
            let places = libm::pow(10.0, libm::ceil(-libm::log10(step.abs())) + 1.0);
            Some(Value::Number(libm::round((low + k * step) * places) / places))
        }
    }
}
