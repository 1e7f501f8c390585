//! Looking again whenever a file changes, until stopped.

use std::path::PathBuf;
use std::time::Duration;

use super::{Exit, Failure, World, files};

/// Time between two looks at the files.
const PAUSE: Duration = Duration::from_millis(400);
/// How long files must rest after a change, and how often that is waited for.
const REST: Duration = Duration::from_millis(100);
const MOST_RESTS: usize = 20;

/// Looks now, and again whenever what stands under the paths differs; ends when the reader of the output goes away. What
/// is said of watching goes to standard error, so that the output holds nothing but results.
///
/// # Errors
/// The first look fails, or the output cannot be written. What fails later is said, and the next change looked at: a file
/// half saved is read again.
pub(super) fn watch(
    paths: &[PathBuf],
    world: &mut World<'_>,
    mut look: impl FnMut(&mut World<'_>) -> Result<Exit, Failure>,
) -> Result<Exit, Failure> {
    let mut before = state(paths);
    look(world)?;
    world.out.flush()?;
    writeln!(world.err, "\n== watching; ctrl-c ends ==")?;
    loop {
        std::thread::sleep(PAUSE);
        let mut now = state(paths);
        if before == now {
            continue;
        }
        // A file that is being written is left in peace until it rests.
        for _ in 0..MOST_RESTS {
            std::thread::sleep(REST);
            let again = state(paths);
            if again == now {
                break;
            }
            now = again;
        }
        for change in changes(&before, &now) {
            writeln!(world.err, "\n== {change} ==")?;
        }
        match look(world) {
            Ok(_) => {}
            Err(failure) if failure.quiet => return Err(failure),
            Err(failure) => failure.tell(world)?,
        }
        world.out.flush()?;
        before = now;
    }
}

/// Paths and contents of everything that is looked at; of a path that cannot be read, the path alone.
type State = std::collections::BTreeMap<String, Option<Vec<u8>>>;

fn state(paths: &[PathBuf]) -> State {
    let mut state = State::new();
    for path in paths {
        let mut read = files::Read::default();
        if files::read(path, &mut read).is_err() {
            state.insert(path.display().to_string(), None);
        }
        for file in read.concepts.iter().chain(&read.scenarios) {
            state.insert(file.path().display().to_string(), Some(file.bytes().to_vec()));
        }
    }
    state
}

/// What became of which file, as clauses.
fn changes(before: &State, now: &State) -> Vec<String> {
    let mut changes = Vec::new();
    for (path, content) in now {
        match (before.get(path), content) {
            (Some(old), _) if old == content => {}
            (_, None) => changes.push(format!("`{path}` cannot be read")),
            (None, _) => changes.push(format!("`{path}` is new")),
            (Some(_), _) => changes.push(format!("`{path}` changed")),
        }
    }
    changes.extend(before.keys().filter(|path| !now.contains_key(*path)).map(|path| format!("`{path}` is gone")));
    changes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_became_of_files_is_told() {
        let state = |files: &[(&str, Option<&str>)]| -> State {
            files.iter().map(|(path, text)| ((*path).to_owned(), text.map(|text| text.as_bytes().to_vec()))).collect()
        };
        let before = state(&[("a", Some("1")), ("b", Some("1")), ("c", Some("1")), ("d", Some("1"))]);
        let now = state(&[("a", Some("1")), ("b", Some("2")), ("c", None), ("e", Some("1"))]);
        let told = ["`b` changed", "`c` cannot be read", "`e` is new", "`d` is gone"];
        assert_eq!(changes(&before, &now), told);
        assert!(changes(&now, &now).is_empty());
    }
}
