//! A run along a lane between two electrodes, seen from above.

use super::icons;
use super::sketch::{Sketch, has};
use crate::render::figure::ink::{STROKE, circle, frame, line, tint};
use crate::scenario::{Panel, Shape};

/// The lane with its electrodes, start line and ruler.
pub(super) fn draw(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    sketch.add(frame(22.0, 54.0, 106.0, 34.0, STROKE + 0.3));
    sketch.add(tint(22.0, 54.0, 106.0, 34.0, 0.08));
    sketch.mark(Shape::Lane, 112.0, 71.0);
    for (shape, x, y) in [(Shape::Minus, 13.0, 14.0), (Shape::Plus, 137.0, 38.0)] {
        sketch.add(line(x, y + 8.0, x, 92.0, 3.0));
        sketch.add(circle(x, y, 8.0, STROKE));
        sketch.add(line(x - 4.0, y, x + 4.0, y, 1.8));
        if shape == Shape::Plus {
            sketch.add(line(x, y - 4.0, x, y + 4.0, 1.8));
        }
        sketch.mark(shape, x + 8.0, y);
    }
    let (shape, x) = if has(panel, Shape::MiddleLine) { (Shape::MiddleLine, 75.0) } else { (Shape::StartLine, 36.0) };
    sketch.add(tint(x - 2.5, 58.0, 5.0, 26.0, 1.0));
    sketch.add(line(x, 46.0, x, 100.0, 1.2).set("stroke-dasharray", "3 2.5"));
    sketch.mark(shape, x, 97.0);
    let (from, length) = if shape == Shape::MiddleLine { (22.0, 53.0) } else { (36.0, 92.0) };
    sketch.add(icons::ruler(from, 112.0, length));
    sketch.mark(Shape::Ruler, from + length, 120.0);
    sketch
}
