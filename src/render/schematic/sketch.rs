//! A drawing in the making: strokes, and for each item of its panel the point that its label shows.

use std::collections::BTreeMap;

use svg::Node;
use svg::node::element::Group;

use crate::scenario::{Panel, Shape};

/// A drawing.
#[derive(Debug, Clone, Default)]
pub(super) struct Sketch {
    strokes: Vec<Box<dyn Node>>,
    points: BTreeMap<Shape, (f64, f64)>,
    lifted: BTreeMap<Shape, f64>,
}

impl Sketch {
    /// A stroke on top of those before.
    pub(super) fn add(&mut self, stroke: impl Into<Box<dyn Node>>) {
        self.strokes.push(stroke.into());
    }

    /// The point of a shape at which its label's line ends.
    pub(super) fn mark(&mut self, shape: Shape, x: f64, y: f64) {
        self.points.insert(shape, (x, y));
    }

    /// The same, with the height at which the label would best stand, so that its line passes over other things.
    pub(super) fn mark_from(&mut self, shape: Shape, x: f64, y: f64, label_y: f64) {
        self.mark(shape, x, y);
        self.lifted.insert(shape, label_y);
    }

    /// The height at which the label of a shape would best stand.
    pub(super) fn label_y(&self, shape: Shape) -> Option<f64> {
        self.lifted.get(&shape).copied().or_else(|| self.point(shape).map(|(_, y)| y))
    }

    /// Where the label's line of a shape ends; `None` for one that this arrangement does not draw.
    pub(super) fn point(&self, shape: Shape) -> Option<(f64, f64)> {
        self.points.get(&shape).copied()
    }

    /// Everything drawn.
    pub(super) fn body(&self) -> Group {
        self.strokes.iter().fold(Group::new(), |group, stroke| group.add(stroke.clone()))
    }
}

/// Whether a panel has a shape.
pub(super) fn has(panel: &Panel, shape: Shape) -> bool {
    panel.items.iter().any(|item| item.shape == shape)
}
