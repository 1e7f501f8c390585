//! The matrix as comma-separated values: an item a row, a principle a column, strengths in the cells.

use std::io;

use super::Report;
use crate::coverage::How;

/// Writes the matrix. What an item merely rests on is in the last column, by id.
///
/// # Errors
/// The output cannot be written.
pub fn csv(report: &Report<'_>, out: &mut dyn io::Write) -> io::Result<()> {
    let graph = report.graph;
    let mut rows = ::csv::Writer::from_writer(out);
    let asked: Vec<_> = report.matrix.totals.iter().map(|total| total.principle).collect();
    let mut head: Vec<String> =
        ["file", "part", "title", "fields", "command_terms", "skills", "steps", "twist"].map(str::to_owned).into();
    head.extend(asked.iter().map(|principle| graph.principle(*principle).id.clone()));
    head.push("rests_on".to_owned());
    rows.write_record(&head)?;
    for item in report.items {
        let fields: Vec<&str> = item.fields.iter().map(|field| graph.field(*field).id.as_str()).collect();
        let difficulty = item.difficulty.as_ref();
        let mut row = vec![
            plain(&item.file),
            plain(item.part.as_deref().unwrap_or_default()),
            plain(&item.title),
            fields.join(" "),
            item.command_terms.join("; "),
            item.skills.join("; "),
            difficulty.map_or_else(String::new, |difficulty| difficulty.n_steps.to_string()),
            difficulty.and_then(|difficulty| difficulty.twist.clone()).unwrap_or_default(),
        ];
        row.extend(asked.iter().map(|principle| {
            let found = item.principles.iter().find(|one| one.principle == *principle && one.how != How::Prerequisite);
            found.map_or_else(String::new, |one| format!("{:.2}", one.strength))
        }));
        let resting = item.principles.iter().filter(|one| one.how == How::Prerequisite);
        let resting: Vec<&str> = resting.map(|one| graph.principle(one.principle).id.as_str()).collect();
        row.push(resting.join(" "));
        rows.write_record(&row)?;
    }
    rows.flush()
}

/// A spreadsheet takes a cell that begins with one of these signs for a formula.
pub(super) fn plain(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() }
}
