//! The laws and quantities: outside values, properties, the commands.

#![cfg(test)]

mod properties;
