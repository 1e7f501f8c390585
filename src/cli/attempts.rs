//! Attempts enter and leave here: the store in the user's data folder, or the one that was named.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::{Failure, World};
use crate::concepts::Graph;
use crate::progress::{Known, NameError, PrincipleId, Store, StoreError, StudentCode};
use crate::technique::Catalogue;

/// Names another file, where `--data` does not.
const VARIABLE: &str = "TOEHOLD_DATA";
/// The file in the data folder.
const FILE: &str = "attempts.sqlite";

/// Where attempts are kept.
///
/// # Errors
/// No home folder.
fn place(given: Option<&Path>) -> Result<PathBuf, Failure> {
    if let Some(path) = given {
        return Ok(path.to_path_buf());
    }
    if let Some(path) = std::env::var_os(VARIABLE).filter(|path| !path.is_empty()) {
        return Ok(PathBuf::from(path));
    }
    let folders = etcetera::choose_base_strategy().map_err(|error| {
        Failure::new(format!("there is no data folder: {error}")).hint("name a file with --data FILE")
    })?;
    Ok(folders.data_dir().join("toehold").join(FILE))
}

/// Opens the store, or makes it.
///
/// # Errors
/// A file that is none of ours, or a place that cannot be used.
pub(super) fn open(given: Option<&Path>) -> Result<Store, Failure> {
    Ok(Store::open(&place(given)?)?)
}

/// Opens the store to look into it. None where nothing was recorded yet in a place that nobody named.
///
/// # Errors
/// As [`open`]; a file that was named and is not there.
pub(super) fn look(given: Option<&Path>) -> Result<Option<Store>, Failure> {
    let path = place(given)?;
    if path.symlink_metadata().is_ok() {
        return Ok(Some(Store::open(&path)?));
    }
    match given {
        Some(_) => Err(Failure::new(format!("`{}` could not be read: it is not there", path.display()))
            .hint("`toehold practise --data FILE` makes it")),
        None => Ok(None),
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Self {
        let failure = Self::new(error.to_string());
        match error.hint() {
            Some(hint) => failure.hint(hint),
            None => failure,
        }
    }
}

impl From<NameError> for Failure {
    fn from(error: NameError) -> Self {
        Self::new(error.to_string())
    }
}

/// A student's code as typed.
pub(super) fn student(code: &str) -> Result<StudentCode, String> {
    StudentCode::new(code).map_err(|error: NameError| error.to_string())
}

/// The principles of the concepts; practicable are those on a path that can be drawn.
pub(super) fn known(graph: &Graph, catalogue: &Catalogue) -> Vec<Known> {
    let steps = catalogue.candidates().iter().flat_map(|candidate| candidate.path.steps());
    let drawn: std::collections::BTreeSet<_> = steps.map(|step| graph.influence(*step).principle).collect();
    let id = |text: &str| PrincipleId::new(text).ok();
    let known = graph.principles().filter_map(|(ix, principle)| {
        let requires = principle.requires.iter().filter_map(|ix| id(&graph.principle(*ix).id)).collect();
        Some(Known { id: id(&principle.id)?, requires, practicable: drawn.contains(&ix) })
    });
    known.collect()
}

/// What a principle is called; its id where the concepts do not have it.
pub(super) fn principle_name(graph: &Graph, id: &PrincipleId) -> String {
    graph.find_principle(id.as_str()).map_or_else(|| id.to_string(), |ix| graph.principle(ix).name.clone())
}

/// Text without what would move the cursor or change colours: it may come from a file.
pub(super) fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() && c != '\n' { ' ' } else { c }).collect()
}

/// Tells that nothing was recorded yet.
///
/// # Errors
/// The output cannot be written.
pub(super) fn nothing_yet(world: &mut World<'_>) -> Result<(), Failure> {
    writeln!(world.out, "Nothing recorded yet: `toehold practise` begins.")?;
    Ok(())
}
