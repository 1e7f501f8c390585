//! From a plan to a paper: questions at hand, the choice for each version, the versions.

use std::collections::BTreeSet;

use super::balance::choose;
use super::{Paper, PaperError, Plan, Question, Vary, Version, extended};
use crate::concepts::Path;
use crate::render::{Document, Sheet, Templates, markdown};
use crate::scenario::{Generator, Run, Scenario, generate};
use crate::seed::Seed;
use crate::technique::{Form, Refusals, Wish};

/// Questions drawn for each that is needed, so that there is a choice, and some more: short ones, of which few techniques
/// make one, and long ones, which carry most command terms.
const CHOICE_SHORT: (usize, usize) = (2, 4);
const CHOICE_LONG: (usize, usize) = (8, 8);
/// Draws for each question at hand before fewer are put up with.
const MOST_DRAWS: u64 = 6;
/// Seeds tried for other parameters that no earlier version has.
const MOST_SEEDS: u64 = 20;

/// A scenario file, read.
#[derive(Debug, Clone)]
pub struct Written {
    /// Where it lies.
    pub place: String,
    /// What its front matter makes.
    pub scenario: Scenario,
    /// Its text.
    pub text: String,
    /// The text is not what the program writes.
    pub edited: bool,
}

/// Reads a scenario file and makes its scenario again.
///
/// # Errors
/// A text that is no scenario, or that does not fit the concepts.
pub fn read(generator: &Generator, templates: &Templates, place: &str, text: &str) -> Result<Written, PaperError> {
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n");
    let document = document(place, &text)?;
    let again = generator.again(&document.front);
    let scenario = again.map_err(|why| PaperError::Front { place: place.to_owned(), why })?;
    let edited = markdown(templates, &scenario)?.trim_end() != text.trim_end();
    Ok(Written { place: place.to_owned(), scenario, text, edited })
}

fn document(place: &str, text: &str) -> Result<Document, PaperError> {
    Document::read(text).map_err(|fault| PaperError::Document { place: place.to_owned(), fault })
}

/// Makes a paper from these files, or from fresh scenarios where there is none.
///
/// # Errors
/// Too few questions, the same one twice, or one that cannot be varied.
pub fn assemble(
    generator: &Generator,
    templates: &Templates,
    plan: &Plan,
    written: &[Written],
) -> Result<Paper, PaperError> {
    repeated(written)?;
    let all_fresh = written.is_empty();
    let fields: Vec<String> = {
        let graph = generator.graph();
        let all = graph.fields().filter(|(ix, _)| plan.fields.is_empty() || plan.fields.contains(ix));
        all.map(|(_, field)| field.id.clone()).collect()
    };
    let asked_for = |one: &&Written| plan.fields.is_empty() || one.scenario.fields.iter().any(|id| fields.contains(id));
    let written: Vec<&Written> = written.iter().filter(asked_for).collect();
    let mut versions: Vec<Version> = Vec::new();
    for (place, name) in plan.names.iter().enumerate() {
        let first = versions.first().filter(|_| plan.vary == Vary::Parameters);
        let questions = if let Some(first) = first {
            varied(generator, templates, plan, place, first, &versions)?
        } else {
            let pool = if all_fresh { fresh(generator, plan, place, &versions) } else { unused(&written, &versions) };
            let scenarios: Vec<&Scenario> = pool.iter().map(|one| &one.scenario).collect();
            let chosen = choose(&scenarios, &fields, plan.n_short, plan.n_long).map_err(|short| {
                let (form, found, needed) = (short.form, short.found, short.needed);
                PaperError::TooFew { form, version: name.clone(), found, needed }
            })?;
            let chosen = chosen.into_iter().filter_map(|at| pool.get(at).cloned());
            chosen.enumerate().map(|(at, one)| question(templates, at + 1, one)).collect::<Result<_, _>>()?
        };
        versions.push(Version { name: name.clone(), questions });
    }
    Ok(Paper {
        seed: plan.seed,
        concepts: generator.graph().version().to_owned(),
        reading_minutes: extended(plan.reading_minutes, plan.extended_percent),
        writing_minutes: extended(plan.writing_minutes, plan.extended_percent),
        extended_percent: plan.extended_percent,
        versions,
    })
}

/// The same question in two files is a slip of the one who named them.
fn repeated(written: &[Written]) -> Result<(), PaperError> {
    let key = |one: &Written| {
        let front = &one.scenario.front;
        (front.seed, front.attempt, front.path.clone(), front.twist.clone(), front.context.clone())
    };
    for (at, one) in written.iter().enumerate() {
        if let Some(other) = written.iter().skip(at + 1).find(|other| key(other) == key(one)) {
            return Err(PaperError::Same { one: one.place.clone(), other: other.place.clone() });
        }
    }
    Ok(())
}

