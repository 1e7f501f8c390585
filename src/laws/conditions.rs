//! Conditions: what temperature, pH and time do to a reaction, and what a reaction does to pH and gas.

use super::enzymes::FAMILY;
use super::law::Effect::{Depends, Minus, Plus, Turning};
use super::law::Law;
use super::row::{
    NOT_NEGATIVE, PH, any, ensure, found, given, gives, gives_like, impossible, kelvin, number, numbers, one, solved,
    ten_to,
};
use crate::quantity::constants::GAS;

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] = &[Q10, ARRHENIUS_RATIO, PH_ACTIVITY, INACTIVATION, BUFFER_PH, GAS_VOLUME];

const TEMPERATURE: (f64, f64) = (-100.0, 300.0);
const MINUTES: (f64, f64) = (0.0, 1e7);

const Q10: Law = Law {
    id: "q10",
    family: FAMILY,
    title: "rate at another temperature, from Q10",
    formula: "k2 = k1·Q10^((T2 − T1)/10)",
    inputs: &[
        any("rate", "k1", NOT_NEGATIVE, "rate at the first temperature", Plus),
        number(
            "q10",
            "Q10",
            "1",
            (0.01, 100.0),
            "factor for ten degrees",
            Depends("raises it when warmed, lowers it when cooled"),
        ),
        number("from", "T1", "Cel", TEMPERATURE, "first temperature", Depends("lowers it where Q10 is above 1")),
        number("to", "T2", "Cel", TEMPERATURE, "second temperature", Depends("raises it where Q10 is above 1")),
    ],
    outputs: &[gives_like("rate_there", "rate", "rate at the second temperature")],
    assumptions: "Q10 is taken as constant, which holds over some 10 to 15 degrees; nothing is damaged by heat",
    source: "van 't Hoff 1884 (from memory); textbook",
    setup: "({rate})({q10})^[({to} − {from})/(10 °C)]",
    example: "rate=5 q10=2.1 from=20 to=5:40:1",
    eval: |v| {
        let [rate, q10, from, to] = numbers(v)?;
        one(rate * libm::pow(q10, (to - from) / 10.0))
    },
    inverses: &[
        solved("rate", |out, v| {
            given(v).and_then(|[_, q, from, to]: [f64; 4]| found(out / libm::pow(q, (to - from) / 10.0)))
        }),
        solved("q10", |out, v| {
            given(v).and_then(|[k, _, from, to]: [f64; 4]| found(libm::pow(out / k, 10.0 / (to - from))))
        }),
        solved("to", |out, v| {
            let [rate, q10, from, _] = given(v)?;
            found(from + 10.0 * libm::log(out / rate) / libm::log(q10))
        }),
    ],
};

const ARRHENIUS_RATIO: Law = Law {
    id: "arrhenius-ratio",
    family: FAMILY,
    title: "ratio of the rates at two temperatures, from the activation energy",
    formula: "k2/k1 = exp((Ea/R)·(1/T1 − 1/T2))",
    inputs: &[
        number("activation", "Ea", "kJ/mol", (-500.0, 500.0), "activation energy", Depends("raises it when warmed")),
        number("from", "T1", "Cel", TEMPERATURE, "first temperature", Depends("lowers it where Ea is positive")),
        number("to", "T2", "Cel", TEMPERATURE, "second temperature", Depends("raises it where Ea is positive")),
    ],
    outputs: &[gives("ratio", "1", "second rate over first")],
    assumptions: "one rate-limiting step, nothing is damaged by heat",
    source: "Arrhenius 1889 (from memory; R of CODATA)",
    setup: "exp[({activation} × 1000 J/kJ)/(8.314 J/(mol·K)) × (1/{from:K} − 1/{to:K})]",
    example: "activation=50 from=20 to=5:40:1",
    eval: |v| {
        let [activation, from, to] = numbers(v)?;
        one(libm::exp(activation * 1000.0 / GAS.value * (1.0 / kelvin(from) - 1.0 / kelvin(to))))
    },
    inverses: &[
        solved("activation", |out, v| {
            let [_, from, to] = given(v)?;
            found(GAS.value * libm::log(out) / (1.0 / kelvin(from) - 1.0 / kelvin(to)) / 1000.0)
        }),
        solved("to", |out, v| {
            let [activation, from, _] = given(v)?;
            let inverse = 1.0 / kelvin(from) - libm::log(out) * GAS.value / (activation * 1000.0);
            found(1.0 / inverse - kelvin(0.0))
        }),
    ],
};

const PH_ACTIVITY: Law = Law {
    id: "ph-activity",
    family: FAMILY,
    title: "rate of an enzyme at a pH",
    formula: "v = Vmax/(1 + 10^(pKa1 − pH) + 10^(pH − pKa2))",
    inputs: &[
        any("vmax", "Vmax", NOT_NEGATIVE, "rate with every molecule in the working form", Plus),
        number("ph", "pH", "1", PH, "pH", Turning("half-way between the two pKa")),
        number("pka_low", "pKa1", "1", PH, "pKa below which the enzyme takes up one proton too many", Minus),
        number("pka_high", "pKa2", "1", PH, "pKa above which it has lost one proton too many", Plus),
    ],
    outputs: &[gives_like("rate", "vmax", "rate")],
    assumptions: "two groups, pKa1 ≤ pKa2, reversible: nothing unfolds",
    source: "Michaelis & Davidsohn 1911; Dixon 1953 (from memory)",
    setup: "({vmax})/[1 + 10^({pka_low} − {ph}) + 10^({ph} − {pka_high})]",
    example: "vmax=100 ph=4:11:0.25 pka_low=6 pka_high=9",
    eval: |v| {
        let [vmax, ph, low, high] = numbers(v)?;
        ensure(low <= high, "`pka_low` must not exceed `pka_high`")?;
        one(vmax / (1.0 + ten_to(low - ph) + ten_to(ph - high)))
    },
    inverses: &[],
};

