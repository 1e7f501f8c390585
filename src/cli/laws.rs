//! `toehold laws`: the library of laws, listed, shown, evaluated.

use clap::Args;

use super::{Exit, Failure, World};

/// List the laws, show one, or evaluate one.
#[derive(Debug, Args)]
pub struct Arguments {}

/// Runs the command.
///
/// # Errors
/// A message for the user.
pub fn run(_arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    for law in crate::laws::all() {
        writeln!(world.out, "{}", law.id)?;
    }
    Ok(Exit::Done)
}
