//! Names by their words, so that a title can be held against thousands of them at once.

use std::collections::{BTreeMap, BTreeSet};

/// Letters from which on a word may differ by one.
const LONG: usize = 6;
/// Last words that a name may go without: a "western blot assay" is a western blot.
const GENERAL: &[&str] = &["assay", "technique", "method", "analysis"];

/// Names, indexed by word.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Words of each name, in order, as numbers of `words`.
    all: Vec<Vec<usize>>,
    /// Each word in the singular.
    words: Vec<String>,
    /// Number of each word.
    numbers: BTreeMap<String, usize>,
    /// Words by length in letters.
    by_length: BTreeMap<usize, Vec<usize>>,
    /// Names in which each word stands.
    uses: Vec<Vec<usize>>,
    /// Names without their spaces: "patchclamp" is "patch clamp".
    joined: BTreeMap<String, usize>,
}

impl Names {
    /// Takes each name apart.
    pub(super) fn new<'a>(names: impl Iterator<Item = &'a str>) -> Self {
        let mut all = Self::default();
        for name in names {
            let mut words = parts(name);
            all.add(&words);
            let general = words.pop().is_some_and(|last| GENERAL.contains(&last.as_str()));
            if general && words.len() > 1 {
                all.add(&words);
            }
        }
        all
    }

    fn add(&mut self, words: &[String]) {
        let place = self.all.len();
        self.joined.entry(words.concat()).or_insert(place);
        let numbers: Vec<usize> = words.iter().map(|word| self.number(word)).collect();
        for number in numbers.iter().collect::<BTreeSet<_>>() {
            if let Some(uses) = self.uses.get_mut(*number) {
                uses.push(place);
            }
        }
        self.all.push(numbers);
    }

    fn number(&mut self, word: &str) -> usize {
        if let Some(number) = self.numbers.get(word) {
            return *number;
        }
        let number = self.words.len();
        self.by_length.entry(word.chars().count()).or_default().push(number);
        self.numbers.insert(word.to_owned(), number);
        self.words.push(word.to_owned());
        self.uses.push(Vec::new());
        number
    }

    /// The name that the title is; or a name of several words that stands in it.
    pub(super) fn find(&self, title: &str) -> Option<String> {
        let words = parts(title);
        let near: Vec<BTreeSet<usize>> = words.iter().map(|word| self.near(word)).collect();
        for length in (1..=words.len()).rev() {
            for start in 0..=words.len() - length {
                let whole = length == words.len();
                let run = start..start + length;
                let joined = words.get(run.clone()).map(<[String]>::concat).unwrap_or_default();
                let same = near.get(run).and_then(|near| self.same_words(near));
                let found = same.or_else(|| self.joined.get(&joined).copied());
                let name = found.filter(|name| whole || self.all.get(*name).is_some_and(|words| words.len() > 1));
                if let Some(name) = name {
                    return Some(self.spelled(name));
                }
            }
        }
        None
    }

    fn spelled(&self, name: usize) -> String {
        let words = self.all.get(name).into_iter().flatten().filter_map(|word| self.words.get(*word));
        words.map(String::as_str).collect::<Vec<_>>().join(" ")
    }

    /// Numbers of the words that differ from this one by a letter at most.
    fn near(&self, word: &str) -> BTreeSet<usize> {
        let length = word.chars().count();
        let lengths = self.by_length.range(length.saturating_sub(1)..=length + 1);
        let all = lengths.flat_map(|(_, numbers)| numbers);
        all.filter(|number| self.words.get(**number).is_some_and(|other| alike(word, other))).copied().collect()
    }

    /// A name that has just these words, in any order.
    fn same_words(&self, near: &[BTreeSet<usize>]) -> Option<usize> {
        let n_uses = |words: &BTreeSet<usize>| -> usize {
            words.iter().filter_map(|word| self.uses.get(*word)).map(Vec::len).sum()
        };
        let rarest = near.iter().min_by_key(|words| n_uses(words))?;
        let candidates = rarest.iter().filter_map(|word| self.uses.get(*word)).flatten();
        candidates.copied().find(|name| self.all.get(*name).is_some_and(|words| pairs_up(words, near)))
    }
}

