//! Amounts that change hands: what stays behind, what fills an extract, what a crowd of spheres takes up.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::Law;
use super::row::{FRACTION, NOT_NEGATIVE, POSITIVE, ensure, found, given, gives, number, numbers, one, solved};
use crate::quantity::constants::AVOGADRO;

/// The laws of this file.
pub(super) const LAWS: &[Law] =
    &[RETAINED_CONCENTRATION, PACKED_VOLUME, EXTRACT_CONCENTRATION, EXTRACT_YIELD, END_CONCENTRATION, HEAT_SURVIVAL];

/// Nanomoles a litre for one molecule a millilitre.
const NANOMOLES: f64 = 1e12 / AVOGADRO.value;

const RETAINED_CONCENTRATION: Law = Law {
    id: "retained-concentration",
    family: "transport and water",
    title: "concentration, over the whole volume, of what vesicles have kept",
    formula: "c = (1 − f)·C·φ",
    inputs: &[
        number("fraction", "f", "1", FRACTION, "share that has left", Minus),
        number("inside", "C", "mmol/L", (0.0, 1e5), "concentration inside at the start", Plus),
        number("volume_fraction", "φ", "1", (0.0, 0.1), "share of the whole volume that lies inside", Plus),
    ],
    outputs: &[gives("concentration", "umol/L", "concentration once the vesicles are burst in the same volume")],
    assumptions: "the vesicles are collected whole and burst in a volume equal to that of the bath",
    source: "mass balance (textbook)",
    setup: "(1 − {fraction})({inside} × 1000 µmol/mmol)({volume_fraction})",
    example: "fraction=0:1:0.05 inside=10 volume_fraction=0.005",
    eval: |v| {
        let [fraction, inside, share] = numbers(v)?;
        one(1000.0 * (1.0 - fraction) * inside * share)
    },
    inverses: &[solved("fraction", |out, v| {
        given(v).and_then(|[_, inside, share]: [f64; 3]| found(1.0 - out / (1000.0 * inside * share)))
    })],
};

const PACKED_VOLUME: Law = Law {
    id: "packed-volume",
    family: "transport and water",
    title: "share of a volume that lies inside spheres",
    formula: "φ = N·(4/3)πr³",
    inputs: &[
        number("number", "N", "1/mL", NOT_NEGATIVE, "spheres in a millilitre", Plus),
        number("radius", "r", "um", (0.0, 1e4), "radius", Plus),
    ],
    outputs: &[gives("share", "1", "share of the volume inside the spheres")],
    assumptions: "equal spheres with thin walls that do not touch",
    source: "geometry of the sphere",
    setup: "({number})(4/3)π({radius})³(10⁻¹² mL/µm³)",
    example: "number=1e9 radius=0.1:2:0.1",
    // 1 µm³ is 10⁻¹² mL.
    eval: |v| {
        let [count, radius] = numbers(v)?;
        let share = count * 4.0 / 3.0 * std::f64::consts::PI * libm::pow(radius, 3.0) * 1e-12;
        ensure(share <= 0.74, "equal spheres can fill no more than 74 % of a volume")?;
        one(share)
    },
    inverses: &[solved("number", |out, v| {
        given(v).and_then(|[_, radius]: [f64; 2]| {
            found(out / (4.0 / 3.0 * std::f64::consts::PI * libm::pow(radius, 3.0) * 1e-12))
        })
    })],
};

const EXTRACT_CONCENTRATION: Law = Law {
    id: "extract-concentration",
    family: "nucleic acids and expression",
    title: "concentration in an extract of what cells contained",
    formula: "c = n·N/NA",
    inputs: &[
        number("molecules", "n", "1", NOT_NEGATIVE, "molecules in a cell", Plus),
        number("cells", "N", "1/mL", NOT_NEGATIVE, "cells that went into a millilitre of extract", Plus),
    ],
    outputs: &[gives("concentration", "nmol/L", "concentration in the extract")],
    assumptions: "every cell is opened and everything dissolves",
    source: "definition of the mole (Avogadro constant, CODATA 2018)",
    setup: "({molecules})({cells})(1000 mL/L)(10⁹ nmol/mol)/(6.022 × 10²³ /mol)",
    example: "molecules=0:50000:2500 cells=1e9",
    eval: |v| {
        let [molecules, cells] = numbers(v)?;
        one(molecules * cells * 1000.0 * 1e9 / AVOGADRO.value)
    },
    inverses: &[
        solved("molecules", |out, v| {
            given(v).and_then(|[_, cells]: [f64; 2]| found(out * AVOGADRO.value / (cells * 1e12)))
        }),
        solved("cells", |out, v| {
            given(v).and_then(|[molecules, _]: [f64; 2]| found(out * AVOGADRO.value / (molecules * 1e12)))
        }),
    ],
};

