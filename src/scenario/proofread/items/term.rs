//! Command terms: the words that say what is to be done.

use super::super::words::{Word, sentences, words};

/// Words that command. Common practice of the trade, no source.
const TERMS: &[&str] = &[
    "calculate",
    "compare",
    "construct",
    "contrast",
    "define",
    "describe",
    "design",
    "determine",
    "discuss",
    "draw",
    "estimate",
    "evaluate",
    "explain",
    "identify",
    "interpret",
    "justify",
    "list",
    "name",
    "outline",
    "plot",
    "predict",
    "propose",
    "sketch",
    "state",
    "suggest",
    "support",
];
/// Words that follow a command after "and": without one, "state", "name" or "design" is a noun.
const OBJECTS: &[&str] = &[
    "the", "a", "an", "how", "why", "what", "which", "whether", "your", "one", "two", "three", "four", "each", "that",
    "this", "these", "any",
];

/// The command terms of a question, in order.
pub(in crate::scenario::proofread) fn terms(text: &str) -> Vec<&'static str> {
    sentences(text).into_iter().flat_map(of_sentence).map(|(term, _)| term).collect()
}

/// The command terms of a sentence with the number of their word.
pub(in crate::scenario::proofread) fn of_sentence(sentence: &str) -> Vec<(&'static str, usize)> {
    let all = words(sentence);
    let mut found = Vec::new();
    for (number, word) in all.iter().enumerate() {
        let Some(term) = TERMS.iter().find(|term| word.is(term)) else { continue };
        let before = number.checked_sub(1).and_then(|number| all.get(number));
        if commands(sentence, *word, before.copied(), all.get(number + 1).copied()) {
            found.push((*term, number));
        }
    }
    found
}

fn commands(sentence: &str, word: Word<'_>, before: Option<Word<'_>>, next: Option<Word<'_>>) -> bool {
    let bold = is_bold(sentence, word.start);
    let first = before.is_none();
    let object = next.is_some_and(|next| next.is_one_of(OBJECTS));
    let joined = before.is_some_and(|before| before.is_one_of(&["and", "then", "or"])) && object;
    bold || first || joined
}

/// Whether a place lies between `**` and `**`.
fn is_bold(sentence: &str, place: usize) -> bool {
    sentence.get(..place).is_some_and(|before| before.matches("**").count() % 2 == 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[&str]) {
        assert_eq!(terms(text), expected, "{text}");
    }

    #[test]
    fn commands_are_told_from_nouns() {
        case("**Describe** how dye moves.", &["describe"]);
        case("**Predict and justify** how the glow changes.", &["predict", "justify"]);
        case("Describe the steady state and name of the enzyme.", &["describe"]);
        case("**Identify** the control and explain why it is needed.", &["identify", "explain"]);
        case("At 5 °C the rate is low. Calculate the rate. Show the setup.", &["calculate"]);
        case("What is the control?", &[]);
    }
}
