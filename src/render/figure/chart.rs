//! What a data plot shows, read off a data table as printed.

use crate::quantity::significant;
use crate::scenario::{Column, FrontPlot, Known, Scenario};

/// A plot's contents.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Heading.
    pub title: String,
    /// Title of the horizontal axis, with its unit.
    pub x: String,
    /// Title of the vertical axis, with its unit.
    pub y: String,
    /// Bars for categories, points joined by a line for amounts.
    pub bars: bool,
    /// In the order of the table.
    pub marks: Vec<Mark>,
    /// Samples of known size, read beside them.
    pub standard: Vec<Known>,
}

/// One mean with its error bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The level as printed.
    pub label: String,
    /// The level as a number, where it is one.
    pub level: Option<f64>,
    /// The mean.
    pub mean: f64,
    /// The mean as printed.
    pub shown: String,
    /// Half the length of the error bar, where the table has one.
    pub two_sem: Option<f64>,
    /// Number of readings, where the table has it.
    pub n: Option<String>,
}

/// Longest table that is plotted.
const MOST_MARKS: usize = 60;

impl Chart {
    /// The chart of a scenario's plain run.
    pub fn of(scenario: &Scenario) -> Option<Self> {
        let headers: Vec<String> = scenario.data.columns.iter().map(Column::header).collect();
        let rows: Vec<Vec<String>> = scenario.data.printed.iter().map(|row| row.to_vec()).collect();
        Self::read(&headers, &rows, &scenario.front.plot)
    }

    /// The chart of a table: levels in its first column, means in its second, ±2 SEM and n in the columns so headed.
    /// `None` where the table has no such shape or a mean is no number.
    pub fn read(headers: &[String], rows: &[Vec<String>], plot: &FrontPlot) -> Option<Self> {
        let [x, y, ..] = headers else { return None };
        let column = |wanted: fn(&str) -> bool| headers.iter().skip(2).position(|h| wanted(h)).map(|at| at + 2);
        let sem_at = column(|header| header.contains('±') || header.to_lowercase().contains("sem"));
        let n_at = column(|header| header.trim() == "n");
        let marks: Option<Vec<Mark>> = rows
            .iter()
            .map(|row| {
                Some(Mark {
                    label: row.first()?.clone(),
                    level: number(row.first()?),
                    mean: number(row.get(1)?)?,
                    shown: row.get(1)?.clone(),
                    two_sem: sem_at.and_then(|at| number(row.get(at)?)).map(f64::abs),
                    n: n_at.and_then(|at| row.get(at).cloned()).filter(|n| !n.is_empty()),
                })
            })
            .collect();
        let marks = marks.filter(|marks| (2..=MOST_MARKS).contains(&marks.len()))?;
        let categories = marks.iter().any(|mark| mark.level.is_none());
        let title = if plot.title.trim().is_empty() {
            format!("{} against {}", bare(y), bare(x).to_lowercase())
        } else {
            plot.title.clone()
        };
        let bars = categories || plot.bars;
        Some(Self { title, x: x.clone(), y: y.clone(), bars, marks, standard: plot.standard.clone() })
    }

    /// The whole in words, for those who do not see it.
    pub fn in_words(&self) -> String {
        let kind = if self.bars { "Bar chart" } else { "Line graph" };
        let marks: Vec<String> = self
            .marks
            .iter()
            .map(|mark| {
                let spread = mark.two_sem.map_or_else(String::new, |two_sem| format!(" ± {}", plain(two_sem)));
                format!("{}: {}{spread}", mark.label, plain(mark.mean))
            })
            .collect();
        let bars =
            if self.marks.iter().any(|mark| mark.two_sem.is_some()) { " with error bars of ±2 SEM" } else { "" };
        format!("{kind}{bars}. Horizontal axis: {}. Vertical axis: {}. Values: {}.", self.x, self.y, marks.join("; "))
    }

    /// How many readings each mean rests on, where all rest on as many.
    pub(super) fn readings(&self) -> Option<&str> {
        let first = self.marks.first()?.n.as_deref()?;
        self.marks.iter().all(|mark| mark.n.as_deref() == Some(first)).then_some(first)
    }
}

/// A header without its unit.
fn bare(header: &str) -> &str {
    header.split_once(" (").map_or(header, |(name, _)| name)
}

/// A cell that is a finite number of believable size.
fn number(cell: &str) -> Option<f64> {
    significant::parse(cell).filter(|value| value.is_finite() && value.abs() < 1e15)
}

fn plain(value: f64) -> String {
    significant::shortest(value, 6)
}
