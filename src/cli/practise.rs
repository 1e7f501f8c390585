//! `toehold practise`: one scenario from reading to scoring, at a terminal or through a pipe.

mod advice;
mod desk;
mod lettering;
mod scoring;
mod sitting;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use self::desk::{Desk, Stop};
use self::scoring::Reviewer;
pub(in crate::cli) use self::scoring::{habit_words, reason};
use super::attempts;
use super::generate::{FormWord, narrow};
use super::{Exit, Failure, World, files, pages};
use crate::guide;
use crate::progress::{
    Answer, Attempt, Form as AttemptForm, Practised, PrincipleId, ScenarioId, StepKey, Store, StudentCode, Support,
    ranked, record, report,
};
use crate::render::{Document, markdown};
use crate::review;
use crate::scenario::{Front, FrontError, Generator, Run, Scenario, generate};
use crate::seed::{MOST, Seed};
use crate::technique::{Form, Refusals, Wish};

/// Scenarios that were practised before and are passed over, at most.
const MOST_PASSED: u64 = 200;

/// Practise: read, recall, commit a prediction, see the outcome, answer, score yourself.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold practise                          # a new short question
  toehold practise this-week/NAME.md        # one of your teacher's
  toehold practise --weakest                # what you need most, by your own record
  toehold practise --principle osmosis --support prompts
  toehold practise --resume                 # go on where you stopped
  toehold practise --form long --timed
  toehold practise --page my-pages --count 6  # pages for a browser, with an index; they work without a network
  toehold practise --page class-pages this-week

Every answer is saved as soon as it is given: leave with Ctrl-D or Ctrl-C at any moment.

Support of the steps: full asks each question and answers it; completion tells what plays a part here; prompts only \
asks, and answers after the prediction; none goes straight to the prediction. Where --support is not given, it fades \
with success.

Attempts are kept in the file attempts.sqlite in the folder toehold of your data folder, or where --data or the variable \
TOEHOLD_DATA say. Nothing leaves the machine.")]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of the command line")]
pub struct Arguments {
    /// A scenario (.md) that `toehold generate` wrote; goes on where it was left, if it was. With --page, files or folders.
    #[arg(conflicts_with_all = ["field", "principle", "weakest", "resume", "form", "seed", "count"])]
    file: Vec<PathBuf>,
    /// Write pages for a browser and `index.html` into this folder, instead of practising here.
    #[arg(long, value_name = "DIR", conflicts_with_all = ["weakest", "resume", "support", "timed", "student", "data"])]
    page: Option<PathBuf>,
    /// How many fresh scenarios become pages.
    #[arg(long, value_name = "N", default_value_t = 6, requires = "page",
        value_parser = clap::value_parser!(u64).range(1..=1000))]
    count: u64,
    /// Replace pages that exist.
    #[arg(long, requires = "page")]
    force: bool,
    /// A field that the technique must cross; may be repeated.
    #[arg(long, value_name = "F")]
    field: Vec<String>,
    /// A principle that it must exercise; may be repeated.
    #[arg(long, value_name = "P", conflicts_with = "weakest")]
    principle: Vec<String>,
    /// The principle that your attempts show to be weakest and whose prerequisites are in place.
    #[arg(long)]
    weakest: bool,
    /// Go on with the attempt that was left last.
    #[arg(long, conflicts_with_all = ["field", "principle", "weakest", "form", "seed", "support"])]
    resume: bool,
    /// Length: short has 3 or 4 points, long has 10. [default: short; both with --page]
    #[arg(long, value_enum)]
    form: Option<FormWord>,
    /// Support of the steps, for all of them alike; without it, support fades with success.
    #[arg(long, value_enum)]
    support: Option<SupportWord>,
    /// Show the time of reading and of writing beside each question; counts from the beginning of this sitting.
    #[arg(long)]
    timed: bool,
    /// A code for the student, where several share a file. No names are needed.
    #[arg(long, value_name = "CODE", value_parser = attempts::student)]
    student: Option<StudentCode>,
    /// The file of attempts.
    #[arg(long, value_name = "FILE")]
    data: Option<PathBuf>,
    /// Draw the scenario from this seed.
    #[arg(long, value_name = "S", value_parser = clap::value_parser!(u64).range(0..MOST))]
    seed: Option<u64>,
    /// Use the concepts of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
}

