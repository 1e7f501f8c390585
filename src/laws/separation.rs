//! Separation: what moves how far in a gel, a column, a tube.

use super::charge;
use super::law::Effect::{Depends, Minus, Plus};
use super::law::Law;
use super::row::{
    ANY_NUMBER, NOT_NEGATIVE, POSITIVE, ensure, found, given, gives, impossible, number, numbers, one, solved, ten_to,
};
use crate::quantity::constants::{CHARGE, GRAVITY};

/// Name of the family.
pub(super) const FAMILY: &str = "separation";

const MOBILITY: (f64, f64) = (1e-15, 1e-2);
const CENTIMETRES: (f64, f64) = (0.0, 1e3);

/// The laws of this family.
pub(super) const LAWS: &[Law] = &[
    GEL_MOBILITY,
    MIGRATION_DISTANCE,
    FRAGMENT_SIZE,
    GEL_RETARDATION,
    DRAG_TAG_MOBILITY,
    CHARGE_MOBILITY,
    RETENTION_FACTOR,
    PARTITION_COEFFICIENT,
    charge::IONISED_ACID,
    charge::IONISED_BASE,
    charge::NET_CHARGE,
    SETTLING_SPEED,
    ISOPYCNIC_DEPTH,
    TAIL_MOMENT,
];

const GEL_MOBILITY: Law = Law {
    id: "gel-mobility",
    family: FAMILY,
    title: "mobility of double-stranded DNA in an agarose gel",
    formula: "1/μ = 1/μL − (1/μL − 1/μS)·exp(−L/γ)",
    inputs: &[
        number("length", "L", "bp", (20.0, 2e5), "fragment length", Minus),
        number("mu_long", "μL", "cm2/(V.s)", MOBILITY, "mobility of very long fragments", Plus),
        number("mu_short", "μS", "cm2/(V.s)", MOBILITY, "mobility of very short fragments", Plus),
        number("gamma", "γ", "bp", (1.0, 1e13), "length over which one limit passes into the other", Plus),
    ],
    outputs: &[gives("mobility", "cm2/(V.s)", "electrophoretic mobility")],
    assumptions: "linear double-stranded DNA in a gel and a constant field; fitted for 0.2 to 48 kb, 0.4 to 1.5 % agarose, \
                  0.6 to 6 V/cm. In free solution (no gel) length does not matter above about 400 bp: use \
                  drag-tag-mobility with no drag",
    source: "van Winkle, Beheshti & Rill 2002 Electrophoresis 23:15; Rill, Beheshti & Van Winkle 2002 Electrophoresis \
             23:2710 (parameters)",
    setup: "1/[1/({mu_long}) − (1/({mu_long}) − 1/({mu_short}))·exp(−{length}/{gamma})]",
    example: "length=500:20000:500 mu_long=0.67e-4 mu_short=2.55e-4 gamma=5780",
    eval: |v| {
        let [length, long, short, gamma] = numbers(v)?;
        ensure(long <= short, "`mu_long` must not exceed `mu_short`: long fragments are the slower ones")?;
        one(1.0 / (1.0 / long - (1.0 / long - 1.0 / short) * libm::exp(-length / gamma)))
    },
    inverses: &[solved("length", |out, v| {
        let [_, long, short, gamma] = given(v)?;
        found(-gamma * libm::log((1.0 / long - 1.0 / out) / (1.0 / long - 1.0 / short)))
    })],
};

