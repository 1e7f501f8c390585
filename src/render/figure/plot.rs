//! The data plot: points joined by a line for amounts, striped bars for categories, ±2 SEM.

use svg::node::element::{Definitions, Group};

use super::chart::{Chart, Mark};
use super::ink::{Anchor, LETTER, SMALL, STROKE, block, dot, frame, line, n, path, stripes, text};
use super::lettering::{width, wrap};
use super::picture::Picture;
use super::scale::Scale;

/// Width of every plot: what a phone shows without shrinking the letters.
const WIDTH: f64 = 360.0;
/// Height of the ground of the plot.
const GROUND: f64 = 210.0;
/// Room to the right of the ground, for half of the last mark's number.
const RIGHT: f64 = 16.0;
/// Height of a line of letters.
const LEADING: f64 = 15.0;

/// Where the ground of the plot lies, and its two scales.
struct Ground {
    left: f64,
    top: f64,
    width: f64,
    y: Scale,
    x: Option<Scale>,
    n_marks: usize,
}

impl Ground {
    fn bottom(&self) -> f64 {
        self.top + GROUND
    }

    fn y_of(&self, value: f64) -> f64 {
        self.bottom() - GROUND * self.y.share(value)
    }

    /// Where the mark of this place in the table stands.
    fn x_of(&self, place: usize, mark: &Mark) -> f64 {
        match (&self.x, mark.level) {
            (Some(scale), Some(level)) => self.left + self.width * scale.share(level),
            _ => self.left + self.column() * (count(place) + 0.5),
        }
    }

    fn column(&self) -> f64 {
        self.width / count(self.n_marks.max(1))
    }
}

/// The plot of a chart.
pub fn plot(chart: &Chart) -> Picture {
    let title = wrap(&chart.title, LETTER, WIDTH - 20.0);
    let top = 8.0 + LEADING * count(title.len()) + 10.0;
    let y = y_scale(chart);
    let number = y.marks().iter().map(|(_, text)| width(text)).fold(0.0, f64::max) * SMALL;
    let y_title = wrap(&chart.y, LETTER, GROUND + 30.0);
    let left = 8.0 + LEADING * count(y_title.len()) + number + 12.0;
    let levels: Option<Vec<f64>> = chart.marks.iter().map(|mark| mark.level).collect();
    let x = levels.filter(|_| !chart.bars).map(|levels| {
        let low = levels.iter().copied().fold(f64::INFINITY, f64::min);
        Scale::of_levels(low, levels.into_iter().fold(f64::NEG_INFINITY, f64::max))
    });
    let ground = Ground { left, top, width: WIDTH - RIGHT - left, y, x, n_marks: chart.marks.len() };
    let mut body = Group::new().add(Definitions::new().add(stripes("plot-stripes")));
    for (row, words) in title.iter().enumerate() {
        let heading = text(WIDTH / 2.0, 8.0 + LEADING * (count(row) + 0.8), LETTER, Anchor::Middle, words);
        body = body.add(heading.set("font-weight", "bold"));
    }
    body = body.add(vertical(&ground, &y_title)).add(marks(chart, &ground));
    let (horizontal, below) = horizontal(chart, &ground);
    body = body.add(horizontal);
    let (notes, height) = notes(chart, &ground, below);
    Picture {
        name: "plot".into(),
        width: WIDTH,
        height,
        title: chart.title.clone(),
        description: chart.in_words(),
        body: body.add(notes),
    }
}

fn y_scale(chart: &Chart) -> Scale {
    let spread = |mark: &Mark| mark.two_sem.unwrap_or(0.0);
    let low = chart.marks.iter().map(|mark| mark.mean - spread(mark)).fold(f64::INFINITY, f64::min);
    let high = chart.marks.iter().map(|mark| mark.mean + spread(mark)).fold(f64::NEG_INFINITY, f64::max);
    // Error bars may reach below zero where the thing measured cannot.
    let least = chart.marks.iter().map(|mark| mark.mean).fold(f64::INFINITY, f64::min);
    Scale::of_readings(if least >= 0.0 { low.max(0.0) } else { low }, high, chart.bars)
}

fn vertical(ground: &Ground, title: &[String]) -> Group {
    let mut group = Group::new();
    for (value, words) in ground.y.marks() {
        let y = ground.y_of(value);
        group = group
            .add(line(ground.left, y, ground.left + ground.width, y, 0.7).set("stroke-opacity", 0.25))
            .add(line(ground.left - 5.0, y, ground.left, y, STROKE))
            .add(text(ground.left - 8.0, y + SMALL * 0.35, SMALL, Anchor::End, &words));
    }
    group = group.add(line(ground.left, ground.top, ground.left, ground.bottom(), STROKE));
    if ground.y.is_broken() {
        group = group.add(broken(ground));
    }
    let middle = ground.top + GROUND / 2.0;
    for (row, words) in title.iter().enumerate() {
        let x = 8.0 + LEADING * (count(row) + 0.8);
        let turned = format!("rotate(-90 {} {})", n(x), n(middle));
        group = group.add(text(x, middle, LETTER, Anchor::Middle, words).set("transform", turned));
    }
    group
}

