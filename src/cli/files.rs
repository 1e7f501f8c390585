//! Files enter here: concept files and scenarios from paths, whole or not at all.

use std::fs;
use std::io::{self, Read as _};
use std::path::Path;

use super::disk::{Doing, told};
use super::{Failure, World};
use crate::concepts::{self, Graph};
use crate::diagnostic::{self, Diagnostic};
use crate::proof::has_front_matter;
use crate::render::Templates;
use crate::source::{FileId, LIMIT, Sources};

/// How deep folders within folders are searched.
const DEEPEST: usize = 8;

/// A concept file or a scenario that was read.
#[derive(Debug)]
pub(super) struct ReadFile {
    path: String,
    /// Relative to the folder that was named, or the file's own name.
    pub(super) name: String,
    content: Content,
}

/// What was read of a file.
#[derive(Debug)]
enum Content {
    Bytes(Vec<u8>),
    TooLarge(u64),
}

impl ReadFile {
    /// Puts the file among the sources.
    pub(super) fn add_to(&self, sources: &mut Sources) -> FileId {
        match &self.content {
            Content::Bytes(bytes) => sources.add_named(&self.path, &self.name, bytes.clone()),
            Content::TooLarge(bytes) => sources.add_too_large(&self.path, &self.name, *bytes),
        }
    }
}

impl ReadFile {
    /// Where it was read.
    pub(super) fn path(&self) -> &Path {
        Path::new(&self.path)
    }

    /// What was read; nothing of a file that is too large.
    pub(super) fn bytes(&self) -> &[u8] {
        match &self.content {
            Content::Bytes(bytes) => bytes,
            Content::TooLarge(_) => &[],
        }
    }

    /// A text without front matter; in a folder of scenarios that is a note about them.
    fn is_note(&self) -> bool {
        match &self.content {
            Content::Bytes(bytes) => std::str::from_utf8(bytes).is_ok_and(|text| !has_front_matter(text)),
            Content::TooLarge(_) => false,
        }
    }
}

/// What the paths of a command line lead to.
#[derive(Debug, Default)]
pub(super) struct Read {
    pub(super) concepts: Vec<ReadFile>,
    /// Scenarios.
    pub(super) scenarios: Vec<ReadFile>,
    /// Markdown files of folders that are no scenarios.
    pub(super) skipped: Vec<String>,
    /// Whether a folder was named.
    pub(super) has_folder: bool,
}

/// The concepts of a folder, or those of the program.
///
/// # Errors
/// The folder or a file in it cannot be read, or holds no concept file.
pub(super) fn concepts(folder: Option<&Path>) -> Result<Sources, Failure> {
    let Some(folder) = folder else { return Ok(concepts::embedded()) };
    if !folder.is_dir() {
        let hint = "`--concepts` takes a folder of YAML files";
        return Err(Failure::new(format!("`{}` is not a folder", folder.display())).hint(hint));
    }
    let mut read = Read::default();
    self::read(folder, &mut read)?;
    let mut sources = Sources::new();
    for file in &read.concepts {
        file.add_to(&mut sources);
    }
    if sources.is_empty() {
        return Err(
            Failure::new(format!("`{}` holds no concept file", folder.display())).hint("put `.yaml` files there")
        );
    }
    Ok(sources)
}

/// The checked graph of a folder, or of the program's own concepts.
///
/// # Errors
/// As [`concepts`]; or the faults, which have then been shown on standard error.
pub(super) fn graph(folder: Option<&Path>, world: &mut World<'_>) -> Result<Graph, Failure> {
    let sources = concepts(folder)?;
    concepts::load_and_check(&sources).or_else(|faults| Err(faulty(&sources, &faults, world)?))
}

/// Shows faults of concepts on standard error, and what to say in all.
///
/// # Errors
/// They cannot be shown.
pub(super) fn faulty(sources: &Sources, faults: &[Diagnostic], world: &mut World<'_>) -> Result<Failure, Failure> {
    for fault in faults {
        writeln!(world.err, "{}", diagnostic::terminal(sources, fault, world.colour))?;
    }
    Ok(Failure::new("the concepts have faults").hint("`toehold check` shows them; mend them first"))
}

/// The program's templates, with those in the `templates` folder of a folder of concepts in their place.
///
/// # Errors
/// A template that cannot be read or does not work.
pub(super) fn templates(concepts: Option<&Path>) -> Result<Templates, Failure> {
    let mut replaced = Vec::new();
    let folder = concepts.map(|folder| folder.join("templates")).filter(|folder| folder.is_dir());
    if let Some(folder) = folder {
        for entry in fs::read_dir(&folder).map_err(|error| unreadable(&folder, &error))? {
            let path = entry.map_err(|error| unreadable(&folder, &error))?.path();
            if path.is_file() {
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
                let text = fs::read_to_string(&path).map_err(|error| unreadable(&path, &error))?;
                replaced.push((name, text));
            }
        }
    }
    Templates::new(&replaced).map_err(|error| Failure::new(format!("a template does not work: {error}")))
}

