//! The words of one review: what the reader knows by itself, the terms of the lexicon, and the spelling of both.

mod terms;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, LazyLock, Mutex, MutexGuard, PoisonError};

use rust_stemmers::{Algorithm, Stemmer};

use super::lexicon::Lexicon;
use super::meaning::{Little, Meaning};
use super::read::Reading;
use super::{spelling, words};

/// The stem under which a word is known: of its base form, in lower case.
pub(crate) struct Stems {
    stemmer: Stemmer,
    irregular: BTreeMap<&'static str, &'static str>,
}

impl Stems {
    fn new() -> Self {
        Self {
            stemmer: Stemmer::create(Algorithm::English),
            irregular: words::lists().irregular.iter().copied().collect(),
        }
    }

    /// The stem of a word in lower case.
    pub(crate) fn of(&self, lower: &str) -> String {
        let base = self.irregular.get(lower).copied().unwrap_or(lower);
        self.stemmer.stem(base).into_owned()
    }

    fn phrase(&self, phrase: &str) -> Vec<String> {
        super::read::token::tokens(phrase).iter().map(|token| self.of(&token.lower)).collect()
    }
}

/// Phrases by their first stem, the longest first.
type Phrases = BTreeMap<String, Vec<(Vec<String>, Meaning)>>;

/// What was looked up before. A copy of a dictionary begins anew.
#[derive(Default)]
struct Memory {
    /// The guide's own texts as read: each is looked at again for every answer.
    read: Mutex<BTreeMap<String, Arc<Reading>>>,
    /// Keys of the words that the rules ask for.
    keys: Mutex<BTreeMap<String, String>>,
}

impl Clone for Memory {
    fn clone(&self) -> Self {
        Self::default()
    }
}

/// A thread that panicked leaves nothing half written.
fn unlocked<T>(memory: &Mutex<T>) -> MutexGuard<'_, T> {
    memory.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The reader's own words, without a lexicon: made once.
static OWN: LazyLock<Dictionary> = LazyLock::new(Dictionary::own);

/// Everything that is looked up while reading.
#[derive(Clone)]
pub(crate) struct Dictionary {
    pub(crate) stems: Arc<Stems>,
    phrases: Phrases,
    senses: BTreeMap<String, Vec<String>>,
    light: BTreeSet<String>,
    verbs: BTreeSet<String>,
    acting: BTreeSet<String>,
    states: BTreeSet<String>,
    elsewhere: BTreeSet<String>,
    adjectives: BTreeSet<String>,
    of_trade: BTreeSet<String>,
    comparing: BTreeSet<String>,
    classes: BTreeMap<String, &'static str>,
    opposites: BTreeMap<String, BTreeSet<String>>,
    terms: Vec<TermEntry>,
    /// Quantities by the key of a word that names them here: the quencher, where that is what is made.
    stand_for: BTreeMap<String, usize>,
    /// Words in lower case that are spelled right.
    known: BTreeSet<String>,
    known_stems: BTreeSet<String>,
    /// The guide tells of what is left outside.
    left_outside: bool,
    /// Words that a slip may be mended to.
    targets: BTreeSet<String>,
    /// The same by how they sound.
    sounds: spelling::Sounds,
    memory: Memory,
}

/// Regular forms of a verb.
fn forms(word: &str) -> [String; 3] {
    let base = word.strip_suffix('e').unwrap_or(word);
    let s = if word.ends_with(['s', 'x']) || word.ends_with("sh") || word.ends_with("ch") { "es" } else { "s" };
    [format!("{word}{s}"), format!("{base}ed"), format!("{base}ing")]
}

/// A term as compiled.
#[derive(Clone)]
pub(crate) struct TermEntry {
    pub(crate) id: String,
    pub(crate) quantity: bool,
    /// Keys of the first of its forms, by which it is known whatever it is called.
    pub(crate) words: Vec<String>,
}

