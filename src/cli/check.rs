//! `toehold check`: concept files and scenarios checked, every fault shown with its place.

mod bench;
mod scenarios;

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use serde_json::{Value, json};

use super::files::{self, Read};
use super::{Exit, Failure, World};
use crate::concepts::{self, Graph};
use crate::diagnostic::{self, Diagnostic};
use crate::scenario::Generator;
use crate::source::Sources;
use scenarios::Proof;

/// Version of the JSON shape.
const VERSION: u32 = 1;

/// Check concept files and scenarios; without a path, the concepts that come with the program.
///
/// A scenario is made again from its front matter, and every number, unit, sign, direction and point in it that no
/// longer agrees is reported. Wording is yours to change.
///
/// Files and folders are checked together, as one graph. Files that refer to parts of the program's own concepts are
/// checked together with those; a file replaces the one of the same name.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  toehold check\n  toehold check my-concepts/\n  toehold check my-concepts/light.yaml --format json\n  toehold check this-week/\n  toehold check this-week/brined-wells-long-42.md\n  toehold check my-concepts/ --fix\n  toehold check my-concepts/ --watch"
)]
pub struct Arguments {
    /// Concept files (.yaml, .yml), scenarios (.md), or folders of them.
    paths: Vec<PathBuf>,
    /// Use the concepts of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// How faults are shown.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Mend what is mechanical in the concept files named (spaces, tabs, words nearly right), say what was changed, then
    /// check.
    #[arg(long)]
    fix: bool,
    /// Check again whenever a file changes, until stopped.
    #[arg(long)]
    watch: bool,
}

/// How faults are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person.
    Text,
    /// For a program: one object.
    Json,
}

/// Runs the command.
///
/// # Errors
/// A path that cannot be read.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if arguments.fix {
        bench::fix(arguments, world)?;
    }
    if arguments.watch { bench::watch(arguments, world) } else { once(arguments, world) }
}

/// Everything that the paths lead to.
fn given(arguments: &Arguments) -> Result<Read, Failure> {
    let mut given = Read::default();
    for path in &arguments.paths {
        files::read(path, &mut given)?;
    }
    Ok(given)
}

fn once(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let given = given(arguments)?;
    let mut checked = concepts(arguments, &given)?;
    let proof = match &mut checked.result {
        _ if given.scenarios.is_empty() => None,
        Ok(graph) => {
            let generator = Generator::new(graph.clone());
            Some(Proof::of(&given.scenarios, &generator, &files::templates(arguments.concepts.as_deref())?)?)
        }
        Err(_) => None,
    };
    let has_concepts = !given.concepts.is_empty() || given.scenarios.is_empty() || !checked.faults().is_empty();
    match arguments.format {
        Format::Text => {
            if has_concepts {
                text(&checked, world)?;
            }
            scenarios::text(proof.as_ref(), &given.skipped, world)?;
        }
        Format::Json => {
            let mut object = object(&checked);
            scenarios::add_to(&mut object, proof.as_ref(), &given.skipped);
            writeln!(world.out, "{object:#}")?;
        }
    }
    match proof {
        None if !given.scenarios.is_empty() => {
            Err(Failure::new("the concepts have faults, so no scenario was checked")
                .hint("mend the concepts first, or give others with --concepts"))
        }
        _ if !checked.faults().is_empty() => Ok(Exit::Found),
        Some(proof) if proof.n_faults() > 0 => Ok(Exit::Found),
        _ => Ok(Exit::Done),
    }
}

/// Sources and what became of them.
struct Checked {
    sources: Sources,
    result: Result<Graph, Vec<Diagnostic>>,
}

impl Checked {
    fn of(sources: Sources) -> Self {
        let result = concepts::load_and_check(&sources);
        Self { sources, result }
    }

    /// References that lead nowhere, and all faults.
    fn weight(&self) -> (usize, usize) {
        let unknown = self.faults().iter().filter(|fault| fault.code.name.starts_with("unknown-"));
        (unknown.count(), self.faults().len())
    }

    fn faults(&self) -> &[Diagnostic] {
        self.result.as_ref().err().map_or(&[], Vec::as_slice)
    }
}

/// Checks what was given, with the base concepts where they hold what it refers to.
fn concepts(arguments: &Arguments, given: &Read) -> Result<Checked, Failure> {
    let base = || files::concepts(arguments.concepts.as_deref());
    if given.concepts.is_empty() {
        return Ok(Checked::of(base()?));
    }
    let mut alone = Sources::new();
    for file in &given.concepts {
        file.add_to(&mut alone);
    }
    let alone = Checked::of(alone);
    if alone.faults().is_empty() || given.has_folder {
        return Ok(alone);
    }
    let mut together = Sources::new();
    let base = base()?;
    for id in base.ids() {
        if given.concepts.iter().all(|file| file.name != base.name(id)) {
            base.copy_to(id, &mut together);
        }
    }
    for file in &given.concepts {
        file.add_to(&mut together);
    }
    let together = Checked::of(together);
    Ok(if together.weight() <= alone.weight() { together } else { alone })
}

