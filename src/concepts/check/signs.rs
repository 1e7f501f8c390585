//! Signs: the declared direction is that of the law's finite difference over the whole believable range, for every
//! value that may be drawn.
//!
//! A stretch without change is tolerated at the ends of the range (the law saturates), nowhere else.

use super::super::graph::{LawUse, SymbolSource};
use super::super::written::{Influence, SignWritten};
use super::law_use::number;
use super::samples;
use super::scope::{Located, Scope};
use crate::diagnostic::{Diagnostic, code};
use crate::laws::{LawError, Value};
use crate::quantity::Unit;

/// Differences smaller than this share of the greatest value are no change: the laws' own rounding.
const ROUNDING: f64 = 1e-11;
/// How near to a turning point, as a share of the range, a difference says nothing: the point is written to a few
/// figures.
const AROUND_TURN: f64 = 0.01;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for (influence, law) in scope.influences.parts.iter().zip(&scope.uses) {
        let turn = turning_point(scope, influence);
        match (turn, law) {
            (Err(fault), _) => faults.push(fault),
            (Ok(turn), Some(law)) => faults.extend(influence_sign(scope, influence, law, turn)),
            (Ok(_), None) => {}
        }
    }
}

/// The range in which an influence is used, in the unit of `from`.
fn range(scope: &Scope<'_>, influence: &Located<'_, Influence>) -> Option<[f64; 2]> {
    let part = influence.part;
    match &part.over {
        Some(over) => Some(over.value),
        None => Some(scope.quantities.find(&part.from.value)?.part.range.value),
    }
}

/// Where the sign turns; nothing for a plain sign.
fn turning_point(scope: &Scope<'_>, influence: &Located<'_, Influence>) -> Result<Option<f64>, Diagnostic> {
    let part = influence.part;
    let turning = part.sign.value == SignWritten::Turning;
    let fault = |span, message: String| Diagnostic::error(&code::TURNING_POINT, span, message);
    match &part.turns_at {
        None if turning => Err(fault(influence.span(&part.sign), "the sign turns, but not said where".to_owned())
            .hint("add `turns_at:`, in the unit of `from`")),
        Some(at) if !turning => Err(fault(influence.span(at), "only a sign `turning` has a turning point".to_owned())
            .hint("write `sign: turning`, or take out `turns_at`")),
        Some(at) => {
            let Some([low, high]) = range(scope, influence) else { return Ok(Some(at.value)) };
            if at.value > low && at.value < high {
                return Ok(Some(at.value));
            }
            let message =
                format!("the sign turns at {}, outside {} to {}", number(at.value), number(low), number(high));
            Err(fault(influence.span(at), message).hint("a sign that does not turn within the range is `+` or `-`"))
        }
        None => Ok(None),
    }
}

/// One run of the law over the range, what is drawn held.
struct Curve {
    /// Values of `from` in its own unit, rising.
    from: Vec<f64>,
    /// Values of the law.
    to: Vec<f64>,
}

/// What a curve does that it should not.
enum Misfit {
    /// The law's value goes the other way between these two points.
    Wrong { at: usize },
    /// It stands still all along, or between these two points in the midst of a change.
    Still { at: Option<usize> },
}

fn influence_sign(
    scope: &Scope<'_>,
    influence: &Located<'_, Influence>,
    law: &LawUse,
    turn: Option<f64>,
) -> Option<Diagnostic> {
    let [low, high] = range(scope, influence)?;
    let unit = scope.unit(&influence.part.from.value)?;
    if !(low.is_finite() && high.is_finite() && low < high) {
        return None;
    }
    let points = samples::grid(low, high, turn);
    let has_first = law.sources.contains(&SymbolSource::AtFirst);
    let firsts = if has_first { samples::firsts(low, high) } else { vec![low] };
    // What `from` was at first may lie below or above what it is now; the law need hold on one side only.
    let sides: &[fn(f64, f64) -> bool] =
        if has_first { &[|x, first| x >= first, |x, first| x <= first] } else { &[|_, _| true] };
    let mut no_value = None;
    let mut usable = 0;
    for side in sides {
        let mut misfit = None;
        let mut lawful = true;
        'side: for inputs in samples::combinations(law) {
            for first in &firsts {
                let from: Vec<f64> = points.iter().copied().filter(|x| side(*x, *first)).collect();
                let inputs = with_first(law, &inputs, unit, *first);
                match curve(law, unit, &inputs, from) {
                    Ok(curve) => {
                        misfit = misfit
                            .or_else(|| judge(influence, &curve, turn, high - low).map(|fault| (fault, curve, inputs)));
                    }
                    Err((at, error)) => {
                        no_value = no_value.or(Some((at, error, inputs)));
                        lawful = false;
                        break 'side;
                    }
                }
            }
        }
        if lawful {
            usable += 1;
            if let Some((misfit, curve, inputs)) = misfit {
                return Some(report(influence, law, unit, &misfit, &curve, &inputs));
            }
        }
    }
    let (at, error, inputs) = no_value.filter(|_| usable == 0)?;
    let from = &influence.part.from.value;
    let message = format!("the law `{}` gives no value where `{from}` is {} {}", law.law.id, number(at), unit.code());
    let fault = Diagnostic::error(&code::LAW_HAS_NO_VALUE, influence.span(&influence.part.law.name), message);
    Some(
        fault
            .hint(format!("the law says: {error}"))
            .hint(drawn(law, &inputs))
            .hint("narrow the range with `over`, or what is drawn"),
    )
}

