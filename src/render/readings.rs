//! What one would see when reading: bands in lanes, zones in channels, containers that shine or are dark.
//!
//! Drawn from the means of the data table, one container a level, each with its number: the shade alone says nothing.

use svg::node::element::Group;

use super::figure::ink::{Anchor, LETTER, SMALL, STROKE, block, frame, line, text};
use super::figure::lettering::{width, wrap};
use super::figure::scale::Scale;
use super::figure::{Chart, Mark, Picture};
use crate::scenario::Readings;

/// Width of the picture.
const WIDTH: f64 = 360.0;
/// Containers in one row.
const IN_A_ROW: usize = 5;
/// Height of a line of letters.
const LEADING: f64 = 15.0;
/// Longest table that is drawn so.
const MOST: usize = 10;
/// Length of a lane.
const LANE: f64 = 170.0;
/// The darkest shade, so that outlines stay visible.
const DARKEST: f64 = 0.85;

/// The picture of a chart's readings; `None` where there are too many, or one below zero.
pub fn readings(chart: &Chart, kind: Readings) -> Option<Picture> {
    let fits = chart.marks.len() <= MOST && chart.marks.iter().all(|mark| mark.mean >= 0.0);
    if !fits {
        return None;
    }
    let heading = match kind {
        Readings::Bands => "Bands as seen at each level",
        Readings::Smears => "Smears as seen at each level",
        Readings::Zones => "Zones as seen at each level",
        Readings::Shining => "Containers as seen by the camera, one of each level",
        Readings::Dark | Readings::Clear => "Containers as seen against a light, one of each level",
    };
    let mut body = Group::new();
    let mut y = 8.0;
    for words in wrap(heading, LETTER, WIDTH - 20.0) {
        y += LEADING;
        body = body.add(text(WIDTH / 2.0, y - 3.0, LETTER, Anchor::Middle, &words).set("font-weight", "bold"));
    }
    let (drawn, mut y) = match kind {
        Readings::Bands | Readings::Smears | Readings::Zones => lanes(chart, y + 4.0, kind),
        Readings::Shining | Readings::Dark | Readings::Clear => containers(chart, y + 4.0, kind),
    };
    body = body.add(drawn);
    let note = match kind {
        Readings::Bands | Readings::Smears | Readings::Zones => format!("Below each: {}. Scale: {}.", chart.x, chart.y),
        _ => format!("Above each: {}. Below: {}.", chart.x, chart.y),
    };
    for words in wrap(&note, SMALL, WIDTH - 20.0) {
        y += LEADING;
        body = body.add(text(WIDTH / 2.0, y, SMALL, Anchor::Middle, &words).set("font-style", "italic"));
    }
    Some(Picture {
        name: "readings".into(),
        width: WIDTH,
        height: y + 8.0,
        title: heading.into(),
        description: format!("{}{}", in_words(chart, kind), standard_in_words(chart)),
        body,
    })
}

/// What is seen, for those who do not see it.
fn in_words(chart: &Chart, kind: Readings) -> String {
    let what = match kind {
        Readings::Bands => "a lane with one band",
        Readings::Smears => "a lane with a smear, the middle of which is given",
        Readings::Zones => "a channel with one zone",
        Readings::Shining => "a container, the brighter the higher its reading",
        Readings::Dark => "a container, the darker the higher its reading",
        Readings::Clear => "a container, the lighter the higher its reading",
    };
    let marks: Vec<String> = chart.marks.iter().map(|mark| format!("{}: {}", mark.label, mark.shown)).collect();
    format!("For each level {what}. {}, then {}: {}.", chart.x, chart.y, marks.join("; "))
}

/// The standard for those who do not see it.
fn standard_in_words(chart: &Chart) -> String {
    if chart.standard.is_empty() {
        return String::new();
    }
    let known: Vec<String> = chart.standard.iter().map(|known| format!("{} at {}", known.size, known.at)).collect();
    format!(" The first lane holds pieces of known size: {}.", known.join("; "))
}

/// Lanes side by side with a scale; the start lies at the top, or at the bottom where things move up to the negative
/// electrode.
fn lanes(chart: &Chart, top: f64, kind: Readings) -> (Group, f64) {
    let upward = kind == Readings::Zones;
    let known = chart.standard.iter().map(|known| known.at);
    let greatest = chart.marks.iter().map(|mark| mark.mean).chain(known).fold(0.0, f64::max);
    let scale = Scale::of_readings(0.0, greatest, true);
    let room = scale.marks().iter().map(|(_, words)| width(words)).fold(0.0, f64::max) * SMALL;
    let left = room + 44.0;
    // The standard takes twice the width of a lane: its sizes are written beside its bands.
    let n_standard = if chart.standard.is_empty() { 0 } else { 2 };
    let each = (WIDTH - 16.0 - left) / count(chart.marks.len() + n_standard);
    let top = top + 16.0;
    let y_of = |value: f64| {
        let share = scale.share(value);
        top + LANE * if upward { 1.0 - share } else { share }
    };
    let mut group = Group::new();
    for (value, words) in scale.marks() {
        let y = y_of(value);
        group = group.add(line(left - 10.0, y, left - 4.0, y, 1.2)).add(text(
            left - 14.0,
            y + SMALL * 0.35,
            SMALL,
            Anchor::End,
            &words,
        ));
    }
    let (above, below) = ("−", if upward { "" } else { "+" });
    let start = y_of(0.0);
    group = group
        .add(line(left - 7.0, top, left - 7.0, top + LANE, 1.2))
        .add(line(left - 4.0, start, WIDTH - 14.0, start, 1.2).set("stroke-dasharray", "4 3"))
        .add(text(14.0, top - 3.0, LETTER + 3.0, Anchor::Middle, above))
        .add(text(14.0, top + LANE + 12.0, LETTER + 3.0, Anchor::Middle, below))
        .add(text(14.0, start + if upward { -6.0 } else { 16.0 }, SMALL, Anchor::Start, "start"));
    if n_standard > 0 {
        group = group.add(standard(chart, (left + each * 0.14, top, each), y_of));
    }
    for (place, mark) in chart.marks.iter().enumerate() {
        let x = left + each * count(place + n_standard) + each * 0.14;
        let wide = each * 0.72;
        group = group
            .add(frame(x, top - 6.0, wide, LANE + 12.0, 1.0).set("stroke-opacity", 0.6))
            .add(stain((x + 3.0, wide - 6.0), y_of(mark.mean), (top, top + LANE), kind))
            .add(text(x + wide / 2.0, top + LANE + 20.0, SMALL, Anchor::Middle, &mark.label));
    }
    (group, top + LANE + 24.0)
}

