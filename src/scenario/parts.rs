//! The questions: kinds of part, each with its points.

use super::calculation::{answer_line, calculation};
use super::guide::{chain, earns};
use super::text::{Voice, capital};
use super::write::{Verdicts, lower, readout_decimals, shown_reading};
use super::{Part, PartKind, Point};
use crate::concepts::InfluenceIx;
use crate::experiment::Counts;
use crate::quantity::significant::{decimals, figures, round_decimals};
use crate::reasoning::{Direction, Verdict};
use crate::seed::Stream;
use crate::technique::Form;

/// Upper 5 % point of chi-square with one degree of freedom (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
const CRITICAL: f64 = 3.84;

/// A part before it has its label.
struct Draft {
    kind: PartKind,
    term: &'static str,
    skill: &'static str,
    text: String,
    points: Vec<Point>,
}

/// What a part is made from.
struct Paper<'a, 'v> {
    voice: &'a Voice<'v>,
    verdicts: &'a Verdicts,
    stream: Stream,
}

/// The parts of a scenario and the points that they are worth, by label.
pub(super) fn parts(voice: &Voice<'_>, verdicts: &Verdicts) -> (Vec<Part>, Vec<Point>) {
    let stream = voice.technique.seed.stream(&format!("parts/{}", voice.technique.attempt));
    let mut paper = Paper { voice, verdicts, stream };
    let drafts = match (voice.technique.form, voice.technique.twist) {
        (Form::Short, None) => paper.short(),
        (Form::Short, Some(_)) => paper.short_twisted(),
        (Form::Long, twist) => paper.long(twist.is_some()),
    };
    labelled(drafts)
}

fn labelled(drafts: Vec<Draft>) -> (Vec<Part>, Vec<Point>) {
    let mut parts = Vec::new();
    let mut guide = Vec::new();
    for (draft, label) in drafts.into_iter().zip('a'..='z') {
        let several = draft.points.len() > 1;
        let n = u32::try_from(draft.points.len()).unwrap_or(0);
        for (mut point, number) in draft.points.into_iter().zip(1..) {
            point.part = label.into();
            point.point = if several { format!("{label}{number}") } else { label.into() };
            guide.push(point);
        }
        parts.push(Part {
            label: label.into(),
            kind: draft.kind,
            command_term: draft.term.into(),
            points: n,
            text: draft.text,
            skill: draft.skill,
        });
    }
    (parts, guide)
}

impl Paper<'_, '_> {
    fn short(&mut self) -> Vec<Draft> {
        let steps = self.steps();
        if self.stream.below(3) == 0 {
            return vec![self.identify(), self.explain(&steps, 2)];
        }
        let (described, rest) = self.split(&steps);
        vec![self.describe(described), self.identify(), self.explain(&rest, 2)]
    }

    fn short_twisted(&mut self) -> Vec<Draft> {
        let steps = self.steps();
        if self.stream.below(3) == 0 {
            return vec![self.identify(), self.twist()];
        }
        let (described, _) = self.split(&steps);
        vec![self.describe(described), self.identify(), self.twist()]
    }

    fn long(&mut self, twisted: bool) -> Vec<Draft> {
        let steps = self.steps();
        if !twisted {
            let (described, rest) = self.split(&steps);
            let mut drafts = vec![self.describe(described), self.explain(&rest, 3), self.identify()];
            drafts.extend([self.calculate(), self.evaluate(), self.estimate(), self.propose()]);
            return drafts;
        }
        // Two points for explaining carry at most six steps.
        let shape = if steps.len() > 6 { 1 + self.stream.below(2) } else { self.stream.below(3) };
        match shape {
            0 => {
                let mut drafts = vec![self.identify(), self.construct(), self.explain(&steps, 2)];
                drafts.extend([self.twist(), self.evaluate(), self.propose()]);
                drafts
            }
            1 => {
                let (described, rest) = self.split(&steps);
                let mut drafts = vec![self.describe(described), self.explain(&rest, 2), self.identify()];
                drafts.extend([self.calculate(), self.twist()]);
                let unexpected = self.unexpected();
                drafts.push(unexpected.unwrap_or_else(|| self.evaluate()));
                drafts.push(self.limitation());
                drafts
            }
            _ => {
                let (described, rest) = self.split(&steps);
                let mut drafts = vec![self.describe(described), self.explain(&rest, 3), self.identify()];
                let test = self.voice.data.counts.and_then(|counts| self.count_test(counts));
                drafts.push(test.unwrap_or_else(|| self.calculate()));
                drafts.push(self.twist());
                drafts.push(if self.stream.below(2) == 0 { self.estimate() } else { self.evaluate() });
                drafts
            }
        }
    }