const EXTRACT_YIELD: Law = Law {
    id: "extract-yield",
    family: "nucleic acids and expression",
    title: "concentration in an extract of the protein that cells make from their transcripts",
    formula: "c = m·k·(T½/ln 2)·N/NA",
    inputs: &[
        number("transcripts", "m", "1", NOT_NEGATIVE, "transcripts in a cell", Plus),
        number("per_transcript", "k", "1/min", NOT_NEGATIVE, "protein molecules made from a transcript a minute", Plus),
        number("half_life", "T½", "min", POSITIVE, "half-life of the protein", Plus),
        number("cells", "N", "1/mL", NOT_NEGATIVE, "cells that went into a millilitre of extract", Plus),
    ],
    outputs: &[gives("concentration", "nmol/L", "concentration in the extract")],
    assumptions: "the protein has settled at its steady level; every cell is opened and everything dissolves",
    source: "first-order turnover and definition of the mole (textbook; Avogadro constant, CODATA 2018)",
    setup: "({transcripts})({per_transcript})({half_life})/(ln 2) × ({cells})(1000 mL/L)(10⁹ nmol/mol)/(6.022 × 10²³ /mol)",
    example: "transcripts=0:40:2 per_transcript=5 half_life=40 cells=1e9",
    eval: |v| {
        let [transcripts, per_transcript, half_life, cells] = numbers(v)?;
        one(transcripts * per_transcript * half_life / std::f64::consts::LN_2 * cells * NANOMOLES)
    },
    inverses: &[solved("transcripts", |out, v| {
        given(v).and_then(|[_, per_transcript, half_life, cells]: [f64; 4]| {
            found(out * std::f64::consts::LN_2 / (per_transcript * half_life * cells * NANOMOLES))
        })
    })],
};

/// Mass of a mole of base pairs, g/mol.
///
/// # Source
/// Handbook average, from memory; it lies between the free acid (618) and the sodium salt (662).
const BASE_PAIR_MASS: f64 = 650.0;

const END_CONCENTRATION: Law = Law {
    id: "end-concentration",
    family: "nucleic acids and expression",
    title: "concentration of the ends of linear double-stranded DNA",
    formula: "c = 2·ρ/(L·650 g/mol)",
    inputs: &[
        number("dna", "ρ", "ug/mL", NOT_NEGATIVE, "mass of DNA in a millilitre", Plus),
        number("length", "L", "bp", POSITIVE, "mean length of the pieces", Minus),
    ],
    outputs: &[gives("ends", "nmol/L", "concentration of ends")],
    assumptions: "linear pieces, two ends each, 650 g/mol for a base pair; the mean is that over the number of pieces",
    source: "mass balance; 650 g/mol for a base pair (handbook average, from memory)",
    setup: "2({dna} × 10⁻³ g·mL/(µg·L))(10⁹ nmol/mol)/[({length})(650 g/mol)]",
    example: "dna=50 length=200:5000:200",
    // 1 µg/mL is 10⁻³ g/L.
    eval: |v| {
        let [dna, length] = numbers(v)?;
        one(2.0 * dna * 1e-3 * 1e9 / (length * BASE_PAIR_MASS))
    },
    inverses: &[
        solved("dna", |out, v| given(v).and_then(|[_, length]: [f64; 2]| found(out * length * BASE_PAIR_MASS / 2e6))),
        solved("length", |out, v| given(v).and_then(|[dna, _]: [f64; 2]| found(2e6 * dna / (out * BASE_PAIR_MASS)))),
    ],
};

const HEAT_SURVIVAL: Law = Law {
    id: "heat-survival",
    family: "enzymes and binding",
    title: "share of an enzyme still active after a time at a temperature",
    formula: "a = exp(−k·Q10^((T2 − T1)/10 °C)·t)",
    inputs: &[
        number("rate", "k", "1/min", (0.0, 1e6), "rate constant of inactivation at the first temperature", Minus),
        number(
            "q10",
            "Q10",
            "1",
            POSITIVE,
            "factor by which it grows for each ten degrees",
            Depends("− where T2 > T1, + where T2 < T1"),
        ),
        number("from", "T1", "Cel", (-100.0, 300.0), "temperature of that rate constant", Depends("+ where Q10 > 1")),
        number("to", "T2", "Cel", (-100.0, 300.0), "temperature", Depends("− where Q10 > 1")),
        number("time", "t", "min", (0.0, 1e7), "time at that temperature", Minus),
    ],
    outputs: &[gives("active", "1", "share still active")],
    assumptions: "one step that does not go back; its rate follows a constant Q10 over the temperatures used",
    source: "first-order loss with a temperature coefficient (textbook)",
    setup: "",
    example: "rate=0.01 q10=6 from=40 to=30:60:1 time=10",
    eval: |v| {
        let [rate, q10, from, to, time] = numbers(v)?;
        one(libm::exp(-rate * libm::pow(q10, (to - from) / 10.0) * time))
    },
    inverses: &[solved("time", |out, v| {
        given(v).and_then(|[rate, q10, from, to, _]: [f64; 5]| {
            found(-libm::log(out) / (rate * libm::pow(q10, (to - from) / 10.0)))
        })
    })],
};
