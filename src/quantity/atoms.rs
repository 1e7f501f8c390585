//! The table of unit atoms and prefixes.
//!
//! Codes are those of UCUM (the Unified Code for Units of Measure) where it has one. Arbitrary units that UCUM lacks and
//! the field cannot do without are added under the plain name that everybody writes: `bp`, `nt`, `CFU`, `cM`; and
//! `mmHg`, `osmol` and `degC` are read as `mm[Hg]`, `osm` and `Cel`. The elementary charge is UCUM's `[e]`.

use super::dimension::{Dimension, N_BASES};

/// One unit atom.
#[derive(Debug, Clone, Copy)]
pub(super) struct Atom {
    /// The code.
    pub(super) code: &'static str,
    /// As a reader sees it.
    pub(super) display: &'static str,
    /// How many base units (m, g, s, K, mol, A, bp, nt, CFU, cM) it is.
    pub(super) factor: f64,
    /// Its dimension.
    pub(super) dimension: Dimension,
    /// Whether prefixes may stand before it.
    pub(super) metric: bool,
}

/// Exponents from (place, exponent) pairs; places as in [`Dimension`].
const fn dim(pairs: &[(usize, i16)]) -> Dimension {
    let mut exponents = [0; N_BASES];
    let mut rest = pairs;
    while let [(place, exponent), tail @ ..] = rest {
        if let Some((_, after)) = exponents.split_at_mut_checked(*place)
            && let [slot, ..] = after
        {
            *slot = *exponent;
        }
        rest = tail;
    }
    Dimension::new(exponents)
}

const fn metric(code: &'static str, factor: f64, pairs: &[(usize, i16)]) -> Atom {
    Atom { code, display: code, factor, dimension: dim(pairs), metric: true }
}

const fn plain(code: &'static str, factor: f64, pairs: &[(usize, i16)]) -> Atom {
    Atom { code, display: code, factor, dimension: dim(pairs), metric: false }
}

const fn shown(display: &'static str, atom: Atom) -> Atom {
    Atom { display, ..atom }
}

const LENGTH: usize = 0;
const MASS: usize = 1;
const TIME: usize = 2;
const KELVIN: usize = 3;
const AMOUNT: usize = 4;
const CURRENT: usize = 5;

const ENERGY: &[(usize, i16)] = &[(MASS, 1), (LENGTH, 2), (TIME, -2)];
const PRESSURE: &[(usize, i16)] = &[(MASS, 1), (LENGTH, -1), (TIME, -2)];

/// Every atom. The gram, not the kilogram, is the base of mass, as in UCUM; so the newton is 1000 g·m/s².
/// The mole is kept as a dimension of its own (as in the SI; UCUM counts it as a number) so that moles and litres, or
/// molecules and moles, cannot be mixed up unnoticed.
pub(super) const ATOMS: &[Atom] = &[
    metric("m", 1.0, &[(LENGTH, 1)]),
    metric("g", 1.0, &[(MASS, 1)]),
    metric("s", 1.0, &[(TIME, 1)]),
    plain("min", 60.0, &[(TIME, 1)]),
    plain("h", 3600.0, &[(TIME, 1)]),
    plain("d", 86_400.0, &[(TIME, 1)]),
    plain("wk", 604_800.0, &[(TIME, 1)]),
    plain("a", 31_557_600.0, &[(TIME, 1)]),
    metric("K", 1.0, &[(KELVIN, 1)]),
    shown("°C", plain("Cel", 1.0, &[(KELVIN, 1)])),
    metric("mol", 1.0, &[(AMOUNT, 1)]),
    shown("osmol", metric("osm", 1.0, &[(AMOUNT, 1)])),
    metric("L", 1e-3, &[(LENGTH, 3)]),
    shown("L", metric("l", 1e-3, &[(LENGTH, 3)])),
    metric("bar", 1e8, PRESSURE),
    metric("Pa", 1e3, PRESSURE),
    plain("atm", 101_325e3, PRESSURE),
    shown("mHg", metric("m[Hg]", 133_322_387.415, PRESSURE)),
    metric("J", 1e3, ENERGY),
    metric("cal", 4184.0, ENERGY),
    metric("eV", 1.602_176_634e-16, ENERGY),
    metric("N", 1e3, &[(MASS, 1), (LENGTH, 1), (TIME, -2)]),
    metric("W", 1e3, &[(MASS, 1), (LENGTH, 2), (TIME, -3)]),
    metric("A", 1.0, &[(CURRENT, 1)]),
    metric("C", 1.0, &[(CURRENT, 1), (TIME, 1)]),
    metric("V", 1e3, &[(MASS, 1), (LENGTH, 2), (TIME, -3), (CURRENT, -1)]),
    metric("Ohm", 1e3, &[(MASS, 1), (LENGTH, 2), (TIME, -3), (CURRENT, -2)]),
    metric("S", 1e-3, &[(MASS, -1), (LENGTH, -2), (TIME, 3), (CURRENT, 2)]),
    metric("Hz", 1.0, &[(TIME, -1)]),
    metric("Bq", 1.0, &[(TIME, -1)]),
    metric("kat", 1.0, &[(AMOUNT, 1), (TIME, -1)]),
    metric("U", 1e-6 / 60.0, &[(AMOUNT, 1), (TIME, -1)]),
    shown("e", plain("[e]", 1.602_176_634e-19, &[(CURRENT, 1), (TIME, 1)])),
    metric("u", 1.660_539_066_60e-24, &[(MASS, 1)]),
    metric("Da", 1.660_539_066_60e-24, &[(MASS, 1)]),
    plain("%", 0.01, &[]),
    shown("", plain("[pH]", 1.0, &[])),
    shown("ppm", plain("[ppm]", 1e-6, &[])),
    metric("bp", 1.0, &[(6, 1)]),
    metric("nt", 1.0, &[(7, 1)]),
    plain("CFU", 1.0, &[(8, 1)]),
    shown("CFU", plain("[CFU]", 1.0, &[(8, 1)])),
    plain("cM", 1.0, &[(9, 1)]),
];

/// Names that everybody writes, and the atom they are read as.
pub(super) const ALIASES: &[(&str, &str)] =
    &[("mmHg", "mm[Hg]"), ("osmol", "osm"), ("mosmol", "mosm"), ("degC", "Cel"), ("°C", "Cel")];

/// Metric prefixes: code, as a reader sees it, factor.
pub(super) const PREFIXES: &[(&str, &str, f64)] = &[
    ("da", "da", 1e1),
    ("T", "T", 1e12),
    ("G", "G", 1e9),
    ("M", "M", 1e6),
    ("k", "k", 1e3),
    ("h", "h", 1e2),
    ("d", "d", 1e-1),
    ("c", "c", 1e-2),
    ("m", "m", 1e-3),
    ("u", "µ", 1e-6),
    ("n", "n", 1e-9),
    ("p", "p", 1e-12),
    ("f", "f", 1e-15),
    ("a", "a", 1e-18),
];

/// The atom of this code, with the prefix's display and factor (nothing and 1 where there is none).
pub(super) fn find(code: &str) -> Option<(&'static str, f64, &'static Atom)> {
    let code = ALIASES.iter().find(|(alias, _)| *alias == code).map_or(code, |(_, meant)| meant);
    if let Some(atom) = ATOMS.iter().find(|atom| atom.code == code) {
        return Some(("", 1.0, atom));
    }
    PREFIXES.iter().find_map(|(prefix, display, factor)| {
        let rest = code.strip_prefix(prefix)?;
        let atom = ATOMS.iter().find(|atom| atom.metric && atom.code == rest)?;
        Some((*display, *factor, atom))
    })
}
