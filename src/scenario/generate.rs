//! From seeds to scenarios: draw, derive, simulate, write; count what was rejected; keep a run varied.

use std::collections::BTreeSet;

use super::likeness::Texts;
use super::stimulus::{room_for_purpose, stimulus_within_load};
use super::write::write;
use super::{Front, FrontError, Scenario, proofread};
use crate::concepts::graph::Graph;
use crate::concepts::{ContextIx, Path, TwistAt};
use crate::experiment::{Data, simulate};
use crate::reasoning::derive;
use crate::seed::Seed;
use crate::technique::{Catalogue, Refusal, Refusals, Technique, Wish, compose, form_of, known_name};

/// Draws of one seed before it is given up.
const MOST_ATTEMPTS: u32 = 400;
/// Seeds tried for one place of a run before repeats are put up with.
const MOST_SEEDS: usize = 200;
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
        let catalogue = Catalogue::new(&graph).with_room(|candidate| room_for_purpose(&graph, candidate));
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
        match self.draw(wish, seed, refusals, |_, _| None)? {
            Drawn::Written(scenario, _) => Some(*scenario),
            Drawn::TurnedAway(_) => None,
        }
    }

    /// The same for a run that turns drafts away by technique, or by what a student reads before the questions, before the
    /// rest is written.
    fn draw(
        &self,
        wish: &Wish,
        seed: Seed,
        refusals: &mut Refusals,
        turns_away: impl Fn(&Technique, Option<&str>) -> Option<(Refusal, usize)>,
    ) -> Option<Drawn> {
        for attempt in 0..MOST_ATTEMPTS {
            let away = |(refusal, per_cent)| Ok(Drawn::TurnedAway(Spare { refusal, per_cent, seed, attempt }));
            let drawn = compose(&self.graph, &self.catalogue, wish, seed, attempt);
            let written = drawn.and_then(|technique| {
                if let Some(why) = turns_away(&technique, None) {
                    return away(why);
                }
                let data = simulate(&self.graph, &technique)?;
                let stimulus = stimulus_within_load(&self.graph, &technique, &data).ok_or(Refusal::TooLong)?;
                if let Some(why) = turns_away(&technique, Some(&stimulus)) {
                    return away(why);
                }
                let (scenario, key) = self.taken(&technique, &data)?;
                Ok(Drawn::Written(Box::new(scenario), key))
            });
            match written {
                Ok(drawn) => return Some(drawn),
                Err(refusal) => refusals.count(refusal),
            }
        }
        None
    }

    /// A draft that nothing turned away, written and proofread.
    fn taken(&self, technique: &Technique, data: &Data) -> Result<(Scenario, Key), Refusal> {
        // Thousands of names are looked through: only for drafts that would otherwise be taken.
        if known_name(&self.graph, &technique.title).is_some() {
            return Err(Refusal::KnownName);
        }
        let scenario = self.finish(technique, data)?;
        proofread::refusal(&scenario).map_or_else(|| Ok((scenario, key(technique))), Err)
    }

    /// A draft that was turned away, after all, or why it cannot be written.
    fn finish_spare(&self, wish: &Wish, spare: &Spare) -> Result<(Scenario, Key), Refusal> {
        let technique = compose(&self.graph, &self.catalogue, wish, spare.seed, spare.attempt)?;
        self.taken(&technique, &simulate(&self.graph, &technique)?)
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
    met: BTreeSet<Key>,
    titles: BTreeSet<String>,
    texts: Texts,
    limit: usize,
    answers: std::collections::BTreeMap<&'static str, u64>,
    twists: u64,
}

