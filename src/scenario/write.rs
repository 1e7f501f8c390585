//! Writing a scenario: every section from one technique, its derivations and its data.

use std::collections::BTreeSet;

use super::agree::{Disagreement, agree};
use super::apparatus;
use super::front::Front;
use super::gloss::gloss;
use super::map::map;
use super::parts::{Asked, parts};
use super::proofread::{matter, words};
use super::samples::samples;
use super::scaffold::scaffold;
use super::stimulus::stimulus;
use super::text::{Voice, capital, places};
use super::{
    Column, Controls, Figure, FrontPlot, Known, NounView, PartKind, Prediction, QuantityView, Scenario, Table,
    TwistView,
};
use crate::concepts::InfluenceIx;
use crate::concepts::graph::{Graph, Quantity, Twist};
use crate::experiment::{Data, Run};
use crate::quantity::significant::{decimals, round_decimals};
use crate::reasoning::{Derivation, Direction, Sign, StepSign, Verdict};
use crate::technique::{Form, Technique};

/// Version of the JSON shape.
const SHAPE: u32 = 2;

/// Both derivations, and the directions on which both engines agree.
#[derive(Debug, Clone)]
pub(super) struct Verdicts {
    pub(super) plain: Derivation,
    pub(super) twisted: Option<Derivation>,
    pub(super) direction: Direction,
    pub(super) twisted_direction: Option<Direction>,
}

impl Verdicts {
    /// Each step of the path with what its cause does in the plain run.
    pub(super) fn causes(&self, technique: &Technique) -> Vec<(InfluenceIx, Direction)> {
        let causes = std::iter::once(Direction::Rises).chain(self.plain.path().iter().map(|step| step.then));
        technique.path.steps().iter().copied().zip(causes).collect()
    }
}

/// Writes a scenario.
///
/// # Errors
/// Where signs and numbers disagree: such a scenario is never written.
pub fn write(
    graph: &Graph,
    technique: &Technique,
    plain: &Derivation,
    twisted: Option<&Derivation>,
    data: &Data,
) -> Result<Scenario, Disagreement> {
    let (direction, twisted_direction) = agree(plain, twisted, data)?;
    let verdicts = Verdicts { plain: plain.clone(), twisted: twisted.cloned(), direction, twisted_direction };
    let voice = Voice::new(graph, technique, data);
    let asked = parts(&voice, &verdicts);
    let twist = twist_view(&voice, &verdicts, &asked);
    let Asked { parts, guide, .. } = asked;
    let (purpose, how) = stimulus(&voice);
    let mut fields: Vec<String> = Vec::new();
    for step in technique.path.steps() {
        let id = &graph.field(graph.field_of(*step)).id;
        if !fields.contains(id) {
            fields.push(id.clone());
        }
    }
    let map = map(graph, technique, &parts);
    let samples = if technique.form == Form::Long { samples(&parts, &guide) } else { Vec::new() };
    let to_draw = parts.iter().any(|part| part.kind == PartKind::Construct);
    let figure = Figure { to_draw, ..voice.figure(direction) };
    let plot = FrontPlot {
        title: figure.title.clone(),
        bars: figure.bars,
        readings: figure.readings,
        standard: figure.standard.clone(),
    };
    let apparatus = figure.panels.clone();
    Ok(Scenario {
        version: SHAPE,
        id: identity(technique),
        title: technique.title.clone(),
        seed: technique.seed.0,
        form: technique.form,
        treatment: voice.dial().id.clone(),
        readout: voice.readout().id.clone(),
        dial: view(&voice, voice.dial(), false),
        reading: view(&voice, voice.readout(), true),
        path: technique.path.steps().iter().map(|step| graph.influence(*step).id.clone()).collect(),
        signs: plain.path().iter().map(|step| step.sign.ascii()).collect(),
        prediction: Prediction { direction: direction.word() },
        data: table(&voice, &data.plain),
        twist,
        principles: technique.principles(graph).iter().map(|ix| graph.principle(*ix).id.clone()).collect(),
        fields,
        scaffold: scaffold(&voice, &verdicts),
        figure,
        controls: voice.controls(&verdicts),
        debrief: debrief(&voice),
        samples,
        cautions: cautions(&voice, &purpose, &how),
        front: Front { plot, apparatus, ..Front::of(graph, technique, data) },
        markdown: String::new(),
        never: never(graph, technique),
        nouns: nouns(graph, technique),
        parts,
        guide,
        gloss: gloss(graph.gloss(), &format!("{purpose} {}", how.join(" "))),
        purpose,
        how,
        map,
    })
}

