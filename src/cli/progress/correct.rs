//! `toehold progress void` and `amend`: a later word on a point, beside the score and not over it.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::list;
use crate::cli::attempts;
use crate::cli::{Exit, Failure, World};
use crate::progress::{Correction, PointLabel, Verdict};

/// Let a point count neither as earned nor as lost.
#[derive(Debug, Args)]
#[command(after_help = "Example:
  toehold progress void 9f2c e2 --reason \"the question was unclear\"

The score stays in the file; the correction stands beside it. `amend` brings the point back.")]
pub(super) struct VoidArguments {
    #[command(flatten)]
    point: Place,
}

/// Score a point anew: earned after all, or not.
#[derive(Debug, Args)]
#[command(after_help = "Example:
  toehold progress amend 9f2c b1 --earned yes --reason \"the teacher read it again\"

The score stays in the file; the correction stands beside it, and every report follows the latest one.")]
pub(super) struct AmendArguments {
    #[command(flatten)]
    point: Place,
    /// Whether it is earned.
    #[arg(long, value_enum)]
    earned: YesNo,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum YesNo {
    Yes,
    No,
}

/// A point of an attempt.
#[derive(Debug, Args)]
struct Place {
    /// An attempt's id, or its beginning.
    attempt: String,
    /// A point of its guide, such as b1.
    #[arg(value_parser = label)]
    point: PointLabel,
    /// Why; one line.
    #[arg(long, value_name = "TEXT", value_parser = line)]
    reason: Option<String>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
}

fn label(text: &str) -> Result<PointLabel, String> {
    PointLabel::new(text).map_err(|error| error.to_string())
}

fn line(text: &str) -> Result<String, String> {
    if text.chars().any(char::is_control) || text.len() > 1000 {
        return Err("a reason is one line of at most 1000 letters".to_owned());
    }
    Ok(text.to_owned())
}

pub(super) fn void(arguments: &VoidArguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    correct(&arguments.point, Verdict::Void, world)
}

pub(super) fn amend(arguments: &AmendArguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let verdict = if arguments.earned == YesNo::Yes { Verdict::Earned } else { Verdict::NotEarned };
    correct(&arguments.point, verdict, world)
}

fn correct(place: &Place, verdict: Verdict, world: &mut World<'_>) -> Result<Exit, Failure> {
    let Some(mut store) = attempts::look(place.data.as_deref())? else {
        return Err(Failure::new("nothing recorded yet").hint("`toehold practise` begins"));
    };
    let id = store.find(&place.attempt)?;
    let correction =
        Correction { point: place.point.clone(), verdict, reason: place.reason.clone(), at: world.moment() };
    store.correct(&id, &correction)?;
    list::line(&store.attempt(&id)?, world)?;
    Ok(Exit::Done)
}
