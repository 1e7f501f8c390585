//! The lexicon of a scenario: what its quantities and things are called, from the concept graph.

use std::collections::{BTreeMap, BTreeSet};

use crate::concepts::graph::{Entity, Graph};
use crate::review::{Lexicon, Term};
use crate::scenario::Front;

/// Terms of the scenario of this front matter: quantities of its path, things by all their names. Words of all principles
/// are its glossary. Names that the graph does not have are passed over, since a guide can be read without them.
pub fn lexicon(graph: &Graph, front: &Front) -> Lexicon {
    let mut terms = Vec::new();
    let names = names(graph, front);
    let mut quantities = BTreeSet::new();
    for id in front.path.iter().chain(front.twist.iter().map(|twist| &twist.at)) {
        if let Some(ix) = graph.find_influence(id) {
            let influence = graph.influence(ix);
            quantities.extend([influence.from, influence.to]);
        }
    }
    for ix in quantities {
        let quantity = graph.quantity(ix);
        let mut forms = vec![quantity.name.clone(), filled(&quantity.the, &names)];
        forms.retain(|form| !form.contains("{{"));
        terms.push(Term { id: quantity.id.clone(), forms, quantity: true });
    }
    for (_, entity) in graph.entities() {
        terms.push(Term { id: entity.id.clone(), forms: forms(entity), quantity: false });
    }
    let mut glossary: BTreeSet<String> = BTreeSet::new();
    for (_, principle) in graph.principles() {
        glossary.extend(principle.terms.iter().cloned());
    }
    for (_, quantity) in graph.quantities() {
        glossary.insert(quantity.name.clone());
    }
    Lexicon { terms, glossary: glossary.into_iter().collect() }
}

/// Nouns that say how much there is of a thing, or what every thing at the bench is: no name of one.
const MEASURES: &[&str] = &["volume", "volumes", "copies", "liquid", "portions", "amounts"];

/// All names of a thing, its id, and the noun that says what it is: "microscopic sacs of bilayer" gives "sacs".
fn forms(entity: &Entity) -> Vec<String> {
    let mut forms: BTreeSet<String> = BTreeSet::new();
    for name in &entity.names {
        forms.insert(name.one.clone());
        forms.insert(name.many.clone());
    }
    forms.insert(entity.id.replace('-', " "));
    let head = [" of ", " with ", " that ", " which ", " in ", " from "]
        .iter()
        .filter_map(|word| entity.intro.find(word))
        .min()
        .and_then(|at| entity.intro.get(..at))
        .unwrap_or(&entity.intro);
    let noun = head.split_whitespace().last().filter(|word| word.len() > 3 && !MEASURES.contains(word));
    forms.extend(noun.map(str::to_owned));
    forms.into_iter().collect()
}

/// What each placeholder stands for in this scenario.
fn names(graph: &Graph, front: &Front) -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    for chosen in &front.names {
        let Some(ix) = graph.find_entity(&chosen.entity) else { continue };
        let found = graph.entity(ix).names.iter().find(|name| name.one == chosen.name);
        let Some(name) = found else { continue };
        let key = chosen.entity.replace('-', "_");
        names.insert(format!("{key}.one"), name.one.clone());
        names.insert(format!("{key}.many"), name.many.clone());
    }
    names
}

/// A phrase with the names in place of its placeholders.
fn filled(phrase: &str, names: &BTreeMap<String, String>) -> String {
    names.iter().fold(phrase.to_owned(), |text, (key, name)| text.replace(&format!("{{{{ {key} }}}}"), name))
}
