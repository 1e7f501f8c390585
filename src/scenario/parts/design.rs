//! Questions on the design: a further control, what an estimate cannot tell, a reading that nobody expected.

use std::collections::BTreeSet;

use super::super::proofread::matter;
use super::super::text::capital;
use super::super::write::lower;
use super::super::{PartKind, Point};
use super::data::{bars_meet, is_nearly_flat_somewhere};
use super::{Draft, Paper, empty};

/// Limitations that any estimate by calibration has.
const OTHER_LIMITATIONS: [&str; 2] = [
    "another condition that is not the same as in the calibration, with its effect on a named step",
    "a reading outside the calibrated levels cannot be turned into a value",
];

/// Words that a fault may share with the changed experiment, beside which it is still another matter.
const SHARED_WITH_TWIST: usize = 2;

impl Paper<'_, '_> {
    pub(super) fn propose(&mut self) -> Draft {
        let voice = self.voice;
        let text = format!(
            "**Propose** a positive control: one treatment that should change {} even if an early step of the technique \
             failed, and so shows that the later steps work.",
            voice.the(voice.graph.rig(voice.technique.rig).readout)
        );
        let positive = voice.controls(self.verdicts).positive;
        let point = Point {
            statement: format!("A positive control, for example {positive}."),
            accept: vec!["any treatment that is known to drive a later step".into()],
            reject: vec![
                "“a control group” alone".into(),
                "something necessary left out (a negative control)".into(),
                "more repeats".into(),
            ],
            model: format!("I would add {positive}."),
            wrong: "I would repeat everything several more times.".into(),
            ..empty()
        };
        Draft {
            kind: PartKind::Propose,
            term: "propose",
            skill: "designing investigations",
            text,
            points: vec![point],
            of_twist: false,
        }
    }

    pub(super) fn limitation(&mut self) -> Draft {
        let voice = self.voice;
        let dial = voice.the(voice.graph.act(voice.technique.act).dial);
        let sample = voice.unknown_sample();
        let text = format!(
            "The group wants to use this technique to estimate {} an unknown sample: {sample}. **Describe** one limitation of \
             doing so.",
            voice.sought()
        );
        let middle = voice.technique.path.quantities(voice.graph);
        let middle = middle.get(middle.len() / 2).map(|ix| voice.the(*ix)).unwrap_or_default();
        let act = voice.graph.act(voice.technique.act);
        let told = |limitation: &String| voice.later(&voice.fill(limitation, None, None), None);
        let picked = self.stream.pick(&act.limitation);
        let others = act.limitation.iter().filter(|other| picked != Some(*other)).map(told);
        let says = match picked {
            Some(limitation) => capital(&told(limitation)),
            None => capital(&format!(
                "anything else in the sample that changes {middle} would be read as a difference in {dial}."
            )),
        };
        let mut accept: Vec<String> = others.map(|other| lower(other.trim_end_matches('.'))).collect();
        accept.extend(OTHER_LIMITATIONS.map(str::to_owned));
        accept.push(if bars_meet(voice) {
            "where the bars of neighbouring levels overlap, one reading fits a range of levels".to_owned()
        } else {
            "a reading has scatter of its own, so it fits a range of levels".to_owned()
        });
        if is_nearly_flat_somewhere(voice) {
            accept.push(
                "where the line is nearly flat, a small error of the reading is a large error of the estimate"
                    .to_owned(),
            );
        }
        let point = Point {
            statement: says.clone(),
            accept,
            reject: vec!["“human error”".into(), "“the sample may vary” alone".into()],
            model: says,
            wrong: "There could be human error.".into(),
            ..empty()
        };
        Draft {
            kind: PartKind::Limitation,
            term: "describe",
            skill: "analysing methods",
            text,
            points: vec![point],
            of_twist: false,
        }
    }

    /// A fault that breaks the chain; none where no step of the path tells of one.
    pub(super) fn unexpected(&mut self) -> Option<Draft> {
        let voice = self.voice;
        let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
        let used = voice.twist().map(|(step, twist)| (step, twist.id.clone()));
        let faults = voice.technique.path.steps().iter().flat_map(|step| {
            let twists = voice.graph.influence(*step).twists.iter();
            let twists = twists.filter(|twist| used.as_ref().is_none_or(|(_, used)| twist.id != *used));
            twists.filter_map(|twist| Some((*step, twist, twist.fault.as_ref()?)))
        });
        // A fault in the step that the changed experiment changes, or one much like it, would answer one question with the
        // other.
        let agent: Vec<String> =
            voice.twist().map(|(_, twist)| matter(&twist.agent).flatten().collect()).unwrap_or_default();
        let retells = |fault: &str| {
            let told: BTreeSet<String> = matter(fault).flatten().filter(|stem| agent.contains(stem)).collect();
            told.len() > SHARED_WITH_TWIST
        };
        let (there, elsewhere): (Vec<_>, Vec<_>) =
            faults.partition(|(step, _, fault)| used.as_ref().is_some_and(|(used, _)| used == step) || retells(fault));
        let faults = if elsewhere.is_empty() { there } else { elsewhere };
        let (step, twist, fault) = self.stream.pick(&faults)?;
        let last = voice.technique.levels.len().saturating_sub(1);
        let text = format!(
            "In one repeat of the whole series, {readout} is the same {} as {}. **Explain** one fault that would \
             have this effect.",
            voice.at(last),
            voice.at(0)
        );
        let says = super::super::mention::tidy(&voice.filled_later(fault, *step, Some(twist)));
        let point = Point {
            statement: format!(
                "A fault that makes all levels alike or breaks one link of the chain, for example: {}",
                lower(&says)
            ),
            model: says,
            accept: vec![
                "any one step named that has failed, with a reason why the later ones then do not follow".into(),
                "the treatment left out by mistake, or made the same at every level".into(),
                "a named fault of the reading that makes all levels read alike".into(),
            ],
            reject: vec!["“it was measured wrongly” alone".into(), "a fault that would only add scatter".into()],
            wrong: "They must have measured it wrongly.".into(),
            ..empty()
        };
        Some(Draft {
            kind: PartKind::Unexpected,
            term: "explain",
            skill: "argumentation",
            text,
            points: vec![point],
            of_twist: false,
        })
    }
}
