//! Syllables of an English word, by its letters.
//!
//! A rule of thumb, as every count without a dictionary is. `tests/proofread.rs` holds it against the CMU Pronouncing
//! Dictionary over the words of the scenarios.

/// Syllables of a word; 1 for a number or a unit.
pub fn syllables(word: &str) -> usize {
    let lower = word.to_lowercase().replace(|c: char| !c.is_alphabetic(), "");
    let known =
        ODD.iter().find(|(odd, _)| lower.strip_prefix(odd).is_some_and(|ending| matches!(ending, "" | "s" | "ed")));
    known.map_or_else(|| by_rule(&lower), |(_, n)| *n)
}

/// Words that the rules get wrong.
const ODD: &[(&str, usize)] = &[
    ("science", 2),
    ("museum", 3),
    ("idea", 3),
    ("area", 3),
    ("being", 2),
    ("create", 2),
    ("theatre", 3),
    ("fluid", 2),
    ("ruin", 2),
    ("guard", 1),
    ("tongue", 1),
    ("business", 2),
    ("evening", 2),
    ("cushion", 2),
    ("recipe", 3),
    ("people", 2),
    ("beyond", 2),
    ("embryo", 3),
    ("laboratory", 4),
    ("average", 2),
    ("averaged", 2),
    ("layer", 2),
    ("colour", 2),
    ("ion", 2),
    ("real", 1),
    ("therefore", 2),
    ("everybody", 4),
    ("complementary", 4),
    ("permeability", 6),
    ("beforehand", 3),
    ("anyone", 3),
    ("protease", 3),
    ("usual", 3),
];

/// Openings of compounds whose final e is silent.
const COMPOUNDS: &[&str] =
    &["some", "every", "before", "else", "lime", "there", "where", "white", "side", "fire", "life"];

fn by_rule(word: &str) -> usize {
    let mut n = groups(word) + hiatus(word);
    let rest = COMPOUNDS.iter().find_map(|first| word.strip_prefix(first)).filter(|rest| rest.len() >= 3);
    // "limestone": the e inside is silent; "every" has two syllables wherever it stands.
    if rest.is_some_and(|rest| !rest.starts_with(is_vowel) || word.starts_with("every")) {
        n = n.saturating_sub(1);
    }
    n = n.saturating_sub(silent_end(word)).saturating_sub(silent_inside(word));
    n.max(1)
}

fn is_vowel(letter: char) -> bool {
    matches!(letter, 'a' | 'e' | 'i' | 'o' | 'u' | 'y' | 'é')
}

/// Runs of vowels; y at the start and u after q are none.
fn groups(word: &str) -> usize {
    let mut n = 0;
    let (mut before, mut inside) = (' ', false);
    for letter in word.chars() {
        let consonant = (letter == 'y' && before == ' ') || (letter == 'u' && before == 'q');
        let vowel = is_vowel(letter) && !consonant;
        if vowel && !inside {
            n += 1;
        }
        inside = vowel;
        before = letter;
    }
    n
}

/// Neighbouring vowels that are spoken apart.
fn hiatus(word: &str) -> usize {
    const APART: &[&str] =
        &["ia", "io", "ua", "uou", "iu", "eo", "react", "oeffi", "ying", "uing", "eing", "oing", "iet", "ier", "inear"];
    const TOGETHER: &[&str] = &[
        "tia", "cia", "gia", "tio", "sio", "cio", "gio", "xio", "shio", "chio", "qua", "gua", "sua", "eou", "eon",
        "people", "nion", "oying", "aying", "eying", "ssua", "tier", "fier", "quie", "lian",
    ];
    let apart: usize = APART.iter().map(|pattern| word.matches(pattern).count()).sum();
    let together: usize = TOGETHER.iter().map(|pattern| word.matches(pattern).count()).sum();
    let ends = usize::from(word.ends_with("ism") || word.ends_with("thm"));
    apart.saturating_sub(together) + ends
}

/// A silent e at the end: "made", "rates", "moved".
fn silent_end(word: &str) -> usize {
    let letters: Vec<char> = word.chars().rev().take(4).collect();
    let at = |place: usize| letters.get(place).copied().unwrap_or(' ');
    let silent = match (at(0), at(1)) {
        // "table", "metre": the l or r makes a syllable of its own.
        ('e', 'l' | 'r') => is_vowel(at(2)) || at(2) == 'r' || at(2) == 'l',
        ('e', before) => !is_vowel(before) || is_vowel(at(2)),
        ('s', 'e') => match at(2) {
            'l' | 'r' => is_vowel(at(3)) || at(3) == 'r' || at(3) == 'l',
            'h' => !matches!(at(3), 's' | 'c'),
            before => !is_vowel(before) && !matches!(before, 's' | 'x' | 'z' | 'c' | 'g'),
        },
        ('d', 'e') => match at(2) {
            'l' | 'r' => is_vowel(at(3)) || at(3) == 'r' || at(3) == 'l',
            before => !is_vowel(before) && !matches!(before, 't' | 'd'),
        },
        _ => false,
    };
    usize::from(silent && groups(word) > 1)
}

/// A silent e before an ending: "safely", "careful", "movement".
fn silent_inside(word: &str) -> usize {
    const ENDINGS: &[&str] = &["ely", "eful", "eless", "eness", "ement", "ements", "ehand", "esome"];
    let before = ENDINGS.iter().find_map(|ending| word.strip_suffix(ending));
    let silent = before.is_some_and(|before| {
        let mut back = before.chars().rev();
        let consonant = back.next().is_some_and(|letter| !is_vowel(letter) && letter != 'l');
        consonant && groups(before) >= 1 && !before.ends_with("compl") && !before.ends_with("suppl")
    });
    usize::from(silent)
}
