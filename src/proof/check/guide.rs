//! The scoring guide: a row for each point, and in it the numbers, signs and directions that earn.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::fact::{Fact, Token};
use crate::proof::matching::{Matching, matching};
use crate::proof::page::{Row, Table};
use crate::proof::report::{Policy, report};
use crate::proof::{Made, Proof};

/// Whether a table is a guide: it begins with the label of a point.
pub(super) fn is_guide(text: &str, table: &Table) -> bool {
    let first = table.header.cells.first().and_then(|cell| text.get(cell.clone()));
    first.is_some_and(|first| first.eq_ignore_ascii_case("point"))
}

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    for (made, old, new) in proof.pairs() {
        for (one, other) in old.tables.iter().zip(&new.tables) {
            if is_guide(&made.text, one) {
                guide(proof, made, (one, other), faults);
            }
        }
    }
}

fn guide(proof: &Proof<'_>, made: &Made, (old, new): (&Table, &Table), faults: &mut Vec<Diagnostic>) {
    let names = |text: &str, row: &Row| {
        let names = row.cells.iter().map(|cell| text.get(cell.clone()).unwrap_or_default().to_lowercase());
        names.collect::<Vec<String>>()
    };
    let columns = matching(&names(&made.text, &old.header), &names(proof.text, &new.header));
    for cell in columns.gone.iter().filter_map(|place| old.header.cells.get(*place)) {
        let message = format!("the column “{}” of the guide is missing", made.slice(cell));
        let fault = Diagnostic::error(&code::COLUMN_MISSING, proof.span(new.header.line.clone()), message);
        faults.push(fault.hint("put the column back; it may be empty"));
    }
    let first = columns.both.iter().find(|(i, _)| *i == 0).map_or(0, |(_, j)| *j);
    let labels = |text: &str, table: &Table, first: usize| {
        let labels = table.rows.iter().map(|row| {
            let cell = row.cells.get(first).and_then(|cell| text.get(cell.clone())).unwrap_or_default();
            cell.trim_matches(['*', '(', ')', ' ']).to_owned()
        });
        labels.collect::<Vec<String>>()
    };
    let (were, are) = (labels(&made.text, old, 0), labels(proof.text, new, first));
    let rows = matching(&were, &are);
    rows_gone(proof, (new, &rows), (&were, &are), faults);
    for (i, j) in &rows.both {
        let (Some(label), Some(here)) = (were.get(*i), are.get(*j)) else { continue };
        let (Some(one), Some(other)) = (old.rows.get(*i), new.rows.get(*j)) else { continue };
        if label != here {
            let message = format!("point `{here}` of the guide stands where `{label}` should");
            let fault = Diagnostic::error(&code::ROW_MISSING, proof.span(other.line.clone()), message);
            faults.push(fault.hint(format!("write `{label}`")));
        }
        point(proof, made, &Point { label, columns: &columns }, (one, other), faults);
    }
}

fn rows_gone(
    proof: &Proof<'_>,
    (new, rows): (&Table, &Matching),
    (were, are): (&[String], &[String]),
    faults: &mut Vec<Diagnostic>,
) {
    for place in &rows.gone {
        let Some(label) = were.get(*place) else { continue };
        let before = rows.both.iter().filter(|(i, _)| i < place).max().and_then(|(_, j)| new.rows.get(*j));
        let here = before.unwrap_or(&new.header).line.clone();
        let message = format!("point `{label}` of the guide is missing");
        let fault = Diagnostic::error(&code::ROW_MISSING, proof.span(here), message);
        faults.push(fault.hint("the guide has one row for each point: put it back"));
    }
    for place in &rows.extra {
        let (Some(label), Some(row)) = (are.get(*place), new.rows.get(*place)) else { continue };
        let message = format!("point `{label}` of the guide is there once too often");
        let fault = Diagnostic::error(&code::ROW_REPEATED, proof.span(row.line.clone()), message);
        faults.push(fault.hint("the guide has one row for each point: take one out"));
    }
}

struct Point<'a> {
    label: &'a str,
    columns: &'a Matching,
}

fn point(proof: &Proof<'_>, made: &Made, point: &Point<'_>, (old, new): (&Row, &Row), faults: &mut Vec<Diagnostic>) {
    for (i, j) in point.columns.both.iter().filter(|(i, _)| *i > 0) {
        let Some(one) = old.cells.get(*i) else { continue };
        let other = new.cells.get(*j).cloned().unwrap_or(new.line.end..new.line.end);
        let tokens = (made.tokens(one), proof.tokens(&other));
        let earns = *i == 1;
        let place = match i {
            1 => format!("point `{}` of the guide", point.label),
            2 => format!("“also accept” of point `{}`", point.label),
            _ => format!("“does not earn” of point `{}`", point.label),
        };
        let policy = if earns { Policy::key(&place) } else { Policy::alternatives(&place) };
        let before = faults.len();
        report(proof, made, (&tokens.0, &tokens.1), other.clone(), policy, faults);
        if earns && faults.len() == before {
            order(proof, made, point.label, (&tokens.0, &tokens.1), other, faults);
        }
    }
}

/// In an expression the order counts: 98 − 100 is not 100 − 98.
fn order(
    proof: &Proof<'_>,
    made: &Made,
    label: &str,
    (old, new): (&[Token], &[Token]),
    cell: Range<usize>,
    faults: &mut Vec<Diagnostic>,
) {
    let facts = |tokens: &[Token]| {
        let counted = |fact: &&Fact| matches!(fact, Fact::Number(_) | Fact::Operator('−' | '/' | '+' | '×'));
        tokens.iter().filter_map(Token::fact).filter(counted).map(Fact::key).collect::<Vec<String>>()
    };
    let matters = old.iter().any(|token| matches!(token.fact(), Some(Fact::Operator('−' | '/'))));
    if matters && facts(old) != facts(new) {
        let message = format!("the numbers of the setup in point `{label}` stand in another order");
        let fault = Diagnostic::error(&code::ORDER_DIFFERS, proof.span(cell), message);
        let setup = old.first().zip(old.last()).map(|(first, last)| first.span.start..last.span.end);
        faults.push(fault.hint(format!("write “{}”", setup.map_or("", |range| made.slice(&range)))));
    }
}
