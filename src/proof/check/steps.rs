//! Numbered steps and their answers: the direction that a step states, and the numbers.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::matching::matching;
use crate::proof::page::{Entry, Section};
use crate::proof::report::{Directions, Policy, report};
use crate::proof::{Made, Proof};

/// Where the sentence begins that must say which way it goes.
const STEPS: &[&str] = &["*Step", "*Chain"];

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    for (made, old, new) in proof.pairs().into_iter().filter(|(_, old, _)| !old.items.is_empty()) {
        section(proof, made, (old, new), faults);
    }
}

fn section(proof: &Proof<'_>, made: &Made, (old, new): (&Section, &Section), faults: &mut Vec<Diagnostic>) {
    let keys = |section: &Section| section.items.iter().map(|item| item.key.clone()).collect::<Vec<_>>();
    let pairs = matching(&keys(old), &keys(new));
    for place in &pairs.gone {
        let Some(item) = old.items.get(*place) else { continue };
        let before = pairs.both.iter().filter(|(i, _)| i < place).max().and_then(|(_, j)| new.items.get(*j));
        let here = before.map_or_else(|| new.heading.clone(), |before| before.label.clone());
        let message = format!("step {} of “{}” is missing", item.key, new.title);
        let fault = Diagnostic::error(&code::STEP_MISSING, proof.span(here), message);
        faults.push(fault.hint("without it the prediction does not follow: put it back"));
    }
    for item in pairs.extra.iter().filter_map(|place| new.items.get(*place)) {
        let first = new.items.iter().find(|other| other.key == item.key && other.label != item.label);
        if let Some(first) = first {
            let message = format!("step {} of “{}” is there twice", item.key, new.title);
            let fault = Diagnostic::error(&code::STEP_REPEATED, proof.span(item.label.clone()), message);
            let fault = fault.related(proof.span(first.label.clone()), "the other one");
            faults.push(fault.hint("take one of the two out, or number it on"));
        }
    }
    for (one, other) in pairs.both {
        if let (Some(one), Some(other)) = (old.items.get(one), new.items.get(other)) {
            step(proof, made, &new.title, (one, other), faults);
        }
    }
}

fn step(proof: &Proof<'_>, made: &Made, title: &str, (old, new): (&Entry, &Entry), faults: &mut Vec<Diagnostic>) {
    let place = format!("step {} of “{title}”", new.key);
    let policy = Policy::key(&place);
    let (before, after) = (split(made.slice(&old.body), &old.body), split(proof.slice(&new.body), &new.body));
    let (Some(before), Some(after)) = (before, after) else {
        let tokens = (made.tokens(&old.body), proof.tokens(&new.body));
        return report(proof, made, (&tokens.0, &tokens.1), new.label.clone(), policy, faults);
    };
    let known = (made.tokens(&before.0), proof.tokens(&after.0));
    report(proof, made, (&known.0, &known.1), new.label.clone(), policy, faults);
    let said = (made.tokens(&before.1), proof.tokens(&after.1));
    let strict = Policy { directions: Directions::Strict, ..policy };
    report(proof, made, (&said.0, &said.1), after.1, strict, faults);
}

/// What stands before the sentence of the step, and the sentence.
fn split(text: &str, body: &Range<usize>) -> Option<(Range<usize>, Range<usize>)> {
    let at = STEPS.iter().filter_map(|mark| text.rfind(mark)).max()?;
    Some((body.start..body.start + at, body.start + at..body.end))
}
