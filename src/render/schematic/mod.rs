//! The schematic: each stage of the apparatus drawn from its parts, with a label beside it for every part.
//!
//! Comes in: the panels of a scenario, plain data. Goes out: one [`Picture`] a panel, or all in one.
//! **Must not know**: the graph; what the labels mean.

mod icons;
mod labels;
mod liquid;
mod reading;
mod run;
mod separation;
mod sketch;
mod strands;

use svg::node::element::Group;

use self::labels::Placed;
use self::sketch::Sketch;
use super::figure::Picture;
use super::figure::ink::{Anchor, LETTER, frame, n, text};
use crate::scenario::{Panel, Scene};

/// Width of a panel: what a phone shows without shrinking the letters.
const WIDTH: f64 = 340.0;
/// Room for the panel's title.
const TITLE: f64 = 28.0;
/// Where the drawing begins, from the left.
const LEFT: f64 = 8.0;
/// Width and least height of a drawing.
const DRAWING: f64 = 150.0;
/// Where the labels begin, from the left.
const LABELS: f64 = 176.0;
/// Distance between panels of one picture.
const GAP: f64 = 12.0;

/// A panel, drawn, before its height is settled.
struct Drawn<'p> {
    panel: &'p Panel,
    sketch: Sketch,
    labels: Vec<Placed>,
    height: f64,
}

/// Each panel as a picture of its own, all of one height.
pub(super) fn panels(panels: &[Panel]) -> Vec<Picture> {
    let (drawn, height) = drawn(panels);
    drawn
        .iter()
        .enumerate()
        .map(|(place, panel)| Picture {
            name: format!("apparatus-{}", place + 1),
            width: WIDTH,
            height,
            title: heading(place, panel.panel),
            description: described(panel.panel),
            body: body(place, panel, height),
        })
        .collect()
}

/// All panels in one picture, two in a row; `None` where there is none.
pub fn schematic(panels: &[Panel]) -> Option<Picture> {
    let (drawn, height) = drawn(panels);
    if drawn.is_empty() {
        return None;
    }
    let columns = drawn.len().min(2);
    let rows = drawn.len().div_ceil(columns);
    let mut whole = Group::new();
    for (place, panel) in drawn.iter().enumerate() {
        let (x, y) = (count(place % columns) * (WIDTH + GAP), count(place / columns) * (height + GAP));
        let moved = format!("translate({} {})", n(x), n(y));
        whole = whole.add(body(place, panel, height).set("transform", moved));
    }
    let told: Vec<String> = panels
        .iter()
        .enumerate()
        .map(|(place, panel)| format!("{}: {}.", heading(place, panel), described(panel)))
        .collect();
    Some(Picture {
        name: "apparatus".into(),
        width: count(columns) * (WIDTH + GAP) - GAP,
        height: count(rows) * (height + GAP) - GAP,
        title: "The apparatus, stage by stage".into(),
        description: told.join(" "),
        body: whole,
    })
}

/// Panels drawn and labelled, and the height that all of them take.
fn drawn(panels: &[Panel]) -> (Vec<Drawn<'_>>, f64) {
    let drawn: Vec<Drawn<'_>> = panels
        .iter()
        .map(|panel| {
            let sketch = scene(panel);
            let (labels, height) = labels::place(panel, &sketch, DRAWING, WIDTH - LABELS - 8.0);
            Drawn { panel, sketch, labels, height }
        })
        .collect();
    let height = drawn.iter().map(|panel| panel.height).fold(DRAWING, f64::max);
    (drawn, TITLE + height + 8.0)
}

fn scene(panel: &Panel) -> Sketch {
    match panel.scene {
        Scene::Liquid => liquid::draw(panel),
        Scene::Filter => separation::filter(panel),
        Scene::Spin => separation::spin(panel),
        Scene::Run => run::draw(panel),
        Scene::Through => reading::through(panel),
        Scene::Above => reading::above(panel),
        Scene::Gas => reading::gas(panel),
        Scene::Chamber => reading::chamber(panel),
    }
}

fn body(place: usize, drawn: &Drawn<'_>, height: f64) -> Group {
    let title = text(LEFT + 2.0, 19.0, LETTER + 0.5, Anchor::Start, &heading(place, drawn.panel));
    let mut body = Group::new()
        .add(frame(0.75, 0.75, WIDTH - 1.5, height - 1.5, 0.8).set("rx", 6).set("stroke-opacity", 0.55))
        .add(title.set("font-weight", "bold"))
        .add(drawn.sketch.body().set("transform", format!("translate({} {})", n(LEFT), n(TITLE))));
    for label in &drawn.labels {
        body = body.add(label.draw(LEFT, TITLE, LABELS));
    }
    body
}

fn heading(place: usize, panel: &Panel) -> String {
    format!("{}. {}", place + 1, panel.title)
}

fn described(panel: &Panel) -> String {
    panel.items.iter().map(|item| item.label.as_str()).collect::<Vec<_>>().join("; ")
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(0.0, f64::from)
}