impl Dictionary {
    fn own() -> Self {
        let mut dictionary = Self {
            stems: Arc::new(Stems::new()),
            phrases: Phrases::new(),
            senses: BTreeMap::new(),
            light: BTreeSet::new(),
            verbs: BTreeSet::new(),
            acting: BTreeSet::new(),
            states: BTreeSet::new(),
            elsewhere: BTreeSet::new(),
            adjectives: BTreeSet::new(),
            of_trade: BTreeSet::new(),
            comparing: BTreeSet::new(),
            classes: BTreeMap::new(),
            opposites: BTreeMap::new(),
            terms: Vec::new(),
            stand_for: BTreeMap::new(),
            known: BTreeSet::new(),
            known_stems: BTreeSet::new(),
            left_outside: false,
            targets: BTreeSet::new(),
            sounds: spelling::Sounds::new(),
            memory: Memory::default(),
        };
        dictionary.own_words();
        dictionary.senses();
        dictionary
    }

    /// Compiles the words; `texts` are those of the guide, to whose words slips of the pen are mended.
    pub(crate) fn new(lexicon: &Lexicon, texts: &[&str]) -> Self {
        let mut dictionary = OWN.clone();
        dictionary.left_outside =
            ["left outside", "left in the"].iter().any(|left| texts.iter().any(|text| text.contains(left)));
        dictionary.lexicon(lexicon);
        for list in dictionary.phrases.values_mut() {
            list.sort_by_key(|(phrase, _)| std::cmp::Reverse(phrase.len()));
        }
        for text in texts {
            dictionary.learn(text, true);
            for token in super::read::token::tokens(text).iter().filter(|token| token.lower.len() > 4) {
                dictionary.targets.insert(format!("{}s", token.lower.trim_end_matches('s')));
            }
        }
        dictionary.sounds = spelling::sounds(&dictionary.targets);
        dictionary
    }

    /// A text of the guide as read: read once, however many answers are reviewed by it.
    pub(crate) fn of_guide(&self, text: &str) -> Arc<Reading> {
        let known = unlocked(&self.memory.read).get(text).cloned();
        known.unwrap_or_else(|| {
            let reading = Arc::new(Reading::of(text, self));
            unlocked(&self.memory.read).insert(text.to_owned(), Arc::clone(&reading));
            reading
        })
    }

    fn own_words(&mut self) {
        for (list, turn) in &words::lists().turns {
            self.add_all(list, Meaning::Turn(*turn));
        }
        self.add_all(&words::lists().negators, Meaning::Negator);
        self.add_all(&words::lists().no_negators, Meaning::NoNegator);
        for (list, link) in &words::lists().links {
            self.add_all(list, Meaning::Link(*link));
        }
        self.add_all(&words::lists().asides, Meaning::Aside);
        self.add_all(&words::lists().hedges, Meaning::Hedge);
        self.add_all(&words::lists().pronouns, Meaning::Pronoun);
        for (list, little) in &words::lists().little {
            self.add_all(list, Meaning::Little(*little));
        }
        for (form, base) in &words::lists().irregular {
            self.learn(form, form.len() > 5);
            self.learn(base, base.len() > 5);
        }
        for word in &words::lists().confusable {
            self.known.insert((*word).to_owned());
        }
        for word in &words::lists().acting {
            self.acting.insert(self.stems.of(word));
        }
        for word in &words::lists().verbs {
            self.verbs.insert(self.stems.of(word));
            self.learn(word, true);
            for form in forms(word) {
                self.learn(&form, true);
            }
        }
        for word in &words::lists().light {
            self.known.insert((*word).to_owned());
            self.light.insert(self.stems.of(word));
        }
    }

    /// Whether a stem can tell what something does.
    pub(crate) fn is_verb(&self, stem: &str) -> bool {
        self.verbs.contains(stem)
    }

    /// Whether a stem can tell what something does to something else.
    pub(crate) fn acts(&self, stem: &str) -> bool {
        self.acting.contains(stem)
    }

    /// Whether a key tells in what state a thing is.
    pub(crate) fn is_state(&self, key: &str) -> bool {
        self.states.contains(key)
    }

    /// Whether the guide tells of what is left outside.
    pub(crate) fn leaves_outside(&self) -> bool {
        self.left_outside
    }

    /// Whether a key tells that a thing is somewhere else than what is not told so.
    pub(crate) fn is_elsewhere(&self, key: &str) -> bool {
        self.elsewhere.contains(key)
    }

    /// Whether a key is a term of the trade.
    pub(crate) fn is_of_trade(&self, key: &str) -> bool {
        self.of_trade.contains(key)
    }

