//! `toehold check --fix` and `--watch`: mending what is mechanical, and checking again when a file changes.

use super::super::{Exit, Failure, World, store, watch};
use super::{Arguments, concepts, given, once};
use crate::author::mend;

/// Rounds of mending: a word put right lets the next fault be seen.
const ROUNDS: usize = 5;

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

/// Checks now, and again whenever a file changes.
///
/// # Errors
/// The first check cannot be made, or the output cannot be written.
pub(super) fn watch(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let paths: Vec<_> = arguments.paths.iter().chain(&arguments.concepts).cloned().collect();
    if paths.is_empty() {
        return Err(Failure::new("--watch needs files to watch: the program's own concepts do not change")
            .hint("name concept files, scenarios or a folder of them"));
    }
    watch::watch(&paths, world, |world| once(arguments, world))
}