/// Slices of shade to each side of a smear's middle, and the height of one.
const SLICES: u32 = 8;
const HIGH: f64 = 3.0;

/// A band, or a smear that fades to both sides of its middle.
fn stain((x, wide): (f64, f64), y: f64, (top, bottom): (f64, f64), kind: Readings) -> Group {
    let slice = |from: f64, high: f64| block(x, from, wide, high).set("fill", "currentColor");
    if kind != Readings::Smears {
        return Group::new().add(slice(y - 3.5, 7.0).set("rx", 2));
    }
    // The line marks what is measured.
    let mut group = Group::new();
    for n in 0..SLICES {
        let shade = libm::round(60.0 * f64::from(SLICES - n) / f64::from(SLICES)) / 100.0;
        let away = HIGH * f64::from(n);
        for from in [y + away, y - away - HIGH].into_iter().filter(|from| *from >= top && from + HIGH <= bottom) {
            group = group.add(slice(from, HIGH).set("fill-opacity", shade));
        }
    }
    group.add(slice(y - 0.6, 1.2))
}

/// The lane of known sizes: thin bands, each with its size where there is room for it.
fn standard(chart: &Chart, (x, top, each): (f64, f64, f64), y_of: impl Fn(f64) -> f64) -> Group {
    let wide = each * 0.72;
    let mut group = Group::new().add(frame(x, top - 6.0, wide, LANE + 12.0, 1.0).set("stroke-opacity", 0.6)).add(text(
        x + wide / 2.0,
        top + LANE + 20.0,
        SMALL,
        Anchor::Middle,
        "known",
    ));
    let mut written: Vec<f64> = Vec::new();
    for known in &chart.standard {
        let y = y_of(known.at);
        group = group.add(block(x + 3.0, y - 1.5, wide - 6.0, 3.0).set("fill", "currentColor"));
        if written.iter().all(|other| (other - y).abs() >= SMALL) {
            group = group.add(text(x + wide + 3.0, y + SMALL * 0.35, SMALL, Anchor::Start, &known.size));
            written.push(y);
        }
    }
    group
}

/// Containers in rows, each shaded as it would look; black and white whatever the page's colours are.
fn containers(chart: &Chart, top: f64, kind: Readings) -> (Group, f64) {
    let greatest = chart.marks.iter().map(|mark| mark.mean).fold(0.0, f64::max);
    let columns = chart.marks.len().clamp(1, IN_A_ROW);
    let each = (WIDTH - 16.0) / count(columns);
    let mut group = Group::new();
    let mut bottom = top;
    for (place, mark) in chart.marks.iter().enumerate() {
        let x = 8.0 + each * (count(place % columns) + 0.5);
        let y = top + 94.0 * count(place / columns);
        let dark = darkness(mark, kind, greatest).clamp(0.0, DARKEST);
        let shade = block(x - 20.0, y + 20.0, 40.0, 44.0).set("rx", 7);
        group = group
            .add(text(x, y + 13.0, SMALL, Anchor::Middle, &mark.label))
            .add(shade.clone().set("fill", "#ffffff"))
            .add(shade.clone().set("fill", "#000000").set("fill-opacity", libm::round(dark * 100.0) / 100.0))
            .add(shade.set("fill", "none").set("stroke", "currentColor").set("stroke-width", STROKE))
            .add(text(x, y + 80.0, SMALL, Anchor::Middle, &mark.shown));
        bottom = y + 84.0;
    }
    (group, bottom)
}

/// How dark a container looks, from 0 to 1.
fn darkness(mark: &Mark, kind: Readings, greatest: f64) -> f64 {
    match kind {
        // The definition of absorbance: the share of light that passes is ten to the power of minus it.
        Readings::Dark => 1.0 - libm::pow(10.0, -mark.mean),
        Readings::Clear => 1.0 - mark.mean / 100.0,
        _ if greatest > 0.0 => 1.0 - mark.mean / greatest,
        _ => 1.0,
    }
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(0.0, f64::from)
}
