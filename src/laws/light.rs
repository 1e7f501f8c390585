//! Light and labels: absorbance, quenching, energy transfer, decay.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::Law;
use super::row::{
    FRACTION, NOT_NEGATIVE, POSITIVE, any, found, given, gives, gives_like, like, number, numbers, one, solved, ten_to,
};

const FAMILY: &str = "light and labels";

/// The laws of this family.
pub(super) const LAWS: &[Law] = &[
    ABSORBANCE,
    TRANSMITTANCE,
    PERCENT_TRANSMITTANCE,
    ATTENUATED_LIGHT,
    ENERGY_TRANSFER,
    RIGID_SPACER,
    DONOR_LEFT,
    ACCEPTOR_GLOW,
    TWO_STATE_MEAN,
    QUENCHING,
    LIGHT_YIELD,
    DECAY,
    DNA_FROM_ABSORBANCE,
    RECOVERY,
];

const ABSORBANCES: (f64, f64) = (0.0, 20.0);
const NANOMETRES: (f64, f64) = (0.0, 1e3);
const PERCENT: (f64, f64) = (0.0, 100.0);

const ABSORBANCE: Law = Law {
    id: "absorbance",
    family: FAMILY,
    title: "absorbance of a solution",
    formula: "A = ε·l·c",
    inputs: &[
        number("epsilon", "ε", "L/(mol.cm)", (0.0, 1e8), "molar absorption coefficient", Plus),
        number("path", "l", "cm", (0.0, 1e3), "light path", Plus),
        number("concentration", "c", "umol/L", (0.0, 1e8), "concentration", Plus),
    ],
    outputs: &[gives("absorbance", "1", "absorbance")],
    assumptions: "one wavelength, no scatter; an instrument's stray light makes readings above about 1.5 to 2 too low",
    source: "Bouguer, Lambert, Beer 1852 (from memory)",
    setup: "({epsilon})({path})({concentration} × 10⁻⁶ mol/µmol)",
    example: "epsilon=6220 path=1 concentration=0:200:10",
    eval: |v| {
        let [epsilon, path, concentration] = numbers(v)?;
        one(epsilon * path * concentration * 1e-6)
    },
    inverses: &[
        solved("epsilon", |out, v| given(v).and_then(|[_, path, c]: [f64; 3]| found(out * 1e6 / (path * c)))),
        solved("path", |out, v| given(v).and_then(|[epsilon, _, c]: [f64; 3]| found(out * 1e6 / (epsilon * c)))),
        solved("concentration", |out, v| {
            given(v).and_then(|[epsilon, path, _]: [f64; 3]| found(out * 1e6 / (epsilon * path)))
        }),
    ],
};

const TRANSMITTANCE: Law = Law {
    id: "transmittance",
    family: FAMILY,
    title: "share of the light that passes",
    formula: "T = 10^(−A)",
    inputs: &[number("absorbance", "A", "1", ABSORBANCES, "absorbance", Minus)],
    outputs: &[gives("transmittance", "1", "share of the light that passes")],
    assumptions: "no scatter, no stray light",
    source: "definition of absorbance",
    setup: "10^(−{absorbance})",
    example: "absorbance=0:2:0.1",
    eval: |v| {
        let [absorbance] = numbers(v)?;
        one(ten_to(-absorbance))
    },
    inverses: &[solved("absorbance", |out, _| found(-libm::log10(out)))],
};

const PERCENT_TRANSMITTANCE: Law = Law {
    id: "percent-transmittance",
    family: FAMILY,
    title: "per cent of the light that passes",
    formula: "T = 100 %·10^(−A)",
    inputs: &[number("absorbance", "A", "1", ABSORBANCES, "absorbance", Minus)],
    outputs: &[gives("transmittance", "%", "per cent of the light that passes")],
    assumptions: "no scatter, no stray light",
    source: "definition of absorbance",
    setup: "(100 %) × 10^(−{absorbance})",
    example: "absorbance=0:2:0.1",
    eval: |v| {
        let [absorbance] = numbers(v)?;
        one(100.0 * ten_to(-absorbance))
    },
    inverses: &[solved("absorbance", |out, _| found(-libm::log10(out / 100.0)))],
};

