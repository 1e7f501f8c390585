//! Spelling a letter or two off, without turning one term into another.

use std::collections::{BTreeMap, BTreeSet};

use strsim::osa_distance;

use super::words::lists;

/// Beginnings that must be alike in both words, since they are all that tells some terms apart.
const BEGINNINGS: &[(&str, &str)] = &[
    ("hyper", "hypo"),
    ("intra", "inter"),
    ("endo", "exo"),
    ("mito", "meio"),
    ("homo", "hetero"),
    ("auto", "hetero"),
    ("ana", "cata"),
    ("un", "in"),
    ("ad", "ab"),
    ("pro", "pre"),
    ("mono", "di"),
];

/// Endings that must be alike in both words: enzymes and sugars, acids and their salts, forms of ions.
const ENDINGS: &[&str] = &["ase", "ose", "ine", "ide", "ite", "ate", "ene", "ane", "ol", "al", "ic"];

/// The one word that this is a slip of: it begins with the same letter, is at most one letter off (two from eight letters
/// on), and no other word is as near. `None` where there is none.
pub(crate) fn nearest<'a>(word: &str, targets: &'a BTreeSet<String>) -> Option<&'a str> {
    let length = word.chars().count();
    let most = match length {
        0..=4 => return None,
        5..=7 => 1,
        _ => 2,
    };
    let first = word.chars().next()?;
    let mut best: Option<(usize, &str)> = None;
    let mut tied = false;
    for target in targets {
        if !target.starts_with(first) || target.chars().count().abs_diff(length) > most || target.chars().count() < 5 {
            continue;
        }
        let distance = osa_distance(word, target);
        if distance > most {
            continue;
        }
        match best {
            Some((least, _)) if distance > least => {}
            Some((least, other)) if distance == least => tied = tied || !same_family(other, target),
            _ => {
                best = Some((distance, target));
                tied = false;
            }
        }
    }
    let (_, target) = best?;
    (!tied && may_be(word, target)).then_some(target)
}

/// Whether a slip is as near to another term that lies close to this one: "hypetonic" is neither hypertonic nor hypotonic.
pub(crate) fn as_near_another(word: &str, target: &str) -> bool {
    let distance = osa_distance(word, target);
    lists().terms.iter().any(|term| {
        *term != target
            && term.chars().next() == word.chars().next()
            && !same_family(term, target)
            && osa_distance(word, term) <= distance
    })
}

/// The word with the consonant doubled before its ending: "choped" is "chopped".
pub(crate) fn doubled(word: &str) -> Option<String> {
    ["ed", "ing", "er", "est"].iter().find_map(|ending| {
        let base = word.strip_suffix(ending)?;
        let last = base.chars().next_back().filter(|letter| !"aeiouywx".contains(*letter))?;
        let single = !base.trim_end_matches(last).is_empty() && !base.ends_with(&format!("{last}{last}"));
        (single && base.chars().count() > 2).then(|| format!("{base}{last}{ending}"))
    })
}

/// Words by how they sound.
pub(crate) type Sounds = BTreeMap<String, Vec<String>>;

/// Least letters of a sound by which a word is known.
const SOUND: usize = 3;

/// Words by how they sound.
pub(crate) fn sounds(targets: &BTreeSet<String>) -> Sounds {
    let mut all = Sounds::new();
    for target in targets.iter().filter(|target| target.chars().count() > 3) {
        all.entry(sound(target)).or_default().push(target.clone());
    }
    all
}

/// The one word that sounds like this one ("qwencher", "membrain"). `None` where there is none, or several.
pub(crate) fn alike<'a>(word: &str, sounds: &'a Sounds) -> Option<&'a str> {
    let code = sound(word);
    if word.chars().count() < 4 || code.chars().count() < SOUND {
        return None;
    }
    let words = sounds.get(&code)?;
    let near = |target: &String| osa_distance(word, target);
    let best = words.iter().min_by_key(|target| near(target))?;
    let tied = words.iter().any(|other| near(other) == near(best) && !same_family(other, best));
    (!tied && may_be(word, best)).then_some(best)
}

