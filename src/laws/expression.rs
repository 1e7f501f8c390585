//! Expression: transcripts, proteins, amplification.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::Law;
use super::nucleic::FAMILY;
use super::row::{
    NOT_NEGATIVE, POSITIVE, any, ensure, found, given, gives, gives_like, hill_share, number, numbers, one, solved,
};

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] =
    &[COPIES, FOLD_CHANGE, HYBRID_FRACTION, SYNTHESIS_RATE, STEADY_LEVEL, PROTEIN_LEVEL, SILENCED_HALF_LIFE];

const CYCLES: (f64, f64) = (0.0, 100.0);
const PER_MINUTE: (f64, f64) = (0.0, 1e9);
const MINUTES: (f64, f64) = (1e-6, 1e8);

const COPIES: Law = Law {
    id: "copies",
    family: FAMILY,
    title: "copies after cycles of amplification",
    formula: "N = N0·(1 + E)^c",
    inputs: &[
        any("start", "N0", NOT_NEGATIVE, "copies at the start", Plus),
        number("efficiency", "E", "1", (0.0, 1.0), "share of the copies that is doubled in a cycle", Plus),
        number("cycles", "c", "1", CYCLES, "cycles", Plus),
    ],
    outputs: &[gives_like("copies", "start", "copies")],
    assumptions: "before the plateau, the same efficiency in every cycle; solved for cycles it gives the threshold cycle",
    source: "textbook; Livak & Schmittgen 2001 Methods 25:402 (from memory)",
    setup: "({start})(1 + {efficiency})^{cycles}",
    example: "start=100 efficiency=0.95 cycles=0:30:1",
    eval: |v| {
        let [start, efficiency, cycles] = numbers(v)?;
        one(start * libm::pow(1.0 + efficiency, cycles))
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, e, cycles]: [f64; 3]| found(out / libm::pow(1.0 + e, cycles)))),
        solved("efficiency", |out, v| {
            given(v).and_then(|[n, _, cycles]: [f64; 3]| found(libm::pow(out / n, 1.0 / cycles) - 1.0))
        }),
        solved("cycles", |out, v| given(v).and_then(|[n, e, _]: [f64; 3]| found(libm::log(out / n) / libm::log1p(e)))),
    ],
};

const FOLD_CHANGE: Law = Law {
    id: "fold-change",
    family: FAMILY,
    title: "change of expression from threshold cycles",
    formula: "ratio = 2^(−ΔΔCt), ΔΔCt = (Ct,tt − Ct,rt) − (Ct,tc − Ct,rc)",
    inputs: &[
        number("ct_target_treated", "Ct,tt", "1", CYCLES, "threshold cycle of the target, treated", Minus),
        number("ct_ref_treated", "Ct,rt", "1", CYCLES, "threshold cycle of the reference, treated", Plus),
        number("ct_target_control", "Ct,tc", "1", CYCLES, "threshold cycle of the target, control", Plus),
        number("ct_ref_control", "Ct,rc", "1", CYCLES, "threshold cycle of the reference, control", Minus),
    ],
    outputs: &[gives("ratio", "1", "expression in treated over control")],
    assumptions: "every cycle doubles both; the reference gene does not respond to the treatment",
    source: "Livak & Schmittgen 2001 Methods 25:402 (from memory)",
    setup: "2^−[({ct_target_treated} − {ct_ref_treated}) − ({ct_target_control} − {ct_ref_control})]",
    example: "ct_target_treated=18:28:0.5 ct_ref_treated=18 ct_target_control=25 ct_ref_control=18",
    eval: |v| {
        let [target_treated, ref_treated, target_control, ref_control] = numbers(v)?;
        one(libm::exp2((target_control - ref_control) - (target_treated - ref_treated)))
    },
    inverses: &[solved("ct_target_treated", |out, v| {
        let [_, ref_treated, target_control, ref_control] = given(v)?;
        found(target_control - ref_control + ref_treated - libm::log2(out))
    })],
};

const HYBRID_FRACTION: Law = Law {
    id: "hybrid-fraction",
    family: FAMILY,
    title: "share of DNA molecules with one old strand",
    formula: "f = 2/2^g",
    inputs: &[number("generations", "g", "1", (1.0, 1000.0), "rounds of replication in the new medium", Minus)],
    outputs: &[gives("fraction", "1", "share of molecules that are half old")],
    assumptions: "each strand serves as template for one new strand; all molecules replicate in step; g ≥ 1",
    source: "Meselson & Stahl 1958 PNAS 44:671 (from memory)",
    setup: "2/2^{generations}",
    example: "generations=1:8:1",
    eval: |v| {
        let [generations] = numbers(v)?;
        one(libm::exp2(1.0 - generations))
    },
    inverses: &[solved("generations", |out, _| found(1.0 - libm::log2(out)))],
};

