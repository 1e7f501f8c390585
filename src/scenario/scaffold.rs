//! "What do you already know": the path step by step, from principle to prediction.

use super::ScaffoldStep;
use super::text::{Voice, capital};
use super::write::Verdicts;
use crate::concepts::graph::Recall;
use crate::concepts::written::WrongSign;
use crate::concepts::{InfluenceIx, QuantityIx};
use crate::reasoning::Direction;
use crate::seed::Stream;

/// One scaffold step for each step of the path.
pub(super) fn scaffold(voice: &Voice<'_>, verdicts: &Verdicts) -> Vec<ScaffoldStep> {
    let mut stream = voice.technique.seed.stream(&format!("scaffold/{}", voice.technique.attempt));
    let causes = verdicts.causes(voice.technique);
    let mut steps: Vec<ScaffoldStep> = Vec::new();
    for ((ix, cause), step) in causes.iter().zip(verdicts.plain.path()) {
        let asked: Vec<String> = steps.iter().map(|step| step.recall.clone()).collect();
        steps.push(scaffold_step(voice, &mut stream, &asked, (*ix, *cause, step.then)));
    }
    steps
}

fn scaffold_step(
    voice: &Voice<'_>,
    stream: &mut Stream,
    asked: &[String],
    (ix, cause, effect): (InfluenceIx, Direction, Direction),
) -> ScaffoldStep {
    let influence = voice.graph.influence(ix);
    let principle = voice.graph.principle(influence.principle);
    let told = influence.told.is_some();
    // Two steps of one principle do not ask the same; what comes first in its list belongs to the first of them.
    let fresh: Vec<&Recall> = principle.recall.iter().filter(|recall| !asked.contains(&recall.ask)).collect();
    let steps = voice.technique.path.steps();
    let shared = steps.iter().filter(|step| voice.graph.influence(**step).principle == influence.principle).count() > 1;
    let drawn = stream.pick(&fresh).copied();
    let recall = if shared { fresh.first().copied() } else { drawn }.or_else(|| principle.recall.first());
    let (recall, answer) = match recall {
        Some(recall) if !told => (recall.ask.clone(), recall.answer.clone()),
        _ => (String::new(), String::new()),
    };
    let wrong = principle.misconceptions.iter().find(|wrong| wrong.gives == Some(WrongSign::Flipped));
    let wrong = wrong.or_else(|| principle.misconceptions.iter().find(|wrong| wrong.gives.is_some()));
    ScaffoldStep {
        influence: influence.id.clone(),
        recall,
        answer,
        role: capital(plain_question(&voice.later(&influence.role.ask, Some(ix)))),
        role_answer: voice.role_answer(ix),
        step: format!("{} {}: {}", capital(&signed(voice, influence.from)), goes(cause), signed(voice, influence.to)),
        direction: effect.word(),
        told,
        reply: wrong.map(|wrong| format!("“{}” {}", wrong.belief.trim_end_matches('.'), wrong.fails)),
    }
}

/// A quantity as a step names it: of one that lies below nought, some would say "up" of its size.
fn signed(voice: &Voice<'_>, quantity: QuantityIx) -> String {
    let (low, high) = voice.graph.quantity(quantity).range;
    let the = voice.the(quantity);
    if -low > high { format!("{the} (counted with its sign)") } else { the }
}

/// The question without the word that the section already says.
fn plain_question(ask: &str) -> &str {
    ask.strip_prefix("Here:").map_or(ask, str::trim_start)
}

fn goes(direction: Direction) -> &'static str {
    match direction {
        Direction::Rises => "goes up",
        Direction::Falls => "goes down",
        Direction::Unchanged => "stays",
    }
}
