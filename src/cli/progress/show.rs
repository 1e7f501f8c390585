//! The report, as text, JSON or CSV.

use serde::Serialize;

use super::{Format, View};
use crate::cli::attempts::{self, plain, principle_name};
use crate::cli::practise::{habit_words, reason};
use crate::cli::{Exit, Failure, World, columns, files};
use crate::concepts::Graph;
use crate::progress::{Attempt, Estimate, MODEL, Next, Report, SOURCE, StudentCode, WINDOW, next, report};
use crate::technique::Catalogue;

/// Attempts named below a report at most.
const LATEST: usize = 5;

pub(super) fn run(view: &View, world: &mut World<'_>) -> Result<Exit, Failure> {
    let store = attempts::look(view.data.as_deref())?;
    let found = match &store {
        Some(store) => store.attempts(view.student.as_ref())?,
        None => Vec::new(),
    };
    if found.is_empty() && view.format == Format::Text {
        attempts::nothing_yet(world)?;
        return Ok(Exit::Done);
    }
    let graph = files::graph(view.concepts.as_deref(), world)?;
    let known = attempts::known(&graph, &Catalogue::new(&graph));
    let report = report(&found);
    let next = next(&report, &known);
    match view.format {
        Format::Text => columns::fit(true, world, |world| text(&report, next.as_ref(), &found, &graph, world))?,
        Format::Json => {
            let json = json(&report, next.as_ref(), &found, view.student.as_ref(), &graph);
            let line = serde_json::to_string(&json).map_err(|error| Failure::new(error.to_string()))?;
            writeln!(world.out, "{line}")?;
        }
        Format::Csv => csv(&report, &found, world)?,
    }
    Ok(Exit::Done)
}

fn text(
    report: &Report,
    next: Option<&Next>,
    found: &[Attempt],
    graph: &Graph,
    world: &mut World<'_>,
) -> Result<(), Failure> {
    let (earned, of) = report.points;
    writeln!(
        world.out,
        "Attempts: {}, finished: {}. Points: {earned} of {of}.\n",
        report.n_attempts, report.n_finished
    )?;
    let principles = report.principles.iter().map(|(id, of)| (principle_name(graph, id), of));
    let width = principles.clone().map(|(name, _)| name.chars().count()).max().unwrap_or(0).max(12);
    writeln!(world.out, "{:width$}  points  estimate  95 % interval  directions", "By principle")?;
    for (name, of) in principles {
        let directions = if of.asked == 0 { "-".to_owned() } else { format!("{}/{}", of.right, of.asked) };
        writeln!(world.out, "{name:width$}  {}  {directions}", row(&of.estimate))?;
    }
    let terms = report.command_terms.iter();
    let width = terms.clone().map(|(term, _)| term.as_str().chars().count()).max().unwrap_or(0).max(15);
    writeln!(world.out, "\n{:width$}  points  estimate  95 % interval", "By command term")?;
    for (term, estimate) in terms {
        writeln!(world.out, "{:width$}  {}", term.as_str(), row(estimate))?;
    }
    if !report.habits.is_empty() {
        writeln!(world.out, "\nPoints lost by habit")?;
        for (habit, times) in &report.habits {
            writeln!(world.out, "{times:>4}  {}", habit_words(habit))?;
        }
    }
    if let Some(next) = next {
        writeln!(world.out, "\nNext: {}. {}", principle_name(graph, &next.principle), reason(&next.why))?;
        writeln!(world.out, "      toehold practise --principle {}", next.principle)?;
    }
    writeln!(world.out, "\nLatest attempts (`toehold progress list` shows all)")?;
    for attempt in found.iter().rev().take(LATEST) {
        super::list::line(attempt, world)?;
    }
    writeln!(world.out, "\nEstimate: {MODEL}, from the latest {WINDOW} points.\nSource: {SOURCE}.")?;
    Ok(())
}

/// Points, estimate, interval.
fn row(estimate: &Estimate) -> String {
    let points = format!("{}/{}", estimate.earned, estimate.of);
    if estimate.of == 0 {
        return format!("{points:>6}  {:>8}  {:>13}", "-", "-");
    }
    let interval = format!("{:.2} to {:.2}", estimate.low, estimate.high);
    format!("{points:>6}  {:>8.2}  {interval:>13}", estimate.mean)
}

/// The JSON of a report, version 1. Estimates are rounded to four decimals.
#[derive(Serialize)]
struct ReportView<'a> {
    toehold_report: u32,
    student: Option<&'a StudentCode>,
    attempts: usize,
    finished: usize,
    points: PointsView,
    model: ModelView,
    principles: Vec<PrincipleView<'a>>,
    command_terms: Vec<TermView<'a>>,
    habits: Vec<HabitView<'a>>,
    next: Option<NextView<'a>>,
    list: Vec<AttemptView<'a>>,
}

#[derive(Serialize)]
struct PointsView {
    earned: u32,
    of: u32,
}

#[derive(Serialize)]
struct ModelView {
    name: &'static str,
    source: &'static str,
    window: usize,
}

