//! Small things, each drawn at a point.

use svg::node::element::{Group, Path};

use crate::render::figure::ink::{Anchor, STROKE, arrow, circle, dot, frame, line, n, path, text};

/// A filled outline.
fn filled(data: String) -> Path {
    Path::new().set("d", data).set("fill", "currentColor")
}

/// A small filled circle: dye and other cargo.
pub(super) fn speck(x: f64, y: f64) -> Group {
    Group::new().add(dot(x, y, 3.2))
}

/// A small cross: a second cargo.
pub(super) fn cross(x: f64, y: f64) -> Group {
    Group::new().add(line(x - 3.2, y - 3.2, x + 3.2, y + 3.2, 1.6)).add(line(x - 3.2, y + 3.2, x + 3.2, y - 3.2, 1.6))
}

/// A small open hexagon: what is dissolved in the liquid.
pub(super) fn hexagon(x: f64, y: f64) -> Group {
    let corners = [(0.0, -4.4), (3.8, -2.2), (3.8, 2.2), (0.0, 4.4), (-3.8, 2.2), (-3.8, -2.2)];
    let points: Vec<String> = corners.iter().map(|(dx, dy)| format!("{} {}", n(x + dx), n(y + dy))).collect();
    Group::new().add(path(format!("M{} Z", points.join(" L")), 1.3))
}

/// A small filled diamond: a second thing dissolved.
pub(super) fn diamond(x: f64, y: f64) -> Group {
    Group::new().add(filled(format!(
        "M{} {} L{} {} L{} {} L{} {} Z",
        n(x),
        n(y - 4.2),
        n(x + 3.2),
        n(y),
        n(x),
        n(y + 4.2),
        n(x - 3.2),
        n(y)
    )))
}

/// A small open triangle: substrate.
pub(super) fn triangle(x: f64, y: f64) -> Group {
    Group::new().add(path(
        format!("M{} {} L{} {} L{} {} Z", n(x - 4.0), n(y + 3.2), n(x + 4.0), n(y + 3.2), n(x), n(y - 4.0)),
        1.4,
    ))
}

/// A small striped square: inhibitor.
pub(super) fn square(x: f64, y: f64) -> Group {
    Group::new().add(frame(x - 3.5, y - 3.5, 7.0, 7.0, 1.4)).add(line(x - 3.5, y + 3.5, x + 3.5, y - 3.5, 1.2))
}

/// An enzyme: a disc with a notch.
pub(super) fn enzyme(x: f64, y: f64, radius: f64) -> Group {
    let (c, s) = (radius * 0.866, radius * 0.5);
    let data = format!(
        "M{} {} L{} {} A{r} {r} 0 1 1 {} {} Z",
        n(x),
        n(y),
        n(x + c),
        n(y - s),
        n(x + c),
        n(y + s),
        r = n(radius)
    );
    // The arc is drawn the long way round, so that the notch stays open.
    Group::new().add(path(data.replace("0 1 1", "0 1 0"), STROKE))
}

/// A single strand with its bases on one side.
pub(super) fn strand(x: f64, y: f64, length: f64, down: bool) -> Group {
    let mut group = Group::new().add(line(x, y, x + length, y, 1.8));
    let tooth = if down { 5.0 } else { -5.0 };
    let mut at = x + 3.0;
    while at < x + length {
        group = group.add(line(at, y, at, y + tooth, 1.2));
        at += 5.5;
    }
    group
}

/// A label on a strand: a ring with a letter.
pub(super) fn label(x: f64, y: f64, letter: &str) -> Group {
    Group::new().add(circle(x, y, 6.5, 1.3)).add(text(x, y + 3.2, 9.0, Anchor::Middle, letter))
}

/// A thermometer with its bulb at the point.
pub(super) fn thermometer(x: f64, y: f64) -> Group {
    Group::new()
        .add(frame(x - 2.6, y - 58.0, 5.2, 54.0, 1.2).set("rx", 2.6))
        .add(line(x, y - 38.0, x, y, 2.0))
        .add(dot(x, y, 4.6))
}

/// A clock.
pub(super) fn clock(x: f64, y: f64) -> Group {
    Group::new().add(circle(x, y, 10.5, STROKE)).add(line(x, y, x, y - 7.0, 1.4)).add(line(x, y, x + 5.0, y + 2.0, 1.4))
}

/// A lamp whose light goes down or to the right.
pub(super) fn lamp(x: f64, y: f64, down: bool) -> Group {
    let mut group = Group::new().add(circle(x, y, 8.0, STROKE));
    group = group.add(line(x - 5.6, y - 5.6, x + 5.6, y + 5.6, 1.1)).add(line(x - 5.6, y + 5.6, x + 5.6, y - 5.6, 1.1));
    for offset in [-6.0, 0.0, 6.0] {
        let (from, to) = (11.0, 18.0);
        group = group.add(if down {
            line(x + offset, y + from, x + offset * 1.4, y + to, 1.2)
        } else {
            line(x + from, y + offset, x + to, y + offset * 1.4, 1.2)
        });
    }
    group
}

/// A camera that looks down.
pub(super) fn camera(x: f64, y: f64) -> Group {
    Group::new()
        .add(frame(x - 17.0, y - 10.0, 34.0, 20.0, STROKE).set("rx", 3))
        .add(frame(x - 7.0, y + 10.0, 14.0, 6.0, STROKE))
        .add(circle(x, y, 5.5, 1.2))
}

/// A meter with a pointer.
pub(super) fn meter(x: f64, y: f64) -> Group {
    Group::new()
        .add(frame(x - 14.0, y - 18.0, 28.0, 36.0, STROKE).set("rx", 3))
        .add(path(format!("M{} {} A9 9 0 0 1 {} {}", n(x - 9.0), n(y - 1.0), n(x + 9.0), n(y - 1.0)), 1.2))
        .add(line(x, y - 1.0, x + 5.0, y - 7.0, 1.4))
}

/// A drop that falls.
pub(super) fn drop(x: f64, y: f64) -> Group {
    let data = format!(
        "M{} {} C{} {} {} {} {} {} Z",
        n(x),
        n(y - 8.0),
        n(x + 9.0),
        n(y + 6.0),
        n(x - 9.0),
        n(y + 6.0),
        n(x),
        n(y - 8.0)
    );
    Group::new().add(path(data, STROKE)).add(arrow(x, y + 4.0, x, y + 21.0))
}

/// A ruler from one point to another on its right.
pub(super) fn ruler(x: f64, y: f64, length: f64) -> Group {
    let mut group = Group::new().add(frame(x, y, length, 15.0, 1.2));
    let step = length / 12.0;
    for mark in 1..12_u8 {
        let at = x + step * f64::from(mark);
        group = group.add(line(at, y, at, y + if mark % 2 == 0 { 8.0 } else { 5.0 }, 1.0));
    }
    group
}
