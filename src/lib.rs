//! Toehold: original invented-technique questions whose data are computed and whose answers are proved.
//!
//! A scenario's way through the house, room by room, each knowing only those before it:
//! [`concepts`] are read and checked into a graph; [`reasoning`] derives what follows from signs; [`technique`] draws a
//! path that nobody has walked; [`experiment`] runs its [`laws`] in [`quantity`] units; [`scenario`] writes it down where
//! both agree; [`render`] shows it; [`proof`] checks a file against what it should say; [`cli`] is the door.

pub mod source;
pub mod diagnostic;
pub mod quantity;
pub mod laws;
pub mod concepts;
pub mod reasoning;
pub mod seed;
pub mod technique;
pub mod experiment;
pub mod scenario;
pub mod cli;
