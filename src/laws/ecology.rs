//! Growth, ecology, physiology.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Law, LawError, UnitRule, Value};
use super::row::{
    ANY_NUMBER, FRACTION, NOT_NEGATIVE, POSITIVE, any, ensure, found, given, gives, gives_like, like, list, number,
    numbers, one, solved,
};

const FAMILY: &str = "growth, ecology, physiology";

/// The laws of this family.
pub(super) const LAWS: &[Law] = &[
    EXPONENTIAL_GROWTH,
    LOGISTIC_GROWTH,
    COLONY_COUNT,
    MARK_RECAPTURE,
    MARK_RECAPTURE_CHAPMAN,
    SHANNON,
    SIMPSON,
    LIGHT_RESPONSE,
    GROSS_PRODUCTIVITY,
    DOSE_RESPONSE,
    COMPOSITE_DENSITY,
];

const COUNT: (f64, f64) = (0.0, 1e12);
const DENSITY: (f64, f64) = (0.01, 25.0);

const EXPONENTIAL_GROWTH: Law = Law {
    id: "exponential-growth",
    family: FAMILY,
    title: "numbers in unlimited growth",
    formula: "N = N0·e^(r·t)",
    inputs: &[
        any("start", "N0", NOT_NEGATIVE, "numbers at the start", Plus),
        any("rate", "r", (-1e6, 1e6), "growth rate, per unit of time", Plus),
        any(
            "time",
            "t",
            NOT_NEGATIVE,
            "time, in the unit of the rate",
            Depends("raises it where the rate is positive"),
        ),
    ],
    outputs: &[gives_like("numbers", "start", "numbers at that time")],
    assumptions: "nothing runs short; doubling takes ln 2/r",
    source: "Malthus 1798; textbook",
    setup: "({start})e^(({rate})({time}))",
    example: "start=1000 rate=0.03 time=0:120:5",
    eval: |v| {
        let [start, rate, time] = numbers(v)?;
        one(start * libm::exp(rate * time))
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, rate, time]: [f64; 3]| found(out * libm::exp(-rate * time)))),
        solved("rate", |out, v| given(v).and_then(|[start, _, time]: [f64; 3]| found(libm::log(out / start) / time))),
        solved("time", |out, v| given(v).and_then(|[start, rate, _]: [f64; 3]| found(libm::log(out / start) / rate))),
    ],
};

const LOGISTIC_GROWTH: Law = Law {
    id: "logistic-growth",
    family: FAMILY,
    title: "numbers in growth toward a limit",
    formula: "N = K/(1 + (K/N0 − 1)·e^(−r·t))",
    inputs: &[
        any("start", "N0", POSITIVE, "numbers at the start", Plus),
        like("capacity", "K", "start", POSITIVE, "carrying capacity", Plus),
        any("rate", "r", (0.0, 1e6), "greatest growth rate, per unit of time", Depends("toward the capacity")),
        any("time", "t", NOT_NEGATIVE, "time, in the unit of the rate", Depends("toward the capacity")),
    ],
    outputs: &[gives_like("numbers", "start", "numbers at that time")],
    assumptions: "constant capacity, no lag, no delay; growth is fastest at K/2; numbers above K fall",
    source: "Verhulst 1838 (from memory)",
    setup: "({capacity})/[1 + (({capacity})/({start}) − 1)e^(−({rate})({time}))]",
    example: "start=9.6 capacity=663 rate=0.547 time=0:18:1",
    eval: |v| {
        let [start, capacity, rate, time] = numbers(v)?;
        one(capacity / (1.0 + (capacity / start - 1.0) * libm::exp(-rate * time)))
    },
    inverses: &[solved("time", |out, v| {
        let [start, capacity, rate, _] = given(v)?;
        found(libm::log((capacity / start - 1.0) / (capacity / out - 1.0)) / rate)
    })],
};

