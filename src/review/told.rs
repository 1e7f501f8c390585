//! Phrases of a list in a text as it stands: whole words, whatever the case and the apostrophes.

use super::words::lists;

/// Words before a phrase within which a denial reaches it.
const REACH: usize = 6;
/// Endings that leave a phrase what it is: "interval", "intervals"; "overlap", "overlapping".
const ENDINGS: &[&str] =
    &["", "s", "es", "e", "d", "ed", "den", "ing", "ly", "y", "ies", "ped", "ping", "led", "ling", "'s", "s'"];

/// A text in lower case with straight apostrophes.
pub(super) struct Told(String);

impl Told {
    pub(super) fn of(text: &str) -> Self {
        Self(text.to_lowercase().replace('’', "'"))
    }

    /// Where a phrase of the list stands as words of their own, and which.
    fn places<'a>(&'a self, list: &'a [&str]) -> impl Iterator<Item = (usize, &'a str)> + 'a {
        let all = list.iter().flat_map(|phrase| self.0.match_indices(phrase).map(move |(at, _)| (at, *phrase)));
        all.filter(|(at, phrase)| {
            // "n't matter" ends a word that begins before it.
            let open =
                phrase.starts_with("n't") || !self.0.get(..*at).is_some_and(|before| before.ends_with(is_letter));
            let rest = self.0.get(at + phrase.len()..).unwrap_or_default();
            let end = rest.find(|letter| !is_letter(letter)).unwrap_or(rest.len());
            open && ENDINGS.contains(&rest.get(..end).unwrap_or_default())
        })
    }

    /// Whether it has a phrase of the list.
    pub(super) fn has(&self, list: &[&str]) -> bool {
        self.places(list).next().is_some()
    }

    /// Whether it has one that is not denied.
    pub(super) fn affirms(&self, list: &[&str]) -> bool {
        self.places(list).any(|(at, phrase)| !self.denied(at) && !self.quoted(at, phrase))
    }

    /// Whether it has one that is denied.
    pub(super) fn denies(&self, list: &[&str]) -> bool {
        self.places(list).any(|(at, phrase)| self.denied(at) && !self.quoted(at, phrase))
    }

    /// Whether a denial stands close before a place: "nor shows that there is no difference".
    fn denied(&self, at: usize) -> bool {
        let before = self.0.get(..at).unwrap_or_default();
        let clause = before.rsplit(['.', ',', ';', ':']).next().unwrap_or_default();
        // "Because they don't overlap the claim is supported": what does not overlap.
        let clause = clause.rsplit_once("overlap ").map_or(clause, |(_, since)| since);
        // "That is not enough, so really there is no difference", also without the comma: what follows is no longer denied.
        let clause =
            clause.rsplit_once(" so ").filter(|(before, _)| !ends_denied(before)).map_or(clause, |(_, since)| since);
        let mut words = clause.split_whitespace().rev().take(REACH);
        words.any(|word| lists().denials.contains(&word) || word.ends_with("n't"))
    }

    /// Whether a place lies in the claim that is told again before its verdict: "the claim that they are the same is rejected".
    fn quoted(&self, at: usize, phrase: &str) -> bool {
        let before = self.0.get(..at).unwrap_or_default();
        let Some((_, since)) = before.rsplit_once("claim that ") else { return false };
        let until = Self(format!("{since}{phrase}"));
        !since.contains(['.', ';']) && !until.has(&lists().verdicts)
    }
}

/// Whether a denial stands last: "not so different" is denied as a whole.
fn ends_denied(text: &str) -> bool {
    text.split_whitespace().next_back().is_some_and(|word| lists().denials.contains(&word) || word.ends_with("n't"))
}

fn is_letter(letter: char) -> bool {
    letter.is_alphabetic() || letter == '\''
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn has(text: &str, list: &[&str], expected: bool) {
        assert_eq!(Told::of(text).has(list), expected, "{text}");
    }

    #[test]
    fn phrases_are_whole_words() {
        has("It encounters dye.", &["counter"], false);
        has("The first is overcome.", &["is over"], false);
        has("It meets many more of them.", &["any more"], false);
        has("Nevertheless it falls.", &["never"], false);
        has("It seems barely so.", &["sem", "bar"], false);
        has("The bars overlapping, they meet.", &["overlap"], true);
        has("It doesn’t matter.", &["n't matter"], true);
        has("It CAN’T act.", &["can't"], true);
    }

    #[test]
    fn a_denial_reaches_what_follows() {
        let text = Told::of("There is no significant difference.");
        assert!(text.denies(&["significant"]) && !text.affirms(&["significant"]));
        assert!(Told::of("We fail to reject it.").denies(&["reject"]));
        assert!(Told::of("It is not so. They differ.").affirms(&["differ"]));
        let text = Told::of("Ten pots are not enough so really there is no change.");
        assert!(text.affirms(&["there is no change"]));
        assert!(Told::of("They are not so different.").denies(&["different"]));
        let text = Told::of("Because the bars don't overlap the claim is supported.");
        assert!(text.affirms(&["is supported"]) && !text.denies(&["is supported"]));
    }

    #[test]
    fn a_claim_told_again_is_no_verdict() {
        let text = Told::of("The claim that the shares are the same is rejected.");
        assert!(!text.affirms(&["are the same"]) && text.affirms(&["reject"]));
    }
}
