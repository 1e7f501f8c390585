//! The student's page: one self-contained file in which a scenario is read, reasoned through, committed to, seen, answered
//! and scored; and the index of several.
//!
//! Comes in: a scenario and its file's text. Goes out: HTML that loads nothing and sends nothing. What a reader may not
//! see before the prediction is locked stands in `<template>` elements and in the page's data, out of sight.

mod edits;
mod embed;
mod view;

use serde::Serialize;
use tera::Context;

use super::document::{Document, Kind};
use super::drawing::{self, Drawing};
use super::page::Figures;
use super::sheet::{Sheet, Stretch};
use super::{RenderError, Templates, body};
use crate::scenario::{PartKind, Scenario};

pub use view::{Entry, Known};

/// All that a page is made of.
#[derive(Debug, Clone, Copy)]
pub struct Practice<'a> {
    /// Made from the front matter.
    pub scenario: &'a Scenario,
    /// The file, a teacher's edits and all.
    pub document: &'a Document,
    /// Every principle that the pages exercise or rest on.
    pub principles: &'a [Known],
    /// The other pages of its folder; it may be among them.
    pub pages: &'a [Entry],
    /// What the reviewer is given beside the answers; without it the reader scores alone.
    pub reviewer: Option<&'a serde_json::Value>,
}

/// A part as the template prints it.
#[derive(Debug, Serialize)]
struct PartView {
    label: char,
    html: String,
    /// It may be read before the data: it quotes no reading.
    early: bool,
}

/// The page of one scenario.
///
/// # Errors
/// A fault in a template.
pub fn practice(templates: &Templates, practice: &Practice<'_>) -> Result<String, RenderError> {
    let sheet = Sheet::of(practice.document, "q");
    let data = view::PageData::of(practice, &sheet);
    let (early, late): (Vec<&Stretch>, Vec<&Stretch>) =
        sheet.stimulus.iter().partition(|stretch| stretch.kind != Some(Kind::Data));
    let cautions = sheet.answers.iter().filter(|stretch| stretch.kind == Some(Kind::Cautions));
    let cautions: String = cautions.map(|stretch| stretch.html.as_str()).collect();
    let late: String = late.into_iter().map(|stretch| seen_late(practice.document, stretch)).collect();
    let parts: Vec<PartView> = sheet.parts.iter().map(|part| part_view(practice.scenario, part)).collect();
    let points: u32 = sheet.parts.iter().map(|part| part.points).sum();
    let mut context = Context::new();
    context.insert("title", &body::printable(&sheet.title));
    context.insert("form", data.form_word());
    context.insert("points", &points);
    context.insert("stimulus", &early.iter().map(|stretch| stretch_html(stretch)).collect::<Vec<_>>());
    context.insert("data_html", &format!("{late}\n{}", sheet.data.html));
    context.insert("cautions", &cautions);
    context.insert("parts", &parts);
    context.insert("in_folder", &!practice.pages.is_empty());
    let reviewer = practice.reviewer.and_then(|_| embed::reviewer());
    embed::finish(templates, "practice.html", context, &data, embed::PRACTICE, reviewer)
}

/// The index of a folder of pages.
///
/// # Errors
/// A fault in a template.
pub fn practice_index(templates: &Templates, pages: &[Entry], principles: &[Known]) -> Result<String, RenderError> {
    let mut context = Context::new();
    context.insert("pages", pages);
    let data = serde_json::json!({ "toehold_page": view::SHAPE, "pages": pages, "principles": principles });
    embed::finish(templates, "practice-index.html", context, &data, embed::INDEX, None)
}

/// Heading and text; what stands before the first heading has none.
fn stretch_html(stretch: &Stretch) -> String {
    match stretch.level {
        1 => stretch.html.clone(),
        2 => format!("<h3>{}</h3>\n{}", body::escape(&stretch.heading), stretch.html),
        _ => format!("<h4>{}</h4>\n{}", body::escape(&stretch.heading), stretch.html),
    }
}

/// The section of data without the plot, which the page draws itself where the reader is not to draw it.
fn seen_late(document: &Document, stretch: &Stretch) -> String {
    let figures = Figures::of(document);
    body::html(&drawing::without(&stretch.markdown, Drawing::Plot), Kind::Data, &figures)
}

fn part_view(scenario: &Scenario, part: &super::Asked) -> PartView {
    let made = scenario.parts.iter().find(|made| made.label.chars().eq([part.label]));
    // These ask about the apparatus and the chain; the others quote readings or speak of them.
    let early = made.is_some_and(|made| match made.kind {
        PartKind::Identify | PartKind::Describe | PartKind::PredictAndJustify => true,
        PartKind::Explain => !is_of_rival(scenario, &made.label),
        _ => false,
    });
    PartView { label: part.label, html: part.html.clone(), early }
}

/// Whether an explanation is asked of two ways that pull apart: such a part tells the outcome.
fn is_of_rival(scenario: &Scenario, label: &str) -> bool {
    scenario.twist.as_ref().is_some_and(|twist| twist.rival_path.is_some() && twist.part == label)
}
