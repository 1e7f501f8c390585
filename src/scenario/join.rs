//! Joining: neighbouring short sentences become one, as a careful writer would put them, until the text reads as ages
//! 16 to 19 expect.
//!
//! Comes in: the purpose, and the sentences of the procedure with the slot of each. Goes out: fewer, longer sentences in
//! the same order. **Must not know**: what they are about. Only whole clauses are joined, and each pair once.

use super::proofread::{Counts, matter, sentences};
use crate::concepts::written::Slot;

/// Joining stops at this Flesch–Kincaid grade: a little above the lower bound of the lint.
const ENOUGH: f64 = 9.4;
/// A joined sentence has at most this many words ...
const MOST_WORDS: usize = 30;
/// ... and where the grade asks for it, this many.
const MOST_WORDS_LAST: usize = 36;

/// Words that hold a sentence's subject.
const SUBJECT: usize = 3;

/// One or more sentences of the procedure.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Passage {
    text: String,
    counts: Counts,
    /// Which visit to the bench, and which slot: what stands in one belongs together.
    group: (u8, Slot),
    joined: bool,
}

/// The sentences of the procedure, joined where that helps.
pub(super) fn join(purpose: &str, procedure: Vec<(String, (u8, Slot))>) -> Vec<String> {
    let passage = |text: String, group, joined| Passage { counts: Counts::of(&text), text, group, joined };
    let purpose = Counts::of(purpose);
    let mut passages: Vec<Passage> = procedure.into_iter().map(|(text, group)| passage(text, group, false)).collect();
    for (most, within) in [(MOST_WORDS, true), (MOST_WORDS, false), (MOST_WORDS_LAST, false)] {
        while !is_enough(purpose, &passages) {
            let Some((place, text)) = shortest_pair(&passages, most, within) else { break };
            let second = passages.remove(place + 1);
            if let Some(first) = passages.get_mut(place) {
                *first = passage(text, second.group, true);
            }
        }
    }
    passages.into_iter().map(|passage| passage.text).collect()
}

fn is_enough(purpose: Counts, passages: &[Passage]) -> bool {
    let all = std::iter::once(purpose).chain(passages.iter().map(|passage| passage.counts));
    all.sum::<Counts>().grade().is_none_or(|grade| grade >= ENOUGH)
}

/// The pair of neighbours that makes the shortest sentence, and that sentence.
fn shortest_pair(passages: &[Passage], most: usize, within: bool) -> Option<(usize, String)> {
    let pairs = passages.windows(2).enumerate().filter_map(|(place, pair)| {
        let [first, second] = pair else { return None };
        let apart = first.joined || second.joined || (within && first.group != second.group);
        let text = if apart { None } else { one_sentence(&first.text, &second.text) }?;
        let n_words = text.split_whitespace().count();
        (n_words <= most).then_some((n_words, place, text))
    });
    pairs.min_by_key(|(n_words, place, _)| (*n_words, *place)).map(|(_, place, text)| (place, text))
}

/// Whether the second sentence takes up, in its first words, something that the first has named: else a reader would look
/// for a link that is not there.
fn goes_on(first: &str, second: &str) -> bool {
    let told: Vec<String> = matter(first).flatten().collect();
    matter(second).take(SUBJECT).flatten().any(|stem| told.contains(&stem))
}

/// Two sentences as one; none where either is more than one sentence, holds a stop of its own, or cannot follow a comma.
fn one_sentence(first: &str, second: &str) -> Option<String> {
    let single = |text: &str| sentences(text).len() == 1 && !text.contains([';', ':', '—', '“']);
    if !single(first) || !single(second) || !goes_on(first, second) {
        return None;
    }
    let start = first.strip_suffix('.')?;
    let follows = small_start(second)?;
    if says_again(start, &follows) {
        return None;
    }
    let plain = |text: &str| !text.contains(" and ") && !text.contains(',');
    let link = if plain(start) && plain(second) { ", and" } else { ";" };
    Some(format!("{start}{link} {follows}"))
}

/// Whether one would end with the words with which the other begins.
fn says_again(first: &str, second: &str) -> bool {
    let (first, second): (Vec<&str>, Vec<&str>) = (first.split(' ').collect(), second.split(' ').collect());
    (2..=4).any(|n| second.get(..n).is_some_and(|start| first.ends_with(start)))
}

/// A sentence without its capital, where its first word is an everyday one.
fn small_start(sentence: &str) -> Option<String> {
    let first = sentence.split([' ', '-']).next()?;
    let is_plain = first.chars().skip(1).all(char::is_lowercase) && first.starts_with(char::is_uppercase);
    if first.starts_with("pH") {
        return Some(sentence.to_owned());
    }
    let mut letters = sentence.chars();
    let small = letters.next()?.to_lowercase();
    (is_plain || first == "A").then(|| small.chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(first: &str, second: &str, expected: Option<&str>) {
        assert_eq!(one_sentence(first, second).as_deref(), expected);
    }

    #[test]
    fn whole_clauses_are_joined_by_what_they_hold() {
        case("A lamp lights tubes.", "The tubes shine.", Some("A lamp lights tubes, and the tubes shine."));
        case("Water and salt fill them.", "The water flows.", Some("Water and salt fill them; the water flows."));
        case("The tubes are dark.", "After it, in water, tubes are cold.", None);
        case("Water leaks.", "After each leaking, it is cold.", Some("Water leaks; after each leaking, it is cold."));
        case("The tubes are dark.", "After it, tubes are cold.", Some("The tubes are dark; after it, tubes are cold."));
    }

    #[test]
    fn what_has_no_link_is_left_apart() {
        case("Dye fills the sacs.", "A camera sees them.", None);
        case("Dye fills the sacs.", "The sacs are rinsed.", None);
        case("All sacs hardly differ in diameter.", "Open channels span their bilayer.", None);
        case("Sugar fills the baths, which are open.", "A dye, which shines, is added.", None);
    }

    #[test]
    fn what_begins_with_a_symbol_or_holds_a_stop_is_left_alone() {
        case("It is dark.", "DNA is added.", None);
        case("The tubes are dark: no lamp burns.", "The tubes end.", None);
        case("The tubes are dark. It is cold.", "The tubes end.", None);
        case("The tubes are dark.", "pH 7 tubes hold.", Some("The tubes are dark, and pH 7 tubes hold."));
    }

    #[test]
    fn a_pair_is_joined_once_and_order_stays() {
        let sentence = |text: &str| (text.to_owned(), (0, Slot::Wait));
        let procedure = ["The paper is cut.", "The paper is dried.", "The paper is weighed."].map(sentence).to_vec();
        let joined = join("It is so.", procedure);
        assert_eq!(joined, ["The paper is cut, and the paper is dried.", "The paper is weighed."]);
    }
}
