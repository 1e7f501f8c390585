//! Questions on the data: a graph, a number, a level read off, a claim tested.

use super::super::calculation::{answer_line, calculation, outward};
use super::super::text::{Voice, capital};
use super::super::write::{readout_decimals, shown_reading};
use super::super::{Column, PartKind, Point};
use super::{Draft, Paper, empty};
use crate::concepts::InfluenceIx;
use crate::experiment::Row;
use crate::quantity::Unit;
use crate::quantity::significant::{decimals, figures, round_decimals};

/// Whether levels lie at even distances.
fn evenly_spaced(levels: &[f64]) -> bool {
    let mut gaps = levels.iter().zip(levels.iter().skip(1)).map(|(one, next)| next - one);
    let first = gaps.next().unwrap_or(0.0);
    gaps.all(|gap| (gap - first).abs() < 0.01 * first.abs())
}

/// How many times larger the last level is than the first other than zero, from which on a logarithmic axis is usual as well.
const LOGARITHMIC_FROM: f64 = 5.0;

/// Whether a class may rightly draw these levels on a logarithmic axis.
fn suits_logarithm(levels: &[f64]) -> bool {
    let mut above = levels.iter().copied().filter(|level| *level > 0.0);
    let first = above.next().unwrap_or(1.0);
    !evenly_spaced(levels) && above.next_back().is_some_and(|last| last >= LOGARITHMIC_FROM * first)
}

/// What an axis is labelled with.
fn on_axis(column: &Column) -> String {
    match column.unit.as_str() {
        "" => format!("{} (which has no unit)", column.name),
        unit => format!("{} ({unit})", column.name),
    }
}

impl Paper<'_, '_> {
    pub(super) fn construct(&mut self) -> Draft {
        let figure = self.voice.figure(self.verdicts.direction);
        // Which variable depends on which, another question asks.
        let text =
            "**Construct** an appropriately labelled graph of the data in the table, with the error bars.".to_owned();
        let is_even = evenly_spaced(&self.voice.technique.levels);
        let (kind, drawn) = if figure.bars {
            ("bars, one for each category", "(both scales are even, and there is a bar for each category)")
        } else {
            ("points joined by a line", "(both scales are even, and the points are joined by a line)")
        };
        let scales = self.other_scales(figure.bars);
        let point = |statement: String, accept: &str, reject: &str, model: &str| Point {
            statement,
            accept: vec![accept.into()],
            reject: vec![reject.into()],
            model: model.into(),
            ..empty()
        };
        let points = vec![
            point(
                format!(
                    "A title, and both axes named with their units: {} across, {} up.",
                    on_axis(&figure.x),
                    on_axis(&figure.y)
                ),
                "any title that names both quantities",
                "axes the other way round; a unit missing",
                "(the graph has a title, and both axes are named with their units)",
            ),
            point(
                format!(
                    "An even scale on both axes, chosen so that the data spread over most of the grid, and the right kind \
                     of graph: {kind}."
                ),
                &scales,
                if is_even {
                    "a scale that changes along an axis"
                } else {
                    "the levels spaced evenly as if they were names"
                },
                drawn,
            ),
            point(
                "Every mean plotted within half a small square, each with a bar of ±2 SEM.".into(),
                "bars whose ends are as near; bars left out where they would be shorter than the mark of a point, if that is said",
                "means without bars",
                "(every mean is plotted with its bar)",
            ),
        ];
        Draft {
            kind: PartKind::Construct,
            term: "construct",
            skill: "representing data",
            text,
            points,
            of_twist: false,
        }
    }

    /// What else earns for scales and kind of line.
    fn other_scales(&self, bars: bool) -> String {
        let levels = &self.voice.technique.levels;
        let axis = "an axis that starts above 0, with or without a break";
        if bars {
            return axis.to_owned();
        }
        let line = "a smooth curve, or a best-fit line that meets every bar, in place of the line";
        if !suits_logarithm(levels) {
            return format!("{axis}; {line}");
        }
        let apart = if levels.first().is_some_and(|first| *first > 0.0) { "" } else { ", with 0 set apart" };
        format!("{axis}; {line}; a logarithmic scale across, numbered as such{apart}")
    }

