//! DNA in a vessel: single strands of two kinds, beads, labels, long double strands.

use super::icons;
use super::sketch::{Sketch, has};
use crate::render::figure::ink::{STROKE, circle, line, path};
use crate::scenario::{Panel, Shape};

/// Draws what the panel has of these.
pub(super) fn draw(panel: &Panel, sketch: &mut Sketch) {
    if has(panel, Shape::Bead) {
        bead(panel, sketch);
    } else if has(panel, Shape::Strands) {
        free(panel, sketch);
    }
    if has(panel, Shape::Spacer) {
        spacer(panel, sketch);
    }
    if has(panel, Shape::InnerStrands) {
        sketch.add(icons::strand(56.0, 80.0, 27.0, true));
        sketch.add(icons::strand(63.0, 104.0, 27.0, false));
        sketch.mark(Shape::InnerStrands, 88.0, 104.0);
    }
    if has(panel, Shape::Dna) {
        for y in [54.0, 82.0, 110.0] {
            sketch.add(path(format!("M40 {y} q14 -11 28 0 t28 0 t14 -4"), 1.5));
            sketch.add(path(format!("M40 {} q14 -11 28 0 t28 0 t14 -4", y + 5.0), 1.5));
        }
        sketch.mark(Shape::Dna, 108.0, 107.0);
    }
    if has(panel, Shape::EndedDna) {
        for (x, y) in [(46.0, 56.0), (66.0, 84.0), (50.0, 112.0)] {
            for side in [0.0, 5.0] {
                sketch.add(path(format!("M{x} {} q9 -8 18 0 t18 0", y + side), 1.5));
            }
            sketch.add(icons::enzyme(x - 7.0, y + 2.0, 6.0));
            sketch.add(icons::enzyme(x + 43.0, y + 2.0, 6.0));
        }
        sketch.mark(Shape::EndedDna, 114.0, 88.0);
    }
}

/// Two single strands side by side, apart.
fn free(panel: &Panel, sketch: &mut Sketch) {
    if has(panel, Shape::Loop) {
        looped(sketch, 66.0);
    } else {
        sketch.add(icons::strand(44.0, 66.0, 56.0, true));
    }
    sketch.add(icons::strand(44.0, 104.0, 56.0, false));
    sketch.mark(Shape::Strands, 84.0, 104.0);
    label(panel, sketch, Shape::FirstLabel, (107.0, 66.0), "G");
    label(panel, sketch, Shape::SecondLabel, (107.0, 104.0), "R");
    label(panel, sketch, Shape::FarLabel, (37.0, 66.0), "R");
}

/// A strand whose two ends pair with each other and close a loop.
fn looped(sketch: &mut Sketch, y: f64) {
    sketch.add(circle(58.0, y, 10.0, STROKE));
    sketch.add(line(67.0, y - 3.0, 98.0, y - 3.0, 1.8));
    sketch.add(line(67.0, y + 3.0, 98.0, y + 3.0, 1.8));
    for rung in 0..5 {
        let x = 72.0 + 5.5 * f64::from(rung);
        sketch.add(line(x, y - 3.0, x, y + 3.0, 1.0));
    }
    sketch.mark(Shape::Loop, 62.0, y - 9.0);
}

/// Strands fixed to a bead, and their partners, which carry an enzyme.
fn bead(panel: &Panel, sketch: &mut Sketch) {
    sketch.add(circle(48.0, 108.0, 17.0, STROKE));
    sketch.add(line(60.0, 96.0, 64.0, 92.0, 1.8));
    sketch.add(icons::strand(64.0, 92.0, 44.0, false));
    sketch.add(line(64.0, 113.0, 68.0, 116.0, 1.8));
    sketch.add(icons::strand(68.0, 116.0, 36.0, false));
    sketch.mark(Shape::Bead, 56.0, 118.0);
    if has(panel, Shape::Loop) {
        looped(sketch, 58.0);
    } else {
        sketch.add(icons::strand(60.0, 58.0, 38.0, true));
    }
    sketch.mark(Shape::Strands, 104.0, 92.0);
    if has(panel, Shape::StrandEnzyme) {
        sketch.add(icons::enzyme(107.0, 58.0, 9.0));
        sketch.mark(Shape::StrandEnzyme, 104.0, 53.0);
    }
}

/// A double-stranded spacer with a label at each end.
fn spacer(panel: &Panel, sketch: &mut Sketch) {
    sketch.add(line(44.0, 84.0, 104.0, 84.0, 1.8));
    sketch.add(line(44.0, 94.0, 104.0, 94.0, 1.8));
    let mut x = 48.0;
    while x < 104.0 {
        sketch.add(line(x, 84.0, x, 94.0, 1.0));
        x += 6.0;
    }
    sketch.mark(Shape::Spacer, 90.0, 94.0);
    label(panel, sketch, Shape::FirstLabel, (111.0, 80.0), "G");
    label(panel, sketch, Shape::FarLabel, (37.0, 80.0), "R");
    if has(panel, Shape::FarLabel) {
        sketch.mark(Shape::FarLabel, 40.0, 74.0);
    }
}

fn label(panel: &Panel, sketch: &mut Sketch, shape: Shape, at: (f64, f64), letter: &str) {
    if has(panel, shape) {
        sketch.add(icons::label(at.0, at.1, letter));
        let near_label_column = at.0 > 75.0;
        sketch.mark(
            shape,
            if near_label_column { at.0 + 6.5 } else { at.0 + 3.0 },
            if near_label_column { at.1 } else { at.1 - 6.0 },
        );
    }
}
