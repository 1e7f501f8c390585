//! What the guide itself says is alike in all: "into the same volume of bath", "while the total length stays". An answer that
//! says so denies nothing.

use super::course::Course;
use super::matching::Matcher;
use super::meaning::Direction;
use super::pattern::Pattern;
use super::read::{Claim, Piece, Reading, Role};

/// From here on a key is what a claim speaks of, and not what it only leans on.
const NAMED: f64 = 0.45;

/// Words that stand before what is alike.
const MARKS: &[&str] = &["same", "equal", "identical", "fixed", "total"];

/// The keys of each thing that the steps of a guide say is alike.
pub(super) fn alike(points: &[Vec<Pattern>], matcher: &Matcher<'_>) -> Vec<Vec<String>> {
    let texts = points.iter().flatten().map(|step| matcher.dictionary.of_guide(&step.text));
    texts.flat_map(|reading| marked(&reading, &matcher.dictionary.key("mass"))).collect()
}

fn marked(reading: &Reading, mass: &str) -> Vec<Vec<String>> {
    let mut found = Vec::new();
    for (at, piece) in reading.pieces.iter().enumerate() {
        let total = piece.lower.starts_with("total");
        // "the total length stays", but not "the total concentration rises".
        let mut own = reading.pieces.iter().skip(at).take_while(|one| one.sentence == piece.sentence);
        let stays = own.any(|one| matches!(one.lower.as_str(), "stays" | "stay"));
        if !(MARKS.contains(&piece.lower.as_str()) || total) || total && !stays {
            continue;
        }
        let behind = reading.pieces.iter().skip(if total { at } else { at + 1 });
        let behind = behind.take_while(|one| match one.role {
            Role::Content => !one.verb,
            Role::Article => true,
            Role::Turn(_) => one.lower == "mass of",
            _ => one.lower == "of",
        });
        let keys = |one: &Piece| {
            let weighed = matches!(one.role, Role::Turn(_)).then(|| mass.to_owned());
            one.keys.iter().cloned().chain(weighed).collect::<Vec<String>>()
        };
        let keys: Vec<String> = behind.flat_map(keys).collect();
        if !keys.is_empty() {
            found.push(keys);
        }
    }
    found
}

impl Course {
    /// Whether a claim of no change is of nothing but what the guide says is alike.
    pub(super) fn is_given(&self, claim: &Claim, given: &[Vec<String>], matcher: &Matcher<'_>) -> bool {
        let named = |least: f64, below: f64| -> Vec<&String> {
            let own = claim
                .about
                .iter()
                .filter(|(key, weight)| (least..below).contains(weight) && !matcher.dictionary.is_light(key));
            own.map(|(key, _)| key).collect()
        };
        let (heavy, beside) = (named(1.0, f64::MAX), named(NAMED, 1.0));
        if claim.direction != Direction::Same || claim.carried || heavy.is_empty() {
            return false;
        }
        let known = |about: &[(String, f64)], key: &String| {
            about.iter().any(|(known, weight)| known == key && *weight >= NAMED)
        };
        // "the volume stays the same", where that of the vesicles changes and that of the bath is given.
        let own = self.nodes.iter().map(|node| &node.wanted).any(|wanted| {
            let by_name = wanted.about.iter().any(|(key, weight)| *weight >= 2.0 && !known(&claim.about, key));
            let same = !claim.class.is_empty() && wanted.class == claim.class && !by_name;
            same && heavy.iter().chain(&beside).all(|key| known(&wanted.about, key))
        });
        let elsewhere = |key: &&String| !self.nodes.iter().any(|node| known(&node.wanted.about, key));
        // "The pieces stay the same" is not the same mass of them.
        let measures = ["total", "mass"].map(|word| matcher.dictionary.key(word));
        let told = |key: &String| claim.about.iter().any(|(known, _)| known == key);
        given.iter().any(|keys| {
            let all = heavy.iter().all(|key| keys.contains(key))
                && beside.iter().all(|key| keys.contains(key) || elsewhere(key));
            let mut wanted = measures.iter().filter(|key| keys.contains(key)).peekable();
            let meant = wanted.peek().is_some();
            all && wanted.all(told) && (meant || !own)
        })
    }
}
