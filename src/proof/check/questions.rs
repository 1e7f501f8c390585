//! Questions: their numbers, and what they ask for; and sample answers to them.

use crate::diagnostic::{Diagnostic, code};
use crate::proof::check::points::{is_worth, worth};
use crate::proof::fact::Token;
use crate::proof::matching::matching;
use crate::proof::page::{Entry, Section};
use crate::proof::report::{Directions, Policy, report};
use crate::proof::{Made, Proof};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    for (made, old, new) in proof.pairs().into_iter().filter(|(_, old, _)| !old.parts.is_empty()) {
        if is_asked(&made.text, old) {
            section(proof, made, (old, new), faults);
        } else {
            samples(proof, made, (old, new), faults);
        }
    }
}

/// Whether the parts of a section are questions: these say what they are worth.
pub(super) fn is_asked(text: &str, section: &Section) -> bool {
    let body = |part: &Entry| text.get(part.body.clone()).is_some_and(is_worth);
    section.parts.iter().any(body)
}

/// Sample answers: some are wrong on purpose, so that only what has become another is reported.
fn samples(proof: &Proof<'_>, made: &Made, (old, new): (&Section, &Section), faults: &mut Vec<Diagnostic>) {
    for (one, other) in
        old.parts.iter().filter_map(|one| Some((one, new.parts.iter().find(|part| part.key == one.key)?)))
    {
        let place = format!("the answer to ({})", one.key);
        let tokens = (made.tokens(&one.body), proof.tokens(&other.body));
        let policy = Policy::prose(&place, Directions::Loose);
        report(proof, made, (&tokens.0, &tokens.1), other.label.clone(), policy, faults);
    }
}

fn section(proof: &Proof<'_>, made: &Made, (old, new): (&Section, &Section), faults: &mut Vec<Diagnostic>) {
    let keys = |section: &Section| section.parts.iter().map(|part| part.key.clone()).collect::<Vec<_>>();
    let pairs = matching(&keys(old), &keys(new));
    for part in pairs.gone.iter().filter_map(|place| old.parts.get(*place)) {
        let before = new.parts.iter().rfind(|other| other.key < part.key);
        let place = before.map_or_else(|| new.heading.clone(), |before| before.label.clone());
        let message = format!("question ({}) is missing", part.key);
        let fault = Diagnostic::error(&code::PART_MISSING, proof.span(place), message);
        faults.push(fault.hint("the guide and the total of points count it: put it back"));
    }
    for part in pairs.extra.iter().filter_map(|place| new.parts.get(*place)) {
        let first = new.parts.iter().find(|other| other.key == part.key && other.label != part.label);
        let (message, hint) = match first {
            Some(_) => (format!("question ({}) is there twice", part.key), "take one of the two out"),
            None => (format!("question ({}) is none of this scenario's", part.key), "no row of the guide answers it"),
        };
        let fault = Diagnostic::error(&code::PART_REPEATED, proof.span(part.label.clone()), message);
        faults.push(fault.hint(hint));
    }
    for (one, other) in pairs.both {
        let (Some(one), Some(other)) = (old.parts.get(one), new.parts.get(other)) else { continue };
        if one.key != other.key {
            let message = format!("question ({}) stands where ({}) should", other.key, one.key);
            let fault = Diagnostic::error(&code::PART_MISSING, proof.span(other.label.clone()), message);
            faults.push(fault.hint(format!("write `({})`: the guide calls it so", one.key)));
        }
        part(proof, made, (one, other), faults);
    }
}

fn part(proof: &Proof<'_>, made: &Made, (old, new): (&Entry, &Entry), faults: &mut Vec<Diagnostic>) {
    let place = format!("question ({})", new.key);
    let tokens = (
        unmarked(made.tokens(&old.body), made.slice(&old.body), old),
        unmarked(proof.tokens(&new.body), proof.slice(&new.body), new),
    );
    report(proof, made, (&tokens.0, &tokens.1), new.label.clone(), Policy::key(&place), faults);
    let asked = made.scenario.parts.iter().find(|part| part.label == old.key);
    let Some(term) = asked.map(|part| part.command_term.as_str()) else { return };
    let words =
        |text: &str| text.to_lowercase().split(|c: char| !c.is_alphabetic()).map(str::to_owned).collect::<Vec<_>>();
    let here = words(proof.slice(&new.body));
    let lost = words(term).into_iter().filter(|word| word != "and").any(|word| !here.contains(&word));
    if lost {
        let message = format!("question ({}) no longer says `{term}`", new.key);
        let fault = Diagnostic::error(&code::COMMAND_TERM_DIFFERS, proof.span(new.label.clone()), message);
        faults.push(fault.hint(format!("ask with `**{term}**`: the guide and the map go by it")));
    }
}

/// The tokens without the points that the question is worth.
fn unmarked(tokens: Vec<Token>, text: &str, entry: &Entry) -> Vec<Token> {
    let Some((_, range)) = worth(text, entry.body.start) else { return tokens };
    tokens.into_iter().filter(|token| !range.contains(&token.span.start)).collect()
}
