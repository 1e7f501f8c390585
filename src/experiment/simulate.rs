//! Running the model at every level, plain and twisted, and reading it.

use super::model::{Fault, Model};
use super::noise::{Replicates, spread};
use super::parameters::Parameters;
use crate::concepts::graph::{Graph, Reading};
use crate::concepts::{QuantityIx, Settings, TwistAt};
use crate::laws::{self, Value};
use crate::technique::{Refusal, Technique};

/// Points of a curve between the first and the last level.
const CURVE_POINTS: u32 = 60;
/// A visible change is at least this many standard errors ...
const VISIBLE_SEM: f64 = 6.0;
/// ... and this many steps of the instrument.
const VISIBLE_STEPS: f64 = 5.0;
/// ... and this share of the larger reading: a smaller change makes no point in a class.
const VISIBLE_SHARE: f64 = 0.1;
/// Every reading lies this many of the instrument's standard deviations above nothing: below, bars reach past zero and
/// the cut at zero would bend the means.
const FLOOR_SDS: f64 = 2.0;
/// A printed mean lies no further than this many of its true standard errors from the model, and a step of the instrument:
/// at most one mean in two hundred would by chance (both tails beyond 2.8; normal distribution), and would show a bend that
/// the key denies.
const FURTHEST_SEM: f64 = 2.8;
/// ... and no further than this many of the printed bars, which may be short by chance, and that step.
const FURTHEST_BARS: f64 = 2.0;
/// "Unchanged" means a noiseless change below this many standard errors.
const FLAT_SEM: f64 = 0.5;

/// What the noiseless readout does from the first level to the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trend {
    /// Goes up at every level.
    Rises,
    /// Goes down at every level.
    Falls,
    /// Changes by less than anyone could see.
    Unchanged,
}

/// One line of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Level of the treatment, in the dial's unit.
    pub level: f64,
    /// Mean of the readings, in the unit shown.
    pub mean: f64,
    /// Twice the standard error of the mean, in the unit shown; at least twice what rounding to the instrument's step leaves
    /// open, 2·step/√12.
    pub two_sem: f64,
    /// Readings.
    pub n: u32,
}

/// One run of the experiment.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The table, level by level.
    pub rows: Vec<Row>,
    /// What the means were multiplied by, so that a relative one is 100 % at the first level; 1 for others.
    pub against: f64,
    /// Noiseless readout at each level, in the unit shown.
    pub noiseless: Vec<f64>,
    /// Noiseless readout along the treatment, as (level, readout) pairs.
    pub curve: Vec<(f64, f64)>,
    /// What it does.
    pub trend: Trend,
    /// Values of every quantity at each level, noiseless, in the quantities' own units.
    pub values: Vec<Vec<(QuantityIx, f64)>>,
    /// The values of the laws' symbols.
    pub parameters: Parameters,
}

/// The data of a scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Data {
    /// The run that is printed.
    pub plain: Run,
    /// The run of the twist, where there is one.
    pub twisted: Option<Run>,
    /// A sample of unknown level, read like the others.
    pub unknown: Unknown,
    /// Single things counted at two levels, where a share on the way is of things that can be.
    pub counts: Option<Counts>,
    /// What samples of known size read at the first level: (size, noiseless reading in the unit shown). Empty where the
    /// readout has no such standard, or the path does not lead through that size.
    pub standard: Vec<(f64, f64)>,
}

/// A reading whose level is to be found from the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unknown {
    /// It lies between the level of this number and the next.
    pub after: usize,
    /// Its true level.
    pub level: f64,
    /// Its noiseless reading, in the unit shown.
    pub reading: f64,
}

/// Single things counted at two neighbouring levels, and the test of whether their shares differ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counts {
    /// The share that they make up.
    pub quantity: QuantityIx,
    /// Things looked at, at each of the two levels.
    pub n: u32,
    /// Number of the lower level; the other is the next one.
    pub at: usize,
    /// Those that make up the share, at the lower level.
    pub first: u32,
    /// The same at the next level.
    pub second: u32,
    /// Expected at both, if the shares were the same.
    pub expected: f64,
    /// Pearson's statistic of the four counts.
    pub chi_square: f64,
}

