//! A scenario file as an item: its principles follow from the path in its front matter.

use super::terms;
use super::{Difficulty, Evidence, Exercised, How, Item};
use crate::concepts::graph::Graph;
use crate::concepts::{InfluenceIx, PrincipleIx};
use crate::render::document::{Document, Kind};

/// Strength of a step that a student must know, and of one that the text itself tells.
const KNOWN: f64 = 1.0;
const TOLD: f64 = 0.6;
/// How much weaker a prerequisite is than what requires it.
const EACH_BELOW: f64 = 0.5;

/// Why front matter cannot be mapped.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ItemError {
    /// Its path names an influence that the concepts do not have.
    #[error("the concepts have no influence `{0}`")]
    UnknownInfluence(String),
    /// Its path is empty.
    #[error("its front matter names no path")]
    NoPath,
}

/// The item of a scenario file.
///
/// # Errors
/// A path that is not one of these concepts.
pub fn of_scenario(graph: &Graph, file: &str, document: &Document) -> Result<Item, ItemError> {
    let front = &document.front;
    let mut steps = Vec::new();
    for id in &front.path {
        steps.push(graph.find_influence(id).ok_or_else(|| ItemError::UnknownInfluence(id.clone()))?);
    }
    if steps.is_empty() {
        return Err(ItemError::NoPath);
    }
    let mut item = Item {
        file: file.to_owned(),
        part: None,
        title: document.title.clone(),
        principles: on_path(graph, &steps),
        fields: Vec::new(),
        command_terms: Vec::new(),
        skills: Vec::new(),
        difficulty: None,
    };
    finish(graph, &mut item);
    let twist = front.twist.as_ref().map(|twist| kind_of_twist(graph, &twist.at, &twist.id));
    item.difficulty = Some(Difficulty { n_steps: steps.len(), n_fields: item.fields.len(), twist });
    if let Some(questions) = document.section(Kind::Questions) {
        terms::note(&mut item, &questions.text);
    }
    // The map of the file was derived from the parts, which know their skills better than their terms do.
    if let Some(skills) = document.section(Kind::Map).and_then(|map| told_skills(&map.text)) {
        item.skills = skills;
    }
    Ok(item)
}

/// Adds prerequisites and fields, and puts the strongest first.
pub(super) fn finish(graph: &Graph, item: &mut Item) {
    prerequisites(graph, &mut item.principles);
    item.principles.sort_by(|a, b| b.strength.total_cmp(&a.strength).then(a.how.cmp(&b.how)));
    let exercised: Vec<PrincipleIx> = item.exercises().collect();
    for principle in exercised {
        let field = graph.principle(principle).field;
        if !item.fields.contains(&field) {
            item.fields.push(field);
        }
    }
}

fn on_path(graph: &Graph, steps: &[InfluenceIx]) -> Vec<Exercised> {
    let mut found: Vec<Exercised> = Vec::new();
    for step in steps {
        let influence = graph.influence(*step);
        let strength = if influence.told.is_some() { TOLD } else { KNOWN };
        match found.iter_mut().find(|one| one.principle == influence.principle) {
            Some(one) if one.strength < strength => {
                (one.strength, one.evidence) = (strength, Evidence::Step(*step));
            }
            Some(_) => {}
            None => found.push(Exercised {
                principle: influence.principle,
                how: How::Path,
                strength,
                evidence: Evidence::Step(*step),
            }),
        }
    }
    found
}

/// Level by level, each weaker than the one that requires it. Only what is exercised has prerequisites here.
fn prerequisites(graph: &Graph, found: &mut Vec<Exercised>) {
    let mut level: Vec<PrincipleIx> = found.iter().filter(|one| one.counts()).map(|one| one.principle).collect();
    let mut strength = EACH_BELOW;
    while !level.is_empty() {
        let mut below = Vec::new();
        for above in level {
            for principle in &graph.principle(above).requires {
                // A text that barely touches it says less than that it is required.
                let weaker = |one: &Exercised| one.principle == *principle && one.strength < strength && !one.counts();
                found.retain(|one| !weaker(one));
                if found.iter().all(|one| one.principle != *principle) {
                    let evidence = Evidence::RequiredBy(above);
                    found.push(Exercised { principle: *principle, how: How::Prerequisite, strength, evidence });
                    below.push(*principle);
                }
            }
        }
        level = below;
        strength *= EACH_BELOW;
    }
}

/// The kind of a twist as the concepts write it; its id where they do not know it.
fn kind_of_twist(graph: &Graph, at: &str, id: &str) -> String {
    let influence = graph.find_influence(at).map(|ix| graph.influence(ix));
    let kind =
        influence.and_then(|influence| influence.twists.iter().find(|twist| twist.id == id)).map(|twist| twist.kind);
    let word = kind.and_then(|kind| serde_json::to_value(kind).ok()?.as_str().map(str::to_owned));
    word.unwrap_or_else(|| id.to_owned())
}

/// The skills that the map of a file lists: "*Skills:* argumentation; representing data."
fn told_skills(map: &str) -> Option<Vec<String>> {
    let (_, after) = map.split_once("*Skills:*")?;
    let list = after.split(['.', '\n']).next()?;
    let skills: Vec<String> =
        list.split(';').map(|skill| skill.trim().to_owned()).filter(|skill| !skill.is_empty()).collect();
    (!skills.is_empty()).then_some(skills)
}
