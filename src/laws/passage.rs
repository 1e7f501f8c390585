//! Light on its way through a solution: what comes out at the far side.

use super::law::Effect::Minus;
use super::law::Law;
use super::row::{found, given, gives, number, numbers, one, solved, ten_to};

/// The laws of this file.
pub(super) const LAWS: &[Law] = &[SOLUTION_TRANSMITTANCE];

const SOLUTION_TRANSMITTANCE: Law = Law {
    id: "solution-transmittance",
    family: "light and labels",
    title: "per cent of light that a solution lets through",
    formula: "T = 100 %·10^(−ε·l·c)",
    inputs: &[
        number("epsilon", "ε", "L/(mol.cm)", (0.0, 1e8), "molar absorption coefficient", Minus),
        number("path", "l", "cm", (0.0, 1e3), "light path", Minus),
        number("concentration", "c", "umol/L", (0.0, 1e8), "concentration", Minus),
    ],
    outputs: &[gives("transmittance", "%", "per cent of the light that passes")],
    assumptions: "one wavelength, no scatter, no stray light",
    source: "Bouguer, Lambert, Beer 1852 (from memory)",
    setup: "(100 %) × 10^(−({epsilon})({path})({concentration} × 10⁻⁶ mol/µmol))",
    example: "epsilon=20000 path=1 concentration=0:80:4",
    eval: |v| {
        let [epsilon, path, concentration] = numbers(v)?;
        one(100.0 * ten_to(-epsilon * path * concentration * 1e-6))
    },
    inverses: &[solved("concentration", |out, v| {
        given(v).and_then(|[epsilon, path, _]: [f64; 3]| found(-libm::log10(out / 100.0) * 1e6 / (epsilon * path)))
    })],
};
