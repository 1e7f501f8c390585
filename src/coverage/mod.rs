//! What questions exercise: items, the matrix of principles and items, gaps, and the smallest set that covers all.
//!
//! Comes in: the graph and texts. Goes out: [`Item`]s and what follows from many of them. **Must not know**: files on
//! disk, laws, seeds; whether what an item says is right.

mod bits;
mod class;
mod cover;
mod gaps;
mod heat;
mod item;
mod matrix;
mod order;
pub mod report;
mod terms;
mod text;

pub use bits::Bits;
pub use class::{Class, ClassError, Points, is_progress_file};
pub use cover::{Cover, smallest};
pub use gaps::{Pair, joinable, never_together, target};
pub use heat::heat_map;
pub use item::{ItemError, of_scenario};
pub use matrix::{Matrix, Total};
pub use order::{Placed, in_order};
pub use terms::skill;
pub use text::TextReader;

use crate::concepts::{FieldIx, InfluenceIx, PrincipleIx};

/// Strength from which on an item counts as exercising a principle.
pub const COUNTS: f64 = 0.6;

/// One question, or one part of a longer text.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The file that it stands in.
    pub file: String,
    /// Which question of the file, where it holds several: its number or heading.
    pub part: Option<String>,
    /// Its title.
    pub title: String,
    /// Principles, strongest first.
    pub principles: Vec<Exercised>,
    /// Fields of the principles that it exercises, in the order met.
    pub fields: Vec<FieldIx>,
    /// What it asks for (`explain`, `calculate`, ...), each once.
    pub command_terms: Vec<String>,
    /// Skills that it calls on, each once.
    pub skills: Vec<String>,
    /// How hard it is, where that can be told.
    pub difficulty: Option<Difficulty>,
}

impl Item {
    /// The principles that it exercises; those that it merely rests on left out.
    pub fn exercises(&self) -> impl Iterator<Item = PrincipleIx> + '_ {
        self.principles.iter().filter(|one| one.counts()).map(|one| one.principle)
    }

    /// File and part, for messages and tables.
    pub fn label(&self) -> String {
        self.part.as_ref().map_or_else(|| self.file.clone(), |part| format!("{} ({part})", self.file))
    }
}

/// A principle in an item.
#[derive(Debug, Clone, PartialEq)]
pub struct Exercised {
    /// The principle.
    pub principle: PrincipleIx,
    /// How that is known.
    pub how: How,
    /// From 0 to 1.
    pub strength: f64,
    /// What shows it.
    pub evidence: Evidence,
}

impl Exercised {
    /// Whether the item exercises it, rather than leaning on it or touching it.
    pub fn counts(&self) -> bool {
        self.how != How::Prerequisite && self.strength >= COUNTS
    }
}

/// How it is known that an item has to do with a principle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// A step of the path in its front matter.
    Path,
    /// Words of its text.
    Text,
    /// A principle that it exercises requires it.
    Prerequisite,
}

impl How {
    /// `path`, `text` or `prerequisite`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Path => "path",
            Self::Text => "text",
            Self::Prerequisite => "prerequisite",
        }
    }
}

/// What shows that an item has to do with a principle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Evidence {
    /// This step of its path.
    Step(InfluenceIx),
    /// This sentence, on this line of the file (counted from 1).
    Sentence(Box<str>, u32),
    /// This principle, which requires it.
    RequiredBy(PrincipleIx),
}

/// How hard a generated question is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difficulty {
    /// Steps of the path.
    pub n_steps: usize,
    /// Fields crossed.
    pub n_fields: usize,
    /// Kind of the twist.
    pub twist: Option<String>,
}

impl std::fmt::Display for Difficulty {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let twist = self.twist.as_deref().unwrap_or("none");
        write!(f, "{} steps, {} fields, twist: {twist}", self.n_steps, self.n_fields)
    }
}