const INACTIVATION: Law = Law {
    id: "inactivation",
    family: FAMILY,
    title: "share of an enzyme still active",
    formula: "a = e^(−k·t)",
    inputs: &[
        number("rate", "k", "1/min", (0.0, 1e6), "rate constant of inactivation", Minus),
        number("time", "t", "min", MINUTES, "time", Minus),
    ],
    outputs: &[gives("active", "1", "share still active")],
    assumptions: "one step that does not go back (heat, acid or a reagent in excess)",
    source: "first-order loss (textbook)",
    setup: "e^(−({rate})({time}))",
    example: "rate=0.1 time=0:40:2",
    eval: |v| {
        let [rate, time] = numbers(v)?;
        one(libm::exp(-rate * time))
    },
    inverses: &[
        solved("rate", |out, v| given(v).and_then(|[_, time]: [f64; 2]| found(-libm::log(out) / time))),
        solved("time", |out, v| given(v).and_then(|[rate, _]: [f64; 2]| found(-libm::log(out) / rate))),
    ],
};

const BUFFER_PH: Law = Law {
    id: "buffer-ph",
    family: FAMILY,
    title: "pH of a buffer that has taken up strong acid",
    formula: "pH = pKa + log10((B − x)/(A + x))",
    inputs: &[
        number("pka", "pKa", "1", (0.0, 14.0), "pKa of the buffer", Plus),
        number("base", "B", "mmol/L", (0.0, 1e4), "buffer in the base form at the start", Plus),
        number("acid", "A", "mmol/L", (0.0, 1e4), "buffer in the acid form at the start", Minus),
        number("added", "x", "mmol/L", (0.0, 1e4), "strong acid added or set free", Minus),
    ],
    outputs: &[gives("ph", "1", "pH")],
    assumptions: "less acid added than there is base, both forms present in plenty beside H⁺ and OH⁻",
    source: "Henderson 1908; Hasselbalch 1917 (from memory)",
    setup: "{pka} + log10[({base} − {added})/({acid} + {added})]",
    example: "pka=7.2 base=10 acid=10 added=0:9.5:0.5",
    eval: |v| {
        let [pka, base, acid, added] = numbers(v)?;
        ensure(added < base, "the buffer is spent: `added` must be less than `base`")?;
        ensure(acid + added > 0.0, "`acid` and `added` can't both be 0")?;
        one(pka + libm::log10((base - added) / (acid + added)))
    },
    inverses: &[solved("added", |out, v| {
        let [pka, base, acid, _] = given(v)?;
        let ratio = ten_to(out - pka);
        let added = (base - ratio * acid) / (1.0 + ratio);
        if added >= 0.0 { found(added) } else { Err(impossible("that pH lies above the buffer's own")) }
    })],
};

const GAS_VOLUME: Law = Law {
    id: "gas-volume",
    family: FAMILY,
    title: "volume of a gas that a reaction gives off",
    formula: "V = c·Vl·R·T/p",
    inputs: &[
        number("amount_concentration", "c", "umol/L", NOT_NEGATIVE, "gas formed in each litre of liquid", Plus),
        number("liquid", "Vl", "mL", NOT_NEGATIVE, "volume of liquid", Plus),
        number("temperature", "T", "Cel", (-20.0, 120.0), "temperature of the gas", Plus),
        number("pressure", "p", "kPa", (0.1, 1e4), "pressure of the gas", Minus),
    ],
    outputs: &[gives("volume", "mL", "volume of gas")],
    assumptions: "ideal gas; all of it leaves the liquid (amount c·Vl); vapour of water not counted",
    source: "ideal gas law (textbook; R of CODATA)",
    setup: "({amount_concentration} × 10⁻⁶ mol/µmol)({liquid})(8.314 L·kPa/(mol·K))({temperature:K})/({pressure})",
    example: "amount_concentration=0:5000:250 liquid=20 temperature=22 pressure=101.3",
    eval: |v| {
        let [concentration, liquid, temperature, pressure] = numbers(v)?;
        one(concentration * liquid * millilitres_per(temperature, pressure))
    },
    inverses: &[solved("amount_concentration", |out, v| {
        let [_, liquid, temperature, pressure] = given(v)?;
        found(out / (liquid * millilitres_per(temperature, pressure)))
    })],
};

/// mL of gas for each µmol/L · mL: 10⁻⁹ mol, kPa, m³ to mL.
fn millilitres_per(celsius: f64, kilopascals: f64) -> f64 {
    1e-6 * GAS.value * kelvin(celsius) / kilopascals
}
