//! The laws and quantities: outside values, properties, the commands.

mod properties;
