//! `toehold generate`: the main job. Original scenarios from a seed.

mod plan;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::{Exit, Failure, World, files, store};
use crate::concepts::Graph;
use crate::concepts::written::TwistKind;
use crate::render::{self, PageError, Templates};
use crate::scenario::{Generator, Run, Scenario, generate};
use crate::seed::{MOST, Seed};
use crate::technique::{Form, Refusals, TwistWish, Wish};

/// Make original invented-technique questions, with data, scaffold and scoring guide.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold generate
  toehold generate --count 6 --seed 42 --out this-week
  toehold generate --field membranes --field light --form long --twist reverse
  toehold generate --count 20 --format json > twenty.jsonl
  toehold generate --from my-plan.md --out this-week")]
pub struct Arguments {
    /// How many.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u64).range(1..=100_000))]
    count: u64,
    /// Same seed, same concepts, same version: the same bytes. Drawn from the clock where it is not given.
    #[arg(long, value_name = "S", value_parser = clap::value_parser!(u64).range(0..MOST))]
    seed: Option<u64>,
    /// A field that the path must cross; may be repeated.
    #[arg(long, value_name = "F")]
    field: Vec<String>,
    /// A principle that it must exercise; may be repeated.
    #[arg(long, value_name = "P")]
    principle: Vec<String>,
    /// An influence that its path must hold; may be repeated.
    #[arg(long, value_name = "ID")]
    influence: Vec<String>,
    /// The bench act that sets the treatment.
    #[arg(long, value_name = "ID")]
    act: Option<String>,
    /// The bench arrangement that reads.
    #[arg(long, value_name = "ID")]
    rig: Option<String>,
    /// Who investigates.
    #[arg(long, value_name = "ID")]
    context: Option<String>,
    /// Follow the plan in this file (`toehold new scenario` begins one); what it leaves open is drawn.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["influence", "act", "rig", "context", "form", "twist"])]
    from: Option<PathBuf>,
    /// Length: short has 3 or 4 points, long has 10. Both where it is not given.
    #[arg(long, value_enum)]
    form: Option<FormWord>,
    /// The changed experiment: none, cut, bypass, reverse, saturate, remove-setting, rival-path or rate-or-end-point.
    #[arg(long, value_name = "KIND", value_parser = twist)]
    twist: Option<TwistWish>,
    /// Write one file a scenario into this folder, instead of standard output.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Markdown, one self-contained page, or one JSON object a line.
    #[arg(long, value_enum, default_value_t = Format::Md)]
    format: Format,
    /// Use the concepts of this folder (and the templates in its `templates` folder) instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Say on standard error how many draws were rejected, and why.
    #[arg(long)]
    explain_refusals: bool,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// Lengths of a question, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum FormWord {
    Short,
    Long,
}

impl FormWord {
    /// The length as techniques know it.
    pub(super) fn form(self) -> Form {
        match self {
            Self::Short => Form::Short,
            Self::Long => Form::Long,
        }
    }
}

/// Kinds of twist, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum KindWord {
    /// A blocker: a step no longer acts
    Cut,
    /// A later quantity is supplied directly
    Bypass,
    /// A condition flips the sign of a step
    Reverse,
    /// A step no longer limits
    Saturate,
    /// Something that a step needs is taken away
    RemoveSetting,
    /// A second way of opposite sign opens; the data decide
    RivalPath,
    /// The reading is made at the end instead of early
    RateOrEndPoint,
}

impl KindWord {
    /// The kind as the concepts know it.
    pub(super) fn kind(self) -> TwistKind {
        match self {
            Self::Cut => TwistKind::Cut,
            Self::Bypass => TwistKind::Bypass,
            Self::Reverse => TwistKind::Reverse,
            Self::Saturate => TwistKind::Saturate,
            Self::RemoveSetting => TwistKind::RemoveSetting,
            Self::RivalPath => TwistKind::RivalPath,
            Self::RateOrEndPoint => TwistKind::RateOrEndPoint,
        }
    }
}

