//! Things in a liquid: a bath with a vesicle cut open, a mix, a culture, strands in a tube.

use svg::node::element::Path;

use super::icons;
use super::sketch::{Sketch, has};
use super::strands;
use crate::render::figure::ink::{STROKE, arrow, circle, dot, line, n, path};
use crate::scenario::{Panel, Shape};

/// The middle of the specimen.
const MIDDLE: (f64, f64) = (75.0, 92.0);
/// Radius of the outer side of a vesicle's wall.
const RADIUS: f64 = 39.0;

/// The vessel, what is in it, and what hangs over it.
pub(super) fn draw(panel: &Panel) -> Sketch {
    let mut sketch = Sketch::default();
    vessel(panel, &mut sketch);
    let is_specimen = has(panel, Shape::Vesicle) || has(panel, Shape::Cell);
    if has(panel, Shape::Vesicle) {
        vesicle(panel, &mut sketch);
    }
    if has(panel, Shape::Cell) {
        cell(&mut sketch);
    }
    strands::draw(panel, &mut sketch);
    if is_specimen {
        around(panel, &mut sketch);
    } else {
        scattered(panel, &mut sketch);
    }
    above(panel, &mut sketch);
    sketch
}

fn vessel(panel: &Panel, sketch: &mut Sketch) {
    let flask = "M58 10 L58 44 L16 128 Q12 142 26 142 L124 142 Q138 142 134 128 L92 44 L92 10";
    let tube = "M22 12 L22 98 Q22 142 75 142 Q128 142 128 98 L128 12";
    let beaker = "M8 14 L8 134 Q8 142 16 142 L134 142 Q142 142 142 134 L142 14";
    let (outline, surface, shape) = if has(panel, Shape::Flask) {
        (flask, (44.0, 106.0, 72.0), Shape::Flask)
    } else if has(panel, Shape::Tube) {
        (tube, (22.0, 128.0, 32.0), Shape::Tube)
    } else {
        (beaker, (8.0, 142.0, 32.0), Shape::Beaker)
    };
    let (left, right, level) = surface;
    sketch.add(path(outline, STROKE + 0.3));
    sketch.add(path(
        format!(
            "M{} {} Q{} {} {} {} T{} {}",
            n(left),
            n(level),
            n(left + (right - left) / 4.0),
            n(level - 4.0),
            n(left.midpoint(right)),
            n(level),
            n(right),
            n(level)
        ),
        1.0,
    ));
    let named_itself = panel.items.iter().any(|item| item.shape == shape && item.label == "tube");
    if shape == Shape::Flask {
        sketch.mark(shape, 92.0, 26.0);
    } else if named_itself {
        // Its wall, and not what is in it.
        sketch.mark(shape, right, level - 8.0);
    } else {
        sketch.mark(shape, right - 6.0, level + 6.0);
    }
    if has(panel, Shape::Liquid) {
        let inside = "M22 32 L22 98 Q22 142 75 142 Q128 142 128 98 L128 32 Z";
        sketch.add(Path::new().set("d", inside).set("fill", "currentColor").set("fill-opacity", 0.14));
    }
    sketch.mark(Shape::Liquid, right - 20.0, level + 40.0);
}

