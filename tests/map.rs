//! The map: what is read from scenarios and from texts, the smallest cover, and what comes out in each format.

use std::collections::BTreeSet;

use toehold::concepts::graph::Graph;
use toehold::concepts::{PrincipleIx, embedded, load_and_check};
use toehold::coverage::TextReader;
use toehold::render::document::Kind;
use toehold::render::{Document, Templates, markdown};
use toehold::scenario::{Generator, Scenario};
use toehold::seed::Seed;
use toehold::technique::{Refusals, Wish};

fn graph() -> Graph {
    load_and_check(&embedded()).unwrap()
}

/// What is left of a scenario's text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Left {
    /// All but front matter, title, the map and the talk after it, which name the principles.
    WithGuide,
    /// What a student gets: no answers, no guide; the steps with their recall questions stay.
    Student,
    /// Purpose, procedure, data and questions alone.
    Stimulus,
}

fn text(document: &Document, left: Left) -> String {
    let kept = document.sections.iter().filter(|section| match left {
        Left::WithGuide => section.kind != Kind::Map && section.heading != "After it",
        Left::Student => !section.kind.is_for_teachers() && !document.parted().1.contains(section),
        Left::Stimulus => matches!(section.kind, Kind::Lead | Kind::How | Kind::Data | Kind::Questions),
    });
    kept.map(|section| format!("{}\n\n{}\n\n", section.heading, section.text)).collect()
}

/// Found and right, found, and to be found.
#[derive(Debug, Default)]
struct Count {
    right: usize,
    found: usize,
    wanted: usize,
}

impl Count {
    fn shares(&self) -> (f64, f64) {
        let number = |n: usize| f64::from(u32::try_from(n).unwrap());
        (number(self.right) / number(self.found.max(1)), number(self.right) / number(self.wanted.max(1)))
    }
}

fn principles(graph: &Graph, scenario: &Scenario) -> BTreeSet<PrincipleIx> {
    let rival = scenario.twist.iter().flat_map(|twist| twist.rival_path.iter().flatten());
    let steps = scenario.path.iter().chain(rival).map(|id| graph.find_influence(id).unwrap());
    steps.map(|step| graph.influence(step).principle).collect()
}

fn measured(seeds: std::ops::Range<u64>) -> Vec<(Left, Count)> {
    let graph = graph();
    let generator = Generator::new(graph.clone());
    let templates = Templates::new(&[]).unwrap();
    let reader = TextReader::new(&graph);
    let mut counts = vec![
        (Left::WithGuide, Count::default()),
        (Left::Student, Count::default()),
        (Left::Stimulus, Count::default()),
    ];
    let mut wrong: std::collections::BTreeMap<(bool, String), usize> = std::collections::BTreeMap::new();
    for seed in seeds {
        let Some(scenario) = generator.one(&Wish::default(), Seed(seed), &mut Refusals::default()) else { continue };
        let document = Document::read(&markdown(&templates, &scenario).unwrap()).unwrap();
        let wanted = principles(&graph, &scenario);
        for (left, count) in &mut counts {
            let items = reader.items("x.md", &text(&document, *left));
            let found: BTreeSet<PrincipleIx> =
                items.iter().flat_map(|item| item.exercises().collect::<Vec<_>>()).collect();
            count.right += found.intersection(&wanted).count();
            count.found += found.len();
            count.wanted += wanted.len();
            if *left == Left::WithGuide {
                for ix in found.symmetric_difference(&wanted) {
                    *wrong.entry((found.contains(ix), graph.principle(*ix).id.clone())).or_default() += 1;
                }
            }
        }
    }
    println!("{wrong:?}");
    counts
}

#[test]
fn reading_finds_the_principles_of_a_path() {
    for (left, count) in measured(1..121) {
        println!("{left:?}: precision, recall {:?} of {count:?}", count.shares());
    }
}
