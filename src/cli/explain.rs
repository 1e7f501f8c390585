//! `toehold explain`: what follows from signed arrows, and why.

use std::io::{self, Read as _, Write};
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use serde_json::{Map, Value, json};

use super::arrow;
use super::diagram::{self, Reading};
use super::generate::{KindWord, unknown};
use super::ways::ways;
use super::{Exit, Failure, World, files, watch};
use crate::concepts::{draft, load_and_check};
use crate::diagnostic;
use crate::reasoning::press::{Diagram, Response, press_all};
use crate::source::{FileId, Sources};

/// Version of the JSON shape of an explained diagram: `{version, pairs: {"a>b": "+"|"-"|"0"|"?"}}`.
const DIAGRAM_VERSION: u32 = 1;

/// Explain what follows from signs: every way between two quantities, or a diagram of your own.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    toehold explain detergent-concentration absorbance\n  \
    toehold explain detergent-concentration absorbance --twist reverse --format json\n  \
    toehold explain --influence solute-lowers-potential\n  \
    toehold explain --influence my-influence --concepts mine --watch\n  \
    toehold explain --diagram pond.csv\n  \
    toehold explain --diagram pond.csv --format json\n\n\
    A diagram names its columns in the first row and has one arrow a row:\n  \
    from,sign,to\n  \
    algae,-,algae\n  \
    algae,+,snail\n  \
    snail,-,algae\n\n\
    Each thing is raised for good in turn. A sign is given only where it holds however strong each arrow is, in any\n\
    community that can come to rest. Draw `algae,-,algae` where a thing holds itself back; without it, nothing does.")]
pub struct Arguments {
    /// The quantity that is raised
    #[arg(required_unless_present_any = ["diagram", "influence"], requires = "to")]
    from: Option<String>,
    /// The quantity that is asked about
    to: Option<String>,
    /// Only with the steps changed by a twist of this kind
    #[arg(long, value_name = "KIND", value_enum, conflicts_with = "diagram")]
    twist: Option<KindWord>,
    /// CSV file with the columns from,sign,to
    #[arg(long, value_name = "FILE", conflicts_with_all = ["from", "to"])]
    diagram: Option<PathBuf>,
    /// One influence: its law's curve, and the sign of its finite differences
    #[arg(long, value_name = "ID", conflicts_with_all = ["from", "to", "twist", "diagram"])]
    influence: Option<String>,
    /// With --influence and --concepts: show it again whenever a file changes, until stopped
    #[arg(long, requires = "influence")]
    watch: bool,
    /// Use the concepts of this folder instead of the program's own
    #[arg(long, value_name = "DIR", conflicts_with = "diagram")]
    concepts: Option<PathBuf>,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// How an explanation is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table, and the reason for each answer withheld
    Text,
    /// One JSON object
    Json,
}

/// Runs the command.
///
/// # Errors
/// A message for the user.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if let Some(path) = &arguments.diagram {
        return explain_diagram(path, arguments.format, world);
    }
    if let Some(id) = &arguments.influence {
        return match &arguments.concepts {
            Some(folder) if arguments.watch => {
                watch::watch(std::slice::from_ref(folder), world, |world| explain_influence(id, arguments, world))
            }
            None if arguments.watch => {
                Err(Failure::new("--watch needs a folder to watch: the program's own concepts do not change")
                    .hint("give the folder that you work on with --concepts"))
            }
            _ => explain_influence(id, arguments, world),
        };
    }
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let quantity = |id: &Option<String>| {
        let id = id.as_deref().unwrap_or_default();
        let known = graph.quantities().map(|(_, quantity)| quantity.id.as_str());
        graph.find_quantity(id).ok_or_else(|| unknown("quantity", id, known))
    };
    let (from, to) = (quantity(&arguments.from)?, quantity(&arguments.to)?);
    ways(&graph, from, to, arguments.twist.map(KindWord::kind), arguments.format == Format::Json, world)?;
    Ok(Exit::Done)
}

