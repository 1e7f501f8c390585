//! The lexicon of a scenario: what its quantities and things are called, from the concept graph and in everyday words.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use crate::concepts::SettingIx;
use crate::concepts::graph::{Entity, Graph, Quantity};
use crate::review::{Lexicon, Term};
use crate::scenario::Front;

/// Everyday names of quantities by their ids.
static EVERYDAY: LazyLock<BTreeMap<&str, Vec<&str>>> = LazyLock::new(|| by_id(include_str!("everyday.txt")));

/// Rows of names by the id that opens each; a row goes on in lines that begin with a space.
pub(super) fn by_id(text: &str) -> BTreeMap<&str, Vec<&str>> {
    let mut rows: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    let mut own = "";
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let (id, names) = line.split_once(": ").filter(|_| !line.starts_with(' ')).unwrap_or((own, line));
        own = id;
        rows.entry(own).or_default().extend(names.split('|').map(str::trim).filter(|name| !name.is_empty()));
    }
    rows
}

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
    let holds: BTreeSet<SettingIx> = front.settings.iter().filter_map(|id| graph.find_setting(id)).collect();
    let quantities: Vec<&Quantity> = quantities.into_iter().map(|ix| graph.quantity(ix)).collect();
    for quantity in &quantities {
        let others = quantities.iter().filter(|other| other.id != quantity.id);
        let taken: BTreeSet<String> = others.flat_map(|other| everyday(other, &front.path)).collect();
        let own = everyday(quantity, &front.path).into_iter().filter(|name| !taken.contains(name));
        // Where a setting gives it a name of its own, that comes first, and the plain one may still be used.
        let mut the = vec![quantity.the_where(&holds), quantity.the.as_str()];
        the.dedup();
        let the = the.into_iter().map(|the| filled(the, &names));
        let mut forms: Vec<String> = the.chain([quantity.name.clone()]).chain(own).collect();
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

/// What students call a quantity: by its everyday names and its symbol, which may stand in square brackets. A name that two
/// quantities of a path share tells neither.
fn everyday(quantity: &Quantity, path: &[String]) -> Vec<String> {
    // A product is soap on one path and acid on another.
    let there = path.iter().map(|influence| format!("{}@{influence}", quantity.id));
    let rows = std::iter::once(quantity.id.clone()).chain(there);
    let mut names: Vec<String> =
        rows.flat_map(|row| EVERYDAY.get(row.as_str()).cloned().unwrap_or_default()).map(str::to_owned).collect();
    let symbol = quantity.symbol.to_lowercase().replace('_', "");
    names.extend([format!("[{symbol}]"), symbol]);
    names
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_quantity_has_everyday_names() {
        let graph = crate::concepts::load_and_check(&crate::concepts::embedded()).unwrap();
        let ids: BTreeSet<&str> = graph.quantities().map(|(_, quantity)| quantity.id.as_str()).collect();
        let named: BTreeSet<&str> = EVERYDAY.keys().map(|row| row.split('@').next().unwrap()).collect();
        assert_eq!(named, ids);
        for influence in EVERYDAY.keys().filter_map(|row| row.split('@').nth(1)) {
            assert!(graph.find_influence(influence).is_some(), "no influence `{influence}`");
        }
        // A name and both forms of the symbol at least.
        assert!(graph.quantities().all(|(_, quantity)| everyday(quantity, &[]).len() >= 3));
    }
}
