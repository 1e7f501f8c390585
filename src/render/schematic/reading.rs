//! Containers and what reads them.

use svg::node::element::Group;

use super::icons;
use super::sketch::{Sketch, has};
use crate::render::figure::ink::{STROKE, arrow, circle, dot, frame, line, path, tint};
use crate::scenario::{Panel, Shape};

/// Light sent through one container onto a meter: from the left, or from above through a plate.
pub(super) fn through(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    if has(panel, Shape::Wells) {
        sketch.add(icons::lamp(75.0, 12.0, true));
        sketch.mark(Shape::Lamp, 83.0, 11.0);
        sketch.add(arrow(75.0, 34.0, 75.0, 54.0));
        plate(&mut sketch, 56.0);
        sketch.mark(Shape::Wells, 132.0, 62.0);
        sketch.mark(Shape::Liquid, 80.0, 76.0);
        sketch.add(arrow(75.0, 90.0, 75.0, 106.0));
        sketch.add(icons::meter(75.0, 126.0));
        sketch.mark(Shape::Meter, 89.0, 126.0);
        return sketch;
    }
    sketch.add(icons::lamp(16.0, 86.0, false));
    sketch.mark_from(Shape::Lamp, 18.0, 77.0, 12.0);
    sketch.add(arrow(36.0, 86.0, 55.0, 86.0));
    let half = if has(panel, Shape::Trough) { 20.0 } else { 13.0 };
    let x = 76.0;
    sketch.add(frame(x - half, 66.0, 2.0 * half, 58.0, STROKE + 0.3));
    sketch.add(tint(x - half, 74.0, 2.0 * half, 50.0, 0.18));
    for shape in [Shape::Cuvette, Shape::Trough, Shape::Tube, Shape::Chamber] {
        sketch.mark_from(shape, x + half, 70.0, 48.0);
    }
    sketch.mark(Shape::Liquid, x + 6.0, 116.0);
    sketch.add(arrow(x + half + 2.0, 86.0, 119.0, 86.0));
    sketch.add(icons::meter(135.0, 86.0));
    sketch.mark(Shape::Meter, 148.0, 86.0);
    sketch
}

/// A plate of wells seen from the side, its top at this height.
fn plate(sketch: &mut Sketch, top: f64) {
    sketch.add(line(10.0, top, 140.0, top, STROKE));
    for place in 0..5_u8 {
        let x = 14.0 + 25.0 * f64::from(place);
        sketch.add(tint(x, top + 9.0, 22.0, 20.5, 0.18).set("rx", 3));
        let data = format!(
            "M{x} {top} L{x} {} Q{x} {} {} {} L{} {} Q{} {} {} {} L{} {top}",
            top + 26.0,
            top + 30.0,
            x + 4.0,
            top + 30.0,
            x + 18.0,
            top + 30.0,
            x + 22.0,
            top + 30.0,
            x + 22.0,
            top + 26.0,
            x + 22.0
        );
        sketch.add(path(data, STROKE));
        sketch.add(line(x, top + 9.0, x + 22.0, top + 9.0, 0.9));
    }
}

/// A camera or a counter over containers.
pub(super) fn above(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    if has(panel, Shape::DarkBox) {
        sketch.add(frame(4.0, 28.0, 142.0, 116.0, 3.2));
        sketch.mark(Shape::DarkBox, 146.0, 60.0);
    }
    if has(panel, Shape::Counter) {
        sketch.add(frame(55.0, 6.0, 40.0, 32.0, STROKE).set("rx", 3));
        sketch.add(tint(62.0, 38.0, 26.0, 5.0, 1.0));
        sketch.add(icon_digits());
        sketch.mark(Shape::Counter, 95.0, 16.0);
    }
    if has(panel, Shape::Camera) {
        sketch.add(icons::camera(75.0, 14.0));
        sketch.mark(Shape::Camera, 92.0, 12.0);
    }
    if has(panel, Shape::ColourGlass) {
        sketch.add(frame(56.0, 38.0, 38.0, 6.0, STROKE));
        sketch.add(tint(56.0, 38.0, 38.0, 6.0, 0.35));
        sketch.mark(Shape::ColourGlass, 94.0, 41.0);
    }
    if has(panel, Shape::Lamp) {
        sketch.add(icons::lamp(22.0, 64.0, true));
        sketch.add(arrow(24.0, 84.0, 32.0, 98.0));
        sketch.mark(Shape::Lamp, 30.0, 64.0);
    }
    sketch.add(arrow(75.0, 94.0, 75.0, if has(panel, Shape::ColourGlass) { 50.0 } else { 46.0 }));
    containers(panel, &mut sketch);
    sketch
}

/// Three bars for the digits of a display.
fn icon_digits() -> Group {
    [64.0, 75.0, 86.0].into_iter().fold(Group::new(), |group, x| group.add(frame(x - 3.0, 14.0, 6.0, 11.0, 1.1)))
}

