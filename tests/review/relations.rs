//! Every relation of the graph, told in the guide's words, the other way round, crossed and denied: what the reviewer says does
//! not hang on the scenarios of the marking set. Sentences are the graph's own; no answer of the set is used.

use std::collections::BTreeMap;

use toehold::concepts;
use toehold::concepts::graph::{Graph, Influence};
use toehold::review::{Guide, Lexicon, Point, Question, Response, Reviewer, Status, Term};

/// A text with the first name of each thing in place of its placeholder.
pub(super) fn filled(graph: &Graph, text: &str) -> String {
    graph.entities().fold(text.to_owned(), |text, (_, entity)| {
        let Some(name) = entity.names.first() else { return text };
        let key = entity.id.replace('-', "_");
        text.replace(&format!("{{{{ {key}.one }}}}"), &name.one).replace(&format!("{{{{ {key}.many }}}}"), &name.many)
    })
}

pub(super) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).chain(['.']).collect())
}

fn reviewer(graph: &Graph, influence: &Influence) -> (Reviewer, String, String) {
    let (from, to) = (graph.quantity(influence.from), graph.quantity(influence.to));
    let (cause, effect) = (filled(graph, &from.the), filled(graph, &to.the));
    let point = Point {
        id: "p".into(),
        statement: sentence(&filled(graph, &influence.up)),
        accept: vec!["the same relation stated for the opposite change".into()],
        ..Point::default()
    };
    let question = Question {
        id: "x".into(),
        text: format!("**Describe** how {effect} depends on {cause}."),
        command_term: "describe".into(),
        points: vec![point],
        ..Question::default()
    };
    let quantities = [from, to].map(|quantity| Term {
        id: quantity.id.clone(),
        forms: vec![quantity.name.clone(), filled(graph, &quantity.the)],
        quantity: true,
    });
    let lexicon = Lexicon { terms: quantities.into(), glossary: Vec::new() };
    (Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &lexicon), cause, effect)
}

#[test]
fn relations_are_known_either_way_round_and_crossed() {
    let graph = concepts::load_and_check(&concepts::embedded()).unwrap();
    let mut counts: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
    for (_, influence) in graph.influences() {
        let (up, down) = (filled(&graph, &influence.up), filled(&graph, &influence.down));
        if up.contains("//") || up.contains('{') || down.contains('{') {
            continue;
        }
        let (reviewer, cause, effect) = reviewer(&graph, influence);
        let mut tell = |kind: &'static str, text: String, wanted: Status| {
            let review = reviewer.review(&Response { id: "x".into(), text }).unwrap();
            let count = counts.entry(kind).or_default();
            *count = (count.0 + u32::from(review.points[0].status == wanted), count.1 + 1);
        };
        tell("as the guide says it", sentence(&up), Status::Found);
        tell("of the opposite change", sentence(&down), Status::Found);
        if let (Some((cause, _)), Some((_, effect))) = (up.rsplit_once(", so "), down.rsplit_once(", so ")) {
            tell("crossed", sentence(&format!("{cause}, so {effect}")), Status::Contradicted);
        }
        tell("denied", sentence(&format!("{effect} does not depend on {cause}")), Status::Contradicted);
    }
    let share = |kind: &str| {
        let (hits, all) = counts[kind];
        println!("{kind}: {hits} of {all}");
        assert!(all > 100, "{kind}: {all}");
        f64::from(hits) / f64::from(all)
    };
    assert!(share("as the guide says it") > 0.98);
    assert!(share("of the opposite change") > 0.92);
    assert!(share("crossed") > 0.96);
    assert!(share("denied") > 0.97);
}

#[test]
fn things_in_the_word_lists_are_things_of_the_concepts() {
    let graph = concepts::load_and_check(&concepts::embedded()).unwrap();
    let lists = include_str!("../../src/review/words/lists.txt");
    let named: Vec<&str> = lists
        .split(|letter: char| letter.is_whitespace() || letter == '|')
        .filter_map(|word| word.strip_prefix("t:"))
        .collect();
    assert!(!named.is_empty());
    for id in named {
        assert!(graph.find_entity(id).is_some(), "`t:{id}` is no entity");
    }
}
