//! The loop: read and plan, recall, walk the steps, commit, see the outcome, answer.
//!
//! It runs from its beginning each time: what was answered before is passed over, so that a sitting that was left goes on
//! where it stopped.

use super::desk::{Desk, Stop};
use super::lettering::{covered, on_curve, question, table, wrapped};
use crate::concepts::Graph;
use crate::progress::{Check, PrincipleId, Support};
use crate::scenario::{Part, PartKind, ScaffoldStep, Scenario};

/// The key under which an attempt remembers that its support does not fade.
pub(super) const STEADY: &str = "support-steady";
/// Seconds of reading for a point (common practice, no source: ten minutes for two long questions and six short ones, about
/// 42 points).
const READING_S: i64 = 15;
/// Seconds of writing for a point (common practice, no source: 80 minutes for the same).
const WRITING_S: i64 = 115;

/// Everything up to the last answer.
pub(super) fn sit(desk: &mut Desk<'_, '_>, scenario: &Scenario, graph: &Graph, timed: bool) -> Result<(), Stop> {
    let points: i64 = scenario.parts.iter().map(|part| i64::from(part.points)).sum();
    if timed {
        desk.time("reading", READING_S * points);
    }
    read(desk, scenario)?;
    if timed {
        desk.time("writing", WRITING_S * points);
    }
    let later = steps(desk, scenario, graph)?;
    predict(desk, scenario)?;
    outcome(desk, scenario, &later)?;
    for part in &scenario.parts {
        answer(desk, scenario, part)?;
    }
    Ok(())
}

fn read(desk: &mut Desk<'_, '_>, scenario: &Scenario) -> Result<(), Stop> {
    let cautions = "A thought experiment, not a protocol: nothing here is to be carried out as it stands. Local safety \
                    rules and a qualified supervisor come first in any laboratory.";
    let cautions = format!("{cautions} {}", scenario.cautions.join(" "));
    let mut text = vec![wrapped(&cautions, "! "), wrapped(&scenario.purpose, ""), wrapped(&scenario.how.join(" "), "")];
    if desk.attempt().answer("prediction").is_none() {
        text.push(wrapped("The data stay covered until you have committed a prediction.", ""));
        text.push(covered(scenario));
    }
    desk.keep(&scenario.title, &text.join("\n"));
    desk.heading("The questions");
    for part in &scenario.parts {
        // These can be read without the data; others would hand over what is to be predicted.
        match part.kind {
            PartKind::Describe | PartKind::Explain | PartKind::Identify => desk.say(&question(part)),
            _ => desk.say(&format!("({}) {}: shown with the data", part.label, part.command_term.to_uppercase())),
        }
    }
    desk.say("\nRead all of it, then press Enter. Ctrl-D leaves; what was saved stays.");
    desk.line("reading")?;
    desk.heading("Plan");
    desk.say(
        "In a few words: what is set, what is read, which principles may lie between? End with an empty line. \
         Nobody scores this.",
    );
    desk.lines("plan")?;
    Ok(())
}

/// The steps; those whose answers are to come after the prediction are handed back.
fn steps<'s>(
    desk: &mut Desk<'_, '_>,
    scenario: &'s Scenario,
    graph: &Graph,
) -> Result<Vec<(usize, &'s ScaffoldStep)>, Stop> {
    let start = desk.attempt().support;
    if start == Support::None {
        return Ok(Vec::new());
    }
    let steady = desk.attempt().answer(STEADY).is_some();
    desk.heading("What do you already know?");
    let n = scenario.scaffold.len();
    let mut later = Vec::new();
    let mut directions = Vec::new();
    for (step, number) in scenario.scaffold.iter().zip(1..) {
        let support = if steady { start } else { start.after(&directions) };
        desk.say(&format!("\nStep {number} of {n} (support: {})", support.word()));
        questions(desk, step, number, support)?;
        let principle = principle(graph, step);
        let check = |word: &str| Check { right: word == step.direction, principle: principle.clone() };
        desk.say(&format!("{} ...", step.step));
        let first = desk.direction(&format!("step-{number}/direction"), check)?;
        let right = first == step.direction;
        directions.push(right);
        if support == Support::Prompts {
            later.push((number, step));
            continue;
        }
        if !right {
            match step.reply(&first) {
                Some(reply) => desk.say(&format!("Not so. A common belief leads there: {reply}")),
                None => desk.say(&format!("Not so. Think of this: {}", step.role_answer)),
            }
            desk.say("Once more:");
            desk.direction(&format!("step-{number}/direction-again"), check)?;
        }
        desk.say(&format!("So: {} {}.", step.step, ends(step.direction)));
    }
    desk.say("\nThe chain: from the first to the last, in one sentence with “because” in it.");
    desk.line("chain")?;
    Ok(later)
}

