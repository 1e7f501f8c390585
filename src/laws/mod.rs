//! The laws: published formulas of laboratory biology, each with its symbols, units, valid range and source.
//!
//! What for: a technique's data are computed by composing these; a calculation part shows their setup.
//! Comes in: values in the units that each symbol states. Goes out: values in the stated output units.
//! **Must not know**: the concept graph, signs of influences, scenarios, prose, randomness.
//!
//! A family of laws is one file (or a few) with one `const LAWS: &[Law]` each; [`all`] chains them in order.

mod amounts;
mod binding;
mod charge;
mod conditions;
mod diffusion;
mod digest;
mod ecology;
mod enzymes;
mod expression;
mod fits;
mod heredity;
mod law;
mod light;
mod melting;
mod nucleic;
mod passage;
mod potential;
mod row;
mod separation;
mod setup;
mod statistics;
mod typed;
mod water;

pub use law::{Effect, Inverse, Kind, Law, LawError, Output, Symbol, UnitRule, Value};
pub use setup::{Setup, Written};
pub use typed::{Range, Typed, TypedError, nearest};

/// Every law, family by family, in the order of the manual.
pub fn all() -> impl Iterator<Item = &'static Law> {
    [
        separation::LAWS,
        diffusion::LAWS,
        water::LAWS,
        potential::LAWS,
        enzymes::LAWS,
        conditions::LAWS,
        binding::LAWS,
        light::LAWS,
        nucleic::LAWS,
        expression::LAWS,
        heredity::LAWS,
        ecology::LAWS,
        statistics::LAWS,
        fits::LAWS,
        amounts::LAWS,
        passage::LAWS,
    ]
    .into_iter()
    .flatten()
}

/// The law of this id.
pub fn find(id: &str) -> Option<&'static Law> {
    all().find(|law| law.id == id)
}
