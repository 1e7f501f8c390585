//! Every quantity can be changed from a treatment, and be seen in a readout.

use super::super::written::Role;
use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let arrows: Vec<(usize, usize)> = scope
        .influences
        .parts
        .iter()
        .filter_map(|influence| {
            let place = |id: &str| scope.quantities.place(id);
            Some((place(&influence.part.from.value)?, place(&influence.part.to.value)?))
        })
        .collect();
    unreached(scope, &arrows, faults);
    dead_ends(scope, &arrows, faults);
}

/// All places that arrows lead to from those marked.
fn follow(mut marked: Vec<bool>, arrows: &[(usize, usize)]) -> Vec<bool> {
    let mut leaving = vec![Vec::new(); marked.len()];
    for (from, to) in arrows {
        if let Some(list) = leaving.get_mut(*from) {
            list.push(*to);
        }
    }
    let mut open: Vec<usize> = marked.iter().enumerate().filter(|(_, mark)| **mark).map(|(place, _)| place).collect();
    while let Some(place) = open.pop() {
        for to in leaving.get(place).into_iter().flatten() {
            if let Some(mark) = marked.get_mut(*to)
                && !*mark
            {
                *mark = true;
                open.push(*to);
            }
        }
    }
    marked
}

fn unreached(scope: &Scope<'_>, arrows: &[(usize, usize)], faults: &mut Vec<Diagnostic>) {
    let quantities = &scope.quantities.parts;
    let is_set = |id: &str| scope.acts.parts.iter().any(|act| act.part.dial.value == id);
    let set = quantities.iter().map(|quantity| is_set(&quantity.part.id.value)).collect();
    let mut reached = follow(set, arrows);
    // First those that nothing leads to; what hangs on them is their fault. Then circles that nothing leads into.
    let entered = |place: usize| arrows.iter().any(|(from, to)| *to == place && *from != place);
    for only_roots in [true, false] {
        for (place, quantity) in quantities.iter().enumerate() {
            if reached.get(place) != Some(&false) || (only_roots && entered(place)) {
                continue;
            }
            let id = &quantity.part.id;
            let (message, hint) = if quantity.part.role.value == Role::Treatment {
                let hint = "write an act whose dial it is, or an influence to it";
                (format!("no act sets the treatment `{}`", id.value), hint)
            } else {
                (format!("nothing reaches `{}`", id.value), "write an influence to it, or take it out")
            };
            faults.push(Diagnostic::error(&code::UNREACHED_QUANTITY, quantity.span(id), message).hint(hint));
            if let Some(mark) = reached.get_mut(place) {
                *mark = true;
            }
            reached = follow(reached, arrows);
        }
    }
}

fn dead_ends(scope: &Scope<'_>, arrows: &[(usize, usize)], faults: &mut Vec<Diagnostic>) {
    let quantities = &scope.quantities.parts;
    let back: Vec<(usize, usize)> = arrows.iter().map(|(from, to)| (*to, *from)).collect();
    let read = quantities.iter().map(|quantity| quantity.part.role.value == Role::Readout).collect();
    let seen = follow(read, &back);
    for (quantity, _) in quantities.iter().zip(seen).filter(|(_, seen)| !seen) {
        let id = &quantity.part.id;
        let message = format!("no readout can be reached from `{}`", id.value);
        let fault = Diagnostic::error(&code::DEAD_END_QUANTITY, quantity.span(id), message);
        faults.push(fault.hint("write an influence from it, make it a readout, or take it out"));
    }
}
