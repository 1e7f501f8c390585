//! The matrix as a picture that prints in black and white: full, hatched and hollow squares, nothing by colour.

use std::fmt::Write as _;

use svg::node::element::{Circle, Group, Line, Path, Rectangle, Text};

use super::{How, Item, Matrix};
use crate::concepts::graph::Graph;
use crate::render::Picture;

/// Side of a cell.
const CELL: f64 = 18.0;
/// Room for names of principles, and for numbers of items.
const LEFT: f64 = 250.0;
const TOP: f64 = 34.0;
/// Room for numbers and for names of fields.
const RIGHT: f64 = 250.0;
const LEGEND: f64 = 56.0;

/// Principles down, items across. What the path says is full, what the text says is striped (the closer, the stronger),
/// what an item merely rests on is a small ring.
pub fn heat_map(graph: &Graph, items: &[Item], matrix: &Matrix) -> Picture {
    let mut body = Group::new();
    let across = |place: usize| LEFT + CELL * number(place);
    let width = across(items.len()) + RIGHT;
    let mut field = None;
    for (row, total) in matrix.totals.iter().enumerate() {
        let y = TOP + CELL * number(row);
        // Fields are parted by a heavier line, with the name of each beyond the numbers.
        let own = graph.principle(total.principle).field;
        if field.replace(own) != Some(own) {
            let name = &graph.field(own).name;
            body = body.add(line(10.0, y, width - 10.0, y).set("stroke-width", 1.2));
            body = body.add(words(across(items.len()) + 34.0, y + 13.0, "start", name));
        }
        let name = &graph.principle(total.principle).name;
        body = body
            .add(words(LEFT - 6.0, y + 13.0, "end", name))
            .add(line(LEFT, y, across(items.len()), y))
            .add(words(across(items.len()) + 8.0, y + 13.0, "start", &total.n_items.to_string()));
        for (column, item) in items.iter().enumerate() {
            if let Some(one) = item.principles.iter().find(|one| one.principle == total.principle) {
                body = body.add(cell(across(column), y, one.how, one.strength));
            }
        }
    }
    let bottom = TOP + CELL * number(matrix.totals.len());
    for column in 0..=items.len() {
        body = body.add(line(across(column), TOP, across(column), bottom));
        if column < items.len() {
            body = body.add(words(across(column) + CELL / 2.0, TOP - 8.0, "middle", &(column + 1).to_string()));
        }
    }
    body = body.add(line(LEFT, bottom, across(items.len()), bottom)).add(words(
        across(items.len()) + 8.0,
        TOP - 8.0,
        "start",
        "items",
    ));
    let legend = [
        (How::Path, 1.0, "on the path"),
        (How::Text, 0.9, "in the text, strongly"),
        (How::Text, 0.5, "in the text"),
        (How::Prerequisite, 0.5, "rests on it"),
    ];
    for (place, (how, strength, meaning)) in legend.into_iter().enumerate() {
        let (x, y) = (10.0 + 190.0 * number(place % 3), bottom + 10.0 + 24.0 * number(place / 3));
        body = body.add(cell(x, y, how, strength)).add(words(x + CELL + 6.0, y + 13.0, "start", meaning));
    }
    let n_met = matrix.totals.iter().filter(|total| total.n_items > 0).count();
    let title = "Principles and the items that exercise them";
    let description = format!(
        "A grid of {} principles (rows) and {} items (columns). {n_met} principles are exercised by at least one item; {} by none.",
        matrix.totals.len(),
        items.len(),
        matrix.totals.len() - n_met
    );
    Picture::new("heat-map", (width.max(600.0), bottom + LEGEND + 10.0), title, &description, body)
}

fn cell(x: f64, y: f64, how: How, strength: f64) -> Group {
    let square = |inset: f64| {
        Rectangle::new()
            .set("x", two(x + inset))
            .set("y", two(y + inset))
            .set("width", two(CELL - 2.0 * inset))
            .set("height", two(CELL - 2.0 * inset))
            .set("stroke", "currentColor")
            .set("stroke-width", 1)
    };
    match how {
        How::Path => Group::new().add(square(2.0).set("fill", "currentColor")),
        How::Prerequisite => Group::new().add(
            Circle::new()
                .set("cx", two(x + CELL / 2.0))
                .set("cy", two(y + CELL / 2.0))
                .set("r", 3)
                .set("fill", "none")
                .set("stroke", "currentColor"),
        ),
        How::Text => {
            let gap = if strength >= 0.75 {
                2.5
            } else if strength >= super::COUNTS {
                4.0
            } else {
                7.0
            };
            let n_stripes = (1..20_u32).take_while(|k| f64::from(*k) * gap < CELL - 4.0);
            let mut stripes = String::new();
            for k in n_stripes {
                let across = two(x + 2.0 + f64::from(k) * gap);
                let _ = write!(stripes, "M{across} {} V{}", two(y + 2.0), two(y + CELL - 2.0));
            }
            let stripes = Path::new().set("d", stripes).set("stroke", "currentColor").set("stroke-width", 1.2);
            Group::new().add(square(2.0).set("fill", "none")).add(stripes)
        }
    }
}

fn number(place: usize) -> f64 {
    u32::try_from(place).map_or(0.0, f64::from)
}

fn two(value: f64) -> f64 {
    libm::round(value * 100.0) / 100.0
}

fn line(x1: f64, y1: f64, x2: f64, y2: f64) -> Line {
    Line::new()
        .set("x1", two(x1))
        .set("y1", two(y1))
        .set("x2", two(x2))
        .set("y2", two(y2))
        .set("stroke", "currentColor")
        .set("stroke-width", 0.4)
}

fn words(x: f64, y: f64, anchor: &str, text: &str) -> Text {
    Text::new(text)
        .set("x", two(x))
        .set("y", two(y))
        .set("font-size", 12)
        .set("text-anchor", anchor)
        .set("fill", "currentColor")
}