const ATTENUATED_LIGHT: Law = Law {
    id: "attenuated-light",
    family: FAMILY,
    title: "light that reaches what lies behind a filter",
    formula: "I = I0·T/100",
    inputs: &[
        number("transmittance", "T", "%", PERCENT, "per cent of the light that passes", Plus),
        number("lamp", "I0", "umol/(m2.s)", (0.0, 1e6), "light that would arrive if none were taken up", Plus),
    ],
    outputs: &[gives("light", "umol/(m2.s)", "photons on each square metre a second")],
    assumptions: "the filter stops all used wavelengths alike",
    source: "definition of transmittance",
    setup: "({lamp})({transmittance})/(100 %)",
    example: "transmittance=0:100:5 lamp=400",
    eval: |v| {
        let [transmittance, lamp] = numbers(v)?;
        one(lamp * transmittance / 100.0)
    },
    inverses: &[
        solved("transmittance", |out, v| given(v).and_then(|[_, lamp]: [f64; 2]| found(100.0 * out / lamp))),
        solved("lamp", |out, v| given(v).and_then(|[t, _]: [f64; 2]| found(100.0 * out / t))),
    ],
};

const ENERGY_TRANSFER: Law = Law {
    id: "energy-transfer",
    family: FAMILY,
    title: "efficiency of energy transfer between two dyes",
    formula: "E = 1/(1 + (r/R0)⁶)",
    inputs: &[
        number("distance", "r", "nm", NANOMETRES, "distance between the dyes", Minus),
        number("r0", "R0", "nm", (0.1, 100.0), "distance at which half is passed on", Plus),
    ],
    outputs: &[gives("efficiency", "1", "share of the donor's excitations passed on")],
    assumptions: "one donor, one acceptor, one distance, dyes that turn freely; tells distances of 0.5 to 2 R0 apart",
    source: "Förster 1948 (from memory); Stryer & Haugland 1967 PNAS 58:719 (from memory)",
    setup: "1/[1 + (({distance})/({r0}))⁶]",
    example: "distance=1:10:0.25 r0=5",
    eval: |v| {
        let [distance, r0] = numbers(v)?;
        one(1.0 / (1.0 + libm::pow(distance / r0, 6.0)))
    },
    inverses: &[
        solved("distance", |out, v| given(v).and_then(|[_, r0]: [f64; 2]| found(r0 * sixth_root(1.0 / out - 1.0)))),
        solved("r0", |out, v| given(v).and_then(|[r, _]: [f64; 2]| found(r / sixth_root(1.0 / out - 1.0)))),
    ],
};

fn sixth_root(value: f64) -> f64 {
    libm::cbrt(value).sqrt()
}

const RIGID_SPACER: Law = Law {
    id: "rigid-spacer",
    family: FAMILY,
    title: "distance of two labels on a stiff double helix",
    formula: "r = L·h + l",
    inputs: &[
        number("length", "L", "bp", (0.0, 150.0), "base pairs between the labels", Plus),
        number("rise", "h", "nm/bp", (0.2, 0.4), "rise of the helix for each base pair (B-DNA: 0.34)", Plus),
        number("linker", "l", "nm", (0.0, 20.0), "length that the linkers add", Plus),
    ],
    outputs: &[gives("distance", "nm", "distance between the labels")],
    assumptions: "shorter than the persistence length (about 150 bp), so that the helix is straight; the dyes' place around \
                  the helix is not counted",
    source: "Watson & Crick 1953: 0.34 nm a base pair (textbook)",
    setup: "({length})({rise}) + {linker}",
    example: "length=0:40:2 rise=0.34 linker=1.5",
    eval: |v| {
        let [length, rise, linker] = numbers(v)?;
        one(length * rise + linker)
    },
    inverses: &[solved("length", |out, v| {
        let [_, rise, linker] = given(v)?;
        found((out - linker) / rise)
    })],
};

const DONOR_LEFT: Law = Law {
    id: "donor-left",
    family: FAMILY,
    title: "brightness left to the donor of energy",
    formula: "F = F0·(1 − E)",
    inputs: &[
        number("efficiency", "E", "1", FRACTION, "share passed on", Minus),
        number("unquenched", "F0", "%", (0.0, 1e4), "brightness of the donor alone", Plus),
    ],
    outputs: &[gives("brightness", "%", "brightness of the donor")],
    assumptions: "every donor has its acceptor; nothing else dims it",
    source: "definition of transfer efficiency; Stryer & Haugland 1967 (from memory)",
    setup: "({unquenched})(1 − {efficiency})",
    example: "efficiency=0:1:0.05 unquenched=100",
    eval: |v| {
        let [efficiency, unquenched] = numbers(v)?;
        one(unquenched * (1.0 - efficiency))
    },
    inverses: &[
        solved("efficiency", |out, v| given(v).and_then(|[_, unquenched]: [f64; 2]| found(1.0 - out / unquenched))),
        solved("unquenched", |out, v| given(v).and_then(|[efficiency, _]: [f64; 2]| found(out / (1.0 - efficiency)))),
    ],
};