#[derive(Serialize)]
struct PrincipleView<'a> {
    id: &'a str,
    name: String,
    earned: u32,
    of: u32,
    estimate: f64,
    low: f64,
    high: f64,
    directions: DirectionsView,
}

#[derive(Serialize)]
struct DirectionsView {
    right: u32,
    asked: u32,
}

#[derive(Serialize)]
struct TermView<'a> {
    id: &'a str,
    earned: u32,
    of: u32,
    estimate: f64,
    low: f64,
    high: f64,
}

#[derive(Serialize)]
struct HabitView<'a> {
    id: &'a str,
    times: u32,
}

#[derive(Serialize)]
struct NextView<'a> {
    principle: &'a str,
    name: String,
    why: String,
}

/// An attempt as reports name it.
#[derive(Serialize)]
pub(super) struct AttemptView<'a> {
    id: &'a str,
    student: Option<&'a StudentCode>,
    started: String,
    finished: bool,
    scenario: &'a str,
    title: &'a str,
    earned: u32,
    of: u32,
}

impl<'a> AttemptView<'a> {
    pub(super) fn of(attempt: &'a Attempt) -> Self {
        let (earned, of) = attempt.points();
        Self {
            id: attempt.id.as_str(),
            student: attempt.student.as_ref(),
            started: attempt.started.to_string(),
            finished: attempt.is_finished(),
            scenario: attempt.scenario.id.as_str(),
            title: &attempt.scenario.title,
            earned,
            of,
        }
    }
}

fn json<'a>(
    report: &'a Report,
    next: Option<&'a Next>,
    found: &'a [Attempt],
    student: Option<&'a StudentCode>,
    graph: &Graph,
) -> ReportView<'a> {
    let principles = report.principles.iter().map(|(id, of)| PrincipleView {
        id: id.as_str(),
        name: principle_name(graph, id),
        earned: of.estimate.earned,
        of: of.estimate.of,
        estimate: short(of.estimate.mean),
        low: short(of.estimate.low),
        high: short(of.estimate.high),
        directions: DirectionsView { right: of.right, asked: of.asked },
    });
    let terms = report.command_terms.iter().map(|(term, estimate)| TermView {
        id: term.as_str(),
        earned: estimate.earned,
        of: estimate.of,
        estimate: short(estimate.mean),
        low: short(estimate.low),
        high: short(estimate.high),
    });
    ReportView {
        toehold_report: 1,
        student,
        attempts: report.n_attempts,
        finished: report.n_finished,
        points: PointsView { earned: report.points.0, of: report.points.1 },
        model: ModelView { name: MODEL, source: SOURCE, window: WINDOW },
        principles: principles.collect(),
        command_terms: terms.collect(),
        habits: report.habits.iter().map(|(id, times)| HabitView { id: id.as_str(), times: *times }).collect(),
        next: next.map(|next| NextView {
            principle: next.principle.as_str(),
            name: principle_name(graph, &next.principle),
            why: reason(&next.why),
        }),
        list: found.iter().map(AttemptView::of).collect(),
    }
}

/// Four decimals.
fn short(share: f64) -> f64 {
    libm::round(share * 1e4) / 1e4
}

fn csv(report: &Report, found: &[Attempt], world: &mut World<'_>) -> Result<(), Failure> {
    let mut rows = csv::Writer::from_writer(Vec::new());
    let broken = |error: csv::Error| Failure::new(format!("could not write the output: {error}"));
    let header = ["kind", "id", "earned", "of", "estimate", "low", "high"];
    rows.write_record(header).map_err(broken)?;
    let estimated = |kind: &str, id: &str, estimate: &Estimate| {
        let shares = [estimate.mean, estimate.low, estimate.high].map(|share| short(share).to_string());
        let [mean, low, high] = shares;
        [kind.to_owned(), id.to_owned(), estimate.earned.to_string(), estimate.of.to_string(), mean, low, high]
    };
    let bare = |kind: &str, id: &str, earned: String, of: u32| {
        let none = String::new;
        [kind.to_owned(), id.to_owned(), earned, of.to_string(), none(), none(), none()]
    };
    for (id, of) in &report.principles {
        rows.write_record(estimated("principle", id.as_str(), &of.estimate)).map_err(broken)?;
    }
    for (term, estimate) in &report.command_terms {
        rows.write_record(estimated("command-term", term.as_str(), estimate)).map_err(broken)?;
    }
    for (habit, times) in &report.habits {
        rows.write_record(bare("habit", habit.as_str(), String::new(), *times)).map_err(broken)?;
    }
    for attempt in found {
        let (earned, of) = attempt.points();
        rows.write_record(bare("attempt", attempt.id.as_str(), earned.to_string(), of)).map_err(broken)?;
    }
    let bytes = rows.into_inner().map_err(|error| Failure::new(error.to_string()))?;
    world.out.write_all(plain(&String::from_utf8_lossy(&bytes)).as_bytes())?;
    Ok(())
}