/// Runs a technique.
///
/// # Errors
/// Why its numbers would not do.
pub fn simulate(graph: &Graph, technique: &Technique) -> Result<Data, Refusal> {
    let model = Model::new(graph, technique).map_err(refusal)?;
    let reading = reading(graph, technique);
    let scale = scale(graph, technique, &model, reading)?;
    let label = format!("noise/{}", technique.attempt);
    let plain = run(graph, technique, &model, &technique.settings, scale, (&label, None))?;
    if plain.trend == Trend::Unchanged {
        return Err(Refusal::NotVisible);
    }
    let unknown = unknown(graph, technique, &model, scale, &plain)?;
    let counts = counts(graph, technique, &plain);
    let standard = standard(graph, technique, &model, scale);
    let Some(at) = technique.twist else { return Ok(Data { plain, twisted: None, unknown, counts, standard }) };
    let model = model.twisted(graph, technique, at).map_err(refusal)?;
    let settings = at.get(graph).map_or_else(Settings::default, |twist| technique.settings.after(twist));
    if is_overtaken(graph, at, &plain) {
        return Err(Refusal::TwistDoesNotShow);
    }
    let label = format!("noise/{}/twisted", technique.attempt);
    // A twist that leaves the ranges or shows in no clear way is no question.
    let twisted = run(graph, technique, &model, &settings, scale, (&label, Some(plain.against))).map_err(
        |refusal| match refusal {
            Refusal::NotVisible | Refusal::NotOneDirection => Refusal::TwistDoesNotShow,
            other => other,
        },
    )?;
    Ok(Data { plain, twisted: Some(twisted), unknown, counts, standard })
}

/// A twist that should limit a step holds it at most at one part in this of what it is anywhere in the plain run: nearer to it,
/// what it limits would still follow the step.
const LIMIT_MARGIN: f64 = 1.5;

/// Whether a twist that should limit a step does not stay well below what it is somewhere in the plain run.
fn is_overtaken(graph: &Graph, at: TwistAt, plain: &Run) -> bool {
    let Some(held) = at.get(graph).filter(|twist| twist.limiting).and_then(|twist| twist.held_at) else { return false };
    let to = graph.influence(at.influence).to;
    plain.values.iter().flatten().any(|(quantity, value)| *quantity == to && *value <= LIMIT_MARGIN * held)
}

/// What the members of the readout's standard read beside the samples of the first level.
fn standard(graph: &Graph, technique: &Technique, model: &Model, scale: f64) -> Vec<(f64, f64)> {
    let Some((of, sizes)) = reading(graph, technique).and_then(|reading| reading.standard.as_ref()) else {
        return Vec::new();
    };
    let readout = graph.rig(technique.rig).readout;
    let dial = graph.act(technique.act).dial;
    let first = technique.levels.first().copied().unwrap_or(0.0);
    if !technique.path.quantities(graph).contains(of) {
        return Vec::new();
    }
    let read = |size: &f64| {
        let (model, level) = if *of == dial { (model.clone(), *size) } else { (model.with(*of, *size), first) };
        let values = model.at(graph, &technique.settings, level).ok()?;
        Some((*size, scale * values.get(&readout)?))
    };
    sizes.iter().filter_map(read).collect()
}

/// Standard deviations that a count lies from the model's share at most: one farther off would seem to contradict the table.
const FARTHEST_COUNT: f64 = 1.3;
/// Draws of a count before a pair of levels is given up.
const COUNT_DRAWS: usize = 20;

/// Looks at single things at two neighbouring levels; `None` where no share on the way can be counted, or where the test
/// would not be allowed (an expected count below five) at any two.
fn counts(graph: &Graph, technique: &Technique, plain: &Run) -> Option<Counts> {
    let path = technique.path.quantities(graph);
    let quantity = path.into_iter().find(|ix| graph.quantity(*ix).counted.is_some())?;
    let mut stream = technique.seed.stream(&format!("counts/{}", technique.attempt));
    let n = 40 + 10 * u32::try_from(stream.below(7)).ok()?;
    let mut pairs: Vec<usize> = (0..plain.values.len().saturating_sub(1)).collect();
    stream.shuffle(&mut pairs);
    let mut seen = |at: usize| {
        let (_, share) = plain.values.get(at)?.iter().find(|(ix, _)| *ix == quantity)?;
        let spread = libm::sqrt(f64::from(n) * share * (1.0 - share));
        let fits = |count: &u32| (f64::from(*count) - f64::from(n) * share).abs() <= FARTHEST_COUNT * spread;
        let mut draw = || u32::try_from((0..n).filter(|_| stream.unit() < *share).count()).ok();
        (0..COUNT_DRAWS).find_map(|_| draw().filter(fits))
    };
    pairs.into_iter().find_map(|at| compared(quantity, at, n, (seen(at)?, seen(at + 1)?)))
}

