//! Sentences of Markdown or plain text, with the lines on which they begin.

/// A sentence without marks of emphasis.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Sentence {
    pub(super) text: String,
    /// Counted from 1.
    pub(super) line: u32,
}

/// Words before a full stop that end no sentence.
const ABBREVIATIONS: &[&str] = &["e.g", "i.e", "approx", "fig", "vs", "cf", "ca", "no", "dr", "st", "sp", "al"];
/// Longest sentence: a text without full stops is cut.
const LONGEST: usize = 1500;

/// The sentences of a text that begins on this line. A heading, a cell of a table and an item of a list end a sentence.
pub(super) fn of(text: &str, line: u32) -> Vec<Sentence> {
    let mut found = Vec::new();
    let mut open = Sentence { text: String::new(), line };
    for (raw, number) in text.lines().zip(line..) {
        let trimmed = raw.trim();
        if trimmed.is_empty() || starts_block(trimmed) {
            close(&mut open, &mut found);
        }
        if trimmed.starts_with('|') {
            for cell in trimmed.split('|') {
                add(&mut open, cell, number, &mut found);
                close(&mut open, &mut found);
            }
            continue;
        }
        add(&mut open, trimmed.trim_start_matches(['#', '>', ' ']), number, &mut found);
        if trimmed.starts_with('#') {
            close(&mut open, &mut found);
        }
    }
    close(&mut open, &mut found);
    found
}

fn starts_block(line: &str) -> bool {
    let digits = line.trim_start_matches(|c: char| c.is_ascii_digit());
    let numbered = digits.len() < line.len() && (digits.starts_with(". ") || digits.starts_with(") "));
    numbered
        || line.starts_with(['#', '|', '>', '('])
        || ["- ", "* ", "+ ", "!["].iter().any(|mark| line.starts_with(mark))
}

/// Adds a stretch of a line, and closes every sentence that ends in it.
fn add(open: &mut Sentence, stretch: &str, line: u32, found: &mut Vec<Sentence>) {
    let stretch = stretch.trim();
    if stretch.is_empty() {
        return;
    }
    if open.text.is_empty() {
        open.line = line;
    } else {
        open.text.push(' ');
    }
    let mut letters = stretch.chars().peekable();
    while let Some(letter) = letters.next() {
        if !matches!(letter, '*' | '_' | '`') {
            open.text.push(letter);
        }
        let ends = matches!(letter, '.' | '?' | '!' | ';') && letters.peek().is_none_or(|next| next.is_whitespace());
        if (ends && !(letter == '.' && abbreviates(&open.text))) || open.text.len() > LONGEST {
            close(open, found);
            open.line = line;
        }
    }
}

fn abbreviates(text: &str) -> bool {
    let last = text.trim_end_matches('.').rsplit([' ', '(']).next().unwrap_or_default().to_lowercase();
    ABBREVIATIONS.contains(&last.as_str()) || (last.len() == 1 && last.chars().all(char::is_alphabetic))
}

fn close(open: &mut Sentence, found: &mut Vec<Sentence>) {
    let text = std::mem::take(&mut open.text);
    let text = text.trim();
    if text.chars().filter(|c| c.is_alphabetic()).count() > 2 {
        found.push(Sentence { text: text.to_owned(), line: open.line });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_know_their_lines() {
        let text = "# Title\n\nWater **leaves** it. The cell\nshrinks, e.g. by half.\n\n- first\n- second\n\n| a cell | 0.3 |\n";
        let found: Vec<(String, u32)> = of(text, 5).into_iter().map(|one| (one.text, one.line)).collect();
        let expected = [
            ("Title", 5),
            ("Water leaves it.", 7),
            ("The cell shrinks, e.g. by half.", 7),
            ("- first", 10),
            ("- second", 11),
            ("a cell", 13),
        ];
        assert_eq!(found, expected.map(|(text, line)| (text.to_owned(), line)));
    }
}
