//! From seeds to scenarios: draw, derive, simulate, write; count what was rejected; keep a run varied.

use std::collections::BTreeSet;

use super::write::write;
use super::{Front, FrontError, Scenario};
use crate::concepts::graph::Graph;
use crate::experiment::simulate;
use crate::reasoning::derive;
use crate::seed::Seed;
use crate::technique::{Catalogue, Refusal, Refusals, Technique, Wish, compose};

/// Draws of one seed before it is given up.
const MOST_ATTEMPTS: u32 = 400;
/// Seeds tried for one place of a run before repeats are put up with.
const MOST_SEEDS: u64 = 60;

/// Makes scenarios from one graph.
#[derive(Debug, Clone)]
pub struct Generator {
    graph: Graph,
    catalogue: Catalogue,
}

impl Generator {
    /// Walks the graph once.
    pub fn new(graph: Graph) -> Self {
        let catalogue = Catalogue::new(&graph);
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
            match drawn.and_then(|technique| self.write(&technique)) {
                Ok(scenario) => return Some(scenario),
                Err(refusal) => refusals.count(refusal),
            }
        }
        None
    }

    /// The scenario that front matter names, made again.
    ///
    /// # Errors
    /// What in the front matter does not fit the graph.
    pub fn again(&self, front: &Front) -> Result<Scenario, FrontError> {
        let technique = front.technique(&self.graph)?;
        self.write(&technique).map_err(|_| {
            FrontError::Unfit("this technique cannot be written: signs, settings or numbers do not allow it")
        })
    }

    fn write(&self, technique: &Technique) -> Result<Scenario, Refusal> {
        let plain = derive(&self.graph, &technique.path, &technique.settings, None);
        let twisted = technique.twist.map(|at| derive(&self.graph, &technique.path, &technique.settings, Some(at)));
        let data = simulate(&self.graph, technique)?;
        Ok(write(&self.graph, technique, &plain, twisted.as_ref(), &data)?)
    }
}

/// A run of scenarios that do not repeat one another.
#[derive(Debug, Clone, Default)]
pub struct Run {
    met: BTreeSet<(Vec<String>, Option<String>, String)>,
    titles: BTreeSet<String>,
    answers: std::collections::BTreeMap<&'static str, u64>,
    twists: u64,
}

impl Run {
    /// Whether a scenario may join: no other has its path, twist and context, or its name, and no answer takes more
    /// than half of the twists.
    fn admits(&self, scenario: &Scenario) -> Result<(), Refusal> {
        if self.met.contains(&key(scenario)) || self.titles.contains(&scenario.title) {
            return Err(Refusal::Repeated);
        }
        let Some(twist) = &scenario.twist else { return Ok(()) };
        let answer = twist.prediction.direction;
        let with_this = self.answers.get(answer).copied().unwrap_or(0) + 1;
        // The first twist of a run is all of it; from the second on no answer may take more than half.
        if self.twists > 0 && 2 * with_this > self.twists + 1 { Err(Refusal::AnswerQuota) } else { Ok(()) }
    }

    fn join(&mut self, scenario: &Scenario) {
        self.met.insert(key(scenario));
        self.titles.insert(scenario.title.clone());
        if let Some(twist) = &scenario.twist {
            *self.answers.entry(twist.prediction.direction).or_default() += 1;
            self.twists += 1;
        }
    }
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
    let mut spare = None;
    for attempt in 0..MOST_SEEDS {
        let scenario = generator.one(wish, run_seed.of_run(index, attempt), refusals)?;
        match run.admits(&scenario) {
            Ok(()) => {
                run.join(&scenario);
                return Some(scenario);
            }
            Err(refusal) => {
                refusals.count(refusal);
                // A repeat is never given out; an answer too many may be, where a wish leaves no other.
                if refusal == Refusal::AnswerQuota {
                    spare = Some(scenario);
                }
            }
        }
    }
    if let Some(scenario) = &spare {
        run.join(scenario);
    }
    spare
}
