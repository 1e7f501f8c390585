//! The calculation part: one law of the path at one level, with every number told, and its setup.

use super::text::{Voice, capital, symbol_unit};
use crate::concepts::InfluenceIx;
use crate::concepts::graph::SymbolSource;
use crate::laws::{Kind, Law, Value};
use crate::quantity::Unit;
use crate::quantity::significant::{figures, round_decimals, round_to};
use crate::seed::Stream;

/// Laws that a class works by hand, with a calculator and a formula sheet.
const CLASSROOM: &[&str] = &[
    "absorbance",
    "acceptor-glow",
    "attenuated-light",
    "buffer-ph",
    "composite-density",
    "contained-concentration",
    "donor-left",
    "gas-volume",
    "light-response",
    "maximum-rate",
    "mean-fragment-length",
    "michaelis-menten",
    "migration-distance",
    "parallel-permeability",
    "percent-transmittance",
    "product-formed",
    "q10",
    "quenching",
    "released-concentration",
    "retained-concentration",
    "rigid-spacer",
    "share-of-total",
    "solute-potential",
    "steady-level",
    "substrate-remaining",
    "surface-to-volume",
    "total-solute",
    "volume-from-potential",
];
/// Figures to which the question gives its numbers, and the answer is keyed.
const FIGURES: usize = 3;
/// Figures that numbers of the bench have at least.
const FEWEST_FIGURES: usize = 2;
/// Rounding on the way may move an answer this far.
const TOLERANCE: f64 = 0.02;
/// The same for a pH.
const PH_TOLERANCE: f64 = 0.05;

/// A calculation, ready to ask and to mark.
pub(super) struct Calculation {
    /// Whole question, without label and points.
    pub(super) ask: String,
    /// The setup with numbers.
    pub(super) setup: String,
    /// The answer with its unit.
    pub(super) answer: String,
    /// An answer that does not earn: without its unit, or with the decimal point in the wrong place.
    pub(super) slip: String,
    /// Whether the answer has a unit.
    pub(super) has_unit: bool,
    /// Least and greatest value that earn, with unit.
    pub(super) accepted: String,
    /// The step whose law it is.
    pub(super) influence: Option<InfluenceIx>,
}

/// A calculation from one of the path's laws; where none suits a class, the change in per cent.
pub(super) fn calculation(voice: &Voice<'_>, stream: &mut Stream) -> Calculation {
    let mut steps: Vec<InfluenceIx> = voice.technique.path.steps().to_vec();
    steps.retain(|ix| CLASSROOM.contains(&voice.graph.influence(*ix).law.law.id));
    // What the table tells need not be calculated; a relative reading stands there on another scale.
    let readout = voice.graph.rig(voice.technique.rig).readout;
    let is_told = voice.readout().reading.as_ref().is_some_and(|reading| reading.relative_name.is_none());
    steps.retain(|ix| !is_told || voice.graph.influence(*ix).to != readout);
    // At a level of the dial its own value would be told twice: such a law is taken only where there is no other.
    let dial = voice.graph.act(voice.technique.act).dial;
    stream.shuffle(&mut steps);
    steps.sort_by_key(|ix| voice.graph.influence(*ix).from == dial);
    let level = 1 + stream.below(voice.technique.levels.len().saturating_sub(1));
    steps.iter().find_map(|ix| from_law(voice, *ix, level)).unwrap_or_else(|| per_cent(voice))
}

