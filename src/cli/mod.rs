//! The command line: one file a subcommand, one door ([`run`]) through which output and environment enter.
//!
//! Comes in: the arguments. Goes out: an [`Exit`]. This room knows every other; nobody knows it.

mod arrow;
mod attempts;
pub mod check;
mod columns;
mod diagram;
mod disk;
pub mod explain;
mod files;
pub mod generate;
pub mod graph;
pub mod laws;
pub mod map;
pub mod new;
mod pages;
pub mod paper;
pub mod practise;
mod print;
pub mod progress;
pub mod read;
pub mod render;
pub mod review;
pub mod schema;
pub mod shell;
mod store;
mod watch;
mod ways;

use std::ffi::OsString;
use std::io::{self, BufRead, Write};

use clap::{Parser, Subcommand};

use crate::progress::Moment;

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Done.
    Done = 0,
    /// `check` found a fault in a file that it could read.
    Found = 1,
    /// Something else that the user can mend.
    Bad = 2,
}

/// A message for the user, with a hint where there is one: shown as `error: …` and `hint: …`, exit code 2.
#[derive(Debug)]
pub struct Failure {
    /// Lower-case fragment, no full stop, user's words in backticks.
    pub message: String,
    /// What to do about it.
    pub hint: Option<String>,
    /// The reader of our output went away: no fault, and nobody to tell.
    quiet: bool,
}

impl Failure {
    /// A message without a hint.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), hint: None, quiet: false }
    }

    /// The same with a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Says it on standard error, fitted to the width of a terminal.
    ///
    /// # Errors
    /// It cannot be written.
    fn tell(&self, world: &mut World<'_>) -> io::Result<()> {
        let hint = self.hint.iter().map(|hint| format!("hint: {hint}"));
        for text in std::iter::once(format!("error: {}", self.message)).chain(hint) {
            match world.err_width {
                Some(width) => writeln!(world.err, "{}", columns::fitted(&text, width))?,
                None => writeln!(world.err, "{text}")?,
            }
        }
        Ok(())
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        let failure = Self::new(format!("could not write the output: {error}"));
        Self { quiet: error.kind() == io::ErrorKind::BrokenPipe, ..failure }
    }
}

/// The outer world as a command sees it, so that a test can stand in for it.
pub struct World<'a> {
    /// What is typed, or piped in.
    pub input: &'a mut dyn BufRead,
    /// Whether it is typed: a pipe does not show what came through it.
    pub typed: bool,
    /// Results go here.
    pub out: &'a mut dyn Write,
    /// Progress and errors go here.
    pub err: &'a mut dyn Write,
    /// Whether the reader sees colours (a terminal that is not `dumb`, and `NO_COLOR` unset).
    pub colour: bool,
    /// Characters in a line of the terminal that shows `out`; none where that is no terminal.
    pub width: Option<usize>,
    /// The same of `err`.
    pub err_width: Option<usize>,
    /// Whether standard error is a terminal (progress bars).
    pub interactive: bool,
    /// Time since 1970 in nanoseconds: where a seed is not given, it comes from here.
    pub now: u64,
    /// The clock: time since 1970 in nanoseconds, whenever it is asked.
    pub clock: &'a dyn Fn() -> u64,
}

impl World<'_> {
    /// A seed from the clock.
    fn clock_seed(&self) -> u64 {
        crate::seed::Seed(self.now).of_run(1, 0).0
    }

    /// This moment.
    fn moment(&self) -> Moment {
        Moment::from_ms(i64::try_from((self.clock)() / 1_000_000).unwrap_or(i64::MAX))
    }
}

/// Original invented-technique biology questions whose data are computed and whose answers are proved.
#[derive(Debug, Parser)]
#[command(name = "toehold", version, about, max_term_width = 100)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Generate(generate::Arguments),
    Check(check::Arguments),
    Explain(explain::Arguments),
    Map(map::Arguments),
    Graph(graph::Arguments),
    New(new::Arguments),
    Schema(schema::Arguments),
    Paper(Box<paper::Arguments>),
    Practise(practise::Arguments),
    Progress(progress::Arguments),
    Read(read::Arguments),
    Render(render::Arguments),
    Review(review::Arguments),
    Laws(laws::Arguments),
    Completions(shell::Completions),
    Man(shell::Man),
}

/// Runs one command and reports how it ended. A reader that closes the pipe early is no fault.
pub fn run<I, T>(arguments: I, world: &mut World<'_>) -> Exit
where
    I: IntoIterator<Item = T>,
    T: Into<OsString> + Clone,
{
    let parsed = match Arguments::try_parse_from(arguments) {
        Ok(parsed) => parsed,
        Err(error) => return usage(&error, world),
    };
    let result = match &parsed.command {
        Command::Generate(arguments) => generate::run(arguments, world),
        Command::Check(arguments) => check::run(arguments, world),
        Command::Explain(arguments) => explain::run(arguments, world),
        Command::Graph(arguments) => graph::run(arguments, world),
        Command::Map(arguments) => map::run(arguments, world),
        Command::Paper(arguments) => paper::run(arguments, world),
        Command::Practise(arguments) => practise::run(arguments, world),
        Command::Progress(arguments) => progress::run(arguments, world),
        Command::Read(arguments) => read::run(arguments, world),
        Command::Render(arguments) => render::run(arguments, world),
        Command::Review(arguments) => review::run(arguments, world),
        Command::Laws(arguments) => laws::run(arguments, world),
        Command::New(arguments) => new::run(arguments, world),
        Command::Schema(arguments) => schema::run(arguments, world),
        Command::Completions(arguments) => shell::completions(arguments, world),
        Command::Man(arguments) => shell::man(arguments, world),
    };
    match result {
        Ok(exit) => exit,
        Err(failure) if failure.quiet => Exit::Done,
        Err(failure) => {
            // Where standard error cannot be written, nobody is left to tell.
            let _ = failure.tell(world);
            Exit::Bad
        }
    }
}

/// Help and version go to standard output and are no fault; wrong use goes to standard error.
fn usage(error: &clap::Error, world: &mut World<'_>) -> Exit {
    let text = error.render();
    if error.use_stderr() {
        let _ = write!(world.err, "{text}");
        Exit::Bad
    } else {
        let _ = write!(world.out, "{text}");
        Exit::Done
    }
}
