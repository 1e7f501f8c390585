//! No principle rests on itself, directly or through others.

use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

/// One step of the way down: a principle, and the next of its `requires` to look at.
struct Step {
    principle: usize,
    next: usize,
}

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let mut done = vec![false; scope.principles.parts.len()];
    for start in 0..done.len() {
        if done.get(start) == Some(&false) {
            walk(scope, start, &mut done, faults);
        }
    }
}

/// Follows `requires` from one principle; a principle met again on the way down closes a circle.
fn walk(scope: &Scope<'_>, start: usize, done: &mut [bool], faults: &mut Vec<Diagnostic>) {
    let mut way = vec![Step { principle: start, next: 0 }];
    while let Some(step) = way.last_mut() {
        let here = step.principle;
        let required = scope.principles.parts.get(here).and_then(|located| located.part.requires.get(step.next));
        step.next += 1;
        let Some(required) = required else {
            if let Some(done) = done.get_mut(here) {
                *done = true;
            }
            way.pop();
            continue;
        };
        let Some(next) = scope.principles.place(&required.value) else { continue };
        if let Some(from) = way.iter().position(|step| step.principle == next) {
            faults.extend(circle(scope, way.get(from..).unwrap_or_default()));
        } else if done.get(next) == Some(&false) {
            way.push(Step { principle: next, next: 0 });
        }
    }
}

/// The circle with the place of each of its references.
fn circle(scope: &Scope<'_>, steps: &[Step]) -> Option<Diagnostic> {
    let mut names = Vec::new();
    let mut places = Vec::new();
    for step in steps {
        let located = scope.principles.parts.get(step.principle)?;
        let required = located.part.requires.get(step.next.checked_sub(1)?)?;
        names.push(format!("`{}`", located.part.id.value));
        places.push((located.span(required), format!("`{}` requires `{}`", located.part.id.value, required.value)));
    }
    names.extend(names.first().cloned());
    let ((first, _), others) = places.split_first()?;
    let message = format!("these principles rest on one another in a circle: {}", names.join(" → "));
    let fault = Diagnostic::error(&code::PREREQUISITE_CYCLE, *first, message);
    let fault = others.iter().cloned().fold(fault, |fault, (span, why)| fault.related(span, why));
    Some(fault.hint("take out the `requires` of the principle that can be understood first"))
}
