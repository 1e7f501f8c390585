//! Nucleic acids: melting, cutting, lengths.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Law, LawError, Value};
use super::row::{NOT_NEGATIVE, count, found, given, gives, kelvin, number, numbers, one, several, solved, text};
use super::{digest, melting};
use crate::quantity::constants::GAS;

/// Name of the family.
pub(super) const FAMILY: &str = "nucleic acids and expression";

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] =
    &[MELTING_SHORT, MELTING, PAIRED_FRACTION, FORMAMIDE_MELTING, digest::DIGEST, CUTS_MADE, MEAN_FRAGMENT_LENGTH];

const TEMPERATURE: (f64, f64) = (-100.0, 200.0);

const MELTING_SHORT: Law = Law {
    id: "melting-short",
    family: FAMILY,
    title: "melting temperature of a short duplex, by counting",
    formula: "Tm = 2·(A + T) + 4·(G + C)",
    inputs: &[text("sequence", "sequence", "one strand, 5′ to 3′", Depends("each A or T adds 2 °C, each G or C 4 °C"))],
    outputs: &[gives("melting", "Cel", "melting temperature")],
    assumptions: "14 to 20 base pairs at most, about 0.9 mol/L salt; order of the bases, salt and concentration are left \
                  out (melting counts them)",
    source: "Wallace et al. 1979 Nucleic Acids Research 6:3543 (from memory)",
    setup: "",
    example: "sequence=GTAAAACGACGG",
    eval: |v| match v {
        [Value::Text(sequence)] => {
            let bases = melting::bases(sequence)?;
            let strong = bases.iter().filter(|base| matches!(base, b'G' | b'C')).count();
            one(count(2 * bases.len() + 2 * strong))
        }
        _ => Err(LawError::WrongCount { given: v.len(), expected: 1 }),
    },
    inverses: &[],
};

const MELTING: Law = Law {
    id: "melting",
    family: FAMILY,
    title: "melting temperature of a duplex, by nearest neighbours",
    formula: "Tm = 1000·ΔH/(ΔS + 0.368·(N − 1)·ln[Na⁺] + R·ln(CT/4)) − 273.15",
    inputs: &[
        text(
            "sequence",
            "sequence",
            "one strand, 5′ to 3′",
            Depends("strong neighbours (G, C) raise it; so does length"),
        ),
        number("sodium", "[Na⁺]", "mmol/L", (1.0, 5000.0), "sodium ions", Plus),
        number("strand", "CT", "nmol/L", (1e-3, 1e7), "strands in all, both kinds together", Plus),
    ],
    outputs: &[
        gives("melting", "Cel", "temperature at which half is paired"),
        gives("enthalpy", "kcal/mol", "enthalpy of pairing"),
        gives("entropy", "cal/(mol.K)", "entropy of pairing in 1 mol/L sodium ions"),
    ],
    assumptions: "two states, no hairpins, both strands in equal amounts, up to some 60 base pairs; CT in place of CT/4 and a \
                  symmetry term where the strand pairs with its own kind; good to about 2 °C",
    source: "SantaLucia 1998 PNAS 95:1460, Tables 1 and 2 (values as in Biopython 1.88, DNA_NN3)",
    setup: "",
    example: "sequence=GTAAAACGACGGCCAGT sodium=10:1000:30 strand=500",
    eval: |v| match v {
        [Value::Text(sequence), Value::Number(sodium), Value::Number(strand)] => {
            several(&melting::nearest_neighbour(sequence, *sodium, *strand)?)
        }
        _ => Err(LawError::WrongCount { given: v.len(), expected: 3 }),
    },
    inverses: &[],
};

const PAIRED_FRACTION: Law = Law {
    id: "paired-fraction",
    family: FAMILY,
    title: "share of a hairpin that is paired",
    formula: "f = 1/(1 + exp((ΔH/R)·(1/Tm − 1/T)))",
    inputs: &[
        number("melting", "Tm", "Cel", TEMPERATURE, "temperature at which half is paired", Plus),
        number("temperature", "T", "Cel", TEMPERATURE, "temperature", Minus),
        number(
            "enthalpy",
            "ΔH",
            "kJ/mol",
            (1.0, 3000.0),
            "enthalpy taken up in melting, as a positive number",
            Depends("raises it below Tm, lowers it above: the step gets sharper"),
        ),
    ],
    outputs: &[gives("fraction", "1", "share that is paired")],
    assumptions: "two states, a hairpin (or a duplex near its own concentration); enthalpy does not change with temperature",
    source: "van 't Hoff equation for a two-state change (textbook; R of CODATA)",
    setup: "1/[1 + exp(({enthalpy} × 1000 J/kJ)/(8.314 J/(mol·K)) × (1/{melting:K} − 1/{temperature:K}))]",
    example: "melting=55 temperature=35:75:1 enthalpy=200",
    eval: |v| {
        let [melting, temperature, enthalpy] = numbers(v)?;
        let steepness = enthalpy * 1000.0 / GAS.value;
        one(1.0 / (1.0 + libm::exp(steepness * (1.0 / kelvin(melting) - 1.0 / kelvin(temperature)))))
    },
    inverses: &[
        solved("melting", |out, v| {
            let [_, temperature, enthalpy] = given(v)?;
            found(1.0 / (1.0 / kelvin(temperature) + unpaired_log(out, enthalpy)) - kelvin(0.0))
        }),
        solved("temperature", |out, v| {
            let [melting, _, enthalpy] = given(v)?;
            found(1.0 / (1.0 / kelvin(melting) - unpaired_log(out, enthalpy)) - kelvin(0.0))
        }),
    ],
};

