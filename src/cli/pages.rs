//! Pages to practise on: one scenario alone, or several in a folder with an index.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use super::{Failure, files, store};
use crate::concepts::{Graph, PrincipleIx};
use crate::guide;
use crate::paper::{self, PaperError};
use crate::render::{self, Document, Entry, Known, Practice, RenderError, Templates};
use crate::review;
use crate::scenario::{Generator, Run, Scenario, generate};
use crate::seed::Seed;
use crate::technique::{Refusals, Wish};

/// A scenario and its file's text, which a teacher may have edited.
#[derive(Debug, Clone)]
pub(super) struct Subject {
    pub(super) scenario: Scenario,
    pub(super) document: Document,
}

/// The subject of a file's text.
///
/// # Errors
/// A text that is no scenario, or one that these concepts do not make again.
pub(super) fn subject(
    generator: &Generator,
    templates: &Templates,
    place: &str,
    text: &str,
) -> Result<Subject, Failure> {
    let written = paper::read(generator, templates, place, text).map_err(|error| {
        let hint = match &error {
            PaperError::Document { fault, .. } => fault.hint,
            _ => "`toehold check` says more; give the --concepts that it was made from, or make it again",
        };
        Failure::new(error.to_string()).hint(hint)
    })?;
    of_text(written.scenario, &written.text)
}

/// The subjects of files and folders.
///
/// # Errors
/// As [`subject`]; or paths that hold no scenario.
pub(super) fn read(generator: &Generator, templates: &Templates, paths: &[PathBuf]) -> Result<Vec<Subject>, Failure> {
    let mut read = files::Read::default();
    for path in paths {
        files::read(path, &mut read)?;
    }
    if read.scenarios.is_empty() {
        return Err(Failure::new("there is no scenario among the files named")
            .hint("name files that `toehold generate --out` wrote, or none to get fresh ones"));
    }
    let of_file = |file: &files::ReadFile| {
        let text = files::scenario_text(file.path())?;
        subject(generator, templates, &file.path().display().to_string(), &text)
    };
    read.scenarios.iter().map(of_file).collect()
}

/// Subjects drawn from a seed.
///
/// # Errors
/// A wish that the concepts cannot meet; a template at fault.
pub(super) fn fresh(
    generator: &Generator,
    templates: &Templates,
    wish: &Wish,
    seed: Seed,
    n: u64,
) -> Result<Vec<Subject>, Failure> {
    let (mut run, mut refusals) = (Run::default(), Refusals::default());
    let mut subjects = Vec::new();
    for index in 0..n {
        let scenario = generate(generator, wish, seed, index, &mut run, &mut refusals).ok_or_else(|| {
            Failure::new(format!("only {index} different techniques fit these wishes"))
                .hint("ask for fewer, or for fewer fields or principles")
        })?;
        let text = render::markdown(templates, &scenario).map_err(|error| at_fault(&error))?;
        subjects.push(of_text(scenario, &text)?);
    }
    Ok(subjects)
}

fn of_text(scenario: Scenario, text: &str) -> Result<Subject, Failure> {
    let document = Document::read(text).map_err(|fault| Failure::new(fault.message.clone()).hint(fault.hint))?;
    Ok(Subject { scenario, document })
}

/// The page of a scenario alone.
///
/// # Errors
/// A template at fault.
pub(super) fn alone(graph: &Graph, templates: &Templates, subject: &Subject) -> Result<String, Failure> {
    page(graph, templates, subject, &known(graph, std::slice::from_ref(subject)), &[])
}

/// Writes a page for each scenario, and `index.html`; all of them, or none where one is in the way. Their paths.
///
/// # Errors
/// A file that exists (without `force`) or cannot be written; the same scenario twice.
pub(super) fn write_pages(
    folder: &Path,
    graph: &Graph,
    templates: &Templates,
    subjects: &[Subject],
    force: bool,
) -> Result<Vec<PathBuf>, Failure> {
    let mut met = BTreeSet::new();
    if let Some(twice) = subjects.iter().find(|subject| !met.insert(&subject.scenario.id)) {
        return Err(Failure::new(format!("`{}` is named twice", twice.scenario.id)).hint("name each scenario once"));
    }
    let entry = |subject: &Subject| {
        let href = format!("{}.html", subject.scenario.id);
        Entry::of(&subject.scenario, &subject.document.title, href)
    };
    let entries: Vec<Entry> = subjects.iter().map(entry).collect();
    let known = known(graph, subjects);
    let mut made = Vec::new();
    for (subject, entry) in subjects.iter().zip(&entries) {
        made.push((folder.join(&entry.href), page(graph, templates, subject, &known, &entries)?));
    }
    let index = render::practice_index(templates, &entries, &known).map_err(|error| at_fault(&error))?;
    made.push((folder.join("index.html"), index));
    store::folder(folder)?;
    for (path, _) in &made {
        store::free(path, force)?;
    }
    for (path, text) in &made {
        store::write(path, text, force)?;
    }
    Ok(made.into_iter().map(|(path, _)| path).collect())
}

fn page(
    graph: &Graph,
    templates: &Templates,
    subject: &Subject,
    principles: &[Known],
    pages: &[Entry],
) -> Result<String, Failure> {
    let Subject { scenario, document } = subject;
    // Without a guide that can be read, the reader scores alone.
    let reviewer = guide::of_document(document).ok().map(|guide| {
        let lexicon = guide::lexicon(graph, &document.front);
        serde_json::json!({ "version": review::VERSION, "guide": guide, "lexicon": lexicon })
    });
    let practice = Practice { scenario, document, principles, pages, reviewer: reviewer.as_ref() };
    render::practice(templates, &practice).map_err(|error| at_fault(&error))
}

/// Every principle that these scenarios exercise or rest on.
fn known(graph: &Graph, subjects: &[Subject]) -> Vec<Known> {
    let own = subjects.iter().flat_map(|subject| &subject.scenario.principles);
    let own: BTreeSet<PrincipleIx> = own.filter_map(|id| graph.find_principle(id)).collect();
    let ids = |set: BTreeSet<PrincipleIx>| set.into_iter().map(|ix| graph.principle(ix).id.clone());
    let known = |ix: PrincipleIx| {
        let principle = graph.principle(ix);
        let mut below = graph.with_prerequisites(&BTreeSet::from([ix]));
        below.remove(&ix);
        Known { id: principle.id.clone(), name: principle.name.clone(), requires: ids(below).collect() }
    };
    graph.with_prerequisites(&own).into_iter().map(known).collect()
}

fn at_fault(error: &RenderError) -> Failure {
    Failure::new(format!("a template does not work: {error}"))
}
