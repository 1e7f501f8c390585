//! The one integration binary: files by capability.

mod broken;
mod check;
mod laws;
mod mutation;
mod program;
mod proofread;
mod scenarios;
mod signs;
