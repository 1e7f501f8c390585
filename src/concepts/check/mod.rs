//! Checking: parts as written into the graph, or every fault of every part.
//!
//! Comes in: what loading found. Goes out: the only [`Graph`] there is, or the faults.
//! **Must not know**: files on disk, scenarios, prose beyond its placeholders.
//!
//! One check is one file and one row of [`CHECKS`]. A check skips what another reports: a reference that leads nowhere
//! is one fault, not five.

mod acts;
mod agreement;
mod build;
mod contexts;
mod fill;
mod ids;
mod known;
mod law_use;
mod numbers;
mod placeholders;
mod prose;
mod reach;
mod readings;
mod references;
mod requires;
mod samples;
mod scope;
mod settings;
mod signs;
mod transfer;
mod twists;
mod units;
mod words;

pub use fill::{is_open, is_unfinished};
pub use samples::finite_difference;

use super::graph::Graph;
use super::load::{Written, load};
use crate::diagnostic::{Diagnostic, code};
use crate::source::{Sources, Span};
use scope::Scope;

/// When a check can speak.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum When {
    /// Always: it looks at one part and what that refers to.
    Always,
    /// When every part could be read: it looks at what is *not* there.
    Whole,
}

/// Finds faults of one kind.
type Check = fn(&Scope<'_>, &mut Vec<Diagnostic>);

/// Every check, in the order of the manual.
const CHECKS: &[(When, Check)] = &[
    (When::Always, ids::check),
    (When::Always, references::check),
    (When::Always, requires::check),
    (When::Always, numbers::check),
    (When::Always, units::check),
    (When::Always, law_use::check),
    (When::Always, signs::check),
    (When::Always, agreement::check),
    (When::Always, settings::check),
    (When::Always, transfer::check),
    (When::Always, readings::check),
    (When::Always, twists::check),
    (When::Always, contexts::check),
    (When::Always, known::check),
    (When::Always, words::check),
    (When::Always, fill::check),
    (When::Always, placeholders::check),
    (When::Whole, acts::check),
    (When::Whole, reach::check),
];

/// The graph of these sources.
///
/// # Errors
/// Every fault of every file, by file and place.
pub fn load_and_check(sources: &Sources) -> Result<Graph, Vec<Diagnostic>> {
    let (written, faults) = load(sources);
    check(sources, &written, faults)
}

/// The graph of these parts; `faults` are those that loading found.
///
/// # Errors
/// Every fault, by file and place.
pub fn check(sources: &Sources, written: &Written, mut faults: Vec<Diagnostic>) -> Result<Graph, Vec<Diagnostic>> {
    let whole = faults.is_empty();
    let scope = Scope::new(sources, written);
    for (when, check) in CHECKS {
        if whole || *when == When::Always {
            check(&scope, &mut faults);
        }
    }
    if faults.is_empty() && scope.influences.parts.is_empty() {
        faults.extend(empty(sources));
    }
    if faults.is_empty()
        && let Some(parts) = build::parts(&scope)
    {
        return Ok(Graph::new(parts, version(sources)));
    }
    faults.sort_by(|a, b| a.order().cmp(&b.order()));
    faults.dedup();
    Err(faults)
}

/// The graph of one influence and of what it joins, whatever else is at fault in these sources: to look at while it is
/// being written. None where its ends, its principle or its law are not in order.
pub fn draft(sources: &Sources, influence: &str) -> Option<Graph> {
    let (mut written, _) = load(sources);
    let all = written.files.iter().flat_map(|(_, file)| &file.influences);
    let one = all.into_iter().find(|one| one.id.value == influence)?;
    let (ends, principle) = ([one.from.value.clone(), one.to.value.clone()], one.principle.value.clone());
    for (_, file) in &mut written.files {
        file.influences.retain(|one| one.id.value == influence);
        for one in &mut file.influences {
            one.needs.clear();
            one.excludes.clear();
            one.twists.clear();
            one.limit = None;
        }
        file.quantities.retain(|one| ends.contains(&one.id.value));
        for reading in file.quantities.iter_mut().filter_map(|one| one.reading.as_mut()) {
            reading.standard = None;
        }
        file.principles.retain(|one| one.id.value == principle);
        for one in &mut file.principles {
            one.requires.clear();
        }
        file.settings.clear();
        file.acts.clear();
        file.rigs.clear();
        file.contexts.clear();
        file.known.clear();
    }
    let parts = build::parts(&Scope::new(sources, &written))?;
    Some(Graph::new(parts, version(sources)))
}

/// Nothing to compose; no fault at all where there is no file to show it in.
fn empty(sources: &Sources) -> Option<Diagnostic> {
    let file = sources.ids().next()?;
    let message = "these files hold no influence, so there is nothing to compose";
    let fault = Diagnostic::error(&code::EMPTY_GRAPH, Span { file, start: 0, end: 0 }, message);
    Some(fault.hint("a graph needs at least an entity, two quantities, a principle and an influence"))
}

/// Eight hexadecimal digits over the names and bytes of all files, in the order of the names.
///
/// # Source
/// FNV-1a with 64 bits (Fowler, Noll and Vo; constants from memory), both halves joined by exclusive or.
fn version(sources: &Sources) -> String {
    let mut files: Vec<(&str, &str)> = sources.ids().map(|id| (sources.name(id), sources.text(id))).collect();
    files.sort_unstable();
    let bytes = files.iter().flat_map(|(name, text)| [*name, "\0", *text, "\0"]).flat_map(str::bytes);
    let hash =
        bytes.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
    format!("{:08x}", (hash >> 32) ^ (hash & 0xffff_ffff))
}