/// Recall and role, as far as the support goes.
fn questions(desk: &mut Desk<'_, '_>, step: &ScaffoldStep, number: usize, support: Support) -> Result<(), Stop> {
    if step.told {
        desk.say("The text tells this step: nothing to recall.");
    } else {
        desk.say(&format!("Recall. {}", step.recall));
        if support != Support::Prompts {
            desk.line(&format!("step-{number}/recall"))?;
            desk.say_within(&step.answer);
        }
    }
    match support {
        Support::Full => {
            desk.say(&format!("Here. {}", step.role));
            desk.line(&format!("step-{number}/role"))?;
            desk.say_within(&step.role_answer);
        }
        Support::Completion => {
            desk.say(&format!("Here. {}", step.role));
            desk.say_within(&step.role_answer);
        }
        Support::Prompts | Support::None => desk.say(&format!("Here. {}", step.role)),
    }
    Ok(())
}

/// The principle of a step.
fn principle(graph: &Graph, step: &ScaffoldStep) -> Option<PrincipleId> {
    let influence = graph.influence(graph.find_influence(&step.influence)?);
    PrincipleId::new(graph.principle(influence.principle).id.clone()).ok()
}

/// How the sentence of a step ends.
fn ends(direction: &str) -> &'static str {
    match direction {
        "rises" => "goes up",
        "falls" => "goes down",
        _ => "stays the same",
    }
}

fn predict(desk: &mut Desk<'_, '_>, scenario: &Scenario) -> Result<(), Stop> {
    desk.heading("Your prediction");
    desk.say(&format!(
        "{} goes up from level to level. What does {} do? Once given, the prediction is locked.",
        scenario.dial.name, scenario.reading.the
    ));
    let right = scenario.prediction.direction;
    desk.direction("prediction", |word| Check { right: word == right, principle: None })?;
    Ok(())
}

fn outcome(desk: &mut Desk<'_, '_>, scenario: &Scenario, later: &[(usize, &ScaffoldStep)]) -> Result<(), Stop> {
    desk.keep("The outcome", &table(&scenario.data));
    let predicted = desk.attempt().answer("prediction").map(|answer| answer.text.clone()).unwrap_or_default();
    let computed = scenario.prediction.direction;
    desk.say(&format!("\nYou predicted: {predicted}. Computed: {computed}."));
    for (number, step) in later {
        let told = if step.told { String::new() } else { format!("{} ", step.answer) };
        desk.say(&format!("\nStep {number}. {told}{} {} {}.", step.role_answer, step.step, ends(step.direction)));
        let given = desk.attempt().answer(&format!("step-{number}/direction")).map(|answer| answer.text.clone());
        if given.as_deref().is_some_and(|given| given != step.direction) {
            let given = given.unwrap_or_default();
            let reply =
                step.reply(&given).map_or_else(String::new, |reply| format!(" A common belief leads there: {reply}"));
            desk.say_within(&format!("You wrote: {given}.{reply}"));
        }
    }
    if desk.attempt().answer("outcome").is_none() {
        along_the_curve(desk, scenario)?;
    }
    if predicted != computed {
        desk.say("\nYour prediction and the outcome differ. Where did the chain go another way? One line.");
        desk.line("compare")?;
    }
    Ok(())
}

/// Any level's reading on the model's own curve, until the student has seen enough.
fn along_the_curve(desk: &mut Desk<'_, '_>, scenario: &Scenario) -> Result<(), Stop> {
    let curve = &scenario.data.curve;
    let unit = &scenario.dial.unit_shown;
    let ends = curve.first().zip(curve.last());
    if let Some(((from, _), (to, _))) = ends {
        desk.say(&format!(
            "\nThe model's curve: write a level from {from} to {to} {unit} to see its reading without noise."
        ));
    }
    loop {
        let typed = desk.ask("level, or Enter to go on > ")?;
        if typed.trim().is_empty() {
            return desk.keep_answer("outcome", "", None);
        }
        match typed.trim().replace(',', ".").parse().ok().and_then(|level| on_curve(curve, level)) {
            Some(reading) => {
                desk.say_within(&format!("{}: {reading:.4} {}", scenario.reading.name, scenario.reading.unit_shown));
            }
            None => desk.say_within("There is no reading at that level."),
        }
    }
}

fn answer(desk: &mut Desk<'_, '_>, scenario: &Scenario, part: &Part) -> Result<(), Stop> {
    if scenario.parts.first() == Some(part) {
        desk.heading("Your answers");
        desk.say(
            "Whole sentences; no more answers than are asked for; the setup of a calculation earns by itself; nothing \
             left blank. End each answer with an empty line.",
        );
    }
    desk.say(&format!("\n{}", question(part)));
    match part.kind {
        PartKind::Construct => {
            desk.say("(Draw it on paper, then write here what it shows and how its axes are named.)");
        }
        PartKind::PredictAndJustify => desk.say("(Which one of the steps no longer works as before?)"),
        _ => {}
    }
    desk.lines(&format!("part-{}", part.label))?;
    Ok(())
}
