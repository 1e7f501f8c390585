//! The one integration binary: files by capability.

#[cfg(test)]
mod broken;
#[cfg(test)]
mod check;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod mutation;
#[cfg(test)]
mod program;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod signs;
