//! `toehold schema`: JSON Schemas of the YAML files, for editors.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::{Exit, Failure, World, store};
use crate::author::{concepts_schema, plan_schema, scenario_schema};

/// Print or write JSON Schemas (draft 2020-12) of concept files and of the front matter of scenarios and plans.
///
/// An editor that knows them completes keys and marks what may not stand there. Beyond that, `toehold check` knows more.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold schema > concepts.schema.json
  toehold schema --of scenario
  toehold schema --out schemas

Many editors read a first line such as:
  # yaml-language-server: $schema=../schemas/concepts.schema.json")]
pub struct Arguments {
    /// Whose schema is printed.
    #[arg(long, value_enum, default_value_t = Of::Concepts)]
    of: Of,
    /// Write all of them into this folder instead.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// Kinds of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Of {
    /// A concept file.
    Concepts,
    /// The front matter of a scenario.
    Scenario,
    /// The front matter of a plan for a scenario.
    Plan,
}

/// Runs the command.
///
/// # Errors
/// A file that exists or cannot be written.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let Some(folder) = &arguments.out else {
        let schema = match arguments.of {
            Of::Concepts => concepts_schema(),
            Of::Scenario => scenario_schema(),
            Of::Plan => plan_schema(),
        };
        writeln!(world.out, "{schema:#}")?;
        return Ok(Exit::Done);
    };
    store::folder(folder)?;
    for (name, schema) in [("concepts", concepts_schema()), ("scenario", scenario_schema()), ("plan", plan_schema())] {
        let path = folder.join(format!("{name}.schema.json"));
        store::write(&path, &format!("{schema:#}\n"), arguments.force)?;
        writeln!(world.out, "{}", path.display())?;
    }
    Ok(Exit::Done)
}
