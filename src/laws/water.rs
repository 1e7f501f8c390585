//! Water: solutes, water potential, and the volume of what holds them.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Effect, Law};
use super::row::{CELSIUS, FRACTION, ensure, found, given, gives, kelvin, number, numbers, one, solved};
use crate::quantity::constants::GAS_L_BAR;

/// Name of the family.
pub(super) const FAMILY: &str = "transport and water";

/// The laws of this part of the family.
pub(super) const LAWS: &[Law] = &[
    TOTAL_SOLUTE,
    SOLUTE_POTENTIAL,
    SUCROSE_POTENTIAL,
    WATER_POTENTIAL,
    RELATIVE_VOLUME,
    VOLUME_FROM_POTENTIAL,
    CONTAINED_CONCENTRATION,
    SOLIDS_FRACTION,
];

const INACTIVE: (f64, f64) = (0.0, 0.95);
const VOLUMES: (f64, f64) = (1e-3, 1e3);

const TOTAL_SOLUTE: Law = Law {
    id: "total-solute",
    family: FAMILY,
    title: "total concentration of dissolved particles",
    formula: "C = C0 + ΔC",
    inputs: &[
        number("base", "C0", "mol/L", (0.0, 50.0), "particles already there", Plus),
        number("added", "ΔC", "mol/L", (0.0, 50.0), "particles added", Plus),
    ],
    outputs: &[gives("total", "mol/L", "particles in all")],
    assumptions: "concentrations of osmotic particles (a salt of two ions counts twice); the volume is that of the final \
                  solution",
    source: "mass balance (textbook)",
    setup: "{base} + {added}",
    example: "base=0.1 added=0:0.5:0.05",
    eval: |v| {
        let [base, added] = numbers(v)?;
        one(base + added)
    },
    inverses: &[
        solved("base", |out, v| given(v).and_then(|[_, added]: [f64; 2]| found(out - added))),
        solved("added", |out, v| given(v).and_then(|[base, _]: [f64; 2]| found(out - base))),
    ],
};

const SOLUTE_POTENTIAL: Law = Law {
    id: "solute-potential",
    family: FAMILY,
    title: "solute potential of a dilute solution",
    formula: "Ψs = −i·C·R·T",
    inputs: &[
        number("particles", "i", "1", (0.0, 20.0), "particles that one formula unit gives", Minus),
        number("concentration", "C", "mol/L", (0.0, 10.0), "concentration of the solute", Minus),
        number("temperature", "T", "Cel", CELSIUS, "temperature", Minus),
    ],
    outputs: &[gives("potential", "bar", "solute potential")],
    assumptions: "ideal and dilute, below about 0.2 mol/L; real sucrose is more negative by 10 % at 0.3 mol/L and by 35 % at \
                  0.84 mol/L (see sucrose-potential), and sodium chloride acts as an i somewhat below 2",
    source: "van 't Hoff 1887 (from memory; R of CODATA)",
    setup: "−({particles})({concentration})(0.0831 L·bar/(mol·K))({temperature:K})",
    example: "particles=1 concentration=0:1:0.05 temperature=22",
    eval: |v| {
        let [particles, concentration, temperature] = numbers(v)?;
        one(-particles * concentration * rt_l_bar(temperature))
    },
    inverses: &[
        solved("particles", |out, v| given(v).and_then(|[_, c, t]: [f64; 3]| found(-out / (c * rt_l_bar(t))))),
        solved("concentration", |out, v| given(v).and_then(|[i, _, t]: [f64; 3]| found(-out / (i * rt_l_bar(t))))),
    ],
};

/// R·T in L·bar/mol.
fn rt_l_bar(celsius: f64) -> f64 {
    GAS_L_BAR.value * kelvin(celsius)
}

