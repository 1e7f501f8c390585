//! `toehold check --fix` and `--watch`: mending what is mechanical, and checking again when a file changes.

use std::time::Duration;

use super::super::{Exit, Failure, World, store};
use super::{Arguments, concepts, given, once};
use crate::author::mend;

/// Rounds of mending: a word put right lets the next fault be seen.
const ROUNDS: usize = 5;
/// Time between two looks at the files.
const PAUSE: Duration = Duration::from_millis(500);

/// Mends the concept files that were named, each in one move, and says what was changed.
///
/// # Errors
/// No concept file was named, or one cannot be written.
pub(super) fn fix(arguments: &Arguments, world: &mut World<'_>) -> Result<(), Failure> {
    if given(arguments)?.concepts.is_empty() {
        return Err(Failure::new("--fix needs concept files to mend").hint("name YAML files or a folder of them"));
    }
    for _ in 0..ROUNDS {
        let given = given(arguments)?;
        let checked = concepts(arguments, &given)?;
        let mut changed = false;
        for file in &given.concepts {
            let path = file.path().display().to_string();
            let Some(id) = checked.sources.ids().find(|id| checked.sources.path(*id) == path) else { continue };
            // A text that could not be read whole is not written back.
            if checked.sources.fault(id).is_some() {
                continue;
            }
            let (text, done) = mend(&checked.sources, id, checked.faults());
            if text != checked.sources.text(id) {
                store::write(file.path(), &text, true)?;
                changed = true;
                for one in done {
                    writeln!(world.out, "mended {path}:{}: {}", one.line, one.what)?;
                }
            }
        }
        if !changed {
            break;
        }
    }
    Ok(())
}

/// Checks now, and again whenever the contents of a file differ; ends when the reader of the output goes away.
///
/// # Errors
/// The output cannot be written.
pub(super) fn watch(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let mut before = None;
    loop {
        let now = state(arguments);
        if before.as_ref() != Some(&now) {
            if before.is_some() {
                writeln!(world.out, "\n== a file changed ==")?;
            }
            if let Err(failure) = once(arguments, world) {
                if failure.quiet {
                    return Err(failure);
                }
                // A file half saved is read again at the next look.
                writeln!(world.out, "error: {}", failure.message)?;
            }
            world.out.flush()?;
            before = Some(now);
        }
        std::thread::sleep(PAUSE);
    }
}

/// Paths and contents of everything that is checked.
fn state(arguments: &Arguments) -> Vec<(String, Vec<u8>)> {
    let mut paths = arguments.paths.clone();
    paths.extend(arguments.concepts.clone());
    let mut read = super::files::Read::default();
    for path in &paths {
        if super::files::read(path, &mut read).is_err() {
            return Vec::new();
        }
    }
    let files = read.concepts.iter().chain(&read.scenarios);
    files.map(|file| (file.path().display().to_string(), file.bytes().to_vec())).collect()
}
