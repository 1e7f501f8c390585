//! What the laws cost: each once, and five of them composed over 1,000 levels (one technique's curve).

use divan::{Bencher, black_box};
use toehold::laws::{Law, Value, all, find};

fn main() {
    divan::main();
}

/// Every law with the middle of its example.
#[divan::bench(args = all().map(|law| law.id))]
fn each(bencher: Bencher, id: &str) {
    let Some((law, inputs)) = find(id).and_then(|law| Some((law, law.read_example().ok()?.middle()))) else { return };
    bencher.bench(|| law.evaluate(black_box(&inputs)));
}

/// Sugar outside → water potential → volume → dye → brightness, as a technique composes them.
#[divan::bench]
fn five_composed_over_a_thousand_levels(bencher: Bencher) {
    let ids = ["total-solute", "solute-potential", "volume-from-potential", "contained-concentration", "quenching"];
    let laws: Vec<&Law> = ids.iter().filter_map(|id| find(id)).collect();
    let levels: Vec<f64> = (0..1000).map(|level| 0.001 * f64::from(level)).collect();
    bencher.bench(|| levels.iter().filter_map(|level| brightness(&laws, black_box(*level))).sum::<f64>());
}

/// The same by plain arithmetic, to compare with.
#[divan::bench]
fn the_same_by_hand(bencher: Bencher) {
    let levels: Vec<f64> = (0..1000).map(|level| 0.001 * f64::from(level)).collect();
    bencher.bench(|| {
        let by_hand = |added: f64| {
            let potential = -(0.2 + added) * 0.083_144_626 * 295.15;
            let volume = 0.05 + 0.95 * -4.9 / potential;
            1.0 / (1.0 + 0.1 * 40.0 / volume)
        };
        levels.iter().map(|level| by_hand(black_box(*level))).sum::<f64>()
    });
}

fn brightness(laws: &[&Law], added: f64) -> Option<f64> {
    let [total, potential, volume, dye, glow] = laws else { return None };
    let value =
        |law: &Law, inputs: &[f64]| law.value(&inputs.iter().copied().map(Value::Number).collect::<Vec<_>>()).ok();
    let solute = value(total, &[0.2, added])?;
    let water = value(potential, &[1.0, solute, 22.0])?;
    let size = value(volume, &[0.05, -4.9, water])?;
    let crowding = value(dye, &[40.0, size])?;
    value(glow, &[0.1, crowding])
}