    fn steps(&self) -> Vec<(InfluenceIx, Direction)> {
        self.verdicts.causes(self.voice.technique)
    }

    /// One end of the path to describe, and the rest to explain, so that no point is asked for twice.
    fn split(
        &mut self,
        steps: &[(InfluenceIx, Direction)],
    ) -> ((InfluenceIx, Direction), Vec<(InfluenceIx, Direction)>) {
        let told = |ix: InfluenceIx| self.voice.graph.influence(ix).told.is_some();
        let at_front = match (steps.first(), steps.last()) {
            (Some((first, _)), Some((last, _))) if told(*first) != told(*last) => told(*last),
            _ => self.stream.below(2) == 0,
        };
        let mut rest = steps.to_vec();
        let taken = if at_front { rest.remove(0) } else { rest.remove(rest.len() - 1) };
        (taken, rest)
    }

    fn describe(&mut self, (ix, cause): (InfluenceIx, Direction)) -> Draft {
        let influence = self.voice.graph.influence(ix);
        let (from, to) = (self.voice.the(influence.from), self.voice.the(influence.to));
        let text = match self.stream.below(2) {
            0 => format!("**Describe** how {from} affects {to}."),
            _ => format!("**Describe** how {to} depends on {from}."),
        };
        let mut point = earns(self.voice, ix, cause);
        point.accept.push("the direction alone, for this change or the opposite one".into());
        Draft { kind: PartKind::Describe, term: "describe", skill: "explaining concepts", text, points: vec![point] }
    }

    fn explain(&mut self, steps: &[(InfluenceIx, Direction)], n: usize) -> Draft {
        let voice = self.voice;
        let start = steps.first().map(|(ix, _)| voice.graph.influence(*ix).from);
        let end = steps.last().map(|(ix, _)| voice.graph.influence(*ix).to);
        let act = voice.graph.act(voice.technique.act);
        let cause = match start {
            Some(quantity) if quantity != act.dial => format!("a change in {}", voice.the(quantity)),
            _ => voice.later(&act.doing, None),
        };
        let effect = end.map_or_else(String::new, |quantity| voice.the(quantity));
        let text = match self.stream.below(2) {
            0 => format!("**Explain** how {cause} changes {effect}."),
            _ => format!("**Explain**, step by step, how {cause} leads to a change in {effect}."),
        };
        let mut points = chain(voice, steps, n);
        for point in &mut points {
            point.accept.push("the same argued from the opposite change".into());
        }
        Draft { kind: PartKind::Explain, term: "explain", skill: "explaining concepts", text, points }
    }

    fn identify(&mut self) -> Draft {
        let voice = self.voice;
        let act = voice.graph.act(voice.technique.act);
        let containers = &voice.graph.rig(voice.technique.rig).container.many;
        let control = voice.later(&voice.fill(&act.control, None, None), None);
        // Only where the text compares, or where the first level is no treatment at all, is there a control to be named.
        let is_relative = voice.readout().reading.as_ref().is_some_and(|reading| reading.relative_name.is_some());
        let is_untreated = voice.technique.levels.first().is_some_and(|level| *level <= 0.0);
        let drawn = if is_relative || is_untreated { self.stream.below(3) } else { 1 + self.stream.below(2) };
        let (text, statement, accept, reject) = match drawn {
            0 => (
                if is_relative {
                    format!("**Identify** the {containers} with which all the others are compared.")
                } else {
                    "**Identify** the negative control of the investigation.".to_owned()
                },
                capital(&format!("{control}.")),
                vec![format!("the {containers} at {}", voice.level(0))],
                vec!["“the control” alone".to_owned()],
            ),
            1 => (
                "**Identify** the dependent variable of the investigation.".to_owned(),
                capital(&format!("{}.", voice.the(voice.graph.rig(voice.technique.rig).readout))),
                vec![format!("“{}”", lower(&readout_name(voice)))],
                vec![voice.the(act.dial)],
            ),
            _ => (
                "**Identify** the independent variable of the investigation.".to_owned(),
                capital(&format!("{}.", voice.the(act.dial))),
                vec![format!("“{}”", lower(&voice.dial().name))],
                vec![voice.the(voice.graph.rig(voice.technique.rig).readout)],
            ),
        };
        let wrong = match reject.first() {
            Some(other) if !other.starts_with('“') => format!("{}.", capital(other)),
            _ => "The control.".to_owned(),
        };
        let point = Point { model: statement.clone(), wrong, statement, accept, reject, ..empty() };
        Draft { kind: PartKind::Identify, term: "identify", skill: "analysing methods", text, points: vec![point] }
    }

