//! Enzymes: rates, inhibitors, what is formed and what is left.

use super::law::Effect::{Minus, Plus};
use super::law::Law;
use super::row::{
    FRACTION, NOT_NEGATIVE, POSITIVE, any, ensure, found, given, gives, gives_like, like, number, numbers, one, solved,
};

/// Name of the family.
pub(super) const FAMILY: &str = "enzymes and binding";

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] =
    &[MICHAELIS_MENTEN, MIXED_INHIBITION, MAXIMUM_RATE, PRODUCT_FORMED, SUBSTRATE_REMAINING, SUBSTRATE_LEFT];

const MINUTES: (f64, f64) = (0.0, 1e7);
/// Inhibition constants: endless where the inhibitor does not bind that form of the enzyme.
const INHIBITION: (f64, f64) = (1e-15, f64::INFINITY);

const MICHAELIS_MENTEN: Law = Law {
    id: "michaelis-menten",
    family: FAMILY,
    title: "rate of an enzyme at a substrate concentration",
    formula: "v = Vmax·S/(Km + S)",
    inputs: &[
        any("vmax", "Vmax", NOT_NEGATIVE, "rate with enzyme saturated", Plus),
        any("km", "Km", POSITIVE, "substrate concentration at half that rate", Minus),
        like("substrate", "S", "km", NOT_NEGATIVE, "substrate concentration", Plus),
    ],
    outputs: &[gives_like("rate", "vmax", "early rate")],
    assumptions: "early rate, much more substrate than enzyme, one substrate, steady state",
    source: "Michaelis & Menten 1913; Briggs & Haldane 1925 (from memory)",
    setup: "({vmax})({substrate})/({km} + {substrate})",
    example: "vmax=100 km=2 substrate=0:20:0.5",
    eval: |v| {
        let [vmax, km, substrate] = numbers(v)?;
        one(vmax * substrate / (km + substrate))
    },
    inverses: &[
        solved("vmax", |out, v| given(v).and_then(|[_, km, s]: [f64; 3]| found(out * (km + s) / s))),
        solved("km", |out, v| given(v).and_then(|[vmax, _, s]: [f64; 3]| found(s * (vmax / out - 1.0)))),
        solved("substrate", |out, v| given(v).and_then(|[vmax, km, _]: [f64; 3]| found(km * out / (vmax - out)))),
    ],
};

const MIXED_INHIBITION: Law = Law {
    id: "mixed-inhibition",
    family: FAMILY,
    title: "rate of an enzyme with a reversible inhibitor",
    formula: "v = Vmax·S/(Km·(1 + I/Kic) + S·(1 + I/Kiu))",
    inputs: &[
        any("vmax", "Vmax", NOT_NEGATIVE, "rate with enzyme saturated, no inhibitor", Plus),
        any("km", "Km", POSITIVE, "substrate concentration at half that rate, no inhibitor", Minus),
        like("substrate", "S", "km", NOT_NEGATIVE, "substrate concentration", Plus),
        any("inhibitor", "I", NOT_NEGATIVE, "inhibitor concentration", Minus),
        like(
            "ki_free",
            "Kic",
            "inhibitor",
            INHIBITION,
            "inhibition constant for the free enzyme (`inf`: not bound)",
            Plus,
        ),
        like(
            "ki_bound",
            "Kiu",
            "inhibitor",
            INHIBITION,
            "inhibition constant for the enzyme with substrate (`inf`: not bound)",
            Plus,
        ),
    ],
    outputs: &[gives_like("rate", "vmax", "early rate")],
    assumptions: "reversible, at equilibrium at once, much more inhibitor than enzyme. Competitive: Kiu endless; \
                  uncompetitive: Kic endless; pure noncompetitive: both alike",
    source: "Cornish-Bowden, Fundamentals of Enzyme Kinetics; Segel 1975 (from memory)",
    setup: "({vmax})({substrate})/[({km})(1 + ({inhibitor})/({ki_free})) + ({substrate})(1 + ({inhibitor})/({ki_bound}))]",
    example: "vmax=100 km=2 substrate=3 inhibitor=0:10:0.5 ki_free=1 ki_bound=inf",
    eval: |v| {
        let [vmax, km, substrate, inhibitor, free, bound] = numbers(v)?;
        one(vmax * substrate / (km * (1.0 + inhibitor / free) + substrate * (1.0 + inhibitor / bound)))
    },
    inverses: &[solved("inhibitor", |out, v| {
        let [vmax, km, substrate, _, free, bound] = given(v)?;
        found((vmax * substrate / out - km - substrate) / (km / free + substrate / bound))
    })],
};

const MAXIMUM_RATE: Law = Law {
    id: "maximum-rate",
    family: FAMILY,
    title: "greatest rate that an amount of enzyme can reach",
    formula: "Vmax = kcat·E·a",
    inputs: &[
        number("turnover", "kcat", "1/min", (0.0, 1e10), "turnovers of one enzyme molecule a minute", Plus),
        number("enzyme", "E", "nmol/L", (0.0, 1e9), "concentration of active sites", Plus),
        number("active", "a", "1", FRACTION, "share of the enzyme that still works", Plus),
    ],
    outputs: &[gives("rate", "umol/(L.min)", "rate with enzyme saturated")],
    assumptions: "each site works alone",
    source: "definition of the turnover number (textbook)",
    setup: "({turnover})({enzyme} × 10⁻³ µmol/nmol)({active})",
    example: "turnover=600 enzyme=0:50:2 active=0.9",
    eval: |v| {
        let [turnover, enzyme, active] = numbers(v)?;
        one(turnover * enzyme * active / 1000.0)
    },
    inverses: &[
        solved("turnover", |out, v| {
            given(v).and_then(|[_, enzyme, active]: [f64; 3]| found(1000.0 * out / (enzyme * active)))
        }),
        solved("enzyme", |out, v| {
            given(v).and_then(|[kcat, _, active]: [f64; 3]| found(1000.0 * out / (kcat * active)))
        }),
        solved("active", |out, v| {
            given(v).and_then(|[kcat, enzyme, _]: [f64; 3]| found(1000.0 * out / (kcat * enzyme)))
        }),
    ],
};

