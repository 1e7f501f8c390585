//! Edited scenarios: what breaks a fact is reported at its line, what only rewords is not.

mod clean;
mod edits;
mod harmless;
mod mutants;
mod remake;
mod rough;
mod slips;

use toehold::concepts::{embedded, load_and_check};
use toehold::diagnostic::{Diagnostic, terminal};
use toehold::proof::proofread;
use toehold::render::{Templates, markdown};
use toehold::scenario::{Generator, Run, generate};
use toehold::seed::Seed;
use toehold::source::Sources;
use toehold::technique::{Refusals, Wish};

/// What makes scenarios and checks them.
pub(crate) struct Desk {
    pub(crate) generator: Generator,
    pub(crate) templates: Templates,
}

/// What was found in a text.
pub(crate) struct Found {
    pub(crate) sources: Sources,
    pub(crate) diagnostics: Vec<Diagnostic>,
}

impl Desk {
    /// With the program's own concepts.
    pub(crate) fn new() -> Self {
        let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults", faults.len()));
        Self { generator: Generator::new(graph), templates: Templates::new(&[]).unwrap() }
    }

    /// Scenarios of one run, as files.
    pub(crate) fn scenarios(&self, seed: u64, n: u64) -> Vec<String> {
        let mut run = Run::default();
        let mut refusals = Refusals::default();
        let made = (0..n).map(|index| {
            let scenario = generate(&self.generator, &Wish::default(), Seed(seed), index, &mut run, &mut refusals);
            markdown(&self.templates, &scenario.unwrap()).unwrap()
        });
        made.collect()
    }

    /// Proofreads a text.
    pub(crate) fn proof(&self, bytes: Vec<u8>) -> Found {
        let mut sources = Sources::new();
        let id = sources.add("scenario.md", bytes);
        let diagnostics = proofread(&sources, id, &self.generator, &self.templates).unwrap();
        Found { sources, diagnostics }
    }
}

impl Found {
    /// Whether something is reported at this line.
    pub(crate) fn at_line(&self, line: usize) -> bool {
        self.diagnostics.iter().any(|found| self.sources.place(found.primary.file, found.primary.start).line == line)
    }

    /// All of it as a person reads it.
    pub(crate) fn text(&self) -> String {
        self.diagnostics.iter().map(|found| terminal(&self.sources, found, false)).collect::<Vec<_>>().join("\n")
    }
}