/// Reads a file, or all concept files and scenarios of a folder.
///
/// # Errors
/// The path leads nowhere or cannot be read, a file of another kind, a folder without any.
pub(super) fn read(path: &Path, into: &mut Read) -> Result<(), Failure> {
    let about = fs::metadata(path).map_err(|error| unreadable(path, &error))?;
    if about.is_dir() {
        into.has_folder = true;
        let before = into.concepts.len() + into.scenarios.len();
        folder(path, path, 0, into)?;
        if into.concepts.len() + into.scenarios.len() == before {
            return Err(Failure::new(format!("`{}` holds no concept file and no scenario", path.display()))
                .hint("concept files end in `.yaml` or `.yml`, scenarios in `.md`"));
        }
        return Ok(());
    }
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    if concepts::is_concept_file(&name) {
        into.concepts.push(read_file(path, name)?);
    } else if is_scenario(&name) {
        into.scenarios.push(read_file(path, name)?);
    } else {
        return Err(Failure::new(format!("`{}` is neither a concept file nor a scenario", path.display()))
            .hint("concept files end in `.yaml` or `.yml`, scenarios in `.md`"));
    }
    Ok(())
}

/// Everything in a folder, by name. Links to folders are not followed, so that no circle is.
fn folder(root: &Path, path: &Path, depth: usize, into: &mut Read) -> Result<(), Failure> {
    let mut entries = Vec::new();
    for entry in fs::read_dir(path).map_err(|error| unreadable(path, &error))? {
        entries.push(entry.map_err(|error| unreadable(path, &error))?.path());
    }
    entries.sort();
    for entry in entries {
        let about = fs::symlink_metadata(&entry).map_err(|error| unreadable(&entry, &error))?;
        let name = entry.strip_prefix(root).unwrap_or(&entry).to_string_lossy().replace('\\', "/");
        if about.is_dir() {
            if depth < DEEPEST {
                folder(root, &entry, depth + 1, into)?;
            }
        } else if concepts::is_concept_file(&name) {
            into.concepts.push(read_file(&entry, name)?);
        } else if is_scenario(&name) {
            let file = read_file(&entry, name)?;
            if file.is_note() {
                into.skipped.push(file.path);
            } else {
                into.scenarios.push(file);
            }
        }
    }
    Ok(())
}

/// Markdown; but templates are none, though they begin like a scenario.
fn is_scenario(name: &str) -> bool {
    let (folder, name) = name.rsplit_once('/').unwrap_or(("", name));
    let is_template = folder.rsplit('/').next() == Some("templates");
    name.rsplit_once('.').is_some_and(|(stem, extension)| !stem.is_empty() && extension == "md" && !is_template)
}

fn read_file(path: &Path, name: String) -> Result<ReadFile, Failure> {
    let about = fs::metadata(path).map_err(|error| unreadable(path, &error))?;
    let content = if about.len() > LIMIT as u64 {
        Content::TooLarge(about.len())
    } else {
        Content::Bytes(fs::read(path).map_err(|error| unreadable(path, &error))?)
    };
    Ok(ReadFile { path: path.display().to_string(), name, content })
}

/// The text of a scenario file.
///
/// # Errors
/// A file that cannot be read, is too large, or is no text.
pub(super) fn scenario_text(path: &Path) -> Result<String, Failure> {
    let about = fs::metadata(path).map_err(|error| unreadable(path, &error))?;
    if about.is_dir() {
        return Err(unreadable(path, &io::ErrorKind::IsADirectory.into()));
    }
    if about.len() > LIMIT as u64 {
        let message = format!("`{}` is too large: {} bytes, at most {LIMIT} are read", path.display(), about.len());
        return Err(Failure::new(message).hint("a scenario has some thousand words"));
    }
    let bytes = fs::read(path).map_err(|error| unreadable(path, &error))?;
    String::from_utf8(bytes).map_err(|error| {
        let valid = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or_default();
        let before = String::from_utf8_lossy(valid);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
        Failure::new(format!("{}:{line}:{column}: this is not UTF-8 text", path.display()))
            .hint("save the file with the encoding UTF-8")
    })
}

/// The text of standard input.
///
/// # Errors
/// Input that cannot be read, is too large, or is no text.
pub(super) fn input() -> Result<String, Failure> {
    let mut bytes = Vec::new();
    let limit = u64::try_from(LIMIT).unwrap_or(u64::MAX);
    io::stdin()
        .take(limit + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| Failure::new(format!("standard input could not be read: {error}")))?;
    if bytes.len() > LIMIT {
        let message = format!("standard input is too large: at most {LIMIT} bytes are read");
        return Err(Failure::new(message).hint("an answer has some hundred words"));
    }
    String::from_utf8(bytes)
        .map_err(|_| Failure::new("standard input is not UTF-8 text").hint("save it with the encoding UTF-8"))
}

/// A file that cannot be read, in plain words.
pub(super) fn unreadable(path: &Path, error: &io::Error) -> Failure {
    let (why, hint) = told(error.kind(), Doing::Reading);
    Failure::new(format!("`{}` could not be read: {why}", path.display())).hint(hint)
}
