//! The questions: kinds of part, each with its points.

mod counts;
mod data;
mod design;

use super::guide::{chain, earns};
use super::text::{Voice, capital};
use super::write::{Verdicts, lower};
use super::{Part, PartKind, Point};
use crate::concepts::InfluenceIx;
use crate::reasoning::{Direction, Verdict};
use crate::seed::Stream;
use crate::technique::Form;

/// A part before it has its label.
struct Draft {
    kind: PartKind,
    term: &'static str,
    skill: &'static str,
    text: String,
    points: Vec<Point>,
    /// Whether it is the question on the changed experiment.
    of_twist: bool,
}

/// What a part is made from.
struct Paper<'a, 'v> {
    voice: &'a Voice<'v>,
    verdicts: &'a Verdicts,
    stream: Stream,
}

/// What is asked and what earns.
pub(super) struct Asked {
    /// The parts, by label.
    pub(super) parts: Vec<Part>,
    /// The points that they are worth.
    pub(super) guide: Vec<Point>,
    /// Label of the part on the changed experiment.
    pub(super) of_twist: Option<String>,
}

/// The parts of a scenario and the points that they are worth, by label.
pub(super) fn parts(voice: &Voice<'_>, verdicts: &Verdicts) -> Asked {
    let stream = voice.technique.seed.stream(&format!("parts/{}", voice.technique.attempt));
    let mut paper = Paper { voice, verdicts, stream };
    let drafts = match (voice.technique.form, voice.technique.twist) {
        (Form::Short, None) => paper.short(),
        (Form::Short, Some(_)) => paper.short_twisted(),
        (Form::Long, twist) => paper.long(twist.is_some()),
    };
    labelled(drafts)
}

fn labelled(drafts: Vec<Draft>) -> Asked {
    let mut asked = Asked { parts: Vec::new(), guide: Vec::new(), of_twist: None };
    for (draft, label) in drafts.into_iter().zip('a'..='z') {
        let several = draft.points.len() > 1;
        let n = u32::try_from(draft.points.len()).unwrap_or(0);
        for (mut point, number) in draft.points.into_iter().zip(1..) {
            point.part = label.into();
            point.point = if several { format!("{label}{number}") } else { label.into() };
            asked.guide.push(point);
        }
        if draft.of_twist {
            asked.of_twist = Some(label.into());
        }
        asked.parts.push(Part {
            label: label.into(),
            kind: draft.kind,
            command_term: draft.term.into(),
            points: n,
            text: draft.text,
            skill: draft.skill,
        });
    }
    asked
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
            drafts.extend([self.calculate(), self.evaluate()]);
            let estimate = self.estimate();
            drafts.push(estimate.unwrap_or_else(|| self.limitation()));
            drafts.push(self.propose());
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
                let estimate = if self.stream.below(2) == 0 { self.estimate() } else { None };
                drafts.push(estimate.unwrap_or_else(|| self.evaluate()));
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
        Draft {
            kind: PartKind::Describe,
            term: "describe",
            skill: "explaining concepts",
            text,
            points: vec![point],
            of_twist: false,
        }
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
        Draft { kind: PartKind::Explain, term: "explain", skill: "explaining concepts", text, points, of_twist: false }
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
                vec![format!("the {containers} {}", voice.at(0))],
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
        Draft {
            kind: PartKind::Identify,
            term: "identify",
            skill: "analysing methods",
            text,
            points: vec![point],
            of_twist: false,
        }
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
            format!(" Readings are again given as percentages of the first series' reading {}.", voice.at(0))
        } else {
            String::new()
        };
        let agent = voice.agent();
        // Where it gives something else the number of a level, the levels alone could be taken for that.
        let takes_number = |level: &usize| agent.contains(&format!(" {}", voice.level(*level)));
        let with = if voice.dial().spell.is_none() && [0, last].iter().any(takes_number) {
            format!("when {} goes ", voice.the(voice.graph.act(voice.technique.act).dial))
        } else {
            String::new()
        };
        let text = format!(
            "{agent}{scale} **Predict and justify** how, if at all, {readout} then changes {with}{}.",
            voice.span(0, last)
        );
        let points = super::guide::twist_points(voice, self.verdicts);
        let skill = "argumentation";
        Draft { kind: PartKind::PredictAndJustify, term: "predict and justify", skill, text, points, of_twist: true }
    }
}

impl From<super::guide::RivalPart> for Draft {
    fn from(part: super::guide::RivalPart) -> Self {
        Self {
            kind: PartKind::Explain,
            term: "explain",
            skill: "argumentation",
            text: part.text,
            points: part.points,
            of_twist: true,
        }
    }
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