    fn construct(&mut self) -> Draft {
        let figure = self.voice.figure(self.verdicts.direction);
        let text = format!(
            "**Construct** an appropriately labelled graph of the data in the table, with the error bars, to show how \
             {} depends on {}.",
            self.voice.the(self.voice.graph.rig(self.voice.technique.rig).readout),
            self.voice.the(self.voice.graph.act(self.voice.technique.act).dial)
        );
        let axis = |column: &super::Column| match column.unit.as_str() {
            "" => format!("{} (which has no unit)", column.name),
            unit => format!("{} ({unit})", column.name),
        };
        let levels = &self.voice.technique.levels;
        let mut gaps = levels.iter().zip(levels.iter().skip(1)).map(|(one, next)| next - one);
        let first_gap = gaps.next().unwrap_or(0.0);
        let is_even = gaps.all(|gap| (gap - first_gap).abs() < 0.01 * first_gap.abs());
        let kind = if figure.bars { "bars, one for each category" } else { "points joined by a line" };
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
                    axis(&figure.x),
                    axis(&figure.y)
                ),
                "any title that names both quantities",
                "axes the other way round; a unit missing",
                "(the graph has a title, and both axes are named with their units)",
            ),
            point(
                format!(
                    "An even scale on both axes that uses more than half of the grid, and the right kind of graph: {kind}."
                ),
                "a scale that does not start at 0, where the break is marked",
                if is_even {
                    "a scale that changes along an axis"
                } else {
                    "the levels spaced evenly although they are not"
                },
                "(both scales are even, and the points are joined by a line)",
            ),
            point(
                "Every mean plotted within half a small square, each with a bar of ±2 SEM.".into(),
                "bars whose ends are as near",
                "means without bars",
                "(every mean is plotted with its bar)",
            ),
        ];
        Draft { kind: PartKind::Construct, term: "construct", skill: "representing data", text, points }
    }

    /// Two counts compared: whether the shares of single things differ.
    fn count_test(&self, counts: Counts) -> Option<Draft> {
        let voice = self.voice;
        let counted = voice.graph.quantity(counts.quantity).counted.as_ref()?;
        let say = |text: &str| voice.later(text, None);
        let (from, to) = (voice.level(counts.at), voice.level(counts.at + 1));
        let text = format!(
            "{} Of {} {} at {from}, {} are {}; of {} at {to}, {} are. **Evaluate**, by a chi-square test at the 5 % \
             level, the claim that {} is the same at both.",
            say(&counted.how),
            counts.n,
            say(&counted.things),
            counts.first,
            say(&counted.yes),
            counts.n,
            counts.second,
            voice.the(counts.quantity)
        );
        let skill = "statistical tests and data analysis";
        let points = vec![chi_square_value(counts), chi_square_verdict(counts)];
        Some(Draft { kind: PartKind::Evaluate, term: "evaluate", skill, text, points })
    }

    fn propose(&mut self) -> Draft {
        let voice = self.voice;
        let text = format!(
            "**Propose** one further control that would show whether {} can respond at all.",
            voice.the(voice.graph.rig(voice.technique.rig).readout)
        );
        let positive = voice.controls(self.verdicts).positive;
        let point = Point {
            statement: format!("A positive control, for example {positive}."),
            accept: vec!["any treatment that is known to drive a later step, with the reading expected of it".into()],
            reject: vec!["“a control group” alone".into(), "more repeats".into()],
            model: format!("I would add {positive}."),
            wrong: "I would repeat everything several more times.".into(),
            ..empty()
        };
        Draft { kind: PartKind::Propose, term: "propose", skill: "designing investigations", text, points: vec![point] }
    }

    fn limitation(&mut self) -> Draft {
        let voice = self.voice;
        let dial = voice.the(voice.graph.act(voice.technique.act).dial);
        let sample = voice.unknown_sample();
        let text = format!(
            "The group wants to estimate {dial} by this technique in an unknown sample: {sample}. **Describe** one limitation of doing so."
        );
        let middle = voice.technique.path.quantities(voice.graph);
        let middle = middle.get(middle.len() / 2).map(|ix| voice.the(*ix)).unwrap_or_default();
        let act = voice.graph.act(voice.technique.act);
        let says = match self.stream.pick(&act.limitation) {
            Some(limitation) => capital(&voice.later(&voice.fill(limitation, None, None), None)),
            None => capital(&format!(
                "anything else in the sample that changes {middle} would be read as a difference in {dial}."
            )),
        };
        let point = Point {
            statement: says.clone(),
            accept: vec![
                "another condition that is not the same as in the calibration, with its effect on a named step".into(),
                "a reading outside the calibrated levels cannot be turned into a value".into(),
            ],
            reject: vec!["“human error”".into(), "“the sample may vary” alone".into()],
            model: says,
            wrong: "There could be human error.".into(),
            ..empty()
        };
        Draft { kind: PartKind::Limitation, term: "describe", skill: "analysing methods", text, points: vec![point] }
    }

    /// A fault that breaks the chain; none where no step of the path tells of one.
    fn unexpected(&mut self) -> Option<Draft> {
        let voice = self.voice;
        let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
        let used = voice.twist().map(|(_, twist)| twist.id.clone());
        let faults = voice.technique.path.steps().iter().flat_map(|step| {
            let twists = voice.graph.influence(*step).twists.iter().filter(|twist| Some(&twist.id) != used.as_ref());
            twists.filter_map(|twist| Some((*step, twist, twist.fault.as_ref()?)))
        });
        let faults: Vec<_> = faults.collect();
        let (step, twist, fault) = self.stream.pick(&faults)?;
        let last = voice.technique.levels.len().saturating_sub(1);
        let text = format!(
            "In one repeat of the whole series, {readout} is the same at {} as at {}. **Explain** one fault that would \
             have this effect.",
            voice.level(last),
            voice.level(0)
        );
        let says = super::mention::tidy(&voice.filled_later(fault, *step, Some(twist)));
        let point = Point {
            statement: format!("A fault that breaks one link of the chain, for example: {says}"),
            model: says,
            accept: vec![
                "any one step named that has failed, with a reason why the later ones then do not follow".into(),
            ],
            reject: vec!["“it was measured wrongly” alone".into(), "a fault that would only add scatter".into()],
            wrong: "They must have measured it wrongly.".into(),
            ..empty()
        };
        Some(Draft { kind: PartKind::Unexpected, term: "explain", skill: "argumentation", text, points: vec![point] })
    }

    fn calculate(&mut self) -> Draft {
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
        let value = Point {
            statement: format!("Answer: {}.", answer_line(&calculation)),
            model: format!("This gives {}.", calculation.answer),
            wrong: format!("The answer is {}.", calculation.slip),
            accept: vec!["a value that follows correctly from a wrong setup".into()],
            reject: if calculation.has_unit {
                vec!["no unit".into(), "wrong sign".into()]
            } else {
                vec!["a slip of the decimal point".into(), "wrong sign".into()]
            },
            principle,
            ..empty()
        };
        Draft {
            kind: PartKind::Calculate,
            term: "calculate",
            skill: "mathematical routines",
            text: calculation.ask,
            points: vec![setup, value],
        }
    }

    fn estimate(&mut self) -> Draft {
        let voice = self.voice;
        let unknown = voice.data.unknown;
        let places = readout_decimals(voice);
        let reading = shown_reading(voice, unknown.reading, places);
        let sample = voice.unknown_sample();
        let act = voice.graph.act(voice.technique.act);
        let rig = voice.graph.rig(voice.technique.rig);
        let text = format!(
            "Under the same conditions, a {} prepared with {sample} reads {reading}. **Estimate** {} to which that reading corresponds.",
            rig.container.one,
            voice.the(act.dial)
        );
        let (low, high) = accepted_levels(voice);
        let unit = &voice.dial().unit;
        let rows_end = voice.technique.levels.len().saturating_sub(1);
        let statement = format!(
            "About {}, read between {} and {}; accept {} to {}.",
            unit.attach(&figures(unknown.on_the_line, 2)),
            voice.level(unknown.after),
            voice.level(unknown.after + 1),
            figures(low, 3),
            unit.attach(&figures(high, 3))
        );
        let reject = vec![
            format!("a value outside {} to {}", voice.level(unknown.after), voice.level(unknown.after + 1)),
            "no unit".into(),
        ];
        let point = Point {
            model: format!("About {}.", unit.attach(&figures(unknown.on_the_line, 2))),
            wrong: format!("{}.", capital(&voice.level(if unknown.after == 0 { rows_end } else { 0 }))),
            statement,
            accept: vec!["a value read off a drawn line".into()],
            reject,
            ..empty()
        };
        let skill = "representing data";
        Draft { kind: PartKind::Estimate, term: "estimate", skill, text, points: vec![point] }
    }

    fn evaluate(&mut self) -> Draft {
        let voice = self.voice;
        let rows = &voice.data.plain.rows;
        let places = readout_decimals(voice);
        // Verdict and intervals come from the numbers as printed: those are what a student has.
        let printed = |row: usize| {
            rows.get(row).map(|row| (round_decimals(row.mean, places), round_decimals(row.two_sem, places)))
        };
        let slack = libm::pow(10.0, -6.0);
        let overlap = |pair: usize| match (printed(pair), printed(pair + 1)) {
            (Some((one, one_bar)), Some((next, next_bar))) => (one - next).abs() <= one_bar + next_bar + slack,
            _ => false,
        };
        let pairs: Vec<usize> = (0..rows.len().saturating_sub(1)).collect();
        let meeting: Vec<usize> = pairs.iter().copied().filter(|pair| overlap(*pair)).collect();
        // Where some bars meet, they are asked about as often as not.
        let asked = if meeting.is_empty() || self.stream.below(2) == 0 { pairs } else { meeting };
        let pair = self.stream.pick(&asked).copied().unwrap_or(0);
        let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
        let (one, next) = (voice.level(pair), voice.level(pair + 1));
        let text = format!(
            "A visitor claims that {readout} is not the same at {one} as at {next}. **Evaluate** the claim from the \
             means and ±2 SEM in the table."
        );
        let interval = |row: usize| {
            printed(row).map_or_else(String::new, |(mean, bar)| {
                format!("{} to {}", decimals(mean - bar, places), shown_reading(voice, mean + bar, places))
            })
        };
        let intervals = format!("{} at {one} and {} at {next}", interval(pair), interval(pair + 1));
        let (statement, reject) = if overlap(pair) {
            (
                format!(
                    "The data do not settle it: the intervals {intervals} overlap, which neither supports the claim \
                     nor shows that there is no difference."
                ),
                vec!["“the overlap proves that there is no difference”".to_owned(), "“the means differ” alone".into()],
            )
        } else {
            (
                format!("The data support it: the intervals {intervals} do not overlap."),
                vec!["“the means differ” alone".to_owned(), "a verdict without the intervals".into()],
            )
        };
        let accept = vec!["the same from bars drawn on a graph".into()];
        let point = Point {
            model: statement.clone(),
            wrong: "The means are different, so the claim is right.".into(),
            statement,
            accept,
            reject,
            ..empty()
        };
        let skill = "statistical tests and data analysis";
        Draft { kind: PartKind::Evaluate, term: "evaluate", skill, text, points: vec![point] }
    }

    fn twist(&mut self) -> Draft {
        let rival =
            matches!(self.verdicts.twisted.as_ref().map(crate::reasoning::Derivation::verdict), Some(Verdict::Rival));
        if rival { super::guide::rival_part(self.voice, self.verdicts).into() } else { self.predict() }
    }

    fn predict(&mut self) -> Draft {
        let voice = self.voice;
        let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
        let last = voice.technique.levels.len().saturating_sub(1);
        // A percentage of what? The first run's reading, or the key's figures would make no sense.
        let relative = voice.readout().reading.as_ref().is_some_and(|reading| reading.relative_name.is_some());
        let scale = if relative {
            format!(" Readings are again given relative to the first series at {}.", voice.level(0))
        } else {
            String::new()
        };
        let text = format!(
            "{}{scale} **Predict and justify** how {readout} then changes from {} to {}.",
            voice.agent(),
            voice.level(0),
            voice.level(last)
        );
        let points = super::guide::twist_points(voice, self.verdicts);
        let skill = "argumentation";
        Draft { kind: PartKind::PredictAndJustify, term: "predict and justify", skill, text, points }
    }
}

