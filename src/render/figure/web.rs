//! Things joined by signed arrows, laid out in layers and drawn: no outside program lays them out.
//!
//! Comes in: names and arrows. Goes out: a [`Picture`] in black on the ground of the page. **Must not know**: what the
//! things are.

mod layout;

use std::fmt::Write as _;

use svg::node::element::{Anchor as Link, Group, Path, Rectangle};

use super::Picture;
use super::ink::{Anchor, SMALL, STROKE, block, frame, n, text};
use super::lettering::wrap;
use layout::{Laid, Point};

/// Width of a box, and the height of a line of its text.
const BOX: f64 = 148.0;
const LINE: f64 = 15.0;
/// Room around the drawing and for the legend.
const MARGIN: f64 = 14.0;
const LEGEND: f64 = 64.0;

/// How a thing is framed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Frame {
    /// A thick frame: it is set.
    Thick,
    /// A thin frame.
    Thin,
    /// A double frame: it is read.
    Double,
}

/// A thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thing {
    /// What it is called.
    pub name: String,
    /// How it is framed.
    pub frame: Frame,
    /// Where it leads on a page, if anywhere (`#osmosis`).
    pub link: Option<String>,
}

/// An arrow from one thing to another, by place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Arrow {
    /// Place of the thing that acts.
    pub from: usize,
    /// Place of the thing acted on.
    pub to: usize,
    /// What is written on it: `+`, `−`, `±`; `+/−` where one or the other holds.
    pub sign: &'static str,
    /// Drawn thick.
    pub marked: bool,
    /// Where it leads on a page.
    pub link: Option<String>,
}

/// Things joined by arrows.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Web {
    /// The things.
    pub things: Vec<Thing>,
    /// The arrows.
    pub arrows: Vec<Arrow>,
}

/// The picture of a web.
pub fn web(name: &str, title: &str, description: &str, web: &Web) -> Picture {
    let lines: Vec<Vec<String>> = web.things.iter().map(|thing| wrap(&thing.name, SMALL, BOX - 12.0)).collect();
    let heights: Vec<f64> = lines.iter().map(|lines| count(lines.len()) * LINE + 12.0).collect();
    let ends: Vec<(usize, usize)> = web.arrows.iter().map(|arrow| (arrow.from, arrow.to)).collect();
    let laid = layout::lay(&heights, BOX, &ends);
    let mut body = Group::new();
    let mut signs = Vec::new();
    for (arrow, route) in web.arrows.iter().zip(&laid.routes) {
        let sign = sign_at(route, &signs);
        signs.push(sign);
        body = body.add(linked(arrow.link.as_deref(), drawn_arrow(arrow, route, sign)));
    }
    for (((thing, lines), place), height) in web.things.iter().zip(&lines).zip(&laid.places).zip(&heights) {
        body = body.add(linked(thing.link.as_deref(), drawn_thing(thing, lines, *place, *height)));
    }
    let (width, height) = size(&laid);
    let body = Group::new()
        .set("transform", format!("translate({MARGIN} {MARGIN})"))
        .add(body)
        .add(legend(height - LEGEND - MARGIN));
    Picture::new(name, (width, height), title, description, body)
}

fn size(laid: &Laid) -> (f64, f64) {
    ((laid.width + 2.0 * MARGIN).max(560.0), laid.height + 2.0 * MARGIN + LEGEND)
}

fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(0.0, f64::from)
}

fn linked(link: Option<&str>, drawn: Group) -> Group {
    match link {
        Some(link) => Group::new().add(Link::new().set("href", link).add(drawn)),
        None => drawn,
    }
}

