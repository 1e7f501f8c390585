//! An act turns a treatment, at rising levels within its range, and owns up to all that it changes.

use super::super::written::{Act, Role};
use super::law_use::number;
use super::scope::{Located, Scope};
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for act in &scope.acts.parts {
        dial(scope, act, faults);
        changes(scope, act, faults);
    }
}

fn dial(scope: &Scope<'_>, act: &Located<'_, Act>, faults: &mut Vec<Diagnostic>) {
    let dial = &act.part.dial;
    let Some(quantity) = scope.quantities.find(&dial.value) else { return };
    if quantity.part.role.value != Role::Treatment {
        let message = format!("`{}` is not a treatment, so no act can set it", dial.value);
        let fault = Diagnostic::error(&code::NOT_A_TREATMENT, act.span(dial), message);
        let fault = fault.related(quantity.span(&quantity.part.role), "its role");
        faults.push(fault.hint("name a quantity whose role is `treatment`"));
    }
    let [low, high] = quantity.part.range.value;
    if act.part.levels.is_empty() {
        let message = format!("the act `{}` has no levels", act.part.id.value);
        let fault = Diagnostic::error(&code::BAD_LEVELS, act.span(&act.part.id), message);
        faults.push(fault.hint("list at least one set of three or more levels"));
    }
    for levels in &act.part.levels {
        let set = &levels.value;
        let fault = |message: String| Diagnostic::error(&code::BAD_LEVELS, act.span(levels), message);
        if set.len() < 3 {
            faults.push(fault(format!("{} levels are too few to show a trend", set.len())).hint("give at least three"));
        }
        if !set.windows(2).all(|pair| matches!(pair, [before, after] if before < after)) {
            faults.push(fault("the levels do not rise".to_owned()).hint("write them from the smallest to the largest"));
        }
        if let Some(level) = set.iter().find(|level| !(low..=high).contains(level)) {
            let message = format!(
                "{} is outside the range of `{}`, {} to {}",
                number(*level),
                dial.value,
                number(low),
                number(high)
            );
            let fault = fault(message).related(quantity.span(&quantity.part.range), "the believable range");
            faults.push(fault.hint("leave the level out, or widen the quantity's `range`"));
        }
    }
}

/// What the act changes is its dial and what influences lead to from there.
fn changes(scope: &Scope<'_>, act: &Located<'_, Act>, faults: &mut Vec<Diagnostic>) {
    let part = act.part;
    let listed = |id: &str| part.changes.iter().any(|change| change.value == id);
    if !listed(&part.dial.value) {
        let message =
            format!("`{}` does not list its own dial, `{}`, among what it changes", part.id.value, part.dial.value);
        let fault = Diagnostic::error(&code::ACT_OMITS_CHANGE, act.span(&part.dial), message);
        faults.push(fault.hint(format!("add `{}` to `changes`", part.dial.value)));
    }
    let leaving = || scope.influences.parts.iter().filter(|influence| influence.part.from.value == part.dial.value);
    let mut named = std::collections::BTreeSet::new();
    for influence in leaving() {
        let to = &influence.part.to;
        if !listed(&to.value) && named.insert(to.value.as_str()) {
            let message = format!("`{}` also changes `{}`, but does not list it", part.id.value, to.value);
            let fault = Diagnostic::error(&code::ACT_OMITS_CHANGE, act.span(&part.dial), message);
            let fault = fault.related(influence.span(to), "an influence leads there from the dial");
            faults.push(fault.hint(format!("add `{}` to `changes`", to.value)));
        }
    }
    for change in &part.changes {
        let led_to =
            change.value == part.dial.value || leaving().any(|influence| influence.part.to.value == change.value);
        if !led_to && scope.quantities.find(&change.value).is_some() {
            let message = format!("no influence leads from `{}` to `{}`", part.dial.value, change.value);
            let fault = Diagnostic::error(&code::ACT_CLAIMS_CHANGE, act.span(change), message);
            faults
                .push(fault.hint("take it out of `changes`, or write the influence; what follows later is not listed"));
        }
    }
}
