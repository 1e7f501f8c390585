//! `toehold graph`: a part of the graph as a picture, in open formats, or as a page to walk through.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::generate::unknown;
use super::{Exit, Failure, World, columns, files, store};
use crate::atlas::{self, Named, View};
use crate::concepts::{Graph, Settings};
use crate::render::Document;

/// Show the graph: a field, the neighbourhood of a principle, a scenario's path, or all of it.
///
/// In the picture a thick frame is what can be set, a double frame what can be read. The page (`--format html`) holds
/// the whole graph with every scenario that is named, and is walked by its links.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold graph --field membranes --out membranes.svg
  toehold graph --principle osmosis --format dot
  toehold graph --format text
  toehold graph --scenario this-week/NAME.md > path.svg
  toehold graph --format graphml --out all.graphml
  toehold graph --format html --scenario this-week/NAME.md --out walk.html")]
pub struct Arguments {
    /// The influences of this field.
    #[arg(long, value_name = "F", conflicts_with_all = ["principle"])]
    field: Option<String>,
    /// The influences that rest on this principle, and those next to them.
    #[arg(long, value_name = "P")]
    principle: Option<String>,
    /// The path of this scenario (.md), and the influences next to it; for a page, may be repeated.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["field", "principle"])]
    scenario: Vec<PathBuf>,
    /// How it is given.
    #[arg(long, value_enum, default_value_t = Format::Svg)]
    format: Format,
    /// Write this file, instead of standard output.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Use the concepts of this folder (and the templates in its `templates` folder) instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Replace a file that exists.
    #[arg(long)]
    force: bool,
}

/// How a part of the graph is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Ids and names of quantities, principles and influences: what an author refers to.
    Text,
    /// A picture in black on white, laid out by the program itself.
    Svg,
    /// The language of Graphviz.
    Dot,
    /// An XML that graph programs read.
    Graphml,
    /// Linked data with the terms of SKOS.
    Jsonld,
    /// One object, with a version.
    Json,
    /// One page to walk through: the whole graph.
    Html,
}

/// Runs the command.
///
/// # Errors
/// A part that the graph does not have, a file that cannot be read or written.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let text = if arguments.format == Format::Html {
        page(&graph, arguments)?
    } else {
        let view = view(&graph, arguments)?;
        match arguments.format {
            Format::Svg => view.picture(&graph, "graph", false).file(),
            Format::Text => atlas::list(&graph, &view),
            Format::Dot => atlas::dot(&graph, &view),
            Format::Graphml => atlas::graphml(&graph, &view),
            Format::Jsonld => format!("{:#}\n", atlas::jsonld(&graph, &view)),
            Format::Json | Format::Html => format!("{:#}\n", atlas::json(&graph, &view)),
        }
    };
    match &arguments.out {
        None => columns::fit(arguments.format == Format::Text, world, |world| Ok(write!(world.out, "{text}")?))?,
        Some(path) => {
            store::write(path, &text, arguments.force)?;
            writeln!(world.out, "{}", path.display())?;
        }
    }
    Ok(Exit::Done)
}

fn page(graph: &Graph, arguments: &Arguments) -> Result<String, Failure> {
    if arguments.field.is_some() || arguments.principle.is_some() {
        return Err(Failure::new("a page holds the whole graph")
            .hint("leave out --field and --principle, or take another --format"));
    }
    let mut scenarios = Vec::new();
    for file in &arguments.scenario {
        scenarios.push(path_of(graph, file)?);
    }
    let templates = files::templates(arguments.concepts.as_deref())?;
    atlas::page(graph, &templates, &scenarios)
        .map_err(|error| Failure::new(format!("the page cannot be made: {error}")))
}

fn view(graph: &Graph, arguments: &Arguments) -> Result<View, Failure> {
    if let Some(id) = &arguments.field {
        let known = graph.fields().map(|(_, field)| field.id.as_str());
        return Ok(View::field(graph, graph.find_field(id).ok_or_else(|| unknown("field", id, known))?));
    }
    if let Some(id) = &arguments.principle {
        let known = graph.principles().map(|(_, principle)| principle.id.as_str());
        return Ok(View::principle(graph, graph.find_principle(id).ok_or_else(|| unknown("principle", id, known))?));
    }
    match arguments.scenario.as_slice() {
        [] => Ok(View::whole(graph)),
        [file] => {
            let (title, steps, settings) = path_of(graph, file)?;
            Ok(View::path(graph, &title, &steps, &settings))
        }
        _ => Err(Failure::new("only a page holds several scenarios").hint("give one --scenario, or --format html")),
    }
}

/// Title, path and settings of a scenario file; settings that the graph does not have hold nothing up.
fn path_of(graph: &Graph, file: &Path) -> Result<Named, Failure> {
    let text = files::scenario_text(file)?;
    let document = Document::read(&text).map_err(|error| {
        Failure::new(format!("{}:{}:{}: {}", file.display(), error.line, error.column, error.message)).hint(error.hint)
    })?;
    let mut steps = Vec::new();
    for id in &document.front.path {
        let known = graph.influences().map(|(_, influence)| influence.id.as_str());
        steps.push(graph.find_influence(id).ok_or_else(|| unknown("influence", id, known))?);
    }
    let mut settings = Settings::default();
    settings.holds.extend(document.front.settings.iter().filter_map(|id| graph.find_setting(id)));
    Ok((document.title, steps, settings))
}