/// The sign of an axis that leaves out zero: two short strokes across it.
fn broken(ground: &Ground) -> Group {
    let (x, y) = (ground.left, ground.bottom() - 9.0);
    Group::new().add(line(x - 6.0, y + 2.0, x + 6.0, y - 4.0, STROKE)).add(line(
        x - 6.0,
        y + 7.0,
        x + 6.0,
        y + 1.0,
        STROKE,
    ))
}

/// The horizontal axis with its title, and where it ends.
fn horizontal(chart: &Chart, ground: &Ground) -> (Group, f64) {
    let base = ground.bottom();
    let mut group = Group::new().add(line(ground.left, base, ground.left + ground.width, base, STROKE));
    let mut lines = 1;
    if let Some(scale) = &ground.x {
        for (value, words) in scale.marks() {
            let x = ground.left + ground.width * scale.share(value);
            group = group.add(line(x, base, x, base + 5.0, STROKE)).add(text(
                x,
                base + 5.0 + SMALL,
                SMALL,
                Anchor::Middle,
                &words,
            ));
        }
    } else {
        for (place, mark) in chart.marks.iter().enumerate() {
            let x = ground.x_of(place, mark);
            let words = wrap(&mark.label, SMALL, ground.column() - 3.0);
            lines = lines.max(words.len());
            for (row, word) in words.iter().enumerate() {
                group = group.add(text(x, base + 5.0 + SMALL + LEADING * count(row), SMALL, Anchor::Middle, word));
            }
        }
    }
    let mut y = base + 8.0 + LEADING * count(lines);
    for words in wrap(&chart.x, LETTER, ground.width) {
        y += LEADING;
        group = group.add(text(ground.left + ground.width / 2.0, y, LETTER, Anchor::Middle, &words));
    }
    (group, y)
}

fn marks(chart: &Chart, ground: &Ground) -> Group {
    let mut group = Group::new();
    if chart.bars {
        let zero = ground.y_of(0.0);
        for (place, mark) in chart.marks.iter().enumerate() {
            let (x, y) = (ground.x_of(place, mark), ground.y_of(mark.mean));
            let wide = ground.column() * 0.6;
            let (top, high) = (y.min(zero), (zero - y).abs());
            group = group.add(block(x - wide / 2.0, top, wide, high).set("fill", "url(#plot-stripes)")).add(frame(
                x - wide / 2.0,
                top,
                wide,
                high,
                STROKE,
            ));
        }
    } else {
        let points: Vec<String> = chart
            .marks
            .iter()
            .enumerate()
            .map(|(place, mark)| format!("{} {}", n(ground.x_of(place, mark)), n(ground.y_of(mark.mean))))
            .collect();
        group = group.add(path(format!("M{}", points.join(" L")), STROKE));
    }
    for (place, mark) in chart.marks.iter().enumerate() {
        let x = ground.x_of(place, mark);
        if let Some(two_sem) = mark.two_sem {
            group = group.add(error_bar(ground, x, mark.mean - two_sem, mark.mean + two_sem));
        }
        if !chart.bars {
            group = group.add(dot(x, ground.y_of(mark.mean), 3.4));
        }
    }
    group
}

fn error_bar(ground: &Ground, x: f64, low: f64, high: f64) -> Group {
    let (low, high) = (ground.y_of(low.max(ground.y.low)), ground.y_of(high));
    Group::new().add(line(x, low, x, high, STROKE)).add(line(x - 5.0, low, x + 5.0, low, STROKE)).add(line(
        x - 5.0,
        high,
        x + 5.0,
        high,
        STROKE,
    ))
}

/// What a reader of the plot must know, and the height of the whole.
fn notes(chart: &Chart, ground: &Ground, below: f64) -> (Group, f64) {
    let mut said = Vec::new();
    if chart.marks.iter().any(|mark| mark.two_sem.is_some()) {
        let n = chart.readings().map_or_else(String::new, |n| format!(" of n = {n}"));
        said.push(format!("Means{n}; error bars show ±2 SEM."));
    }
    if ground.y.is_broken() {
        said.push("The vertical axis does not start at zero.".to_owned());
    }
    let mut group = Group::new();
    let mut y = below + 4.0;
    for words in wrap(&said.join(" "), SMALL, WIDTH - 20.0) {
        y += LEADING;
        group = group.add(text(WIDTH / 2.0, y, SMALL, Anchor::Middle, &words).set("font-style", "italic"));
    }
    (group, y + 8.0)
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(0.0, f64::from)
}