/// Samples of known size and where they are read, to the instrument's step.
fn standard(voice: &Voice<'_>, places: usize) -> Vec<Known> {
    let of = voice.readout().reading.as_ref().and_then(|reading| reading.standard.as_ref());
    let Some((of, _)) = of else { return Vec::new() };
    let unit = &voice.graph.quantity(*of).unit;
    let known = voice.data.standard.iter();
    known.map(|(size, at)| Known { size: unit.attach(&decimals(*size, 0)), at: round_decimals(*at, places) }).collect()
}

/// Words that may not stand in the stimulus, for all steps of the path.
fn never(graph: &Graph, technique: &Technique) -> Vec<String> {
    let words = technique.path.steps().iter().flat_map(|step| &graph.influence(*step).never);
    let all: BTreeSet<&String> = words.collect();
    all.into_iter().cloned().collect()
}

/// Entities by the names that they bear here, and those that they do not.
fn nouns(graph: &Graph, technique: &Technique) -> Vec<NounView> {
    let nouns = technique.names.iter().filter_map(|(ix, number)| {
        let entity = graph.entity(*ix);
        let name = entity.names.get(*number)?;
        let others = entity.names.iter().filter(|other| other.one != name.one);
        Some(NounView {
            intro: entity.intro.clone(),
            one: name.one.clone(),
            many: name.many.clone(),
            coined: name.coined,
            others: others.flat_map(|other| [other.one.clone(), other.many.clone()]).collect(),
        })
    });
    nouns.collect()
}

/// The title in lower case with hyphens, and the seed.
fn identity(technique: &Technique) -> String {
    let letters = technique.title.to_lowercase();
    let words: Vec<&str> = letters.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    format!("{}-{}-{}", words.join("-"), technique.form.word(), technique.seed.0)
}

/// How a quantity is shown: a relative readout has a name of its own, in per cent.
fn view(voice: &Voice<'_>, quantity: &Quantity, readout: bool) -> QuantityView {
    let relative = quantity.reading.as_ref().filter(|_| readout).and_then(|reading| reading.relative_name.clone());
    let (name, unit, unit_shown) = match relative {
        Some(name) => (name, "%".to_owned(), "%".to_owned()),
        None => (quantity.name.clone(), quantity.unit.code().to_owned(), quantity.unit.display().to_owned()),
    };
    QuantityView { id: quantity.id.clone(), name, the: voice.later(&quantity.the, None), unit, unit_shown }
}

/// Decimals with which the readout is printed: those of the instrument.
pub(super) fn readout_decimals(voice: &Voice<'_>) -> usize {
    voice.readout().reading.as_ref().map_or(2, |reading| places(reading.resolution))
}

/// A value of the readout with its unit.
pub(super) fn shown_reading(voice: &Voice<'_>, value: f64, places: usize) -> String {
    let number = decimals(value, places);
    let relative = voice.readout().reading.as_ref().is_some_and(|reading| reading.relative_name.is_some());
    if relative { format!("{number} %") } else { voice.readout().unit.attach(&number) }
}

fn table(voice: &Voice<'_>, run: &Run) -> Table {
    let dial = view(voice, voice.dial(), false);
    let readout = view(voice, voice.readout(), true);
    let column = |name: String, unit: &str| Column { name, unit: unit.to_owned() };
    let places = readout_decimals(voice);
    let rounded = |value: f64| round_decimals(value, places);
    let printed = run
        .rows
        .iter()
        .zip(voice.levels())
        .map(|(row, level)| [level, decimals(row.mean, places), decimals(row.two_sem, places), row.n.to_string()]);
    Table {
        columns: vec![
            column(dial.name, &dial.unit_shown),
            column(format!("Mean {}", lower(&readout.name)), &readout.unit_shown),
            column("±2 SEM".into(), &readout.unit_shown),
            column("n".into(), ""),
        ],
        rows: run.rows.iter().map(|row| (row.level, rounded(row.mean), rounded(row.two_sem), row.n)).collect(),
        printed: printed.collect(),
        noiseless: run.noiseless.clone(),
        curve: run.curve.clone(),
    }
}