fn with_first(law: &LawUse, inputs: &[Value], unit: &Unit, first: f64) -> Vec<Value> {
    let first = unit.convert(first, &law.input_unit).unwrap_or(first);
    inputs
        .iter()
        .zip(&law.sources)
        .map(|(value, source)| if *source == SymbolSource::AtFirst { Value::Number(first) } else { value.clone() })
        .collect()
}

fn curve(law: &LawUse, unit: &Unit, inputs: &[Value], from: Vec<f64>) -> Result<Curve, (f64, LawError)> {
    let mut inputs = inputs.to_vec();
    let mut to = Vec::with_capacity(from.len());
    for x in &from {
        if let Some(driven) = inputs.get_mut(law.input) {
            *driven = Value::Number(unit.convert(*x, &law.input_unit).unwrap_or(*x));
        }
        let y = law.law.value(&inputs).map_err(|error| (*x, error))?;
        if !y.is_finite() {
            return Err((*x, LawError::Impossible("the value is not finite".to_owned())));
        }
        to.push(y);
    }
    Ok(Curve { from, to })
}

/// Compares a curve with the sign; for a turning one, the parts below and above the turn.
fn judge(influence: &Located<'_, Influence>, curve: &Curve, turn: Option<f64>, width: f64) -> Option<Misfit> {
    let part = |keep: &dyn Fn(f64) -> bool, rises: bool| {
        let places: Vec<usize> =
            curve.from.iter().enumerate().filter(|(_, x)| keep(**x)).map(|(place, _)| place).collect();
        judge_part(curve, &places, rises)
    };
    match influence.part.sign.value {
        SignWritten::Plus => part(&|_| true, true),
        SignWritten::Minus => part(&|_| true, false),
        SignWritten::Turning => {
            let (turn, margin) = (turn?, width * AROUND_TURN);
            part(&|x| x <= turn - margin, true).or_else(|| part(&|x| x >= turn + margin, false))
        }
    }
}

/// Judges the differences between neighbouring points of a part of a curve.
fn judge_part(curve: &Curve, places: &[usize], rises: bool) -> Option<Misfit> {
    // Two neighbours say nothing about a range.
    if places.len() < 4 {
        return None;
    }
    let greatest = curve.to.iter().fold(0.0_f64, |most, y| most.max(y.abs()));
    let steps: Vec<(usize, f64)> = places
        .windows(2)
        .filter_map(|pair| {
            let [here, next] = pair else { return None };
            let change = curve.to.get(*next)? - curve.to.get(*here)?;
            Some((*here, if rises { change } else { -change }))
        })
        .collect();
    if let Some((at, _)) = steps.iter().find(|(_, change)| *change < -greatest * ROUNDING) {
        return Some(Misfit::Wrong { at: *at });
    }
    let moves = |(_, change): &&(usize, f64)| *change > greatest * ROUNDING;
    let Some(first) = steps.iter().position(|step| moves(&step)) else { return Some(Misfit::Still { at: None }) };
    let last = steps.iter().rposition(|step| moves(&step)).unwrap_or(first);
    let between = steps.get(first..=last).unwrap_or_default();
    between.iter().find(|step| !moves(step)).map(|(at, _)| Misfit::Still { at: Some(*at) })
}

fn report(
    influence: &Located<'_, Influence>,
    law: &LawUse,
    unit: &Unit,
    misfit: &Misfit,
    curve: &Curve,
    inputs: &[Value],
) -> Diagnostic {
    let part = influence.part;
    let sign = match part.sign.value {
        SignWritten::Plus => "+",
        SignWritten::Minus => "-",
        SignWritten::Turning => "turning",
    };
    let between = |at: usize| {
        let value = |values: &[f64], at: usize| values.get(at).copied().unwrap_or(f64::NAN);
        let (x, next) = (value(&curve.from, at), value(&curve.from, at + 1));
        let rises = value(&curve.to, at + 1) > value(&curve.to, at);
        (format!("from {} to {} {}", number(x), number(next), unit.code()), rises)
    };
    let (code, message) = match misfit {
        Misfit::Wrong { at } => {
            let (stretch, rises) = between(*at);
            let does = if rises { "rises" } else { "falls" };
            let message = format!(
                "the sign is `{sign}`, but by the law `{}` {does} while `{}` rises {stretch}",
                part.to.value, part.from.value
            );
            (&code::SIGN_DISAGREES_WITH_LAW, message)
        }
        Misfit::Still { at: Some(at) } => {
            let message = format!(
                "by the law `{}` stands still while `{}` rises {}",
                part.to.value,
                part.from.value,
                between(*at).0
            );
            (&code::NO_EFFECT, message)
        }
        Misfit::Still { at: None } => {
            let message = format!("by the law `{}` does not change with `{}` at all", part.to.value, part.from.value);
            (&code::NO_EFFECT, message)
        }
    };
    let fault = Diagnostic::error(code, influence.span(&part.sign), message);
    let fault = fault.related(influence.span(&part.law.name), format!("the law: {}", law.law.formula));
    fault.hint(drawn(law, inputs)).hint("change the sign, narrow the range with `over`, or change what is drawn")
}

/// The values of all symbols but the driven one.
fn drawn(law: &LawUse, inputs: &[Value]) -> String {
    let mut list = Vec::new();
    for ((symbol, source), value) in law.law.inputs.iter().zip(&law.sources).zip(inputs) {
        match value {
            _ if *source == SymbolSource::Driven => {}
            Value::Number(value) => list.push(format!("{} = {}", symbol.id, number(*value))),
            Value::Text(text) => list.push(format!("{} = {text}", symbol.id)),
            Value::List(_) => {}
        }
    }
    if list.is_empty() {
        "this holds whatever is drawn".to_owned()
    } else {
        format!("this is with {}", list.join(", "))
    }
}