/// ln(open/paired), in units of ΔH/R.
fn unpaired_log(paired: f64, enthalpy_kj: f64) -> f64 {
    libm::log((1.0 - paired) / paired) * GAS.value / (enthalpy_kj * 1000.0)
}

const FORMAMIDE_MELTING: Law = Law {
    id: "formamide-melting",
    family: FAMILY,
    title: "melting temperature in formamide",
    formula: "Tm = Tm0 − 0.61·F",
    inputs: &[
        number("reference", "Tm0", "Cel", TEMPERATURE, "melting temperature without formamide", Plus),
        number("formamide", "F", "%", (0.0, 100.0), "formamide, per cent by volume", Minus),
    ],
    outputs: &[gives("melting", "Cel", "melting temperature")],
    assumptions: "long DNA duplexes, linear up to some 50 %; published slopes run from 0.60 to 0.73 °C a per cent, with the \
                  share of G and C",
    source: "slope 0.61: Meinkoth & Wahl 1984 Analytical Biochemistry 138:267 (from memory), within the 2.4 to 2.9 °C for \
             each mol/L (0.60 to 0.73 a per cent) of Blake & Delcourt 1996 Nucleic Acids Research 24:2095",
    setup: "{reference} − (0.61 °C/%)({formamide})",
    example: "reference=85 formamide=0:50:2.5",
    eval: |v| {
        let [reference, formamide] = numbers(v)?;
        one(reference - 0.61 * formamide)
    },
    inverses: &[
        solved("reference", |out, v| given(v).and_then(|[_, formamide]: [f64; 2]| found(out + 0.61 * formamide))),
        solved("formamide", |out, v| given(v).and_then(|[reference, _]: [f64; 2]| found((reference - out) / 0.61))),
    ],
};

const CUTS_MADE: Law = Law {
    id: "cuts-made",
    family: FAMILY,
    title: "cuts that a nuclease makes in DNA",
    formula: "x = k·E·t",
    inputs: &[
        number("rate", "k", "L/(kbp.min.nmol)", (0.0, 1e9), "cuts in each 1000 bp a minute for each nmol/L", Plus),
        number("nuclease", "E", "nmol/L", (0.0, 1e9), "concentration of the nuclease", Plus),
        number("time", "t", "min", (0.0, 1e7), "time", Plus),
    ],
    outputs: &[gives("cuts", "1/kbp", "cuts in each 1000 bp")],
    assumptions: "cuts through both strands at random places, the enzyme keeps working, few enough cuts that sites do not \
                  run out",
    source: "first-order cutting (textbook)",
    setup: "({rate})({nuclease})({time})",
    example: "rate=0.02 nuclease=5 time=0:30:1",
    eval: |v| {
        let [rate, nuclease, time] = numbers(v)?;
        one(rate * nuclease * time)
    },
    inverses: &[
        solved("rate", |out, v| given(v).and_then(|[_, nuclease, time]: [f64; 3]| found(out / (nuclease * time)))),
        solved("nuclease", |out, v| given(v).and_then(|[rate, _, time]: [f64; 3]| found(out / (rate * time)))),
        solved("time", |out, v| given(v).and_then(|[rate, nuclease, _]: [f64; 3]| found(out / (rate * nuclease)))),
    ],
};

const MEAN_FRAGMENT_LENGTH: Law = Law {
    id: "mean-fragment-length",
    family: FAMILY,
    title: "mean length of randomly cut DNA",
    formula: "L = 1/(1/L0 + x/1000)",
    inputs: &[
        number("start", "L0", "bp", (1.0, 1e12), "length before cutting", Plus),
        number("cuts", "x", "1/kbp", NOT_NEGATIVE, "cuts in each 1000 bp", Minus),
    ],
    outputs: &[gives("length", "bp", "mean length, every fragment counting once")],
    assumptions: "cuts at random places of linear molecules (x·L0/1000 cuts give one piece more than there are cuts); number \
                  average",
    source: "Kuhn 1930; Charlesby 1954, random scission (from memory)",
    setup: "1/[1/({start}) + ({cuts})/(1000 bp/kbp)]",
    example: "start=10000 cuts=0:5:0.25",
    eval: |v| {
        let [start, cuts] = numbers(v)?;
        one(1.0 / (1.0 / start + cuts / 1000.0))
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, cuts]: [f64; 2]| found(1.0 / (1.0 / out - cuts / 1000.0)))),
        solved("cuts", |out, v| given(v).and_then(|[start, _]: [f64; 2]| found(1000.0 * (1.0 / out - 1.0 / start)))),
    ],
};
