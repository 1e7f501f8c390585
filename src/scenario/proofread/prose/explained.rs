//! A sentence of the stimulus that explains what the student is asked to explain.

use std::collections::BTreeSet;

use super::super::items::term;
use super::super::words::{content, sentences, words};
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "explained",
        meaning: "the stimulus gives a reason in the key words of the guide",
        wrong: "Less dye is in the way of the light, so absorbance falls. (b) **Explain** how dye changes absorbance.",
        right: "A colorimeter shows the absorbance. (b) **Explain** how dye changes absorbance.",
    },
    hint: "leave the reason to the student",
    source: Some(
        "Haladyna, Downing & Rodriguez 2002, Appl Meas Educ 15:309, guideline 28: no clues to the right answer",
    ),
    severity: Severity::Warning,
    after_edit: false,
    check,
};

/// Key words in one sentence with a reason from which on it explains.
const FEWEST: usize = 2;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let keys = key_words(manuscript);
    let mut found = Vec::new();
    for passage in manuscript.stimulus() {
        for sentence in sentences(passage.text).into_iter().filter(|sentence| gives_reason(sentence)) {
            let here: BTreeSet<String> = content(sentence).into_iter().filter(|word| keys.contains(word)).collect();
            if here.len() >= FEWEST {
                let words: Vec<&str> = here.iter().map(String::as_str).collect();
                let message = format!("a reason with the guide's words `{}`", words.join("`, `"));
                found.push(Found::new(&*passage.place, sentence, message));
            }
        }
    }
    found
}

/// What the points for explaining say and no question does.
fn key_words(manuscript: &Manuscript) -> BTreeSet<String> {
    let explains = |text: &str| term::terms(text).iter().any(|term| matches!(*term, "explain" | "justify"));
    let questions = manuscript.questions.iter().filter(|question| explains(&question.text));
    let points = questions.flat_map(|question| manuscript.answers_to(question));
    let asked: BTreeSet<String> = manuscript.questions.iter().flat_map(|question| content(&question.text)).collect();
    let names = manuscript.nouns.iter().flat_map(|noun| content(&noun.many).into_iter().chain(content(&noun.intro)));
    let known: BTreeSet<String> = asked.into_iter().chain(names).collect();
    points.flat_map(|point| content(&point.statement)).filter(|word| !known.contains(word)).collect()
}

/// "because", "therefore", or a "so" that concludes: not "so that", "so much", nor at the end.
fn gives_reason(sentence: &str) -> bool {
    let all = words(sentence);
    let mut pairs = all.iter().zip(all.iter().skip(1));
    pairs.any(|(word, next)| {
        let concludes =
            word.is("so") && !next.is_one_of(&["that", "much", "many", "little", "few", "small", "long", "far"]);
        concludes || word.is_one_of(&["because", "therefore", "hence", "thus"])
    })
}