const PRODUCT_FORMED: Law = Law {
    id: "product-formed",
    family: FAMILY,
    title: "product formed at a steady rate",
    formula: "P = v·t",
    inputs: &[
        number("rate", "v", "umol/(L.min)", NOT_NEGATIVE, "rate", Plus),
        number("time", "t", "min", MINUTES, "time", Plus),
    ],
    outputs: &[gives("product", "umol/L", "product formed")],
    assumptions: "early: the rate has not yet fallen, less than about a tenth of the substrate is used (for the whole course \
                  use substrate-left)",
    source: "definition of a rate",
    setup: "({rate})({time})",
    example: "rate=12 time=0:10:0.5",
    eval: |v| {
        let [rate, time] = numbers(v)?;
        one(rate * time)
    },
    inverses: &[
        solved("rate", |out, v| given(v).and_then(|[_, time]: [f64; 2]| found(out / time))),
        solved("time", |out, v| given(v).and_then(|[rate, _]: [f64; 2]| found(out / rate))),
    ],
};

const SUBSTRATE_REMAINING: Law = Law {
    id: "substrate-remaining",
    family: FAMILY,
    title: "substrate left after a steady early rate",
    formula: "S = S0 − v·t",
    inputs: &[
        number("start", "S0", "umol/L", NOT_NEGATIVE, "substrate at the start", Plus),
        number("rate", "v", "umol/(L.min)", NOT_NEGATIVE, "rate", Minus),
        number("time", "t", "min", MINUTES, "time", Minus),
    ],
    outputs: &[gives("substrate", "umol/L", "substrate left")],
    assumptions: "early: the rate has not yet fallen (for the whole course use substrate-left)",
    source: "mass balance (textbook)",
    setup: "{start} − ({rate})({time})",
    example: "start=500 rate=12 time=0:10:0.5",
    eval: |v| {
        let [start, rate, time] = numbers(v)?;
        let left = start - rate * time;
        ensure(left >= 0.0, "more substrate would be used than there is: the rate can't have held for that long")?;
        one(left)
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, rate, time]: [f64; 3]| found(out + rate * time))),
        solved("rate", |out, v| given(v).and_then(|[start, _, time]: [f64; 3]| found((start - out) / time))),
        solved("time", |out, v| given(v).and_then(|[start, rate, _]: [f64; 3]| found((start - out) / rate))),
    ],
};

const SUBSTRATE_LEFT: Law = Law {
    id: "substrate-left",
    family: FAMILY,
    title: "substrate left at any time of an enzyme's work",
    formula: "S = Km·W((S0/Km)·exp((S0 − Vmax·t)/Km))",
    inputs: &[
        any("start", "S0", NOT_NEGATIVE, "substrate at the start", Plus),
        any("vmax", "Vmax", NOT_NEGATIVE, "rate with enzyme saturated, in units of start over time", Minus),
        like("km", "Km", "start", POSITIVE, "substrate concentration at half that rate", Plus),
        any("time", "t", NOT_NEGATIVE, "time, in the unit of vmax", Minus),
    ],
    outputs: &[gives_like("substrate", "start", "substrate left")],
    assumptions: "the enzyme keeps its activity, product does not inhibit, no way back. W is Lambert's function",
    source: "Schnell & Mendoza 1997 Journal of Theoretical Biology 187:207 (from memory)",
    setup: "",
    example: "start=10 vmax=1 km=2 time=0:20:1",
    eval: |v| {
        let [start, vmax, km, time] = numbers(v)?;
        if start <= 0.0 {
            return one(0.0);
        }
        one(km * lambert_of_exp(libm::log(start / km) + (start - vmax * time) / km))
    },
    inverses: &[
        solved("time", |out, v| {
            let [start, vmax, km, _] = given(v)?;
            found((start - out + km * libm::log(start / out)) / vmax)
        }),
        solved("vmax", |out, v| {
            let [start, _, km, time] = given(v)?;
            found((start - out + km * libm::log(start / out)) / time)
        }),
    ],
};

/// Lambert's W of e^y, the w with w + ln w = y, by Newton's steps; taking y and not e^y keeps great arguments finite.
fn lambert_of_exp(y: f64) -> f64 {
    if y < -700.0 {
        return 0.0;
    }
    // Solved for u = ln w, so that small w keep their digits: e^u + u = y.
    let mut u = if y > 1.0 { libm::log(y) } else { y };
    for _ in 0..60 {
        let w = libm::exp(u);
        let step = (w + u - y) / (w + 1.0);
        u -= step;
        if step.abs() < 1e-15 * (1.0 + u.abs()) {
            break;
        }
    }
    libm::exp(u)
}