/// First letter in lower case, unless the word is an abbreviation.
pub(super) fn lower(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(_), Some(second)) if second.is_uppercase() => text.to_owned(),
        (Some(first), _) => first.to_lowercase().chain(letters).collect(),
        (None, _) => String::new(),
    }
}

fn twist_view(voice: &Voice<'_>, verdicts: &Verdicts, asked: &Asked) -> Option<TwistView> {
    let (influence, twist) = voice.twist()?;
    let derivation = verdicts.twisted.as_ref()?;
    let direction = verdicts.twisted_direction?;
    let opposite = match verdicts.direction {
        Direction::Falls => Sign::Plus,
        Direction::Rises | Direction::Unchanged => Sign::Minus,
    };
    let rival = (*derivation.verdict() == Verdict::Rival).then(|| {
        let route = derivation.routes().iter().find(|route| route.sign == opposite);
        let steps = route.map(|route| route.steps.clone()).unwrap_or_default();
        steps.iter().map(|step| voice.graph.influence(step.influence).id.clone()).collect()
    });
    let part = asked.of_twist.clone()?;
    let mut reasons = asked.guide.iter().filter(|point| point.part == part).map(|point| &point.statement);
    let answer = if rival.is_some() {
        reasons.next()?.clone()
    } else {
        let step = voice.technique.path.steps().iter().position(|step| *step == influence)?;
        format!("Step {}. {}", step + 1, reasons.next_back()?)
    };
    Some(TwistView {
        kind: twist.kind,
        at: voice.graph.influence(influence).id.clone(),
        signs: derivation.path().iter().map(|step| StepSign::ascii(step.sign)).collect(),
        prediction: Prediction { direction: direction.word() },
        agent: voice.agent(),
        data: voice.data.twisted.as_ref().map(|run| table(voice, run)),
        rival_path: rival,
        part,
        answer,
    })
}

fn cautions(voice: &Voice<'_>, purpose: &str, how: &[String]) -> Vec<String> {
    let graph = voice.graph;
    let mut hazards: Vec<String> = Vec::new();
    let mut add = |list: &[String]| {
        for hazard in list {
            if !hazards.contains(hazard) {
                hazards.push(hazard.clone());
            }
        }
    };
    if let Some(reason) = voice.reason() {
        // Of what the full purpose tells and the brief one does not, no student is warned.
        let names = |text: &str, hazard: &str| {
            let told: Vec<String> = matter(text).flatten().collect();
            matter(hazard).flatten().any(|stem| told.contains(&stem))
        };
        let untold = |hazard: &String| names(&reason.text, hazard) && !names(purpose, hazard);
        add(&reason.hazards.iter().filter(|hazard| !untold(hazard)).cloned().collect::<Vec<_>>());
    }
    add(&graph.act(voice.technique.act).hazards);
    if let Some((_, twist)) = voice.twist() {
        add(&twist.hazards);
    }
    for setting in &voice.technique.settings.holds {
        add(&graph.setting(*setting).hazards);
    }
    for quantity in voice.technique.path.quantities(graph) {
        let quantity = graph.quantity(quantity);
        add(&quantity.hazards);
        add(&graph.entity(quantity.entity).hazards);
    }
    // What the text names beside the things of the path.
    for (entity, number) in &voice.technique.names {
        let entity = graph.entity(*entity);
        // Where it is told of once, it goes by what it is.
        let names = entity.names.get(*number).into_iter().flat_map(|name| [&name.one, &name.many]);
        if names.chain([&entity.intro]).any(|name| how.iter().any(|sentence| is_named(sentence, name))) {
            add(&entity.hazards);
        }
    }
    hazards.into_iter().map(|hazard| capital(&voice.later(&hazard, None))).collect()
}

/// Whether a sentence holds a name, in whole words, capitals aside.
fn is_named(sentence: &str, name: &str) -> bool {
    let split = |text: &str| words(text).map(str::to_lowercase).collect::<Vec<_>>();
    let (all, name) = (split(sentence), split(name));
    !name.is_empty() && all.windows(name.len()).any(|run| run == name)
}

/// A few lines for the talk after it: where the same principles are at work in real laboratories, and what to discuss.
fn debrief(voice: &Voice<'_>) -> Vec<String> {
    let graph = voice.graph;
    let mut lines = Vec::new();
    for ix in voice.technique.principles(graph) {
        let principle = graph.principle(ix);
        if !principle.elsewhere.is_empty() {
            let real: Vec<&str> = principle.elsewhere.iter().map(|line| line.trim_end_matches('.')).collect();
            lines.push(format!("{}: {}.", capital(&principle.name), real.join("; ")));
        }
    }
    lines.push(
        "To discuss: which step of the chain would you check first, and how, before you trust this technique with a real \
         sample?"
            .to_owned(),
    );
    lines
}

