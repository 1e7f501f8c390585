//! A text divided at its questions: a whole old paper becomes one item a question, anything else is one item.

/// A question of a text, or the whole text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Question<'a> {
    /// Its number, where the text holds several.
    pub(super) part: Option<String>,
    /// Its first words, or the title of the text.
    pub(super) title: String,
    pub(super) text: &'a str,
    /// Line of the file on which it begins, counted from 1.
    pub(super) line: u32,
}

/// Words that may stand before the number of a question.
const BEFORE: &[&str] = &["question", "problem", "task", "item", "exercise", "q"];
/// Characters of a title.
const TITLE: usize = 60;

/// Where a numbered question may begin.
struct Start {
    number: u32,
    /// A word says that it is a question; then no more proof is needed.
    named: bool,
    byte: usize,
    line: u32,
}

/// The questions. Lines that begin with 1, 2, 3 … divide the text where a word (`Question 2`) says so or where most of the
/// stretches ask something: the steps of a procedure do not.
pub(super) fn questions(text: &str) -> Vec<Question<'_>> {
    let starts = starts(text);
    let ends: Vec<usize> = starts.iter().skip(1).map(|start| start.byte).chain([text.len()]).collect();
    let stretches: Vec<&str> =
        starts.iter().zip(&ends).map(|(start, end)| text.get(start.byte..*end).unwrap_or_default()).collect();
    let n_asking = stretches.iter().filter(|stretch| asks(stretch)).count();
    let named = starts.iter().all(|start| start.named);
    let before = text.get(..starts.first().map_or(0, |start| start.byte)).unwrap_or_default();
    // Where something is asked before the first number, the numbers are not those of the questions.
    let numbered = 2 * n_asking > starts.len() && !asks(before);
    if starts.len() < 2 || !(named || numbered) {
        return vec![Question { part: None, title: title(text), text, line: 1 }];
    }
    let of = |(start, stretch): (&Start, &&'_ str)| (start.number, start.line, title_of(stretch));
    let mut found: Vec<Question<'_>> = starts
        .iter()
        .zip(&stretches)
        .map(|(start, stretch)| {
            let (number, line, title) = of((start, stretch));
            Question { part: Some(format!("question {number}")), title, text: stretch, line }
        })
        .collect();
    // A long text that stands before the first question is what the questions are about.
    if before.split_whitespace().count() > 40 {
        found.insert(
            0,
            Question { part: Some("before question 1".into()), title: title(before), text: before, line: 1 },
        );
    }
    found
}

/// Lines that begin with the next number, from 1.
fn starts(text: &str) -> Vec<Start> {
    let mut found: Vec<Start> = Vec::new();
    let mut byte = 0;
    for (raw, line) in text.split_inclusive('\n').zip(1..) {
        if let Some((number, named)) = number(raw)
            && number == u32::try_from(found.len()).unwrap_or(u32::MAX) + 1
        {
            found.push(Start { number, named, byte, line });
        }
        byte += raw.len();
    }
    found
}

/// The number with which a line begins, and whether a word says that it is a question's.
fn number(line: &str) -> Option<(u32, bool)> {
    if line.starts_with(' ') || line.starts_with('\t') {
        return None;
    }
    let is_heading = line.starts_with('#');
    let plain = line.trim_start_matches(['#', '*', '_', ' ']);
    let lower = plain.to_lowercase();
    let word = BEFORE.iter().find(|word| {
        lower.strip_prefix(**word).is_some_and(|rest| rest.trim_start().starts_with(|c: char| c.is_ascii_digit()))
    });
    let rest = word.map_or(lower.as_str(), |word| lower.strip_prefix(word).unwrap_or_default()).trim_start();
    let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
    if digits.len() > 3 {
        return None;
    }
    let after = rest.get(digits.len()..)?;
    let number = digits.parse().ok()?;
    let ends = after.starts_with(['.', ')', ':', '*']) && !after.starts_with(|c: char| c.is_ascii_digit());
    let decimal =
        after.starts_with('.') && after.get(1..).is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    let alone = after.trim().is_empty() || after.starts_with(' ');
    let named = word.is_some();
    (!decimal && (ends || ((named || is_heading) && alone))).then_some((number, named))
}

/// Whether a stretch asks something.
fn asks(stretch: &str) -> bool {
    if stretch.contains('?') {
        return true;
    }
    let mut starts = stretch.split(['.', '\n', ')', ':', '*']);
    starts.any(|sentence| {
        let first = sentence.split_whitespace().next().unwrap_or_default().to_lowercase();
        crate::coverage::skill(&first).is_some()
    })
}

/// The first heading, or the first line with words.
fn title(text: &str) -> String {
    let lines = || text.lines().map(str::trim).filter(|line| line.chars().any(char::is_alphabetic));
    lines().find(|line| line.starts_with('#')).or_else(|| lines().next()).map(plain).unwrap_or_default()
}

fn title_of(stretch: &str) -> String {
    stretch.lines().map(plain).find(|line| line.chars().filter(|c| c.is_alphabetic()).count() > 12).unwrap_or_default()
}

fn plain(line: &str) -> String {
    let line: String = line.chars().filter(|c| !matches!(c, '*' | '_' | '`')).collect();
    let line = line.trim_start_matches(|c: char| c == '#' || c == ' ' || c.is_ascii_digit() || matches!(c, '.' | ')'));
    let mut short: String = line.chars().take(TITLE).collect();
    if short.len() < line.len() {
        short.push('…');
    }
    short.trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[Option<&str>]) {
        let found = questions(text);
        assert_eq!(found.iter().map(|one| one.part.as_deref()).collect::<Vec<_>>(), expected, "{text}");
    }

    #[test]
    fn papers_are_divided_and_procedures_are_not() {
        case("1. Explain why it swells.\n\n2. Calculate the rate.\n", &[Some("question 1"), Some("question 2")]);
        case("## Question 1\nA cell.\n## Question 2\nA gel.\n", &[Some("question 1"), Some("question 2")]);
        case("Q1) What is pH?\nQ2) Why?\n", &[Some("question 1"), Some("question 2")]);
        case("1. Add buffer.\n2. Wait.\n3. Read the meter.\n", &[None]);
        case("A section about osmosis.\n\nMore of it.\n", &[None]);
        case("(a) **Explain** why.\n\n1. What is pH?\n2. Which way does it go?\n", &[None]);
        case("0.5 mol/L is added.\n1.5 more follows. Why?\n", &[None]);
        case("", &[None]);
        case("3. Explain this.\n4. Explain that.\n", &[None]);
    }

    #[test]
    fn titles_are_short_and_plain() {
        assert_eq!(title("\n# **Osmosis** in cells\ntext"), "Osmosis in cells");
        assert_eq!(questions("1. Explain why it swells.\n2. Calculate the rate.\n")[1].title, "Calculate the rate.");
    }
}
