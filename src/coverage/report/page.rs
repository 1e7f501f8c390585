//! The map as one page that needs nothing else: matrix as picture and as lists, gaps, cover, every item with evidence.

use serde::Serialize;
use tera::Context;

use super::{Report, cover_words, evidence};
use crate::concepts::PrincipleIx;
use crate::coverage::{How, Item, heat_map};
use crate::render::{RenderError, Templates, fill};

/// More items than this make no picture that can be printed.
const MOST_COLUMNS: usize = 60;

#[derive(Debug, Serialize)]
struct ItemView {
    number: usize,
    label: String,
    title: String,
    principles: Vec<PrincipleView>,
    rests_on: String,
    fields: String,
    terms: String,
    skills: String,
    difficulty: String,
}

#[derive(Debug, Serialize)]
struct PrincipleView {
    name: String,
    how: &'static str,
    strength: String,
    evidence: String,
    counts: bool,
}

#[derive(Debug, Serialize)]
struct TotalView {
    name: String,
    field: String,
    n: usize,
    resting: usize,
    items: String,
}

/// The page of a map.
///
/// # Errors
/// A template is at fault.
pub fn page(report: &Report<'_>, templates: &Templates) -> Result<String, RenderError> {
    let graph = report.graph;
    let name = |principle: &PrincipleIx| graph.principle(*principle).name.clone();
    let mut context = Context::new();
    let picture = (report.items.len() <= MOST_COLUMNS && !report.items.is_empty())
        .then(|| heat_map(graph, report.items, report.matrix));
    context.insert("picture_width", &picture.as_ref().map(|picture| libm::ceil(picture.width)));
    context.insert("picture", &picture.map(|picture| picture.inline()));
    context.insert("n_items", &report.items.len());
    let items: Vec<ItemView> = report.items.iter().zip(1..).map(|(item, number)| view(report, item, number)).collect();
    context.insert("items", &items);
    context.insert("totals", &totals(report));
    let gaps: Vec<String> = report.matrix.gaps().iter().map(name).collect();
    let overused: Vec<String> = report.matrix.overused().iter().map(|total| name(&total.principle)).collect();
    let (pairs, n_others) = report.apart();
    let pairs: Vec<String> = pairs.iter().map(|(one, two)| format!("{} with {}", name(one), name(two))).collect();
    context.insert("with_gaps", &report.with_gaps);
    context.insert("gaps", &gaps);
    context.insert("overused", &overused);
    context.insert("pairs", &pairs);
    context.insert("n_other_pairs", &n_others);
    let cover: Option<Vec<String>> = report.cover.map(|(_, order)| {
        let label = |place: usize| report.items.get(place).map(Item::label).unwrap_or_default();
        order.iter().map(|placed| format!("item {}: {}", placed.item + 1, label(placed.item))).collect()
    });
    context.insert("cover", &cover);
    context.insert("cover_words", &report.cover.map(|(cover, _)| cover_words(cover)));
    context.insert("concepts", graph.version());
    fill(templates, "map.html", &context)
}

fn view(report: &Report<'_>, item: &Item, number: usize) -> ItemView {
    let graph = report.graph;
    let (resting, own): (Vec<_>, Vec<_>) = item.principles.iter().partition(|one| one.how == How::Prerequisite);
    let principles = own.into_iter().map(|one| PrincipleView {
        name: graph.principle(one.principle).name.clone(),
        how: one.how.word(),
        strength: format!("{:.2}", one.strength),
        evidence: evidence(graph, &one.evidence),
        counts: one.counts(),
    });
    let resting: Vec<&str> = resting.iter().map(|one| graph.principle(one.principle).name.as_str()).collect();
    let fields: Vec<&str> = item.fields.iter().map(|field| graph.field(*field).name.as_str()).collect();
    ItemView {
        number,
        label: item.label(),
        title: item.title.clone(),
        principles: principles.collect(),
        rests_on: resting.join("; "),
        fields: fields.join("; "),
        terms: item.command_terms.join("; "),
        skills: item.skills.join("; "),
        difficulty: item.difficulty.as_ref().map(ToString::to_string).unwrap_or_default(),
    }
}

fn totals(report: &Report<'_>) -> Vec<TotalView> {
    let graph = report.graph;
    let of = report.matrix.totals.iter().map(|total| {
        let principle = graph.principle(total.principle);
        let exercising = report.matrix.rows.iter().zip(1..).filter(|(row, _)| row.contains(total.principle.place()));
        let numbers: Vec<String> =
            exercising.take(MOST_COLUMNS).map(|(_, number): (_, usize)| number.to_string()).collect();
        TotalView {
            name: principle.name.clone(),
            field: graph.field(principle.field).name.clone(),
            n: total.n_items,
            resting: total.n_resting,
            items: numbers.join(", "),
        }
    });
    of.collect()
}
