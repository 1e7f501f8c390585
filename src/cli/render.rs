//! `toehold render`: a scenario file as a page, as Markdown for students, or its figures.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::{Exit, Failure, World, files, pages, store};
use crate::render::{self, Copy, Document, PageError, Picture};
use crate::scenario::Generator;

/// Make a page, a student's copy or a figure of a scenario file, edits and all.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold render this-week/salty-clasp-wells-long-31.md > page.html
  toehold render my-scenario.md --student --out hand-out.html
  toehold render my-scenario.md --to page --out practise.html
  toehold render my-scenario.md --to svg --figure apparatus --out my-scenario-apparatus.svg")]
pub struct Arguments {
    /// A scenario (.md) that `toehold generate` wrote.
    file: PathBuf,
    /// What to make of it.
    #[arg(long, value_enum, default_value_t = To::Html)]
    to: To,
    /// Which figure, with `--to svg`.
    #[arg(long, value_enum, default_value_t = Figure::Plot)]
    figure: Figure,
    /// Leave out the answers to the steps, the scoring guide and the map.
    #[arg(long)]
    student: bool,
    /// Write this file, instead of standard output.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace a file that exists.
    #[arg(long)]
    force: bool,
    /// Use the templates in the `templates` folder of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
}

/// What a file is turned into.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum To {
    /// One self-contained page to read and print.
    Html,
    /// One self-contained page to practise on: recall, predict, see the data, answer, score.
    Page,
    /// Markdown: the file as it is, or without front matter and answers for students.
    Md,
    /// A figure.
    Svg,
}

/// Which figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Figure {
    /// The data plot.
    Plot,
    /// The apparatus, stage by stage.
    Apparatus,
    /// What is seen when reading, where that is a picture.
    Readings,
}

/// Runs the command.
///
/// # Errors
/// A file that cannot be read, is no scenario, or a place that cannot be written to.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let text = files::scenario_text(&arguments.file)?;
    let made = made(arguments, &text, world)?;
    match &arguments.out {
        Some(path) => store::write(path, &made, arguments.force)?,
        None => write!(world.out, "{made}")?,
    }
    Ok(Exit::Done)
}

fn made(arguments: &Arguments, text: &str, world: &mut World<'_>) -> Result<String, Failure> {
    let copy = if arguments.student { Copy::Student } else { Copy::Teacher };
    let at_fault = |error| failure(&arguments.file, error);
    match (arguments.to, copy) {
        (To::Html, copy) => {
            let templates = files::templates(arguments.concepts.as_deref())?;
            render::page(&templates, text, copy).map_err(at_fault)
        }
        (To::Page, _) if arguments.student => Err(Failure::new("a page to practise on holds the scoring guide")
            .hint("leave out --student, or make a hand-out with --to html")),
        (To::Page, _) => {
            // Faults of the file come before those of what it is made again from.
            Document::read(text).map_err(|error| at_fault(error.into()))?;
            let graph = files::graph(arguments.concepts.as_deref(), world)?;
            let templates = files::templates(arguments.concepts.as_deref())?;
            let generator = Generator::new(graph);
            let subject = pages::subject(&generator, &templates, &arguments.file.display().to_string(), text)?;
            pages::alone(generator.graph(), &templates, &subject)
        }
        (To::Md, Copy::Student) => render::student_markdown(text).map_err(|error| at_fault(error.into())),
        (To::Md, Copy::Teacher) => {
            Document::read(text).map_err(|error| at_fault(error.into()))?;
            Ok(text.to_owned())
        }
        (To::Svg, _) => {
            let document = Document::read(text).map_err(|error| at_fault(error.into()))?;
            picture(arguments, &document).map(|picture| picture.file())
        }
    }
}

fn picture(arguments: &Arguments, document: &Document) -> Result<Picture, Failure> {
    let file = arguments.file.display();
    if arguments.figure == Figure::Apparatus {
        return render::schematic(&document.front.apparatus).ok_or_else(|| {
            Failure::new(format!("{file}: the front matter has no `apparatus`"))
                .hint("it is a list with one record a stage, as `toehold generate` writes it")
        });
    }
    let chart = render::chart(document).ok_or_else(|| {
        let line = render::table::of_data(document).map_or(1, |(line, _)| line);
        Failure::new(format!("{file}:{line}: no data table that can be plotted"))
            .hint("a table needs levels in its first column and numbers in its second, in two rows or more")
    })?;
    match (arguments.figure, document.front.plot.readings) {
        (Figure::Readings, kind) => kind.and_then(|kind| render::readings(&chart, kind)).ok_or_else(|| {
            Failure::new(format!("{file}: these readings are no picture"))
                .hint("`readings` of `plot` in the front matter says what is seen")
        }),
        _ => Ok(render::figure::plot(&chart)),
    }
}

fn failure(file: &Path, error: PageError) -> Failure {
    match error {
        PageError::Document(fault) => {
            let place = format!("{}:{}:{}", file.display(), fault.line, fault.column);
            Failure::new(format!("{place}: {}", fault.message)).hint(fault.hint)
        }
        PageError::Template(fault) => Failure::new(format!("a template does not work: {fault}")),
    }
}