const MIGRATION_DISTANCE: Law = Law {
    id: "migration-distance",
    family: FAMILY,
    title: "distance moved in an electric field",
    formula: "x = μ·E·t",
    inputs: &[
        number("mobility", "μ", "cm2/(V.s)", (-1e-2, 1e-2), "electrophoretic mobility, signed like the charge", Plus),
        number(
            "field",
            "E",
            "V/cm",
            CENTIMETRES,
            "electric field",
            Depends("away from the start, whichever way it moves"),
        ),
        number("time", "t", "s", (0.0, 1e7), "run time", Depends("away from the start, whichever way it moves")),
    ],
    outputs: &[gives("distance", "cm", "distance moved; a minus sign means toward the other electrode")],
    assumptions: "constant field, no drift of the buffer",
    source: "definition of electrophoretic mobility",
    setup: "({mobility})({field})({time})",
    example: "mobility=3e-4 field=5 time=0:7200:600",
    eval: |v| {
        let [mobility, field, time] = numbers(v)?;
        one(mobility * field * time)
    },
    inverses: &[
        solved("mobility", |out, v| given(v).and_then(|[_, field, time]: [f64; 3]| found(out / (field * time)))),
        solved("field", |out, v| given(v).and_then(|[mobility, _, time]: [f64; 3]| found(out / (mobility * time)))),
        solved("time", |out, v| given(v).and_then(|[mobility, field, _]: [f64; 3]| found(out / (mobility * field)))),
    ],
};

const FRAGMENT_SIZE: Law = Law {
    id: "fragment-size",
    family: FAMILY,
    title: "fragment length read from a gel",
    formula: "L = k1/(m − m0) + k2",
    inputs: &[
        number("distance", "m", "cm", CENTIMETRES, "distance moved", Minus),
        number(
            "m0",
            "m0",
            "cm",
            (-1e3, 1e3),
            "distance at which long fragments crowd together, fitted to the ladder",
            Plus,
        ),
        number("k1", "k1", "bp.cm", POSITIVE, "slope, fitted to the ladder", Plus),
        number("k2", "k2", "bp", (-1e6, 1e6), "offset, fitted to the ladder", Plus),
    ],
    outputs: &[gives("length", "bp", "fragment length")],
    assumptions: "m > m0; the fitted values hold for one gel and between its longest and shortest band, about 0.5 to 20 kb",
    source: "Southern 1979 Analytical Biochemistry 100:319 (from memory)",
    setup: "({k1})/({distance} − {m0}) + {k2}",
    example: "distance=2:8:0.5 m0=0.5 k1=9000 k2=-500",
    eval: |v| {
        let [distance, m0, k1, k2] = numbers(v)?;
        ensure(distance > m0, "`distance` must exceed `m0`: the formula has no value at or below it")?;
        let length = k1 / (distance - m0) + k2;
        ensure(length > 0.0, "that distance lies beyond the shortest fragment that the curve can give")?;
        one(length)
    },
    inverses: &[solved("distance", |out, v| {
        let [_, m0, k1, k2] = given(v)?;
        found(k1 / (out - k2) + m0)
    })],
};

const GEL_RETARDATION: Law = Law {
    id: "gel-retardation",
    family: FAMILY,
    title: "mobility in gels of different strength",
    formula: "log10 μ = log10 μ0 − Kr·T",
    inputs: &[
        number("mobility_free", "μ0", "cm2/(V.s)", MOBILITY, "mobility without gel", Plus),
        number("retardation", "Kr", "1/%", (0.0, 5.0), "retardation coefficient, greater for larger molecules", Minus),
        number("gel", "T", "%", (0.0, 30.0), "gel strength", Minus),
    ],
    outputs: &[gives("mobility", "cm2/(V.s)", "electrophoretic mobility")],
    assumptions: "one molecule in gels of one kind and one field; polyacrylamide with detergent-coated proteins of 10 to \
                  200 kDa, or agarose of 0.5 to 1.5 % with short DNA",
    source: "Ferguson 1964 Metabolism 13:985 (from memory)",
    setup: "({mobility_free}) × 10^(−({retardation})({gel}))",
    example: "mobility_free=3.75e-4 retardation=0.3 gel=0:5:0.5",
    eval: |v| {
        let [free, retardation, gel] = numbers(v)?;
        one(free * ten_to(-retardation * gel))
    },
    inverses: &[
        solved("mobility_free", |out, v| given(v).and_then(|[_, k, gel]: [f64; 3]| found(out * ten_to(k * gel)))),
        solved("retardation", |out, v| {
            given(v).and_then(|[free, _, gel]: [f64; 3]| found(libm::log10(free / out) / gel))
        }),
        solved("gel", |out, v| given(v).and_then(|[free, k, _]: [f64; 3]| found(libm::log10(free / out) / k))),
    ],
};

