//! The influences of a textbook technique follow on one another.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for known in &scope.known.parts {
        for pair in known.part.path.windows(2) {
            let [before, after] = pair else { continue };
            let (Some(first), Some(next)) = (scope.influences.find(&before.value), scope.influences.find(&after.value))
            else {
                continue;
            };
            let (to, from) = (&first.part.to.value, &next.part.from.value);
            if to != from {
                let message = format!("`{}` leads to `{to}`, but `{}` starts from `{from}`", before.value, after.value);
                let fault = Diagnostic::error(&code::BROKEN_PATH, known.span(after), message);
                let fault = fault.related(first.span(&first.part.to), "the one before leads here");
                faults.push(fault.hint("put in the influence that is missing between them, or change the order"));
            }
        }
    }
}
