//! Membrane potentials.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Effect, Law};
use super::row::{CELSIUS, ensure, found, given, gives, kelvin, number, numbers, one, solved};
use super::water::FAMILY;
use crate::quantity::constants::{FARADAY, GAS};

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] = &[NERNST_POTENTIAL, MEMBRANE_POTENTIAL];

const MILLIMOLAR: (f64, f64) = (1e-9, 1e4);
const MILLIMOLAR_OR_NONE: (f64, f64) = (0.0, 1e4);
const PERMEABILITY: (f64, f64) = (0.0, 1e9);

const NERNST_POTENTIAL: Law = Law {
    id: "nernst-potential",
    family: FAMILY,
    title: "equilibrium potential of one ion",
    formula: "E = R·T/(z·F)·ln(co/ci)",
    inputs: &[
        number(
            "charge",
            "z",
            "1",
            (-6.0, 6.0),
            "charge number of the ion, signed",
            Depends("toward 0 within one sign"),
        ),
        number(
            "outside",
            "co",
            "mmol/L",
            MILLIMOLAR,
            "concentration outside",
            Depends("raises it for a cation, lowers it for an anion"),
        ),
        number(
            "inside",
            "ci",
            "mmol/L",
            MILLIMOLAR,
            "concentration inside",
            Depends("lowers it for a cation, raises it for an anion"),
        ),
        number("temperature", "T", "Cel", CELSIUS, "temperature", Depends("away from 0")),
    ],
    outputs: &[gives("potential", "mV", "potential inside minus outside")],
    assumptions: "one ion that can cross, at equilibrium; area and permeability do not matter",
    source: "Nernst 1888 (from memory; R and F of CODATA)",
    setup: "(8.314 J/(mol·K))({temperature:K})/[({charge})(96485 C/mol)] × ln[({outside})/({inside})] × 1000 mV/V",
    example: "charge=1 outside=1:140:5 inside=140 temperature=37",
    eval: |v| {
        let [charge, outside, inside, temperature] = numbers(v)?;
        ensure(charge.abs() > 0.0, "`charge` must not be 0: an uncharged solute has no such potential")?;
        one(thermal_mv(temperature) / charge * libm::log(outside / inside))
    },
    inverses: &[
        solved("outside", |out, v| {
            let [charge, _, inside, temperature] = given(v)?;
            found(inside * libm::exp(out * charge / thermal_mv(temperature)))
        }),
        solved("inside", |out, v| {
            let [charge, outside, _, temperature] = given(v)?;
            found(outside / libm::exp(out * charge / thermal_mv(temperature)))
        }),
    ],
};

/// RT/F in mV.
fn thermal_mv(celsius: f64) -> f64 {
    1000.0 * GAS.value * kelvin(celsius) / FARADAY.value
}

const PULLS: Effect = Depends("toward the equilibrium potential of that ion");

const MEMBRANE_POTENTIAL: Law = Law {
    id: "membrane-potential",
    family: FAMILY,
    title: "resting potential of a membrane that lets several ions through",
    formula: "V = R·T/F·ln((PK·Ko + PNa·Nao + PCl·Cli)/(PK·Ki + PNa·Nai + PCl·Clo))",
    inputs: &[
        number("p_k", "PK", "1", PERMEABILITY, "permeability to potassium, relative", PULLS),
        number("p_na", "PNa", "1", PERMEABILITY, "permeability to sodium, relative", PULLS),
        number("p_cl", "PCl", "1", PERMEABILITY, "permeability to chloride, relative", PULLS),
        number("k_out", "Ko", "mmol/L", MILLIMOLAR_OR_NONE, "potassium outside", Plus),
        number("k_in", "Ki", "mmol/L", MILLIMOLAR_OR_NONE, "potassium inside", Minus),
        number("na_out", "Nao", "mmol/L", MILLIMOLAR_OR_NONE, "sodium outside", Plus),
        number("na_in", "Nai", "mmol/L", MILLIMOLAR_OR_NONE, "sodium inside", Minus),
        number("cl_out", "Clo", "mmol/L", MILLIMOLAR_OR_NONE, "chloride outside", Minus),
        number("cl_in", "Cli", "mmol/L", MILLIMOLAR_OR_NONE, "chloride inside", Plus),
        number("temperature", "T", "Cel", CELSIUS, "temperature", Depends("away from 0")),
    ],
    outputs: &[gives("potential", "mV", "potential inside minus outside")],
    assumptions: "constant field, ions cross independently, no net current; only the ratios of permeabilities count, and \
                  pumps act through the concentrations alone",
    source: "Goldman 1943; Hodgkin & Katz 1949 Journal of Physiology 108:37 (from memory)",
    setup: "(8.314 J/(mol·K))({temperature:K})/(96485 C/mol) × ln{[({p_k})({k_out}) + ({p_na})({na_out}) + \
            ({p_cl})({cl_in})]/[({p_k})({k_in}) + ({p_na})({na_in}) + ({p_cl})({cl_out})]} × 1000 mV/V",
    example: "p_k=1 p_na=0.04 p_cl=0.45 k_out=1:60:3 k_in=140 na_out=145 na_in=12 cl_out=110 cl_in=10 temperature=37",
    eval: |v| {
        let [p_k, p_na, p_cl, k_out, k_in, na_out, na_in, cl_out, cl_in, temperature] = numbers(v)?;
        let upper = p_k * k_out + p_na * na_out + p_cl * cl_in;
        let lower = p_k * k_in + p_na * na_in + p_cl * cl_out;
        ensure(upper > 0.0 && lower > 0.0, "at least one ion must be able to cross, from either side")?;
        one(thermal_mv(temperature) * libm::log(upper / lower))
    },
    inverses: &[solved("k_out", |out, v| {
        let [p_k, p_na, p_cl, _, k_in, na_out, na_in, cl_out, cl_in, temperature] = given(v)?;
        let lower = p_k * k_in + p_na * na_in + p_cl * cl_out;
        found((libm::exp(out / thermal_mv(temperature)) * lower - p_na * na_out - p_cl * cl_in) / p_k)
    })],
};
