//! What a page's script is given: a file format of its own, so that the inner types may change.

use serde::Serialize;

use super::Practice;
use super::edits;
use crate::render::page::chart;
use crate::render::{Asked, Sheet};
use crate::scenario::{Point, QuantityView, ScaffoldStep, Scenario, Table, TwistView};
use crate::technique::Form;

/// Version of this shape.
pub(super) const SHAPE: u32 = 1;
/// A sitting of 10 minutes' reading and 80 minutes' writing for 44 points: common practice, no source.
const POINTS_OF_SITTING: u32 = 44;
const READING_MINUTES: u32 = 10;
const WRITING_MINUTES: u32 = 80;

/// A principle as the pages know it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Known {
    /// Id in the graph.
    pub id: String,
    /// Short name, lower case.
    pub name: String,
    /// Ids of all principles that it rests on.
    pub requires: Vec<String>,
}

/// A page in the index.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// The scenario's id.
    pub id: String,
    /// Its title, as the file has it.
    pub title: String,
    /// Name of the page's file.
    pub href: String,
    /// `short` or `long`.
    pub form: &'static str,
    /// Points.
    pub points: u32,
    /// Names of the fields.
    pub fields: Vec<String>,
    /// Ids of the principles that it exercises.
    pub principles: Vec<String>,
}

impl Entry {
    /// The entry of a scenario whose page has this file name.
    pub fn of(scenario: &Scenario, title: &str, href: String) -> Self {
        Self {
            id: scenario.id.clone(),
            title: title.to_owned(),
            href,
            form: scenario.form.word(),
            points: scenario.parts.iter().map(|part| part.points).sum(),
            fields: scenario.map.fields.clone(),
            principles: scenario.principles.clone(),
        }
    }
}

/// All that a page's script is given.
#[derive(Debug, Serialize)]
pub(super) struct PageData<'a> {
    toehold_page: u32,
    scenario: About<'a>,
    minutes: Minutes,
    dial: Axis,
    reading: Axis,
    prediction: &'static str,
    plain: RunView<'a>,
    twisted: Option<RunView<'a>>,
    /// The reader is to draw the graph: the page draws it after the answers are handed in.
    to_draw: bool,
    steps: Vec<ScaffoldStep>,
    parts: Vec<PartData<'a>>,
    points: Vec<PointData<'a>>,
    reviewer: Option<&'a serde_json::Value>,
    principles: &'a [Known],
    pages: &'a [Entry],
}

/// The scenario as an attempt names it.
#[derive(Debug, Serialize)]
struct About<'a> {
    id: &'a str,
    title: &'a str,
    seed: u64,
    form: &'static str,
    concepts: &'a str,
    fields: &'a [String],
    principles: &'a [String],
    points: u32,
}

#[derive(Debug, Serialize)]
struct Minutes {
    reading: u32,
    writing: u32,
}

/// A quantity on its axis.
#[derive(Debug, Serialize)]
struct Axis {
    name: String,
    the: String,
    /// As printed; empty for none.
    unit: String,
    /// Name and unit.
    header: String,
}

/// A run of the experiment.
#[derive(Debug, Serialize)]
struct RunView<'a> {
    /// Noiseless, (level, readout).
    curve: &'a [(f64, f64)],
    /// Level, mean, two SEM.
    rows: Vec<(f64, f64, f64)>,
    /// How it goes.
    direction: &'static str,
    /// The bench fact of the changed experiment.
    agent: &'a str,
}

#[derive(Debug, Serialize)]
struct PartData<'a> {
    label: char,
    command_term: &'a str,
    points: u32,
    to_draw: bool,
}

#[derive(Debug, Serialize)]
struct PointData<'a> {
    part: &'a str,
    point: &'a str,
    statement: String,
    accept: Vec<String>,
    reject: Vec<String>,
    principles: Vec<&'a str>,
}

impl<'a> PageData<'a> {
    /// What the script of this page needs.
    pub(super) fn of(practice: &Practice<'a>, sheet: &Sheet) -> Self {
        let scenario = practice.scenario;
        let points: u32 = sheet.parts.iter().map(|part| part.points).sum();
        let minutes = |of_sitting: u32| (of_sitting * points).div_ceil(POINTS_OF_SITTING).max(1);
        Self {
            toehold_page: SHAPE,
            scenario: About {
                id: &scenario.id,
                title: &practice.document.title,
                seed: scenario.seed,
                form: scenario.form.word(),
                concepts: &scenario.front.graph,
                fields: &scenario.fields,
                principles: &scenario.principles,
                points,
            },
            minutes: Minutes { reading: minutes(READING_MINUTES), writing: minutes(WRITING_MINUTES) },
            dial: axis(&scenario.dial),
            reading: axis(&scenario.reading),
            prediction: scenario.prediction.direction,
            plain: RunView { rows: rows(practice), ..run(&scenario.data, scenario.prediction.direction, "") },
            twisted: scenario.twist.as_ref().and_then(twisted),
            to_draw: sheet.parts.iter().any(|part| part.to_draw),
            steps: edits::steps(practice.document, &scenario.scaffold),
            parts: sheet.parts.iter().filter_map(|part| part_data(scenario, part)).collect(),
            points: scenario.guide.iter().map(|point| point_data(practice, point)).collect(),
            reviewer: practice.reviewer,
            principles: practice.principles,
            pages: practice.pages,
        }
    }

    /// `Short` or `Long`.
    pub(super) fn form_word(&self) -> &'static str {
        if self.scenario.form == Form::Long.word() { "Long" } else { "Short" }
    }
}

fn axis(view: &QuantityView) -> Axis {
    let unit = &view.unit_shown;
    let header = if unit.is_empty() { view.name.clone() } else { format!("{} ({unit})", view.name) };
    Axis { name: view.name.clone(), the: view.the.clone(), unit: unit.clone(), header }
}

fn run<'a>(table: &'a Table, direction: &'static str, agent: &'a str) -> RunView<'a> {
    let rows = table.rows.iter().map(|(level, mean, two_sem, _)| (*level, *mean, *two_sem)).collect();
    RunView { curve: &table.curve, rows, direction, agent }
}

fn twisted(twist: &TwistView) -> Option<RunView<'_>> {
    twist.data.as_ref().map(|table| run(table, twist.prediction.direction, &twist.agent))
}

/// The means of the file's table; those of the scenario where that cannot be read as numbers.
fn rows(practice: &Practice<'_>) -> Vec<(f64, f64, f64)> {
    let chart = chart(practice.document);
    let marks = chart.iter().flat_map(|chart| &chart.marks);
    let rows: Option<Vec<_>> =
        marks.map(|mark| Some((mark.level?, mark.mean, mark.two_sem.unwrap_or_default()))).collect();
    match rows {
        Some(rows) if !rows.is_empty() => rows,
        _ => run(&practice.scenario.data, "", "").rows,
    }
}

fn part_data<'a>(scenario: &'a Scenario, part: &Asked) -> Option<PartData<'a>> {
    let made = scenario.parts.iter().find(|made| made.label.chars().eq([part.label]))?;
    Some(PartData { label: part.label, command_term: &made.command_term, points: part.points, to_draw: part.to_draw })
}

fn point_data<'a>(practice: &Practice<'a>, point: &'a Point) -> PointData<'a> {
    let edited = edits::point(practice.document, &point.point);
    let own = || (point.statement.clone(), point.accept.clone(), point.reject.clone());
    let (statement, accept, reject) = edited.unwrap_or_else(own);
    let principles = point.principle.iter().map(String::as_str).collect();
    PointData { part: &point.part, point: &point.point, statement, accept, reject, principles }
}
