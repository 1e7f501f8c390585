//! The laws and quantities: outside values, properties, the commands.

#![cfg(test)]

mod commands;
mod limits;
mod properties;
mod quantities;
mod reference;
