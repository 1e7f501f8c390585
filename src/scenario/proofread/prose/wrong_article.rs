//! "a" and "an" by the sound that follows.
//!
//! It shares nothing with `mention.rs`, which puts the articles, so that a slip there shows here.

use super::super::words::{Word, words};
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "wrong-article",
        meaning: "“a” stands before a vowel sound, or “an” before a consonant",
        wrong: "a enzyme, an unit, a RNA strand",
        right: "an enzyme, a unit, an RNA strand",
    },
    hint: "the sound decides, not the letter",
    source: None,
    severity: Severity::Error,
    after_edit: true,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for passage in manuscript.passages() {
        let all = words(passage.text);
        for (article, next) in all.iter().zip(all.iter().skip(1)) {
            let vowel = article.is("an");
            if !is_article(passage.text, *article, *next)
                || sound(passage.text, *next).is_none_or(|sound| sound == vowel)
            {
                continue;
            }
            let quote = passage.text.get(article.start..next.end).unwrap_or_default();
            let right = if vowel { "a" } else { "an" };
            found.push(Found::new(&*passage.place, quote, format!("`{}` should be `{right}`", article.text)));
        }
    }
    found
}

/// Words that no article stands before: "A and B", "a in the figure".
const NO_NOUN: &[&str] = &["and", "or", "is", "are", "to", "in", "on", "of", "at", "as", "with", "from", "if"];

/// Whether the word is an article: an "a" that a noun may follow after one space, quotation mark or bracket.
fn is_article(text: &str, word: Word<'_>, next: Word<'_>) -> bool {
    let between = text.get(word.end..next.start).unwrap_or_default();
    let joined = between.starts_with(' ') && between.chars().all(|c| matches!(c, ' ' | '“' | '"' | '(' | '*' | '_'));
    let alone = text
        .get(..word.start)
        .is_none_or(|before| !before.ends_with(|c: char| !c.is_whitespace() && !"“(*".contains(c)));
    let capital_inside = word.text == "A" && !opens_sentence(text, word.start);
    word.is_one_of(&["a", "an"]) && joined && alone && !capital_inside && !next.is_one_of(NO_NOUN)
}

fn opens_sentence(text: &str, place: usize) -> bool {
    let before = text.get(..place).unwrap_or_default().trim_end_matches(['*', '“', '(']).trim_end();
    before.is_empty() || before.ends_with(['.', '?', '!', ':', '”'])
}

/// Whether the word begins with a vowel sound; none where both are heard.
fn sound(text: &str, word: Word<'_>) -> Option<bool> {
    if word.is_number() {
        return number_sound(text.get(word.start..word.end).unwrap_or_default());
    }
    let mut letters = word.text.chars();
    let (first, second) = (letters.next()?, letters.next());
    let spelled = match second {
        None => first.is_uppercase(),
        Some(second) => second.is_uppercase(),
    };
    if spelled {
        // Read as words by some, letter by letter by others.
        let either = ["NAD", "FRET", "PAGE", "SEM"].iter().any(|name| word.text.starts_with(name));
        return (!either).then_some("AEFHILMNORSX".contains(first.to_ascii_uppercase()));
    }
    Some(word_sound(&word.lower()))
}

fn number_sound(digits: &str) -> Option<bool> {
    let teen = digits.starts_with("11") || digits.starts_with("18");
    match digits.len() {
        // "eleven hundred" or "one thousand one hundred".
        4 if teen => None,
        2 | 5 | 8 => Some(teen || digits.starts_with('8')),
        _ => Some(digits.starts_with('8')),
    }
}

fn word_sound(word: &str) -> bool {
    let silent_h = ["hour", "honest", "honour", "heir"].iter().any(|start| word.starts_with(start));
    let not = ["unin", "unim", "unident"].iter().any(|start| word.starts_with(start));
    let like_you = ["uni", "use", "usu", "uti", "ura", "ure", "uro", "ubi", "eu", "ew"];
    let like_one = word == "one" || word == "once" || word.starts_with("one-");
    let consonant = like_one || (!not && like_you.iter().any(|start| word.starts_with(start)));
    silent_h || (word.starts_with(['a', 'e', 'i', 'o', 'u']) && !consonant)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn heard(word: &str, vowel: bool) {
        assert_eq!(sound(word, words(word)[0]), Some(vowel), "{word}");
    }

    #[test]
    fn the_sound_decides() {
        for word in ["enzyme", "hour", "8", "18", "11", "80", "RNA", "mRNA", "X", "unimportant", "umbrella", "11000"] {
            heard(word, true);
        }
        for word in ["unit", "use", "one", "12", "110", "DNA", "pH", "U", "urea", "eukaryote", "house", "1"] {
            heard(word, false);
        }
    }
}
