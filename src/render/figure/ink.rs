//! Strokes, shapes and letters, all in the colour of the text around the figure.

use svg::node::element::{Circle, Element, Group, Line, Path, Rectangle, Text};

use super::lettering::clean;

/// Height of ordinary letters: 11 to 12 pixels on a phone, about 9 points in print.
pub(in crate::render) const LETTER: f64 = 12.5;
/// Height of small letters: marks of a scale, notes.
pub(in crate::render) const SMALL: f64 = 11.5;
/// Width of an ordinary stroke.
pub(in crate::render) const STROKE: f64 = 1.5;

/// Where a text stands from its anchor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::render) enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

/// A number with two decimals at most: the same bytes everywhere, and no more of them than the eye needs.
pub(in crate::render) fn n(value: f64) -> f64 {
    let rounded = libm::round(value * 100.0) / 100.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// A straight line.
pub(in crate::render) fn line(x1: f64, y1: f64, x2: f64, y2: f64, width: f64) -> Line {
    Line::new()
        .set("x1", n(x1))
        .set("y1", n(y1))
        .set("x2", n(x2))
        .set("y2", n(y2))
        .set("stroke", "currentColor")
        .set("stroke-width", n(width))
}

/// A line along a path, not filled.
pub(in crate::render) fn path(data: impl Into<String>, width: f64) -> Path {
    Path::new()
        .set("d", data.into())
        .set("fill", "none")
        .set("stroke", "currentColor")
        .set("stroke-width", n(width))
        .set("stroke-linejoin", "round")
        .set("stroke-linecap", "round")
}

/// A circle, not filled.
pub(in crate::render) fn circle(x: f64, y: f64, radius: f64, width: f64) -> Circle {
    Circle::new()
        .set("cx", n(x))
        .set("cy", n(y))
        .set("r", n(radius))
        .set("fill", "none")
        .set("stroke", "currentColor")
        .set("stroke-width", n(width))
}

/// A filled circle.
pub(in crate::render) fn dot(x: f64, y: f64, radius: f64) -> Circle {
    Circle::new().set("cx", n(x)).set("cy", n(y)).set("r", n(radius)).set("fill", "currentColor")
}

/// A rectangle, not filled.
pub(in crate::render) fn frame(x: f64, y: f64, width: f64, height: f64, stroke: f64) -> Rectangle {
    block(x, y, width, height).set("fill", "none").set("stroke", "currentColor").set("stroke-width", n(stroke))
}

/// A rectangle in a tint of the ink: 1 is the ink itself.
pub(in crate::render) fn tint(x: f64, y: f64, width: f64, height: f64, share: f64) -> Rectangle {
    block(x, y, width, height).set("fill", "currentColor").set("fill-opacity", n(share))
}

/// A rectangle as such.
pub(in crate::render) fn block(x: f64, y: f64, width: f64, height: f64) -> Rectangle {
    Rectangle::new().set("x", n(x)).set("y", n(y)).set("width", n(width.max(0.0))).set("height", n(height.max(0.0)))
}

/// A line of text; `y` is its base line.
pub(in crate::render) fn text(x: f64, y: f64, size: f64, anchor: Anchor, words: &str) -> Text {
    let anchor = match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    Text::new(clean(words))
        .set("x", n(x))
        .set("y", n(y))
        .set("font-size", n(size))
        .set("text-anchor", anchor)
        .set("fill", "currentColor")
}

/// An arrow from one point to another.
pub(in crate::render) fn arrow(x1: f64, y1: f64, x2: f64, y2: f64) -> Group {
    let (dx, dy) = (x2 - x1, y2 - y1);
    let length = libm::sqrt(dx * dx + dy * dy).max(1e-6);
    let (ux, uy) = (dx / length, dy / length);
    let (bx, by) = (x2 - 7.0 * ux, y2 - 7.0 * uy);
    let head = format!(
        "M{} {} L{} {} L{} {} Z",
        n(x2),
        n(y2),
        n(bx - 3.6 * uy),
        n(by + 3.6 * ux),
        n(bx + 3.6 * uy),
        n(by - 3.6 * ux)
    );
    Group::new().add(line(x1, y1, bx, by, STROKE)).add(Path::new().set("d", head).set("fill", "currentColor"))
}

/// Stripes with which an area is filled; `id` must be unique on the page.
pub(in crate::render) fn stripes(id: &str) -> Element {
    let mut pattern = Element::new("pattern");
    let set = [("id", id), ("width", "6"), ("height", "6"), ("patternUnits", "userSpaceOnUse")];
    for (name, value) in set.into_iter().chain([("patternTransform", "rotate(45)")]) {
        svg::Node::assign(&mut pattern, name, value);
    }
    svg::Node::append(&mut pattern, line(0.0, 0.0, 0.0, 6.0, 2.0));
    pattern
}
