//! `toehold map`: what questions exercise, what is missing, and what to add.

mod class;
mod fill;
mod read;

use std::collections::BTreeSet;
use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::generate::{Format as ScenarioFormat, rendered, unknown};
use super::{Exit, Failure, World, columns, files, store};
use crate::concepts::Graph;
use crate::coverage::report::{self, Report};
use crate::coverage::{Bits, Item, Matrix, heat_map, in_order, joinable, smallest};
use crate::scenario::Generator;
use crate::seed::MOST;

/// Map questions: what they exercise, what they rest on, what is missing, which few cover all.
///
/// A scenario's principles follow from the path in its front matter. Any other Markdown or plain text is read: each of
/// its questions is an item, each principle comes with the sentence that shows it and a strength from 0 to 1. What is
/// read is advice; judge it by the evidence.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold map this-week
  toehold map this-week old-paper.md textbook-section.txt --gaps
  toehold map this-week --cover
  toehold map this-week --gaps --generate --out new-ones
  toehold map this-week --format html --gaps --cover --out map.html
  toehold map this-week --format json > map.json
  toehold map --class K1.json K2.json --format csv")]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
pub struct Arguments {
    /// Scenarios (.md), other Markdown or plain text (.md, .markdown, .txt), or folders of them.
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// How the map is printed.
    #[arg(long, value_enum, default_value_t = Format::Table)]
    format: Format,
    /// Ask about the principles of this field only; may be repeated.
    #[arg(long, value_name = "F")]
    field: Vec<String>,
    /// Ask about this principle only; may be repeated.
    #[arg(long, value_name = "P")]
    principle: Vec<String>,
    /// Also name principles that nothing exercises, those in more than half of the items, and pairs that never meet.
    #[arg(long)]
    gaps: bool,
    /// Also choose as few items as cover what any of them exercises, in an order that respects prerequisites.
    #[arg(long)]
    cover: bool,
    /// The paths are progress files: print the points of each student (by code) on each principle, the weakest first.
    #[arg(long, conflicts_with_all = ["gaps", "cover", "field", "principle"])]
    class: bool,
    /// Make scenarios that fill the gaps.
    #[arg(long, requires = "gaps")]
    generate: bool,
    /// Seed of what is made; drawn from the clock where it is not given.
    #[arg(long, value_name = "S", requires = "generate", value_parser = clap::value_parser!(u64).range(0..MOST))]
    seed: Option<u64>,
    /// With --generate: the folder for the new scenarios. Else: the file for the map.
    #[arg(long, value_name = "PATH")]
    out: Option<PathBuf>,
    /// Use the concepts of this folder (and the templates in its `templates` folder) instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// How a map is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person: items, matrix, what else was asked for.
    Table,
    /// One self-contained page.
    Html,
    /// A row an item, a column a principle.
    Csv,
    /// One object, with a version.
    Json,
    /// The matrix as a picture that prints in black and white.
    Svg,
}

/// Runs the command.
///
/// # Errors
/// A path that cannot be read, a principle that is not known, a place that cannot be written to.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    if arguments.class {
        return class::run(&graph, arguments, world);
    }
    let asked = asked(&graph, arguments)?;
    let (items, n_faults) = read::all(&graph, &arguments.paths, world)?;
    let matrix = Matrix::of(&graph, &items, &asked);
    let generator = arguments.gaps.then(|| Generator::new(graph.clone()));
    let pairs = generator.as_ref().map_or_else(BTreeSet::new, |known| joinable(&graph, known.catalogue()));
    let cover = arguments.cover.then(|| {
        let cover = smallest(&matrix.rows, &asked);
        let order = in_order(&graph, &items, &cover.chosen);
        (cover, order)
    });
    let report = Report {
        graph: &graph,
        items: &items,
        matrix: &matrix,
        joinable: &pairs,
        with_gaps: arguments.gaps,
        cover: cover.as_ref(),
    };
    match (&generator, arguments.generate) {
        (Some(generator), true) => fill::gaps(arguments, generator, &report, world)?,
        _ => print(arguments, &report, world)?,
    }
    Ok(if n_faults > 0 { Exit::Bad } else { Exit::Done })
}

/// The principles that are asked about, by place: all where nothing is said.
fn asked(graph: &Graph, arguments: &Arguments) -> Result<Bits, Failure> {
    let mut asked = Bits::default();
    for id in &arguments.principle {
        let known = || graph.principles().map(|(_, principle)| principle.id.as_str());
        asked.insert(graph.find_principle(id).ok_or_else(|| unknown("principle", id, known()))?.place());
    }
    for id in &arguments.field {
        let known = || graph.fields().map(|(_, field)| field.id.as_str());
        let field = graph.find_field(id).ok_or_else(|| unknown("field", id, known()))?;
        let own = graph.principles().filter(|(_, principle)| principle.field == field);
        asked.extend(own.map(|(principle, _)| principle.place()));
    }
    Ok(if asked.is_empty() { Bits::all(graph.principles().count()) } else { asked })
}

fn print(arguments: &Arguments, report: &Report<'_>, world: &mut World<'_>) -> Result<(), Failure> {
    match &arguments.out {
        None => columns::fit(arguments.format == Format::Table, world, |world| {
            write(arguments, report, world.width, world.out)
        }),
        Some(path) => {
            store::free(path, arguments.force)?;
            let mut bytes = Vec::new();
            write(arguments, report, None, &mut bytes)?;
            store::write_bytes(path, &bytes, arguments.force)?;
            writeln!(world.out, "{}", path.display())?;
            Ok(())
        }
    }
}

fn write(
    arguments: &Arguments,
    report: &Report<'_>,
    width: Option<usize>,
    out: &mut dyn std::io::Write,
) -> Result<(), Failure> {
    match arguments.format {
        Format::Table => report::table(report, width, out)?,
        Format::Csv => report::csv(report, out)?,
        Format::Json => report::json(report, out)?,
        Format::Svg => write!(out, "{}", heat_map(report.graph, report.items, report.matrix).file())?,
        Format::Html => {
            let templates = files::templates(arguments.concepts.as_deref())?;
            let page = report::page(report, &templates);
            let page = page.map_err(|error| Failure::new(format!("the page cannot be made: {error}")))?;
            write!(out, "{page}")?;
        }
    }
    Ok(())
}
