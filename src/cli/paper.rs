//! `toehold paper`: a sitting in versions, with lined space to write, a formula sheet and a marking guide.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::{Exit, Failure, World, files, generate, print, store};
use crate::concepts::Graph;
use crate::paper::{self, Holds, Look, Paper, PaperError, Plan, Size, Vary, Version, Written};
use crate::render::Templates;
use crate::scenario::Generator;
use crate::seed::{MOST, Seed};

/// Versions that have a letter.
const LETTERS: usize = 26;
/// Longest name of a version: it stands in file names and on every page.
const LONGEST_NAME: usize = 12;

/// Put a whole exam sitting together, in versions, with a marking guide.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold paper --seed 7 --out monday
  toehold paper --versions A,B,C --out tuesday --pdf
  toehold paper this-week --short 3 --long 1 --reading 5 --writing 40 --versions 2 --vary parameters --out quiz
  toehold paper --extended 25 --large-type --paper letter --out extra-time

Six short questions, two long ones, 10 minutes to read and 80 to write are common practice (no source).
Questions are chosen so that, in this order: no field is missing; no command term or skill is missing that is to be had;
fields are crossed equally often; contexts do not repeat; steps of the techniques repeat little, and no command term or
skill prevails. No exchange of one question for another at hand would better that.")]
pub struct Arguments {
    /// Scenario files, or folders of them; fresh questions are made where none is named.
    path: Vec<PathBuf>,
    /// Same seed, same concepts, same version of the program: the same bytes. Drawn from the clock where it is not given.
    #[arg(long, value_name = "S", value_parser = clap::value_parser!(u64).range(0..MOST))]
    seed: Option<u64>,
    /// Short questions (3 or 4 points each).
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u16).range(0..=40))]
    short: u16,
    /// Long questions (10 points each).
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = clap::value_parser!(u16).range(0..=20))]
    long: u16,
    /// Minutes to read.
    #[arg(long, value_name = "MINUTES", default_value_t = 10, value_parser = clap::value_parser!(u32).range(0..=600))]
    reading: u32,
    /// Minutes to write.
    #[arg(long, value_name = "MINUTES", default_value_t = 80, value_parser = clap::value_parser!(u32).range(1..=600))]
    writing: u32,
    /// So many per cent more of both times.
    #[arg(long, value_name = "PERCENT", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=300))]
    extended: u32,
    /// How many versions, or their names with commas between them.
    #[arg(long, value_name = "N|A,B,C", default_value = "1")]
    versions: Names,
    /// How versions differ, so that neighbours have nothing to copy.
    #[arg(long, value_enum, default_value_t = VaryWord::Technique)]
    vary: VaryWord,
    /// Draw from this field; may be repeated. Every question crosses one of those named.
    #[arg(long, value_name = "F")]
    field: Vec<String>,
    /// Print the students' copy in 18 points (pages only).
    #[arg(long)]
    large_type: bool,
    /// Size of the sheets.
    #[arg(long, value_enum, default_value_t = SizeWord::A4)]
    paper: SizeWord,
    /// Write `paper-A-student`, `paper-A-guide`, ... into this folder, instead of all to standard output.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Self-contained pages, Markdown, or JSON. [default: html with --out, md without]
    #[arg(long, value_enum)]
    format: Option<Format>,
    /// Print the pages as PDF too, with a Chromium that is installed.
    #[arg(long, requires = "out")]
    pdf: bool,
    /// Use the concepts of this folder (and the templates in its `templates` folder) instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// How versions differ, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum VaryWord {
    /// No technique is in two versions.
    Technique,
    /// The same techniques with other levels and numbers.
    Parameters,
}

/// Sizes of sheets, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SizeWord {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

/// Formats of a paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Markdown.
    Md,
    /// Self-contained pages.
    Html,
    /// One JSON object.
    Json,
}

/// Names of versions, as typed: a number stands for that many letters.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Names(Vec<String>);

