//! Short forms for the rows of the table of laws, and for reading values inside a law's function.
//!
//! What for: a row stays readable. **Must not know**: any law in particular.

use super::law::{Effect, Inverse, Kind, LawError, Output, Symbol, UnitRule, Value};
use crate::quantity::constants::ICE_POINT;

/// Anything from nought up: the finite top keeps endless values out of laws that can't take them.
pub(super) const POSITIVE: (f64, f64) = (1e-15, 1e15);
/// Nought and anything above it.
pub(super) const NOT_NEGATIVE: (f64, f64) = (0.0, 1e15);
/// Any finite number.
pub(super) const ANY_NUMBER: (f64, f64) = (-1e15, 1e15);
/// A part of a whole.
pub(super) const FRACTION: (f64, f64) = (0.0, 1.0);
/// Temperatures of liquid water and some way around, °C.
pub(super) const CELSIUS: (f64, f64) = (-20.0, 120.0);
/// pH values of aqueous solutions.
pub(super) const PH: (f64, f64) = (-1.0, 15.0);

/// A number read in this UCUM unit.
pub(super) const fn number(
    id: &'static str,
    letter: &'static str,
    unit: &'static str,
    range: (f64, f64),
    meaning: &'static str,
    effect: Effect,
) -> Symbol {
    Symbol { id, letter, unit: UnitRule::Ucum(unit), kind: Kind::Number, range, meaning, effect, default: None }
}

/// A number in any unit.
pub(super) const fn any(
    id: &'static str,
    letter: &'static str,
    range: (f64, f64),
    meaning: &'static str,
    effect: Effect,
) -> Symbol {
    Symbol { id, letter, unit: UnitRule::Any, kind: Kind::Number, range, meaning, effect, default: None }
}

/// A number in the unit of another symbol.
pub(super) const fn like(
    id: &'static str,
    letter: &'static str,
    other: &'static str,
    range: (f64, f64),
    meaning: &'static str,
    effect: Effect,
) -> Symbol {
    Symbol { id, letter, unit: UnitRule::Like(other), kind: Kind::Number, range, meaning, effect, default: None }
}

/// A list of numbers in this unit.
pub(super) const fn list(
    id: &'static str,
    letter: &'static str,
    unit: UnitRule,
    range: (f64, f64),
    meaning: &'static str,
    effect: Effect,
) -> Symbol {
    Symbol { id, letter, unit, kind: Kind::List, range, meaning, effect, default: None }
}

/// Letters.
pub(super) const fn text(id: &'static str, letter: &'static str, meaning: &'static str, effect: Effect) -> Symbol {
    let range = (f64::NEG_INFINITY, f64::INFINITY);
    Symbol { id, letter, unit: UnitRule::Ucum("1"), kind: Kind::Text, range, meaning, effect, default: None }
}

/// An output in this UCUM unit.
pub(super) const fn gives(id: &'static str, unit: &'static str, meaning: &'static str) -> Output {
    Output { id, unit: UnitRule::Ucum(unit), meaning }
}

/// An output in the unit of an input.
pub(super) const fn gives_like(id: &'static str, other: &'static str, meaning: &'static str) -> Output {
    Output { id, unit: UnitRule::Like(other), meaning }
}

/// The law solved for this symbol.
pub(super) const fn solved(symbol: &'static str, solve: fn(f64, &[Value]) -> Result<f64, LawError>) -> Inverse {
    Inverse { symbol, solve }
}

/// All inputs as numbers.
pub(super) fn numbers<const N: usize>(inputs: &[Value]) -> Result<[f64; N], LawError> {
    let wrong = LawError::WrongCount { given: inputs.len(), expected: N };
    let read: Vec<f64> = inputs.iter().filter_map(as_number).collect();
    read.try_into().map_err(|_| wrong)
}

/// The inputs of an inverse as numbers; the place that is sought may hold anything.
pub(super) fn given<const N: usize>(inputs: &[Value]) -> Result<[f64; N], LawError> {
    let wrong = LawError::WrongCount { given: inputs.len(), expected: N };
    let read: Vec<f64> = inputs.iter().map(|value| as_number(value).unwrap_or(f64::NAN)).collect();
    read.try_into().map_err(|_| wrong)
}

/// One number out.
#[expect(clippy::unnecessary_wraps, reason = "the last word of every law's function")]
pub(super) fn one(value: f64) -> Result<Vec<Value>, LawError> {
    Ok(vec![Value::Number(value)])
}

/// Several numbers out.
#[expect(clippy::unnecessary_wraps, reason = "the last word of every law's function")]
pub(super) fn several(values: &[f64]) -> Result<Vec<Value>, LawError> {
    Ok(values.iter().copied().map(Value::Number).collect())
}

/// An inverse's answer, where there is one.
pub(super) fn found(value: f64) -> Result<f64, LawError> {
    if value.is_finite() { Ok(value) } else { Err(impossible("no value of this input gives that output")) }
}

/// Inputs that cannot go together.
pub(super) fn impossible(why: &str) -> LawError {
    LawError::Impossible(why.to_owned())
}

/// Goes on only where the condition holds.
pub(super) fn ensure(holds: bool, why: &str) -> Result<(), LawError> {
    if holds { Ok(()) } else { Err(impossible(why)) }
}

/// How many, as a number to reckon with.
#[expect(clippy::cast_precision_loss, reason = "lists and sequences are far shorter than 2^53")]
pub(super) fn count(n: usize) -> f64 {
    n as f64
}

/// Degrees Celsius to kelvin.
pub(super) fn kelvin(celsius: f64) -> f64 {
    celsius + ICE_POINT.value
}

/// Ten to this power.
pub(super) fn ten_to(power: f64) -> f64 {
    libm::pow(10.0, power)
}

/// Share of sites filled when a ligand binds together with n others (Hill).
pub(super) fn hill_share(ligand: f64, half: f64, n: f64) -> f64 {
    if ligand <= 0.0 { 0.0 } else { 1.0 / (1.0 + libm::pow(half / ligand, n)) }
}

fn as_number(value: &Value) -> Option<f64> {
    match value {
        Value::Number(number) => Some(*number),
        Value::List(_) | Value::Text(_) => None,
    }
}
