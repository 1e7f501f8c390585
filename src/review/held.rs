//! Who holds what: whether an answer lets the wrong one of two shares be tested, kept or thrown away.
//!
//! What has leaked is in the liquid outside, what stayed is in the vesicles; paired strands are on the beads, the others in the
//! liquid. An answer may name both shares and swap their places, with every direction told as it should be.

use std::collections::BTreeSet;

use super::judge::Judge;
use super::read::Reading;

/// Of two shares, the one that is kept in its place, and the one that is let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Share {
    Kept,
    Gone,
}

/// Where a share is said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// In what is measured.
    Tested,
    Discarded,
    /// In the liquid around the vesicles.
    Outside,
    /// In the vesicles, on the beads.
    Holder,
    Liquid,
}

/// A share named in a text, from one word to another: "the dye that stayed inside".
struct Named {
    from: usize,
    to: usize,
    share: Share,
    paired: bool,
}

const CUTS: &[&str] =
    &[".", ",", ";", ":", "!", "?", "(", ")", "so", "because", "while", "as", "since", "but", "and", "whereas", "cos"];
const HOLDS: &[&str] = &[
    "holds", "hold", "has", "have", "contains", "contain", "carries", "carry", "keeps", "keep", "gives", "give", "is",
    "are", "got",
];
/// Words between a verb and the share that it holds, and how many there may be.
const BETWEEN: &[&str] = &["the", "all", "only", "just", "of", "a", "lot", "some", "that", "now", "enzyme"];
const BACK: usize = 6;
const LEADS: &[&str] =
    &["has", "have", "had", "is", "are", "was", "were", "still", "been", "already", "now", "all", "only", "did"];
const DENIES: &[&str] = &["not", "never", "didn't", "hasn't", "haven't", "isn't", "aren't", "wasn't", "don't"];
/// Words that set a clause against another series, or deny it.
const ELSEWHERE: &[&str] = &[
    "first",
    "before",
    "earlier",
    "previous",
    "instead",
    "rather",
    "not",
    "used",
    "than",
    "originally",
    "was",
    "were",
    "unlike",
    "no",
    "nothing",
    "none",
    "without",
    "never",
    "don't",
    "doesn't",
    "isn't",
    "aren't",
    "wasn't",
];
const DISCARDED: &[&str] = &["thrown", "discarded", "binned", "tipped", "poured", "drained", "wasted"];
const OUTSIDE: &[&str] =
    &["filtrate", "filtered", "filter", "supernatant", "bath", "above", "outside", "top", "drained"];
/// Verbs of what goes somewhere.
const MOVES: &[&str] = &[
    "moves", "move", "goes", "go", "diffuses", "diffuse", "gets", "get", "drifts", "drift", "leaks", "leak", "comes",
    "come", "passes", "pass", "flows", "flow", "moved", "went", "diffused", "got", "drifted", "leaked",
];
/// What may go into vesicles without being what leaks out of them.
const OTHERS: &[&str] = &[
    "water",
    "light",
    "product",
    "soap",
    "soapy",
    "detergent",
    "lipid",
    "ions",
    "potassium",
    "can't",
    "cannot",
    "stop",
    "stops",
    "if",
    "hardly",
    "nor",
];
const WALLS: &[&str] = &["membrane", "membranes", "bilayer", "bilayers", "skin", "skins", "wall", "walls"];
const COPULAS: &[&str] = &["is", "are", "gets", "get", "been", "be", "goes", "go", "what's"];

impl Judge<'_> {
    /// Whether the answer lets what is to leak out go in: "the dye of the bath moves into the sacs", "it drifts back inside".
    pub(super) fn goes_in(&self, statement: &str) -> bool {
        let leaks = ["leaked out", "come out", "got out", "diffuse out", "diffuses out"]
            .iter()
            .any(|way| statement.contains(way));
        let vesicles = vesicles(self.reading);
        let text = words(&self.reading.text);
        let inside = |at: usize| {
            let behind = [at + 1, at + 2, at + 3].map(|at| word(&text, at));
            // "into solution, the sacs …": not into them.
            let behind = behind.iter().take_while(|word| !CUTS.contains(word));
            let vesicle = behind.into_iter().position(|word| vesicles.contains(*word));
            // "into the sac membranes": not into the sacs.
            let of_them = vesicle.is_some_and(|place| !WALLS.contains(&word(&text, at + 2 + place)));
            let back = at.checked_sub(1).is_some_and(|before| word(&text, before) == "back");
            match word(&text, at) {
                "inwards" | "inward" => true,
                "into" => back || of_them,
                "inside" => back,
                _ => false,
            }
        };
        leaks
            && (0..text.len()).filter(|at| inside(*at)).any(|at| {
                let clause = text.get(clause_start(&text, at)..at).unwrap_or_default();
                let has = |list: &[&str]| clause.iter().any(|word| list.contains(&word.as_str()));
                has(MOVES) && !has(ELSEWHERE) && !has(OTHERS)
            })
    }

    /// Whether the answer swaps the shares: lets that be tested which the guide says is not, or puts one where the other is.
    pub(super) fn swaps(&self, statement: &str) -> bool {
        let first = words(statement.split(". ").next().unwrap_or_default());
        let vesicles = vesicles(self.reading);
        let own = shares(&first, &vesicles);
        let Some(wanted) = own.last().filter(|_| first.iter().any(|word| word == "liquid" || word == "beads")) else {
            return false;
        };
        let text = words(&self.reading.text);
        if measured(&text).is_some_and(|share| share != wanted.share && !wanted.paired) {
            return true;
        }
        shares(&text, &vesicles).iter().any(|named| {
            let places = [held_by(&text, named, &vesicles), brought_to(&text, named, &vesicles)];
            places.into_iter().flatten().any(|place| match place {
                Place::Tested => named.share != wanted.share,
                Place::Discarded => named.share == wanted.share,
                Place::Outside => named.share == Share::Kept,
                Place::Holder => named.share == Share::Gone,
                Place::Liquid => named.paired && named.share == Share::Kept,
            })
        })
    }
}

