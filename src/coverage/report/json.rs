//! The map as one JSON object; items are written one by one, so that their number does not matter.

use std::io;

use serde_json::{Value, json};

use super::{Report, evidence};
use crate::concepts::PrincipleIx;
use crate::coverage::{Evidence, Item};

/// Version of this shape.
pub const VERSION: u32 = 1;

/// Writes `{version, graph, items, totals, gaps, overused, pairs_never_met, cover}`; the last four where asked for.
///
/// # Errors
/// The output cannot be written.
pub fn json(report: &Report<'_>, out: &mut dyn io::Write) -> io::Result<()> {
    write!(out, "{{\"version\":{VERSION},\"graph\":{},\"items\":[", Value::from(report.graph.version()))?;
    for (place, item) in report.items.iter().enumerate() {
        let comma = if place == 0 { "" } else { "," };
        write!(out, "{comma}\n{}", of_item(report, item))?;
    }
    write!(out, "],\n\"totals\":{}", totals(report))?;
    let id = |principle: &PrincipleIx| report.graph.principle(*principle).id.as_str();
    if report.with_gaps {
        let (possible, n_others) = report.apart();
        let pairs: Vec<[&str; 2]> = possible.iter().map(|(one, two)| [id(one), id(two)]).collect();
        let gaps: Vec<&str> = report.matrix.gaps().iter().map(id).collect();
        let overused: Vec<&str> = report.matrix.overused().iter().map(|total| id(&total.principle)).collect();
        write!(out, ",\n\"gaps\":{},\n\"overused\":{}", json!(gaps), json!(overused))?;
        write!(out, ",\n\"pairs_never_met\":{},\n\"pairs_that_no_path_joins\":{n_others}", json!(pairs))?;
    }
    if let Some((cover, order)) = report.cover {
        let label = |place: usize| report.items.get(place).map(|item| json!({ "file": item.file, "part": item.part }));
        let order: Vec<Value> = order
            .iter()
            .map(|placed| {
                let early: Vec<&str> = placed.too_early.iter().map(id).collect();
                json!({ "item": label(placed.item), "place": placed.item, "before_its_prerequisites": early })
            })
            .collect();
        let uncovered: Vec<&str> = report
            .graph
            .principles()
            .filter(|(principle, _)| cover.uncovered.contains(principle.place()))
            .map(|(_, principle)| principle.id.as_str())
            .collect();
        let object = json!({
            "items": order,
            "exact": cover.exact,
            "at_least": cover.at_least,
            "at_most_times": cover.at_most_times,
            "uncovered": uncovered,
        });
        write!(out, ",\n\"cover\":{object}")?;
    }
    writeln!(out, "}}")
}

fn of_item(report: &Report<'_>, item: &Item) -> Value {
    let graph = report.graph;
    let principles: Vec<Value> = item
        .principles
        .iter()
        .map(|one| {
            let principle = graph.principle(one.principle);
            let line = if let Evidence::Sentence(_, line) = one.evidence { Some(line) } else { None };
            json!({
                "id": principle.id,
                "name": principle.name,
                "field": graph.field(principle.field).id,
                "how": one.how.word(),
                "strength": libm::round(one.strength * 1000.0) / 1000.0,
                "evidence": evidence(graph, &one.evidence),
                "line": line,
            })
        })
        .collect();
    let fields: Vec<&str> = item.fields.iter().map(|field| graph.field(*field).id.as_str()).collect();
    let difficulty = item.difficulty.as_ref().map(
        |difficulty| json!({ "steps": difficulty.n_steps, "fields": difficulty.n_fields, "twist": difficulty.twist }),
    );
    json!({
        "file": item.file,
        "part": item.part,
        "title": item.title,
        "principles": principles,
        "fields": fields,
        "command_terms": item.command_terms,
        "skills": item.skills,
        "difficulty": difficulty,
    })
}

fn totals(report: &Report<'_>) -> Value {
    let of = report.matrix.totals.iter().map(|total| {
        json!({
            "id": report.graph.principle(total.principle).id,
            "items": total.n_items,
            "by_path": total.n_by_path,
            "resting": total.n_resting,
        })
    });
    of.collect()
}
