//! `toehold completions` and `toehold man`: made from the same description of the commands as `--help`.

use std::path::PathBuf;

use clap::{Args, CommandFactory as _};
use clap_complete::Shell;

use super::{Exit, Failure, World, store};

/// Print completions for a shell.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold completions bash > ~/.local/share/bash-completion/completions/toehold
  toehold completions fish > ~/.config/fish/completions/toehold.fish")]
pub struct Completions {
    /// The shell.
    #[arg(value_enum)]
    shell: Shell,
}

/// Print the manual page, or write one for each command.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold man | man -l -
  toehold man --out ~/.local/share/man/man1")]
pub struct Man {
    /// Write a page for each command into this folder.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// Prints completions.
///
/// # Errors
/// The output cannot be written.
pub fn completions(arguments: &Completions, world: &mut World<'_>) -> Result<Exit, Failure> {
    // The generator takes no error: it writes into memory, and the bytes go out through the one door.
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut super::Arguments::command(), "toehold", &mut text);
    world.out.write_all(&text)?;
    Ok(Exit::Done)
}

/// Prints or writes manual pages.
///
/// # Errors
/// The output or a file cannot be written.
pub fn man(arguments: &Man, world: &mut World<'_>) -> Result<Exit, Failure> {
    let mut command = super::Arguments::command();
    command.build();
    let page = |command: &clap::Command| -> Result<Vec<u8>, Failure> {
        let mut text = Vec::new();
        clap_mangen::Man::new(command.clone()).render(&mut text)?;
        Ok(text)
    };
    let Some(folder) = &arguments.out else {
        world.out.write_all(&page(&command)?)?;
        return Ok(Exit::Done);
    };
    store::folder(folder)?;
    for (name, command) in commands("toehold".to_owned(), &command) {
        let path = folder.join(format!("{name}.1"));
        store::write_bytes(&path, &page(command)?, arguments.force)?;
        writeln!(world.out, "{}", path.display())?;
    }
    Ok(Exit::Done)
}

/// A command and all below it, each with the name of its page.
fn commands(name: String, command: &clap::Command) -> Vec<(String, &clap::Command)> {
    let below = command.get_subcommands().filter(|inner| inner.get_name() != "help");
    let below: Vec<_> = below.flat_map(|inner| commands(format!("{name}-{}", inner.get_name()), inner)).collect();
    [(name, command)].into_iter().chain(below).collect()
}
