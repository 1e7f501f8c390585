//! Transport: diffusion, leaks through membranes, what leaves and what stays.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::Law;
use super::row::{
    CELSIUS, FRACTION, NOT_NEGATIVE, POSITIVE, ensure, found, given, gives, kelvin, number, numbers, one, solved,
};
use super::water::FAMILY;
use crate::quantity::constants::{BOLTZMANN, FARADAY, GAS};

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] = &[
    DIFFUSION_DISTANCE,
    DIFFUSION_COEFFICIENT,
    FLUX,
    SURFACE_TO_VOLUME,
    LEAK_FRACTION,
    LEAK_BY_RATIO,
    PARALLEL_PERMEABILITY,
    RELEASED_CONCENTRATION,
    NERNST_PARTITION,
];

const DIFFUSIVITY: (f64, f64) = (0.0, 1e6);
const SECONDS: (f64, f64) = (0.0, 1e9);
const PERMEABILITY: (f64, f64) = (0.0, 1e6);

const DIFFUSION_DISTANCE: Law = Law {
    id: "diffusion-distance",
    family: FAMILY,
    title: "distance covered by diffusion along one line",
    formula: "x = √(2·D·t)",
    inputs: &[
        number("diffusion", "D", "um2/s", DIFFUSIVITY, "diffusion coefficient", Plus),
        number("time", "t", "s", SECONDS, "time", Plus),
    ],
    outputs: &[gives("distance", "um", "root mean square distance")],
    assumptions: "free diffusion from a point, one dimension (two: √(4Dt), three: √(6Dt)); twice as far takes four times as \
                  long",
    source: "Einstein 1905 (from memory)",
    setup: "√(2({diffusion})({time}))",
    example: "diffusion=500 time=0:3600:120",
    eval: |v| {
        let [diffusion, time] = numbers(v)?;
        one((2.0 * diffusion * time).sqrt())
    },
    inverses: &[
        solved("diffusion", |out, v| given(v).and_then(|[_, time]: [f64; 2]| found(out * out / (2.0 * time)))),
        solved("time", |out, v| given(v).and_then(|[diffusion, _]: [f64; 2]| found(out * out / (2.0 * diffusion)))),
    ],
};

const DIFFUSION_COEFFICIENT: Law = Law {
    id: "diffusion-coefficient",
    family: FAMILY,
    title: "diffusion coefficient of a sphere",
    formula: "D = k·T/(6π·η·r)",
    inputs: &[
        number("radius", "r", "nm", (0.01, 1e5), "hydrodynamic radius", Minus),
        number("viscosity", "η", "mPa.s", (0.05, 1e7), "viscosity of the liquid", Minus),
        number("temperature", "T", "Cel", CELSIUS, "temperature (viscosity held; in truth it falls too)", Plus),
    ],
    outputs: &[gives("diffusion", "um2/s", "diffusion coefficient")],
    assumptions: "a sphere much larger than a water molecule (r above about 0.5 nm), dilute",
    source: "Einstein 1905; Sutherland 1905 (from memory)",
    setup: "(1.38 × 10⁻²³ J/K)({temperature:K})/[6π({viscosity} × 10⁻³ Pa/mPa)({radius} × 10⁻⁹ m/nm)] × 10¹² µm²/m²",
    example: "radius=0.5:10:0.5 viscosity=0.89 temperature=25",
    eval: |v| {
        let [radius, viscosity, temperature] = numbers(v)?;
        one(stokes_einstein(radius, viscosity, temperature))
    },
    inverses: &[solved("radius", |out, v| {
        let [_, viscosity, temperature] = given(v)?;
        found(stokes_einstein(1.0, viscosity, temperature) / out)
    })],
};

/// Diffusion coefficient in µm²/s; nm and mPa·s give 10⁻¹² below the line, m² to µm² 10¹² above it.
fn stokes_einstein(radius_nm: f64, viscosity_mpa_s: f64, celsius: f64) -> f64 {
    BOLTZMANN.value * kelvin(celsius) * 1e24 / (6.0 * std::f64::consts::PI * viscosity_mpa_s * radius_nm)
}