    /// Whether a key compares two things.
    pub(crate) fn compares(&self, key: &str) -> bool {
        self.comparing.contains(key)
    }

    /// Whether "more" of a key is no amount.
    pub(crate) fn is_adjective(&self, key: &str) -> bool {
        self.adjectives.contains(key)
    }

    fn add_all(&mut self, list: &[&str], meaning: Meaning) {
        for phrase in list {
            let stems = self.stems.phrase(phrase);
            // Links of one word and directions are worth mending a slip for; the rest is only known.
            let target = matches!(meaning, Meaning::Turn(_) | Meaning::Link(_));
            self.learn(phrase, target);
            self.add(stems, meaning);
        }
    }

    /// The first meaning that a phrase is given stays.
    fn add(&mut self, stems: Vec<String>, meaning: Meaning) {
        let Some(first) = stems.first() else { return };
        let list = self.phrases.entry(first.clone()).or_default();
        if !list.iter().any(|(known, _)| *known == stems) {
            list.push((stems, meaning));
        }
    }

    fn senses(&mut self) {
        for (number, group) in words::lists().senses.iter().enumerate() {
            let Some(head) = group.first().map(|word| self.stems.of(word)) else { continue };
            for phrase in group {
                let stems = self.stems.phrase(phrase);
                self.learn(phrase, true);
                if let [stem] = stems.as_slice() {
                    self.senses.entry(stem.clone()).or_default().push(head.clone());
                } else {
                    self.senses.entry(stems.join(" ")).or_default().push(head.clone());
                    self.add(stems, Meaning::Sense(number));
                }
            }
        }
        self.states = words::lists().state.iter().map(|word| self.head_of(word)).collect();
        self.elsewhere = words::lists().elsewhere.iter().map(|word| self.head_of(word)).collect();
        self.adjectives = words::lists().adjective.iter().map(|word| self.head_of(word)).collect();
        self.of_trade = words::lists().terms.iter().map(|word| self.head_of(word)).collect();
        self.comparing = words::lists().comparing.iter().map(|word| self.head_of(word)).collect();
        for (class, list) in &words::lists().classes {
            for word in list {
                let key = self.head_of(word);
                self.classes.insert(key, class);
            }
        }
        for (one, other) in &words::lists().opposites {
            let (one, other) = (self.head_of(one), self.head_of(other));
            self.opposites.entry(one.clone()).or_default().insert(other.clone());
            self.opposites.entry(other).or_default().insert(one);
        }
    }

    /// The key of a phrase of the tables: that of its group, or of its word.
    fn head_of(&mut self, phrase: &str) -> String {
        self.learn(phrase, true);
        let stems = self.stems.phrase(phrase);
        if let [stem] = stems.as_slice() {
            return self.canonical(stem);
        }
        let group = words::lists().senses.iter().find(|group| group.contains(&phrase));
        group.and_then(|group| group.first()).map_or_else(|| stems.join(" "), |head| self.stems.of(head))
    }

    fn turns(&self, stem: &str) -> bool {
        let single = |list: &Vec<(Vec<String>, Meaning)>| {
            list.iter()
                .any(|(phrase, meaning)| phrase.len() == 1 && matches!(meaning, Meaning::Turn(_) | Meaning::Negator))
        };
        self.phrases.get(stem).is_some_and(single)
    }

    /// Takes the words of a text for rightly spelled.
    fn learn(&mut self, text: &str, target: bool) {
        for token in super::read::token::tokens(text) {
            if token.lower.chars().all(char::is_alphabetic) {
                if target {
                    self.targets.insert(token.lower.clone());
                }
                self.known_stems.insert(self.stems.of(&token.lower));
                self.known.insert(token.lower);
            }
        }
    }

    /// The key of a stem: that of its group of like words, or itself.
    pub(crate) fn canonical(&self, stem: &str) -> String {
        self.senses.get(stem).and_then(|heads| heads.first()).cloned().unwrap_or_else(|| stem.to_owned())
    }

    /// The keys of the other groups that a stem stands in.
    pub(crate) fn further(&self, stem: &str) -> impl Iterator<Item = &String> {
        self.senses.get(stem).into_iter().flatten().skip(1)
    }

