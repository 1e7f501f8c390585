//! `toehold generate --from`: the plan in a file, and whether a technique can follow it.

use std::path::Path;

use crate::cli::{Failure, World, files};
use crate::concepts::Graph;
use crate::diagnostic;
use crate::plan;
use crate::source::Sources;
use crate::technique::{Catalogue, STEPS, Wish};

/// Narrows a wish to what the plan of a file says.
///
/// # Errors
/// A file that cannot be read; a plan with faults, which have then been shown on standard error.
pub(super) fn narrow(wish: &mut Wish, graph: &Graph, path: &Path, world: &mut World<'_>) -> Result<(), Failure> {
    let text = files::scenario_text(path)?;
    let mut sources = Sources::new();
    let file = sources.add(path.display().to_string(), text.into_bytes());
    let faults = plan::narrow(wish, graph, file, sources.text(file));
    for fault in &faults {
        writeln!(world.err, "{}", diagnostic::terminal(&sources, fault, world.colour))?;
    }
    if faults.is_empty() {
        return Ok(());
    }
    Err(Failure::new(format!("`{}` is no plan that can be followed", path.display()))
        .hint("`toehold new scenario` begins one; where it names parts of your own, give their folder with --concepts"))
}

/// Whether a technique can take the path that was planned.
///
/// # Errors
/// None can.
pub(super) fn can_be_walked(wish: &Wish, graph: &Graph, catalogue: &Catalogue) -> Result<(), Failure> {
    let Some(steps) = &wish.steps else { return Ok(()) };
    if catalogue.candidates().iter().any(|candidate| candidate.path.steps() == steps) {
        return Ok(());
    }
    let reasons: Vec<String> = Catalogue::why_not(graph, steps).iter().map(|(reason, _)| reason.to_string()).collect();
    Err(Failure::new("no technique takes the path of the plan").hint(if reasons.is_empty() {
        format!("a path has {} to {} steps", STEPS.start(), STEPS.end())
    } else {
        reasons.join("; ")
    }))
}
