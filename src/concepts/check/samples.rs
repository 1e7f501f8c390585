//! Sample points for the laws: values of `from`, and combinations of what is drawn.

use super::super::graph::{LawUse, SymbolSource};
use crate::laws::{Law, LawError, Value};

/// How many values of `from` are tried on an even scale, and as many on a logarithmic one.
const N_POINTS: u32 = 41;
/// How many combinations of drawn values are tried at most.
const MOST_COMBINATIONS: usize = 243;

/// How much the law's value changes when one input is raised by `step`, the others held.
///
/// # Units
/// Those in which the law states the input and its first output.
///
/// # Errors
/// The law gives no value at one of the two points.
pub fn finite_difference(law: &Law, inputs: &[Value], input: usize, step: f64) -> Result<f64, LawError> {
    let mut raised = inputs.to_vec();
    match raised.get_mut(input) {
        Some(Value::Number(value)) => *value += step,
        _ => return Err(LawError::Impossible(format!("input {input} of `{}` is not a number", law.id))),
    }
    Ok(law.value(&raised)? - law.value(inputs)?)
}

/// Values from low to high, even and, where that makes sense, logarithmic; rising, without repeats.
pub(super) fn grid(low: f64, high: f64, also: Option<f64>) -> Vec<f64> {
    let steps = f64::from(N_POINTS - 1);
    let mut points: Vec<f64> = (0..N_POINTS)
        .map(|n| if n + 1 == N_POINTS { high } else { low + (high - low) * f64::from(n) / steps })
        .collect();
    if low >= 0.0 && high > 0.0 {
        let least = if low > 0.0 { low } else { high * 1e-4 };
        let ratio = libm::log(high / least);
        points.extend((1..N_POINTS - 1).map(|n| least * libm::exp(ratio * f64::from(n) / steps)));
        points.push(least);
    }
    points.extend(also);
    points.retain(|point| (low..=high).contains(point));
    points.sort_by(f64::total_cmp);
    let apart = (high - low) * 1e-9;
    points.dedup_by(|next, previous| *next - *previous <= apart);
    points
}

/// Five values across the range, for what `from` was at the first level.
pub(super) fn firsts(low: f64, high: f64) -> Vec<f64> {
    [0.0, 0.25, 0.5, 0.75, 1.0].iter().map(|share| low + (high - low) * share).collect()
}

/// Every combination of corners and middles of what is drawn. `Driven` and `AtFirst` are left for the caller: their
/// place holds a nought.
pub(super) fn combinations(law: &LawUse) -> Vec<Vec<Value>> {
    let mut all: Vec<Vec<Value>> = vec![Vec::new()];
    for source in &law.sources {
        let mut values = values(source);
        // Corners alone, or the middle alone, where there would be too many.
        if all.len() * values.len() > MOST_COMBINATIONS {
            values.truncate(2);
        }
        if all.len() * values.len() > MOST_COMBINATIONS {
            values.truncate(1);
        }
        all = all
            .iter()
            .flat_map(|so_far| values.iter().map(move |value| so_far.iter().cloned().chain([value.clone()]).collect()))
            .collect();
    }
    all
}

/// What a symbol can be: both ends first, then the middle.
fn values(source: &SymbolSource) -> Vec<Value> {
    match source {
        SymbolSource::Driven | SymbolSource::AtFirst => vec![Value::Number(0.0)],
        SymbolSource::Fixed(value) => vec![Value::Number(*value)],
        SymbolSource::Free { low, high, step } => {
            let n_steps = ((high - low) / step + 1e-9).floor();
            let last = low + step * n_steps;
            let middle = low + step * (n_steps / 2.0).floor();
            [*low, last, middle].into_iter().map(Value::Number).collect()
        }
        SymbolSource::Letters(any_of) => any_of.iter().cloned().map(Value::Text).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grids_rise_and_keep_their_ends() {
        for (low, high) in [(0.0, 10.0), (1.0, 2.0), (-5.0, 5.0), (1e-9, 1.0)] {
            let points = grid(low, high, Some(1.5));
            assert!(points.windows(2).all(|pair| pair[0] < pair[1]), "{low} to {high}");
            assert!((points[0] - low).abs() < 1e-12 && (points[points.len() - 1] - high).abs() < 1e-12);
        }
    }

    #[test]
    fn the_difference_of_a_product_is_its_other_factors() {
        let law = crate::laws::find("migration-distance").unwrap();
        let inputs = [2.0e-4, 10.0, 60.0].map(Value::Number);
        let difference = finite_difference(law, &inputs, 1, 1.0).unwrap();
        assert!((difference - 2.0e-4 * 60.0).abs() < 1e-12);
        assert!(finite_difference(law, &inputs, 7, 1.0).is_err());
    }
}
