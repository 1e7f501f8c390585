//! Words, marks and sentences of a text, each with its place.

use std::ops::Range;

use unicode_segmentation::UnicodeSegmentation as _;

use crate::review::words;

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Word,
    Mark,
}

/// A word or a mark; its place in bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Token {
    pub(crate) bytes: Range<usize>,
    /// In lower case, typographic apostrophes made plain.
    pub(crate) lower: String,
    pub(crate) kind: Kind,
}

/// A sentence; its place in bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Sentence {
    pub(crate) bytes: Range<usize>,
    /// It stands in a list.
    pub(crate) bullet: bool,
}

/// The tokens of a text in order. "didn't" comes apart into "did" and "not", so that the negation is a word.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    for (start, piece) in text.split_word_bound_indices() {
        if piece.trim().is_empty() {
            continue;
        }
        let bytes = start..start + piece.len();
        let lower = piece.to_lowercase().replace('’', "'");
        let is_word = piece.chars().any(char::is_alphanumeric);
        let kind = if is_word { Kind::Word } else { Kind::Mark };
        let arrow = matches!((tokens.last().map(|last| last.lower.as_str()), lower.as_str()), (Some("-" | "="), ">"));
        let joins = tokens.last().is_some_and(|last| last.bytes.end == start);
        match tokens.last_mut() {
            // "->" and "=>" are one mark; so is "Na+".
            Some(last) if arrow && joins => {
                last.lower.push('>');
                last.bytes.end = bytes.end;
            }
            Some(last) if joins && lower == "+" && is_ion(&last.lower) => {
                last.lower.push('+');
                last.bytes.end = bytes.end;
            }
            _ => apart(bytes, &lower, kind, &mut tokens),
        }
    }
    symbols(text, without_hyphens(tokens))
}

/// Whether a word with a plus sign is an ion.
fn is_ion(word: &str) -> bool {
    matches!(word, "h" | "k" | "na" | "mg2" | "ca2" | "li" | "nh4")
}

/// "half-life" as "half life".
fn without_hyphens(tokens: Vec<Token>) -> Vec<Token> {
    let word = |token: Option<&Token>| token.is_some_and(|token| token.lower.chars().all(char::is_alphabetic));
    let hyphen = |at: usize| {
        let (before, own) = (at.checked_sub(1).and_then(|before| tokens.get(before)), tokens.get(at));
        let after = tokens.get(at + 1);
        let touch = |one: Option<&Token>, other: Option<&Token>| {
            one.zip(other).is_some_and(|(one, other)| one.bytes.end == other.bytes.start)
        };
        own.is_some_and(|own| own.lower == "-")
            && word(before)
            && word(after)
            && touch(before, own)
            && touch(own, after)
    };
    let kept: Vec<bool> = (0..tokens.len()).map(|at| !hyphen(at)).collect();
    tokens.into_iter().zip(kept).filter_map(|(token, kept)| kept.then_some(token)).collect()
}

/// Makes one token of a symbol: "[S]" with its brackets, and a capital "A" where no noun can follow it.
fn symbols(text: &str, tokens: Vec<Token>) -> Vec<Token> {
    let mut made: Vec<Token> = Vec::new();
    let mut rest = tokens.into_iter().peekable();
    let mut after: Option<Token> = rest.next();
    while let Some(mut token) = after {
        after = rest.next();
        let next = after.as_ref().map_or("", |next| next.lower.as_str());
        let moves =
            ["is", "=", "↑", "↓", "up", "down", "rises", "falls", "goes", "drops", "increases", "decreases", "gets"];
        let closed = next.chars().any(char::is_alphanumeric) && rest.peek().is_some_and(|last| last.lower == "]");
        if token.lower == "[" && closed {
            if let (Some(inner), Some(last)) = (after.take(), rest.next()) {
                token = Token {
                    bytes: token.bytes.start..last.bytes.end,
                    lower: format!("[{}]", inner.lower),
                    kind: Kind::Word,
                };
            }
            after = rest.next();
        } else if text.get(token.bytes.clone()) == Some("A") && moves.contains(&next) {
            "[a]".clone_into(&mut token.lower);
        }
        made.push(token);
    }
    made
}

/// Verbs that hang on their subject: "they're", "it'll".
const JOINED: &[(&str, &str)] = &[("'re", "are"), ("'ve", "have"), ("'ll", "will"), ("'d", "would"), ("'m", "am")];

/// The same without the apostrophe.
const SLIPS: &[(&str, &str, &str)] = &[
    ("theyre", "they", "are"),
    ("theres", "there", "is"),
    ("thats", "that", "is"),
    ("itll", "it", "will"),
    ("youre", "you", "are"),
    ("whats", "what", "is"),
];

