//! Ranges run from a smaller to a larger number; times, steps and scatter are what they can be.

use serde_yaml::Spanned;

use super::law_use::number;
use super::scope::{Located, Scope};
use crate::diagnostic::{Diagnostic, code};
use crate::source::Span;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for quantity in &scope.quantities.parts {
        let part = quantity.part;
        rising(quantity, &part.range, faults);
        let Some(reading) = &part.reading else { continue };
        let at = quantity.span(&reading.instrument);
        positive("resolution", reading.resolution, at, faults);
        not_negative("relative_sd", reading.relative_sd, at, faults);
        not_negative("absolute_sd", reading.absolute_sd, at, faults);
    }
    for influence in &scope.influences.parts {
        let part = influence.part;
        positive("time_s", part.time_s, influence.span(&part.id), faults);
        let Some(over) = &part.over else { continue };
        if !rising(influence, over, faults) {
            continue;
        }
        let Some(quantity) = scope.quantities.find(&part.from.value) else { continue };
        let ([low, high], [least, greatest]) = (over.value, quantity.part.range.value);
        if low < least || high > greatest {
            let message = format!(
                "`over` goes from {} to {}, outside the believable range of `{}`, {} to {}",
                number(low),
                number(high),
                part.from.value,
                number(least),
                number(greatest)
            );
            let fault = Diagnostic::error(&code::BAD_RANGE, influence.span(over), message);
            let fault = fault.related(quantity.span(&quantity.part.range), "the believable range");
            faults.push(fault.hint("narrow `over`, or widen the quantity's `range`"));
        }
    }
}

fn rising<T>(located: &Located<'_, T>, range: &Spanned<[f64; 2]>, faults: &mut Vec<Diagnostic>) -> bool {
    let [low, high] = range.value;
    let good = low.is_finite() && high.is_finite() && low < high;
    if !good {
        let message = format!("a range cannot go from {} to {}", number(low), number(high));
        let fault = Diagnostic::error(&code::BAD_RANGE, located.span(range), message);
        faults.push(fault.hint("write the smaller number first; both must be finite and differ"));
    }
    good
}

fn positive(name: &str, value: f64, at: Span, faults: &mut Vec<Diagnostic>) {
    if !(value > 0.0 && value.is_finite()) {
        let message = format!("`{name}` is {}", number(value));
        faults.push(
            Diagnostic::error(&code::BAD_NUMBER, at, message).hint(format!("`{name}` must be a positive number")),
        );
    }
}

fn not_negative(name: &str, value: f64, at: Span, faults: &mut Vec<Diagnostic>) {
    if !(value >= 0.0 && value.is_finite()) {
        let message = format!("`{name}` is {}", number(value));
        faults.push(Diagnostic::error(&code::BAD_NUMBER, at, message).hint(format!("`{name}` must be nought or more")));
    }
}