fn drawn_thing(thing: &Thing, lines: &[String], (x, y): Point, height: f64) -> Group {
    let left = x - BOX / 2.0;
    let stroke = if thing.frame == Frame::Thick { 3.0 } else { 1.0 };
    let mut group = Group::new()
        .add(block(left, y, BOX, height).set("fill", "var(--ground, white)"))
        .add(frame(left, y, BOX, height, stroke).set("rx", 4));
    if thing.frame == Frame::Double {
        group = group.add(frame(left + 3.0, y + 3.0, BOX - 6.0, height - 6.0, 1.0).set("rx", 3));
    }
    for (line, place) in lines.iter().zip(0..) {
        group = group.add(text(x, y + 6.0 + LINE * (count(place) + 0.78), SMALL, Anchor::Middle, line));
    }
    group
}

fn drawn_arrow(arrow: &Arrow, route: &[Point], (x, y): Point) -> Group {
    let [.., before, end] = route else { return Group::new() };
    let stroke = if arrow.marked { 2.0 * STROKE } else { 1.0 };
    let (dx, dy) = (end.0 - before.0, end.1 - before.1);
    let length = libm::sqrt(dx * dx + dy * dy).max(1e-6);
    let (ux, uy) = (dx / length, dy / length);
    let size = if arrow.marked { 11.0 } else { 8.0 };
    let base = (end.0 - size * ux, end.1 - size * uy);
    let mut line = String::new();
    for (place, point) in route.iter().enumerate() {
        let point = if place + 1 == route.len() { &base } else { point };
        let _ = write!(line, "{}{} {} ", if place == 0 { "M" } else { "L" }, n(point.0), n(point.1));
    }
    let head = format!(
        "M{} {} L{} {} L{} {} Z",
        n(end.0),
        n(end.1),
        n(base.0 - 0.45 * size * uy),
        n(base.1 + 0.45 * size * ux),
        n(base.0 + 0.45 * size * uy),
        n(base.1 - 0.45 * size * ux)
    );
    Group::new()
        .add(super::ink::path(line.trim_end(), stroke))
        .add(Path::new().set("d", head).set("fill", "currentColor"))
        .add(ground(x, y, arrow.sign))
        .add(text(x, y + 4.5, 14.0, Anchor::Middle, arrow.sign))
}

/// The ground on which a sign can be read.
fn ground(x: f64, y: f64, sign: &str) -> Rectangle {
    let half = 3.0 + 4.0 * count(sign.chars().count());
    block(x - half, y - 7.0, 2.0 * half, 14.0).set("rx", 7).set("fill", "var(--ground, white)")
}

/// Where the sign stands: near the head of the arrow, where arrows that leave one box have parted, as far as the signs that
/// stand already let it.
fn sign_at(route: &[Point], others: &[Point]) -> Point {
    let [.., before, end] = route else { return (0.0, 0.0) };
    let at = |share: f64| (before.0 + share * (end.0 - before.0), before.1 + share * (end.1 - before.1));
    let is_free = |(x, y): &Point| others.iter().all(|other| (x - other.0).abs() > 22.0 || (y - other.1).abs() > 14.0);
    [0.6, 0.48, 0.72, 0.36, 0.24].into_iter().map(at).find(is_free).unwrap_or_else(|| at(0.6))
}

fn legend(y: f64) -> Group {
    let rows = [(Frame::Thick, "can be set"), (Frame::Thin, "on the way"), (Frame::Double, "can be read")];
    let mut group = Group::new();
    for ((kind, meaning), place) in rows.into_iter().zip(0..) {
        let x = 4.0 + 150.0 * count(place);
        let stroke = if kind == Frame::Thick { 3.0 } else { 1.0 };
        group = group.add(frame(x, y + 14.0, 30.0, 16.0, stroke).set("rx", 3));
        if kind == Frame::Double {
            group = group.add(frame(x + 3.0, y + 17.0, 24.0, 10.0, 1.0).set("rx", 2));
        }
        group = group.add(text(x + 38.0, y + 27.0, SMALL, Anchor::Start, meaning));
    }
    let signs =
        "+ more raises it, − more lowers it, +/− one or the other, ± raises it up to a point and lowers it beyond";
    group.add(text(4.0, y + 50.0, SMALL, Anchor::Start, signs))
}