const DRAG_TAG_MOBILITY: Law = Law {
    id: "drag-tag-mobility",
    family: FAMILY,
    title: "mobility of DNA that tows an uncharged tag in free solution",
    formula: "μ = μ0·L/(L + α)",
    inputs: &[
        number("free", "μ0", "cm2/(V.s)", MOBILITY, "mobility of DNA without a tag, the same at every length", Plus),
        number("length", "L", "bp", (1.0, 1e6), "length of the DNA", Plus),
        number("drag", "α", "bp", (0.0, 1e6), "drag of the tag, as the length of DNA that drags as much", Minus),
    ],
    outputs: &[gives("mobility", "cm2/(V.s)", "electrophoretic mobility")],
    assumptions: "free solution, no gel, tag at one end and without charge; with no drag the mobility is the same at every \
                  length above about 400 bp, so lengths do not separate",
    source: "Mayer, Slater & Drouin 1994; Meagher et al. 2005 Electrophoresis 26:331 (from memory)",
    setup: "({free})({length})/({length} + {drag})",
    example: "free=3.75e-4 length=20:1000:20 drag=60",
    eval: |v| {
        let [free, length, drag] = numbers(v)?;
        one(free * length / (length + drag))
    },
    inverses: &[
        solved("length", |out, v| given(v).and_then(|[free, _, drag]: [f64; 3]| found(drag * out / (free - out)))),
        solved("drag", |out, v| given(v).and_then(|[free, length, _]: [f64; 3]| found(length * (free / out - 1.0)))),
    ],
};

const CHARGE_MOBILITY: Law = Law {
    id: "charge-mobility",
    family: FAMILY,
    title: "mobility of a small charged sphere",
    formula: "μ = z·e/(6π·η·r)",
    inputs: &[
        number("charge", "z", "[e]", (-1e4, 1e4), "net charge in elementary charges", Plus),
        number("radius", "r", "nm", (0.1, 1e3), "hydrodynamic radius", Depends("toward 0, from either side")),
        number(
            "viscosity",
            "η",
            "mPa.s",
            (0.05, 1e5),
            "viscosity of the liquid",
            Depends("toward 0, from either side"),
        ),
    ],
    outputs: &[gives("mobility", "cm2/(V.s)", "electrophoretic mobility, signed like the charge")],
    assumptions: "free solution of low ionic strength (Hückel limit: the ion cloud is much wider than the particle); salt \
                  makes the true value smaller",
    source: "Hückel 1924 Physikalische Zeitschrift 25:204 (from memory)",
    setup: "({charge})(1.60 × 10⁻¹⁹ C/e)/[6π({viscosity} × 10⁻³ Pa/mPa)({radius} × 10⁻⁹ m/nm)] × 10⁴ cm²/m²",
    example: "charge=-10:10:1 radius=2 viscosity=0.89",
    eval: |v| {
        let [charge, radius, viscosity] = numbers(v)?;
        one(charge * hueckel(radius, viscosity))
    },
    inverses: &[
        solved("charge", |out, v| given(v).and_then(|[_, r, viscosity]: [f64; 3]| found(out / hueckel(r, viscosity)))),
        solved("radius", |out, v| {
            given(v).and_then(|[z, _, viscosity]: [f64; 3]| found(z * hueckel(1.0, viscosity) / out))
        }),
    ],
};

/// Mobility of one elementary charge on a sphere, cm²/(V·s): metres squared times 10⁴, nm and mPa·s times 10⁻¹².
fn hueckel(radius_nm: f64, viscosity_mpa_s: f64) -> f64 {
    CHARGE.value * 1e16 / (6.0 * std::f64::consts::PI * viscosity_mpa_s * radius_nm)
}