/// Whether each word can be paired with one place, and each place with one word.
fn pairs_up(words: &[usize], near: &[BTreeSet<usize>]) -> bool {
    let Some((first, rest)) = near.split_first() else { return words.is_empty() };
    words.len() == near.len()
        && words.iter().enumerate().any(|(place, word)| {
            let left = || [words.get(..place).unwrap_or_default(), words.get(place + 1..).unwrap_or_default()].concat();
            first.contains(word) && pairs_up(&left(), rest)
        })
}

/// Words in lower case and the singular; hyphens and other marks divide.
fn parts(name: &str) -> Vec<String> {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(|word| singular(&word.to_lowercase())).collect()
}

fn singular(word: &str) -> String {
    let kept = ["ss", "us", "is", "as"].iter().any(|end| word.ends_with(end)) || word.chars().count() < 4;
    if kept {
        return word.to_owned();
    }
    if let Some(stem) = word.strip_suffix("yses") {
        return format!("{stem}ysis");
    }
    if let Some(stem) = word.strip_suffix("eses") {
        return format!("{stem}esis");
    }
    if let Some(stem) = word.strip_suffix("ies") {
        return format!("{stem}y");
    }
    let es = ["sses", "xes", "ches", "shes"].iter().any(|end| word.ends_with(end));
    let cut = if es { word.strip_suffix("es") } else { word.strip_suffix('s') };
    cut.unwrap_or(word).to_owned()
}

/// The same word, or a long one with one letter more, less, other or swapped with its neighbour.
fn alike(one: &str, other: &str) -> bool {
    if one == other {
        return true;
    }
    let (a, b): (Vec<char>, Vec<char>) = (one.chars().collect(), other.chars().collect());
    let digits = |word: &[char]| word.iter().any(char::is_ascii_digit);
    if a.len().max(b.len()) < LONG || digits(&a) || digits(&b) {
        return false;
    }
    let same = a.iter().zip(&b).take_while(|(x, y)| x == y).count();
    let rest = |word: &[char], skip: usize| word.get(same + skip..).unwrap_or_default().to_vec();
    let swapped = a.get(same) == b.get(same + 1) && a.get(same + 1) == b.get(same) && rest(&a, 2) == rest(&b, 2);
    rest(&a, 1) == rest(&b, 1)
        || rest(&a, 0) == rest(&b, 1)
        || rest(&a, 1) == rest(&b, 0)
        || (swapped && a.len() == b.len() && same + 1 < a.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(title: &str, found: bool) {
        let names =
            ["gel electrophoresis", "Western blot", "immunoassay", "comet assay", "patch clamp assay", "cell sorting"];
        assert_eq!(Names::new(names.into_iter()).find(title).is_some(), found, "{title}");
    }

    #[test]
    fn a_name_is_known_in_any_dress() {
        case("Western blot", true);
        case("western blots", true);
        case("Blot, Western", true);
        case("Westren blot", true);
        case("Wetern-blot", true);
        case("Gel electrophoreses", true);
        case("Immuno-assay", true);
        case("Patchclamp", true);
        case("Electrophoresis gels", true);
        case("Patch-clamp", true);
    }

    #[test]
    fn a_name_of_several_words_is_known_inside_a_title() {
        case("Warmed gel-electrophoresis tank", true);
        case("Packed-comet assays", true);
        case("Sugared immunoassay wells", false);
        case("Cell-warming sorting tray", false);
    }

    #[test]
    fn other_names_are_new() {
        case("Western plot", false);
        case("Packed-lantern wells", false);
        case("Patch lamp", false);
        case("Blot", false);
        case("", false);
    }
}
