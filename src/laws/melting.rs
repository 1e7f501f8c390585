//! Nearest-neighbour melting of a DNA duplex.

use super::law::LawError;
use super::row::{count, impossible, kelvin};
use crate::quantity::constants::GAS_CAL;

/// Neighbours 5′ to 3′ on one strand: enthalpy in kcal/mol, entropy in cal/(mol·K), 1 mol/L sodium ions.
///
/// # Source
/// `SantaLucia` 1998 PNAS 95:1460, Table 1 (unified), as in Biopython 1.88 `DNA_NN3`.
const NEIGHBOURS: [(&[u8; 2], f64, f64); 10] = [
    (b"AA", -7.9, -22.2),
    (b"AT", -7.2, -20.4),
    (b"TA", -7.2, -21.3),
    (b"CA", -8.5, -22.7),
    (b"GT", -8.4, -22.4),
    (b"CT", -7.8, -21.0),
    (b"GA", -8.2, -22.2),
    (b"CG", -10.6, -27.2),
    (b"GC", -9.8, -24.4),
    (b"GG", -8.0, -19.9),
];
/// Each end that is a G·C or an A·T pair.
const END_STRONG: (f64, f64) = (0.1, -2.8);
const END_WEAK: (f64, f64) = (2.3, 4.1);
/// A strand that pairs with its own kind.
const SYMMETRY: f64 = -1.4;
/// Entropy that each phosphate within the duplex adds per ln of the sodium concentration, cal/(mol·K).
const SALT: f64 = 0.368;

/// The bases as capitals; U is read as T.
///
/// # Errors
/// Anything but A, C, G, T, U and blanks; nothing at all.
pub(super) fn bases(sequence: &str) -> Result<Vec<u8>, LawError> {
    let bases: Vec<u8> = sequence
        .chars()
        .filter(|c| !c.is_whitespace())
        .map(|c| match c.to_ascii_uppercase() {
            'A' => Ok(b'A'),
            'C' => Ok(b'C'),
            'G' => Ok(b'G'),
            'T' | 'U' => Ok(b'T'),
            odd => Err(LawError::Impossible(format!("`{odd}` in `sequence` is not a base (A, C, G, T)"))),
        })
        .collect::<Result<_, _>>()?;
    if bases.is_empty() { Err(impossible("`sequence` is empty")) } else { Ok(bases) }
}

/// The base that pairs with this one.
pub(super) fn complement(base: u8) -> u8 {
    match base {
        b'A' => b'T',
        b'T' => b'A',
        b'C' => b'G',
        b'G' => b'C',
        other => other,
    }
}

/// Melting temperature (°C), enthalpy (kcal/mol), entropy in 1 mol/L sodium ions (cal/(mol·K)).
///
/// # Errors
/// Letters that are no bases; fewer than two of them.
pub(super) fn nearest_neighbour(sequence: &str, sodium_mmol: f64, strand_nmol: f64) -> Result<[f64; 3], LawError> {
    let bases = bases(sequence)?;
    let (Some(first), Some(last), true) = (bases.first(), bases.last(), bases.len() >= 2) else {
        return Err(impossible("`sequence` must have at least two bases: neighbours are counted"));
    };
    let mut enthalpy = 0.0;
    let mut entropy = 0.0;
    let mut add = |(h, s): (f64, f64)| {
        enthalpy += h;
        entropy += s;
    };
    for pair in bases.windows(2) {
        if let [one, two] = pair {
            add(neighbour(*one, *two));
        }
    }
    for end in [first, last] {
        add(if matches!(end, b'G' | b'C') { END_STRONG } else { END_WEAK });
    }
    let symmetric = bases.iter().eq(bases.iter().rev().map(|base| complement(*base)).collect::<Vec<_>>().iter());
    if symmetric {
        add((0.0, SYMMETRY));
    }
    let salt = SALT * count(bases.len() - 1) * libm::log(sodium_mmol / 1000.0);
    let share = if symmetric { 1.0 } else { 4.0 };
    let strands = GAS_CAL.value * libm::log(strand_nmol * 1e-9 / share);
    let melting = 1000.0 * enthalpy / (entropy + salt + strands) - kelvin(0.0);
    Ok([melting, enthalpy, entropy])
}

/// The table's row for two bases, read from whichever strand it is written for.
fn neighbour(one: u8, two: u8) -> (f64, f64) {
    let other = [complement(two), complement(one)];
    NEIGHBOURS
        .iter()
        .find(|(pair, _, _)| **pair == [one, two] || **pair == other)
        .map_or((0.0, 0.0), |(_, h, s)| (*h, *s))
}
