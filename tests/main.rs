//! The one integration binary: files by capability.

mod laws;