    pub(super) fn calculate(&mut self) -> Draft {
        let calculation = calculation(self.voice, &mut self.stream);
        let principle = calculation.influence.map(|ix| {
            let graph = self.voice.graph;
            graph.principle(graph.influence(ix).principle).id.clone()
        });
        let setup = Point {
            statement: format!("Setup: {}. Earns even if the arithmetic fails.", calculation.setup),
            model: format!("{}.", calculation.setup),
            wrong: "I put the numbers into the formula.".into(),
            accept: vec!["an equivalent setup with the same numbers".into()],
            reject: vec!["a bare answer".into(), "numbers in units that do not match".into()],
            principle: principle.clone(),
            ..empty()
        };
        // A change has a sign, and so has a potential.
        let signed = calculation.influence.is_none() || calculation.answer.starts_with('−');
        let value = Point {
            statement: format!("Answer: {}.", answer_line(&calculation)),
            model: format!("This gives {}.", calculation.answer),
            wrong: format!("The answer is {}.", calculation.slip),
            accept: vec!["a value that follows correctly from a wrong setup".into()],
            reject: [if calculation.has_unit { "no unit" } else { "a slip of the decimal point" }]
                .into_iter()
                .chain(signed.then_some("wrong sign"))
                .map(str::to_owned)
                .collect(),
            principle,
            ..empty()
        };
        Draft {
            kind: PartKind::Calculate,
            term: "calculate",
            skill: "mathematical routines",
            text: calculation.ask,
            points: vec![setup, value],
            of_twist: false,
        }
    }

    /// A level read off; none where the printed table leaves open between which two levels it lies.
    pub(super) fn estimate(&mut self) -> Option<Draft> {
        let voice = self.voice;
        let unknown = voice.data.unknown;
        // A sample's own salts would decide the pH of a mix that is hardly buffered.
        let law = |step: &InfluenceIx| voice.graph.influence(*step).law.law.id;
        if voice.technique.path.steps().iter().any(|step| law(step) == "buffer-ph") {
            return None;
        }
        let on_the_line = read_off(voice)?;
        let places = readout_decimals(voice);
        let reading = shown_reading(voice, unknown.reading, places);
        let sample = voice.unknown_sample();
        // A concentration is that of the liquid that is tested, which a sample may dilute; a temperature is that of where the
        // sample stood.
        let is_concentration = Unit::parse("mol/L").is_ok_and(|unit| unit.dimension() == voice.dial().unit.dimension());
        let (tested, asked) = if is_concentration {
            ("tested under the same conditions", format!("{} in the test itself", voice.later(&voice.dial().the, None)))
        } else {
            (
                "tested in place of a level of the series, while all else is the same",
                format!("{} this sample", voice.sought()),
            )
        };
        // A reading on the other side of an optimum could be the same.
        let known = if voice.technique.settings.sides.is_empty() {
            ""
        } else {
            " What is sought is known to lie within the range of the table."
        };
        let text = format!(
            "An unknown sample, {sample}, is {tested}, and the reading is {reading}.{known} \
             **Estimate**, from that reading, {asked}."
        );
        let (low, high) = accepted_levels(voice, on_the_line);
        let unit = &voice.dial().unit;
        let rows_end = voice.technique.levels.len().saturating_sub(1);
        let statement = format!(
            "About {}, read between {} and {}; accept {} to {}.",
            unit.attach(&figures(on_the_line, 2)),
            voice.level(unknown.after),
            voice.level(unknown.after + 1),
            figures(low, ESTIMATE_FIGURES),
            unit.attach(&figures(high, ESTIMATE_FIGURES))
        );
        let outside = format!("a value outside {} to {}", voice.level(unknown.after), voice.level(unknown.after + 1));
        // A pH has none.
        let reject = [outside].into_iter().chain((!unit.display().is_empty()).then(|| "no unit".to_owned())).collect();
        let point = Point {
            model: format!("About {}.", unit.attach(&figures(on_the_line, 2))),
            wrong: format!("{}.", capital(&voice.level(if unknown.after == 0 { rows_end } else { 0 }))),
            statement,
            accept: ["another value between those two levels, where the drawn line gives it"]
                .into_iter()
                .chain(
                    sample.contains("dilution").then_some("the value for the undiluted sample, if it is named as such"),
                )
                .map(str::to_owned)
                .collect(),
            reject,
            ..empty()
        };
        let skill = "representing data";
        Some(Draft { kind: PartKind::Estimate, term: "estimate", skill, text, points: vec![point], of_twist: false })
    }