/// A vesicle cut open: the two layers of its wall, and what is inside.
fn vesicle(panel: &Panel, sketch: &mut Sketch) {
    let (x, y) = MIDDLE;
    sketch.add(circle(x, y, RADIUS, 1.2));
    sketch.add(circle(x, y, RADIUS - 3.2, 5.0).set("stroke-dasharray", "1.4 1.9"));
    sketch.add(circle(x, y, RADIUS - 6.4, 1.2));
    sketch.mark(Shape::Vesicle, x + 13.0, y - 19.0);
    let at = |degrees: f64, radius: f64| {
        let angle = degrees.to_radians();
        (x + radius * libm::cos(angle), y + radius * libm::sin(angle))
    };
    let (bx, by) = at(-42.0, RADIUS - 3.2);
    sketch.mark(Shape::Bilayer, bx, by);
    for (dx, dy) in [(-18.0, -10.0), (-4.0, -20.0), (-14.0, 10.0), (4.0, 18.0), (20.0, -2.0)] {
        if has(panel, Shape::Cargo) {
            sketch.add(icons::speck(x + dx, y + dy));
        }
    }
    sketch.mark(Shape::Cargo, x + 20.0, y - 2.0);
    for (dx, dy) in [(-6.0, -4.0), (-8.0, 22.0), (16.0, 13.0)] {
        if has(panel, Shape::SecondCargo) {
            sketch.add(icons::cross(x + dx, y + dy));
        }
    }
    sketch.mark(Shape::SecondCargo, x + 16.0, y + 13.0);
    for (shape, degrees) in [(Shape::Barrel, [24.0, 150.0]), (Shape::Gate, [24.0, 150.0])] {
        if !has(panel, shape) {
            continue;
        }
        for angle in degrees {
            let (px, py) = at(angle, RADIUS - 3.2);
            sketch.add(pore(px, py, angle, shape == Shape::Gate));
        }
        let (px, py) = at(24.0, RADIUS + 4.0);
        sketch.mark(shape, px, py);
    }
    if has(panel, Shape::Compasses) {
        sketch.add(arrow(x, y, x - RADIUS + 1.0, y));
        sketch.add(dot(x, y, 2.0));
        sketch.mark(Shape::Compasses, x - 2.0, y + 2.0);
    }
}

/// A hollow barrel across a wall, closed by an arm where it is a gate.
fn pore(x: f64, y: f64, degrees: f64, gate: bool) -> Path {
    let arm =
        if gate { format!("M{} {} L{} {} ", n(x + 8.0), n(y - 7.0), n(x + 8.0), n(y + 7.0)) } else { String::new() };
    let walls = format!(
        "M{} {} L{} {} M{} {} L{} {}",
        n(x - 8.0),
        n(y - 4.0),
        n(x + 8.0),
        n(y - 4.0),
        n(x - 8.0),
        n(y + 4.0),
        n(x + 8.0),
        n(y + 4.0)
    );
    path(arm + &walls, 3.2).set("transform", format!("rotate({} {} {})", n(degrees), n(x), n(y)))
}

fn cell(sketch: &mut Sketch) {
    let (x, y) = MIDDLE;
    sketch.add(path(
        format!(
            "M{} {} C{} {} {} {} {} {} S{} {} {} {} Z",
            n(x - 40.0),
            n(y),
            n(x - 40.0),
            n(y - 44.0),
            n(x + 42.0),
            n(y - 44.0),
            n(x + 42.0),
            n(y),
            n(x - 40.0),
            n(y + 46.0),
            n(x - 40.0),
            n(y)
        ),
        2.2,
    ));
    sketch.add(circle(x - 8.0, y, 11.0, 1.3));
    sketch.add(dot(x - 6.0, y + 2.0, 3.0));
    sketch.mark(Shape::Cell, x + 24.0, y + 4.0);
}

/// What is dissolved in the liquid around a specimen.
fn around(panel: &Panel, sketch: &mut Sketch) {
    if has(panel, Shape::Particles) {
        for (x, y) in
            [(22.0, 52.0), (20.0, 124.0), (50.0, 44.0), (44.0, 134.0), (124.0, 50.0), (108.0, 134.0), (130.0, 122.0)]
        {
            sketch.add(icons::hexagon(x, y));
        }
        sketch.mark(Shape::Particles, 130.0, 122.0);
    }
    if has(panel, Shape::SecondParticles) {
        for (x, y) in [(20.0, 88.0), (34.0, 60.0), (90.0, 42.0), (75.0, 137.0), (131.0, 84.0)] {
            sketch.add(icons::diamond(x, y));
        }
        sketch.mark(Shape::SecondParticles, 131.0, 84.0);
    }
}