/// Two counts of `n` each with their chi-square, if the test is allowed.
fn compared(quantity: QuantityIx, at: usize, n: u32, (first, second): (u32, u32)) -> Option<Counts> {
    let expected = f64::from(first + second) / 2.0;
    let other = f64::from(n) - expected;
    // Two equal counts leave nothing to test.
    if expected < 5.0 || other < 5.0 || first == second {
        return None;
    }
    let observed = [first, n - first, second, n - second].map(f64::from).to_vec();
    let inputs = [Value::List(observed), Value::List(vec![expected, other, expected, other]), Value::Number(2.0)];
    let chi_square = laws::find("chi-square")?.value(&inputs).ok()?;
    Some(Counts { quantity, n, at, first, second, expected, chi_square })
}

/// A level somewhere in the middle of two printed ones, and what it reads.
fn unknown(graph: &Graph, technique: &Technique, model: &Model, scale: f64, plain: &Run) -> Result<Unknown, Refusal> {
    let mut stream = technique.seed.stream(&format!("unknown/{}", technique.attempt));
    let pairs: Vec<_> = plain.rows.iter().zip(plain.rows.iter().skip(1)).enumerate().collect();
    // Of all gaps the one that shows best, so that a reading between two means is not lost in their bars.
    let gap = |(_, (one, next)): &(usize, (&Row, &Row))| {
        (next.mean - one.mean).abs() / (one.two_sem + next.two_sem).max(f64::MIN_POSITIVE)
    };
    let best = pairs.iter().max_by(|a, b| gap(a).total_cmp(&gap(b))).ok_or(Refusal::NotVisible)?;
    let (after, (one, next)) = best;
    let level = one.level + (next.level - one.level) * (0.35 + 0.3 * stream.unit());
    let values = model.at(graph, &technique.settings, level).map_err(refusal)?;
    let reading = plain.against * scale * values.get(&graph.rig(technique.rig).readout).copied().unwrap_or(0.0);
    Ok(Unknown { after: *after, level, reading })
}

fn refusal(fault: Fault) -> Refusal {
    match fault {
        Fault::TwoLaws(_) => Refusal::TwoLaws,
        Fault::OutOfRange(_) => Refusal::OutOfRange,
    }
}

fn reading<'a>(graph: &'a Graph, technique: &Technique) -> Option<&'a Reading> {
    graph.quantity(graph.rig(technique.rig).readout).reading.as_ref()
}

/// What turns the quantity's own unit into the unit shown: 1, or 100 over its value at the first level.
fn scale(graph: &Graph, technique: &Technique, model: &Model, reading: Option<&Reading>) -> Result<f64, Refusal> {
    if reading.is_none_or(|reading| reading.relative_name.is_none()) {
        return Ok(1.0);
    }
    let level = technique.levels.first().copied().unwrap_or(0.0);
    let values = model.at(graph, &technique.settings, level).map_err(refusal)?;
    let first = values.get(&graph.rig(technique.rig).readout).copied().unwrap_or(0.0);
    if first > 0.0 { Ok(100.0 / first) } else { Err(Refusal::OutOfRange) }
}

fn run(
    graph: &Graph,
    technique: &Technique,
    model: &Model,
    settings: &Settings,
    scale: f64,
    (label, against): (&str, Option<f64>),
) -> Result<Run, Refusal> {
    let readout = graph.rig(technique.rig).readout;
    let reading = reading(graph, technique).ok_or(Refusal::NotVisible)?;
    let mut values = Vec::new();
    let mut noiseless = Vec::new();
    for level in &technique.levels {
        let all = model.at(graph, settings, *level).map_err(refusal)?;
        noiseless.push(scale * all.get(&readout).copied().ok_or(Refusal::OutOfRange)?);
        values.push(Vec::from_iter(all));
    }
    let trend = trend(&noiseless, reading, technique.replicates)?;
    let mut stream = technique.seed.stream(label);
    let mut rows = Vec::new();
    for (level, value) in technique.levels.iter().zip(&noiseless) {
        let readings = Replicates::draw(*value, reading, technique.replicates, &mut stream);
        let sem = spread(*value, reading) / libm::sqrt(f64::from(technique.replicates));
        let furthest = (FURTHEST_SEM * sem).min(FURTHEST_BARS * readings.two_sem(reading.resolution));
        // Rounding alone moves a mean by up to half a step.
        if (readings.mean() - value).abs() > furthest + reading.resolution {
            return Err(Refusal::Outlier);
        }
        rows.push(Row {
            level: *level,
            mean: readings.mean(),
            two_sem: readings.two_sem(reading.resolution),
            n: technique.replicates,
        });
    }
    // A percentage of the mean at the first level is 100 there, by its definition; a twisted run is read against the same.
    let is_relative = reading.relative_name.is_some();
    let own = rows.first().map_or(1.0, |row| if is_relative && row.mean > 0.0 { 100.0 / row.mean } else { 1.0 });
    let against = against.unwrap_or(own);
    for row in &mut rows {
        row.mean *= against;
        row.two_sem *= against;
    }
    shows(&rows, trend)?;
    let curve = curve(graph, technique, model, settings, scale)?;
    Ok(Run { rows, against, noiseless, curve, trend, values, parameters: model.parameters().clone() })
}

