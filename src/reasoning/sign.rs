//! Signs and directions, and how they multiply.

use std::fmt;

/// Direction of an influence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// Raising one lowers the other.
    Minus,
    /// Raising one raises the other.
    Plus,
}

impl Sign {
    /// The sign of two influences in a row.
    #[must_use]
    pub fn times(self, other: Self) -> Self {
        if self == other { Self::Plus } else { Self::Minus }
    }

    /// The opposite sign.
    #[must_use]
    pub fn flipped(self) -> Self {
        self.times(Self::Minus)
    }

    /// `+` or `-`, for files.
    pub fn ascii(self) -> &'static str {
        match self {
            Self::Minus => "-",
            Self::Plus => "+",
        }
    }
}

impl fmt::Display for Sign {
    /// `+` or `−`, for readers.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Minus => "−",
            Self::Plus => "+",
        })
    }
}

/// Sign of a step under a twist: it may not act at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StepSign {
    /// Acts with this sign.
    Acts(Sign),
    /// Does not act.
    Zero,
}

impl StepSign {
    /// `+`, `-` or `0`, for files.
    pub fn ascii(self) -> &'static str {
        match self {
            Self::Acts(sign) => sign.ascii(),
            Self::Zero => "0",
        }
    }
}

/// What a quantity does when the treatment is raised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// Goes up.
    Rises,
    /// Goes down.
    Falls,
    /// Stays.
    Unchanged,
}

impl Direction {
    /// The word for readers and files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Rises => "rises",
            Self::Falls => "falls",
            Self::Unchanged => "unchanged",
        }
    }

    /// What the next quantity does after a step of this sign.
    #[must_use]
    pub fn after(self, step: StepSign) -> Self {
        match (self, step) {
            (_, StepSign::Zero) | (Self::Unchanged, _) => Self::Unchanged,
            (direction, StepSign::Acts(Sign::Plus)) => direction,
            (Self::Rises, StepSign::Acts(Sign::Minus)) => Self::Falls,
            (Self::Falls, StepSign::Acts(Sign::Minus)) => Self::Rises,
        }
    }
}

impl From<Sign> for Direction {
    fn from(sign: Sign) -> Self {
        match sign {
            Sign::Plus => Self::Rises,
            Sign::Minus => Self::Falls,
        }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