    /// The key of a word of the tables.
    pub(crate) fn key(&self, word: &str) -> String {
        if word.starts_with("t:") {
            return word.to_owned();
        }
        let known = unlocked(&self.memory.keys).get(word).cloned();
        known.unwrap_or_else(|| {
            let key = self.canonical(&self.stems.of(word));
            unlocked(&self.memory.keys).insert(word.to_owned(), key.clone());
            key
        })
    }

    /// The longest phrase that begins with these stems: how many, and what it does.
    pub(crate) fn longest(&self, stems: &[&str]) -> Option<(usize, Meaning)> {
        let list = self.phrases.get(*stems.first()?)?;
        let fits = |phrase: &Vec<String>| {
            phrase.len() <= stems.len() && phrase.iter().zip(stems).all(|(one, other)| one == other)
        };
        list.iter().find(|(phrase, _)| fits(phrase)).map(|(phrase, meaning)| (phrase.len(), *meaning))
    }

    /// A word as it was meant: mended where it is a slip of a word that is known.
    pub(crate) fn mended(&self, lower: &str) -> String {
        if self.known.contains(lower) || self.known_by_stem(lower) {
            return lower.to_owned();
        }
        let doubled = spelling::doubled(lower).filter(|word| self.known.contains(word) || self.known_by_stem(word));
        if let Some(word) = doubled {
            return word;
        }
        let near = |word: &str| spelling::nearest(word, &self.targets).map(str::to_owned);
        let by_sound = || spelling::alike(lower, &self.sounds).map(str::to_owned);
        let found = near(lower).or_else(by_sound).filter(|word| !spelling::as_near_another(lower, word));
        found.unwrap_or_else(|| lower.to_owned())
    }

    /// A form of a word that is known: "separates" where "separate" is.
    fn known_by_stem(&self, lower: &str) -> bool {
        let endings = ["s", "ed", "ing", "ly", "d", "est", "ness", "al", "able", "tion", "y"];
        endings.iter().any(|ending| lower.ends_with(ending)) && self.known_stems.contains(&self.stems.of(lower))
    }

    /// The kind of quantity that a key names.
    pub(crate) fn class(&self, key: &str) -> Option<&'static str> {
        self.classes.get(key).copied()
    }

    pub(crate) fn is_light(&self, key: &str) -> bool {
        self.light.contains(key)
    }

    /// Whether two keys exclude each other.
    pub(crate) fn opposed(&self, one: &str, other: &str) -> bool {
        self.opposites.get(one).is_some_and(|set| set.contains(other))
    }

    /// The keys that exclude this one.
    pub(crate) fn opposites(&self, key: &str) -> impl Iterator<Item = &str> {
        self.opposites.get(key).into_iter().flatten().map(String::as_str)
    }

    pub(crate) fn term(&self, number: usize) -> Option<&TermEntry> {
        self.terms.get(number)
    }

    /// The quantity of which a key is a name here.
    pub(crate) fn stands_for(&self, key: &str) -> Option<usize> {
        self.stand_for.get(key).copied()
    }

    /// Whether a stem is a word without a topic.
    pub(crate) fn is_little(&self, stem: &str) -> bool {
        let list = self.phrases.get(stem);
        list.is_some_and(|list| {
            list.iter().any(|(phrase, meaning)| {
                phrase.len() == 1
                    && matches!(
                        meaning,
                        Meaning::Little(Little::Article | Little::Preposition | Little::Copula | Little::Plain)
                            | Meaning::Link(_)
                            | Meaning::Pronoun
                    )
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_words_are_no_slips_of_terms() {
        let dictionary = Dictionary::new(&Lexicon::default(), &["leaking sacs release dye from a pilot value"]);
        for word in ["looking", "reversed", "vials", "pellet", "called"] {
            assert_eq!(dictionary.mended(word), word);
        }
        assert_eq!(dictionary.mended("leakking"), "leaking");
        assert_eq!(dictionary.mended("thiner"), "thinner", "only the doubled consonant is missing");
        assert_eq!(dictionary.stems.of("becuse"), dictionary.stems.of("because"));
        assert_ne!(dictionary.stems.of("solute"), dictionary.stems.of("solution"), "what is dissolved, and all of it");
    }
}