/// What is asked of the twist, as typed: a kind, or none.
fn twist(word: &str) -> Result<TwistWish, String> {
    if word == "none" {
        return Ok(TwistWish::Without);
    }
    KindWord::from_str(word, false).map(|word| TwistWish::Kind(word.kind())).map_err(|_| {
        let kinds = KindWord::value_variants().iter().filter_map(ValueEnum::to_possible_value);
        let kinds: Vec<String> = kinds.map(|kind| kind.get_name().to_owned()).collect();
        format!("there are: none, {}", kinds.join(", "))
    })
}

/// Formats of a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// Markdown with front matter.
    Md,
    /// One self-contained page.
    Html,
    /// One JSON object a line.
    Json,
}

impl Format {
    fn ending(self) -> &'static str {
        match self {
            Self::Md => "md",
            Self::Html => "html",
            Self::Json => "json",
        }
    }
}

/// Runs the command.
///
/// # Errors
/// A wish that the concepts cannot meet, or a file that cannot be written.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if arguments.format == Format::Html && arguments.count > 1 && arguments.out.is_none() {
        return Err(Failure::new("several pages cannot be written into one output")
            .hint("give a folder with --out: each scenario is then a file of its own"));
    }
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let templates = files::templates(arguments.concepts.as_deref())?;
    let mut wish = wish(&graph, arguments)?;
    if let Some(path) = &arguments.from {
        plan::narrow(&mut wish, &graph, path, world)?;
    }
    let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
    if arguments.seed.is_none() {
        writeln!(world.err, "seed {} (give --seed {} to get the same again)", seed.0, seed.0)?;
    }
    if let Some(folder) = &arguments.out {
        store::folder(folder)?;
    }
    let generator = Generator::new(graph);
    plan::can_be_walked(&wish, generator.graph(), generator.catalogue())?;
    let bar = progress(arguments, world);
    let mut run = Run::default();
    let mut refusals = Refusals::default();
    for index in 0..arguments.count {
        let Some(scenario) = generate(&generator, &wish, seed, index, &mut run, &mut refusals) else {
            bar.finish_and_clear();
            explain(arguments, &generator, &refusals, world)?;
            return Err(unmet(index));
        };
        let text = rendered(&templates, &scenario, arguments.format)?;
        match &arguments.out {
            None => writeln!(world.out, "{}", text.trim_end_matches('\n'))?,
            Some(folder) => {
                let path = folder.join(format!("{}.{}", scenario.id, arguments.format.ending()));
                store::write(&path, &text, arguments.force)?;
                if arguments.format == Format::Md {
                    pictures(&scenario, folder, arguments.force)?;
                }
                if !world.interactive || arguments.count == 1 {
                    writeln!(world.out, "{}", path.display())?;
                }
            }
        }
        bar.inc(1);
    }
    bar.finish_and_clear();
    explain(arguments, &generator, &refusals, world)?;
    Ok(Exit::Done)
}

/// A scenario in a format.
pub(super) fn rendered(templates: &Templates, scenario: &Scenario, format: Format) -> Result<String, Failure> {
    let text = match format {
        Format::Md => render::markdown(templates, scenario),
        Format::Html => return page(templates, scenario),
        Format::Json => render::json(templates, scenario),
    };
    text.map_err(|error| Failure::new(format!("a template does not work: {error}")))
}

/// The page of the Markdown: the same as `render` makes of the file.
fn page(templates: &Templates, scenario: &Scenario) -> Result<String, Failure> {
    let text = render::markdown(templates, scenario).map_err(PageError::from);
    let page = text.and_then(|text| render::page(templates, &text, render::Copy::Teacher));
    page.map_err(|error| Failure::new(format!("the page cannot be made: {error}")))
}

/// The pictures that the Markdown of a scenario refers to, beside it.
fn pictures(scenario: &Scenario, folder: &Path, force: bool) -> Result<(), Failure> {
    for (ending, picture) in render::pictures(scenario) {
        store::write(&folder.join(format!("{}{ending}.svg", scenario.id)), &picture.file(), force)?;
    }
    Ok(())
}

