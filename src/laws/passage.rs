//! Light that is stopped: by a solution on its way, or by what is left of a quencher.

use super::law::Effect::{Minus, Plus};
use super::law::Law;
use super::row::{NOT_NEGATIVE, ensure, found, given, gives, number, numbers, one, solved, ten_to};

/// The laws of this file.
pub(super) const LAWS: &[Law] = &[SOLUTION_TRANSMITTANCE, QUENCHING_BY_THE_REST];

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

const QUENCHING_BY_THE_REST: Law = Law {
    id: "quenching-by-the-rest",
    family: "light and labels",
    title: "brightness of a dye beside a quencher that is being used up",
    formula: "F/F0 = 1/[1 + K·(Q0 − q)]",
    inputs: &[
        number("constant", "K", "L/mmol", (0.0, 1e6), "quenching constant", Minus),
        number("start", "Q0", "mmol/L", NOT_NEGATIVE, "quencher at the start", Minus),
        number("used", "q", "mmol/L", NOT_NEGATIVE, "quencher that has been used up", Plus),
    ],
    outputs: &[gives("brightness", "1", "share of the brightness without quencher")],
    assumptions: "no more is used up than there was; what it turns into does not quench",
    source: "Stern & Volmer 1919 (from memory), with the quencher that is left",
    setup: "1/[1 + ({constant})({start} − {used})]",
    example: "constant=10 start=0.2 used=0:0.2:0.01",
    eval: |v| {
        let [constant, start, used] = numbers(v)?;
        ensure(used <= start, "no more quencher can be used up than there was")?;
        one(1.0 / (1.0 + constant * (start - used)))
    },
    inverses: &[solved("used", |out, v| {
        given(v).and_then(|[constant, start, _]: [f64; 3]| found(start - (1.0 / out - 1.0) / constant))
    })],
};
