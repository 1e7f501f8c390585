//! The reviewer: on the marking set, on every relation of the graph, beside outside sets, from the command line, and as WebAssembly.

mod everyday;
mod figures;
mod marking;
mod outside;
mod own;
mod program;
mod relations;
mod wasm;
