//! `toehold progress`: what attempts show, corrections of points, progress files in and out.

mod correct;
mod list;
mod merge;
mod show;

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use super::attempts;
use super::{Exit, Failure, World};
use crate::progress::StudentCode;

/// What your attempts show: by principle, command term and habit, and what to practise next.
#[derive(Debug, Args)]
#[command(
    args_conflicts_with_subcommands = true,
    after_help = "Examples:
  toehold progress
  toehold progress --student K7 --format json
  toehold progress list                     # attempts, with their ids
  toehold progress list 9f2c                # the points of one
  toehold progress amend 9f2c b1 --earned yes --reason \"the teacher read it again\"
  toehold progress void 9f2c e2 --reason \"the question was unclear\"
  toehold progress add saved/*.json         # what pages have saved; nothing counts twice
  toehold progress export my-progress.json

An estimate is the chance of earning a point of that kind: posterior mean and 95 % interval under the Jeffreys prior \
(Brown, Cai & Das Gupta 2001, Statistical Science 16:101-133), from the latest 20 points.

JSON (version 1):
  {toehold_report, student, attempts, finished, points: {earned, of}, model: {name, source, window},
   principles: [{id, name, earned, of, estimate, low, high, directions: {right, asked}}],
   command_terms: [{id, earned, of, estimate, low, high}], habits: [{id, times}],
   next: {principle, name, why} or null,
   list: [{id, student, started, finished, scenario, title, earned, of}]}
CSV: kind,id,earned,of,estimate,low,high with the kinds principle, command-term, habit (`of` counts the points that it \
lost) and attempt."
)]
pub struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    view: View,
}

/// Which attempts, and how they are shown.
#[derive(Debug, Args)]
struct View {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Of one student only.
    #[arg(long, value_name = "CODE", value_parser = attempts::student)]
    student: Option<StudentCode>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
    /// Use the concepts of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Tables and a sentence
    Text,
    /// One JSON object
    Json,
    /// One row a principle, command term, habit and attempt
    Csv,
}

#[derive(Debug, Subcommand)]
enum Command {
    List(list::Arguments),
    Void(correct::VoidArguments),
    Amend(correct::AmendArguments),
    Add(merge::AddArguments),
    Export(merge::ExportArguments),
}

/// Runs the command.
///
/// # Errors
/// A store or a file that cannot be used; a point that is not there.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    match &arguments.command {
        None => show::run(&arguments.view, world),
        Some(Command::List(arguments)) => list::run(arguments, world),
        Some(Command::Void(arguments)) => correct::void(arguments, world),
        Some(Command::Amend(arguments)) => correct::amend(arguments, world),
        Some(Command::Add(arguments)) => merge::add(arguments, world),
        Some(Command::Export(arguments)) => merge::export(arguments, world),
    }
}
