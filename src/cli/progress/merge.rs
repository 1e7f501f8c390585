//! `toehold progress add` and `export`: progress files in and out.

use std::fs;
use std::path::{Path, PathBuf};

use clap::Args;

use crate::cli::attempts;
use crate::cli::{Exit, Failure, World, files, store};
use crate::progress::{Attempt, StoreError, StudentCode, read_file, record, write_file};

/// Bytes of a progress file at most.
const LIMIT: u64 = 64 * 1024 * 1024;

/// Take in progress files that pages have saved or `export` has written.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold progress add monday.json
  toehold progress add class/*.json --data class.sqlite

Every attempt has a unique id and every entry is taken in once: a file may be added again, also after it has grown. Each \
line `saved ID` is printed when that attempt is on the disk. A file with a fault is left out whole, and the others are \
added; the exit code is then 2.")]
pub(super) struct AddArguments {
    /// Progress files (.json).
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
}

/// Write all attempts into a progress file, to carry to another device.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold progress export my-progress.json
  toehold progress export K7.json --student K7

JSON (version 1):
  {toehold_progress: 1, attempts: [{id, student, started, support,
    scenario: {id, title, seed, form, points, principles, front},
    answers: [{step, text, right, principle, at}],
    scores: [{part, point, earned, principles, command_term, habits, at}],
    corrections: [{point, verdict, reason, at}]}]}")]
pub(super) struct ExportArguments {
    /// The file to write; - for standard output.
    file: PathBuf,
    /// Of one student only.
    #[arg(long, value_name = "CODE", value_parser = attempts::student)]
    student: Option<StudentCode>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
    /// Replace a file that exists.
    #[arg(long)]
    force: bool,
}

pub(super) fn add(arguments: &AddArguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let mut store = attempts::open(arguments.data.as_deref())?;
    let mut exit = Exit::Done;
    let (mut n_new, mut n_entries, mut n_known) = (0_u64, 0, 0_u64);
    for path in &arguments.files {
        let found = match read(path) {
            Ok(found) => found,
            Err(fault) => {
                tell(&fault, world)?;
                exit = Exit::Bad;
                continue;
            }
        };
        for attempt in &found {
            match record(&mut store, attempt) {
                Ok(recorded) => {
                    n_new += u64::from(recorded.new);
                    n_known += u64::from(!recorded.new);
                    n_entries += recorded.n_entries;
                    writeln!(world.out, "saved {}", attempt.id)?;
                    world.out.flush()?;
                }
                Err(error @ StoreError::OtherAttempt(_)) => {
                    let fault = Failure::new(format!("`{}`: {error}", path.display()));
                    tell(&fault.hint("it was left out; the others were added"), world)?;
                    exit = Exit::Bad;
                }
                Err(error) => return Err(error.into()),
            }
        }
    }
    writeln!(world.out, "attempts: {n_new} new, {n_known} known before; entries: {n_entries} new")?;
    Ok(exit)
}

fn tell(fault: &Failure, world: &mut World<'_>) -> Result<(), Failure> {
    writeln!(world.err, "error: {}", fault.message)?;
    if let Some(hint) = &fault.hint {
        writeln!(world.err, "hint: {hint}")?;
    }
    Ok(())
}

fn read(path: &Path) -> Result<Vec<Attempt>, Failure> {
    let about = fs::metadata(path).map_err(|error| files::unreadable(path, &error))?;
    if about.len() > LIMIT {
        let message = format!("`{}` is too large: {} bytes, at most {LIMIT} are read", path.display(), about.len());
        return Err(Failure::new(message).hint("is it a progress file?"));
    }
    let bytes = fs::read(path).map_err(|error| files::unreadable(path, &error))?;
    let text = String::from_utf8(bytes).map_err(|_| {
        Failure::new(format!("`{}` is not UTF-8 text", path.display()))
            .hint("a progress file is saved by the page or written by `toehold progress export`")
    })?;
    read_file(&text).map_err(|fault| {
        Failure::new(format!("{}:{}:{}: {}", path.display(), fault.line, fault.column, fault.message)).hint(fault.hint)
    })
}

pub(super) fn export(arguments: &ExportArguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let found = match attempts::look(arguments.data.as_deref())? {
        Some(store) => store.attempts(arguments.student.as_ref())?,
        None => Vec::new(),
    };
    let text = write_file(&found);
    if arguments.file == Path::new("-") {
        world.out.write_all(text.as_bytes())?;
        return Ok(Exit::Done);
    }
    store::write(&arguments.file, &text, arguments.force)?;
    writeln!(world.out, "{}: attempts: {}", arguments.file.display(), found.len())?;
    Ok(Exit::Done)
}