/// Levels of support, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SupportWord {
    Full,
    Completion,
    Prompts,
    None,
}

/// Runs the command.
///
/// # Errors
/// A file that cannot be read, a wish that cannot be met, a store that cannot be used.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if let Some(folder) = &arguments.page {
        return write_pages(arguments, folder, world);
    }
    let generator = Generator::new(files::graph(arguments.concepts.as_deref(), world)?);
    let asked = Asked::of(arguments, &generator, world)?;
    let mut store = attempts::open(arguments.data.as_deref())?;
    let (attempt, scenario) = chosen(arguments, asked, &generator, &mut store, world)?;
    let lexicon = guide::lexicon(generator.graph(), &scenario.front);
    let reads = review::Reviewer::new(&guide::of_scenario(&scenario), &lexicon);
    let reviewer: Reviewer<'_> = &|_, part, answer| advice::advice(&reads, part, answer);
    let known = attempts::known(generator.graph(), generator.catalogue());
    let mut desk = Desk::new(world, &mut store, attempt);
    let sat = sitting::sit(&mut desk, &scenario, generator.graph(), arguments.timed)
        .and_then(|()| scoring::score(&mut desk, &scenario, reviewer))
        .and_then(|()| scoring::close(&mut desk, generator.graph(), &known));
    let id = desk.id().clone();
    match sat {
        Ok(()) => Ok(Exit::Done),
        Err(Stop::Left) => {
            writeln!(world.out, "Left; everything up to here is saved as attempt {id}.")?;
            writeln!(world.out, "`{}` goes on at this place.", resume(arguments))?;
            Ok(Exit::Done)
        }
        Err(Stop::Failed(failure)) => Err(failure),
    }
}

/// Pages of the files named, or of fresh scenarios.
fn write_pages(arguments: &Arguments, folder: &Path, world: &mut World<'_>) -> Result<Exit, Failure> {
    let generator = Generator::new(files::graph(arguments.concepts.as_deref(), world)?);
    let templates = files::templates(arguments.concepts.as_deref())?;
    let subjects = if arguments.file.is_empty() {
        let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
        if arguments.seed.is_none() {
            writeln!(world.err, "seed {} (give --seed {} to get the same again)", seed.0, seed.0)?;
        }
        pages::fresh(&generator, &templates, &wish(arguments, &generator)?, seed, arguments.count)?
    } else {
        pages::read(&generator, &templates, &arguments.file)?
    };
    for path in pages::write_pages(folder, generator.graph(), &templates, &subjects, arguments.force)? {
        writeln!(world.out, "{}", path.display())?;
    }
    Ok(Exit::Done)
}

/// What is asked of fresh scenarios.
fn wish(arguments: &Arguments, generator: &Generator) -> Result<Wish, Failure> {
    let graph = generator.graph();
    let mut wish = Wish { form: arguments.form.map(FormWord::form), ..Wish::default() };
    narrow(&mut wish, graph, &arguments.field, &arguments.principle)?;
    Ok(wish)
}

/// The command that goes on with what was left.
fn resume(arguments: &Arguments) -> String {
    let student = arguments.student.as_ref().map(|code| format!(" --student {code}"));
    let data = arguments.data.as_ref().map(|path| format!(" --data {}", path.display()));
    let concepts = arguments.concepts.as_ref().map(|path| format!(" --concepts {}", path.display()));
    let options = [student, data, concepts].into_iter().flatten().collect::<String>();
    format!("toehold practise --resume{options}")
}

/// What is to be practised. It is looked at before attempts are opened: a wish that cannot be met leaves no file of them behind.
enum Asked {
    LeftLast,
    File(Box<Scenario>),
    Fresh(Wish),
}

