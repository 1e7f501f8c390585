//! Where laws end: nought, endless, the edge of their range, inputs that can't go together.

use toehold::laws::{LawError, Value, find};

fn at(id: &str, inputs: &[f64]) -> Result<f64, LawError> {
    let inputs: Vec<Value> = inputs.iter().copied().map(Value::Number).collect();
    find(id).unwrap().value(&inputs)
}

#[track_caller]
fn near(id: &str, inputs: &[f64], expected: f64) {
    let got = at(id, inputs).unwrap();
    assert!((got - expected).abs() <= 1e-9 * expected.abs().max(1e-6), "{id} {inputs:?}: {got}, not {expected}");
}

const INF: f64 = f64::INFINITY;

/// Far out each law meets what its textbook says of it.
#[test]
fn far_out_they_level_off() {
    near("michaelis-menten", &[100.0, 2.0, 1e15], 100.0);
    near("michaelis-menten", &[100.0, 2.0, 0.0], 0.0);
    near("michaelis-menten", &[100.0, 2.0, 2.0], 50.0);
    near("mixed-inhibition", &[100.0, 2.0, 3.0, 1.0, INF, INF], 60.0);
    near("mixed-inhibition", &[100.0, 2.0, 1e15, 5.0, 1.0, INF], 100.0);
    near("mixed-inhibition", &[100.0, 2.0, 1e15, 1.0, INF, 1.0], 50.0);
    near("hill", &[1e15, 5.0, 2.5], 1.0);
    near("hill", &[5.0, 5.0, 7.0], 0.5);
    near("gel-mobility", &[2e5, 0.67e-4, 2.55e-4, 5780.0], 0.67e-4);
    near("logistic-growth", &[1.0, 500.0, 1.0, 1e4], 500.0);
    near("logistic-growth", &[2000.0, 500.0, 1.0, 1e4], 500.0);
    near("logistic-growth", &[500.0, 500.0, 1.0, 3.0], 500.0);
    near("recombination", &[1e4], 0.5);
    near("leak-fraction", &[1.0, 100.0, 50.0, 1e9], 1.0);
    near("recovery", &[0.8, 1.0, 1e6], 0.8);
    near("substrate-left", &[10.0, 1.0, 2.0, 0.0], 10.0);
    near("substrate-left", &[10.0, 1.0, 2.0, 1e6], 0.0);
    near("substrate-left", &[1e6, 1.0, 1e-6, 1e5], 9e5);
    near("energy-transfer", &[0.0, 5.0], 1.0);
    near("energy-transfer", &[5.0, 5.0], 0.5);
    near("dose-response", &[1.0, 9.0, 3.0, 2.0, 0.0], 1.0);
    near("dose-response", &[1.0, 9.0, 3.0, -2.0, 0.0], 9.0);
    near("relative-volume", &[0.4, 0.29, 0.29], 1.0);
    near("nernst-partition", &[0.0, 5.0, 0.1, 25.0], 5.0);
    near("membrane-potential", &[1.0, 1.0, 1.0, 5.0, 5.0, 7.0, 7.0, 3.0, 3.0, 25.0], 0.0);
    near("mean-fragment-length", &[1e4, 0.0], 1e4);
    near("mean-fragment-length", &[1e12, 2.0], 500.0 / (1.0 + 500.0 / 1e12));
    near("silenced-half-life", &[60.0, 0.0, 5.0], 60.0);
    near("hybrid-fraction", &[1.0], 1.0);
    near("paired-fraction", &[55.0, 55.0, 200.0], 0.5);
    near("drag-tag-mobility", &[3e-4, 100.0, 0.0], 3e-4);
    near("tight-binding", &[10.0, 4.0, 0.0], 4.0);
    near("tight-binding", &[1e-9, 1e9, 1e-9], 1e-9);
    near("free-ligand", &[10.0, 4.0, 0.0], 6.0);
    near("free-ligand", &[4.0, 10.0, 0.0], 0.0);
    near("poisson", &[0.0, 0.0], 1.0);
    near("poisson", &[0.0, 2.0], 0.0);
}

/// One competes with nothing: with a single permeant ion the membrane sits at its Nernst potential.
#[test]
fn one_ion_alone_sets_the_nernst_potential() {
    let membrane = at("membrane-potential", &[1.0, 0.0, 0.0, 5.0, 140.0, 145.0, 12.0, 110.0, 10.0, 37.0]).unwrap();
    near("nernst-potential", &[1.0, 5.0, 140.0, 37.0], membrane);
    let membrane = at("membrane-potential", &[0.0, 0.0, 1.0, 5.0, 140.0, 145.0, 12.0, 110.0, 10.0, 37.0]).unwrap();
    near("nernst-potential", &[-1.0, 110.0, 10.0, 37.0], membrane);
}

