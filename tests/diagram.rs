//! `toehold explain --diagram`: what follows from a teacher's own signed diagram.

mod files;
mod reference;
mod soundness;

use toehold::reasoning::Sign;
use toehold::reasoning::press::{Diagram, press_all};

/// An arrow as (from, sign, to).
type Arrow = (usize, Sign, usize);

/// Things named by their numbers, in order, joined by these arrows.
fn diagram(size: usize, arrows: &[Arrow]) -> Diagram {
    let mut diagram = Diagram::new();
    diagram.nodes = (0..size).map(|place| place.to_string()).collect();
    for (from, sign, to) in arrows {
        diagram.connect(&from.to_string(), *sign, &to.to_string());
    }
    diagram
}

/// Every answer as `+`, `-`, `0` or `?`, by place of source and target.
fn answers(size: usize, arrows: &[Arrow]) -> Vec<Vec<&'static str>> {
    let responses = press_all(&diagram(size, arrows));
    (0..size).map(|source| (0..size).map(|target| responses[&(source, target)].ascii()).collect()).collect()
}
