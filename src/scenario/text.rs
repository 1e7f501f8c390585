//! The scenario's one voice: fragments filled with this technique's words and numbers.
//!
//! Fragments are written by hand in the concept files; Tera fills their placeholders. Which wording is used is drawn
//! once, from the scenario's own stream.

use std::collections::BTreeMap;

use tera::{Context, Tera};

use super::mention::{Mentions, Noun, many, one, tidy};
use crate::concepts::graph::{Graph, Quantity, SymbolSource, Twist};
use crate::concepts::{InfluenceIx, QuantityIx, Side};
use crate::experiment::{Data, Parameters};
use crate::laws::{UnitRule, Value};
use crate::quantity::significant::{decimals, shortest};
use crate::quantity::{Unit, in_words};
use crate::reasoning::Direction;
use crate::technique::Technique;

/// Significant figures of a number told in the text.
const TOLD_FIGURES: usize = 4;

/// What fills the fragments of one scenario.
pub(super) struct Voice<'a> {
    pub(super) graph: &'a Graph,
    pub(super) technique: &'a Technique,
    pub(super) data: &'a Data,
    nouns: Vec<Noun>,
    tera: Tera,
    base: Context,
}

impl<'a> Voice<'a> {
    pub(super) fn new(graph: &'a Graph, technique: &'a Technique, data: &'a Data) -> Self {
        let nouns: Vec<Noun> = technique
            .names
            .iter()
            .filter_map(|(ix, number)| {
                let entity = graph.entity(*ix);
                let name = entity.names.get(*number)?;
                Some(Noun {
                    key: key(&entity.id),
                    intro: entity.intro.clone(),
                    one: name.one.clone(),
                    many: name.many.clone(),
                    coined: name.coined,
                })
            })
            .collect();
        let mut voice = Self { graph, technique, data, nouns, tera: Tera::default(), base: Context::new() };
        voice.base = voice.common();
        voice
    }

    fn common(&self) -> Context {
        let mut context = Context::new();
        for noun in &self.nouns {
            let forms: BTreeMap<&str, String> = BTreeMap::from([("many", many(&noun.key)), ("one", one(&noun.key))]);
            context.insert(noun.key.clone(), &forms);
        }
        let rig = self.graph.rig(self.technique.rig);
        context.insert("liquid", self.liquid());
        context.insert("container", &rig.container.one);
        context.insert("containers", &rig.container.many);
        context.insert("n", number_word(self.technique.replicates));
        context.insert("group", &self.graph.context(self.technique.context).group);
        let levels = self.levels();
        let unit = &self.dial().unit;
        context.insert("first", &self.level(0));
        context.insert("reference", &self.level(0));
        context.insert("last", &self.level(levels.len().saturating_sub(1)));
        context.insert("levels", &unit.attach(&list(&levels)));
        context.insert("unit", unit.display());
        context.insert("wait", &self.wait());
        let instrument = self.readout().reading.as_ref().map_or("", |reading| reading.instrument.as_str());
        context.insert("instrument", instrument);
        context
    }