const FLUX: Law = Law {
    id: "flux",
    family: FAMILY,
    title: "flux by diffusion across a layer",
    formula: "J = D·(c1 − c2)/Δx",
    inputs: &[
        number("diffusion", "D", "um2/s", DIFFUSIVITY, "diffusion coefficient", Plus),
        number("c_high", "c1", "mol/L", (0.0, 100.0), "concentration on the side where it is higher", Plus),
        number("c_low", "c2", "mol/L", (0.0, 100.0), "concentration on the other side", Minus),
        number("thickness", "Δx", "um", (1e-4, 1e7), "thickness of the layer", Minus),
    ],
    outputs: &[gives("flux", "nmol/(cm2.s)", "amount that crosses each square centimetre a second")],
    assumptions: "steady state, stirred on both sides",
    source: "Fick 1855 (from memory)",
    setup: "({diffusion} × 10⁻⁸ cm²/µm²)({c_high} − {c_low})(10⁶ nmol·L/(mol·cm³))/({thickness} × 10⁻⁴ cm/µm)",
    example: "diffusion=500 c_high=0:0.5:0.02 c_low=0 thickness=100",
    eval: |v| {
        let [diffusion, high, low, thickness] = numbers(v)?;
        ensure(high >= low, "`c_high` must not be less than `c_low`")?;
        one(FLUX_UNITS * diffusion * (high - low) / thickness)
    },
    inverses: &[
        solved("diffusion", |out, v| {
            let [_, high, low, thickness] = given(v)?;
            found(out * thickness / (FLUX_UNITS * (high - low)))
        }),
        solved("c_high", |out, v| {
            let [diffusion, _, low, thickness] = given(v)?;
            found(low + out * thickness / (FLUX_UNITS * diffusion))
        }),
        solved("thickness", |out, v| {
            let [diffusion, high, low, _] = given(v)?;
            found(FLUX_UNITS * diffusion * (high - low) / out)
        }),
    ],
};

/// µm/s · mol/L in nmol/(cm²·s): 10⁻⁴ cm/µm · 10⁻³ L/cm³ · 10⁹ nmol/mol.
const FLUX_UNITS: f64 = 100.0;

const SURFACE_TO_VOLUME: Law = Law {
    id: "surface-to-volume",
    family: FAMILY,
    title: "surface to volume of a sphere",
    formula: "A/V = 3/r",
    inputs: &[number("radius", "r", "um", (1e-6, 1e9), "radius", Minus)],
    outputs: &[gives("ratio", "1/um", "surface divided by volume")],
    assumptions: "a sphere",
    source: "geometry",
    setup: "3/({radius})",
    example: "radius=0.5:20:0.5",
    eval: |v| {
        let [radius] = numbers(v)?;
        one(3.0 / radius)
    },
    inverses: &[solved("radius", |out, _| found(3.0 / out))],
};

const LEAK_FRACTION: Law = Law {
    id: "leak-fraction",
    family: FAMILY,
    title: "share that has leaked out of a closed space",
    formula: "f = 1 − exp(−P·A·t/V)",
    inputs: &[
        number("permeability", "P", "um/s", PERMEABILITY, "permeability of the bilayer", Plus),
        number("area", "A", "um2", NOT_NEGATIVE, "area of the bilayer", Plus),
        number("volume", "V", "um3", POSITIVE, "volume inside", Minus),
        number("time", "t", "s", SECONDS, "time", Plus),
    ],
    outputs: &[gives("fraction", "1", "share of what was inside that has left")],
    assumptions: "stirred inside and out, next to nothing outside, volume does not change",
    source: "first-order loss (textbook)",
    setup: "1 − exp(−({permeability})({area})({time})/({volume}))",
    example: "permeability=0.001 area=78.5 volume=65.4 time=0:3600:120",
    eval: |v| {
        let [permeability, area, volume, time] = numbers(v)?;
        one(-libm::expm1(-permeability * area * time / volume))
    },
    inverses: &[
        solved("permeability", |out, v| {
            let [_, area, volume, time] = given(v)?;
            found(-libm::log1p(-out) * volume / (area * time))
        }),
        solved("time", |out, v| {
            let [permeability, area, volume, _] = given(v)?;
            found(-libm::log1p(-out) * volume / (permeability * area))
        }),
    ],
};

const LEAK_BY_RATIO: Law = Law {
    id: "leak-by-ratio",
    family: FAMILY,
    title: "share that has leaked out, from surface to volume",
    formula: "f = 1 − exp(−P·(A/V)·t)",
    inputs: &[
        number("permeability", "P", "um/s", PERMEABILITY, "permeability of the bilayer", Plus),
        number("ratio", "A/V", "1/um", (0.0, 1e6), "surface divided by volume", Plus),
        number("time", "t", "s", SECONDS, "time", Plus),
    ],
    outputs: &[gives("fraction", "1", "share of what was inside that has left")],
    assumptions: "stirred inside and out, next to nothing outside, volume does not change",
    source: "first-order loss (textbook)",
    setup: "1 − exp(−({permeability})({ratio})({time}))",
    example: "permeability=0.001 ratio=1.2 time=0:3600:120",
    eval: |v| {
        let [permeability, ratio, time] = numbers(v)?;
        one(-libm::expm1(-permeability * ratio * time))
    },
    inverses: &[
        solved("permeability", |out, v| {
            given(v).and_then(|[_, ratio, t]: [f64; 3]| found(-libm::log1p(-out) / (ratio * t)))
        }),
        solved("ratio", |out, v| given(v).and_then(|[p, _, t]: [f64; 3]| found(-libm::log1p(-out) / (p * t)))),
        solved("time", |out, v| given(v).and_then(|[p, ratio, _]: [f64; 3]| found(-libm::log1p(-out) / (p * ratio)))),
    ],
};