const SUCROSE_POTENTIAL: Law = Law {
    id: "sucrose-potential",
    family: FAMILY,
    title: "solute potential of a sucrose solution as measured",
    formula: "Ψs = −C·R·T·(1 + a·C + b·C²), a = 0.270 L/mol, b = 0.182 L²/mol²",
    inputs: &[
        number("concentration", "C", "mol/L", (0.0, 1.22), "concentration of sucrose at 20 °C", Minus),
        number("temperature", "T", "Cel", (0.0, 40.0), "temperature", Minus),
    ],
    outputs: &[gives("potential", "bar", "solute potential")],
    assumptions: "a smooth line through handbook freezing points (0.09 to 1.2 mol/L, within 2 %, 5 % below 0.2 mol/L where \
                  the readings are coarse); takes the osmotic coefficient near 0 °C as that at the given temperature",
    source: "fitted for this library to the CRC Handbook table of concentrative properties (after Wolf 1966)",
    setup: "",
    example: "concentration=0:1.2:0.05 temperature=20",
    eval: |v| {
        let [concentration, temperature] = numbers(v)?;
        one(-concentration * rt_l_bar(temperature) * excess(concentration))
    },
    inverses: &[],
};

/// Measured over ideal, as a share of the ideal value per molar concentration.
fn excess(concentration: f64) -> f64 {
    1.0 + concentration * (0.270 + concentration * 0.182)
}

const WATER_POTENTIAL: Law = Law {
    id: "water-potential",
    family: FAMILY,
    title: "water potential",
    formula: "Ψ = Ψs + Ψp",
    inputs: &[
        number("solute", "Ψs", "bar", (-1e3, 0.0), "solute potential", Plus),
        number("pressure", "Ψp", "bar", (-1e3, 1e4), "pressure potential (0 in a solution open to the air)", Plus),
    ],
    outputs: &[gives("potential", "bar", "water potential")],
    assumptions: "no height difference, no matrix that holds water; water moves toward the lower value",
    source: "textbook definition",
    setup: "({solute}) + ({pressure})",
    example: "solute=-7.4 pressure=0:10:0.5",
    eval: |v| {
        let [solute, pressure] = numbers(v)?;
        one(solute + pressure)
    },
    inverses: &[
        solved("solute", |out, v| given(v).and_then(|[_, pressure]: [f64; 2]| found(out - pressure))),
        solved("pressure", |out, v| given(v).and_then(|[solute, _]: [f64; 2]| found(out - solute))),
    ],
};

const DAMPS: Effect = Depends("toward 1, from either side: it damps swelling and shrinking");

const RELATIVE_VOLUME: Law = Law {
    id: "relative-volume",
    family: FAMILY,
    title: "relative volume of a cell or vesicle",
    formula: "V/V0 = b + (1 − b)·Π0/Π",
    inputs: &[
        number("inactive", "b", "1", INACTIVE, "share of the volume that holds no free water", DAMPS),
        number("osmolarity_iso", "Π0", "osm/L", (1e-4, 20.0), "outside osmolarity at which the volume is V0", Plus),
        number("osmolarity", "Π", "osm/L", (1e-4, 20.0), "outside osmolarity of solutes that can't enter", Minus),
    ],
    outputs: &[gives("volume", "1", "volume relative to that in the isotonic solution")],
    assumptions: "no wall, only solutes that can't cross count, no active regulation; animal cells burst near V/V0 = 1.7; \
                  lipid vesicles have b near 0 and can hardly swell, so only Π ≥ Π0. A solute's concentration is its amount \
                  over the volume it can enter",
    source: "Boyle–van 't Hoff relation; Lucké & McCutcheon 1932; Ponder 1948 (from memory)",
    setup: "{inactive} + (1 − {inactive})({osmolarity_iso})/({osmolarity})",
    example: "inactive=0.4 osmolarity_iso=0.29 osmolarity=0.15:1:0.05",
    eval: |v| {
        let [inactive, iso, osmolarity] = numbers(v)?;
        one(inactive + (1.0 - inactive) * iso / osmolarity)
    },
    inverses: &[
        solved("inactive", |out, v| {
            let [_, iso, osmolarity] = given(v)?;
            found((out - iso / osmolarity) / (1.0 - iso / osmolarity))
        }),
        solved("osmolarity_iso", |out, v| given(v).and_then(|[b, _, p]: [f64; 3]| found((out - b) / (1.0 - b) * p))),
        solved("osmolarity", |out, v| given(v).and_then(|[b, iso, _]: [f64; 3]| found((1.0 - b) * iso / (out - b)))),
    ],
};