fn text(checked: &Checked, world: &mut World<'_>) -> Result<(), Failure> {
    match &checked.result {
        Ok(graph) => writeln!(world.out, "{}", summary(graph))?,
        Err(faults) => {
            for fault in faults {
                writeln!(world.out, "{}", diagnostic::terminal(&checked.sources, fault, world.colour))?;
            }
            let n_files =
                faults.iter().map(|fault| fault.primary.file).collect::<std::collections::BTreeSet<_>>().len();
            writeln!(world.out, "{} in {}", count(faults.len(), "fault"), count(n_files, "file"))?;
        }
    }
    Ok(())
}

/// `{version, ok, faults, graph}`; where scenarios were checked also `files` and `skipped`.
fn object(checked: &Checked) -> Value {
    let faults: Vec<Value> = checked.faults().iter().map(|fault| diagnostic::json(&checked.sources, fault)).collect();
    let graph = checked.result.as_ref().ok().map(|graph| {
        let fields: Vec<Value> = per_field(graph)
            .into_iter()
            .map(|field| {
                json!({
                    "id": field.id,
                    "name": field.name,
                    "quantities": field.n_quantities,
                    "influences": field.n_influences,
                    "principles": field.n_principles,
                })
            })
            .collect();
        json!({
            "version": graph.version(),
            "fields": fields,
            "entities": graph.entities().count(),
            "quantities": graph.quantities().count(),
            "principles": graph.principles().count(),
            "settings": graph.settings().count(),
            "influences": graph.influences().count(),
            "twists": n_twists(graph),
            "acts": graph.acts().count(),
            "rigs": graph.rigs().count(),
            "contexts": graph.contexts().count(),
            "known": graph.known().len(),
        })
    });
    json!({ "version": VERSION, "ok": checked.faults().is_empty(), "faults": faults, "graph": graph })
}

/// What a field has.
struct FieldCount<'g> {
    id: &'g str,
    name: &'g str,
    n_quantities: usize,
    n_influences: usize,
    n_principles: usize,
}

fn per_field(graph: &Graph) -> Vec<FieldCount<'_>> {
    let influences: BTreeMap<_, usize> = graph.influences().fold(BTreeMap::new(), |mut counts, (ix, _)| {
        *counts.entry(graph.field_of(ix)).or_default() += 1;
        counts
    });
    graph
        .fields()
        .map(|(ix, field)| FieldCount {
            id: &field.id,
            name: &field.name,
            n_quantities: graph.quantities().filter(|(_, quantity)| quantity.field == Some(ix)).count(),
            n_influences: influences.get(&ix).copied().unwrap_or(0),
            n_principles: graph.principles().filter(|(_, principle)| principle.field == ix).count(),
        })
        .collect()
}

fn n_twists(graph: &Graph) -> usize {
    graph.influences().map(|(_, influence)| influence.twists.len()).sum()
}

/// One paragraph: how many of each part, by field.
fn summary(graph: &Graph) -> String {
    let fields: Vec<String> = per_field(graph)
        .iter()
        .map(|field| {
            format!(
                "{} ({}, {}, {})",
                field.name,
                count(field.n_quantities, "quantity"),
                count(field.n_influences, "influence"),
                count(field.n_principles, "principle")
            )
        })
        .collect();
    format!(
        "No fault. Graph {}: {}, {}, {} with {}, {} and {} in {}: {}; {}, {}, {}, {} and {}.",
        graph.version(),
        count(graph.entities().count(), "entity"),
        count(graph.quantities().count(), "quantity"),
        count(graph.influences().count(), "influence"),
        count(n_twists(graph), "twist"),
        count(graph.principles().count(), "principle"),
        count(graph.settings().count(), "setting"),
        count(graph.fields().count(), "field"),
        fields.join("; "),
        count(graph.acts().count(), "act"),
        count(graph.rigs().count(), "rig"),
        count(graph.contexts().count(), "context"),
        count(graph.contexts().map(|(_, context)| context.purposes.len()).sum(), "purpose"),
        count(graph.known().len(), "textbook technique")
    )
}

/// "1 entity", "3 entities".
fn count(n: usize, noun: &str) -> String {
    match (n, noun.strip_suffix('y')) {
        (1, _) => format!("1 {noun}"),
        (_, Some(stem)) => format!("{n} {stem}ies"),
        _ => format!("{n} {noun}s"),
    }
}
