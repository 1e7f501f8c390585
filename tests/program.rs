//! The program itself, run on arguments from the folder of the tests.

use std::path::{Path, PathBuf};
use std::process::Command;

/// What a run printed, and how it ended.
#[derive(Debug)]
pub(crate) struct Run {
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
    /// Exit code.
    pub(crate) code: i32,
}

/// The folder of the tests.
pub(crate) fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests")
}

/// Runs the program in the folder of the tests.
pub(crate) fn toehold(arguments: &[&str]) -> Run {
    let output = Command::new(env!("CARGO_BIN_EXE_toehold")).args(arguments).current_dir(tests()).output().unwrap();
    Run {
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        code: output.status.code().unwrap_or(-1),
    }
}

/// Says that something is not tested here, and why: aloud, since what a test prints is kept back when it passes.
pub(crate) fn skipped(why: &str) {
    use std::io::Write as _;
    let _ = writeln!(std::io::stderr(), "skipped: {why}");
}

/// What becomes of each, in order; the work is shared out.
pub(crate) fn in_threads<T: Sync, U: Send>(all: &[T], work: impl Fn(&T) -> U + Sync) -> Vec<U> {
    let n = std::thread::available_parallelism().map_or(1, usize::from);
    let share = all.len().div_ceil(n).max(1);
    std::thread::scope(|scope| {
        let work = &work;
        let started: Vec<_> =
            all.chunks(share).map(|chunk| scope.spawn(move || chunk.iter().map(work).collect::<Vec<U>>())).collect();
        started.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    })
}

/// All files under a folder of the tests, by name, with paths relative to the folder of the tests.
pub(crate) fn files_under(folder: &str) -> Vec<String> {
    let mut files = Vec::new();
    let mut open = vec![PathBuf::from(folder)];
    while let Some(here) = open.pop() {
        for entry in std::fs::read_dir(tests().join(&here)).unwrap() {
            let entry = entry.unwrap();
            let path = here.join(entry.file_name());
            if entry.file_type().unwrap().is_dir() { open.push(path) } else { files.push(path) }
        }
    }
    let mut names: Vec<String> = files.iter().map(|path| path.to_str().unwrap().to_owned()).collect();
    names.sort();
    names
}