const RETENTION_FACTOR: Law = Law {
    id: "retention-factor",
    family: FAMILY,
    title: "retention factor in paper or thin-layer chromatography",
    formula: "Rf = spot/front",
    inputs: &[
        number("spot", "spot", "cm", CENTIMETRES, "distance from the start to the middle of the spot", Plus),
        number("front", "front", "cm", (1e-3, 1e3), "distance from the start to the solvent front", Minus),
    ],
    outputs: &[gives("factor", "1", "retention factor")],
    assumptions: "spot and front measured at the same moment, no overload; how far the front ran does not matter",
    source: "textbook definition; Martin & Synge 1941 Biochemical Journal 35:1358 (from memory)",
    setup: "({spot})/({front})",
    example: "spot=0:8:0.5 front=8",
    eval: |v| {
        let [spot, front] = numbers(v)?;
        ensure(spot <= front, "`spot` can't lie beyond `front`")?;
        one(spot / front)
    },
    inverses: &[
        solved("spot", |out, v| given(v).and_then(|[_, front]: [f64; 2]| found(out * front))),
        solved("front", |out, v| given(v).and_then(|[spot, _]: [f64; 2]| found(spot / out))),
    ],
};

const PARTITION_COEFFICIENT: Law = Law {
    id: "partition-coefficient",
    family: FAMILY,
    title: "partition coefficient in a column of porous beads",
    formula: "Kav = (Ve − V0)/(Vt − V0)",
    inputs: &[
        number("elution", "Ve", "mL", NOT_NEGATIVE, "volume at which the molecule leaves", Plus),
        number("void", "V0", "mL", NOT_NEGATIVE, "volume outside the beads", Minus),
        number("total", "Vt", "mL", POSITIVE, "volume of the whole bed", Minus),
    ],
    outputs: &[gives("coefficient", "1", "share of the bead volume that the molecule can enter")],
    assumptions: "no sticking to the beads, so that V0 ≤ Ve ≤ Vt; the largest molecules leave first",
    source: "Laurent & Killander 1964 Journal of Chromatography 14:317 (from memory)",
    setup: "({elution} − {void})/({total} − {void})",
    example: "elution=8:24:1 void=8 total=24",
    eval: |v| {
        let [elution, void, total] = numbers(v)?;
        ensure(void < total, "`void` must be less than `total`")?;
        ensure(void <= elution && elution <= total, "`elution` must lie between `void` and `total`")?;
        one((elution - void) / (total - void))
    },
    inverses: &[solved("elution", |out, v| {
        let [_, void, total] = given(v)?;
        found(void + out * (total - void))
    })],
};

const SETTLING_SPEED: Law = Law {
    id: "settling-speed",
    family: FAMILY,
    title: "settling speed of a small sphere",
    formula: "v = 2/9·(ρp − ρf)·g·r²/η",
    inputs: &[
        number(
            "radius",
            "r",
            "um",
            (1e-3, 500.0),
            "radius of the particle",
            Depends("away from 0: sinks or rises faster"),
        ),
        number("density_particle", "ρp", "g/cm3", (1e-3, 25.0), "density of the particle", Plus),
        number("density_fluid", "ρf", "g/cm3", (1e-4, 15.0), "density of the liquid", Minus),
        number(
            "viscosity",
            "η",
            "mPa.s",
            (0.01, 1e7),
            "viscosity of the liquid",
            Depends("toward 0: sinks or rises slower"),
        ),
    ],
    outputs: &[gives("speed", "um/s", "settling speed; a minus sign means that it rises")],
    assumptions: "a lone smooth sphere, slow flow (Reynolds number well below 1), far from walls",
    source: "Stokes 1851 (from memory)",
    setup: "(2/9)({density_particle} − {density_fluid})(1000 (kg/m³)/(g/cm³))(9.81 m/s²)({radius} × 10⁻⁶ m/µm)²/({viscosity} × 10⁻³ Pa/mPa) × 10⁶ µm/m",
    example: "radius=0.5:10:0.5 density_particle=1.08 density_fluid=1.00 viscosity=1.0",
    eval: |v| {
        let [radius, particle, fluid, viscosity] = numbers(v)?;
        one(stokes(particle - fluid) * radius * radius / viscosity)
    },
    inverses: &[
        solved("radius", |out, v| {
            let [_, particle, fluid, viscosity] = given(v)?;
            found((out * viscosity / stokes(particle - fluid)).sqrt())
        }),
        solved("density_particle", |out, v| {
            let [radius, _, fluid, viscosity] = given(v)?;
            found(fluid + out * viscosity / (stokes(1.0) * radius * radius))
        }),
        solved("density_fluid", |out, v| {
            let [radius, particle, _, viscosity] = given(v)?;
            found(particle - out * viscosity / (stokes(1.0) * radius * radius))
        }),
        solved("viscosity", |out, v| {
            let [radius, particle, fluid, _] = given(v)?;
            found(stokes(particle - fluid) * radius * radius / out)
        }),
    ],
};