/// How a word sounds: its consonants, and the vowel that it begins with.
fn sound(word: &str) -> String {
    const RULES: &[(&str, &str)] = &[
        ("tion", "xn"),
        ("sion", "xn"),
        ("shun", "xn"),
        ("ph", "f"),
        ("qu", "k"),
        ("qw", "k"),
        ("kw", "k"),
        ("ch", "ċ"),
        ("sh", "x"),
        ("ck", "k"),
        ("wh", "w"),
        ("wr", "r"),
        ("kn", "n"),
        ("igh", "i"),
        ("ce", "se"),
        ("ci", "si"),
        ("cy", "sy"),
        ("c", "k"),
        ("q", "k"),
        ("z", "s"),
    ];
    let plain = RULES.iter().fold(word.to_owned(), |word, (from, to)| word.replace(from, to));
    let mut code = String::new();
    for (place, letter) in plain.chars().enumerate() {
        let vowel = "aeiouy".contains(letter);
        if (vowel && place > 0) || code.ends_with(letter) {
            continue;
        }
        code.push(if vowel { 'a' } else { letter });
    }
    code
}

/// Forms of one word ("enters", "entered") are no tie.
fn same_family(one: &str, other: &str) -> bool {
    let shared = one.chars().zip(other.chars()).take_while(|(a, b)| a == b).count();
    shared + 2 >= one.chars().count().min(other.chars().count())
}

/// Whether the slip leaves untouched what tells terms apart.
fn may_be(word: &str, target: &str) -> bool {
    let clash = |one: &str, other: &str| word.starts_with(one) && target.starts_with(other);
    if BEGINNINGS.iter().any(|(one, other)| clash(one, other) || clash(other, one)) {
        return false;
    }
    let ending = |text: &str| ENDINGS.iter().find(|ending| text.ends_with(**ending)).copied();
    match (ending(word), ending(target)) {
        (Some(one), Some(other)) => one == other,
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(word: &str, targets: &[&str], expected: Option<&str>) {
        let targets: BTreeSet<String> = targets.iter().map(|word| (*word).to_owned()).collect();
        assert_eq!(nearest(word, &targets), expected, "{word}");
    }

    #[test]
    fn mends_slips() {
        case("absorbence", &["absorbance"], Some("absorbance"));
        case("temprature", &["temperature"], Some("temperature"));
        case("flourescence", &["fluorescence"], Some("fluorescence"));
        case("enzime", &["enzyme"], Some("enzyme"));
        case("hypertonik", &["hypertonic", "hypotonic"], Some("hypertonic"));
        case("permeabilty", &["permeability"], Some("permeability"));
    }

    #[test]
    fn knows_words_by_their_sound() {
        let targets: BTreeSet<String> = ["quencher", "membrane", "sight", "site"].map(str::to_owned).into();
        let all = sounds(&targets);
        assert_eq!(alike("qwencher", &all), Some("quencher"));
        assert_eq!(alike("membrain", &all), Some("membrane"));
        // Too little of a sound to tell.
        assert_eq!(alike("sait", &all), None);
        let twins: BTreeSet<String> = ["ligase", "lyguse"].map(str::to_owned).into();
        assert!(alike("ligose", &sounds(&twins)).is_none(), "two that sound alike and are as near");
    }

    #[test]
    fn doubles_the_consonant_before_an_ending() {
        for (word, right) in [("choped", "chopped"), ("cuting", "cutting"), ("thiner", "thinner")] {
            assert_eq!(doubled(word).as_deref(), Some(right));
        }
        assert_eq!(doubled("chopped"), None, "it is doubled already");
        assert_eq!(doubled("freed"), None, "a vowel stands before the ending");
    }

    #[test]
    fn a_slip_of_two_terms_is_neither() {
        assert!(as_near_another("hypetonic", "hypotonic"), "hypertonic is as near");
        assert!(!as_near_another("hypertonik", "hypertonic"));
        assert!(!as_near_another("membrain", "membrane"));
    }

    #[test]
    fn never_turns_one_term_into_another() {
        case("hypotonic", &["hypertonic"], None);
        case("hyprtonic", &["hypertonic", "hypotonic"], None);
        case("intercellular", &["intracellular"], None);
        case("maltose", &["maltase"], None);
        case("lactase", &["lactose"], None);
        case("meiosis", &["mitosis"], None);
        case("uptake", &["intake"], None);
        case("right", &["light"], None);
        case("sites", &["sides"], Some("sides"));
        case("rat", &["rate"], None);
    }
}
