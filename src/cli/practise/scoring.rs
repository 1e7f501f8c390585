//! Scoring: the guide beside the answer, point by point; then where points were lost, and what comes next.

use std::collections::BTreeMap;

use super::desk::{Desk, Stop};
use super::lettering::{question, table};
use crate::cli::attempts::{plain, principle_name};
use crate::concepts::Graph;
use crate::progress::{
    CommandTerm, HabitId, Known, PartLabel, PointLabel, PrincipleId, Score, Standing, Verdict, Why, next, report,
};
use crate::scenario::{Part, PartKind, Point, Scenario};

/// Habits that lose points, as a student would own up to them (common practice, no source).
const HABITS: &[(&str, &str)] = &[
    ("restates", "it says the question again"),
    ("bullets", "a list where sentences are due"),
    ("over-count", "more answers than were asked for"),
    ("no-reason", "no reason or link"),
    ("no-setup", "no setup of the calculation"),
    ("unit-missing", "no unit, or a wrong one"),
    ("contradicts", "a later statement denies it"),
    ("misread", "the question was misread"),
    ("not-known", "the principle was not known"),
];

/// What a reviewer says of the answer to one part: advice; the score is the student's.
#[derive(Debug, Default)]
pub(super) struct Advice {
    /// Labels of points, each with a line that says what was found and on which words that rests.
    pub(super) points: Vec<(String, String)>,
    /// Lines on the answer as a whole.
    pub(super) remarks: Vec<String>,
    /// Habits that it saw, by id.
    pub(super) habits: Vec<&'static str>,
}

/// Reads an answer to a part beside its guide.
pub(super) type Reviewer<'a> = &'a dyn Fn(&Scenario, &Part, &str) -> Advice;

/// Scores every point that has no score yet.
pub(super) fn score(desk: &mut Desk<'_, '_>, scenario: &Scenario, reviewer: Reviewer<'_>) -> Result<(), Stop> {
    desk.heading("Scoring");
    desk.say(
        "Compare each answer with its guide and score it yourself, point by point. A right statement that is contradicted \
         later does not earn; an answer that follows from an earlier wrong one earns its own point; spelling and grammar \
         cost nothing.",
    );
    for part in &scenario.parts {
        let open = |desk: &Desk<'_, '_>, point: &Point| {
            !desk.attempt().scores.iter().any(|score| score.point.as_str() == point.point)
        };
        let points: Vec<&Point> =
            scenario.guide.iter().filter(|point| point.part == part.label && open(desk, point)).collect();
        if points.is_empty() {
            continue;
        }
        let answer = desk.attempt().answer(&format!("part-{}", part.label)).map(|answer| answer.text.clone());
        let answer = answer.unwrap_or_default();
        desk.say(&format!("\n{}", question(part)));
        desk.say("Your answer:");
        desk.say_within(&if answer.is_empty() { "(left blank)".to_owned() } else { plain(&answer) });
        let twisted = scenario.twist.as_ref().filter(|_| part.kind == PartKind::PredictAndJustify);
        if let Some(data) = twisted.and_then(|twist| twist.data.as_ref()) {
            desk.say("Computed for the changed experiment:");
            desk.say_lines(&table(data));
        }
        let advice = if answer.is_empty() { Advice::default() } else { reviewer(scenario, part, &answer) };
        for remark in &advice.remarks {
            desk.say(&format!("Review: {remark}"));
        }
        for point in points {
            score_point(desk, part, point, &advice)?;
        }
    }
    Ok(())
}

fn score_point(desk: &mut Desk<'_, '_>, part: &Part, point: &Point, advice: &Advice) -> Result<(), Stop> {
    desk.say(&format!("\nPoint {}: {}", point.point, point.statement));
    if !point.accept.is_empty() {
        desk.say_within(&format!("also: {}", point.accept.join("; ")));
    }
    if !point.reject.is_empty() {
        desk.say_within(&format!("not: {}", point.reject.join("; ")));
    }
    for (_, line) in advice.points.iter().filter(|(label, _)| *label == point.point) {
        desk.say_within(&format!("review: {line}"));
    }
    let earned = loop {
        match desk.ask("earned? y or n > ")?.trim().to_lowercase().as_str() {
            "y" | "yes" => break true,
            "n" | "no" => break false,
            _ => desk.say("Points are whole: write y or n."),
        }
    };
    let habits = if earned { Vec::new() } else { habits(desk, advice)? };
    let principle = point.principle.as_ref().map(|id| PrincipleId::new(id.clone())).transpose()?;
    desk.score(Score {
        part: PartLabel::new(part.label.clone())?,
        point: PointLabel::new(point.point.clone())?,
        earned,
        principles: principle.into_iter().collect(),
        command_term: CommandTerm::new(part.command_term.clone())?,
        habits,
        at: desk.attempt().started,
    })
}

