//! What is held back parted from what goes on: a filter, a spin.

use super::icons;
use super::sketch::{Sketch, has};
use svg::node::element::Path;

use crate::render::figure::ink::{Anchor, LETTER, STROKE, arrow, circle, frame, line, path, text, tint};
use crate::scenario::{Panel, Shape};

/// A liquid pressed through a filter into a tube, or drained off beads that a magnet holds.
pub(super) fn filter(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    if has(panel, Shape::Magnet) {
        held_by_magnet(&mut sketch);
    } else {
        pressed(&mut sketch);
    }
    sketch.add(path("M42 77 L70 86 L70 92 M108 77 L80 86 L80 92", STROKE));
    sketch.add(arrow(75.0, 90.0, 75.0, 108.0));
    sketch.add(filled("M52 118 L52 132 Q52 144 75 144 Q98 144 98 132 L98 118 Z"));
    sketch.add(path("M52 98 L52 132 Q52 144 75 144 Q98 144 98 132 L98 98", STROKE + 0.3));
    sketch.add(line(52.0, 118.0, 98.0, 118.0, 1.0));
    sketch.mark(Shape::Liquid, 90.0, 126.0);
    sketch
}

/// A liquid, in an outline of this course.
fn filled(outline: &str) -> Path {
    Path::new().set("d", outline).set("fill", "currentColor").set("fill-opacity", 0.18)
}

/// Beads at the wall beside a magnet.
fn held_by_magnet(sketch: &mut Sketch) {
    sketch.add(path("M42 12 L42 77 M108 12 L108 77", STROKE + 0.3));
    for (x, y) in [(100.0, 22.0), (100.0, 36.0), (100.0, 50.0), (100.0, 64.0), (88.0, 43.0), (88.0, 57.0)] {
        sketch.add(circle(x, y, 6.5, 1.3));
    }
    sketch.mark(Shape::Held, 104.0, 19.0);
    sketch.add(frame(113.0, 28.0, 17.0, 40.0, STROKE + 0.3));
    sketch.add(line(113.0, 48.0, 130.0, 48.0, 1.0));
    sketch.add(text(121.5, 42.0, LETTER - 1.0, Anchor::Middle, "N"));
    sketch.add(text(121.5, 62.0, LETTER - 1.0, Anchor::Middle, "S"));
    sketch.mark(Shape::Magnet, 130.0, 54.0);
}

/// Things too large for a filter above it.
fn pressed(sketch: &mut Sketch) {
    sketch.add(path("M42 12 L42 70 M108 12 L108 70 M34 12 L50 12 M100 12 L116 12", STROKE + 0.3));
    sketch.add(frame(44.0, 18.0, 62.0, 6.0, STROKE));
    sketch.add(arrow(75.0, 0.0, 75.0, 17.0));
    for (x, y) in [(56.0, 40.0), (74.0, 36.0), (92.0, 42.0), (62.0, 58.0), (84.0, 57.0)] {
        sketch.add(circle(x, y, 6.5, 1.3));
    }
    sketch.mark(Shape::Held, 97.0, 41.0);
    sketch.add(tint(42.0, 70.0, 66.0, 7.0, 0.18));
    for x in [46.0, 54.0, 62.0, 70.0, 78.0, 86.0, 94.0, 102.0] {
        sketch.add(line(x, 77.0, x + 4.0, 70.0, 1.0));
    }
    sketch.add(frame(42.0, 70.0, 66.0, 7.0, STROKE));
    sketch.mark(Shape::Filter, 108.0, 73.5);
}

/// A tube after the spin, and a second tube with what is used of it.
pub(super) fn spin(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    let uses_pellet = has(panel, Shape::Pellet);
    sketch.add(path("M14 10 L14 100 L36 142 Q38 146 40 142 L62 100 L62 10", STROKE + 0.3));
    sketch.add(line(14.0, 24.0, 62.0, 24.0, 1.0));
    for (x, y) in [(31.0, 116.0), (45.0, 116.0), (38.0, 128.0), (38.0, 107.0)] {
        sketch.add(circle(x, y, 6.0, 1.3));
    }
    sketch.mark(Shape::Held, 44.0, 131.0);
    // Its line passes below the second tube.
    sketch.mark_from(Shape::Pellet, 40.0, 136.0, 156.0);
    if uses_pellet {
        // What lies above leaves; the pellet is broken open in the second tube, and what it held is in the liquid there.
        sketch.add(path("M38 44 L38 8 Q38 2 46 2 L84 2", STROKE));
        sketch.add(arrow(84.0, 2.0, 100.0, 2.0));
        sketch.mark(Shape::Waste, 92.0, 2.0);
        sketch.add(arrow(56.0, 122.0, 88.0, 122.0));
    } else {
        sketch.add(path("M44 60 Q78 60 78 30 Q78 14 104 16 L112 16", STROKE));
        sketch.add(arrow(112.0, 17.0, 113.0, 46.0));
    }
    let top = if uses_pellet { 32.0 } else { 0.0 };
    let outline = |from: f64| {
        let (from, turn, foot) = (from + top, 96.0 + top, 112.0 + top);
        format!("M92 {from} L92 {turn} Q92 {foot} 114 {foot} Q136 {foot} 136 {turn} L136 {from}")
    };
    sketch.add(filled(&(outline(50.0) + " Z")));
    sketch.add(path(outline(30.0), STROKE + 0.3));
    sketch.add(line(92.0, 50.0 + top, 136.0, 50.0 + top, 1.0));
    sketch.mark(Shape::Liquid, 128.0, 70.0 + top);
    sketch.add(icons::speck(104.0, 60.0 + top));
    sketch.add(icons::speck(123.0, 96.0 + top));
    sketch
}
