//! Binding: ligands on receptors, oxygen on haemoglobin.

use super::enzymes::FAMILY;
use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Effect, Law};
use super::row::{
    FRACTION, NOT_NEGATIVE, POSITIVE, any, ensure, found, given, gives, gives_like, hill_share, like, number, numbers,
    one, solved,
};

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] =
    &[HILL, TIGHT_BINDING, FREE_LIGAND, SHARE_OF_TOTAL, OXYGEN_SATURATION_HILL, OXYGEN_SATURATION];

const STEEPNESS: Effect = Depends("lowers it below the half point, raises it above");
const HILL_N: (f64, f64) = (0.1, 20.0);
const MILLIMETRES: (f64, f64) = (0.0, 2e3);

const HILL: Law = Law {
    id: "hill",
    family: FAMILY,
    title: "share of sites filled, with cooperation",
    formula: "f = Lⁿ/(Kⁿ + Lⁿ)",
    inputs: &[
        any("ligand", "L", NOT_NEGATIVE, "free ligand", Plus),
        like("half", "K", "ligand", POSITIVE, "ligand at which half the sites are filled", Minus),
        number("n", "n", "1", HILL_N, "Hill coefficient", STEEPNESS),
    ],
    outputs: &[gives("fraction", "1", "share of sites filled")],
    assumptions: "describes the curve, not the mechanism; n is at most the number of sites; ligand not used up by binding",
    source: "Hill 1910 Journal of Physiology 40:iv (from memory)",
    setup: "({ligand})^{n}/[({half})^{n} + ({ligand})^{n}]",
    example: "ligand=0:20:0.5 half=5 n=2.5",
    eval: |v| {
        let [ligand, half, n] = numbers(v)?;
        one(hill_share(ligand, half, n))
    },
    inverses: &[
        solved("ligand", |out, v| given(v).and_then(|[_, half, n]: [f64; 3]| found(half * odds(out, n)))),
        solved("half", |out, v| given(v).and_then(|[ligand, _, n]: [f64; 3]| found(ligand / odds(out, n)))),
    ],
};

/// Filled over empty, to the power 1/n.
fn odds(fraction: f64, n: f64) -> f64 {
    libm::pow(fraction / (1.0 - fraction), 1.0 / n)
}

const TIGHT_BINDING: Law = Law {
    id: "tight-binding",
    family: FAMILY,
    title: "complex formed when binding uses up the ligand",
    formula: "C = [(P + L + Kd) − √((P + L + Kd)² − 4·P·L)]/2",
    inputs: &[
        any("total_ligand", "L", NOT_NEGATIVE, "ligand in all", Plus),
        like("total_receptor", "P", "total_ligand", NOT_NEGATIVE, "receptor in all", Plus),
        like("kd", "Kd", "total_ligand", NOT_NEGATIVE, "dissociation constant", Minus),
    ],
    outputs: &[gives_like("bound", "total_ligand", "complex")],
    assumptions: "one to one, at equilibrium; where receptor is much less than Kd this is the simple hyperbola",
    source: "Morrison 1969 Biochimica et Biophysica Acta 185:269 (from memory)",
    setup: "[({total_receptor} + {total_ligand} + {kd}) − √(({total_receptor} + {total_ligand} + {kd})² − \
            4({total_receptor})({total_ligand}))]/2",
    example: "total_ligand=0:20:0.5 total_receptor=10 kd=0.5",
    eval: |v| {
        let [ligand, receptor, kd] = numbers(v)?;
        one(complex(ligand, receptor, kd))
    },
    inverses: &[
        solved("total_ligand", |out, v| given(v).and_then(|[_, p, kd]: [f64; 3]| found(out + kd * out / (p - out)))),
        solved("kd", |out, v| given(v).and_then(|[l, p, _]: [f64; 3]| found((l - out) * (p - out) / out))),
    ],
};

/// The smaller root of the quadratic, written so that no digits are lost where little binds.
fn complex(ligand: f64, receptor: f64, kd: f64) -> f64 {
    let sum = receptor + ligand + kd;
    // (P − L)² + Kd·(…) is the same discriminant, and can't round to less than nought.
    let discriminant = (receptor - ligand) * (receptor - ligand) + kd * (2.0 * (receptor + ligand) + kd);
    if sum <= 0.0 { 0.0 } else { 2.0 * receptor * ligand / (sum + discriminant.sqrt()) }
}

/// What is left free: the positive root of x² + (P + Kd − L)·x − Kd·L = 0, by the form that loses no digits.
fn free(ligand: f64, binder: f64, kd: f64) -> f64 {
    let b = binder + kd - ligand;
    let root = ((binder - ligand) * (binder - ligand) + kd * (2.0 * (binder + ligand) + kd)).sqrt();
    if b > 0.0 { 2.0 * kd * ligand / (b + root) } else { (root - b) / 2.0 }
}