const COLONY_COUNT: Law = Law {
    id: "colony-count",
    family: FAMILY,
    title: "colony-forming units from a plate count",
    formula: "c = n/(d·V)",
    inputs: &[
        number("colonies", "n", "1", COUNT, "colonies on the plate", Plus),
        number("dilution", "d", "1", (1e-15, 1.0), "total dilution, as a share of the undiluted culture", Minus),
        number("volume", "V", "mL", (1e-6, 1e6), "volume spread on the plate", Minus),
    ],
    outputs: &[gives("density", "CFU/mL", "colony-forming units in the undiluted culture")],
    assumptions: "each colony from one cell or clump; trusted from 30 to 300 colonies",
    source: "handbook; Breed & Dotterrer 1916 for the countable range (from memory)",
    setup: "({colonies})/[({dilution})({volume})]",
    example: "colonies=30:300:10 dilution=1e-5 volume=0.1",
    eval: |v| {
        let [colonies, dilution, volume] = numbers(v)?;
        one(colonies / (dilution * volume))
    },
    inverses: &[
        solved("colonies", |out, v| {
            given(v).and_then(|[_, dilution, volume]: [f64; 3]| found(out * dilution * volume))
        }),
        solved("dilution", |out, v| {
            given(v).and_then(|[colonies, _, volume]: [f64; 3]| found(colonies / (out * volume)))
        }),
    ],
};

const MARK_RECAPTURE: Law = Law {
    id: "mark-recapture",
    family: FAMILY,
    title: "population size from marked animals caught again",
    formula: "N = M·C/R",
    inputs: &[
        number("marked", "M", "1", COUNT, "animals marked and set free", Plus),
        number("caught", "C", "1", COUNT, "animals caught the second time", Plus),
        number("recaptured", "R", "1", COUNT, "marked ones among those", Minus),
    ],
    outputs: &[gives("population", "1", "population size")],
    assumptions: "closed population, all equally easy to catch, marks stay on; lost marks make it too high, animals that \
                  come back to the trap make it too low; too high on average where few are caught again \
                  (mark-recapture-chapman corrects for that)",
    source: "Petersen 1896; Lincoln 1930 (from memory)",
    setup: "({marked})({caught})/{recaptured}",
    example: "marked=50 caught=40 recaptured=5:40:1",
    eval: |v| {
        let [marked, caught, recaptured] = numbers(v)?;
        recaptures_fit(marked, caught, recaptured)?;
        ensure(recaptured > 0.0, "no marked animal was caught again: no estimate (see mark-recapture-chapman)")?;
        one(marked * caught / recaptured)
    },
    inverses: &[solved("recaptured", |out, v| {
        let [marked, caught, _] = given(v)?;
        found(marked * caught / out)
    })],
};

const MARK_RECAPTURE_CHAPMAN: Law = Law {
    id: "mark-recapture-chapman",
    family: FAMILY,
    title: "population size from marked animals caught again, corrected for small numbers",
    formula: "N = (M + 1)·(C + 1)/(R + 1) − 1",
    inputs: MARK_RECAPTURE.inputs,
    outputs: MARK_RECAPTURE.outputs,
    assumptions: "as mark-recapture; right on average where M + C is at least N",
    source: "Chapman 1951 (from memory)",
    setup: "({marked} + 1)({caught} + 1)/({recaptured} + 1) − 1",
    example: "marked=50 caught=40 recaptured=0:40:1",
    eval: |v| {
        let [marked, caught, recaptured] = numbers(v)?;
        recaptures_fit(marked, caught, recaptured)?;
        one((marked + 1.0) * (caught + 1.0) / (recaptured + 1.0) - 1.0)
    },
    inverses: &[solved("recaptured", |out, v| {
        let [marked, caught, _] = given(v)?;
        found((marked + 1.0) * (caught + 1.0) / (out + 1.0) - 1.0)
    })],
};

fn recaptures_fit(marked: f64, caught: f64, recaptured: f64) -> Result<(), LawError> {
    ensure(recaptured <= marked && recaptured <= caught, "`recaptured` can't exceed `marked` or `caught`")
}

