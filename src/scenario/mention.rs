//! First and later mentions: every noun enters once, by its full name and what it is, and is then called one thing.
//!
//! Fragments speak of entities by placeholders; the template engine turns those into marks, and this turns the marks
//! into words in reading order.

use std::collections::BTreeSet;

/// What a mark stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Noun {
    /// Mark key.
    pub(super) key: String,
    /// What it is.
    pub(super) intro: String,
    /// Singular.
    pub(super) one: String,
    /// Plural or mass noun.
    pub(super) many: String,
    /// Introduced in quotation marks.
    pub(super) coined: bool,
}

const OPEN: char = '⟦';
const CLOSE: char = '⟧';

/// The mark for the plural of an entity.
pub(super) fn many(key: &str) -> String {
    format!("{OPEN}{key}|many{CLOSE}")
}

/// The mark for its singular.
pub(super) fn one(key: &str) -> String {
    format!("{OPEN}{key}|one{CLOSE}")
}

/// Turns marks into words, keeping count of what has been introduced.
#[derive(Debug, Default)]
pub(super) struct Mentions {
    met: BTreeSet<String>,
    /// The paragraphs so far.
    told: String,
}

impl Mentions {
    /// The text with marks resolved; a first mention gives the intro.
    pub(super) fn resolve(&mut self, text: &str, nouns: &[Noun]) -> String {
        let mut out = String::new();
        let mut rest = text;
        while let Some((before, after)) = rest.split_once(OPEN) {
            out.push_str(before);
            let Some((mark, after)) = after.split_once(CLOSE) else { break };
            let (key, number) = mark.split_once('|').unwrap_or((mark, "many"));
            if let Some(noun) = nouns.iter().find(|noun| noun.key == key) {
                // Before a first mention, "the" would point at what has not been met.
                let enters = number != "one" && !self.met.contains(&noun.key) && noun.intro != noun.many;
                let bare = out.strip_suffix("the ").or_else(|| out.strip_suffix("The ")).filter(|_| enters);
                let bare = bare.filter(|rest| rest.is_empty() || rest.ends_with(' '));
                if let Some(bare) = bare {
                    out.truncate(bare.len());
                }
                let article = ends_with_article(&out);
                out.push_str(&self.words(noun, number == "one", article));
            }
            rest = after;
        }
        out.push_str(rest);
        self.told.push_str(&out);
        self.told.push('\n');
        out
    }

    /// Later forms only: for questions, guide and scaffold, which come after the introduction.
    pub(super) fn known(nouns: &[Noun]) -> Self {
        Self { met: nouns.iter().map(|noun| noun.key.clone()).collect(), told: String::new() }
    }

    fn words(&mut self, noun: &Noun, singular: bool, after_article: bool) -> String {
        let name = if singular { &noun.one } else { &noun.many };
        let first = self.met.insert(noun.key.clone());
        // After an article, or in the singular, the intro would not fit the grammar: the plain name stands.
        if !first || singular || after_article || noun.intro == noun.many {
            return name.clone();
        }
        let intro = match noun.intro.strip_prefix("an ").or_else(|| noun.intro.strip_prefix("a ")) {
            Some(kind) if names(&self.told, kind) => format!("the {kind}"),
            _ => noun.intro.clone(),
        };
        if noun.coined { format!("{intro} (“{}”)", noun.many) } else { intro }
    }
}

/// Whether the text speaks of one thing of a kind ("with that enzyme"), so that it is then "the enzyme". Where it only
/// says what another thing is ("nuclease, an enzyme that …"), "the enzyme" means that other thing.
fn names(told: &str, kind: &str) -> bool {
    let is_letter = |letter: char| letter.is_alphabetic();
    told.match_indices(kind).any(|(at, _)| {
        let (before, after) = (told.get(..at).unwrap_or_default(), told.get(at + kind.len()..).unwrap_or_default());
        !before.ends_with(is_letter) && !after.trim_start_matches('s').starts_with(is_letter)
    }) && ![", an ", ", a "].iter().any(|aside| told.contains(&format!("{aside}{kind}")))
}

/// Whether the text ends in a word that the intro, with an article of its own, could not follow.
fn ends_with_article(before: &str) -> bool {
    let last = before.trim_end().rsplit(' ').next().unwrap_or_default().to_lowercase();
    ["a", "an", "the", "each", "every", "this", "these", "those", "same", "such", "no"].contains(&last.as_str())
}