/// Turning points lie where the row says.
#[test]
fn turning_points_are_where_they_are_said_to_be() {
    let peak = at("ph-activity", &[100.0, 7.5, 6.0, 9.0]).unwrap();
    for ph in [7.4, 7.6, 6.0, 9.0] {
        assert!(at("ph-activity", &[100.0, ph, 6.0, 9.0]).unwrap() < peak, "{ph}");
    }
    let most = at("hardy-weinberg", &[0.5]).unwrap();
    assert!(at("hardy-weinberg", &[0.49]).unwrap() < most && at("hardy-weinberg", &[0.51]).unwrap() < most);
    let likeliest = at("poisson", &[4.0, 4.0]).unwrap();
    assert!(at("poisson", &[3.9, 4.0]).unwrap() < likeliest && at("poisson", &[4.1, 4.0]).unwrap() < likeliest);
}

/// What can't be is refused, with the reason.
#[test]
fn what_cannot_be_is_refused() {
    for (id, inputs) in [
        ("gel-mobility", &[1000.0, 3e-4, 1e-4, 5000.0][..]),
        ("fragment-size", &[0.5, 0.5, 9000.0, 0.0]),
        ("fragment-size", &[8.0, 0.5, 100.0, -5000.0]),
        ("retention-factor", &[6.0, 5.0]),
        ("partition-coefficient", &[7.0, 8.0, 24.0]),
        ("flux", &[500.0, 0.1, 0.3, 100.0]),
        ("nernst-potential", &[0.0, 5.0, 140.0, 37.0]),
        ("membrane-potential", &[0.0, 0.0, 0.0, 5.0, 140.0, 145.0, 12.0, 110.0, 10.0, 37.0]),
        ("substrate-remaining", &[10.0, 5.0, 3.0]),
        ("buffer-ph", &[7.2, 10.0, 10.0, 10.0]),
        ("solids-fraction", &[0.5, 0.4]),
        ("substitutions", &[0.75]),
        ("poisson", &[2.0, 1.5]),
        ("selection-step", &[1.0, 1.0, 0.0]),
        ("mark-recapture", &[50.0, 40.0, 0.0]),
        ("mark-recapture", &[50.0, 40.0, 45.0]),
        ("dose-response", &[0.0, 1.0, 3.0, 0.0, 1.0]),
        ("exponential-growth", &[1e10, 1e6, 1e6]),
    ] {
        assert!(matches!(at(id, inputs), Err(LawError::Impossible(_))), "{id} {inputs:?}: {:?}", at(id, inputs));
    }
    let text = |text: &str| Value::Text(text.to_owned());
    let digest = |sequence: &str, site: &str, cut: f64, topology: &str| {
        find("digest").unwrap().evaluate(&[text(sequence), text(site), Value::Number(cut), text(topology)])
    };
    assert!(digest("ACGT", "GGATG", 1.0, "linear").is_err(), "not the same on both strands");
    assert!(digest("ACGT", "GAATTC", 7.0, "linear").is_err(), "beyond the site");
    assert!(digest("ACGT", "GAATTC", 1.0, "round").is_err());
    assert!(digest("ACXT", "GAATTC", 1.0, "linear").is_err());
    assert!(digest("ACG", "GAATTC", 1.0, "circular").is_ok(), "a ring shorter than the site is not cut");
    let list = |values: &[f64]| Value::List(values.to_vec());
    let chi = |o: &[f64], e: &[f64]| find("chi-square").unwrap().evaluate(&[list(o), list(e), Value::Number(0.0)]);
    assert!(chi(&[74.0, 26.0], &[3.0, 1.0]).is_err(), "a ratio is not counts");
    assert!(chi(&[74.0, 26.0], &[75.0, 25.0]).is_ok());
    assert!(chi(&[74.0, 26.0], &[100.0]).is_err());
    assert!(find("t-test").unwrap().evaluate(&[list(&[1.0, 1.0]), list(&[1.0, 1.0])]).is_err());
    assert!(find("sd").unwrap().evaluate(&[list(&[1.0])]).is_err());
}

/// Messages name the input, the value, the range and the unit.
#[test]
fn messages_name_range_and_unit() {
    let message = |id: &str, inputs: &[f64]| at(id, inputs).unwrap_err().to_string();
    assert_eq!(message("transmittance", &[-1.0]), "`absorbance` is −1, outside 0 to 20");
    assert_eq!(message("oxygen-saturation", &[1e4]), "`po2` is 10000, outside 0 to 2000 mmHg");
    assert_eq!(message("surface-to-volume", &[1.0, 2.0]), "2 inputs given, 1 needed");
}