const ACCEPTOR_GLOW: Law = Law {
    id: "acceptor-glow",
    family: FAMILY,
    title: "brightness that the acceptor gets from the donor",
    formula: "F = F1·E",
    inputs: &[
        number("efficiency", "E", "1", FRACTION, "share passed on", Plus),
        number("full", "F1", "%", (0.0, 1e4), "brightness if all were passed on", Plus),
    ],
    outputs: &[gives("brightness", "%", "brightness of the acceptor")],
    assumptions: "every donor has its acceptor; the lamp does not excite the acceptor itself",
    source: "definition of transfer efficiency",
    setup: "({full})({efficiency})",
    example: "efficiency=0:1:0.05 full=100",
    eval: |v| {
        let [efficiency, full] = numbers(v)?;
        one(full * efficiency)
    },
    inverses: &[
        solved("efficiency", |out, v| given(v).and_then(|[_, full]: [f64; 2]| found(out / full))),
        solved("full", |out, v| given(v).and_then(|[efficiency, _]: [f64; 2]| found(out / efficiency))),
    ],
};

const TWO_STATE_MEAN: Law = Law {
    id: "two-state-mean",
    family: FAMILY,
    title: "mean over molecules of which a share is closed",
    formula: "y = f·yc + (1 − f)·yo",
    inputs: &[
        number("fraction", "f", "1", FRACTION, "share that is closed", Depends("toward the value of the closed state")),
        any("closed", "yc", (-1e15, 1e15), "value of the closed state", Plus),
        like("open", "yo", "closed", (-1e15, 1e15), "value of the open state", Plus),
    ],
    outputs: &[gives_like("mean", "closed", "mean value")],
    assumptions: "each molecule is in one of two states and the reading is their mean",
    source: "weighted mean (definition)",
    setup: "({fraction})({closed}) + (1 − {fraction})({open})",
    example: "fraction=0:1:0.05 closed=20 open=100",
    eval: |v| {
        let [fraction, closed, open] = numbers(v)?;
        one(fraction * closed + (1.0 - fraction) * open)
    },
    inverses: &[solved("fraction", |out, v| {
        let [_, closed, open] = given(v)?;
        found((out - open) / (closed - open))
    })],
};

const QUENCHING: Law = Law {
    id: "quenching",
    family: FAMILY,
    title: "brightness of a dye beside a quencher",
    formula: "F/F0 = 1/(1 + K·Q)",
    inputs: &[
        number("constant", "K", "L/mmol", (0.0, 1e6), "quenching constant", Minus),
        number(
            "quencher",
            "Q",
            "mmol/L",
            (0.0, 1e6),
            "concentration of the quencher (of the dye itself, for self-quenching)",
            Minus,
        ),
    ],
    outputs: &[gives("relative_brightness", "1", "brightness relative to that without quencher")],
    assumptions: "one kind of quenching, every dye molecule within reach; warming strengthens quenching by collision and \
                  weakens that by binding",
    source: "Stern & Volmer 1919 (from memory)",
    setup: "1/[1 + ({constant})({quencher})]",
    example: "constant=0.1 quencher=0:100:5",
    eval: |v| {
        let [constant, quencher] = numbers(v)?;
        one(1.0 / (1.0 + constant * quencher))
    },
    inverses: &[
        solved("constant", |out, v| given(v).and_then(|[_, quencher]: [f64; 2]| found((1.0 / out - 1.0) / quencher))),
        solved("quencher", |out, v| given(v).and_then(|[constant, _]: [f64; 2]| found((1.0 / out - 1.0) / constant))),
    ],
};

const LIGHT_YIELD: Law = Law {
    id: "light-yield",
    family: FAMILY,
    title: "glow of a reaction that gives off light",
    formula: "g = y·v",
    inputs: &[
        number("yield", "y", "L.min/(umol.s)", (0.0, 1e15), "counts a second for each µmol/(L·min)", Plus),
        number("rate", "v", "umol/(L.min)", NOT_NEGATIVE, "rate of the reaction", Plus),
    ],
    outputs: &[gives("glow", "1/s", "counts a second")],
    assumptions: "each turnover gives off the same light, the counter is not overrun",
    source: "proportion (definition)",
    setup: "({yield})({rate})",
    example: "yield=250 rate=0:20:1",
    eval: |v| {
        let [amount, rate] = numbers(v)?;
        one(amount * rate)
    },
    inverses: &[
        solved("yield", |out, v| given(v).and_then(|[_, rate]: [f64; 2]| found(out / rate))),
        solved("rate", |out, v| given(v).and_then(|[amount, _]: [f64; 2]| found(out / amount))),
    ],
};

