//! `toehold laws`: the library of laws, listed, shown, evaluated.

mod eval;
mod list;
pub(super) mod plot;
mod show;

use clap::{Args, Subcommand, ValueEnum};
use serde_json::{Map, Value as Json};

use super::{Exit, Failure, World, columns};
use crate::laws::{self, Law, Value, nearest};

const EXAMPLES: &str = "Examples:
  toehold laws
  toehold laws show gel-mobility
  toehold laws show michaelis-menten --svg > curve.svg
  toehold laws eval michaelis-menten vmax=100 km=2 substrate=3
  toehold laws eval michaelis-menten vmax=100 km=2 substrate=0:10:0.5
  toehold laws eval chi-square observed=5474,1850 expected=5493,1831 --format json";

const EVAL_EXAMPLES: &str =
    "Values are read in the units that `toehold laws show NAME` states. One input may be a range
(start:stop:step): the result is then a table of comma-separated values.

Examples:
  toehold laws eval solute-potential particles=1 concentration=0.3 temperature=22
  toehold laws eval mixed-inhibition vmax=100 km=2 substrate=3 inhibitor=1 ki_free=1 ki_bound=inf
  toehold laws eval quenching constant=0.1 quencher=0:100:10
  toehold laws eval shannon counts=50,30,20 --format json";

/// List the laws, show one, or evaluate one.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Arguments {
    #[command(subcommand)]
    action: Option<Action>,
    /// How to print the result.
    #[arg(long, value_enum, global = true)]
    format: Option<Format>,
}

/// How a result is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// Comma-separated values (`eval` only).
    Csv,
}

#[derive(Debug, Subcommand)]
enum Action {
    /// Show one law: formula, symbols, units, range, source, a plot.
    Show(show::Arguments),
    /// Evaluate one law.
    #[command(after_help = EVAL_EXAMPLES)]
    Eval(eval::Arguments),
}

/// Runs the command.
///
/// # Errors
/// A message for the user.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let is_text = arguments.format.is_none_or(|format| format == Format::Text);
    match &arguments.action {
        None => columns::fit(is_text, world, |world| list::run(arguments.format, world)),
        Some(Action::Show(show)) => {
            columns::fit(is_text && !show.is_picture(), world, |world| show::run(show, arguments.format, world))
        }
        Some(Action::Eval(eval)) => eval::run(eval, arguments.format, world),
    }
}

/// The law of this name, or a message with the nearest.
fn named(name: &str) -> Result<&'static Law, Failure> {
    laws::find(name).ok_or_else(|| {
        let failure = Failure::new(format!("no law is called `{name}`"));
        match nearest(name, laws::all().map(|law| law.id)) {
            Some(near) => failure.hint(format!("did you mean `{near}`?")),
            None => failure.hint("`toehold laws` lists them all"),
        }
    })
}

/// Version of the shapes of a law and of a value; lists have it in each entry.
const VERSION: u32 = 1;

/// A number for programs; JSON has no endless ones.
fn json_number(number: f64) -> Json {
    serde_json::Number::from_f64(number).map_or(Json::Null, Json::Number)
}

fn json_value(value: &Value) -> Json {
    match value {
        Value::Number(number) => json_number(*number),
        Value::List(numbers) => Json::Array(numbers.iter().copied().map(json_number).collect()),
        Value::Text(text) => Json::String(text.clone()),
    }
}

/// An object from its members, in this order.
fn object<const N: usize>(members: [(&str, Json); N]) -> Json {
    Json::Object(members.into_iter().map(|(key, value)| (key.to_owned(), value)).collect::<Map<_, _>>())
}

/// Prints JSON over several lines.
fn print_json(json: &Json, world: &mut World<'_>) -> Result<Exit, Failure> {
    let text = serde_json::to_string_pretty(json).map_err(|error| Failure::new(error.to_string()))?;
    writeln!(world.out, "{text}")?;
    Ok(Exit::Done)
}