    /// What the liquid is called that the path leaves to be read.
    pub(super) fn liquid(&self) -> &'a str {
        let mut steps = self.technique.path.steps().iter().rev();
        steps.find_map(|step| self.graph.influence(*step).liquid.as_deref()).unwrap_or("liquid")
    }

    pub(super) fn dial(&self) -> &'a Quantity {
        self.graph.quantity(self.graph.act(self.technique.act).dial)
    }

    pub(super) fn readout(&self) -> &'a Quantity {
        self.graph.quantity(self.graph.rig(self.technique.rig).readout)
    }

    /// The levels as printed, with one number of decimals.
    pub(super) fn levels(&self) -> Vec<String> {
        let places = self.technique.levels.iter().map(|level| places(*level)).max().unwrap_or(0);
        self.technique.levels.iter().map(|level| decimals(*level, places)).collect()
    }

    /// A level with its unit.
    pub(super) fn level(&self, number: usize) -> String {
        let levels = self.levels();
        let level = levels.get(number).map_or("", String::as_str);
        // A bare number would not be understood: the scale is named with it.
        if self.dial().unit.code() == "[pH]" { format!("pH {level}") } else { self.dial().unit.attach(level) }
    }

    /// What the treatment's calibration would tell, up to the word "sample".
    pub(super) fn sought(&self) -> String {
        self.later(&self.graph.act(self.technique.act).sought, None)
    }

    /// Where in the series a reading belongs: "at 4 mmol/L", "after a soak of 5 min".
    pub(super) fn at(&self, number: usize) -> String {
        match &self.dial().spell {
            Some(spell) => format!("after {spell} of {}", self.level(number)),
            None => format!("at {}", self.level(number)),
        }
    }

    /// From one level to another: "from 4 mmol/L to 8 mmol/L", "from a soak of 5 min to one of 45 min".
    pub(super) fn span(&self, from: usize, to: usize) -> String {
        match &self.dial().spell {
            Some(spell) => format!("from {spell} of {} to one of {}", self.level(from), self.level(to)),
            None => format!("from {} to {}", self.level(from), self.level(to)),
        }
    }

    /// How long the bench waits for earlier steps to settle, in words.
    fn wait(&self) -> String {
        let settling = self.technique.path.steps().iter().map(|step| self.graph.influence(*step));
        let longest = settling.filter(|step| !step.builds_up).map(|step| step.time_s).fold(60.0, f64::max);
        // Five time constants leave less than one per cent to go.
        let minutes = libm::ceil(5.0 * longest / 60.0);
        let nice = [5.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0];
        let minutes = nice.iter().copied().find(|choice| *choice >= minutes).unwrap_or(minutes);
        format!("{minutes} minutes")
    }

    /// A fragment with its placeholders filled; marks are left for `resolve`.
    pub(super) fn fill(&self, text: &str, influence: Option<InfluenceIx>, twist: Option<&Twist>) -> String {
        if !text.contains("{{") && !text.contains("{%") {
            return text.to_owned();
        }
        // The concept check has proved that every placeholder exists; what it missed shows in proofreading.
        let filled = |context: &Context| self.tera.render_str(text, context, false).unwrap_or_else(|_| text.to_owned());
        let Some(ix) = influence else { return filled(&self.base) };
        let mut context = self.base.clone();
        context.insert("p", &self.told(ix, &self.data.plain.parameters));
        if let Some(twist) = twist {
            context.insert("t", &self.set(ix, twist));
        }
        filled(&context)
    }

    /// A fragment for the text after the introduction.
    pub(super) fn later(&self, text: &str, influence: Option<InfluenceIx>) -> String {
        self.plain(&self.fill(text, influence, None))
    }

    /// Marks resolved to later mentions; no capital forced.
    pub(super) fn plain(&self, filled: &str) -> String {
        Mentions::known(&self.nouns).resolve(filled, &self.nouns)
    }

    /// Marks resolved in reading order over several paragraphs, tidied.
    pub(super) fn introduce(&self, paragraphs: &[String]) -> Vec<String> {
        let mut mentions = Mentions::default();
        paragraphs.iter().map(|text| tidy(&mentions.resolve(text, &self.nouns))).collect()
    }

    /// How a quantity is called in running text.
    pub(super) fn the(&self, quantity: QuantityIx) -> String {
        self.later(self.graph.quantity(quantity).the_where(&self.technique.settings.holds), None)
    }

    /// The clause for a step when its cause goes this way.
    pub(super) fn clause(&self, ix: InfluenceIx, cause: Direction) -> String {
        let influence = self.graph.influence(ix);
        match cause {
            Direction::Rises => self.later(self.on_side(ix, &influence.up), Some(ix)),
            Direction::Falls => self.later(self.on_side(ix, &influence.down), Some(ix)),
            Direction::Unchanged => {
                format!("{} does not change, so {} does not either", self.the(influence.from), self.the(influence.to))
            }
        }
    }

    /// What the cause of a step is here.
    pub(super) fn role_answer(&self, ix: InfluenceIx) -> String {
        self.later(self.on_side(ix, &self.graph.influence(ix).role.answer), Some(ix))
    }

    /// Of a clause with two halves, for below and above a turning point, the half that holds here.
    fn on_side<'t>(&self, ix: InfluenceIx, clause: &'t str) -> &'t str {
        match (clause.split_once(" // "), self.technique.settings.sides.get(&ix)) {
            (Some((below, _)), Some(Side::Below)) => below,
            (Some((_, above)), Some(Side::Above)) => above,
            _ => clause,
        }
    }

    /// Values of an influence's symbols, as told.
    fn told(&self, ix: InfluenceIx, parameters: &Parameters) -> BTreeMap<&'static str, String> {
        let law = &self.graph.influence(ix).law;
        let symbols = law.law.inputs.iter().enumerate();
        symbols
            .filter_map(|(place, symbol)| {
                let value = match law.sources.get(place)? {
                    SymbolSource::AtFirst => Value::Number(self.first_value(ix)?),
                    _ => parameters.get(ix, place)?.clone(),
                };
                Some((symbol.id, self.show_told(ix, place, &value)))
            })
            .collect()
    }

    fn set(&self, ix: InfluenceIx, twist: &Twist) -> BTreeMap<&'static str, String> {
        let law = &self.graph.influence(ix).law;
        let set = twist.set.iter();
        set.filter_map(|(place, value)| {
            Some((law.law.inputs.get(*place)?.id, self.show(ix, *place, &Value::Number(*value))))
        })
        .collect()
    }

    fn first_value(&self, ix: InfluenceIx) -> Option<f64> {
        let influence = self.graph.influence(ix);
        let first = self.data.plain.values.first()?;
        let (_, value) = first.iter().find(|(quantity, _)| *quantity == influence.from)?;
        self.graph.quantity(influence.from).unit.convert(*value, &influence.law.input_unit).ok()
    }

    /// A value of a symbol with its unit, as the law reads it.
    pub(super) fn show(&self, ix: InfluenceIx, place: usize, value: &Value) -> String {
        shown(value, symbol_unit(self.graph, ix, place))
    }

    /// The same as the text tells it: long times in minutes.
    fn show_told(&self, ix: InfluenceIx, place: usize, value: &Value) -> String {
        match value {
            Value::Number(number) => {
                let (number, unit) = in_minutes(*number, symbol_unit(self.graph, ix, place));
                shown(&Value::Number(number), unit)
            }
            _ => shown(value, None),
        }
    }
}

