//! Facts: what in a text can be right or wrong. Numbers with units, signs between them, directions.

use std::ops::Range;

use crate::quantity::Unit;

/// A piece of a text: a word, or a fact with its place.
#[derive(Debug, Clone)]
pub(super) struct Token {
    /// Bytes in the file.
    pub(super) span: Range<usize>,
    pub(super) kind: Kind,
}

/// What a piece is.
#[derive(Debug, Clone)]
pub(super) enum Kind {
    /// In small letters.
    Word(String),
    /// A mark between words that numbers are listed with, or that ends a clause.
    Mark(char),
    Fact(Fact),
}

/// One fact.
#[derive(Debug, Clone)]
pub(super) enum Fact {
    Number(Number),
    /// `+`, `−`, `×`, `/` or `±` between the parts of an expression.
    Operator(char),
    Direction(Direction),
}

/// A number as written.
#[derive(Debug, Clone)]
pub(super) struct Number {
    pub(super) value: f64,
    pub(super) unit: Option<Unit>,
    /// Written in letters: "seven".
    pub(super) in_words: bool,
    /// It stands before "point" or "points".
    pub(super) of_points: bool,
}

/// A direction as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Direction {
    pub(super) way: Way,
    /// Said by a verb ("falls"), not by a comparative ("fewer").
    pub(super) verb: bool,
}

/// Where something goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Way {
    Up,
    Down,
    Level,
    /// "does not rise".
    NotUp,
    /// "does not fall".
    NotDown,
}

impl Token {
    /// The fact, if it is one.
    pub(super) fn fact(&self) -> Option<&Fact> {
        match &self.kind {
            Kind::Fact(fact) => Some(fact),
            Kind::Word(_) | Kind::Mark(_) => None,
        }
    }

    /// What makes two pieces the same.
    pub(super) fn key(&self) -> String {
        match &self.kind {
            Kind::Word(word) => format!("w{word}"),
            Kind::Mark(mark) => format!("m{mark}"),
            Kind::Fact(fact) => fact.key(),
        }
    }
}

impl Fact {
    /// What makes two facts the same: 0.25 mol/L is 250 mmol/L, "seven" is 7, "rises" is "goes up".
    pub(super) fn key(&self) -> String {
        match self {
            Self::Number(number) => number.key(),
            Self::Operator(sign) => format!("o{sign}"),
            Self::Direction(direction) => format!("d{:?}", direction.way),
        }
    }
}

impl Number {
    fn key(&self) -> String {
        let Some(unit) = &self.unit else { return format!("n{}", canonical(self.value)) };
        let base = base(unit).and_then(|base| unit.convert(self.value, &base).ok());
        // An osmole is a mole of particles: the same to a calculator, another thing to a reader.
        let particles = if super::unit::counts_particles(unit) { " osm" } else { "" };
        match base {
            Some(value) => format!("n{} {}{particles}", canonical(value), unit.dimension()),
            None => format!("n{} {}", canonical(self.value), unit.code()),
        }
    }

    /// "One" and "two" in words are seldom counts of anything.
    pub(super) fn is_small_word(&self) -> bool {
        self.in_words && self.value < 2.5
    }

    /// Whether both measure the same kind of thing, and such a thing has a unit.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        match (&self.unit, &other.unit) {
            (Some(one), Some(other)) => one.dimension() == other.dimension(),
            _ => false,
        }
    }

    /// Whether the units say the same.
    pub(super) fn has_unit_of(&self, other: &Self) -> bool {
        match (&self.unit, &other.unit) {
            (Some(one), Some(other)) => super::unit::same(one, other),
            (None, None) => true,
            _ => false,
        }
    }
}

/// The unit of the same dimension to which all others of it are turned.
fn base(unit: &Unit) -> Option<Unit> {
    let code = unit.dimension().to_string();
    Unit::parse(if code == "1" { "1" } else { &code }).ok()
}

/// Nine digits: what conversion loses lies beyond.
fn canonical(value: f64) -> String {
    if value == 0.0 { "0".to_owned() } else { format!("{value:.8e}") }
}
