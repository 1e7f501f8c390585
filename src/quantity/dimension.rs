//! Dimensions: the exponents of the base units, so that unlike things are never added.

use std::fmt;

/// Names of the base units, in the order of [`Dimension`]'s exponents. The first six are those of the SI that the field
/// uses; the rest are counted things that must not be mixed up with plain numbers.
const BASES: [&str; N_BASES] = ["m", "g", "s", "K", "mol", "A", "bp", "nt", "CFU", "cM"];

/// How many base units there are.
pub(super) const N_BASES: usize = 10;

/// Exponents of the base units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Dimension {
    exponents: [i16; N_BASES],
}

impl Dimension {
    /// The dimension of a plain number.
    pub const NONE: Self = Self { exponents: [0; N_BASES] };

    /// A dimension from its exponents, in the order m, g, s, K, mol, A, bp, nt, CFU, cM.
    pub(super) const fn new(exponents: [i16; N_BASES]) -> Self {
        Self { exponents }
    }

    /// The product of this and the other raised to a power.
    #[must_use]
    pub(super) fn times(self, other: Self, power: i16) -> Self {
        let mut exponents = self.exponents;
        for (mine, theirs) in exponents.iter_mut().zip(other.exponents) {
            *mine = mine.saturating_add(theirs.saturating_mul(power));
        }
        Self { exponents }
    }

    /// Whether it is that of a plain number.
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }
}

impl fmt::Display for Dimension {
    /// The base units with their exponents ("m2.s-1"), "1" for a plain number.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_none() {
            return f.write_str("1");
        }
        let mut separator = "";
        for (base, exponent) in BASES.iter().zip(self.exponents) {
            match exponent {
                0 => continue,
                1 => write!(f, "{separator}{base}")?,
                power => write!(f, "{separator}{base}{power}")?,
            }
            separator = ".";
        }
        Ok(())
    }
}