fn unmet(index: u64) -> Failure {
    let message = if index == 0 {
        "no technique fits these wishes".to_owned()
    } else {
        format!("only {index} different technique{} these wishes", if index == 1 { " fits" } else { "s fit" })
    };
    Failure::new(message).hint("ask for fewer fields or principles, another twist, or see --explain-refusals")
}

fn wish(graph: &Graph, arguments: &Arguments) -> Result<Wish, Failure> {
    let mut wish = Wish {
        form: arguments.form.map(FormWord::form),
        twist: arguments.twist.unwrap_or_default(),
        ..Wish::default()
    };
    narrow(&mut wish, graph, &arguments.field, &arguments.principle)?;
    if let Some(id) = &arguments.act {
        let known = graph.acts().map(|(_, act)| act.id.as_str());
        wish.act = Some(graph.find_act(id).ok_or_else(|| unknown("act", id, known))?);
    }
    if let Some(id) = &arguments.rig {
        let known = graph.rigs().map(|(_, rig)| rig.id.as_str());
        wish.rig = Some(graph.find_rig(id).ok_or_else(|| unknown("rig", id, known))?);
    }
    if let Some(id) = &arguments.context {
        let known = graph.contexts().map(|(_, context)| context.id.as_str());
        wish.context = Some(graph.find_context(id).ok_or_else(|| unknown("context", id, known))?);
    }
    for id in &arguments.influence {
        let known = || graph.influences().map(|(_, influence)| influence.id.as_str());
        wish.influences.push(graph.find_influence(id).ok_or_else(|| unknown("influence", id, known()))?);
    }
    Ok(wish)
}

/// Adds the fields and principles of these ids to a wish.
pub(super) fn narrow(wish: &mut Wish, graph: &Graph, fields: &[String], principles: &[String]) -> Result<(), Failure> {
    for id in fields {
        let known = || graph.fields().map(|(_, field)| field.id.as_str());
        wish.fields.push(graph.find_field(id).ok_or_else(|| unknown("field", id, known()))?);
    }
    for id in principles {
        let known = || graph.principles().map(|(_, principle)| principle.id.as_str());
        wish.principles.push(graph.find_principle(id).ok_or_else(|| unknown("principle", id, known()))?);
    }
    Ok(())
}

/// "Did you mean", or the whole list where nothing is near.
pub(super) fn unknown<'a>(kind: &str, given: &str, known: impl Iterator<Item = &'a str>) -> Failure {
    let all: Vec<&str> = known.collect();
    let near = all.iter().max_by(|a, b| strsim::jaro_winkler(given, a).total_cmp(&strsim::jaro_winkler(given, b)));
    let hint = match near {
        Some(near) if strsim::jaro_winkler(given, near) > 0.8 => format!("did you mean `{near}`?"),
        _ => format!("there are: {}", all.join(", ")),
    };
    Failure::new(format!("no {kind} is called `{given}`")).hint(hint)
}

fn progress(arguments: &Arguments, world: &World<'_>) -> ProgressBar {
    if !world.interactive || arguments.count < 20 {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::with_draw_target(Some(arguments.count), ProgressDrawTarget::stderr());
    bar.with_style(ProgressStyle::default_bar())
}

fn explain(
    arguments: &Arguments,
    generator: &Generator,
    refusals: &Refusals,
    world: &mut World<'_>,
) -> Result<(), Failure> {
    if !arguments.explain_refusals {
        return Ok(());
    }
    let catalogue = generator.catalogue();
    writeln!(
        world.err,
        "{} paths can be walked ({} with their rigs)",
        catalogue.n_paths(),
        catalogue.candidates().len()
    )?;
    writeln!(world.err, "paths not taken:")?;
    for (reason, n) in catalogue.refusals().iter() {
        writeln!(world.err, "{n:>8}  {reason}")?;
    }
    writeln!(world.err, "draws rejected:")?;
    for (reason, n) in refusals.iter() {
        writeln!(world.err, "{n:>8}  {reason}")?;
    }
    Ok(())
}