const SYNTHESIS_RATE: Law = Law {
    id: "synthesis-rate",
    family: FAMILY,
    title: "rate of transcription under an inducer",
    formula: "k = k0 + (k1 − k0)·Iⁿ/(Kⁿ + Iⁿ)",
    inputs: &[
        number("basal", "k0", "1/min", PER_MINUTE, "rate without inducer", Plus),
        number("full", "k1", "1/min", PER_MINUTE, "rate with inducer in excess", Plus),
        number("inducer", "I", "umol/L", NOT_NEGATIVE, "concentration of the inducer", Plus),
        number("half", "K", "umol/L", POSITIVE, "concentration that gives half the rise", Minus),
        number(
            "n",
            "n",
            "1",
            (0.1, 20.0),
            "Hill coefficient",
            Depends("lowers it below the half point, raises it above"),
        ),
    ],
    outputs: &[gives("rate", "1/min", "transcripts made a minute")],
    assumptions: "steady state of the switch; k1 ≥ k0",
    source: "Hill 1910 form; Alon 2006, An Introduction to Systems Biology (from memory)",
    setup: "{basal} + ({full} − {basal})({inducer})^{n}/[({half})^{n} + ({inducer})^{n}]",
    example: "basal=0.1 full=5 inducer=0:100:5 half=20 n=2",
    eval: |v| {
        let [basal, full, inducer, half, n] = numbers(v)?;
        ensure(basal <= full, "`basal` must not exceed `full`")?;
        one(basal + (full - basal) * hill_share(inducer, half, n))
    },
    inverses: &[solved("inducer", |out, v| {
        let [basal, full, _, half, n] = given(v)?;
        found(half * libm::pow((out - basal) / (full - out), 1.0 / n))
    })],
};

const STEADY_LEVEL: Law = Law {
    id: "steady-level",
    family: FAMILY,
    title: "steady number of molecules that are made and broken down",
    formula: "N = k·T½/ln 2",
    inputs: &[
        number("synthesis", "k", "1/min", PER_MINUTE, "molecules made a minute", Plus),
        number("half_life", "T½", "min", MINUTES, "half-life", Plus),
    ],
    outputs: &[gives("level", "1", "molecules")],
    assumptions: "constant rates, long after any change; half of the way there takes one half-life, whatever the synthesis",
    source: "first-order turnover (textbook); Schimke 1969 (from memory)",
    setup: "({synthesis})({half_life})/ln 2",
    example: "synthesis=2 half_life=1:30:1",
    eval: |v| {
        let [synthesis, half_life] = numbers(v)?;
        one(synthesis * half_life / std::f64::consts::LN_2)
    },
    inverses: &[
        solved("synthesis", |out, v| {
            given(v).and_then(|[_, half]: [f64; 2]| found(out * std::f64::consts::LN_2 / half))
        }),
        solved("half_life", |out, v| given(v).and_then(|[k, _]: [f64; 2]| found(out * std::f64::consts::LN_2 / k))),
    ],
};

const PROTEIN_LEVEL: Law = Law {
    id: "protein-level",
    family: FAMILY,
    title: "steady number of protein molecules, from transcripts",
    formula: "N = k·m·T½/ln 2",
    inputs: &[
        number("transcripts", "m", "1", NOT_NEGATIVE, "transcripts in a cell", Plus),
        number("per_transcript", "k", "1/min", PER_MINUTE, "proteins made from each transcript a minute", Plus),
        number("half_life", "T½", "min", MINUTES, "half-life of the protein", Plus),
    ],
    outputs: &[gives("level", "1", "protein molecules in a cell")],
    assumptions: "constant rates, long after any change",
    source: "first-order turnover (textbook)",
    setup: "({per_transcript})({transcripts})({half_life})/ln 2",
    example: "transcripts=0:50:2 per_transcript=4 half_life=60",
    eval: |v| {
        let [transcripts, each, half_life] = numbers(v)?;
        one(each * transcripts * half_life / std::f64::consts::LN_2)
    },
    inverses: &[
        solved("transcripts", |out, v| {
            given(v).and_then(|[_, k, half]: [f64; 3]| found(out * std::f64::consts::LN_2 / (k * half)))
        }),
        solved("half_life", |out, v| {
            given(v).and_then(|[m, k, _]: [f64; 3]| found(out * std::f64::consts::LN_2 / (k * m)))
        }),
    ],
};

const SILENCED_HALF_LIFE: Law = Law {
    id: "silenced-half-life",
    family: FAMILY,
    title: "half-life of a transcript that a silencing RNA marks for breakdown",
    formula: "T = T½/(1 + D/D½)",
    inputs: &[
        number("half_life", "T½", "min", MINUTES, "half-life without silencing", Plus),
        number("dose", "D", "nmol/L", NOT_NEGATIVE, "dose of the silencing RNA", Minus),
        number("half_dose", "D½", "nmol/L", POSITIVE, "dose that doubles the breakdown", Plus),
    ],
    outputs: &[gives("half_life", "min", "half-life now")],
    assumptions: "breakdown by silencing adds to the transcript's own and is proportional to the dose (no saturation)",
    source: "rates of breakdown in parallel (textbook)",
    setup: "({half_life})/[1 + ({dose})/({half_dose})]",
    example: "half_life=120 dose=0:50:2 half_dose=10",
    eval: |v| {
        let [half_life, dose, half_dose] = numbers(v)?;
        one(half_life / (1.0 + dose / half_dose))
    },
    inverses: &[
        solved("half_life", |out, v| given(v).and_then(|[_, dose, half]: [f64; 3]| found(out * (1.0 + dose / half)))),
        solved("dose", |out, v| given(v).and_then(|[life, _, half]: [f64; 3]| found(half * (life / out - 1.0)))),
    ],
};
