//! The reviewer: on the marking set, beside outside sets, from the command line, and as WebAssembly.

mod figures;
mod marking;
mod outside;
mod program;
mod wasm;