const SHANNON: Law = Law {
    id: "shannon",
    family: FAMILY,
    title: "diversity of a community (Shannon)",
    formula: "H′ = −Σ p·ln p",
    inputs: &[list(
        "counts",
        "n",
        UnitRule::Ucum("1"),
        COUNT,
        "individuals of each species",
        Depends("raises it for a rare species, lowers it for a common one"),
    )],
    outputs: &[gives("diversity", "{nat}", "diversity, natural logarithm")],
    assumptions: "a random sample; natural logarithm (some use base 2); doubling every count changes nothing",
    source: "Shannon 1948 (from memory)",
    setup: "",
    example: "counts=50,30,20",
    eval: |v| one(shares(v)?.iter().filter(|p| **p > 0.0).map(|p| -p * libm::log(*p)).sum::<f64>() + 0.0),
    inverses: &[],
};

const SIMPSON: Law = Law {
    id: "simpson",
    family: FAMILY,
    title: "diversity of a community (Simpson)",
    formula: "1 − Σ p²",
    inputs: SHANNON.inputs,
    outputs: &[gives("diversity", "1", "chance that two individuals drawn, the first put back, differ in species")],
    assumptions: "a random sample; drawing with replacement",
    source: "Simpson 1949 Nature 163:688 (from memory)",
    setup: "",
    example: "counts=50,30,20",
    eval: |v| one(1.0 - shares(v)?.iter().map(|p| p * p).sum::<f64>()),
    inverses: &[],
};

/// Each count as a share of all.
fn shares(inputs: &[Value]) -> Result<Vec<f64>, LawError> {
    let [Value::List(counts)] = inputs else {
        return Err(LawError::WrongCount { given: inputs.len(), expected: 1 });
    };
    let total: f64 = counts.iter().sum();
    ensure(total > 0.0, "`counts` must hold at least one individual")?;
    Ok(counts.iter().map(|count| count / total).collect())
}

const LIGHT_RESPONSE: Law = Law {
    id: "light-response",
    family: FAMILY,
    title: "net photosynthesis at a light level",
    formula: "A = Pmax·I/(K + I) − R",
    inputs: &[
        any("pmax", "Pmax", NOT_NEGATIVE, "gross rate in light to spare", Plus),
        any("half", "K", POSITIVE, "light at half that rate", Minus),
        like("light", "I", "half", NOT_NEGATIVE, "light", Plus),
        like("respiration", "R", "pmax", NOT_NEGATIVE, "respiration", Minus),
    ],
    outputs: &[gives_like("net_rate", "pmax", "net rate; below 0 more is respired than made")],
    assumptions: "steady state, respiration the same in light and dark; solved for light at a net rate of 0 it gives the \
                  compensation point",
    source: "rectangular hyperbola (textbook)",
    setup: "({pmax})({light})/({half} + {light}) − {respiration}",
    example: "pmax=25 half=200 light=0:1500:50 respiration=1.5",
    eval: |v| {
        let [pmax, half, light, respiration] = numbers(v)?;
        one(pmax * light / (half + light) - respiration)
    },
    inverses: &[
        solved("light", |out, v| {
            let [pmax, half, _, respiration] = given(v)?;
            found(half * (out + respiration) / (pmax - out - respiration))
        }),
        solved("respiration", |out, v| {
            let [pmax, half, light, _] = given(v)?;
            found(pmax * light / (half + light) - out)
        }),
    ],
};

const GROSS_PRODUCTIVITY: Law = Law {
    id: "gross-productivity",
    family: FAMILY,
    title: "gross productivity from a light and a dark bottle",
    formula: "G = (L − D)/t",
    inputs: &[
        number("light_end", "L", "mg/L", (0.0, 1e3), "oxygen in the light bottle at the end", Plus),
        number("dark_end", "D", "mg/L", (0.0, 1e3), "oxygen in the dark bottle at the end", Minus),
        number("time", "t", "h", (1e-3, 1e5), "time", Depends("toward 0: the same difference took longer")),
    ],
    outputs: &[gives("productivity", "mg/(L.h)", "oxygen made by photosynthesis")],
    assumptions: "both bottles sealed and filled alike; respiration the same in light and dark",
    source: "Gaarder & Gran 1927 (from memory)",
    setup: "({light_end} − {dark_end})/({time})",
    example: "light_end=6:14:0.5 dark_end=6 time=24",
    eval: |v| {
        let [light, dark, time] = numbers(v)?;
        one((light - dark) / time)
    },
    inverses: &[
        solved("light_end", |out, v| given(v).and_then(|[_, dark, time]: [f64; 3]| found(dark + out * time))),
        solved("dark_end", |out, v| given(v).and_then(|[light, _, time]: [f64; 3]| found(light - out * time))),
        solved("time", |out, v| given(v).and_then(|[light, dark, _]: [f64; 3]| found((light - dark) / out))),
    ],
};