impl std::str::FromStr for Names {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        if let Ok(n) = text.trim().parse::<usize>() {
            if !(1..=LETTERS).contains(&n) {
                return Err(format!("there can be 1 to {LETTERS} versions"));
            }
            return Ok(Self(('A'..='Z').take(n).map(String::from).collect()));
        }
        let mut names: Vec<String> = Vec::new();
        for name in text.split(',').map(str::trim) {
            let fits = |c: char| c.is_ascii_alphanumeric() || c == '-';
            if name.is_empty() || name.len() > LONGEST_NAME || !name.chars().all(fits) {
                return Err(format!("a version's name has 1 to {LONGEST_NAME} letters or digits, as in A,B,C"));
            }
            // Some file systems do not tell capitals from small letters.
            if names.iter().any(|other| other.eq_ignore_ascii_case(name)) {
                return Err(format!("two versions are called `{name}`"));
            }
            names.push(name.to_owned());
        }
        if names.len() > LETTERS { Err(format!("there can be 1 to {LETTERS} versions")) } else { Ok(Self(names)) }
    }
}

/// Runs the command.
///
/// # Errors
/// A plan that cannot be met, files that cannot be read or written, no Chromium where a PDF is asked for.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if arguments.short + arguments.long == 0 {
        return Err(Failure::new("a paper of 0 questions").hint("give --short or --long at least 1"));
    }
    let format = arguments.format.unwrap_or(if arguments.out.is_some() { Format::Html } else { Format::Md });
    if arguments.pdf && format != Format::Html {
        return Err(Failure::new("`--pdf` prints pages").hint("leave out --format, or give --format html"));
    }
    let printer = if arguments.pdf { Some(print::Chromium::find()?) } else { None };
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let templates = files::templates(arguments.concepts.as_deref())?;
    let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
    if arguments.seed.is_none() && arguments.path.is_empty() {
        writeln!(world.err, "seed {} (give --seed {} to get the same again)", seed.0, seed.0)?;
    }
    let plan = plan(arguments, &graph, seed)?;
    let generator = Generator::new(graph);
    let written = written(arguments, &generator, &templates)?;
    let paper = paper::assemble(&generator, &templates, &plan, &written).map_err(|error| failure(arguments, &error))?;
    remarks(arguments, &paper, world)?;
    let made = made(arguments, format, &templates, generator.graph(), &paper)?;
    match &arguments.out {
        None => {
            for file in made.iter().filter(|file| !file.is_picture) {
                writeln!(world.out, "{}", file.text.trim_end_matches('\n'))?;
            }
        }
        Some(folder) => write(folder, &made, printer.as_ref(), arguments.force, world)?,
    }
    Ok(Exit::Done)
}

fn plan(arguments: &Arguments, graph: &Graph, seed: Seed) -> Result<Plan, Failure> {
    let mut fields = Vec::new();
    for id in &arguments.field {
        let known = || graph.fields().map(|(_, field)| field.id.as_str());
        fields.push(graph.find_field(id).ok_or_else(|| generate::unknown("field", id, known()))?);
    }
    Ok(Plan {
        seed,
        n_short: arguments.short.into(),
        n_long: arguments.long.into(),
        reading_minutes: arguments.reading,
        writing_minutes: arguments.writing,
        extended_percent: arguments.extended,
        names: arguments.versions.0.clone(),
        vary: match arguments.vary {
            VaryWord::Technique => Vary::Technique,
            VaryWord::Parameters => Vary::Parameters,
        },
        fields,
    })
}

/// The scenarios of the paths that were named.
fn written(arguments: &Arguments, generator: &Generator, templates: &Templates) -> Result<Vec<Written>, Failure> {
    let mut read = files::Read::default();
    for path in &arguments.path {
        files::read(path, &mut read)?;
    }
    if read.scenarios.is_empty() && !arguments.path.is_empty() {
        return Err(Failure::new("there is no scenario among the files named")
            .hint("name files that `toehold generate --out` wrote, or none to get fresh questions"));
    }
    let mut all = Vec::new();
    for file in &read.scenarios {
        let text = files::scenario_text(file.path())?;
        let place = file.path().display().to_string();
        all.push(paper::read(generator, templates, &place, &text).map_err(|error| failure(arguments, &error))?);
    }
    Ok(all)
}