/// A value with its unit, where it has one.
fn shown(value: &Value, unit: Option<Unit>) -> String {
    match value {
        Value::Text(letters) => letters.clone(),
        Value::List(values) => list(&values.iter().map(|v| shortest(*v, TOLD_FIGURES)).collect::<Vec<_>>()),
        Value::Number(number) => {
            let shown = shortest(*number, TOLD_FIGURES);
            unit.map_or(shown.clone(), |unit| unit.attach(&shown))
        }
    }
}

/// The unit in which a symbol of an influence's law is read.
pub(super) fn symbol_unit(graph: &Graph, ix: InfluenceIx, place: usize) -> Option<Unit> {
    let law = &graph.influence(ix).law;
    let symbol = law.law.inputs.get(place)?;
    if place == law.input {
        return Some(law.input_unit.clone());
    }
    if let UnitRule::Ucum(code) = symbol.unit {
        return Unit::parse(code).ok();
    }
    let group = |id: &'static str, rule: UnitRule| match rule {
        UnitRule::Like(other) => other,
        UnitRule::Any | UnitRule::Ucum(_) => id,
    };
    let wanted = group(symbol.id, symbol.unit);
    let output = law.law.outputs.first()?;
    if group(output.id, output.unit) == wanted {
        return Some(law.output_unit.clone());
    }
    let own = law.law.inputs.get(law.input)?;
    if group(own.id, own.unit) == wanted {
        return Some(law.input_unit.clone());
    }
    // Another arrow by the same law may drive a symbol of this group: one into the same quantity, or else any.
    let to = graph.influence(ix).to;
    let drives = |other: &&crate::concepts::graph::Influence| {
        let driven = other.law.law.inputs.get(other.law.input);
        other.law.law.id == law.law.id && driven.is_some_and(|driven| group(driven.id, driven.unit) == wanted)
    };
    let all: Vec<_> = graph.influences().map(|(_, influence)| influence).collect();
    let near = all.iter().filter(|other| other.to == to).copied().find(|other| drives(other));
    near.or_else(|| all.iter().copied().find(|other| drives(other))).map(|other| other.law.input_unit.clone())
}

/// Long times in seconds are told in minutes.
fn in_minutes(value: f64, unit: Option<Unit>) -> (f64, Option<Unit>) {
    match (unit, Unit::parse("min")) {
        (Some(unit), Ok(minutes)) if unit.code() == "s" && value >= 120.0 => {
            unit.convert(value, &minutes).map_or((value, Some(unit)), |value| (value, Some(minutes)))
        }
        (unit, _) => (value, unit),
    }
}

/// The placeholder key of an id.
pub(super) fn key(id: &str) -> String {
    id.replace('-', "_")
}

/// Decimals that a level needs.
pub(super) fn places(value: f64) -> usize {
    let shown = shortest(value, 6);
    shown.split_once('.').map_or(0, |(_, after)| after.len())
}

/// "a, b and c".
pub(super) fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [only] => only.clone(),
        [start @ .., last] => format!("{} and {last}", start.join(", ")),
    }
}

/// Small numbers in words.
pub(super) fn number_word(n: u32) -> &'static str {
    if n == 0 { "no" } else { in_words::word(n).unwrap_or("many") }
}

/// First letter in upper case; "pH" stays.
pub(super) fn capital(text: &str) -> String {
    if text.starts_with("pH") {
        return text.to_owned();
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
