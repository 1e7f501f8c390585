//! Something that should have been filled in.

use super::super::words::words;
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "placeholder",
        meaning: "a placeholder or a mark of the writer has not been replaced",
        wrong: "Each {{ container }} holds TODO µL.",
        right: "Each well holds 50 µL.",
    },
    hint: "put the words or the number in",
    source: None,
    severity: Severity::Error,
    after_edit: true,
    check,
};

const MARKS: &[&str] = &["{{", "}}", "{%", "%}", "{#", "⟦", "⟧", "???"];
const WORDS: &[&str] = &["TODO", "TBD", "FIXME", "XXX", "NaN", "inf", "null", "undefined"];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for passage in manuscript.passages() {
        let mark = MARKS.iter().find_map(|mark| Some((passage.text.find(mark)?, mark)));
        if let Some((place, mark)) = mark {
            let quote: String = passage.text.get(place..).unwrap_or_default().chars().take(30).collect();
            found.push(Found::new(&*passage.place, quote, format!("`{mark}` is left over")));
        }
        for word in words(passage.text).iter().filter(|word| WORDS.contains(&word.text)) {
            found.push(Found::new(&*passage.place, word.text, format!("`{}` is left over", word.text)));
        }
    }
    found
}