/// The factor of r²/η: with g/cm³, µm and mPa·s the powers of ten cancel and µm/s come out.
fn stokes(density_difference: f64) -> f64 {
    2.0 / 9.0 * density_difference * GRAVITY.value
}

const ISOPYCNIC_DEPTH: Law = Law {
    id: "isopycnic-depth",
    family: FAMILY,
    title: "depth at which a particle floats in a density gradient",
    formula: "x = (ρ − ρtop)/G",
    inputs: &[
        number("density", "ρ", "g/cm3", (0.5, 5.0), "density of the particle", Plus),
        number("density_top", "ρtop", "g/cm3", (0.5, 5.0), "density of the liquid at the top", Minus),
        number("gradient", "G", "g/cm4", (1e-6, 10.0), "rise of density with depth, g/cm³ per cm", Minus),
    ],
    outputs: &[gives("depth", "mm", "depth below the top at equilibrium")],
    assumptions: "density rises evenly with depth; equilibrium; size does not matter, only how sharp the band is",
    source: "definition of buoyant density; Meselson, Stahl & Vinograd 1957 (from memory)",
    setup: "({density} − {density_top})/({gradient}) × 10 mm/cm",
    example: "density=1.02:1.1:0.005 density_top=1.02 gradient=0.012",
    eval: |v| {
        let [density, top, gradient] = numbers(v)?;
        ensure(density >= top, "a particle less dense than the top of the gradient floats on it")?;
        one(10.0 * (density - top) / gradient)
    },
    inverses: &[solved("density", |out, v| {
        let [_, top, gradient] = given(v)?;
        found(top + out * gradient / 10.0)
    })],
};

const TAIL_MOMENT: Law = Law {
    id: "tail-moment",
    family: FAMILY,
    title: "tail moment of a single cell's DNA (the Olive moment)",
    formula: "M = tail/100·(xt − xh)",
    inputs: &[
        number("tail_percent", "tail", "%", (0.0, 100.0), "share of the DNA in the tail", Plus),
        number("centre_tail", "xt", "um", ANY_NUMBER, "centre of the tail's brightness", Plus),
        number("centre_head", "xh", "um", ANY_NUMBER, "centre of the head's brightness", Minus),
    ],
    outputs: &[gives("moment", "um", "tail moment")],
    assumptions: "background taken off; the tail lies beyond the head; levels off at strong damage",
    source: "Olive, Banáth & Durand 1990 Radiation Research 122:86 (from memory; definition checked)",
    setup: "({tail_percent}/100 %)({centre_tail} − {centre_head})",
    example: "tail_percent=0:100:5 centre_tail=30 centre_head=10",
    eval: |v| {
        let [percent, tail, head] = numbers(v)?;
        ensure(tail >= head, "`centre_tail` must not lie before `centre_head`")?;
        one(percent / 100.0 * (tail - head))
    },
    inverses: &[solved("tail_percent", |out, v| {
        let [_, tail, head] = given(v)?;
        if tail > head {
            found(100.0 * out / (tail - head))
        } else {
            Err(impossible("tail and head lie at the same place"))
        }
    })],
};
