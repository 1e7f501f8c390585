//! Toehold: original invented-technique questions whose data are computed and whose answers are proved.
//!
//! A scenario's way through the house, room by room, each knowing only those before it:
//! [`concepts`] are read and checked into a graph; [`reasoning`] derives what follows from signs; [`technique`] draws a
//! path that nobody has walked; [`experiment`] runs its [`laws`] in [`quantity`] units; [`scenario`] writes it down where
//! both agree; [`paper`] puts several on one table; [`progress`] keeps what came of them; [`coverage`] tells what they
//! exercise and what is missing; [`atlas`] shows the graph, [`author`] helps to extend it; [`cli`] is the door.

pub mod atlas;
pub mod author;
pub mod cli;
pub mod concepts;
pub mod coverage;
pub mod diagnostic;
pub mod experiment;
pub mod guide;
pub mod laws;
pub mod paper;
pub mod plan;
pub mod progress;
pub mod proof;
pub mod quantity;
pub mod reasoning;
pub mod render;
pub mod review;
pub mod scenario;
pub mod seed;
pub mod source;
pub mod technique;