    pub(super) fn evaluate(&mut self) -> Draft {
        let voice = self.voice;
        let places = readout_decimals(voice);
        let printed = printed(voice);
        let pairs = plain_pairs(&printed);
        let meeting: Vec<usize> = pairs.iter().copied().filter(|pair| overlap(&printed, *pair)).collect();
        // Where some bars meet, they are asked about as often as not.
        let asked = if meeting.is_empty() || self.stream.below(2) == 0 { pairs } else { meeting };
        let pair = self.stream.pick(&asked).copied().unwrap_or(0);
        let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
        let (one, next) = (voice.at(pair), voice.at(pair + 1));
        let text = format!(
            "A visitor claims that {readout} is not the same {one} as {next}. **Evaluate** the claim from the \
             means and ±2 SEM in the table."
        );
        let interval = |row: usize| {
            printed.get(row).map_or_else(String::new, |(mean, bar)| {
                format!("{} to {}", decimals(mean - bar, places), shown_reading(voice, mean + bar, places))
            })
        };
        let intervals = format!("{} {one} and {} {next}", interval(pair), interval(pair + 1));
        let (statement, reject, usual) = if overlap(&printed, pair) {
            (
                format!(
                    "The data do not settle it: the intervals {intervals} overlap, which neither supports the claim \
                     nor shows that there is no difference."
                ),
                vec!["“the overlap proves that there is no difference”".to_owned(), "“the means differ” alone".into()],
                Some("“the data do not support the claim”, with the two intervals"),
            )
        } else {
            (
                format!("The data support it: the intervals {intervals} do not overlap."),
                vec!["“the means differ” alone".to_owned(), "a verdict without the intervals".into()],
                None,
            )
        };
        let accept = usual.into_iter().chain(["the same from bars drawn on a graph"]).map(str::to_owned).collect();
        let point = Point {
            model: statement.clone(),
            wrong: "The means are different, so the claim is right.".into(),
            statement,
            accept,
            reject,
            ..empty()
        };
        let skill = "statistical tests and data analysis";
        Draft { kind: PartKind::Evaluate, term: "evaluate", skill, text, points: vec![point], of_twist: false }
    }
}

/// Means and bars as printed: those are what a student has.
fn printed(voice: &Voice<'_>) -> Vec<(f64, f64)> {
    let places = readout_decimals(voice);
    let rounded = |row: &Row| (round_decimals(row.mean, places), round_decimals(row.two_sem, places));
    voice.data.plain.rows.iter().map(rounded).collect()
}

/// Whether the bars of some neighbours overlap.
pub(super) fn bars_meet(voice: &Voice<'_>) -> bool {
    let printed = printed(voice);
    (0..printed.len().saturating_sub(1)).any(|pair| overlap(&printed, pair))
}

/// Steepest slope between neighbouring means, in parts of the flattest, from which on an estimate is much the poorer where the
/// line is flat.
const NEARLY_FLAT: f64 = 2.5;

