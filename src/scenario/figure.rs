//! What the figures of a scenario show, as plain data: the room that draws them knows no graph.

use serde::{Deserialize, Serialize};

use super::Column;

/// What the figures need.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Figure {
    /// Title of the data plot.
    pub title: String,
    /// Horizontal axis.
    pub x: Column,
    /// Vertical axis.
    pub y: Column,
    /// Bars for categories, a line for amounts.
    pub bars: bool,
    /// The reader is to draw it: a student's copy has an empty grid instead.
    pub to_draw: bool,
    /// The plot in words.
    pub alternative: String,
    /// Container of the schematic.
    pub picture: String,
}

/// What a plot needs beside the data table.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontPlot {
    /// Title.
    pub title: String,
    /// Bars for categories, a line for amounts.
    pub bars: bool,
}
