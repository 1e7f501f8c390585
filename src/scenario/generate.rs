//! From seeds to scenarios: draw, derive, simulate, write; count what was rejected; keep a run varied.

use std::collections::BTreeSet;

use super::likeness::Texts;
use super::write::{could_be_short, is_too_long, write};
use super::{Front, FrontError, Scenario, proofread};
use crate::concepts::graph::Graph;
use crate::experiment::{Data, simulate};
use crate::reasoning::derive;
use crate::seed::Seed;
use crate::technique::{Catalogue, Refusal, Refusals, Technique, Wish, compose, form_of, known_name};

/// Draws of one seed before it is given up.
const MOST_ATTEMPTS: u32 = 400;
/// Seeds tried for one place of a run before repeats are put up with.
const MOST_SEEDS: usize = 60;
/// Share of its sentences, in per cent, that a scenario may have in common with another of its run. Where a place of the
/// run could not be filled below one limit, the next holds from there on.
const LIMITS: &[usize] = &[33, 50, 67, 100];

/// Makes scenarios from one graph.
#[derive(Debug, Clone)]
pub struct Generator {
    graph: Graph,
    catalogue: Catalogue,
}

impl Generator {
    /// Walks the graph once.
    pub fn new(graph: Graph) -> Self {
        let catalogue = Catalogue::new(&graph).brief(|candidate| could_be_short(&graph, candidate));
        Self { graph, catalogue }
    }

    /// The graph.
    pub fn graph(&self) -> &Graph {
        &self.graph
    }

    /// Every technique that it can draw.
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// The scenario of one seed; `None` where no draw of it fits the wish. Rejected draws are counted.
    pub fn one(&self, wish: &Wish, seed: Seed, refusals: &mut Refusals) -> Option<Scenario> {
        for attempt in 0..MOST_ATTEMPTS {
            let drawn = compose(&self.graph, &self.catalogue, wish, seed, attempt);
            let written = drawn.and_then(|technique| self.write_short_enough(&technique));
            match written.and_then(|scenario| proofread::refusal(&scenario).map_or(Ok(scenario), Err)) {
                Ok(scenario) => return Some(scenario),
                Err(refusal) => refusals.count(refusal),
            }
        }
        None
    }

    /// The scenario that front matter names, made again. It was given out once, so it is not proofread here.
    ///
    /// # Errors
    /// What in the front matter does not fit the graph.
    pub fn again(&self, front: &Front) -> Result<Scenario, FrontError> {
        let technique = front.technique(&self.graph)?;
        self.write(&technique).map_err(|_| {
            FrontError::Unfit("this technique cannot be written: signs, settings or numbers do not allow it")
        })
    }

    /// The same technique, context and twist with the same questions, but other levels, parameters and readings, drawn
    /// from this seed. `None` where no draw of it will do.
    pub fn with_parameters(&self, scenario: &Scenario, seed: Seed) -> Option<Scenario> {
        let same = scenario.front.technique(&self.graph).ok()?;
        let asked = |one: &Scenario| -> Vec<_> {
            let parts = one.parts.iter().map(|part| (part.kind, part.points, part.command_term.clone()));
            parts.zip(one.guide.iter().map(|point| point.principle.clone())).collect()
        };
        let wanted = asked(scenario);
        (0..MOST_ATTEMPTS).find_map(|attempt| {
            let mut stream = seed.stream(&format!("other-parameters/{attempt}"));
            let levels = stream.pick(&self.graph.act(same.act).levels)?.clone();
            let replicates = 4 + u32::try_from(stream.below(5)).unwrap_or(0);
            let other = Technique { seed, attempt, levels, replicates, ..same.clone() };
            let made = self.write(&other).ok()?;
            (asked(&made) == wanted && made.data.printed != scenario.data.printed).then_some(made)
        })
    }

    /// The scenario, if its stimulus has no more words than its form allows: that is seen before the rest is written.
    fn write_short_enough(&self, technique: &Technique) -> Result<Scenario, Refusal> {
        let data = simulate(&self.graph, technique)?;
        if is_too_long(&self.graph, technique, &data) {
            return Err(Refusal::TooLong);
        }
        // Thousands of names are looked through: only for drafts that would otherwise be taken.
        if known_name(&self.graph, &technique.title).is_some() {
            return Err(Refusal::KnownName);
        }
        self.finish(technique, &data)
    }

    fn write(&self, technique: &Technique) -> Result<Scenario, Refusal> {
        self.finish(technique, &simulate(&self.graph, technique)?)
    }

    fn finish(&self, technique: &Technique, data: &Data) -> Result<Scenario, Refusal> {
        let plain = derive(&self.graph, &technique.path, &technique.settings, None);
        let twisted = technique.twist.map(|at| derive(&self.graph, &technique.path, &technique.settings, Some(at)));
        let scenario = write(&self.graph, technique, &plain, twisted.as_ref(), data)?;
        if self.names_a_stranger(technique, &scenario) { Err(Refusal::ProseFault) } else { Ok(scenario) }
    }

