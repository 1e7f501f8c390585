//! The data table: each cell against the data computed again.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::check::guide::is_guide;
use crate::proof::fact::{Fact, Number, Token};
use crate::proof::matching::{Matching, matching};
use crate::proof::page::{Row, Table};
use crate::proof::report::{Policy, Weight, report};
use crate::proof::{Made, Proof, unit};
use crate::quantity::Unit;

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    for (made, old, new) in proof.pairs() {
        for (one, other) in old.tables.iter().zip(&new.tables) {
            if !is_guide(made.text.as_str(), one) {
                table(proof, made, (one, other), faults);
            }
        }
    }
}

fn table(proof: &Proof<'_>, made: &Made, (old, new): (&Table, &Table), faults: &mut Vec<Diagnostic>) {
    let columns = columns(proof, made, (old, new), faults);
    let key = |text: &str, row: &Row| {
        let cell = row.cells.first().and_then(|cell| text.get(cell.clone())).unwrap_or_default();
        crate::proof::number::at_start(cell.trim_start_matches(['−', '-'])).map_or_else(
            || cell.to_owned(),
            |(value, _)| if cell.starts_with(['−', '-']) { format!("-{value}") } else { value.to_string() },
        )
    };
    // A table whose levels stand in another column is matched by place.
    let first = columns.both.iter().find(|(i, _)| *i == 0).map_or(0, |(_, j)| *j);
    let written_key = |row: &Row| {
        let moved = Row { line: row.line.clone(), cells: row.cells.get(first).cloned().into_iter().collect() };
        key(proof.text, &moved)
    };
    let rows = matching(
        &old.rows.iter().map(|row| key(&made.text, row)).collect::<Vec<_>>(),
        &new.rows.iter().map(written_key).collect::<Vec<_>>(),
    );
    missing_rows(proof, made, (old, new), &rows, faults);
    let before = faults.len();
    for (i, j) in &rows.both {
        if let (Some(one), Some(other)) = (old.rows.get(*i), new.rows.get(*j)) {
            row(proof, made, &Columns { old, columns: &columns }, (one, other), faults);
        }
    }
    // Where every row differs, it is not the cells that were changed.
    let differing = faults.get(before..).unwrap_or_default();
    let lines: std::collections::BTreeSet<usize> =
        differing.iter().map(|fault| line(new, fault.primary.start)).collect();
    if rows.both.len() > 2 && lines.len() == rows.both.len() {
        faults.truncate(before);
        let message = "no row of the table agrees with the data that follow from the front matter";
        let fault = Diagnostic::error(&code::NUMBER_DIFFERS, proof.span(new.header.line.clone()), message);
        faults.push(fault.hint("were `seed`, `attempt`, `replicates` or the whole table changed? put them back"));
    }
}

fn line(table: &Table, at: usize) -> usize {
    table.rows.iter().filter(|row| row.line.start <= at).count()
}

/// Which column is which: by the words of its header.
fn columns(proof: &Proof<'_>, made: &Made, (old, new): (&Table, &Table), faults: &mut Vec<Diagnostic>) -> Matching {
    let names = |text: &str, row: &Row| {
        let names = row.cells.iter().map(|cell| {
            let cell = text.get(cell.clone()).unwrap_or_default();
            cell.rsplit_once('(').map_or(cell, |(name, _)| name).trim().to_lowercase()
        });
        names.collect::<Vec<String>>()
    };
    let columns = matching(&names(&made.text, &old.header), &names(proof.text, &new.header));
    for cell in columns.gone.iter().filter_map(|place| old.header.cells.get(*place)) {
        let message = format!("the column “{}” is missing", made.slice(cell));
        let fault = Diagnostic::error(&code::COLUMN_MISSING, proof.span(new.header.line.clone()), message);
        faults.push(fault.hint("put the column back; columns may be reordered and renamed"));
    }
    for (i, j) in &columns.both {
        if let (Some(one), Some(other)) = (old.header.cells.get(*i), new.header.cells.get(*j)) {
            header(proof, made, (one, other), faults);
        }
    }
    columns
}

/// The unit in a header, and the numbers in it.
fn header(proof: &Proof<'_>, made: &Made, (old, new): (&Range<usize>, &Range<usize>), faults: &mut Vec<Diagnostic>) {
    let (was, is) = (bracketed(made.slice(old)), bracketed(proof.slice(new)));
    let same = match (was.map(|(text, _)| text), is.map(|(text, _)| text)) {
        (Some(was), Some(is)) if was.trim() == is.trim() => true,
        (Some(was), Some(is)) => unit::read(was).zip(unit::read(is)).is_some_and(|(a, b)| unit::same(&a, &b)),
        (None, Some(is)) => unit::read(is).is_none(),
        (was, None) => was.is_none(),
    };
    if !same {
        let range = is.map_or_else(|| new.clone(), |(text, at)| new.start + at..new.start + at + text.len());
        let name = |unit: Option<(&str, usize)>| unit.map_or("no unit".to_owned(), |(text, _)| format!("`{text}`"));
        let message = format!("the header “{}” has {}; the data have {}", proof.slice(new), name(is), name(was));
        let fault = Diagnostic::error(&code::UNIT_DIFFERS, proof.span(range), message);
        faults.push(fault.hint(format!("write “{}”", made.slice(old))));
    }
    let words = |range: &Range<usize>, brackets: Option<(&str, usize)>| {
        range.start..brackets.map_or(range.end, |(_, at)| range.start + at)
    };
    let tokens = (made.tokens(&words(old, was)), proof.tokens(&words(new, is)));
    let place = format!("the header “{}”", proof.slice(new));
    let policy = Policy { missing: Weight::Nothing, ..Policy::alternatives(&place) };
    report(proof, made, (&tokens.0, &tokens.1), new.clone(), policy, faults);
}

