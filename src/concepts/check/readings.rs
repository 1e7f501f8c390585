//! Readouts say how they are read, nothing else does, and rigs read readouts.

use super::super::written::Role;
use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for quantity in &scope.quantities.parts {
        let part = quantity.part;
        match (&part.reading, part.role.value) {
            (None, Role::Readout) => {
                let message = format!("the readout `{}` does not say how it is read", part.id.value);
                let fault = Diagnostic::error(&code::READING_MISSING, quantity.span(&part.role), message);
                faults.push(fault.hint("add `reading:` with instrument, resolution, relative_sd and absolute_sd"));
            }
            (Some(reading), Role::Treatment | Role::Intermediate) => {
                let message = format!("`{}` is not a readout, but says how it is read", part.id.value);
                let fault = Diagnostic::error(&code::READING_UNEXPECTED, quantity.span(&reading.instrument), message);
                let fault = fault.related(quantity.span(&part.role), "its role");
                faults.push(fault.hint("write `role: readout`, or take out `reading`"));
            }
            (Some(reading), Role::Readout) if reading.relative != reading.relative_name.is_some() => {
                let message = format!("`{}` has only one of `relative` and `relative_name`", part.id.value);
                let fault = Diagnostic::error(&code::READING_MISSING, quantity.span(&reading.instrument), message);
                faults.push(fault.hint("a relative reading has both: `relative: true` and its name for headers"));
            }
            _ => {}
        }
    }
    for rig in &scope.rigs.parts {
        let readout = &rig.part.readout;
        let Some(quantity) = scope.quantities.find(&readout.value) else { continue };
        if quantity.part.role.value != Role::Readout {
            let message = format!("`{}` is not a readout, so no rig can read it", readout.value);
            let fault = Diagnostic::error(&code::NOT_A_READOUT, rig.span(readout), message);
            let fault = fault.related(quantity.span(&quantity.part.role), "its role");
            faults.push(fault.hint("name a quantity whose role is `readout`"));
        }
    }
}