/// Paths and titles that versions have taken.
fn taken(versions: &[Version]) -> (BTreeSet<&[String]>, BTreeSet<&str>) {
    let questions = versions.iter().flat_map(|version| &version.questions);
    questions.map(|one| (one.scenario.path.as_slice(), one.scenario.title.as_str())).unzip()
}

/// The files whose techniques no version has taken.
fn unused(written: &[&Written], versions: &[Version]) -> Vec<Written> {
    let (paths, titles) = taken(versions);
    let free = |one: &&&Written| {
        !paths.contains(one.scenario.path.as_slice()) && !titles.contains(one.scenario.title.as_str())
    };
    written.iter().filter(free).map(|one| (*one).clone()).collect()
}

/// Fresh scenarios to choose from, of techniques that no version has taken.
fn fresh(generator: &Generator, plan: &Plan, version: usize, versions: &[Version]) -> Vec<Written> {
    let (paths, titles) = taken(versions);
    let graph = generator.graph();
    let path = |ids: &[String]| {
        let steps: Option<Vec<_>> = ids.iter().map(|id| graph.find_influence(id)).collect();
        steps.and_then(|steps| Path::new(graph, steps))
    };
    let mut paths: BTreeSet<Path> = paths.into_iter().filter_map(path).collect();
    let mut run = Run::default();
    let mut refusals = Refusals::default();
    let mut pool: Vec<Written> = Vec::new();
    // Each version has seeds of its own, so that version A is the same whatever others there are.
    let version = u64::try_from(version).unwrap_or(0);
    for (form, needed, stream, choice) in
        [(Form::Short, plan.n_short, 1, CHOICE_SHORT), (Form::Long, plan.n_long, 2, CHOICE_LONG)]
    {
        let wanted = if needed == 0 { 0 } else { choice.0 * needed + choice.1 };
        let mut wishes = wishes(generator, plan, form);
        let mut found = 0;
        let seed = plan.seed.of_run(version, stream);
        for index in 0..MOST_DRAWS * u64::try_from(wanted).unwrap_or(0) {
            if found == wanted || wishes.is_empty() {
                break;
            }
            let turn = usize::try_from(index).unwrap_or(0) % wishes.len();
            let Some(wish) = wishes.get(turn) else { break };
            let wish = Wish { taken: paths.clone(), ..wish.clone() };
            match generate(generator, &wish, seed, index, &mut run, &mut refusals) {
                // Nothing of this field in this form, or nothing more.
                None => {
                    wishes.remove(turn);
                }
                Some(scenario) => {
                    paths.extend(path(&scenario.path));
                    let is_new = !titles.contains(scenario.title.as_str());
                    if is_new {
                        found += 1;
                        pool.push(Written { place: scenario.id.clone(), scenario, text: String::new(), edited: false });
                    }
                }
            }
        }
    }
    pool
}

/// One wish a field, so that each is at hand.
fn wishes(generator: &Generator, plan: &Plan, form: Form) -> Vec<Wish> {
    let fields = generator.graph().fields().map(|(ix, _)| ix);
    let fields = fields.filter(|ix| plan.fields.is_empty() || plan.fields.contains(ix));
    fields.map(|field| Wish { fields: vec![field], form: Some(form), ..Wish::default() }).collect()
}

/// The questions of the first version with other parameters, none of them those of another version.
fn varied(
    generator: &Generator,
    templates: &Templates,
    plan: &Plan,
    version: usize,
    first: &Version,
    versions: &[Version],
) -> Result<Vec<Question>, PaperError> {
    let seed = plan.seed.of_run(u64::try_from(version).unwrap_or(0), 3);
    let vary = |(at, one): (usize, &Question)| {
        let others = || versions.iter().filter_map(|other| other.questions.get(at));
        let seeds = (0..MOST_SEEDS).map(|attempt| seed.of_run(u64::try_from(at).unwrap_or(0), attempt));
        let mut made = seeds.filter_map(|seed: Seed| generator.with_parameters(&one.scenario, seed));
        let new = made.find(|made| others().all(|other| other.scenario.data.printed != made.data.printed));
        let scenario = new.ok_or_else(|| PaperError::NoOtherParameters(one.scenario.title.clone()))?;
        let place = scenario.id.clone();
        question(templates, at + 1, Written { place, scenario, text: String::new(), edited: false })
    };
    first.questions.iter().enumerate().map(vary).collect()
}

/// A chosen scenario as a question of this number; fresh ones get their text here.
fn question(templates: &Templates, number: usize, one: Written) -> Result<Question, PaperError> {
    let Written { place, scenario, text, edited } = one;
    let text = if text.is_empty() { markdown(templates, &scenario)? } else { text };
    let sheet = Sheet::of(&document(&place, &text)?, &format!("question-{number}"));
    let question = Question { number, scenario, text, edited, sheet };
    if question.points() == 0 { Err(PaperError::NoPoints(place)) } else { Ok(question) }
}