    /// Whether the title speaks of a thing that the text never mentions.
    fn names_a_stranger(&self, technique: &Technique, scenario: &Scenario) -> bool {
        let title = technique.title.to_lowercase();
        let text = scenario.how.join(" ");
        let coined = technique.names.iter().filter_map(|(ix, number)| self.graph.entity(*ix).names.get(*number));
        let mut coined = coined.filter(|name| name.coined && title.contains(&name.one));
        coined.any(|name| !text.contains(&name.one) && !text.contains(&name.many))
    }
}

/// A run of scenarios that do not repeat one another.
#[derive(Debug, Clone, Default)]
pub struct Run {
    met: BTreeSet<(Vec<String>, Option<String>, String)>,
    titles: BTreeSet<String>,
    texts: Texts,
    limit: usize,
    answers: std::collections::BTreeMap<&'static str, u64>,
    twists: u64,
}

impl Run {
    /// Whether a scenario may join: no other has its path, twist and context, or its name, no answer takes more than half
    /// of the twists, and no other shares too many of its sentences. With the refusal comes the share in per cent.
    fn admits(&self, scenario: &Scenario) -> Result<(), (Refusal, usize)> {
        if self.met.contains(&key(scenario)) || self.titles.contains(&scenario.title) {
            return Err((Refusal::Repeated, 0));
        }
        if self.is_too_often(scenario) {
            return Err((Refusal::AnswerQuota, 0));
        }
        let share = self.texts.most_alike(&text(scenario)).map_or(0, |most| most.per_cent());
        let limit = LIMITS.get(self.limit).copied().unwrap_or(100);
        if share > limit { Err((Refusal::TooAlike, share)) } else { Ok(()) }
    }

    /// Whether the twist's answer would take more than half of the twists.
    fn is_too_often(&self, scenario: &Scenario) -> bool {
        let Some(twist) = &scenario.twist else { return false };
        let with_this = self.answers.get(twist.prediction.direction).copied().unwrap_or(0) + 1;
        // The first twist of a run is all of it; from the second on no answer may take more than half.
        self.twists > 0 && 2 * with_this > self.twists + 1
    }

    fn join(&mut self, scenario: &Scenario) {
        self.met.insert(key(scenario));
        self.titles.insert(scenario.title.clone());
        self.texts.add(&text(scenario));
        if let Some(twist) = &scenario.twist {
            *self.answers.entry(twist.prediction.direction).or_default() += 1;
            self.twists += 1;
        }
    }
}

/// What a student reads before the questions; clauses that were joined count one by one.
fn text(scenario: &Scenario) -> String {
    format!("{} {}", scenario.purpose, scenario.how.join(" ")).replace("; ", ". ")
}

fn key(scenario: &Scenario) -> (Vec<String>, Option<String>, String) {
    let twist = scenario.front.twist.as_ref().map(|twist| format!("{}/{}", twist.at, twist.id));
    (scenario.path.clone(), twist, scenario.front.context.clone())
}

/// Scenario number `index` of a run. `None` where the wish cannot be met.
pub fn generate(
    generator: &Generator,
    wish: &Wish,
    run_seed: Seed,
    index: u64,
    run: &mut Run,
    refusals: &mut Refusals,
) -> Option<Scenario> {
    let mut spare: Option<(Refusal, usize, Scenario)> = None;
    // Seeds of a place draw one form first, so that the one that is harder to place does not become rare; then the other.
    let form = form_of(run_seed.of_run(index, 0));
    let seeds = |own: bool| {
        let all = (0..).map(|attempt| run_seed.of_run(index, attempt));
        all.filter(move |seed| (form_of(*seed) == form) == own).take(MOST_SEEDS)
    };
    for seed in seeds(true).chain(seeds(false)) {
        let scenario = generator.one(wish, seed, refusals)?;
        let Err((refusal, per_cent)) = run.admits(&scenario) else {
            run.join(&scenario);
            return Some(scenario);
        };
        refusals.count(refusal);
        // A repeat is never given out. Where a wish leaves no other, the text least like another may be, or else an answer
        // too many.
        let better = spare.as_ref().is_none_or(|(worse, most, _)| {
            refusal == Refusal::TooAlike && (*worse != Refusal::TooAlike || per_cent < *most)
        });
        if refusal != Refusal::Repeated && better {
            spare = Some((refusal, per_cent, scenario));
        }
    }
    let (refusal, _, scenario) = spare?;
    run.limit += usize::from(refusal == Refusal::TooAlike);
    run.join(&scenario);
    Some(scenario)
}