const DOSE_RESPONSE: Law = Law {
    id: "dose-response",
    family: FAMILY,
    title: "response to a dose",
    formula: "y = b + (t − b)/(1 + (EC50/x)^h)",
    inputs: &[
        any("bottom", "b", ANY_NUMBER, "response to no dose (to a great one where the slope is negative)", Plus),
        like("top", "t", "bottom", ANY_NUMBER, "response to a great dose", Plus),
        any("ec50", "EC50", POSITIVE, "dose half-way", Depends("away from the response to a great dose")),
        number("slope", "h", "1", (-50.0, 50.0), "steepness, negative where the response falls", Depends("steeper")),
        like(
            "dose",
            "x",
            "ec50",
            NOT_NEGATIVE,
            "dose",
            Depends("raises it where top exceeds bottom and the slope is positive"),
        ),
    ],
    outputs: &[gives_like("response", "bottom", "response")],
    assumptions: "one way of acting, response at equilibrium",
    source: "Hill form; Finney 1976; Ritz et al. 2015 (from memory)",
    setup: "{bottom} + ({top} − {bottom})/[1 + (({ec50})/({dose}))^{slope}]",
    example: "bottom=0 top=100 ec50=10 slope=1.5 dose=0:50:1",
    eval: |v| {
        let [bottom, top, ec50, slope, dose] = numbers(v)?;
        ensure(slope.abs() > 0.0, "`slope` must not be 0")?;
        let share = if dose > 0.0 {
            1.0 / (1.0 + libm::pow(ec50 / dose, slope))
        } else if slope > 0.0 {
            0.0
        } else {
            1.0
        };
        one(bottom + (top - bottom) * share)
    },
    inverses: &[
        solved("dose", |out, v| {
            let [bottom, top, ec50, slope, _] = given(v)?;
            found(ec50 / libm::pow((top - out) / (out - bottom), 1.0 / slope))
        }),
        solved("ec50", |out, v| {
            let [bottom, top, _, slope, dose] = given(v)?;
            found(dose * libm::pow((top - out) / (out - bottom), 1.0 / slope))
        }),
    ],
};

const COMPOSITE_DENSITY: Law = Law {
    id: "composite-density",
    family: FAMILY,
    title: "density of something made of water and dry matter",
    formula: "ρ = f·ρd + (1 − f)·ρw",
    inputs: &[
        number(
            "fraction_dry",
            "f",
            "1",
            FRACTION,
            "share of the volume that is dry matter",
            Depends("toward the density of dry matter"),
        ),
        number("density_dry", "ρd", "g/cm3", DENSITY, "density of dry matter", Plus),
        number("density_water", "ρw", "g/cm3", DENSITY, "density of the watery rest", Plus),
    ],
    outputs: &[gives("density", "g/cm3", "density of the whole")],
    assumptions: "volumes add up",
    source: "weighted mean (definition)",
    setup: "({fraction_dry})({density_dry}) + (1 − {fraction_dry})({density_water})",
    example: "fraction_dry=0:0.5:0.025 density_dry=1.4 density_water=1",
    eval: |v| {
        let [dry, density_dry, density_water] = numbers(v)?;
        one(dry * density_dry + (1.0 - dry) * density_water)
    },
    inverses: &[solved("fraction_dry", |out, v| {
        let [_, dry, water] = given(v)?;
        found((out - water) / (dry - water))
    })],
};