impl Asked {
    fn of(arguments: &Arguments, generator: &Generator, world: &mut World<'_>) -> Result<Self, Failure> {
        match arguments.file.as_slice() {
            [file, _, ..] => Err(Failure::new(format!("`{}` is not the only file named", file.display()))
                .hint("practise one scenario at a time, or make pages of all with --page DIR")),
            [file] => {
                let scenario = from_file(generator, file, arguments.concepts.as_deref(), world)?;
                Ok(Self::File(Box::new(scenario)))
            }
            [] if arguments.resume => {
                attempts::look(arguments.data.as_deref())?.ok_or_else(nothing_left)?;
                Ok(Self::LeftLast)
            }
            [] => wish(arguments, generator).map(Self::Fresh),
        }
    }
}

fn nothing_left() -> Failure {
    Failure::new("there is no attempt to go on with")
        .hint("`toehold practise` begins a new one; where a code was given, give --student CODE")
}

/// The attempt to go on with, or a new one, and its scenario.
fn chosen(
    arguments: &Arguments,
    asked: Asked,
    generator: &Generator,
    store: &mut Store,
    world: &mut World<'_>,
) -> Result<(Attempt, Scenario), Failure> {
    let student = arguments.student.as_ref();
    let scenario = match asked {
        Asked::LeftLast => {
            let open = store.unfinished(student, None)?.ok_or_else(nothing_left)?;
            let scenario = remembered(generator, &open)?;
            writeln!(world.err, "going on with “{}”, attempt {}", attempts::plain(&open.scenario.title), open.id)?;
            return Ok((open, scenario));
        }
        Asked::File(scenario) => {
            let open = store.unfinished(student, Some(scenario.seed))?;
            if let Some(open) = open.filter(|open| open.scenario.id.as_str() == scenario.id) {
                writeln!(world.err, "going on with attempt {}", open.id)?;
                return Ok((open, *scenario));
            }
            *scenario
        }
        Asked::Fresh(wish) => drawn(arguments, wish, generator, store, world)?,
    };
    let attempt = begun(arguments, store, &scenario, world)?;
    Ok((attempt, scenario))
}

/// The scenario of an attempt, made again.
fn remembered(generator: &Generator, attempt: &Attempt) -> Result<Scenario, Failure> {
    let what = format!("attempt {}", attempt.id);
    let hint = "practise its file again: toehold practise FILE";
    let front = attempt
        .scenario
        .front
        .as_ref()
        .ok_or_else(|| Failure::new(format!("{what} does not say how its scenario is made again")).hint(hint))?;
    let front: Front = serde_json::from_str(front)
        .map_err(|error| Failure::new(format!("the front matter of {what} cannot be read: {error}")).hint(hint))?;
    generator.again(&front).map_err(|error| unmade(&what, &error))
}

fn unmade(what: &str, error: &FrontError) -> Failure {
    let hint = match error {
        FrontError::OtherGraph { .. } => "give the concepts that it was made from with --concepts",
        FrontError::Format(_) => "use the newer version of the program",
        _ => "`toehold check` says more",
    };
    Failure::new(format!("{what}: {error}")).hint(hint)
}

fn from_file(
    generator: &Generator,
    file: &Path,
    concepts: Option<&Path>,
    world: &mut World<'_>,
) -> Result<Scenario, Failure> {
    let text = files::scenario_text(file)?;
    let document = Document::read(&text).map_err(|fault| {
        let place = format!("{}:{}:{}", file.display(), fault.line, fault.column);
        Failure::new(format!("{place}: {}", fault.message)).hint(fault.hint)
    })?;
    let scenario = generator.again(&document.front).map_err(|error| unmade(&file.display().to_string(), &error))?;
    let templates = files::templates(concepts)?;
    let made =
        markdown(&templates, &scenario).map_err(|error| Failure::new(format!("a template does not work: {error}")))?;
    if made.trim_end() != text.replace("\r\n", "\n").trim_end() {
        writeln!(
            world.err,
            "note: `{}` has been edited; it is practised as it was made, without the edits",
            file.display()
        )?;
    }
    Ok(scenario)
}

