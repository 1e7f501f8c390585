//! What a skeleton leaves open: texts that still say `FILL IN`, ids that still say `fill-in`.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};
use crate::source::Span;

/// The words that a skeleton puts where a text is wanted.
const MARK: &str = "FILL IN";

/// Words with which an id begins where one is wanted.
const OPEN: &str = "fill-in";
/// Ids that are listed at most.
const MOST_LISTED: usize = 40;

/// Whether an id is one that a skeleton left open.
pub fn is_open(id: &str) -> bool {
    id.starts_with(OPEN)
}

/// Whether a text that a skeleton began still has something to be filled in, comments left out.
pub fn is_unfinished(text: &str) -> bool {
    let written = text.lines().filter(|line| !line.trim_start().starts_with('#'));
    written.into_iter().any(|line| line.contains(MARK) || line.contains(OPEN))
}

/// The fault of such an id: what is wanted there, and what there is.
pub(super) fn open<'a>(here: Span, noun: &str, ids: impl Iterator<Item = &'a str>) -> Diagnostic {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    let fault = Diagnostic::error(
        &code::TO_BE_FILLED,
        here,
        format!("this is still to be filled in: the id of {article} {noun}"),
    );
    let ids: Vec<&str> = ids.filter(|id| !is_open(id)).collect();
    let listed: Vec<&str> = ids.iter().take(MOST_LISTED).copied().collect();
    match ids.len() {
        0 => fault.hint("none is declared in these files yet"),
        n if n <= MOST_LISTED => fault.possible(&listed),
        n => fault.hint(format!("there are {n}: `toehold graph --format text` lists them")),
    }
}

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for file in scope.sources.ids() {
        let mut start = 0;
        for line in scope.sources.text(file).split_inclusive('\n') {
            if let Some(at) = line.find(MARK).filter(|_| !line.trim_start().starts_with('#')) {
                let span = Span { file, start: start + at, end: start + at + MARK.len() };
                let fault = Diagnostic::error(&code::TO_BE_FILLED, span, "this is still to be filled in");
                faults.push(fault.hint("put your own words in its place; what stands after it is an example"));
            }
            start += line.len();
        }
    }
}
