//! How long a wording is before its placeholders are filled. **Must not know**: what fills them.

/// Words of a wording, at least: a placeholder is one, but the levels are five with "and" and a unit, and a law's number
/// has a unit as well.
pub fn least_words(text: &str) -> usize {
    let mut n_words = 0;
    let mut inside = false;
    for word in text.split_whitespace() {
        n_words += match (inside, word) {
            (true, "levels") => 5,
            (true, word) if word.starts_with("p.") => 1,
            (false, _) => 1,
            _ => 0,
        };
        inside = (inside || word.contains("{{")) && !word.contains("}}");
    }
    n_words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: usize) {
        assert_eq!(least_words(text), expected);
    }

    #[test]
    fn a_placeholder_counts_as_what_fills_it() {
        case("", 0);
        case("Sacs are made.", 3);
        case("The {{ vesicle.many }} are made.", 4);
        case("They hold {{ levels }}.", 8);
        case("For {{ p.time }} only.", 4);
    }
}