impl<'a> Voice<'a> {
    /// The twist with the step that it touches.
    pub(super) fn twist(&self) -> Option<(InfluenceIx, &'a Twist)> {
        let at = self.technique.twist?;
        Some((at.influence, at.get(self.graph)?))
    }

    /// The bench fact of the twist, as whole sentences.
    pub(super) fn agent(&self) -> String {
        self.twist().map_or_else(String::new, |(influence, twist)| {
            super::mention::tidy(&self.filled_later(&twist.agent, influence, Some(twist)))
        })
    }

    /// A fragment of a twist, in later mentions.
    pub(super) fn filled_later(&self, text: &str, influence: InfluenceIx, twist: Option<&Twist>) -> String {
        self.plain(&self.fill(text, Some(influence), twist))
    }

    /// What the readings are compared with: where the treatment is least, and where a later quantity is set directly.
    pub(super) fn controls(&self, verdicts: &Verdicts) -> Controls {
        let act = self.graph.act(self.technique.act);
        let rig = self.graph.rig(self.technique.rig);
        let readout = self.the(rig.readout);
        let steps = verdicts.plain.path();
        let at = format!("a further {} for the level of {},", rig.container.one, self.level(0));
        let late = steps.len().checked_sub(2).and_then(|place| steps.get(place));
        let driven = late.map(|step| self.graph.influence(step.influence).to);
        let supplied =
            driven.and_then(|quantity| self.graph.quantity(quantity).supplied_where(&self.technique.settings.holds));
        let positive = if let (Some(supplied), Some(last)) = (supplied, steps.last()) {
            let then = super::guide::verb(Direction::Rises.after(last.sign));
            let supplied = self.later(supplied, None);
            format!("{at} {supplied}; if the reading can change, {readout} {then} there")
        } else {
            let (driven, way) = match late {
                Some(step) => (self.the(self.graph.influence(step.influence).to), step.then),
                None => (self.the(act.dial), Direction::Rises),
            };
            let changed = if way == Direction::Falls { "lower" } else { "higher" };
            let then = super::guide::verb(verdicts.direction);
            format!(
                "{at} in which {driven} is made {changed} by other means; if the reading can change, {readout} {then} there"
            )
        };
        Controls { negative: self.later(&self.fill(&act.control, None, None), None), positive }
    }

    /// The unknown sample of this context.
    pub(super) fn unknown_sample(&self) -> String {
        self.reason().map_or_else(String::new, |reason| self.later(&reason.unknown, None))
    }

    /// What the data plot and the schematic need.
    pub(super) fn figure(&self, direction: Direction) -> Figure {
        let voice = self;
        let dial = view(voice, voice.dial(), false);
        let readout = view(voice, voice.readout(), true);
        let bars = voice.graph.act(voice.technique.act).categories;
        let rows = &voice.data.plain.rows;
        let places = readout_decimals(voice);
        let shown = |row: Option<&crate::experiment::Row>| {
            row.map_or_else(String::new, |row| shown_reading(voice, row.mean, places))
        };
        let alternative = format!(
            "{} of mean {} against {} at {} levels, with error bars of ±2 SEM. From {} to {} the mean {} from {} to {}.",
            if bars { "Bar chart" } else { "Line graph" },
            lower(&readout.name),
            lower(&dial.name),
            super::text::number_word(u32::try_from(rows.len()).unwrap_or(0)),
            voice.level(0),
            voice.level(rows.len().saturating_sub(1)),
            super::guide::verb(direction),
            shown(rows.first()),
            shown(rows.last())
        );
        Figure {
            title: format!("{} against {}", readout.name, lower(&dial.name)),
            x: Column { name: dial.name, unit: dial.unit_shown },
            y: Column { name: readout.name, unit: readout.unit_shown },
            bars,
            to_draw: false,
            alternative,
            picture: voice.graph.rig(voice.technique.rig).picture.clone(),
            readings: apparatus::readings(voice),
            standard: standard(voice, places),
            panels: apparatus::panels(voice),
        }
    }
}
