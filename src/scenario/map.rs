//! The map of one scenario: derived from its path, never typed in.

use std::collections::BTreeSet;

use super::{MapView, Part};
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;
use crate::technique::Technique;

/// What a technique and its questions exercise.
pub(super) fn map(graph: &Graph, technique: &Technique, parts: &[Part]) -> MapView {
    let own = technique.principles(graph);
    let own_set: BTreeSet<PrincipleIx> = own.iter().copied().collect();
    let below = graph.with_prerequisites(&own_set);
    let name = |ix: &PrincipleIx| graph.principle(*ix).name.clone();
    let mut fields: Vec<String> = Vec::new();
    for step in technique.path.steps() {
        let field = &graph.field(graph.field_of(*step)).name;
        if !fields.contains(field) {
            fields.push(field.clone());
        }
    }
    let mut terms: Vec<String> = Vec::new();
    let mut skills: Vec<String> = Vec::new();
    for part in parts {
        if !terms.contains(&part.command_term) {
            terms.push(part.command_term.clone());
        }
        if !skills.iter().any(|skill| skill == part.skill) {
            skills.push(part.skill.to_owned());
        }
    }
    let twist = technique
        .twist
        .and_then(|at| at.get(graph))
        .map_or_else(|| "no twist".to_owned(), |twist| format!("twist: {}", twist_words(twist.kind)));
    let difficulty = format!("{} steps, {} fields crossed, {twist}", technique.path.steps().len(), fields.len());
    MapView {
        principles: own.iter().map(name).collect(),
        rests_on: below.difference(&own_set).map(name).collect(),
        fields,
        command_terms: terms,
        skills,
        difficulty,
    }
}

/// A twist's kind in a reader's words.
fn twist_words(kind: crate::concepts::written::TwistKind) -> &'static str {
    use crate::concepts::written::TwistKind;
    match kind {
        TwistKind::Cut => "a cut link",
        TwistKind::Bypass => "a step supplied directly",
        TwistKind::Reverse => "a reversed step",
        TwistKind::Saturate => "a step that no longer limits",
        TwistKind::RemoveSetting => "a condition taken away",
        TwistKind::RivalPath => "a second way that opposes the first",
        TwistKind::RateOrEndPoint => "a reading at the end instead of early",
    }
}
