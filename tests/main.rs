//! The one integration binary: files by capability.

#![expect(clippy::print_stdout, reason = "tests show the figures that they measured")]
#![expect(clippy::string_slice, reason = "tests cut texts at places that they found themselves")]

#[cfg(test)]
mod author;
#[cfg(test)]
mod broken;
#[cfg(test)]
mod check;
#[cfg(test)]
mod diagram;
#[cfg(test)]
mod graph;
#[cfg(test)]
mod house;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod map;
#[cfg(test)]
mod mutation;
#[cfg(test)]
mod paper;
#[cfg(test)]
mod practice;
#[cfg(test)]
mod program;
#[cfg(test)]
mod progress;
#[cfg(test)]
mod proof;
#[cfg(test)]
mod proofread;
#[cfg(test)]
mod render;
#[cfg(test)]
mod review;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod shapes;
#[cfg(test)]
mod signs;
