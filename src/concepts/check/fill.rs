//! What a skeleton leaves open: texts that still say `FILL IN`.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};
use crate::source::Span;

/// The words that a skeleton puts where a text is wanted.
const MARK: &str = "FILL IN";

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