/// Whether the line through the means is much flatter at some levels than at others.
pub(super) fn is_nearly_flat_somewhere(voice: &Voice<'_>) -> bool {
    let means: Vec<(f64, f64)> =
        voice.technique.levels.iter().copied().zip(printed(voice).into_iter().map(|(mean, _)| mean)).collect();
    let slopes =
        means.iter().zip(means.iter().skip(1)).map(|((from, mean), (to, next))| ((next - mean) / (to - from)).abs());
    let (least, most) =
        slopes.fold((f64::INFINITY, 0.0), |(least, most), slope| (f64::min(least, slope), f64::max(most, slope)));
    most > NEARLY_FLAT * least
}

/// How far apart two neighbouring means are, and how far their bars reach together.
fn reach(printed: &[(f64, f64)], pair: usize) -> (f64, f64) {
    match (printed.get(pair), printed.get(pair + 1)) {
        (Some((one, one_bar)), Some((next, next_bar))) => ((one - next).abs(), one_bar + next_bar),
        _ => (f64::INFINITY, 0.0),
    }
}

fn overlap(printed: &[(f64, f64)], pair: usize) -> bool {
    let (apart, bars) = reach(printed, pair);
    apart <= bars + libm::pow(10.0, -6.0)
}

/// Neighbours whose bars plainly overlap or plainly do not: those that barely do would be argued about. All, where none is
/// plain.
fn plain_pairs(printed: &[(f64, f64)]) -> Vec<usize> {
    // Of two means that are printed alike, nobody claims that they differ.
    let differ = |pair: &usize| reach(printed, *pair).0 > 0.0;
    let all: Vec<usize> = (0..printed.len().saturating_sub(1)).filter(differ).collect();
    let is_plain = |pair: &usize| {
        let (apart, bars) = reach(printed, *pair);
        apart < 0.8 * bars || apart > 1.2 * bars
    };
    let plain: Vec<usize> = all.iter().copied().filter(is_plain).collect();
    if plain.is_empty() { all } else { plain }
}

/// The level that a straight line between two printed means gives for the printed reading of the unknown; none where their
/// bars overlap, or where the reading lies within the bar of a third level.
fn read_off(voice: &Voice<'_>) -> Option<f64> {
    let unknown = voice.data.unknown;
    let places = readout_decimals(voice);
    let printed = |value: f64| round_decimals(value, places);
    let reading = printed(unknown.reading);
    let rows: Vec<(f64, f64, f64)> =
        voice.data.plain.rows.iter().map(|row| (row.level, printed(row.mean), printed(row.two_sem))).collect();
    let (from, mean, bar) = *rows.get(unknown.after)?;
    let (to, next, next_bar) = *rows.get(unknown.after + 1)?;
    let is_clear = (next - mean).abs() > bar + next_bar;
    let mut others = rows.iter().filter(|(level, ..)| *level < from || *level > to);
    let is_alone = others.all(|(_, other, bar)| (other - reading).abs() > *bar);
    let share = (reading - mean) / (next - mean);
    (is_clear && is_alone && (0.0..=1.0).contains(&share)).then_some(from + (to - from) * share)
}

/// How far from a reading on straight lines between the means an estimate may lie, in parts of the gap between two levels: a
/// curve drawn by hand may bend.
const READING_SLACK: f64 = 0.2;

/// Significant figures of an estimate.
const ESTIMATE_FIGURES: usize = 2;

/// Least and greatest level that earn: around the level read on the line, within the gap between its two neighbours.
fn accepted_levels(voice: &Voice<'_>, on_the_line: f64) -> (f64, f64) {
    let unknown = voice.data.unknown;
    let level = |number: usize| voice.technique.levels.get(number).copied().unwrap_or(unknown.level);
    let (from, to) = (level(unknown.after), level(unknown.after + 1));
    let slack = READING_SLACK * (to - from);
    let (low, high) = (on_the_line - slack, on_the_line + slack);
    (outward(low, false, ESTIMATE_FIGURES).max(from), outward(high, true, ESTIMATE_FIGURES).min(to))
}