/// Shows one influence; in concepts with faults, as far as it is in order itself.
fn explain_influence(id: &str, arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let sources = files::concepts(arguments.concepts.as_deref())?;
    let graph = match load_and_check(&sources) {
        Ok(graph) => graph,
        Err(faults) => {
            let Some(graph) = draft(&sources, id) else {
                let failure = files::faulty(&sources, &faults, world)?;
                if !arguments.watch {
                    return Err(failure);
                }
                // It is still being written: the next change is looked at.
                writeln!(world.err, "error: {}", failure.message)?;
                return Ok(Exit::Bad);
            };
            let n = faults.len();
            writeln!(
                world.err,
                "note: the concepts have {n} fault{}; `toehold check` shows them",
                if n == 1 { "" } else { "s" }
            )?;
            graph
        }
    };
    let known = graph.influences().map(|(_, influence)| influence.id.as_str());
    let ix = graph.find_influence(id).ok_or_else(|| unknown("influence", id, known))?;
    arrow::show(&graph, ix, arguments.format == Format::Json, world)?;
    Ok(Exit::Done)
}

/// Explains a teacher's own diagram.
fn explain_diagram(path: &Path, format: Format, world: &mut World<'_>) -> Result<Exit, Failure> {
    let mut sources = Sources::new();
    let file = add(path, &mut sources)?;
    let Reading { diagram, faults, warnings } = diagram::read(&sources, file);
    for found in warnings.iter().chain(&faults) {
        writeln!(world.err, "{}", diagnostic::terminal(&sources, found, world.colour))?;
    }
    if !faults.is_empty() {
        return Ok(Exit::Bad);
    }
    match format {
        Format::Text => write_text(&diagram, world.out)?,
        Format::Json => writeln!(world.out, "{}", as_json(&diagram))?,
    }
    Ok(Exit::Done)
}

/// Puts the file among the sources, if it is not far too large to be a diagram.
fn add(path: &Path, sources: &mut Sources) -> Result<FileId, Failure> {
    let fails = |error| files::unreadable(path, &error);
    let file = std::fs::File::open(path).map_err(fails)?;
    let mut bytes = Vec::new();
    file.take(diagram::LARGEST_FILE + 1).read_to_end(&mut bytes).map_err(fails)?;
    let shown = path.display().to_string();
    let length = bytes.len() as u64;
    Ok(if length > diagram::LARGEST_FILE {
        sources.add_too_large(shown.clone(), shown, length)
    } else {
        sources.add(shown, bytes)
    })
}

fn as_json(diagram: &Diagram) -> Value {
    let mut pairs = Map::new();
    for ((source, target), response) in press_all(diagram) {
        if let (Some(from), Some(to)) = (diagram.nodes.get(source), diagram.nodes.get(target)) {
            pairs.insert(format!("{from}>{to}"), Value::from(response.ascii()));
        }
    }
    json!({ "version": DIAGRAM_VERSION, "pairs": pairs })
}

/// A table (rows: the thing raised; columns: what happens to each), then the reasons.
fn write_text(diagram: &Diagram, out: &mut dyn Write) -> io::Result<()> {
    let responses = press_all(diagram);
    let size = diagram.nodes.len();
    let digits = size.to_string().len();
    let label =
        |place: usize| format!("{:>digits$} {}", place + 1, diagram.nodes.get(place).map_or("", String::as_str));
    let width = (0..size).map(|place| label(place).chars().count()).max().unwrap_or(0);
    writeln!(out, "Raising each thing for good (rows): what happens to each (columns)\n")?;
    write!(out, "{:width$}", "")?;
    for number in 1..=size {
        write!(out, " {number:>digits$}")?;
    }
    writeln!(out)?;
    for source in 0..size {
        write!(out, "{:width$}", label(source))?;
        for target in 0..size {
            write!(out, " {:>digits$}", responses.get(&(source, target)).map_or("?", printed))?;
        }
        writeln!(out)?;
    }
    writeln!(out, "\n+ rises, − falls, 0 stays; ? the signs do not tell")?;
    let mut gap = "\n";
    for ((source, target), response) in &responses {
        if let (Response::Withheld(reason), Some(from), Some(to)) =
            (response, diagram.nodes.get(*source), diagram.nodes.get(*target))
        {
            writeln!(out, "{gap}? {from} raised, {to}: {reason}")?;
            gap = "";
        }
    }
    Ok(())
}

fn printed(response: &Response) -> &'static str {
    match response {
        Response::Falls => "−",
        other => other.ascii(),
    }
}
