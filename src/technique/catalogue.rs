//! Every path that a bench could walk: found once a graph, drawn from by every seed.

use std::collections::BTreeSet;

use super::novelty::contains_known;
use super::refusal::{Refusal, Refusals};
use crate::concepts::graph::Graph;
use crate::concepts::written::{Role, Transfer};
use crate::concepts::{ActIx, FieldIx, InfluenceIx, Path, QuantityIx, RigIx, Settings, Side, sides};
use crate::reasoning::{Verdict, derive};

/// Fewest and most steps of a technique.
pub const STEPS: std::ops::RangeInclusive<usize> = 3..=7;

/// A path with the act that starts it, the rig that reads it and what holds of both.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// The treatment.
    pub act: ActIx,
    /// The reading.
    pub rig: RigIx,
    /// The way between.
    pub path: Path,
    /// What holds.
    pub settings: Settings,
    /// Words that a short question leaves for the purpose; none where it could not hold the rest.
    pub room: usize,
}

/// All candidates of a graph, and why the other paths were not taken.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    candidates: Vec<Candidate>,
    refusals: Refusals,
}

impl Catalogue {
    /// Walks every path of [`STEPS`] steps from every act to every rig.
    pub fn new(graph: &Graph) -> Self {
        let mut catalogue = Self::default();
        for (act, part) in graph.acts() {
            let mut walk = Vec::new();
            catalogue.walk(graph, act, part.dial, &mut walk);
        }
        catalogue
    }

    /// The candidates, in a fixed order.
    pub fn candidates(&self) -> &[Candidate] {
        &self.candidates
    }

    /// Says of each candidate how much room a short question leaves for its purpose, so that none is drawn in vain.
    #[must_use]
    pub fn with_room(mut self, room: impl Fn(&Candidate) -> usize) -> Self {
        for candidate in &mut self.candidates {
            candidate.room = room(candidate);
        }
        self
    }

    /// How many distinct paths there are among them.
    pub fn n_paths(&self) -> usize {
        self.candidates.iter().map(|candidate| &candidate.path).collect::<BTreeSet<_>>().len()
    }

    /// Paths walked and not taken, by reason.
    pub fn refusals(&self) -> &Refusals {
        &self.refusals
    }

    /// Why no technique takes this path, a reason an act, rig and side that could have: empty where one does, and where the
    /// path is too short, too long or does not lead from what an act sets to what a rig reads.
    pub fn why_not(graph: &Graph, steps: &[InfluenceIx]) -> Refusals {
        let mut tried = Self::default();
        if let (Some(first), Some(last)) = (steps.first(), steps.last()) {
            let start = graph.influence(*first).from;
            for (act, _) in graph.acts().filter(|(_, act)| act.dial == start && STEPS.contains(&steps.len())) {
                tried.arrive(graph, act, graph.influence(*last).to, steps);
            }
        }
        if tried.candidates.is_empty() { tried.refusals } else { Refusals::default() }
    }

    fn walk(&mut self, graph: &Graph, act: ActIx, here: QuantityIx, walked: &mut Vec<InfluenceIx>) {
        if STEPS.contains(&walked.len()) && graph.quantity(here).role == Role::Readout {
            self.arrive(graph, act, here, walked);
        }
        if walked.len() == *STEPS.end() {
            return;
        }
        for next in graph.leaving(here) {
            walked.push(next);
            // A path that already clashes cannot be mended by going on.
            if Path::new(graph, walked.clone()).is_some() && settings(graph, act, None, walked).is_ok() {
                self.walk(graph, act, graph.influence(next).to, walked);
            } else {
                self.refusals.count(Refusal::SettingsClash);
            }
            walked.pop();
        }
    }

    fn arrive(&mut self, graph: &Graph, act: ActIx, readout: QuantityIx, walked: &[InfluenceIx]) {
        for (rig, _) in graph.rigs().filter(|(_, rig)| rig.readout == readout) {
            match settings(graph, act, Some(rig), walked) {
                Err(refusal) => self.refusals.count(refusal),
                Ok(base) => {
                    for settings in with_sides(graph, &base, walked) {
                        let Some(path) = Path::new(graph, walked.to_vec()) else { continue };
                        match feasible(graph, &path, &settings) {
                            Ok(()) => {
                                self.candidates.push(Candidate { act, rig, path, settings, room: usize::MAX });
                            }
                            Err(refusal) => self.refusals.count(refusal),
                        }
                    }
                }
            }
        }
    }
}

/// What holds when these steps are walked.
fn settings(graph: &Graph, act: ActIx, rig: Option<RigIx>, walked: &[InfluenceIx]) -> Result<Settings, Refusal> {
    let mut settings = Settings::default();
    settings.holds.extend(&graph.act(act).needs);
    settings.holds.extend(rig.iter().flat_map(|rig| &graph.rig(*rig).needs));
    settings.holds.extend(walked.iter().flat_map(|step| &graph.influence(*step).needs));
    let excluded = walked.iter().any(|step| !graph.influence(*step).excludes.is_disjoint(&settings.holds));
    if excluded || settings.clash(graph).is_some() { Err(Refusal::SettingsClash) } else { Ok(settings) }
}

/// The settings once for each choice of sides of the turning steps.
fn with_sides(graph: &Graph, base: &Settings, walked: &[InfluenceIx]) -> Vec<Settings> {
    let mut all = vec![base.clone()];
    for step in walked {
        let chosen: Vec<Option<Side>> = sides(graph.influence(*step)).to_vec();
        all = all
            .into_iter()
            .flat_map(|settings| {
                chosen.iter().map(move |side| {
                    let mut settings = settings.clone();
                    if let Some(side) = side {
                        settings.sides.insert(*step, *side);
                    }
                    settings
                })
            })
            .collect();
    }
    all
}

/// Whether a path is physical, determinate and new.
fn feasible(graph: &Graph, path: &Path, settings: &Settings) -> Result<(), Refusal> {
    let fields: BTreeSet<FieldIx> = path.steps().iter().map(|step| graph.field_of(*step)).collect();
    if fields.len() < 2 {
        return Err(Refusal::OneField);
    }
    if rates_overlap(graph, path) {
        return Err(Refusal::RatesOverlap);
    }
    if contains_known(graph, path) {
        return Err(Refusal::KnownTechnique);
    }
    let derivation = derive(graph, path, settings, None);
    match derivation.verdict() {
        Verdict::Determined(_) if derivation.routes().len() == 1 => Ok(()),
        // A second way that agrees would make the scaffold's steps insufficient or unnecessary.
        Verdict::Determined(_) => Err(Refusal::SecondRoute),
        Verdict::Rival | Verdict::Withheld(_) => Err(Refusal::NotDeterminate),
    }
}

/// Whether two steps build up with no sample or load between them that would end the first.
fn rates_overlap(graph: &Graph, path: &Path) -> bool {
    let mut running = false;
    for step in path.steps() {
        let influence = graph.influence(*step);
        if matches!(influence.transfer, Some(Transfer::Sample | Transfer::Load)) {
            running = false;
        }
        if influence.builds_up {
            if running {
                return true;
            }
            running = true;
        }
    }
    false
}
