//! A twist has the fields that its kind needs and no others, and changes what the law has.

use super::super::written::{Influence, TwistKind, TwistWritten};
use super::law_use::number;
use super::scope::{Located, Scope};
use crate::diagnostic::{Diagnostic, code};
use crate::laws::{self, Kind};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for influence in &scope.influences.parts {
        for twist in &influence.part.twists {
            fields(influence, twist, faults);
            set(influence, twist, faults);
            held(scope, influence, twist, faults);
        }
    }
}

/// What a kind takes: whether the fields given fit, and the rule in words.
fn fits(twist: &TwistWritten) -> (bool, &'static str) {
    let (set, held) = (!twist.set.is_empty(), twist.held_at.is_some());
    let (remove, add) = (twist.remove.is_some(), twist.add.is_some());
    match twist.kind.value {
        TwistKind::Cut => (
            !(remove || add || (set && held)),
            "a cut takes `set`, or `held_at`, or neither (frozen at the first level)",
        ),
        TwistKind::Bypass => (held && !set && !remove, "a bypass takes `held_at`, and may `add` a setting"),
        TwistKind::Reverse => {
            (!held && (set != (remove || add)), "a reversal takes `set`, or else `remove` and/or `add`")
        }
        TwistKind::Saturate => {
            (!held && (set != (remove || add)), "a saturation takes `set`, or else `remove` and/or `add`")
        }
        TwistKind::RemoveSetting => {
            (remove && !set, "a removed setting takes `remove`, `add` for another in its place, and `held_at` for `to`")
        }
        TwistKind::RivalPath => {
            (add && !set && !held, "a rival path takes `add`, and `remove` where a setting must go")
        }
        TwistKind::RateOrEndPoint => {
            (remove && add && !set, "a change between rate and end point takes `remove`, `add`, and `held_at` for `to`")
        }
    }
}

fn fields(influence: &Located<'_, Influence>, twist: &TwistWritten, faults: &mut Vec<Diagnostic>) {
    let (fit, rule) = fits(twist);
    if !fit {
        let message = format!("the fields of the twist `{}` do not fit its kind", twist.id.value);
        faults.push(Diagnostic::error(&code::TWIST_FIELDS, influence.span(&twist.kind), message).hint(rule));
    }
}

fn set(influence: &Located<'_, Influence>, twist: &TwistWritten, faults: &mut Vec<Diagnostic>) {
    let Some(law) = laws::find(&influence.part.law.name.value) else { return };
    for (n, set) in twist.set.iter().enumerate() {
        let here = influence.span(&set.symbol);
        let Some((_, symbol)) = law.input(&set.symbol.value) else {
            let message = format!("the law `{}` has no symbol `{}`", law.id, set.symbol.value);
            let fault = Diagnostic::error(&code::UNKNOWN_SYMBOL, here, message);
            faults.push(fault.did_you_mean(&set.symbol.value, law.inputs.iter().map(|symbol| symbol.id)));
            continue;
        };
        if symbol.kind != Kind::Number {
            let message = format!("`{}` does not take a number", symbol.id);
            let fault = Diagnostic::error(&code::WRONG_KIND_OF_SYMBOL, here, message);
            faults.push(fault.hint("a twist can set symbols that are numbers"));
            continue;
        }
        if symbol.id == influence.part.law.input.value {
            let message = format!("`{}` is what the influence drives", symbol.id);
            let fault = Diagnostic::error(&code::TWIST_FIELDS, here, message);
            faults.push(fault.hint("hold it with `held_at` in a twist of kind `cut`"));
        }
        if let Some(before) = twist.set.iter().take(n).find(|other| other.symbol.value == set.symbol.value) {
            let message = format!("`{}` is set twice", symbol.id);
            let fault = Diagnostic::error(&code::SYMBOL_GIVEN_TWICE, here, message);
            faults
                .push(fault.related(influence.span(&before.symbol), "it is set here too").hint("keep one of the two"));
        }
        let (low, high) = symbol.range;
        if !(low..=high).contains(&set.value.value) {
            let message = format!(
                "`{}` is {}, but the law takes {} to {}",
                symbol.id,
                number(set.value.value),
                number(low),
                number(high)
            );
            let fault = Diagnostic::error(&code::VALUE_OUTSIDE_LAW, influence.span(&set.value), message);
            faults.push(fault.hint(format!("`{}` is the {}", symbol.id, symbol.meaning)));
        }
    }
}

/// A value at which a quantity is held must be one that it can have.
fn held(scope: &Scope<'_>, influence: &Located<'_, Influence>, twist: &TwistWritten, faults: &mut Vec<Diagnostic>) {
    let Some(held) = &twist.held_at else { return };
    let id = match twist.kind.value {
        TwistKind::Bypass | TwistKind::RemoveSetting | TwistKind::RateOrEndPoint => &influence.part.to,
        TwistKind::Cut => &influence.part.from,
        TwistKind::Reverse | TwistKind::Saturate | TwistKind::RivalPath => return,
    };
    let Some(quantity) = scope.quantities.find(&id.value) else { return };
    let [low, high] = quantity.part.range.value;
    if !(low..=high).contains(&held.value) {
        let message = format!(
            "`{}` cannot be held at {}: it runs from {} to {}",
            id.value,
            number(held.value),
            number(low),
            number(high)
        );
        let fault = Diagnostic::error(&code::BAD_NUMBER, influence.span(held), message);
        let fault = fault.related(quantity.span(&quantity.part.range), "the believable range");
        faults.push(fault.hint("give a value within the range, in the unit of that quantity"));
    }
}