/// Which habits lost a point; the reviewer's where the student names none.
fn habits(desk: &mut Desk<'_, '_>, advice: &Advice) -> Result<Vec<HabitId>, Stop> {
    desk.say("What lost it? Numbers with spaces between them, or Enter.");
    for ((_, words), number) in HABITS.iter().zip(1..) {
        desk.say_within(&format!("{number} {words}"));
    }
    if !advice.habits.is_empty() {
        desk.say_within(&format!("(Enter takes what the review saw: {})", advice.habits.join(", ")));
    }
    loop {
        let typed = desk.ask("> ")?;
        let numbers: Option<Vec<usize>> = typed.split_whitespace().map(|word| word.parse().ok()).collect();
        let chosen: Option<Vec<&str>> =
            numbers.and_then(|numbers| numbers.iter().map(|n| Some(HABITS.get(n.checked_sub(1)?)?.0)).collect());
        let Some(chosen) = chosen else {
            desk.say(&format!("Numbers from 1 to {}, or Enter.", HABITS.len()));
            continue;
        };
        let chosen = if chosen.is_empty() { advice.habits.clone() } else { chosen };
        return Ok(chosen.into_iter().filter_map(|id| HabitId::new(id).ok()).collect());
    }
}

/// Where points were lost, and what comes next.
pub(super) fn close(desk: &mut Desk<'_, '_>, graph: &Graph, known: &[Known]) -> Result<(), Stop> {
    let (earned, of) = desk.attempt().points();
    desk.heading("Where you stand");
    desk.say(&format!("{earned} of {of} points."));
    let attempt = desk.attempt().clone();
    let lost: Vec<&Score> = attempt
        .standing()
        .into_iter()
        .filter(|standing| standing.verdict == Verdict::NotEarned)
        .map(|Standing { score, .. }| score)
        .collect();
    let principles = counted(lost.iter().flat_map(|score| &score.principles).map(|id| principle_name(graph, id)));
    let terms = counted(lost.iter().map(|score| score.command_term.to_string()));
    let habits = counted(lost.iter().flat_map(|score| &score.habits).map(|id| habit_words(id).to_owned()));
    for (kind, lost) in [("principle", principles), ("command term", terms), ("habit", habits)] {
        if !lost.is_empty() {
            let listed: Vec<String> = lost.iter().map(|(name, n)| format!("{name} ({n})")).collect();
            desk.say(&format!("Lost by {kind}: {}.", listed.join("; ")));
        }
    }
    let all = desk.store().attempts(attempt.student.as_ref())?;
    if let Some(next) = next(&report(&all), known) {
        let name = principle_name(graph, &next.principle);
        desk.say(&format!("\nNext: {name}. {}", reason(&next.why)));
        desk.say_within(&format!("toehold practise --principle {}", next.principle));
    }
    desk.show()
}

/// Why a principle comes next, in a sentence.
pub(in crate::cli) fn reason(why: &Why) -> String {
    match why {
        Why::Weakest(estimate) => format!(
            "Of what you have practised it is the weakest whose prerequisites are in place: {} of {} points, an estimate \
             of {:.2} ({:.2} to {:.2}).",
            estimate.earned, estimate.of, estimate.mean, estimate.low, estimate.high
        ),
        Why::Unmet => "No point has shown it yet, and what it rests on is in place.".to_owned(),
    }
}

/// A habit in words.
pub(in crate::cli) fn habit_words(id: &HabitId) -> &str {
    HABITS.iter().find(|(known, _)| *known == id.as_str()).map_or(id.as_str(), |(_, words)| words)
}

fn counted(names: impl Iterator<Item = String>) -> BTreeMap<String, u32> {
    let mut counts = BTreeMap::new();
    for name in names {
        *counts.entry(name).or_insert(0) += 1;
    }
    counts
}
