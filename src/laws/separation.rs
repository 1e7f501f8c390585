//! Separation: what moves how far in a gel, a column, a tube.

use super::law::{Effect, Kind, Law, LawError, Output, Symbol, UnitRule, Value};

/// The laws of this family.
pub(crate) const LAWS: &[Law] = &[MIGRATION_DISTANCE];

/// A number input with a UCUM unit.
const fn number(
    id: &'static str,
    letter: &'static str,
    unit: &'static str,
    range: (f64, f64),
    meaning: &'static str,
    effect: Effect,
) -> Symbol {
    Symbol { id, letter, unit: UnitRule::Ucum(unit), kind: Kind::Number, range, meaning, effect }
}

const MIGRATION_DISTANCE: Law = Law {
    id: "migration-distance",
    family: "separation",
    title: "distance moved in an electric field",
    formula: "x = μ·E·t",
    inputs: &[
        number("mobility", "μ", "cm2/(V.s)", (0.0, 1e-2), "electrophoretic mobility", Effect::Plus),
        number("field", "E", "V/cm", (0.0, 1e3), "electric field", Effect::Plus),
        number("time", "t", "s", (0.0, 1e7), "run time", Effect::Plus),
    ],
    outputs: &[Output { id: "distance", unit: UnitRule::Ucum("cm"), meaning: "distance moved" }],
    assumptions: "constant field, no drift of the buffer",
    source: "definition of electrophoretic mobility",
    setup: "({mobility})({field})({time})",
    eval: migration_distance,
    inverses: &[],
};

fn migration_distance(inputs: &[Value]) -> Result<Vec<Value>, LawError> {
    match inputs {
        [Value::Number(mobility), Value::Number(field), Value::Number(time)] => {
            Ok(vec![Value::Number(mobility * field * time)])
        }
        _ => Err(LawError::WrongCount { given: inputs.len(), expected: 3 }),
    }
}