/// Words in lower case, each mark by itself.
fn words(text: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    for letter in text.to_lowercase().replace('’', "'").chars() {
        match words.last_mut() {
            Some(word) if letter.is_alphanumeric() || letter == '\'' => word.push(letter),
            _ => words.extend([if letter.is_whitespace() { String::new() } else { letter.to_string() }, String::new()]),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

/// The words by which an answer calls the vesicles and the beads.
fn vesicles(reading: &Reading) -> BTreeSet<String> {
    let named = reading.pieces.iter().filter(|piece| piece.keys.iter().any(|key| key == "t:vesicle"));
    let words = named.flat_map(|piece| piece.lower.split(' ')).map(str::to_owned);
    words.chain(["bead", "beads", "sac", "sacs", "bag", "bags"].map(str::to_owned)).collect()
}

fn word(words: &[String], at: usize) -> &str {
    words.get(at).map_or("", String::as_str)
}

/// The shares that a text names: "what leaked", "the dye that didn't get out", "the paired strands".
fn shares(words: &[String], vesicles: &BTreeSet<String>) -> Vec<Named> {
    let mut shares = Vec::new();
    for at in 0..words.len() {
        let before = at.checked_sub(1).map_or(".", |before| word(words, before));
        let what = matches!(word(words, at), "what" | "what's" | "whatever");
        let that = matches!(word(words, at), "that" | "that's" | "which") && !CUTS.contains(&before);
        if let Some((share, to, paired)) = state(words, at + 1, vesicles).filter(|_| what || that) {
            shares.push(Named { from: if what { at } else { at - 1 }, to, share, paired });
        }
        // "the enzyme of strands without a partner".
        let lone = word(words, at) == "without"
            && [at + 1, at + 2].iter().any(|at| matches!(word(words, *at), "partner" | "partners"));
        if lone && at > 0 {
            let to = at + 2 + usize::from(word(words, at + 1) == "a");
            shares.push(Named { from: at - 1, to, share: Share::Gone, paired: true });
        }
        let share = match word(words, at) {
            "paired" | "joined" => Share::Kept,
            "unpaired" | "single" => Share::Gone,
            _ => continue,
        };
        let thing = matches!(
            word(words, at + 1).trim_end_matches('\''),
            "strand" | "strands" | "one" | "ones" | "enzyme" | "enzymes"
        );
        if thing && !matches!(before, "not" | "be" | "more" | "fewer") {
            shares.push(Named { from: at, to: at + 2, share, paired: true });
        }
    }
    shares
}

/// "A lot leaked and that's what we measure": the share told right before what is said to be measured.
fn measured(words: &[String]) -> Option<Share> {
    let what = (1..words.len()).find(|at| {
        let points = |at: usize| matches!(word(words, at), "that's" | "this" | "that" | "it's" | "which");
        let led = points(at - 1) || at.checked_sub(2).is_some_and(|two| points(two) && word(words, at - 1) == "is");
        let end = (at + 1..words.len()).find(|at| CUTS.contains(&word(words, *at))).unwrap_or(words.len());
        let tells = words.get(at + 1..end).unwrap_or_default();
        let tests = |word: &String| ["test", "measur", "assay"].iter().any(|begin| word.starts_with(begin));
        word(words, *at) == "what"
            && led
            && tells.iter().any(tests)
            && !tells.iter().any(|word| ELSEWHERE.contains(&word.as_str()))
    })?;
    let from = (0..what).rfind(|at| matches!(word(words, *at), "." | ";" | "!" | "?")).map_or(0, |cut| cut + 1);
    let own = words.get(from..what)?;
    let denied = own.iter().any(|word| DENIES.contains(&word.as_str()) || ELSEWHERE.contains(&word.as_str()));
    let told = own.iter().enumerate().rev().find_map(|(at, own)| match own.as_str() {
        "leaked" | "escaped" | "leaks" | "escapes" => Some(Share::Gone),
        "out" if from + at > 0 => Some(Share::Gone),
        "stayed" | "stays" | "inside" | "remains" | "remained" => Some(Share::Kept),
        _ => None,
    });
    told.filter(|_| !denied)
}

/// The state told from a word on ("has stayed inside", "didn't leak"), the word behind it, and whether it is that of strands.
fn state(words: &[String], from: usize, vesicles: &BTreeSet<String>) -> Option<(Share, usize, bool)> {
    let lead = |at: &usize| LEADS.contains(&word(words, *at)) || DENIES.contains(&word(words, *at));
    let at = (from..words.len()).find(|at| !lead(at))?;
    let denied = (from..at).filter(|at| DENIES.contains(&word(words, *at))).count() % 2 == 1;
    let [one, next, third] = [at, at + 1, at + 2].map(|at| word(words, at));
    let (share, length, paired) = match (one, next) {
        ("leaked" | "escaped", _) => (Share::Gone, 1, false),
        ("leak" | "escape", _) if denied => (Share::Gone, 1, false),
        ("got" | "get" | "came" | "come" | "gone" | "went" | "diffused", "out") => (Share::Gone, 2, false),
        // "stayed unpaired", "stayed on the beads": in a state of another kind.
        ("stayed" | "stays" | "remained" | "remains" | "left", "in" | "inside") => (Share::Kept, 2, false),
        ("inside" | "kept", _) => (Share::Kept, 1, false),
        ("in", _) if vesicles.contains(next) || vesicles.contains(third) => (Share::Kept, 2, false),
        ("paired" | "joined", _) => (Share::Kept, 1, true),
        ("found" | "find" | "got" | "have" | "has" | "had", "a") if third == "partner" => (Share::Kept, 3, true),
        ("no", "partner") => (Share::Gone, 2, true),
        ("unpaired" | "single", _) => (Share::Gone, 1, true),
        _ => return None,
    };
    let share = match (share, denied) {
        (Share::Kept, true) => Share::Gone,
        (Share::Gone, true) => Share::Kept,
        (share, false) => share,
    };
    Some((share, at + length, paired))
}

/// What a share is said to be held by: "the liquid above holds the dye that …".
fn held_by(words: &[String], named: &Named, vesicles: &BTreeSet<String>) -> Option<Place> {
    // What is in them: "the dye", of which kind does not matter.
    let verb = (named.from.saturating_sub(BACK)..named.from)
        .rfind(|at| !BETWEEN.contains(&word(words, *at)))
        .filter(|at| HOLDS.contains(&word(words, *at)))?;
    let mut start = clause_start(words, verb);
    let pronoun = |at| matches!(word(words, at), "it" | "this" | "that" | "they" | "now");
    if (start..verb).all(pronoun) {
        // "The filtrate is tested and this is …".
        start = clause_start(words, start.saturating_sub(1));
    }
    place(words.get(start..verb)?, vesicles)
}

/// What a share is said to be in, or to become of it: "the dye that … is tested", "… is on the beads".
fn brought_to(words: &[String], named: &Named, vesicles: &BTreeSet<String>) -> Option<Place> {
    let end = (named.to..words.len()).find(|at| CUTS.contains(&word(words, *at))).unwrap_or(words.len());
    let own = words.get(named.to..end)?;
    // "lose their enzyme to the liquid".
    if named.paired
        && own.first().is_some_and(|word| word.starts_with("lose"))
        && own.iter().any(|word| word == "enzyme" || word == "enzymes")
    {
        return Some(Place::Liquid);
    }
    let copula = own.iter().position(|word| COPULAS.contains(&word.as_str()))?;
    let behind = own.get(copula..)?;
    // "The paired strands' enzyme is no longer on the beads."
    let gone = matches!(behind, [_, no, longer, ..] if no == "no" && longer == "longer")
        || matches!(behind, [_, not, ..] if not == "not");
    if named.paired && gone && behind.iter().any(|word| word == "bead" || word == "beads") {
        return Some(Place::Liquid).filter(|_| named.share == Share::Kept);
    }
    if own.iter().any(|word| ELSEWHERE.contains(&word.as_str())) {
        return None;
    }
    if behind.iter().any(|word| DISCARDED.contains(&word.as_str())) {
        return Some(Place::Discarded);
    }
    place(behind, vesicles)
}

/// Where the clause of a word begins.
fn clause_start(words: &[String], at: usize) -> usize {
    (0..at).rfind(|at| CUTS.contains(&word(words, *at))).map_or(0, |cut| cut + 1)
}

/// The place that some words name.
fn place(words: &[String], vesicles: &BTreeSet<String>) -> Option<Place> {
    let any = |list: &[&str]| words.iter().any(|word| list.contains(&word.as_str()));
    let tested = ["test", "measur", "assay"];
    let holder = words.iter().any(|word| vesicles.contains(word));
    match () {
        () if any(ELSEWHERE) => None,
        () if words.iter().any(|word| tested.iter().any(|begin| word.starts_with(begin))) => Some(Place::Tested),
        () if any(OUTSIDE) && !holder => Some(Place::Outside),
        () if holder => Some(Place::Holder),
        () if any(&["liquid"]) => Some(Place::Liquid),
        () => None,
    }
}
