//! Quantities: a number with a unit, units at run time by their UCUM codes, constants with their sources, and numbers
//! as readers write them.
//!
//! What for: laws state the units of their symbols; concepts, tables and guides convert and print them.
//! **Must not know**: laws, the concept graph, files.

mod atoms;
pub mod constants;
mod dimension;
pub mod in_words;
pub mod significant;
mod unit;

pub use dimension::Dimension;
pub use unit::{Unit, UnitError};

/// A number with its unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// How many of the unit.
    pub value: f64,
    /// The unit.
    pub unit: Unit,
}

impl Quantity {
    /// A number with its unit.
    pub fn new(value: f64, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// The same quantity in another unit.
    ///
    /// # Errors
    /// The dimensions differ.
    pub fn to(&self, unit: &Unit) -> Result<Self, UnitError> {
        Ok(Self { value: self.unit.convert(self.value, unit)?, unit: unit.clone() })
    }

    /// As a reader writes it, to so many significant figures: "0.30 mol/L", "−7.4 bar", "64 %".
    pub fn display(&self, figures: usize) -> String {
        self.unit.attach(&significant::figures(self.value, figures))
    }
}
