//! What holds of every law whatever the numbers: declared effects, inverses, units, no panics.

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRunner};
use toehold::laws::{Effect, Kind, Law, Symbol, UnitRule, Value, all};
use toehold::quantity::Unit;

/// A value for a symbol from two numbers between 0 and 1: half of the time near the law's example, else anywhere in the
/// range (evenly over powers of ten where that spans many).
fn value(symbol: &Symbol, example: f64, u: f64, w: f64) -> f64 {
    let (low, high) = (symbol.range.0.max(-1e4), symbol.range.1.min(1e4));
    let drawn = if w < 0.5 {
        example * libm::pow(10.0, 2.0 * u - 1.0) + if example == 0.0 { u } else { 0.0 }
    } else if low >= 0.0 && high > 20.0 * low.max(1e-3) {
        let floor = low.max(1e-3);
        floor * libm::pow(high / floor, u)
    } else {
        low + u * (high - low)
    };
    drawn.clamp(symbol.range.0, symbol.range.1)
}

/// A number law with the middle of its example; others give nothing.
fn numeric() -> impl Iterator<Item = (&'static Law, Vec<f64>)> {
    all().filter(|law| law.inputs.iter().all(|symbol| symbol.kind == Kind::Number)).map(|law| {
        let example = law.read_example().unwrap().middle();
        let numbers =
            example.iter().map(|v| if let Value::Number(x) = v { *x } else { panic!("not a number") }).collect();
        (law, numbers)
    })
}

fn inputs(law: &Law, example: &[f64], draws: &[(f64, f64)]) -> Vec<Value> {
    law.inputs.iter().zip(example).zip(draws).map(|((s, x), (u, w))| Value::Number(value(s, *x, *u, *w))).collect()
}

fn draws() -> impl Strategy<Value = Vec<(f64, f64)>> {
    proptest::collection::vec((0.0..1.0f64, 0.0..1.0f64), 10)
}

fn with(values: &[Value], place: usize, x: f64) -> Vec<Value> {
    let mut values = values.to_vec();
    values[place] = Value::Number(x);
    values
}

fn at(values: &[Value], place: usize) -> f64 {
    match values[place] {
        Value::Number(x) => x,
        _ => panic!("not a number"),
    }
}

/// Raises one input by a small step and says which way the value went: −1, 0, 1; nothing where the law has no value.
fn slope(law: &Law, values: &[Value], place: usize) -> Option<i32> {
    let symbol = &law.inputs[place];
    let x = at(values, place);
    let whole = law.id == "poisson" && symbol.id == "k";
    let x = if whole { x.round() } else { x };
    let step = if whole { 1.0 } else { 1e-3 * x.abs().max(1e-6) };
    let (here, there) = (law.value(&with(values, place, x)).ok()?, law.value(&with(values, place, x + step)).ok()?);
    let noise = 1e-11 * here.abs().max(there.abs()) + f64::MIN_POSITIVE;
    let change = there - here;
    Some(if change.abs() <= noise {
        0
    } else if change > 0.0 {
        1
    } else {
        -1
    })
}

