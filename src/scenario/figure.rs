//! What the figures of a scenario show, as plain data: the room that draws them knows no graph.

use serde::{Deserialize, Serialize};

use super::Column;

/// What the figures need.
#[derive(Debug, Clone, PartialEq, Serialize)]
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
    /// What one would see when reading, where that is a picture.
    pub readings: Option<Readings>,
    /// Samples of known size beside them.
    pub standard: Vec<Known>,
    /// The apparatus, stage by stage.
    pub panels: Vec<Panel>,
}

/// What a plot needs beside the data table.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontPlot {
    /// Title.
    pub title: String,
    /// Bars for categories, a line for amounts.
    pub bars: bool,
    /// What one would see when reading, where that is a picture.
    #[serde(default)]
    pub readings: Option<Readings>,
    /// Samples of known size beside them.
    #[serde(default)]
    pub standard: Vec<Known>,
}

/// A sample of known size, and where it would be seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    /// Its size with its unit.
    pub size: String,
    /// Its reading, in the readout's unit.
    pub at: f64,
}

/// What the readings look like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Readings {
    /// One band in a lane, at its distance from the start line.
    Bands,
    /// A smear in a lane, of pieces of every length; its middle at its distance from the start line.
    Smears,
    /// A zone in a channel, at its distance from the middle.
    Zones,
    /// Containers that shine: more is brighter.
    Shining,
    /// Containers that take up light: more is darker.
    Dark,
    /// Containers that let light through: more is lighter.
    Clear,
}

/// One stage of the apparatus.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Panel {
    /// What it is called.
    pub title: String,
    /// Its arrangement.
    pub scene: Scene,
    /// What stands in it, each with its label.
    pub items: Vec<Item>,
}

/// An arrangement of things.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scene {
    /// Things in a liquid.
    Liquid,
    /// A liquid pressed through a filter.
    Filter,
    /// Things spun down, and what is made of them.
    Spin,
    /// A run in an electric field.
    Run,
    /// Light sent through a container.
    Through,
    /// A camera or a counter above containers.
    Above,
    /// Gas collected.
    Gas,
    /// A closed chamber in the light.
    Chamber,
}

/// A thing in a panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// How it is drawn.
    pub shape: Shape,
    /// What it is called.
    pub label: String,
}

/// How a thing is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// A wide open vessel.
    Beaker,
    /// A round-bottomed tube.
    Tube,
    /// A conical flask.
    Flask,
    /// A plate of wells.
    Wells,
    /// A flat-sided glass.
    Cuvette,
    /// A flat trough.
    Trough,
    /// A closed chamber.
    Chamber,
    /// A syringe.
    Syringe,
    /// A lane of gel or buffer between electrodes.
    Lane,
    /// A liquid in the container.
    Liquid,
    /// A drop that is added.
    Drop,
    /// A vesicle, cut open.
    Vesicle,
    /// A cell.
    Cell,
    /// The double layer of a wall.
    Bilayer,
    /// A hollow barrel in a wall.
    Barrel,
    /// A gate in a wall.
    Gate,
    /// Something small inside the specimen.
    Cargo,
    /// A second small thing inside the specimen.
    SecondCargo,
    /// Something small in the liquid around it.
    Particles,
    /// A second small thing in the liquid.
    SecondParticles,
    /// Enzyme molecules with their active sites.
    Enzyme,
    /// Substrate molecules.
    Substrate,
    /// Inhibitor molecules.
    Inhibitor,
    /// Long double-stranded DNA.
    Dna,
    /// Pieces of double-stranded DNA with an enzyme molecule on each end.
    EndedDna,
    /// Short single strands of two kinds.
    Strands,
    /// A strand folded into a loop, with the stem that closes it.
    Loop,
    /// Two strands joined by a double-stranded spacer.
    Spacer,
    /// Strands of one kind inside the specimen.
    InnerStrands,
    /// A bead with strands on it.
    Bead,
    /// Beads with enzyme molecules bound to them.
    LoadedBead,
    /// The enzyme that a strand carries.
    StrandEnzyme,
    /// A label on a strand.
    FirstLabel,
    /// A label on the other strand, beside it once they are paired.
    SecondLabel,
    /// A label at the far end of the first strand.
    FarLabel,
    /// Many small things held back or left behind.
    Held,
    /// Many small things spun down, and used.
    Pellet,
    /// Liquid above a pellet that is not used.
    Waste,
    /// A magnet beside a vessel.
    Magnet,
    /// A filter.
    Filter,
    /// Cells in a culture.
    Culture,
    /// A thermometer.
    Thermometer,
    /// A clock.
    Clock,
    /// Compasses across the specimen.
    Compasses,
    /// A lamp.
    Lamp,
    /// A coloured glass before the reader.
    ColourGlass,
    /// What reads the light that passes.
    Meter,
    /// A camera.
    Camera,
    /// A counter of photons.
    Counter,
    /// A light-tight box.
    DarkBox,
    /// A graduated capillary.
    Capillary,
    /// Discs of leaf.
    Leaf,
    /// A probe in the lid.
    Probe,
    /// A film on the wall.
    Film,
    /// A trough between the lamp and the chamber.
    TroughBetween,
    /// The line from which a run starts, at one end.
    StartLine,
    /// The line from which a run starts, in the middle.
    MiddleLine,
    /// The negative electrode.
    Minus,
    /// The positive electrode.
    Plus,
    /// A ruler.
    Ruler,
}