/// Adds a token; one that ends in "n't" or in a joined verb as two.
fn apart(bytes: Range<usize>, lower: &str, kind: Kind, tokens: &mut Vec<Token>) {
    let contracted = lower.strip_suffix("n't").or_else(|| {
        ["dont", "doesnt", "dosnt", "didnt", "isnt", "arent", "wont", "cant", "wasnt", "hasnt", "wouldnt", "couldnt"]
            .contains(&lower)
            .then(|| lower.trim_end_matches("nt"))
    });
    if let Some(stem) = contracted {
        let stem = match stem {
            "ca" => "can",
            "wo" => "will",
            other => other,
        };
        tokens.push(Token { bytes: bytes.clone(), lower: stem.to_owned(), kind });
        tokens.push(Token { bytes, lower: "not".to_owned(), kind });
    } else {
        let lower = lower.strip_suffix("'s").unwrap_or(lower);
        let joined = JOINED.iter().find_map(|(end, verb)| Some((lower.strip_suffix(end)?, *verb)));
        let slip = SLIPS.iter().find(|(slip, ..)| *slip == lower).map(|(_, subject, verb)| (*subject, *verb));
        match joined.or(slip).filter(|(subject, _)| !subject.is_empty()) {
            Some((subject, verb)) => {
                tokens.push(Token { bytes: bytes.clone(), lower: subject.to_owned(), kind });
                tokens.push(Token { bytes, lower: verb.to_owned(), kind });
            }
            // "a higher %" without a number before it.
            None if lower == "%"
                && !tokens.last().is_some_and(|last| last.lower.ends_with(|end: char| end.is_ascii_digit())) =>
            {
                tokens.push(Token { bytes, lower: "percentage".to_owned(), kind: Kind::Word });
            }
            None => tokens.push(Token { bytes, lower: lower.to_owned(), kind }),
        }
    }
}

/// The sentences of a text: a line that begins like an item of a list is one of its own.
pub(crate) fn sentences(text: &str) -> Vec<Sentence> {
    let mut sentences = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let start = at;
        at += line.len();
        let lead = line.len() - line.trim_start().len();
        let mark = bullet(line.trim_start());
        let from = start + lead + mark.unwrap_or(0);
        let within = text.get(from..start + line.trim_end().len().max(lead + mark.unwrap_or(0))).unwrap_or_default();
        for bytes in split(within, from) {
            sentences.push(Sentence { bytes, bullet: mark.is_some() });
        }
    }
    sentences
}

/// How long the mark of a list's item is.
fn bullet(line: &str) -> Option<usize> {
    for mark in ["- ", "* ", "• ", "– ", "+ ", "•"] {
        if line.starts_with(mark) {
            return Some(mark.len());
        }
    }
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let rest = line.get(digits..)?;
    ((1..=2).contains(&digits) && (rest.starts_with(". ") || rest.starts_with(") "))).then_some(digits + 2)
}

/// The sentences of one line: by the rules of Unicode, mended for abbreviations and for a space left out after a stop.
fn split(line: &str, offset: usize) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut open: Option<Range<usize>> = None;
    for (start, piece) in line.split_sentence_bound_indices() {
        let mut range = open.take().map_or(start..start + piece.len(), |before| before.start..start + piece.len());
        let ends_short = piece.trim_end().rsplit([' ', '(']).next().is_some_and(|word| {
            let word = word.to_lowercase();
            words::lists().abbreviations.contains(&word.as_str())
        });
        let goes_on =
            line.get(range.end..).and_then(|rest| rest.trim_start().chars().next()).is_some_and(|c| !c.is_uppercase());
        let always = ["e.g.", "i.e.", "cf.", "fig.", "vs.", "approx."]
            .iter()
            .any(|word| piece.trim_end().to_lowercase().ends_with(word));
        if ends_short && range.end < line.len() && (goes_on || always) {
            open = Some(range);
            continue;
        }
        while let Some(cut) = missing_space(line.get(range.clone()).unwrap_or_default()) {
            found.push(range.start..range.start + cut);
            range.start += cut;
        }
        found.push(range);
    }
    found.extend(open);
    let trimmed = found.into_iter().filter_map(|range| {
        let text = line.get(range.clone())?;
        let lead = text.len() - text.trim_start().len();
        let body = text.trim();
        (!body.is_empty()).then(|| offset + range.start + lead..offset + range.start + lead + body.len())
    });
    trimmed.collect()
}

/// Where a sentence begins without a space: "falls.It".
fn missing_space(text: &str) -> Option<usize> {
    let mut before: [char; 3] = [' '; 3];
    let mut letters = text.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let next = letters.peek().map(|(_, next)| *next);
        if letter == '.' && before.iter().all(|c| c.is_lowercase()) && next.is_some_and(char::is_uppercase) {
            return Some(at + 1);
        }
        before = [before[1], before[2], letter];
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn cut(text: &str, expected: &[&str]) {
        let got: Vec<&str> =
            sentences(text).iter().map(|one| text.get(one.bytes.clone()).unwrap_or_default()).collect();
        assert_eq!(got, expected);
    }

    #[test]
    fn sentences_end_where_they_end() {
        cut("It falls. It is 7.4.", &["It falls.", "It is 7.4."]);
        cut("It falls.It then rises", &["It falls.", "It then rises"]);
        cut("Sugars, e.g. Glucose, enter.", &["Sugars, e.g. Glucose, enter."]);
        cut("E. coli grows in approx. 20 min.", &["E. coli grows in approx. 20 min."]);
        cut("- one\n- two", &["one", "two"]);
        cut("1. one\n2) two\n\nthree", &["one", "two", "three"]);
        cut("", &[]);
        cut("  \n ", &[]);
    }

    #[track_caller]
    fn words(text: &str, expected: &str) {
        let got: Vec<String> = tokens(text).into_iter().map(|token| token.lower).collect();
        assert_eq!(got.join(" "), expected);
    }

    #[test]
    fn words_come_apart() {
        words("It didn’t rise.", "it did not rise .");
        words("It cant -> falls", "it can not -> falls");
        words("H+ and the cell's pH", "h+ and the cell ph");
        words("can't won't", "can not will not");
    }
}
