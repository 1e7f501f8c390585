//! `toehold review`: responses against a scoring guide, point by point, with the words that show it.

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::{Exit, Failure, World, files};
use crate::guide::{self, GuideError};
use crate::render::Document;
use crate::review::{EvidenceRole, Guide, Habit, Lexicon, Review, Reviewer, Status, StepState};

/// Review responses against a scoring guide: advice with evidence; the score is yours.
#[derive(Debug, Args)]
#[command(after_help = "GUIDE is a scenario (.md), or a plain guide in JSON or YAML:
  {question, command_term, count?, points: [{id, statement, accept: [..], reject: [..], ideas?}]}
RESPONSES is Markdown by part, `(a) …`, or a list `[{id, text}]` in JSON or YAML. The id of a response is
the label of its part in a scenario, and one student's name under a plain guide.

Each point is `found`, `not-found`, `contradicted` or `look-again`. Places in JSON count characters
(Unicode scalar values) from 0.

Examples:
  toehold review this-week/salty-clasp-wells-long-31.md answers.md
  toehold review guide.yaml class.json --format json")]
pub struct Arguments {
    /// A scenario (.md) or a plain guide (.json, .yaml).
    guide: PathBuf,
    /// Markdown by part, or a list in JSON or YAML.
    responses: PathBuf,
    /// For readers, or for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Take the words of a scenario's things from the concept files of this folder.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
}

/// How results are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For readers.
    Text,
    /// For programs.
    Json,
}

/// Runs the command.
///
/// # Errors
/// A file that cannot be read or is of another shape; a response that answers no question.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let (guide, lexicon) = guide_of(&arguments.guide, arguments.concepts.as_deref(), world)?;
    let text = files::scenario_text(&arguments.responses)?;
    let is_list = ends_with(&arguments.responses, &["json", "yaml", "yml"]);
    let responses = guide::responses(&text, is_list).map_err(|error| failure(&arguments.responses, &error))?;
    let reviewer = Reviewer::new(&guide, &lexicon);
    let mut reviews = Vec::new();
    for response in &responses {
        let labels: Vec<&str> = guide.questions.iter().map(|question| question.id.as_str()).collect();
        let review = reviewer.review(response).ok_or_else(|| {
            let message = format!("`{}`: no question has the label `{}`", arguments.responses.display(), response.id);
            Failure::new(message).hint(format!("the guide asks {}", labels.join(", ")))
        })?;
        reviews.push(review);
    }
    match arguments.format {
        Format::Json => writeln!(world.out, "{}", json(&reviews)?)?,
        Format::Text => show(&reviews, &guide, world.out)?,
    }
    Ok(Exit::Done)
}

pub(super) fn json<T: serde::Serialize + ?Sized>(value: &T) -> Result<String, Failure> {
    serde_json::to_string_pretty(value).map_err(|error| Failure::new(format!("could not write the output: {error}")))
}

/// The guide of a file, and the words of its topic.
fn guide_of(path: &Path, concepts: Option<&Path>, world: &mut World<'_>) -> Result<(Guide, Lexicon), Failure> {
    let text = files::scenario_text(path)?;
    if ends_with(path, &["json", "yaml", "yml"]) {
        let guide = guide::plain(&text).map_err(|error| failure(path, &error))?;
        return Ok((guide, Lexicon::default()));
    }
    let read = guide::scenario(&text).map_err(|error| failure(path, &error))?;
    let front = Document::read(&text).map(|document| document.front).unwrap_or_default();
    let graph = files::graph(concepts, world)?;
    Ok((read, guide::lexicon(&graph, &front)))
}

fn ends_with(path: &Path, endings: &[&str]) -> bool {
    path.extension().is_some_and(|ending| endings.iter().any(|one| ending.eq_ignore_ascii_case(one)))
}

fn failure(path: &Path, error: &GuideError) -> Failure {
    let message = format!("{}:{}:{}: {}", path.display(), error.line, error.column, error.message);
    Failure::new(message).hint(error.hint.clone())
}

/// The reviews in words.
fn show(reviews: &[Review], guide: &Guide, out: &mut dyn Write) -> Result<(), Failure> {
    for review in reviews {
        writeln!(out, "({})", review.response)?;
        for point in &review.points {
            let status = match point.status {
                Status::Found => "found",
                Status::NotFound => "not found",
                Status::Contradicted => "contradicted",
                Status::LookAgain => "look again",
            };
            writeln!(out, "  {:<4} {status}", point.id)?;
            if point.status != Status::Found
                && let Some(wanted) =
                    guide.questions.iter().flat_map(|one| &one.points).find(|wanted| wanted.id == point.id)
            {
                writeln!(out, "         wanted: {}", wanted.statement)?;
            }
            for evidence in &point.evidence {
                let role = if evidence.role == EvidenceRole::Earns { "says" } else { "but says" };
                writeln!(out, "         {role}: “{}” ({}–{})", evidence.text, evidence.start, evidence.end)?;
            }
        }
        for habit in &review.habits {
            writeln!(out, "  habit: {}", words(habit))?;
        }
        for step in review.chain.iter().filter(|step| step.state != StepState::Said) {
            let state = if step.state == StepState::Missing { "missing step" } else { "step out of order" };
            writeln!(out, "  {state}: {}", step.step)?;
        }
    }
    writeln!(out, "Advice from words alone: the score is yours.")?;
    Ok(())
}

fn words(habit: &Habit) -> String {
    match habit {
        Habit::Blank => "nothing was written; a try costs nothing".to_owned(),
        Habit::Restates { per_cent } => format!("{per_cent} % of the words restate the question, which earns nothing"),
        Habit::Bullets { items } => format!("a list of {items} items where sentences are due"),
        Habit::OverCount { asked, given } => {
            format!("{given} things named where {asked} asked for: the rest was not read")
        }
        Habit::NoReason { command_term } => format!("“{command_term}” asks for a reason, and none is given"),
        Habit::NoSetup => "a result without its setup, which earns on its own".to_owned(),
        Habit::UnitMissing { unit } => format!("a number without its unit ({unit})"),
        Habit::Figures { shown, guide } => {
            format!("{shown} significant figures where the guide shows {guide}; this costs nothing")
        }
    }
}
