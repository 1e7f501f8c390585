//! Labels in a column beside the drawing, one under the other, each with a thin line to its part: none overlaps.

use svg::node::element::Group;

use super::count;
use super::sketch::Sketch;
use crate::render::figure::ink::{Anchor, SMALL, dot, line, text};
use crate::render::figure::lettering::wrap;
use crate::scenario::Panel;

/// Height of a line of letters.
const LEADING: f64 = 14.5;
/// Room between two labels.
const ROOM: f64 = 5.0;

/// A label with its place.
pub(super) struct Placed {
    lines: Vec<String>,
    /// The point of the drawing that it names.
    point: (f64, f64),
    /// The height at which it would best stand.
    wanted: f64,
    /// The top of its first line.
    top: f64,
}

impl Placed {
    fn height(&self) -> f64 {
        LEADING * count(self.lines.len())
    }

    /// The label and its line; the drawing begins at `left` and `above`, the labels at `column`.
    pub(super) fn draw(&self, left: f64, above: f64, column: f64) -> Group {
        let (x, y) = (left + self.point.0, above + self.point.1);
        // The line ends at the middle of the first line of letters.
        let end = above + self.top + LEADING / 2.0;
        let mut group = Group::new()
            .add(line(x, y, column - 10.0, end, 0.8).set("stroke-opacity", 0.75))
            .add(line(column - 10.0, end, column - 4.0, end, 0.8).set("stroke-opacity", 0.75))
            .add(dot(x, y, 1.8));
        for (row, words) in self.lines.iter().enumerate() {
            let base = above + self.top + LEADING * count(row) + 11.2;
            group = group.add(text(column, base, SMALL, Anchor::Start, words));
        }
        group
    }
}

/// The labels of a panel in the order of their points, and the height that they and the drawing take.
pub(super) fn place(panel: &Panel, sketch: &Sketch, least: f64, room: f64) -> (Vec<Placed>, f64) {
    let mut labels: Vec<Placed> = panel
        .items
        .iter()
        .filter_map(|item| {
            let point = sketch.point(item.shape)?;
            let wanted = sketch.label_y(item.shape)?;
            Some(Placed { lines: wrap(&item.label, SMALL, room), point, wanted, top: 0.0 })
        })
        .filter(|label| !label.lines.is_empty())
        .collect();
    labels.sort_by(|a, b| a.wanted.total_cmp(&b.wanted));
    let needed = labels.iter().map(|label| label.height() + ROOM).sum::<f64>() - ROOM;
    let height = needed.max(least);
    // First down from the top, each beside its point where that is free; then up again from the bottom.
    let mut free = 0.0;
    for label in &mut labels {
        label.top = (label.wanted - LEADING / 2.0).max(free);
        free = label.top + label.height() + ROOM;
    }
    let mut limit = height;
    for label in labels.iter_mut().rev() {
        label.top = label.top.min(limit - label.height()).max(0.0);
        limit = label.top - ROOM;
    }
    (labels, height)
}
