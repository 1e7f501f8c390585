//! A curve drawn for the terminal and as SVG.

use std::fmt::Write as _;

use svg::Document;
use svg::node::element::{Description, Line, Polyline, Text, Title};

use crate::quantity::significant;

/// Size of the field in characters.
const COLUMNS: usize = 60;
const ROWS: usize = 15;
/// Size of the picture and its margins in points.
const WIDTH: f64 = 480.0;
const HEIGHT: f64 = 320.0;
const LEFT: f64 = 72.0;
const RIGHT: f64 = 28.0;
const TOP: f64 = 16.0;
const BOTTOM: f64 = 52.0;
const FONT: f64 = 12.0;

/// Points to draw, with the words that belong to them.
pub(in crate::cli) struct Curve {
    /// What is drawn.
    pub(in crate::cli) title: String,
    /// The input.
    pub(in crate::cli) x: Label,
    /// The value.
    pub(in crate::cli) y: Label,
    /// At least two points, in the order of the input.
    pub(in crate::cli) points: Vec<(f64, f64)>,
}

/// What an axis shows.
pub(in crate::cli) struct Label {
    /// Its name.
    pub(in crate::cli) name: String,
    /// Its unit as readers write it; empty for plain numbers.
    pub(in crate::cli) unit: String,
}

impl Label {
    /// Name and unit, the power of ten that the axis' numbers are to be multiplied by before the unit.
    fn text(&self, power: i32) -> String {
        let ten = if power == 0 { String::new() } else { format!("10{}", significant::superscript(power)) };
        let parts: Vec<&str> = [ten.as_str(), self.unit.as_str()].into_iter().filter(|part| !part.is_empty()).collect();
        if parts.is_empty() { self.name.clone() } else { format!("{} ({})", self.name, parts.join(" ")) }
    }
}

/// An axis: from a round number to a round number, with round steps between.
struct Axis {
    low: f64,
    step: f64,
    n_steps: u32,
}

impl Axis {
    /// The axis that holds these values in some four to eight steps of 1, 2 or 5 times a power of ten.
    fn over(values: impl Iterator<Item = f64> + Clone) -> Self {
        let low = values.clone().fold(f64::INFINITY, f64::min);
        let high = values.fold(f64::NEG_INFINITY, f64::max);
        let span = if high > low { high - low } else { low.abs().max(1.0) };
        let power = libm::pow(10.0, libm::floor(libm::log10(span / 5.0)));
        let step = [1.0, 2.0, 5.0, 10.0].map(|digit| digit * power).into_iter().find(|step| span / step <= 8.0);
        let step = step.unwrap_or(10.0 * power);
        let first = (low / step).floor() * step;
        let n_steps = (1..=20).find(|n| first + f64::from(*n) * step >= high - 1e-9 * step).unwrap_or(20);
        Self { low: first, step, n_steps }
    }

    fn ticks(&self) -> impl Iterator<Item = f64> + '_ {
        (0..=self.n_steps).map(|n| {
            let tick = self.low + f64::from(n) * self.step;
            if tick.abs() < 1e-9 * self.step { 0.0 } else { significant::round_to(tick, 10) }
        })
    }

    /// The power of ten taken out of the ticks, so that they are short: 0 where they are short as they are.
    fn power(&self) -> i32 {
        let greatest = self.ticks().map(f64::abs).fold(0.0, f64::max);
        let exponent = format!("{greatest:e}").split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0);
        if (-2..=4).contains(&exponent) { 0 } else { exponent }
    }

    /// Each tick with the words that stand beside it.
    fn written(&self) -> impl Iterator<Item = (f64, String)> + '_ {
        let unit = libm::pow(10.0, f64::from(self.power()));
        self.ticks().map(move |tick| (tick, significant::shortest(tick / unit, 6)))
    }

    /// Where a value lies: 0 at the start of the axis, 1 at its end.
    fn share(&self, value: f64) -> f64 {
        (value - self.low) / (f64::from(self.n_steps) * self.step)
    }
}

impl Curve {
    fn axes(&self) -> (Axis, Axis) {
        (Axis::over(self.points.iter().map(|point| point.0)), Axis::over(self.points.iter().map(|point| point.1)))
    }