impl From<super::guide::RivalPart> for Draft {
    fn from(part: super::guide::RivalPart) -> Self {
        Self { kind: PartKind::Explain, term: "explain", skill: "argumentation", text: part.text, points: part.points }
    }
}

/// The point for setup and value of the statistic.
fn chi_square_value(counts: Counts) -> Point {
    let other = f64::from(counts.n) - counts.expected;
    let term = |seen: u32, expected: f64| {
        let expected = decimals(expected, 1);
        format!("({seen} − {expected})²/{expected}")
    };
    let setup = [
        term(counts.first, counts.expected),
        term(counts.n - counts.first, other),
        term(counts.second, counts.expected),
        term(counts.n - counts.second, other),
    ];
    let says = format!("χ² = {} = {}", setup.join(" + "), decimals(counts.chi_square, 2));
    let (low, high) = (decimals(counts.chi_square * 0.98, 2), decimals(counts.chi_square * 1.02, 2));
    Point {
        statement: format!("Setup and value: {says}. The setup earns even if the arithmetic fails."),
        accept: vec![format!("{low} to {high}")],
        reject: vec!["percentages in place of counts".into()],
        model: format!("{says}."),
        wrong: "The two percentages are not the same.".into(),
        ..empty()
    }
}

/// The point for what follows from it.
fn chi_square_verdict(counts: Counts) -> Point {
    let rejected = counts.chi_square > CRITICAL;
    let verdict = if rejected {
        format!("χ² is larger than {CRITICAL} (1 degree of freedom), so the claim is rejected: the shares differ.")
    } else {
        format!(
            "χ² is not larger than {CRITICAL} (1 degree of freedom), so the claim cannot be rejected; that does not \
             prove it."
        )
    };
    Point {
        model: verdict.clone(),
        statement: verdict,
        accept: vec!["a verdict that follows from a wrong value".into()],
        reject: vec![if rejected { "“the claim is proved wrong for certain”" } else { "“the claim is proved”" }.into()],
        wrong: if rejected { "So the claim may well be right." } else { "So the claim is proved." }.into(),
        ..empty()
    }
}

/// Least and greatest level that earn: around the true level and the one on the line, within the gap.
fn accepted_levels(voice: &Voice<'_>) -> (f64, f64) {
    let unknown = voice.data.unknown;
    let level = |number: usize| voice.technique.levels.get(number).copied().unwrap_or(unknown.level);
    let (from, to) = (level(unknown.after), level(unknown.after + 1));
    let slack = 0.15 * (to - from);
    let low = (unknown.level.min(unknown.on_the_line) - slack).max(from);
    (low, (unknown.level.max(unknown.on_the_line) + slack).min(to))
}

/// What the column of the readings is called.
fn readout_name(voice: &Voice<'_>) -> String {
    let reading = voice.readout().reading.as_ref();
    reading.and_then(|reading| reading.relative_name.clone()).unwrap_or_else(|| voice.readout().name.clone())
}

/// A point with nothing in it yet.
pub(super) fn empty() -> Point {
    Point {
        part: String::new(),
        point: String::new(),
        statement: String::new(),
        accept: Vec::new(),
        reject: Vec::new(),
        principle: None,
        model: String::new(),
        wrong: String::new(),
    }
}
