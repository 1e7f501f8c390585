//! The sign of an effect.

use std::fmt;

/// Whether more of the cause means more or less of the effect.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// More of the cause, less of the effect.
    Minus,
    /// More of the cause, more of the effect.
    Plus,
}

impl Sign {
    /// The sign of one effect carried on by another.
    #[must_use]
    pub fn times(self, other: Self) -> Self {
        if self == other { Self::Plus } else { Self::Minus }
    }

    /// The other sign.
    #[must_use]
    pub fn flipped(self) -> Self {
        self.times(Self::Minus)
    }

    /// For machines: `+` or `-`.
    pub fn ascii(self) -> &'static str {
        match self {
            Self::Plus => "+",
            Self::Minus => "-",
        }
    }
}

/// For readers: `+` or `−` (the minus sign, not the hyphen).
impl fmt::Display for Sign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Plus => "+",
            Self::Minus => "−",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Sign::{Minus, Plus};

    #[test]
    fn two_minuses_make_a_plus() {
        assert_eq!(Minus.times(Minus), Plus);
        assert_eq!(Minus.times(Plus), Minus);
        assert_eq!(Plus.flipped(), Minus);
    }

    #[test]
    fn readers_and_machines_see_different_minus_signs() {
        assert_eq!((Minus.ascii(), Minus.to_string().as_str()), ("-", "−"));
    }
}
