//! A context has one purpose for an act, and at least one.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for context in &scope.contexts.parts {
        for (n, purpose) in context.part.purposes.iter().enumerate() {
            let same = |other: &&super::super::written::Purpose| other.act.value == purpose.act.value;
            if let Some(before) = context.part.purposes.iter().take(n).find(same) {
                let message = format!("`{}` has another purpose for `{}`", context.part.id.value, purpose.act.value);
                let fault = Diagnostic::error(&code::REPEATED_PURPOSE, context.span(&purpose.act), message);
                let fault = fault.related(context.span(&before.act), "the first purpose for it");
                faults.push(fault.hint("keep one of the two, or write another context"));
            }
        }
    }
}