const DECAY: Law = Law {
    id: "decay",
    family: FAMILY,
    title: "what is left of something that decays",
    formula: "N = N0·2^(−t/T½)",
    inputs: &[
        any("start", "N0", NOT_NEGATIVE, "what there was at the start", Plus),
        any("half_life", "T½", POSITIVE, "time in which half goes", Plus),
        like("time", "t", "half_life", NOT_NEGATIVE, "time", Minus),
    ],
    outputs: &[gives_like("left", "start", "what is left")],
    assumptions: "each atom or molecule decays by itself; nothing is added",
    source: "Rutherford & Soddy 1902 (from memory)",
    setup: "({start}) × 2^[−({time})/({half_life})]",
    example: "start=1000 half_life=14.3 time=0:60:2",
    eval: |v| {
        let [start, half_life, time] = numbers(v)?;
        one(start * libm::exp2(-time / half_life))
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, half, time]: [f64; 3]| found(out * libm::exp2(time / half)))),
        solved("half_life", |out, v| {
            given(v).and_then(|[start, _, time]: [f64; 3]| found(time / libm::log2(start / out)))
        }),
        solved("time", |out, v| given(v).and_then(|[start, half, _]: [f64; 3]| found(half * libm::log2(start / out)))),
    ],
};

const DNA_FROM_ABSORBANCE: Law = Law {
    id: "dna-from-absorbance",
    family: FAMILY,
    title: "concentration of double-stranded DNA from its absorbance at 260 nm",
    formula: "c = 50·A260·d",
    inputs: &[
        number("a260", "A260", "1", (0.0, 5.0), "absorbance at 260 nm, 1 cm path", Plus),
        number("dilution_factor", "d", "1", (1.0, 1e9), "how many times the sample was diluted", Plus),
    ],
    outputs: &[gives("concentration", "ug/mL", "mass concentration in the undiluted sample")],
    assumptions: "pure double-stranded DNA, 1 cm path, pH 7 to 8.5 (RNA: 40, single strands: about 33)",
    source: "common handbook value: 50 µg/mL at A260 = 1",
    setup: "(50 µg/mL)({a260})({dilution_factor})",
    example: "a260=0:1.5:0.1 dilution_factor=20",
    eval: |v| {
        let [a260, factor] = numbers(v)?;
        one(50.0 * a260 * factor)
    },
    inverses: &[
        solved("a260", |out, v| given(v).and_then(|[_, factor]: [f64; 2]| found(out / (50.0 * factor)))),
        solved("dilution_factor", |out, v| given(v).and_then(|[a260, _]: [f64; 2]| found(out / (50.0 * a260)))),
    ],
};

const RECOVERY: Law = Law {
    id: "recovery",
    family: FAMILY,
    title: "brightness that returns to a bleached spot",
    formula: "F = F∞·(1 − e^(−k·t))",
    inputs: &[
        any("plateau", "F∞", NOT_NEGATIVE, "brightness in the end", Plus),
        number("rate", "k", "1/s", (0.0, 1e6), "rate constant", Plus),
        number("time", "t", "s", (0.0, 1e9), "time since bleaching", Plus),
    ],
    outputs: &[gives_like("brightness", "plateau", "brightness at that time")],
    assumptions: "the spot was bleached to darkness; one exponential stands in for diffusion, whose true curve is slower at \
                  the end",
    source: "single-exponential approximation, after Axelrod et al. 1976 Biophysical Journal 16:1055 (from memory)",
    setup: "({plateau})(1 − e^(−({rate})({time})))",
    example: "plateau=0.8 rate=0.05 time=0:100:5",
    eval: |v| {
        let [plateau, rate, time] = numbers(v)?;
        one(-plateau * libm::expm1(-rate * time))
    },
    inverses: &[
        solved("plateau", |out, v| {
            given(v).and_then(|[_, rate, time]: [f64; 3]| found(-out / libm::expm1(-rate * time)))
        }),
        solved("rate", |out, v| given(v).and_then(|[plateau, _, t]: [f64; 3]| found(-libm::log1p(-out / plateau) / t))),
        solved("time", |out, v| given(v).and_then(|[plateau, k, _]: [f64; 3]| found(-libm::log1p(-out / plateau) / k))),
    ],
};
