//! Questions from paths: one file at a time, so that their number does not matter.

use std::fs;
use std::path::{Path, PathBuf};

use super::{Item, World, files};
use crate::cli::Failure;
use crate::concepts::Graph;
use crate::coverage::{TextReader, is_progress_file, of_scenario};
use crate::proof::has_front_matter;
use crate::render::Document;

/// Endings of files that are read.
const ENDINGS: &[&str] = &["md", "markdown", "txt", "text"];
/// How deep folders within folders are searched.
const DEEPEST: usize = 8;

/// The items of all files under the paths, and how many files had a fault, which has then been shown.
///
/// # Errors
/// A path that leads nowhere, or to nothing that is read.
pub(super) fn all(graph: &Graph, paths: &[PathBuf], world: &mut World<'_>) -> Result<(Vec<Item>, usize), Failure> {
    let mut items = Vec::new();
    let mut n_faults = 0;
    // Made only where a text needs it.
    let mut reader = None;
    for path in paths {
        let mut found = Vec::new();
        walk(path, 0, &mut found)?;
        if found.is_empty() {
            return Err(Failure::new(format!("`{}` holds nothing that can be mapped", path.display()))
                .hint(format!("files end in .{}", ENDINGS.join(", ."))));
        }
        for file in found {
            if let Err(failure) = one(graph, &mut reader, &file, &mut items) {
                n_faults += 1;
                writeln!(world.err, "error: {}", failure.message)?;
                if let Some(hint) = failure.hint {
                    writeln!(world.err, "hint: {hint}")?;
                }
            }
        }
    }
    Ok((items, n_faults))
}

/// Files in the order of their names. Links to folders are not followed, so that no circle is; a file that was named
/// itself is taken whatever its ending.
fn walk(path: &Path, depth: usize, found: &mut Vec<PathBuf>) -> Result<(), Failure> {
    let unreadable = |error| files::unreadable(path, &error);
    let about = if depth == 0 { fs::metadata(path) } else { fs::symlink_metadata(path) }.map_err(unreadable)?;
    if !about.is_dir() {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
        if depth == 0 || ENDINGS.contains(&ending.as_str()) {
            found.push(path.to_owned());
        }
        return Ok(());
    }
    if depth > DEEPEST {
        return Ok(());
    }
    let mut entries = Vec::new();
    for entry in fs::read_dir(path).map_err(unreadable)? {
        entries.push(entry.map_err(unreadable)?.path());
    }
    entries.sort();
    entries.iter().try_for_each(|entry| walk(entry, depth + 1, found))
}

fn one<'g>(
    graph: &'g Graph,
    reader: &mut Option<TextReader<'g>>,
    path: &Path,
    items: &mut Vec<Item>,
) -> Result<(), Failure> {
    let text = files::scenario_text(path)?;
    let file = path.display().to_string();
    if is_progress_file(&text) {
        return Err(Failure::new(format!("`{file}` holds practice attempts, no questions"))
            .hint("`toehold map --class` reads such files: which principles a class has earned"));
    }
    if !has_front_matter(&text) {
        let found = reader.get_or_insert_with(|| TextReader::new(graph)).items(&file, &text);
        // A note that asks nothing and speaks of no principle is no question.
        items.extend(found.into_iter().filter(|item| !(item.principles.is_empty() && item.command_terms.is_empty())));
        return Ok(());
    }
    let document = Document::read(&text).map_err(|error| {
        Failure::new(format!("{file}:{}:{}: {}", error.line, error.column, error.message)).hint(error.hint)
    })?;
    let item = of_scenario(graph, &file, &document);
    items.push(item.map_err(|error| {
        Failure::new(format!("{file}:1:1: {error}")).hint("it was made from other concepts: give them with --concepts")
    })?);
    Ok(())
}