fn from_law(voice: &Voice<'_>, ix: InfluenceIx, level: usize) -> Option<Calculation> {
    let influence = voice.graph.influence(ix);
    let law = influence.law.law;
    let mut inputs = Vec::new();
    let mut told: Vec<String> = gas_constant(law.setup).into_iter().collect();
    for (place, symbol) in law.inputs.iter().enumerate() {
        let value = match influence.law.sources.get(place)? {
            SymbolSource::Driven => Value::Number(round_to(value_of(voice, ix, level)?, FIGURES)),
            SymbolSource::AtFirst => Value::Number(round_to(value_of(voice, ix, 0)?, FIGURES)),
            _ => voice.data.plain.parameters.get(ix, place)?.clone(),
        };
        if symbol.kind == Kind::Number && place != influence.law.input {
            let meaning = influence.law.meanings.get(&place);
            let meaning = meaning
                .map_or_else(|| symbol.meaning.to_owned(), |text| voice.later(&voice.fill(text, Some(ix), None), None));
            told.push(format!("{} = {} ({meaning})", symbol.letter, voice.show(ix, place, &value)));
        }
        inputs.push(value);
    }
    // A tie in decimal figures may lie just below it in binary ones: it is rounded up, as a class does.
    let value = law.value(&inputs).ok()? * (1.0 + 4.0 * f64::EPSILON);
    let unit = &influence.law.output_unit;
    let with_unit = |x: f64| unit.attach(&figures(x, FIGURES));
    let driven = law.inputs.get(influence.law.input)?;
    let cause = given(voice, ix, influence.law.input, inputs.get(influence.law.input)?);
    let sought = sought(law, unit);
    let given = if told.is_empty() { String::new() } else { format!(" Take {}.", super::text::list(&told)) };
    let ask = format!(
        "{}, {}{}, *{}*, is {cause}.{given} **Calculate** {}{sought}, using {}. Show the setup{}.",
        capital(&voice.at(level)),
        voice.the(influence.from),
        // A ratio is no volume: what it is compared with is said.
        if driven.letter.ends_with("/V0") { " relative to that at the start" } else { "" },
        driven.letter,
        voice.the(influence.to),
        law.formula,
        if unit.display().is_empty() { "" } else { ", and the answer with its unit" }
    );
    // A share of a pH means nothing: its scale has no zero.
    let is_ph = voice.graph.quantity(influence.to).unit.code() == "[pH]";
    let slack = if is_ph { PH_TOLERANCE } else { TOLERANCE * worked_out(law.id, &inputs, value) };
    let (low, high) = accepted(value, slack, is_ph);
    Some(Calculation {
        ask,
        setup: format!("{} = {}", left_side(law.formula), filled(voice, ix, law.setup, &inputs)?),
        answer: with_unit(value),
        slip: figures(
            if is_ph {
                14.0 - value
            } else if unit.display().is_empty() {
                10.0 * value
            } else {
                value
            },
            FIGURES,
        ),
        has_unit: !unit.display().is_empty(),
        accepted: format!("{} to {}", figures(low, FIGURES), with_unit(high)),
        influence: Some(ix),
    })
}

/// Least and greatest value that earn. Numbers of two figures carry no more than two: what rounding to them gives earns as
/// well, except for a pH, whose figures count from the point.
fn accepted(value: f64, slack: f64, is_ph: bool) -> (f64, f64) {
    // Two figures of a difference would say nothing of it.
    let small = slack < 0.5 * TOLERANCE * value.abs();
    let rounded = if is_ph { value } else { round_to(value, if small { FIGURES } else { FEWEST_FIGURES }) };
    (outward((value - slack).min(rounded), false, FIGURES), outward((value + slack).max(rounded), true, FIGURES))
}

/// As what the answer is asked for: a ratio is named by what it compares; any other answer by its unit.
fn sought(law: &Law, unit: &Unit) -> String {
    match (left_side(law.formula), unit.display()) {
        (ratio, _) if ratio.contains('/') => {
            law.outputs.first().map_or_else(String::new, |output| format!(" as {ratio} ({})", output.meaning))
        }
        (_, "") => String::new(),
        (_, shown) => format!(" in {shown}"),
    }
}

/// An end of a range as it is printed, rounded so that the range loses nothing.
pub(super) fn outward(end: f64, up: bool, n_figures: usize) -> f64 {
    let near = round_to(end, n_figures);
    let missing = (end - near) * if up { 1.0 } else { -1.0 };
    // What binary fractions add is no loss.
    if missing <= 1e-9 * end.abs() {
        return near;
    }
    let place = libm::floor(libm::log10(end.abs())) + 1.0;
    let step = libm::pow(10.0, place) / libm::pow(10.0, u32::try_from(n_figures).map_or(0.0, f64::from));
    round_to(near + if up { step } else { -step }, n_figures)
}

