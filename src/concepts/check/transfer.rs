//! An influence from one entity to another says how the two come together.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for influence in &scope.influences.parts {
        let part = influence.part;
        let (Some(from), Some(to)) = (scope.quantities.find(&part.from.value), scope.quantities.find(&part.to.value))
        else {
            continue;
        };
        let (from, to) = (&from.part.entity.value, &to.part.entity.value);
        if from != to && part.transfer.is_none() {
            let message = format!("`{}` leads from `{from}` to `{to}` and does not say how", part.id.value);
            let fault = Diagnostic::error(&code::TRANSFER_MISSING, influence.span(&part.to), message);
            faults
                .push(fault.hint("add `transfer: contact` where they touch, `sample` or `load` where they are moved"));
        }
    }
}
