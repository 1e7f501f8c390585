//! What must hold together can hold together.

use std::collections::BTreeSet;

use super::super::written::{Influence, Text};
use super::scope::{Located, Scope};
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let exclusions = exclusions(scope);
    for setting in &scope.settings.parts {
        for other in setting.part.excludes.iter().filter(|other| other.value == setting.part.id.value) {
            let message = format!("`{}` excludes itself", other.value);
            let fault = Diagnostic::error(&code::CONTRADICTORY_SETTINGS, setting.span(other), message);
            faults.push(fault.hint("take it out of its own `excludes`"));
        }
    }
    for influence in &scope.influences.parts {
        let part = influence.part;
        together(&exclusions, influence, &part.id, &part.needs, faults);
        for excluded in &part.excludes {
            if let Some(needed) = part.needs.iter().find(|needed| needed.value == excluded.value) {
                let message = format!("`{}` both needs and excludes `{}`", part.id.value, excluded.value);
                let fault = Diagnostic::error(&code::CONTRADICTORY_SETTINGS, influence.span(excluded), message);
                faults.push(fault.related(influence.span(needed), "it is needed here").hint("keep one of the two"));
            }
        }
    }
    for act in &scope.acts.parts {
        together(&exclusions, act, &act.part.id, &act.part.needs, faults);
    }
    for rig in &scope.rigs.parts {
        together(&exclusions, rig, &rig.part.id, &rig.part.needs, faults);
    }
}

/// Pairs of settings that exclude each other, in both orders.
pub(super) fn exclusions<'a>(scope: &Scope<'a>) -> BTreeSet<(&'a str, &'a str)> {
    let mut pairs = BTreeSet::new();
    for setting in &scope.settings.parts {
        for other in &setting.part.excludes {
            let (a, b) = (setting.part.id.value.as_str(), other.value.as_str());
            pairs.extend([(a, b), (b, a)]);
        }
    }
    pairs
}

/// Whether two influences can act in one apparatus.
pub(super) fn can_meet(exclusions: &BTreeSet<(&str, &str)>, one: &Influence, other: &Influence) -> bool {
    let holds = |ids: &[Text], id: &str| ids.iter().any(|held| held.value == id);
    one.needs.iter().all(|need| {
        let clash = |theirs: &Text| exclusions.contains(&(need.value.as_str(), theirs.value.as_str()));
        !holds(&other.excludes, &need.value) && !other.needs.iter().any(clash)
    }) && other.needs.iter().all(|need| !holds(&one.excludes, &need.value))
}

/// All pairs of settings that one part needs.
fn together<T>(
    exclusions: &BTreeSet<(&str, &str)>,
    located: &Located<'_, T>,
    id: &Text,
    needs: &[Text],
    faults: &mut Vec<Diagnostic>,
) {
    for (n, second) in needs.iter().enumerate() {
        let clash = |first: &&Text| exclusions.contains(&(first.value.as_str(), second.value.as_str()));
        if let Some(first) = needs.iter().take(n).find(clash) {
            let message =
                format!("`{}` needs `{}` and `{}`, which exclude each other", id.value, first.value, second.value);
            let fault = Diagnostic::error(&code::CONTRADICTORY_SETTINGS, located.span(second), message);
            faults.push(fault.related(located.span(first), "the other setting").hint("keep one of the two"));
        }
    }
}