const VOLUME_FROM_POTENTIAL: Law = Law {
    id: "volume-from-potential",
    family: FAMILY,
    title: "relative volume of a cell or vesicle, from water potentials",
    formula: "V/V0 = b + (1 − b)·Ψ0/Ψ",
    inputs: &[
        number("inactive", "b", "1", INACTIVE, "share of the volume that holds no free water", DAMPS),
        number("potential_iso", "Ψ0", "bar", (-1e3, -1e-3), "outside water potential at which the volume is V0", Minus),
        number("potential", "Ψ", "bar", (-1e3, -1e-3), "outside water potential", Plus),
    ],
    outputs: &[gives("volume", "1", "volume relative to that in the isotonic solution")],
    assumptions: "as relative-volume, with solutions open to the air, so that water potential is solute potential and both \
                  are negative; one temperature",
    source: "Boyle–van 't Hoff relation written with water potentials; Ponder 1948 (from memory)",
    setup: "{inactive} + (1 − {inactive})({potential_iso})/({potential})",
    example: "inactive=0.05 potential_iso=-4.9 potential=-15:-4.9:0.5",
    eval: |v| {
        let [inactive, iso, potential] = numbers(v)?;
        one(inactive + (1.0 - inactive) * iso / potential)
    },
    inverses: &[
        solved("potential_iso", |out, v| given(v).and_then(|[b, _, p]: [f64; 3]| found((out - b) / (1.0 - b) * p))),
        solved("potential", |out, v| given(v).and_then(|[b, iso, _]: [f64; 3]| found((1.0 - b) * iso / (out - b)))),
    ],
};

const CONTAINED_CONCENTRATION: Law = Law {
    id: "contained-concentration",
    family: FAMILY,
    title: "concentration of a trapped solute when the volume changes",
    formula: "c = c0/(V/V0)",
    inputs: &[
        number("start", "c0", "mmol/L", (0.0, 1e5), "concentration at the starting volume", Plus),
        number("relative_volume", "V/V0", "1", VOLUMES, "volume relative to the starting volume", Minus),
    ],
    outputs: &[gives("concentration", "mmol/L", "concentration now")],
    assumptions: "the amount is kept, and the solute fills the whole volume",
    source: "mass balance (textbook)",
    setup: "({start})/{relative_volume}",
    example: "start=40 relative_volume=0.3:1.2:0.05",
    eval: |v| {
        let [start, volume] = numbers(v)?;
        one(start / volume)
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, volume]: [f64; 2]| found(out * volume))),
        solved("relative_volume", |out, v| given(v).and_then(|[start, _]: [f64; 2]| found(start / out))),
    ],
};

const SOLIDS_FRACTION: Law = Law {
    id: "solids-fraction",
    family: FAMILY,
    title: "share of the volume that solids take up when the volume changes",
    formula: "f = f0/(V/V0)",
    inputs: &[
        number("start", "f0", "1", FRACTION, "share at the starting volume", Plus),
        number("relative_volume", "V/V0", "1", VOLUMES, "volume relative to the starting volume", Minus),
    ],
    outputs: &[gives("fraction", "1", "share now")],
    assumptions: "only water leaves or enters",
    source: "mass balance (textbook)",
    setup: "{start}/{relative_volume}",
    example: "start=0.2 relative_volume=0.3:1.2:0.05",
    eval: |v| {
        let [start, volume] = numbers(v)?;
        ensure(start <= volume, "the volume can't be less than that of its solids")?;
        one(start / volume)
    },
    inverses: &[
        solved("start", |out, v| given(v).and_then(|[_, volume]: [f64; 2]| found(out * volume))),
        solved("relative_volume", |out, v| given(v).and_then(|[start, _]: [f64; 2]| found(start / out))),
    ],
};
