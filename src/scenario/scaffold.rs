//! "What do you already know": the path step by step, from principle to prediction.

use super::belief::WrongAnswer;
use super::text::{Voice, capital};
use super::write::Verdicts;
use super::{Reply, ScaffoldStep};
use crate::concepts::graph::Recall;
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
    ScaffoldStep {
        influence: influence.id.clone(),
        recall,
        answer,
        role: capital(plain_question(&voice.later(&influence.role.ask, Some(ix)))),
        role_answer: voice.role_answer(ix),
        step: format!("{} {}: {}", capital(&signed(voice, influence.from)), goes(cause), signed(voice, influence.to)),
        direction: effect.word(),
        told,
        replies: replies(voice, ix, effect),
    }
}

/// What each wrong direction betrays, where a belief is known that leads there.
fn replies(voice: &Voice<'_>, ix: InfluenceIx, effect: Direction) -> Vec<Reply> {
    let opposite = match effect {
        Direction::Rises => Direction::Falls,
        Direction::Falls | Direction::Unchanged => Direction::Rises,
    };
    let answers = [(opposite, WrongAnswer::Opposite), (Direction::Unchanged, WrongAnswer::NoChange)];
    let reply = |(direction, answer): (Direction, WrongAnswer)| {
        let wrong = voice.belief_behind(ix, answer)?;
        let text = format!("“{}” {}", wrong.belief.trim_end_matches('.'), wrong.fails);
        Some(Reply { to: direction.word(), text })
    };
    answers.into_iter().filter_map(reply).collect()
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
