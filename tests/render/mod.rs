//! Pages and figures: well-formed, self-contained, safe, true to the file that they are made of.

mod command;
mod figures;
mod hostile;
mod pages;
mod practice;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use roxmltree::{Document, Node, ParsingOptions};
use toehold::concepts::{embedded, load_and_check};
use toehold::render::{Templates, markdown};
use toehold::scenario::{Generator, Scenario};
use toehold::seed::Seed;
use toehold::technique::{Refusals, Wish};

/// Seeds whose scenarios are drawn.
const SEEDS: u64 = 200;

static TEMPLATES: LazyLock<Templates> = LazyLock::new(|| Templates::new(&[]).expect("the templates work"));

/// Scenarios with their Markdown, made once.
static SCENARIOS: LazyLock<Vec<(Scenario, String)>> = LazyLock::new(|| {
    let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults in the concepts", faults.len()));
    let generator = Generator::new(graph);
    let mut refusals = Refusals::default();
    let made = (0..SEEDS).map(|seed| {
        let scenario = generator.one(&Wish::default(), Seed(seed), &mut refusals).expect("a scenario");
        let text = markdown(&TEMPLATES, &scenario).expect("Markdown");
        (scenario, text)
    });
    made.collect()
});

/// Markup as a tree; a page or a picture that is not well-formed fails here.
fn tree(markup: &str) -> Document<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Document::parse_with_options(markup, options).unwrap_or_else(|error| panic!("{error}\n{}", excerpt(markup)))
}

fn excerpt(markup: &str) -> String {
    markup.chars().take(2000).collect()
}

/// All elements of a name.
fn all<'a, 'input>(document: &'a Document<'input>, name: &'a str) -> impl Iterator<Item = Node<'a, 'input>> {
    document.descendants().filter(move |node| node.is_element() && node.tag_name().name() == name)
}

/// The words within a node, with plain single spaces.
fn words(node: Node<'_, '_>) -> String {
    let texts: String = node.descendants().filter_map(|inner| inner.text().filter(|_| inner.is_text())).collect();
    texts.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// No two elements have one id, and whatever is pointed at is there.
fn ids_hold(document: &Document<'_>) {
    let mut ids = BTreeSet::new();
    for node in document.descendants().filter(Node::is_element) {
        if let Some(id) = node.attribute("id") {
            assert!(ids.insert(id.to_owned()), "the id `{id}` comes twice");
        }
    }
    for node in document.descendants().filter(Node::is_element) {
        for name in ["aria-labelledby", "aria-describedby"] {
            for id in node.attribute(name).into_iter().flat_map(str::split_whitespace) {
                assert!(ids.contains(id), "nothing has the id `{id}`");
            }
        }
    }
}