    /// The curve in characters, with ends of the axes and names.
    pub(in crate::cli) fn text(&self) -> String {
        let (x_axis, y_axis) = self.axes();
        let mut field = vec![[' '; COLUMNS]; ROWS];
        for (x, y) in &self.points {
            let column = cell(x_axis.share(*x), COLUMNS);
            let row = ROWS - 1 - cell(y_axis.share(*y), ROWS);
            if let Some(place) = field.get_mut(row).and_then(|line| line.get_mut(column)) {
                *place = '•';
            }
        }
        let ends = |axis: &Axis| {
            let mut ticks = axis.written().map(|(_, words)| words);
            (ticks.next().unwrap_or_default(), ticks.last().unwrap_or_default())
        };
        let ((x_low, x_high), (y_low, y_high)) = (ends(&x_axis), ends(&y_axis));
        let margin = y_low.chars().count().max(y_high.chars().count());
        let mut text = format!("  {}\n", self.y.text(y_axis.power()));
        for (row, line) in field.iter().enumerate() {
            let label = match row {
                0 => y_high.as_str(),
                _ if row == ROWS - 1 => y_low.as_str(),
                _ => "",
            };
            let line: String = line.iter().collect();
            let _ = writeln!(text, "  {label:>margin$} │{}", line.trim_end());
        }
        let _ = writeln!(text, "  {:margin$} └{}", "", "─".repeat(COLUMNS));
        let gap = COLUMNS.saturating_sub(x_low.chars().count());
        let _ = writeln!(text, "  {:margin$}  {x_low}{x_high:>gap$}", "");
        let _ = write!(text, "  {:margin$}  {:^COLUMNS$}", "", self.x.text(x_axis.power()));
        text.trim_end().to_owned()
    }

    /// The curve as a picture that stands by itself.
    pub(in crate::cli) fn svg(&self) -> String {
        let (x_axis, y_axis) = self.axes();
        let across = |x: f64| LEFT + x_axis.share(x) * (WIDTH - LEFT - RIGHT);
        let down = |y: f64| HEIGHT - BOTTOM - y_axis.share(y) * (HEIGHT - TOP - BOTTOM);
        let mut picture = Document::new()
            .set("viewBox", (0.0, 0.0, WIDTH, HEIGHT))
            .set("role", "img")
            .set("font-family", "sans-serif")
            .set("font-size", FONT)
            .add(Title::new(self.title.clone()))
            .add(Description::new().add(svg::node::Text::new(self.description())));
        for (tick, text) in x_axis.written() {
            let x = across(tick);
            picture = picture.add(line(x, TOP, x, HEIGHT - BOTTOM, "#ddd")).add(words(
                &text,
                x,
                HEIGHT - BOTTOM + 16.0,
                "middle",
            ));
        }
        for (tick, text) in y_axis.written() {
            let y = down(tick);
            picture =
                picture.add(line(LEFT, y, WIDTH - RIGHT, y, "#ddd")).add(words(&text, LEFT - 6.0, y + 4.0, "end"));
        }
        let points: Vec<String> =
            self.points.iter().map(|(x, y)| format!("{:.2},{:.2}", across(*x), down(*y))).collect();
        let curve = Polyline::new()
            .set("points", points.join(" "))
            .set("fill", "none")
            .set("stroke", "#000")
            .set("stroke-width", 2);
        let (middle, height) = (f64::midpoint(LEFT, WIDTH - RIGHT), f64::midpoint(TOP, HEIGHT - BOTTOM));
        picture
            .add(line(LEFT, HEIGHT - BOTTOM, WIDTH - RIGHT, HEIGHT - BOTTOM, "#000"))
            .add(line(LEFT, TOP, LEFT, HEIGHT - BOTTOM, "#000"))
            .add(curve)
            .add(words(&self.x.text(x_axis.power()), middle, HEIGHT - 10.0, "middle"))
            .add(
                words(&self.y.text(y_axis.power()), 14.0, height, "middle")
                    .set("transform", format!("rotate(-90 14 {height})")),
            )
            .to_string()
    }

    /// The curve in words, for readers who do not see it.
    fn description(&self) -> String {
        let write = |number: f64| significant::shortest(number, 3);
        match (self.points.first(), self.points.last()) {
            (Some((x, y)), Some((x_end, y_end))) => format!(
                "{} against {}: {} at {}, {} at {}",
                self.y.text(0),
                self.x.text(0),
                write(*y),
                write(*x),
                write(*y_end),
                write(*x_end)
            ),
            _ => self.title.clone(),
        }
    }
}

fn line(x1: f64, y1: f64, x2: f64, y2: f64, colour: &str) -> Line {
    let at = |value: f64| format!("{value:.2}");
    Line::new().set("x1", at(x1)).set("y1", at(y1)).set("x2", at(x2)).set("y2", at(y2)).set("stroke", colour)
}

fn words(text: &str, x: f64, y: f64, anchor: &str) -> Text {
    Text::new(text).set("x", format!("{x:.2}")).set("y", format!("{y:.2}")).set("text-anchor", anchor)
}

/// Which of n cells a share between 0 and 1 falls in.
fn cell(share: f64, n: usize) -> usize {
    let last = n.saturating_sub(1);
    let n_cells = u32::try_from(last).map_or(0.0, f64::from);
    (0..=last).rev().find(|cell| u32::try_from(*cell).map_or(0.0, f64::from) <= share * n_cells + 0.5).unwrap_or(0)
}