const FREE_LIGAND: Law = Law {
    id: "free-ligand",
    family: FAMILY,
    title: "ligand left free when a binder takes some up",
    formula: "F = L − [(P + L + Kd) − √((P + L + Kd)² − 4·P·L)]/2",
    inputs: &[
        number("total_ligand", "L", "umol/L", NOT_NEGATIVE, "ligand in all", Plus),
        number("total_binder", "P", "umol/L", NOT_NEGATIVE, "binder in all", Minus),
        number("kd", "Kd", "umol/L", NOT_NEGATIVE, "dissociation constant", Plus),
    ],
    outputs: &[gives("free", "umol/L", "ligand left free")],
    assumptions: "one to one, at equilibrium",
    source: "Morrison 1969 (from memory) with mass balance",
    setup: "{total_ligand} − [({total_binder} + {total_ligand} + {kd}) − √(({total_binder} + {total_ligand} + {kd})² − \
            4({total_binder})({total_ligand}))]/2",
    example: "total_ligand=0:20:0.5 total_binder=10 kd=0.5",
    eval: |v| {
        let [ligand, binder, kd] = numbers(v)?;
        one(free(ligand, binder, kd))
    },
    inverses: &[
        solved("total_ligand", |out, v| given(v).and_then(|[_, p, kd]: [f64; 3]| found(out + p * out / (kd + out)))),
        solved("total_binder", |out, v| given(v).and_then(|[l, _, kd]: [f64; 3]| found((l - out) * (kd + out) / out))),
    ],
};

const SHARE_OF_TOTAL: Law = Law {
    id: "share-of-total",
    family: FAMILY,
    title: "concentration of one form, from its share",
    formula: "c = f·c0",
    inputs: &[
        number("fraction", "f", "1", FRACTION, "share in that form", Plus),
        number("total", "c0", "umol/L", NOT_NEGATIVE, "total concentration", Plus),
    ],
    outputs: &[gives("concentration", "umol/L", "concentration in that form")],
    assumptions: "none beyond the words",
    source: "definition",
    setup: "({fraction})({total})",
    example: "fraction=0:1:0.05 total=50",
    eval: |v| {
        let [fraction, total] = numbers(v)?;
        one(fraction * total)
    },
    inverses: &[
        solved("fraction", |out, v| given(v).and_then(|[_, total]: [f64; 2]| found(out / total))),
        solved("total", |out, v| given(v).and_then(|[fraction, _]: [f64; 2]| found(out / fraction))),
    ],
};

const OXYGEN_SATURATION_HILL: Law = Law {
    id: "oxygen-saturation-hill",
    family: FAMILY,
    title: "oxygen saturation of blood, from its P50",
    formula: "S = pⁿ/(P50ⁿ + pⁿ)",
    inputs: &[
        number("po2", "p", "mm[Hg]", MILLIMETRES, "partial pressure of oxygen", Plus),
        number("p50", "P50", "mm[Hg]", (0.1, 500.0), "partial pressure at half saturation", Minus),
        number("n", "n", "1", HILL_N, "Hill coefficient", STEEPNESS),
    ],
    outputs: &[gives("saturation", "1", "share of haem groups that carry oxygen")],
    assumptions: "good between about 20 and 90 % saturation; P50 rises with acid, carbon dioxide, warmth and \
                  bisphosphoglycerate (human adult 26 to 27 mmHg, n 2.7; fetal about 19 mmHg). The standard human curve \
                  is oxygen-saturation",
    source: "Hill 1910 (from memory)",
    setup: "({po2})^{n}/[({p50})^{n} + ({po2})^{n}]",
    example: "po2=0:120:4 p50=26.6 n=2.7",
    eval: |v| {
        let [po2, p50, n] = numbers(v)?;
        one(hill_share(po2, p50, n))
    },
    inverses: &[
        solved("po2", |out, v| given(v).and_then(|[_, p50, n]: [f64; 3]| found(p50 * odds(out, n)))),
        solved("p50", |out, v| given(v).and_then(|[po2, _, n]: [f64; 3]| found(po2 / odds(out, n)))),
    ],
};

const OXYGEN_SATURATION: Law = Law {
    id: "oxygen-saturation",
    family: FAMILY,
    title: "oxygen saturation of human blood under standard conditions",
    formula: "S = 1/(1 + 23400/(p³ + 150·p))",
    inputs: &[number("po2", "p", "mm[Hg]", MILLIMETRES, "partial pressure of oxygen", Plus)],
    outputs: &[gives("saturation", "1", "share of haem groups that carry oxygen")],
    assumptions: "adult human blood at 37 °C and pH 7.4; within 0.0055 of the measured curve",
    source: "Severinghaus 1979 Journal of Applied Physiology 46:599, equation 1",
    setup: "1/[1 + (23400 mmHg³)/(({po2})³ + (150 mmHg²)({po2}))]",
    example: "po2=0:120:4",
    eval: |v| {
        let [p] = numbers(v)?;
        let x = p * (p * p + 150.0);
        one(x / (x + 23400.0))
    },
    inverses: &[solved("po2", |out, _| {
        ensure((0.0..1.0).contains(&out), "a saturation lies between 0 and 1")?;
        // p³ + 150·p = c has one real root: p = 2·√50·sinh(asinh(c/(2·50^1.5))/3).
        let c = 23400.0 * out / (1.0 - out);
        let root = 50_f64.sqrt();
        found(2.0 * root * libm::sinh(libm::asinh(c / (2.0 * root * 50.0)) / 3.0))
    })],
};