const PARALLEL_PERMEABILITY: Law = Law {
    id: "parallel-permeability",
    family: FAMILY,
    title: "permeability of a wall with pores in it",
    formula: "P = P0 + p·n",
    inputs: &[
        number("background", "P0", "um/s", PERMEABILITY, "permeability of the bilayer without open pores", Plus),
        number("per_pore", "p", "um.L/(s.nmol)", PERMEABILITY, "permeability that each nmol/L of pores adds", Plus),
        number("pores", "n", "nmol/L", (0.0, 1e9), "concentration of pores", Plus),
    ],
    outputs: &[gives("permeability", "um/s", "permeability of the whole")],
    assumptions: "ways side by side add up; pores do not meet or clog one another",
    source: "conductances in parallel (textbook)",
    setup: "{background} + ({per_pore})({pores})",
    example: "background=0.0001 per_pore=0.0002 pores=0:50:2",
    eval: |v| {
        let [background, per_pore, pores] = numbers(v)?;
        one(background + per_pore * pores)
    },
    inverses: &[
        solved("background", |out, v| {
            given(v).and_then(|[_, per_pore, pores]: [f64; 3]| found(out - per_pore * pores))
        }),
        solved("pores", |out, v| given(v).and_then(|[background, per, _]: [f64; 3]| found((out - background) / per))),
    ],
};

const RELEASED_CONCENTRATION: Law = Law {
    id: "released-concentration",
    family: FAMILY,
    title: "concentration outside of what vesicles have let out",
    formula: "c = f·C·φ",
    inputs: &[
        number("fraction", "f", "1", FRACTION, "share that has left", Plus),
        number("inside", "C", "mmol/L", (0.0, 1e5), "concentration inside at the start", Plus),
        number("volume_fraction", "φ", "1", (0.0, 0.1), "share of the whole volume that is enclosed", Plus),
    ],
    outputs: &[gives("concentration", "umol/L", "concentration outside")],
    assumptions: "vesicles take up so little of the volume (at most a tenth) that what is outside fills nearly all of it",
    source: "mass balance (textbook)",
    setup: "({fraction})({inside} × 1000 µmol/mmol)({volume_fraction})",
    example: "fraction=0:1:0.05 inside=40 volume_fraction=0.01",
    eval: |v| {
        let [fraction, inside, share] = numbers(v)?;
        one(1000.0 * fraction * inside * share)
    },
    inverses: &[
        solved("fraction", |out, v| {
            given(v).and_then(|[_, inside, share]: [f64; 3]| found(out / (1000.0 * inside * share)))
        }),
        solved("inside", |out, v| given(v).and_then(|[part, _, share]: [f64; 3]| found(out / (1000.0 * part * share)))),
    ],
};

const NERNST_PARTITION: Law = Law {
    id: "nernst-partition",
    family: FAMILY,
    title: "what is left outside of a permeant dye of charge +1",
    formula: "c = c0/(1 + φ·(exp(−F·V/(R·T)) − 1))",
    inputs: &[
        number("potential", "V", "mV", (-400.0, 400.0), "membrane potential, inside minus outside", Plus),
        number("total", "c0", "umol/L", NOT_NEGATIVE, "dye added, over the whole volume", Plus),
        number(
            "volume_fraction",
            "φ",
            "1",
            (0.0, 0.5),
            "share of the whole volume that lies inside",
            Depends("lowers it where the inside is negative, raises it where positive"),
        ),
        number(
            "temperature",
            "T",
            "Cel",
            CELSIUS,
            "temperature",
            Depends("raises it where the inside is negative, lowers it where positive"),
        ),
    ],
    outputs: &[gives("concentration", "umol/L", "concentration of dye left outside")],
    assumptions: "the dye crosses freely, binds to nothing, does not change the potential, and has come to equilibrium: \
                  inside over outside is exp(−FV/RT)",
    source: "mass balance with Nernst 1888 (from memory)",
    setup: "({total})/[1 + ({volume_fraction})(exp(−(96485 C/mol)({potential} × 10⁻³ V/mV)/[(8.314 J/(mol·K))({temperature:K})]) − 1)]",
    example: "potential=-180:0:10 total=5 volume_fraction=0.02 temperature=25",
    eval: |v| {
        let [potential, total, share, temperature] = numbers(v)?;
        one(total / (1.0 + share * uptake(potential, temperature)))
    },
    inverses: &[
        solved("total", |out, v| {
            let [potential, _, share, temperature] = given(v)?;
            found(out * (1.0 + share * uptake(potential, temperature)))
        }),
        solved("potential", |out, v| {
            let [_, total, share, temperature] = given(v)?;
            let ratio = (total / out - 1.0) / share;
            found(-libm::log1p(ratio) * 1000.0 * GAS.value * kelvin(temperature) / FARADAY.value)
        }),
    ],
};

/// By how much the inside outdoes the outside, as a share of the outside: exp(−FV/RT) − 1, with V in mV.
fn uptake(potential_mv: f64, celsius: f64) -> f64 {
    libm::expm1(-FARADAY.value * potential_mv / 1000.0 / (GAS.value * kelvin(celsius)))
}