/// The declared effect of every input is the sign of the finite difference, wherever the law has a value; an effect that
/// is said to turn or to depend is seen to go both ways.
#[test]
fn effects_are_those_declared() {
    let mut faults = Vec::new();
    for (law, example) in numeric() {
        let mut seen: BTreeMap<usize, (u32, u32)> = BTreeMap::new();
        let mut runner = TestRunner::new_with_rng(
            Config::default(),
            proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
        );
        for _ in 0..600 {
            let drawn = draws().new_tree(&mut runner).unwrap().current();
            let mut values = inputs(law, &example, &drawn);
            if law.id == "poisson" {
                values[1] = Value::Number(at(&values, 1).round());
            }
            for (place, symbol) in law.inputs.iter().enumerate() {
                let Some(sign) = slope(law, &values, place) else { continue };
                let (up, down) = seen.entry(place).or_default();
                *up += u32::from(sign > 0);
                *down += u32::from(sign < 0);
                let wrong = match symbol.effect {
                    Effect::Plus => sign < 0,
                    Effect::Minus => sign > 0,
                    Effect::None => sign != 0,
                    Effect::Turning(_) | Effect::Depends(_) => false,
                };
                if wrong {
                    faults.push(format!("{} {}: {:?} but {sign} at {values:?}", law.id, symbol.id, symbol.effect));
                }
            }
        }
        for (place, symbol) in law.inputs.iter().enumerate() {
            let (up, down) = seen.get(&place).copied().unwrap_or_default();
            let poor = match symbol.effect {
                Effect::Plus => up == 0,
                Effect::Minus => down == 0,
                Effect::None => false,
                Effect::Turning(_) | Effect::Depends(_) => up == 0 || down == 0,
            };
            if poor {
                faults.push(format!("{} {}: {:?}, seen {up} up, {down} down", law.id, symbol.id, symbol.effect));
            }
        }
    }
    faults.truncate(40);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Solving for an input gives back what was put in, and putting in what was found gives the output again.
#[test]
fn inverses_undo_their_law() {
    let mut faults = Vec::new();
    for (law, example) in numeric() {
        for inverse in law.inverses {
            let (place, _) = law.input(inverse.symbol).expect("an inverse names an input");
            let mut runner = TestRunner::new_with_rng(
                Config::default(),
                proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
            );
            let (mut held, mut tried) = (0, 0);
            for _ in 0..300 {
                let drawn = draws().new_tree(&mut runner).unwrap().current();
                let values = inputs(law, &example, &drawn);
                let Ok(out) = law.value(&values) else { continue };
                // Where the output hardly moves with the input, rounding decides: nothing can be learned there.
                let x = at(&values, place);
                let Ok(beside) = law.value(&with(&values, place, x * 1.0001)) else { continue };
                if (beside - out).abs() <= 1e-7 * out.abs() || x == 0.0 || out.abs() < 1e-290 {
                    continue;
                }
                tried += 1;
                match law.solve(inverse.symbol, out, &with(&values, place, f64::NAN)) {
                    Ok(found) if (found - x).abs() <= 1e-6 * x.abs() => held += 1,
                    other => faults.push(format!("{} {}: {x} became {other:?} at {values:?}", law.id, inverse.symbol)),
                }
            }
            if held < 10 {
                faults.push(format!("{} {}: held {held} of {tried}", law.id, inverse.symbol));
            }
        }
    }
    faults.truncate(40);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The pH of no charge has no charge.
#[test]
fn net_charge_is_nought_at_the_isoelectric_point() {
    let law = toehold::laws::find("net-charge").unwrap();
    for sequence in ["ACDEFGHIKLMNPQRSTVWY", "KRKRKG", "DDDEEE", "GGGG"] {
        let inputs = [Value::Text(sequence.to_owned()), Value::Number(7.0)];
        let point = law.solve("ph", 0.0, &inputs).unwrap();
        let charge = law.value(&[inputs[0].clone(), Value::Number(point)]).unwrap();
        assert!(charge.abs() < 1e-9, "{sequence}: {charge} at {point}");
    }
}

/// Rows are whole: units can be read, `Like` names an input that is itself not `Like`, ids are unique, nothing is empty.
#[test]
fn rows_are_whole() {
    let mut ids: Vec<_> = all().map(|law| law.id).collect();
    ids.sort_unstable();
    let n = ids.len();
    ids.dedup();
    assert_eq!(ids.len(), n, "an id is used twice");
    let mut faults = Vec::new();
    for law in all() {
        let rules = law.inputs.iter().map(|s| s.unit).chain(law.outputs.iter().map(|o| o.unit));
        for rule in rules {
            match rule {
                UnitRule::Ucum(code) => assert!(Unit::parse(code).is_ok(), "{}: {code}", law.id),
                UnitRule::Like(other) => {
                    let (_, symbol) = law.input(other).unwrap_or_else(|| panic!("{}: no {other}", law.id));
                    assert!(!matches!(symbol.unit, UnitRule::Like(_)), "{}: {other}", law.id);
                }
                UnitRule::Any => {}
            }
        }
        for text in [law.id, law.family, law.title, law.formula, law.assumptions, law.source, law.example] {
            assert!(!text.trim().is_empty() && !text.contains("  "), "{}: an empty text or two blanks: {text}", law.id);
        }
        assert!(!law.inputs.is_empty() && !law.outputs.is_empty(), "{}", law.id);
        for symbol in law.inputs {
            assert!(symbol.range.0 < symbol.range.1, "{} {}", law.id, symbol.id);
            let named = law.formula.replace('ⁿ', "n").contains(symbol.letter);
            if symbol.kind == Kind::Number && law.id != "digest" && !named {
                faults.push(format!("{}: {} is not in {}", law.id, symbol.letter, law.formula));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

proptest! {
    #![proptest_config(Config::with_cases(400))]

    /// Any numbers at all give a value or an error, never a panic or a value that is not finite.
    #[test]
    fn no_input_panics(index in 0usize..200, raw in proptest::collection::vec(any::<f64>(), 10), text in ".{0,12}") {
        let laws: Vec<_> = all().collect();
        let law = laws[index % laws.len()];
        let values: Vec<Value> = law.inputs.iter().zip(&raw).map(|(symbol, x)| match symbol.kind {
            Kind::Number => Value::Number(*x),
            Kind::List => Value::List(raw.clone()),
            Kind::Text => Value::Text(text.clone()),
        }).collect();
        if let Ok(outputs) = law.evaluate(&values) {
            for output in outputs {
                if let Value::Number(x) = output {
                    prop_assert!(x.is_finite());
                }
            }
        }
        for inverse in law.inverses {
            let _ = law.solve(inverse.symbol, raw[9], &values);
        }
        let _ = law.setup(&values);
    }
}
