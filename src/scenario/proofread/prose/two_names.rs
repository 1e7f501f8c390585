//! One thing under two names.

use super::super::words::{Word, words};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "two-names",
        meaning: "one thing goes by two names",
        wrong: "Tiny sacs (“podkins”) hold dye. The satchlets are stirred in.",
        right: "Tiny sacs (“podkins”) hold dye. The podkins are stirred in.",
    },
    hint: "keep to the name that was introduced",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = introduced_twice(manuscript);
    // The purpose stands before any introduction: there the same letters are an everyday word.
    let passages = manuscript.passages().into_iter().filter(|passage| passage.kind != Kind::Purpose);
    for passage in passages {
        let all = words(passage.text);
        for noun in manuscript.nouns.iter().filter(|noun| noun.coined) {
            for other in &noun.others {
                if let Some(quote) = stands(passage.text, &all, other) {
                    let message = format!("`{quote}` is called `{}` elsewhere", noun.many);
                    found.push(Found::new(&*passage.place, quote, message));
                }
            }
        }
    }
    found
}

/// The words in which a name stands in the text.
fn stands<'a>(text: &'a str, all: &[Word<'_>], name: &str) -> Option<&'a str> {
    let name: Vec<String> = words(name).iter().map(Word::lower).collect();
    let same = |run: &&[Word<'_>]| run.iter().zip(&name).all(|(word, part)| word.lower() == *part);
    let run = all.windows(name.len().max(1)).find(same)?;
    text.get(run.first()?.start..run.last()?.end)
}

/// Two quoted names after the same words: "tiny sacs (“podkins”)" and later "tiny sacs (“satchlets”)".
fn introduced_twice(manuscript: &Manuscript) -> Vec<Found> {
    let mut met: Vec<(Vec<String>, String)> = Vec::new();
    let mut found = Vec::new();
    for passage in manuscript.stimulus() {
        let mut rest = passage.text;
        while let Some((before, after)) = rest.split_once("(“") {
            let Some((name, after)) = after.split_once('”') else { break };
            let all = words(before);
            let intro: Vec<String> = all.iter().rev().take(3).map(Word::lower).collect();
            let twice = met.iter().find(|(other, called)| intro.len() == 3 && *other == intro && called != name);
            if let Some((_, called)) = twice {
                found.push(Found::new(&*passage.place, name, format!("`{name}` is called `{called}` elsewhere")));
            }
            met.push((intro, name.to_owned()));
            rest = after;
        }
    }
    found
}