/// What stands in the last brackets of a header, and where.
fn bracketed(text: &str) -> Option<(&str, usize)> {
    let inner = text.trim_end().strip_suffix(')')?;
    let mut depth = 1;
    for (at, letter) in inner.char_indices().rev() {
        match letter {
            ')' => depth += 1,
            '(' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return inner.get(at + 1..).map(|unit| (unit, at + 1));
        }
    }
    None
}

fn missing_rows(
    proof: &Proof<'_>,
    made: &Made,
    (old, new): (&Table, &Table),
    rows: &Matching,
    faults: &mut Vec<Diagnostic>,
) {
    let name = |text: &str, row: &Row| {
        let cell = row.cells.first().and_then(|cell| text.get(cell.clone())).unwrap_or_default();
        cell.to_owned()
    };
    for place in &rows.gone {
        let Some(row) = old.rows.get(*place) else { continue };
        let before = rows.both.iter().filter(|(i, _)| i < place).max().and_then(|(_, j)| new.rows.get(*j));
        let here = before.unwrap_or(&new.header).line.clone();
        let message = format!("the row `{}` of the data is missing", name(&made.text, row));
        let fault = Diagnostic::error(&code::ROW_MISSING, proof.span(here), message);
        faults.push(fault.hint(format!("put it back: `{}`", made.slice(&row.line))));
    }
    for row in rows.extra.iter().filter_map(|place| new.rows.get(*place)) {
        let message = format!("the row `{}` is there once too often", name(proof.text, row));
        let fault = Diagnostic::error(&code::ROW_REPEATED, proof.span(row.line.clone()), message);
        faults.push(fault.hint("the scenario has no data for it: take it out"));
    }
}

struct Columns<'a> {
    old: &'a Table,
    columns: &'a Matching,
}

fn row(proof: &Proof<'_>, made: &Made, table: &Columns<'_>, (old, new): (&Row, &Row), faults: &mut Vec<Diagnostic>) {
    let level = old.cells.first().map_or("", |cell| made.slice(cell));
    for (i, j) in &table.columns.both {
        let Some(one) = old.cells.get(*i) else { continue };
        let header = table.old.header.cells.get(*i).map_or("", |cell| made.slice(cell));
        let unit = bracketed(header).and_then(|(unit, _)| unit::read(unit));
        let was = made.tokens(one).iter().find_map(number);
        let Some((was, _)) = was else { continue };
        let other = new.cells.get(*j);
        let is = other.and_then(|cell| proof.tokens(cell).iter().find_map(number));
        let place = other.cloned().unwrap_or_else(|| new.line.clone());
        let shown = made.slice(one);
        match is {
            Some((is, span)) if !agrees(&was, &is, unit.as_ref()) => {
                let flipped = agrees(&was, &Number { value: -is.value, ..is.clone() }, unit.as_ref());
                let code = if flipped { &code::SIGN_DIFFERS } else { &code::NUMBER_DIFFERS };
                let found = proof.slice(&span);
                let message = format!("“{header}” at `{level}` says `{found}`; recomputed it is `{shown}`");
                faults.push(Diagnostic::error(code, proof.span(span), message).hint(format!("write `{shown}`")));
            }
            Some(_) => {}
            None => {
                let message = format!("“{header}” at `{level}` is no longer a number; recomputed it is `{shown}`");
                let fault = Diagnostic::error(&code::NUMBER_MISSING, proof.span(place), message);
                faults.push(fault.hint(format!("write `{shown}`")));
            }
        }
    }
}

fn number(token: &Token) -> Option<(Number, Range<usize>)> {
    match token.fact() {
        Some(Fact::Number(number)) => Some((number.clone(), token.span.clone())),
        _ => None,
    }
}

/// Whether a cell has the value; one that repeats the column's unit may.
fn agrees(was: &Number, is: &Number, column: Option<&Unit>) -> bool {
    let value = match (&is.unit, column) {
        (Some(unit), Some(column)) => unit.convert(is.value, column).ok(),
        (Some(_), None) => None,
        (None, _) => Some(is.value),
    };
    value.is_some_and(|value| (value - was.value).abs() <= 1e-9 * was.value.abs())
}