/// What is printed must show what is keyed: the outermost means go the way of the noiseless ones, and no two means whose
/// bars stand apart go the other way.
fn shows(rows: &[Row], trend: Trend) -> Result<(), Refusal> {
    if let (Some(first), Some(last)) = (rows.first(), rows.last()) {
        let shown = last.mean - first.mean;
        let agrees = match trend {
            Trend::Rises => shown > first.two_sem.max(last.two_sem),
            Trend::Falls => -shown > first.two_sem.max(last.two_sem),
            Trend::Unchanged => shown.abs() <= first.two_sem + last.two_sem,
        };
        if !agrees {
            return Err(Refusal::NotVisible);
        }
    }
    let misleads = |one: &Row, later: &Row| {
        let shown = later.mean - one.mean;
        let against = match trend {
            Trend::Rises => -shown,
            Trend::Falls => shown,
            Trend::Unchanged => 0.0,
        };
        against > one.two_sem + later.two_sem
    };
    let mut pairs =
        rows.iter().enumerate().flat_map(|(place, one)| rows.iter().skip(place + 1).map(move |two| (one, two)));
    if pairs.any(|(one, later)| misleads(one, later)) { Err(Refusal::Outlier) } else { Ok(()) }
}

/// One direction at every level and a visible change in all, or no change that anyone could see.
fn trend(noiseless: &[f64], reading: &Reading, n: u32) -> Result<Trend, Refusal> {
    let (Some(first), Some(last)) = (noiseless.first(), noiseless.last()) else {
        return Err(Refusal::NotVisible);
    };
    let lowest = noiseless.iter().copied().fold(f64::INFINITY, f64::min);
    if lowest < FLOOR_SDS * reading.absolute_sd {
        return Err(Refusal::NotVisible);
    }
    let sem = spread(first.abs().max(last.abs()), reading) / libm::sqrt(f64::from(n));
    let highest = noiseless.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if highest - lowest < FLAT_SEM * sem.min(spread(lowest, reading) / libm::sqrt(f64::from(n))) {
        return Ok(Trend::Unchanged);
    }
    let steps = || noiseless.iter().zip(noiseless.iter().skip(1)).map(|(one, next)| next - one);
    let trend = if steps().all(|step| step > 0.0) {
        Trend::Rises
    } else if steps().all(|step| step < 0.0) {
        Trend::Falls
    } else {
        return Err(Refusal::NotOneDirection);
    };
    let change = (last - first).abs();
    let largest = first.abs().max(last.abs());
    if change >= VISIBLE_SEM * sem && change >= VISIBLE_STEPS * reading.resolution && change >= VISIBLE_SHARE * largest
    {
        Ok(trend)
    } else {
        Err(Refusal::NotVisible)
    }
}

fn curve(
    graph: &Graph,
    technique: &Technique,
    model: &Model,
    settings: &Settings,
    scale: f64,
) -> Result<Vec<(f64, f64)>, Refusal> {
    let readout = graph.rig(technique.rig).readout;
    let first = technique.levels.first().copied().unwrap_or(0.0);
    let last = technique.levels.last().copied().unwrap_or(0.0);
    let mut points = Vec::new();
    for k in 0..=CURVE_POINTS {
        let level = first + (last - first) * f64::from(k) / f64::from(CURVE_POINTS);
        let values = model.at(graph, settings, level).map_err(refusal)?;
        points.push((level, scale * values.get(&readout).copied().unwrap_or(0.0)));
    }
    Ok(points)
}