fn failure(arguments: &Arguments, error: &PaperError) -> Failure {
    let hint = match error {
        PaperError::TooFew { .. } if arguments.path.is_empty() => {
            "ask for fewer questions, fewer versions or other fields, or give --vary parameters".to_owned()
        }
        PaperError::TooFew { .. } => {
            "name more files, give smaller numbers with --short and --long, fewer versions, or --vary parameters"
                .to_owned()
        }
        PaperError::Same { .. } => "name each question once; move a copy out of the folder".to_owned(),
        PaperError::NoPoints(_) => {
            "each part begins with its letter, as in (a), and ends with its points, as in *(2)*".to_owned()
        }
        PaperError::NoOtherParameters(_) => "leave this question out, or give --vary technique".to_owned(),
        PaperError::Document { fault, .. } => fault.hint.to_owned(),
        PaperError::Front { .. } => {
            "`toehold check` says more; give the --concepts that it was made from, or make it again".to_owned()
        }
        PaperError::Template(_) => return Failure::new(error.to_string()),
    };
    Failure::new(error.to_string()).hint(hint)
}

/// What a teacher should know of edited files.
fn remarks(arguments: &Arguments, paper: &Paper, world: &mut World<'_>) -> Result<(), Failure> {
    let edited = paper.versions.first().into_iter().flat_map(|first| &first.questions).filter(|one| one.edited);
    if arguments.vary == VaryWord::Parameters && paper.versions.len() > 1 {
        for question in edited {
            writeln!(
                world.err,
                "note: “{}” has been edited; its other versions are made anew, without the edits",
                question.sheet.title
            )?;
        }
    }
    Ok(())
}

/// A file to write.
struct Made {
    name: String,
    text: String,
    is_picture: bool,
}

fn made(
    arguments: &Arguments,
    format: Format,
    templates: &Templates,
    graph: &Graph,
    paper: &Paper,
) -> Result<Vec<Made>, Failure> {
    let file = |name: String, text: String| Made { name, text, is_picture: false };
    let at_fault = |error| Failure::new(format!("a template does not work: {error}"));
    let size = match arguments.paper {
        SizeWord::A4 => Size::A4,
        SizeWord::Letter => Size::Letter,
    };
    let look = Look { size, large_type: arguments.large_type };
    let page =
        |versions: &[Version], holds| paper::page(templates, graph, paper, versions, holds, look).map_err(at_fault);
    match format {
        Format::Json => Ok(vec![file("paper.json".into(), format!("{}\n", paper::json(paper).map_err(at_fault)?))]),
        Format::Html if arguments.out.is_none() => Ok(vec![file(String::new(), page(&paper.versions, Holds::Both)?)]),
        Format::Html => {
            let mut all = Vec::new();
            for version in &paper.versions {
                let alone = std::slice::from_ref(version);
                all.push(file(format!("paper-{}-student.html", version.name), page(alone, Holds::Student)?));
                all.push(file(format!("paper-{}-guide.html", version.name), page(alone, Holds::Guide)?));
            }
            Ok(all)
        }
        Format::Md => {
            let mut all = Vec::new();
            for copies in paper::copies(templates, graph, paper).map_err(at_fault)? {
                all.push(file(format!("paper-{}-student.md", copies.name), copies.student));
                all.push(file(format!("paper-{}-guide.md", copies.name), copies.guide));
            }
            let pictures = paper::pictures(paper).into_iter();
            all.extend(pictures.map(|(name, picture)| Made { name, text: picture.file(), is_picture: true }));
            Ok(all)
        }
    }
}

/// Writes all files, or none where one of them is in the way.
fn write(
    folder: &Path,
    made: &[Made],
    printer: Option<&print::Chromium>,
    force: bool,
    world: &mut World<'_>,
) -> Result<(), Failure> {
    store::folder(folder)?;
    for file in made {
        let path = folder.join(&file.name);
        store::free(&path, force)?;
        if printer.is_some() {
            store::free(&path.with_extension("pdf"), force)?;
        }
    }
    for file in made {
        let path = folder.join(&file.name);
        store::write(&path, &file.text, force)?;
        if !file.is_picture {
            writeln!(world.out, "{}", path.display())?;
        }
        if let Some(printer) = printer {
            let pdf = path.with_extension("pdf");
            store::write_bytes(&pdf, &printer.pdf(&path)?, force)?;
            writeln!(world.out, "{}", pdf.display())?;
        }
    }
    Ok(())
}