/// Capital letters at the start of sentences, single spaces, no space before punctuation.
pub(super) fn tidy(text: &str) -> String {
    let squeezed = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut out = String::with_capacity(squeezed.len());
    let mut at_start = true;
    let mut letters = squeezed.chars().peekable();
    while let Some(letter) = letters.next() {
        // "pH" keeps its small letter wherever it stands.
        let is_ph = letter == 'p' && letters.peek() == Some(&'H');
        if at_start && letter.is_alphabetic() && !is_ph {
            out.extend(letter.to_uppercase());
        } else {
            out.push(letter);
        }
        let ends = matches!(letter, '.' | '?' | '!') && letters.peek().is_none_or(|next| *next == ' ');
        at_start = ends || (at_start && !letter.is_alphanumeric());
    }
    articles(&out)
}

/// "a" or "an" by the sound that follows, as far as letters tell. Before a capital (DNA, N–H) the author knows better.
fn articles(text: &str) -> String {
    let words: Vec<&str> = text.split(' ').collect();
    let mut out: Vec<String> = Vec::with_capacity(words.len());
    for (place, word) in words.iter().enumerate() {
        let next = words.get(place + 1).copied().unwrap_or_default();
        let fixed = match *word {
            article @ ("a" | "an" | "A" | "An") if next.starts_with(char::is_uppercase) => article,
            "a" | "an" if sounds_like_vowel(next) => "an",
            "a" | "an" => "a",
            "A" | "An" if sounds_like_vowel(next) => "An",
            "A" | "An" => "A",
            other => other,
        };
        out.push(fixed.to_owned());
    }
    out.join(" ")
}

fn sounds_like_vowel(word: &str) -> bool {
    let word: String = word.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect();
    let silent = ["hour", "honest", "heir"].iter().any(|h| word.starts_with(h));
    let like_you = ["uni", "use", "usu", "eu", "one", "once"].iter().any(|u| word.starts_with(u));
    let un = word.starts_with("unin") || word.starts_with("unim");
    let number = word.starts_with('8') || word.starts_with("11") || word.starts_with("18");
    silent || number || ((!like_you || un) && word.starts_with(['a', 'e', 'i', 'o', 'u']))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn noun() -> Noun {
        Noun {
            key: "vesicle".into(),
            intro: "tiny hollow spheres of bilayer".into(),
            one: "pouch".into(),
            many: "pouches".into(),
            coined: true,
        }
    }

    #[track_caller]
    fn case(input: &str, expected: &str) {
        let text = Mentions::default().resolve(input, &[noun()]);
        assert_eq!(tidy(&text), expected);
    }

    #[test]
    fn first_mention_tells_what_it_is() {
        case(
            "⟦vesicle|many⟧ are made. the ⟦vesicle|many⟧ shine.",
            "Tiny hollow spheres of bilayer (“pouches”) are made. The pouches shine.",
        );
    }

    #[test]
    fn what_was_spoken_of_is_met_again() {
        let enzyme = Noun {
            key: "enzyme".into(),
            intro: "an enzyme".into(),
            one: "hessase".into(),
            many: "hessase".into(),
            coined: true,
        };
        let after = |purpose: &str| {
            let mut mentions = Mentions::default();
            mentions.resolve(purpose, &[]);
            mentions.resolve("⟦enzyme|many⟧ works", std::slice::from_ref(&enzyme))
        };
        assert_eq!(after("They study one enzyme of flour."), "the enzyme (“hessase”) works");
        assert_eq!(after("They study one of these enzymes."), "the enzyme (“hessase”) works");
        assert_eq!(after("They measure nuclease, an enzyme that acts on DNA."), "an enzyme (“hessase”) works");
        assert_eq!(after("They measure sugar."), "an enzyme (“hessase”) works");
    }

    #[test]
    fn articles_follow_the_sound() {
        case("a N–H group, an N–H group, a DNA strand", "A N–H group, an N–H group, a DNA strand");
        case(
            "a enzyme and an pouch. an unit, a hour, a 8 mm rod",
            "An enzyme and a pouch. A unit, an hour, an 8 mm rod",
        );
    }

    #[test]
    fn ph_keeps_its_small_letter() {
        case("it is. pH 7 holds", "It is. pH 7 holds");
    }
}