impl Run {
    /// Why a draft may not join: another has its path, twist and context, or its name; or, once there is a text, shares too
    /// many of its sentences. With the refusal comes the share in per cent.
    fn turns_away(&self, technique: &Technique, stimulus: Option<&str>) -> Option<(Refusal, usize)> {
        let Some(stimulus) = stimulus else {
            let taken = self.met.contains(&key(technique)) || self.titles.contains(&technique.title);
            return taken.then_some((Refusal::Repeated, 0));
        };
        let share = self.texts.most_alike(stimulus).map_or(0, |most| most.per_cent());
        let limit = LIMITS.get(self.limit).copied().unwrap_or(100);
        (share > limit).then_some((Refusal::TooAlike, share))
    }

    /// Whether the twist's answer would take more than half of the twists.
    fn is_too_often(&self, scenario: &Scenario) -> bool {
        let Some(twist) = &scenario.twist else { return false };
        let with_this = self.answers.get(twist.prediction.direction).copied().unwrap_or(0) + 1;
        // The first twist of a run is all of it; from the second on no answer may take more than half.
        self.twists > 0 && 2 * with_this > self.twists + 1
    }

    fn join(&mut self, scenario: &Scenario, key: Key) {
        self.met.insert(key);
        self.titles.insert(scenario.title.clone());
        self.texts.add(&text(scenario));
        if let Some(twist) = &scenario.twist {
            *self.answers.entry(twist.prediction.direction).or_default() += 1;
            self.twists += 1;
        }
    }
}

/// What a student reads before the questions.
fn text(scenario: &Scenario) -> String {
    one_text(&scenario.purpose, &scenario.how)
}

/// Purpose and procedure as the run compares them.
pub(super) fn one_text(purpose: &str, how: &[String]) -> String {
    format!("{purpose} {}", how.join(" "))
}

/// Path, twist and context: what no two of a run share.
type Key = (Path, Option<TwistAt>, ContextIx);

fn key(technique: &Technique) -> Key {
    (technique.path.clone(), technique.twist, technique.context)
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
    let mut spares: Vec<Spare> = Vec::new();
    // Seeds of a place draw one form first, so that the one that is harder to place does not become rare; then the other.
    let form = form_of(run_seed.of_run(index, 0));
    let seeds = |own: bool| {
        let all = (0..).map(|attempt| run_seed.of_run(index, attempt));
        all.filter(move |seed| (form_of(*seed) == form) == own).take(MOST_SEEDS)
    };
    for seed in seeds(true).chain(seeds(false)) {
        let turned_away = match generator.draw(wish, seed, refusals, |draft, text| run.turns_away(draft, text))? {
            Drawn::Written(scenario, key) if !run.is_too_often(&scenario) => {
                run.join(&scenario, key);
                return Some(*scenario);
            }
            Drawn::Written(scenario, _) => {
                Spare { refusal: Refusal::AnswerQuota, per_cent: 0, seed, attempt: scenario.front.attempt }
            }
            Drawn::TurnedAway(spare) => spare,
        };
        refusals.count(turned_away.refusal);
        // A repeat is never given out.
        if turned_away.refusal != Refusal::Repeated {
            spares.push(turned_away);
        }
    }
    // Where a wish leaves no other, the text least like another may be, or else an answer too many.
    spares.sort_by_key(|spare| (spare.refusal != Refusal::TooAlike, spare.per_cent));
    spares.into_iter().find_map(|spare| {
        let written = generator.finish_spare(wish, &spare);
        let (scenario, key) = written.inspect_err(|refusal| refusals.count(*refusal)).ok()?;
        run.limit += usize::from(spare.refusal == Refusal::TooAlike);
        run.join(&scenario, key);
        Some(scenario)
    })
}

/// A draft that a run did not want.
#[derive(Debug, Clone, Copy)]
struct Spare {
    refusal: Refusal,
    /// Share of its sentences that another of the run has.
    per_cent: usize,
    seed: Seed,
    attempt: u32,
}

/// What became of a seed.
enum Drawn {
    /// A scenario, and what no other of a run may share with it.
    Written(Box<Scenario>, Key),
    /// A run did not want it.
    TurnedAway(Spare),
}
