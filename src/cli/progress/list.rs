//! `toehold progress list`: attempts with their ids, or the points of one.

use std::path::PathBuf;

use clap::Args;
use serde::Serialize;

use super::Format;
use super::show::AttemptView;
use crate::cli::attempts::{self, plain};
use crate::cli::{Exit, Failure, World};
use crate::progress::{Attempt, Standing, StudentCode, Verdict};

/// List attempts with their ids, or the points of one.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold progress list
  toehold progress list 9f2c

JSON: a list of {id, student, started, finished, scenario, title, earned, of}; for one attempt a list of {point, part, \
command_term, principles, habits, scored, counts} with `scored` earned or not-earned, and `counts` earned, not-earned or \
void.")]
pub(super) struct Arguments {
    /// An attempt's id, or its beginning.
    attempt: Option<String>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Of one student only.
    #[arg(long, value_name = "CODE", value_parser = attempts::student)]
    student: Option<StudentCode>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
}

/// A point of an attempt.
#[derive(Serialize)]
struct PointView<'a> {
    point: &'a str,
    part: &'a str,
    command_term: &'a str,
    principles: Vec<&'a str>,
    habits: Vec<&'a str>,
    scored: &'static str,
    counts: &'static str,
}

impl<'a> PointView<'a> {
    fn of(standing: &Standing<'a>) -> Self {
        let score = standing.score;
        Self {
            point: score.point.as_str(),
            part: score.part.as_str(),
            command_term: score.command_term.as_str(),
            principles: score.principles.iter().map(crate::progress::PrincipleId::as_str).collect(),
            habits: score.habits.iter().map(crate::progress::HabitId::as_str).collect(),
            scored: if score.earned { Verdict::Earned.word() } else { Verdict::NotEarned.word() },
            counts: standing.verdict.word(),
        }
    }

    fn cells(&self) -> [String; 7] {
        let joined = |names: &[&str]| names.join(" ");
        [
            self.point.into(),
            self.part.into(),
            self.command_term.into(),
            joined(&self.principles),
            joined(&self.habits),
            self.scored.into(),
            self.counts.into(),
        ]
    }
}

pub(super) fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let Some(store) = attempts::look(arguments.data.as_deref())? else {
        attempts::nothing_yet(world)?;
        return Ok(Exit::Done);
    };
    match &arguments.attempt {
        None => {
            let found = store.attempts(arguments.student.as_ref())?;
            all(arguments.format, &found, world)?;
        }
        Some(beginning) => {
            let id = store.find(beginning)?;
            points(arguments.format, &store.attempt(&id)?, world)?;
        }
    }
    Ok(Exit::Done)
}

fn all(format: Format, found: &[Attempt], world: &mut World<'_>) -> Result<(), Failure> {
    let views: Vec<AttemptView<'_>> = found.iter().map(AttemptView::of).collect();
    match format {
        Format::Text if found.is_empty() => attempts::nothing_yet(world),
        Format::Text => found.iter().try_for_each(|attempt| line(attempt, world)),
        Format::Json => json(&views, world),
        Format::Csv => csv(&views, world),
    }
}

fn points(format: Format, attempt: &Attempt, world: &mut World<'_>) -> Result<(), Failure> {
    let standing = attempt.standing();
    let views: Vec<PointView<'_>> = standing.iter().map(PointView::of).collect();
    match format {
        Format::Json => json(&views, world),
        Format::Csv => {
            let mut rows = csv::Writer::from_writer(Vec::new());
            let header = ["point", "part", "command_term", "principles", "habits", "scored", "counts"];
            let written = rows
                .write_record(header)
                .and_then(|()| views.iter().try_for_each(|view| rows.write_record(view.cells())));
            written.map_err(|error| Failure::new(error.to_string()))?;
            finish(rows, world)
        }
        Format::Text => {
            line(attempt, world)?;
            for view in &views {
                let corrected = if view.scored == view.counts { "" } else { ", corrected" };
                let about = [view.principles.join(", "), view.habits.join(", ")];
                let about: Vec<&str> = about.iter().map(String::as_str).filter(|text| !text.is_empty()).collect();
                writeln!(
                    world.out,
                    "  {:4}  {}{corrected}  ({}) {}",
                    view.point,
                    view.counts,
                    view.command_term,
                    about.join("; ")
                )?;
            }
            for correction in &attempt.corrections {
                let why = correction.reason.as_ref().map_or_else(String::new, |why| format!(": {}", plain(why)));
                writeln!(
                    world.out,
                    "  {} {} {}{why}",
                    correction.at.day(),
                    correction.point,
                    correction.verdict.word()
                )?;
            }
            Ok(())
        }
    }
}

/// An attempt on one line.
pub(super) fn line(attempt: &Attempt, world: &mut World<'_>) -> Result<(), Failure> {
    let (earned, of) = attempt.points();
    let state = if attempt.is_finished() { format!("{earned} of {of}") } else { "unfinished".to_owned() };
    let student = attempt.student.as_ref().map_or_else(String::new, |code| format!("  {code}"));
    let title = plain(&attempt.scenario.title);
    writeln!(world.out, "{}  {}  {state:>10}  {title}{student}", attempt.id, attempt.started.day())?;
    Ok(())
}

fn json<T: Serialize>(views: &[T], world: &mut World<'_>) -> Result<(), Failure> {
    let line = serde_json::to_string(views).map_err(|error| Failure::new(error.to_string()))?;
    writeln!(world.out, "{line}")?;
    Ok(())
}

fn csv(views: &[AttemptView<'_>], world: &mut World<'_>) -> Result<(), Failure> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    views.iter().try_for_each(|view| rows.serialize(view)).map_err(|error| Failure::new(error.to_string()))?;
    finish(rows, world)
}

fn finish(rows: csv::Writer<Vec<u8>>, world: &mut World<'_>) -> Result<(), Failure> {
    let bytes = rows.into_inner().map_err(|error| Failure::new(error.to_string()))?;
    world.out.write_all(&bytes)?;
    Ok(())
}