/// A new scenario that this student has not practised.
fn drawn(
    arguments: &Arguments,
    asked: Wish,
    generator: &Generator,
    store: &Store,
    world: &mut World<'_>,
) -> Result<Scenario, Failure> {
    let graph = generator.graph();
    let wish = Wish { form: asked.form.or(Some(Form::Short)), ..asked };
    let before = store.attempts(arguments.student.as_ref())?;
    let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
    let new = |wish: &Wish| {
        let mut run = Run::default();
        let mut scenarios = (0..MOST_PASSED)
            .map_while(|index| generate(generator, wish, seed, index, &mut run, &mut Refusals::default()));
        scenarios.find(|scenario| !before.iter().any(|attempt| attempt.scenario.id.as_str() == scenario.id))
    };
    if arguments.weakest {
        let known = attempts::known(graph, generator.catalogue());
        for next in ranked(&report(&before), &known) {
            let principle = graph.find_principle(next.principle.as_str());
            let wish = Wish { principles: principle.into_iter().collect(), ..wish.clone() };
            if let Some(scenario) = new(&wish) {
                let name = attempts::principle_name(graph, &next.principle);
                writeln!(world.err, "practising {name}. {}", reason(&next.why))?;
                return Ok(scenario);
            }
        }
    }
    new(&wish).ok_or_else(|| {
        Failure::new("no scenario that you have not practised fits these wishes")
            .hint("ask for fewer fields or principles, another form or another seed")
    })
}

/// A new attempt, saved before the first question.
fn begun(
    arguments: &Arguments,
    store: &mut Store,
    scenario: &Scenario,
    world: &mut World<'_>,
) -> Result<Attempt, Failure> {
    let student = arguments.student.clone();
    let given = arguments.support.map(|word| match word {
        SupportWord::Full => Support::Full,
        SupportWord::Completion => Support::Completion,
        SupportWord::Prompts => Support::Prompts,
        SupportWord::None => Support::None,
    });
    let support = match given {
        Some(support) => support,
        None => faded(&store.attempts(student.as_ref())?),
    };
    if let Some(open) = store.unfinished(student.as_ref(), None)? {
        let title = attempts::plain(&open.scenario.title);
        writeln!(world.err, "note: “{title}” was left unfinished; `toehold practise --resume` goes on with it")?;
    }
    let started = world.moment();
    let steady = given.is_some().then(|| {
        let step = StepKey::new(sitting::STEADY)?;
        Ok::<Answer, Failure>(Answer { step, text: String::new(), check: None, at: started })
    });
    let principles = scenario.principles.iter().map(|id| PrincipleId::new(id.clone()));
    let attempt = Attempt {
        id: store.new_id()?,
        student,
        started,
        support,
        scenario: Practised {
            id: ScenarioId::new(scenario.id.clone())?,
            title: scenario.title.clone(),
            seed: scenario.seed,
            form: match scenario.form {
                Form::Short => AttemptForm::Short,
                Form::Long => AttemptForm::Long,
            },
            points: scenario.parts.iter().map(|part| part.points).sum(),
            principles: principles.collect::<Result<_, _>>()?,
            front: serde_json::to_string(&scenario.front).ok(),
        },
        answers: steady.transpose()?.into_iter().collect(),
        scores: Vec::new(),
        corrections: Vec::new(),
    };
    record(store, &attempt)?;
    Ok(attempt)
}

/// Support after the latest finished attempt.
fn faded(before: &[Attempt]) -> Support {
    let last = before.iter().filter(|attempt| attempt.is_finished()).max_by_key(|attempt| attempt.last());
    let Some(last) = last else { return Support::Full };
    let checked = |wanted: &dyn Fn(&str) -> bool| -> Vec<bool> {
        let answers = last.answers.iter().filter(|answer| wanted(answer.step.as_str()));
        answers.filter_map(|answer| answer.check.as_ref().map(|check| check.right)).collect()
    };
    let directions = checked(&|step| step.ends_with("/direction"));
    let prediction = checked(&|step| step == "prediction").first().copied().unwrap_or(false);
    last.support.next(&directions, prediction, last.points())
}
