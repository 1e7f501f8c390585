//! Figures: the data plot, the empty grid, and what they are drawn with.
//!
//! Comes in: plain numbers and words. Goes out: a [`Picture`], which becomes SVG. Everything is black on the ground of
//! the page, so that nothing is said by colour. **Must not know**: the graph, files, pages.

pub mod chart;
mod grid;
pub(super) mod ink;
pub(super) mod lettering;
mod picture;
mod plot;
pub(super) mod scale;
pub mod web;

pub use chart::{Chart, Mark};
pub use grid::blank_grid;
pub use picture::Picture;
pub use plot::plot;
pub use web::{Arrow, Frame, Thing, Web, web};