/// The value of an influence's cause at a level, in the law's unit.
fn value_of(voice: &Voice<'_>, ix: InfluenceIx, level: usize) -> Option<f64> {
    let influence = voice.graph.influence(ix);
    let values = voice.data.plain.values.get(level)?;
    let (_, value) = values.iter().find(|(quantity, _)| *quantity == influence.from)?;
    voice.graph.quantity(influence.from).unit.convert(*value, &influence.law.input_unit).ok()
}

fn left_side(formula: &str) -> &str {
    formula.split_once('=').map_or(formula, |(left, _)| left.trim())
}

/// The setup with numbers in place of symbols; `{t:K}` asks for kelvin.
fn filled(voice: &Voice<'_>, ix: InfluenceIx, setup: &str, inputs: &[Value]) -> Option<String> {
    let law = voice.graph.influence(ix).law.law;
    let mut out = setup.to_owned();
    for (place, symbol) in law.inputs.iter().enumerate() {
        let value = inputs.get(place)?;
        out = out.replace(&format!("{{{}}}", symbol.id), &given(voice, ix, place, value));
        if let Value::Number(celsius) = value {
            // 0 °C is 273.15 K (SI definition of the Celsius temperature).
            out = out.replace(&format!("{{{}:K}}", symbol.id), &format!("{} K", figures(celsius + 273.15, FIGURES)));
        }
    }
    (!out.is_empty()).then_some(out)
}

/// The size of what is worked out: of what is left of a start, that is what has gone.
fn worked_out(law: &str, inputs: &[Value], value: f64) -> f64 {
    match (law, inputs.first()) {
        ("substrate-remaining", Some(Value::Number(start))) => (start - value).abs().min(value.abs()),
        _ => value.abs(),
    }
}

/// The gas constant in the units in which a setup has it; none where it has none.
fn gas_constant(setup: &str) -> Option<String> {
    let (before, _) = setup.split_once("/(mol·K))")?;
    let (_, value) = before.rsplit_once('(')?;
    Some(format!("R = {value}/(mol·K) (gas constant)"))
}

/// A value as a calculation gives it: one that the model computed is as exact as it is shown; a level or an amount that
/// somebody chose is as it was chosen.
fn given(voice: &Voice<'_>, ix: InfluenceIx, place: usize, value: &Value) -> String {
    let influence = voice.graph.influence(ix);
    let chosen = influence.from == voice.graph.act(voice.technique.act).dial;
    let computed = matches!(influence.law.sources.get(place), Some(SymbolSource::Driven | SymbolSource::AtFirst));
    match (value, symbol_unit(voice.graph, ix, place)) {
        (Value::Number(number), Some(unit)) if computed && !chosen => unit.attach(&figures(*number, FIGURES)),
        _ => voice.show(ix, place, value),
    }
}

/// The change of the printed means from the first level to the last, in per cent of the first.
fn per_cent(voice: &Voice<'_>) -> Calculation {
    let decimals = super::write::readout_decimals(voice);
    let rows = &voice.data.plain.rows;
    let first = rows.first().map_or(1.0, |row| round_decimals(row.mean, decimals));
    let last = rows.last().map_or(1.0, |row| round_decimals(row.mean, decimals));
    let value: f64 = (last - first) / first * 100.0;
    let shown = |x: f64| crate::quantity::significant::decimals(x, decimals);
    Calculation {
        ask: format!(
            "**Calculate** the percentage change in {} {}. Show the setup.",
            voice.the(voice.graph.rig(voice.technique.rig).readout),
            voice.span(0, rows.len().saturating_sub(1))
        ),
        setup: format!("({} − {})/{} × 100 %", shown(last), shown(first), shown(first)),
        answer: format!("{} %", figures(value, FIGURES)),
        slip: figures(value, FIGURES),
        has_unit: true,
        accepted: format!(
            "{} to {} %",
            figures(value - TOLERANCE * value.abs(), FIGURES),
            figures(value + TOLERANCE * value.abs(), FIGURES)
        ),
        influence: None,
    }
}

/// The answer as a sentence of the guide.
pub(super) fn answer_line(calculation: &Calculation) -> String {
    capital(&format!("{}; accept {}", calculation.answer, calculation.accepted))
}
