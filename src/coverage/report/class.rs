//! The matrix of a class as a table, as CSV and as JSON.

use std::io::{self, Write};

use serde_json::{Value, json};

use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;
use crate::coverage::class::{Class, Points};

/// Version of the JSON shape.
const VERSION: u32 = 1;

/// A row a principle, the weakest first; a column a student; earned of scored points in the cells.
///
/// # Errors
/// The output cannot be written.
pub fn class_table(graph: &Graph, class: &Class, out: &mut dyn Write) -> io::Result<()> {
    let rows = class.weakest(graph);
    let names = rows.iter().map(|(ix, _)| graph.principle(*ix).name.chars().count());
    let width = names.max().unwrap_or(0).max("principle".len());
    let wide = |code: &String| code.chars().count().max(5);
    write!(out, "{:width$}  {:>7}", "principle", "all")?;
    for code in class.students.keys() {
        write!(out, "  {code:>wide$}", wide = wide(code))?;
    }
    writeln!(out)?;
    for (ix, all) in &rows {
        write!(out, "{:width$}  {:>7}", graph.principle(*ix).name, cell(Some(all)))?;
        for (code, own) in &class.students {
            write!(out, "  {:>wide$}", cell(own.get(ix)), wide = wide(code))?;
        }
        writeln!(out)?;
    }
    let n_unmet = graph.principles().count() - rows.len();
    writeln!(out, "\nearned/scored points; the weakest first; {n_unmet} principles were scored for nobody")
}

fn cell(points: Option<&Points>) -> String {
    points.map_or_else(|| "·".to_owned(), |points| format!("{}/{}", points.earned, points.scored))
}

/// A row a student, two columns a principle: earned and scored points.
///
/// # Errors
/// The output cannot be written.
pub fn class_csv(graph: &Graph, class: &Class, out: &mut dyn Write) -> io::Result<()> {
    let met: Vec<PrincipleIx> = class.weakest(graph).into_iter().map(|(ix, _)| ix).collect();
    let mut rows = ::csv::Writer::from_writer(out);
    let id = |ix: &PrincipleIx| graph.principle(*ix).id.clone();
    let head = met.iter().flat_map(|ix| [format!("{} earned", id(ix)), format!("{} scored", id(ix))]);
    rows.write_record(["student".to_owned()].into_iter().chain(head))?;
    for (code, own) in &class.students {
        let cells = met.iter().flat_map(|ix| {
            let points = own.get(ix).copied().unwrap_or_default();
            [points.earned.to_string(), points.scored.to_string()]
        });
        rows.write_record([super::csv::plain(code)].into_iter().chain(cells))?;
    }
    rows.flush()
}

/// `{version, graph, students: [{code, principles: [{id, earned, scored}]}], weakest: [{id, earned, scored}], unknown}`.
pub fn class_json(graph: &Graph, class: &Class) -> Value {
    let of = |(ix, points): (&PrincipleIx, &Points)| json!({ "id": graph.principle(*ix).id, "earned": points.earned, "scored": points.scored });
    let students: Vec<Value> = class
        .students
        .iter()
        .map(|(code, own)| json!({ "code": code, "principles": own.iter().map(of).collect::<Vec<_>>() }))
        .collect();
    let weakest: Vec<Value> = class.weakest(graph).iter().map(|(ix, points)| of((ix, points))).collect();
    json!({
        "version": VERSION,
        "graph": graph.version(),
        "students": students,
        "weakest": weakest,
        "unknown": class.unknown,
    })
}