fn containers(panel: &Panel, sketch: &mut Sketch) {
    if has(panel, Shape::Wells) {
        plate(sketch, 104.0);
        sketch.mark(Shape::Wells, 136.0, 120.0);
        return;
    }
    let one = has(panel, Shape::DarkBox);
    let places: &[f64] = if one { &[75.0] } else { &[39.0, 75.0, 111.0] };
    for x in places {
        sketch.add(path(
            format!(
                "M{} 98 L{} 130 Q{} 140 {x} 140 Q{} 140 {} 130 L{} 98",
                x - 11.0,
                x - 11.0,
                x - 11.0,
                x + 11.0,
                x + 11.0,
                x + 11.0
            ),
            STROKE,
        ));
        sketch.add(tint(x - 11.0, 112.0, 22.0, 27.0, 0.18).set("rx", 5));
        sketch.add(line(x - 11.0, 112.0, x + 11.0, 112.0, 0.9));
    }
    let right = if one { 86.0 } else { 122.0 };
    for shape in [Shape::Tube, Shape::Cuvette, Shape::Trough, Shape::Chamber, Shape::Syringe] {
        sketch.mark(shape, right, 120.0);
    }
}

/// Gas from a closed vessel gathers in a graduated capillary.
pub(super) fn gas(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    let shape = if has(panel, Shape::Syringe) {
        sketch.add(frame(28.0, 60.0, 60.0, 82.0, STROKE + 0.3));
        sketch.add(path("M52 60 L52 46 M64 60 L64 46", STROKE));
        Shape::Syringe
    } else if has(panel, Shape::Tube) {
        sketch.add(path("M32 46 L32 112 Q32 142 58 142 Q84 142 84 112 L84 46", STROKE + 0.3));
        sketch.add(frame(36.0, 38.0, 44.0, 12.0, STROKE));
        Shape::Tube
    } else {
        sketch.add(path("M44 46 L44 70 L20 130 Q17 142 28 142 L88 142 Q99 142 96 130 L72 70 L72 46", STROKE + 0.3));
        sketch.add(frame(46.0, 38.0, 24.0, 12.0, STROKE));
        Shape::Chamber
    };
    let (left, right) = if shape == Shape::Chamber { (26.0, 90.0) } else { (32.0, 84.0) };
    sketch.add(line(left, 108.0, right, 108.0, 1.0));
    for (x, y) in [(44.0, 120.0), (60.0, 114.0), (70.0, 126.0), (54.0, 98.0), (64.0, 84.0)] {
        sketch.add(circle(x, y, 2.6, 1.1));
    }
    sketch.mark(shape, if shape == Shape::Chamber { 78.0 } else { 86.0 }, 86.0);
    sketch.mark(Shape::Liquid, 82.0, 118.0);
    // The capillary, with marks, and the drop or surface that shows the volume.
    sketch.add(path("M55 46 L55 18 L140 18 M61 46 L61 24 L140 24", STROKE));
    for place in 0..8_u8 {
        let x = 72.0 + 9.0 * f64::from(place);
        sketch.add(line(x, 24.0, x, if place % 4 == 0 { 32.0 } else { 29.0 }, 1.0));
    }
    sketch.add(dot(102.0, 21.0, 2.6));
    sketch.add(arrow(58.0, 70.0, 58.0, 52.0));
    sketch.mark(Shape::Capillary, 138.0, 21.0);
    sketch
}

/// Leaves in a closed chamber under a lamp.
pub(super) fn chamber(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    sketch.add(icons::lamp(58.0, 10.0, true));
    sketch.mark(Shape::Lamp, 66.0, 9.0);
    if has(panel, Shape::TroughBetween) {
        sketch.add(frame(22.0, 36.0, 72.0, 15.0, STROKE));
        sketch.add(tint(22.0, 40.0, 72.0, 11.0, 0.25));
        sketch.mark(Shape::TroughBetween, 94.0, 43.0);
        sketch.add(arrow(58.0, 53.0, 58.0, 72.0));
    } else {
        sketch.add(arrow(58.0, 34.0, 58.0, 72.0));
    }
    sketch.add(frame(14.0, 76.0, 116.0, 66.0, STROKE + 0.3));
    sketch.add(line(14.0, 82.0, 130.0, 82.0, 1.0));
    for shape in [Shape::Chamber, Shape::Tube] {
        sketch.mark(shape, 130.0, 90.0);
    }
    for (x, y) in [(32.0, 92.0), (56.0, 90.0), (80.0, 93.0), (44.0, 106.0), (70.0, 108.0)] {
        sketch.add(leaf(x, y));
    }
    sketch.mark(Shape::Leaf, 78.0, 109.0);
    if has(panel, Shape::Probe) {
        sketch.add(frame(107.0, 58.0, 9.0, 62.0, STROKE));
        sketch.add(tint(107.0, 112.0, 9.0, 8.0, 1.0));
        sketch.mark(Shape::Probe, 116.0, 63.0);
    }
    if has(panel, Shape::Film) {
        sketch.add(tint(125.0, 100.0, 5.0, 34.0, 1.0));
        sketch.mark(Shape::Film, 127.0, 131.0);
    }
    if has(panel, Shape::Camera) {
        sketch.add(frame(136.0, 104.0, 14.0, 16.0, STROKE).set("rx", 2));
        sketch.add(line(131.0, 112.0, 136.0, 112.0, 2.5));
        sketch.mark(Shape::Camera, 146.0, 112.0);
    }
    sketch
}

fn leaf(x: f64, y: f64) -> svg::node::element::Ellipse {
    svg::node::element::Ellipse::new()
        .set("cx", x)
        .set("cy", y)
        .set("rx", 9.0)
        .set("ry", 4.6)
        .set("fill", "currentColor")
        .set("fill-opacity", 0.3)
        .set("stroke", "currentColor")
        .set("stroke-width", 1.3)
}
