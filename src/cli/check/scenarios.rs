//! Scenario files within `toehold check`: proofread one by one, summed up at the end.

use serde_json::{Value, json};

use super::super::files::ReadFile;
use super::super::{Failure, World};
use super::count;
use crate::diagnostic::{self, Diagnostic};
use crate::proof::{n_faults, proofread, too_alike};
use crate::render::Templates;
use crate::scenario::Generator;
use crate::source::{FileId, Sources};

/// Scenarios and what was found in them.
pub(super) struct Proof {
    sources: Sources,
    files: Vec<(FileId, Vec<Diagnostic>)>,
}

impl Proof {
    /// Proofreads them all.
    ///
    /// # Errors
    /// A template that does not work.
    pub(super) fn of(files: &[ReadFile], generator: &Generator, templates: &Templates) -> Result<Self, Failure> {
        let mut sources = Sources::new();
        let ids: Vec<FileId> = files.iter().map(|file| file.add_to(&mut sources)).collect();
        let mut proof = Self { sources, files: Vec::new() };
        for id in ids {
            let found = proofread(&proof.sources, id, generator, templates)
                .map_err(|error| Failure::new(format!("a template does not work: {error}")))?;
            proof.files.push((id, found));
        }
        let ids: Vec<FileId> = proof.files.iter().map(|(id, _)| *id).collect();
        for alike in too_alike(&proof.sources, &ids) {
            let file = proof.files.iter_mut().find(|(id, _)| *id == alike.primary.file);
            if let Some((_, found)) = file {
                found.push(alike);
            }
        }
        Ok(proof)
    }

    /// Faults of all files.
    pub(super) fn n_faults(&self) -> usize {
        self.files.iter().map(|(_, found)| n_faults(found)).sum()
    }
}

/// Every fault, the files that were passed over, and one line in all.
pub(super) fn text(proof: Option<&Proof>, skipped: &[String], world: &mut World<'_>) -> Result<(), Failure> {
    let Some(proof) = proof else { return Ok(()) };
    for fault in proof.files.iter().flat_map(|(_, found)| found) {
        writeln!(world.out, "{}", diagnostic::terminal(&proof.sources, fault, world.colour))?;
    }
    for path in skipped {
        writeln!(world.out, "note: `{path}` has no front matter: it was passed over")?;
    }
    let n_warnings = proof.files.iter().map(|(_, found)| found.len()).sum::<usize>() - proof.n_faults();
    let scenarios = count(proof.files.len(), "scenario");
    let summary = match proof.n_faults() {
        0 => format!("{scenarios}, no fault"),
        n => {
            let with = proof.files.iter().filter(|(_, found)| n_faults(found) > 0).count();
            format!("{scenarios}, {} in {}", count(n, "fault"), count(with, "file"))
        }
    };
    match n_warnings {
        0 => writeln!(world.out, "{summary}")?,
        n => writeln!(world.out, "{summary}, {} to look at", count(n, "place"))?,
    }
    Ok(())
}

/// Adds the files with their faults, where scenarios were checked.
pub(super) fn add_to(object: &mut Value, proof: Option<&Proof>, skipped: &[String]) {
    let (Some(proof), Some(fields)) = (proof, object.as_object_mut()) else { return };
    let files: Vec<Value> = proof
        .files
        .iter()
        .map(|(id, found)| {
            let faults: Vec<Value> = found.iter().map(|fault| diagnostic::json(&proof.sources, fault)).collect();
            json!({ "path": proof.sources.path(*id), "ok": n_faults(found) == 0, "faults": faults })
        })
        .collect();
    if proof.n_faults() > 0 {
        fields.insert("ok".to_owned(), false.into());
    }
    fields.insert("files".to_owned(), files.into());
    fields.insert("skipped".to_owned(), skipped.into());
}