/// Places for small things in a vessel without a specimen: three for each kind.
const PLACES: [[(f64, f64); 3]; 5] = [
    [(46.0, 56.0), (76.0, 84.0), (106.0, 108.0)],
    [(76.0, 54.0), (48.0, 112.0), (108.0, 80.0)],
    [(46.0, 84.0), (76.0, 114.0), (108.0, 54.0)],
    [(62.0, 70.0), (60.0, 128.0), (92.0, 122.0)],
    [(62.0, 98.0), (90.0, 66.0), (92.0, 96.0)],
];

/// Small things in a vessel without a specimen.
fn scattered(panel: &Panel, sketch: &mut Sketch) {
    let with_strands = [Shape::Strands, Shape::Spacer, Shape::Bead, Shape::Dna].iter().any(|shape| has(panel, *shape));
    let kinds = [
        Shape::Enzyme,
        Shape::LoadedBead,
        Shape::Substrate,
        Shape::Inhibitor,
        Shape::Particles,
        Shape::SecondParticles,
        Shape::Culture,
    ];
    let mut places = PLACES.iter();
    for shape in kinds.into_iter().filter(|shape| has(panel, *shape)) {
        let Some(spots) = places.next() else { return };
        // Beside strands there is room along the wall only.
        // What cuts DNA may sit anywhere along it.
        let along = [(62.0, 42.0), (90.0, 70.0), (58.0, 98.0)];
        let beside = [(33.0, 50.0), (92.0, 46.0), (118.0, 86.0)];
        let first = if has(panel, Shape::Dna) && shape == Shape::Enzyme { along } else { beside };
        let second = [(33.0, 86.0), (58.0, 124.0), (96.0, 122.0)];
        let shifted = if shape == Shape::SecondParticles { second } else { first };
        let spots = if with_strands { &shifted } else { spots };
        let mut right = (0.0, 0.0);
        for (x, y) in spots.iter().copied() {
            let (x, y) = if has(panel, Shape::Flask) { (x, 84.0 + (y - 54.0) * 0.75) } else { (x, y) };
            sketch.add(small(shape, x, y));
            right = if x > right.0 { (x, y) } else { right };
        }
        sketch.mark(shape, right.0 + 3.0, right.1);
    }
}

fn small(shape: Shape, x: f64, y: f64) -> svg::node::element::Group {
    match shape {
        Shape::Enzyme => icons::enzyme(x, y, 9.0),
        Shape::LoadedBead => icons::enzyme(x + 6.0, y, 6.0).add(circle(x - 8.0, y, 8.0, STROKE)),
        Shape::Substrate => icons::triangle(x, y),
        Shape::Inhibitor => icons::square(x, y),
        Shape::SecondParticles => icons::diamond(x, y),
        Shape::Culture => svg::node::element::Group::new()
            .add(line(x - 5.0, y + 2.0, x + 5.0, y - 2.0, 6.0).set("stroke-linecap", "round")),
        _ => icons::hexagon(x, y),
    }
}

/// What hangs over the vessel or dips into it.
fn above(panel: &Panel, sketch: &mut Sketch) {
    if has(panel, Shape::Thermometer) {
        let x = if has(panel, Shape::Tube) { 34.0 } else { 22.0 };
        sketch.add(icons::thermometer(x, 62.0));
        sketch.mark(Shape::Thermometer, x, 7.0);
    }
    if has(panel, Shape::Clock) {
        sketch.add(icons::clock(75.0, 13.0));
        sketch.mark(Shape::Clock, 85.0, 11.0);
    }
    if has(panel, Shape::Lamp) {
        sketch.add(icons::lamp(75.0, 9.0, true));
        sketch.mark(Shape::Lamp, 83.0, 8.0);
    }
    if has(panel, Shape::Drop) {
        sketch.add(icons::drop(75.0, 12.0));
        sketch.mark(Shape::Drop, 79.0, 12.0);
    }
}
