//! An empty grid on which a reader draws a graph: lines for title, axis titles and units, and no numbers.

use svg::node::element::Group;

use super::ink::{Anchor, SMALL, STROKE, line, text};
use super::picture::Picture;

/// Distance between two lines.
const CELL: f64 = 12.0;
/// Cells between two stronger lines.
const STRONG: u16 = 5;
/// Room to the left, for the title of the vertical axis.
const LEFT: f64 = 44.0;
/// Room above, for the title.
const TOP: f64 = 40.0;
/// Room below, for the title of the horizontal axis.
const BELOW: f64 = 46.0;

/// A grid of so many cells; `number` keeps several on one page apart.
pub fn blank_grid(columns: u16, rows: u16, number: usize) -> Picture {
    let (wide, high) = (CELL * f64::from(columns), CELL * f64::from(rows));
    let (width, height) = (LEFT + wide + 12.0, TOP + high + BELOW);
    let stroke = |place: u16| if place.is_multiple_of(STRONG) { (1.1, 0.75) } else { (0.6, 0.45) };
    let mut body = Group::new();
    for column in 0..=columns {
        let (x, (weight, shade)) = (LEFT + CELL * f64::from(column), stroke(column));
        body = body.add(line(x, TOP, x, TOP + high, weight).set("stroke-opacity", shade));
    }
    for row in 0..=rows {
        // Counted from below, where a reader starts the scale.
        let (y, (weight, shade)) = (TOP + high - CELL * f64::from(row), stroke(row));
        body = body.add(line(LEFT, y, LEFT + wide, y, weight).set("stroke-opacity", shade));
    }
    body = body
        .add(line(LEFT, TOP, LEFT, TOP + high, STROKE))
        .add(line(LEFT, TOP + high, LEFT + wide, TOP + high, STROKE))
        .add(text(LEFT, 22.0, SMALL, Anchor::Start, "Title:"))
        .add(line(LEFT + 34.0, 24.0, LEFT + wide, 24.0, 0.8))
        .add(line(16.0, TOP, 16.0, TOP + high, 0.8))
        .add(line(LEFT, height - 12.0, LEFT + wide, height - 12.0, 0.8));
    Picture {
        name: format!("grid-{number}"),
        width,
        height,
        title: "Empty grid for a graph".into(),
        description: format!(
            "A grid of {columns} by {rows} squares with a line for a title and one beside each axis for its title and unit."
        ),
        body,
    }
}
