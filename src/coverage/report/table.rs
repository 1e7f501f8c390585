//! The map for the terminal.

use std::io::{self, Write};

use super::{Report, cover_words, evidence};
use crate::concepts::PrincipleIx;
use crate::coverage::{How, Item};

/// More items than this are counted, not listed.
const MOST_LISTED: usize = 40;
/// More items than this make no matrix that fits a screen.
const MOST_COLUMNS: usize = 40;
/// Pairs that are named; the others are counted.
const MOST_PAIRS: usize = 20;
/// Characters of evidence shown.
const EVIDENCE: usize = 110;

/// Writes items, matrix, and what else was asked for. A matrix whose columns do not fit into `width` characters has none:
/// its numbers are left.
///
/// # Errors
/// The output cannot be written.
pub fn table(report: &Report<'_>, width: Option<usize>, out: &mut dyn Write) -> io::Result<()> {
    if report.items.len() <= MOST_LISTED {
        for (item, number) in report.items.iter().zip(1..) {
            of_item(report, item, number, out)?;
        }
    } else {
        writeln!(out, "{} items; --format csv, json or html lists them\n", report.items.len())?;
    }
    matrix(report, width, out)?;
    if report.with_gaps {
        gaps(report, out)?;
    }
    cover(report, out)
}

fn of_item(report: &Report<'_>, item: &Item, number: usize, out: &mut dyn Write) -> io::Result<()> {
    let graph = report.graph;
    writeln!(out, "{number}  {}  {}", item.label(), item.title)?;
    for one in &item.principles {
        let principle = graph.principle(one.principle);
        let mark = mark(one.how, one.counts());
        if one.how == How::Prerequisite {
            continue;
        }
        let shown: String = evidence(graph, &one.evidence).chars().take(EVIDENCE).collect();
        writeln!(out, "   {mark} {:.2} {} ({}): {shown}", one.strength, principle.name, one.how.word())?;
    }
    let resting = item.principles.iter().filter(|one| one.how == How::Prerequisite);
    let resting: Vec<&str> = resting.map(|one| graph.principle(one.principle).name.as_str()).collect();
    let fields: Vec<&str> = item.fields.iter().map(|field| graph.field(*field).name.as_str()).collect();
    let difficulty = item.difficulty.as_ref().map(ToString::to_string).unwrap_or_default();
    let rows = [
        ("rests on", resting.join("; ")),
        ("fields", fields.join("; ")),
        ("asks to", item.command_terms.join("; ")),
        ("skills", item.skills.join("; ")),
        ("difficulty", difficulty),
    ];
    for (name, words) in rows.iter().filter(|(_, words)| !words.is_empty()) {
        writeln!(out, "   {name}: {words}")?;
    }
    writeln!(out)
}

fn mark(how: How, counts: bool) -> char {
    match how {
        How::Path => '■',
        How::Text if counts => '▤',
        How::Text => '·',
        How::Prerequisite => '○',
    }
}

fn matrix(report: &Report<'_>, fits: Option<usize>, out: &mut dyn Write) -> io::Result<()> {
    let graph = report.graph;
    let names = report.matrix.totals.iter().map(|total| graph.principle(total.principle).name.chars().count());
    let width = names.max().unwrap_or(0);
    let n_items = report.items.len();
    // Two spaces before the columns, two before the number.
    let needed = width + n_items + 4 + n_items.to_string().len();
    let with_columns = n_items <= MOST_COLUMNS && fits.is_none_or(|fits| needed <= fits);
    if with_columns {
        let tens: String = (1..=report.items.len()).map(|n| if n % 10 == 0 { digit(n / 10) } else { ' ' }).collect();
        let ones: String = (1..=report.items.len()).map(|n| digit(n % 10)).collect();
        if !tens.trim().is_empty() {
            writeln!(out, "{:width$}  {tens}", "")?;
        }
        writeln!(out, "{:width$}  {ones}", "principle")?;
    }
    for total in &report.matrix.totals {
        let name = &graph.principle(total.principle).name;
        let cells: String = if with_columns {
            let of = |item: &Item| {
                let found = item.principles.iter().find(|one| one.principle == total.principle);
                found.map_or(' ', |one| mark(one.how, one.counts()))
            };
            report.items.iter().map(of).chain("  ".chars()).collect()
        } else {
            String::new()
        };
        writeln!(out, "{name:width$}  {cells}{}", total.n_items)?;
    }
    writeln!(out, "\n■ on the path, ▤ in the text, · touched, ○ rested on; the last number counts ■ and ▤")
}

fn digit(n: usize) -> char {
    u32::try_from(n % 10).ok().and_then(|n| char::from_digit(n, 10)).unwrap_or(' ')
}

fn gaps(report: &Report<'_>, out: &mut dyn Write) -> io::Result<()> {
    let name = |principle: PrincipleIx| report.graph.principle(principle).name.as_str();
    let id = |principle: PrincipleIx| report.graph.principle(principle).id.as_str();
    let gaps = report.matrix.gaps();
    writeln!(out, "\nGaps: {} of {} principles are exercised by no item", gaps.len(), report.matrix.totals.len())?;
    for gap in &gaps {
        writeln!(out, "  {} ({})", name(*gap), id(*gap))?;
    }
    let overused = report.matrix.overused();
    if !overused.is_empty() {
        writeln!(out, "\nIn more than half of the items:")?;
        for total in overused {
            writeln!(out, "  {} ({} of {})", name(total.principle), total.n_items, report.items.len())?;
        }
    }
    let (pairs, n_others) = report.apart();
    writeln!(out, "\nPairs that a path could join and no item does: {}", pairs.len())?;
    for (one, two) in pairs.iter().take(MOST_PAIRS) {
        writeln!(out, "  {} with {}", name(*one), name(*two))?;
    }
    if pairs.len() > MOST_PAIRS {
        writeln!(out, "  … and {} more (--format json lists them)", pairs.len() - MOST_PAIRS)?;
    }
    writeln!(out, "  ({n_others} other pairs never meet either, and no path joins them)")
}

fn cover(report: &Report<'_>, out: &mut dyn Write) -> io::Result<()> {
    let Some((cover, order)) = report.cover else { return Ok(()) };
    writeln!(out, "\nSmallest set that covers what any item exercises: {}", cover_words(cover))?;
    for (placed, number) in order.iter().zip(1..) {
        let label = report.items.get(placed.item).map(Item::label).unwrap_or_default();
        writeln!(out, "  {number}. item {}: {label}", placed.item + 1)?;
        if !placed.too_early.is_empty() {
            let names: Vec<&str> =
                placed.too_early.iter().map(|one| report.graph.principle(*one).name.as_str()).collect();
            writeln!(out, "     comes before what it rests on: {}", names.join("; "))?;
        }
    }
    if !cover.uncovered.is_empty() {
        writeln!(
            out,
            "  left out, since no item exercises them: {} principles (--gaps names them)",
            cover.uncovered.len()
        )?;
    }
    Ok(())
}
