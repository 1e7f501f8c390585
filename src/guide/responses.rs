//! Responses: Markdown by part, or a list of `{id, text}` in JSON or YAML.

use serde::Deserialize;

use super::{GuideError, options};
use crate::review::Response;

const HINT: &str =
    "responses are Markdown with a part's label before each answer, as `(a) …`, or a list `[{id, text}]`";

/// Characters of one answer at most, many times what an exam has room for.
const MOST_CHARACTERS: usize = 20_000;

#[derive(Debug, Deserialize)]
#[serde(transparent)]
struct Written(Vec<Response>);

/// Reads responses. Markdown: an answer begins with `(a)` at the start of a line, or under a heading that is its id
/// (`## a`, `## Part a`, `## Sara`); a text without either is one response of the id `answer`.
///
/// # Errors
/// A list of another shape, with its place; a text without an answer; two answers of one id; one that is far too long.
pub fn responses(text: &str, is_list: bool) -> Result<Vec<Response>, GuideError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let found = if is_list || text.trim_start().starts_with('[') && serde_json::from_str::<Written>(text).is_ok() {
        let written: Written =
            serde_yaml::from_str_with_options(text, options()).map_err(|error| GuideError::of_yaml(&error, HINT))?;
        written.0
    } else {
        markdown(text)
    };
    if found.is_empty() {
        return Err(GuideError::new(1, "there is no response", HINT));
    }
    for (place, response) in found.iter().enumerate() {
        let length = response.text.chars().count();
        if length > MOST_CHARACTERS {
            let start: String = response.text.lines().next().unwrap_or_default().chars().take(20).collect();
            let line = text.lines().position(|line| line.contains(&start)).map_or(1, |line| line + 1);
            let message = format!("the response `{}` has {length} characters", response.id);
            return Err(GuideError::new(line, message, format!("a response has at most {MOST_CHARACTERS}")));
        }
        if found.iter().take(place).any(|other| other.id == response.id) {
            let line = text.lines().position(|line| line.contains(&response.id)).map_or(1, |line| line + 1);
            let message = format!("two responses have the id `{}`", response.id);
            return Err(GuideError::new(line, message, "give each response its own id"));
        }
    }
    Ok(found)
}

fn markdown(text: &str) -> Vec<Response> {
    let mut found: Vec<Response> = Vec::new();
    let mut loose = String::new();
    for line in text.lines() {
        let (id, rest) = match (heading(line), label(line)) {
            (Some(id), _) => (Some(id), ""),
            (None, Some((id, rest))) => (Some(id), rest),
            (None, None) => (None, line),
        };
        if let Some(id) = id {
            found.push(Response { id, text: rest.to_owned() });
        } else if let Some(last) = found.last_mut() {
            last.text.push('\n');
            last.text.push_str(rest);
        } else {
            loose.push_str(rest);
            loose.push('\n');
        }
    }
    for response in &mut found {
        response.text = response.text.trim().to_owned();
    }
    // A heading above labelled parts is a title, not an answer.
    let labelled = found.iter().any(|response| response.id.chars().count() == 1 && !response.text.is_empty());
    found.retain(|response| !response.text.is_empty() || (labelled && response.id.chars().count() == 1));
    if found.is_empty() && !loose.trim().is_empty() {
        found.push(Response { id: "answer".to_owned(), text: loose.trim().to_owned() });
    }
    found
}

/// The id that a heading gives.
fn heading(line: &str) -> Option<String> {
    let title = line.strip_prefix('#')?.trim_start_matches('#').strip_prefix(' ')?.trim();
    let lower = title.to_lowercase();
    let part = lower.strip_prefix("part ").or_else(|| lower.strip_prefix("question "));
    let id = part.map_or(title, str::trim).trim_matches(['(', ')', '.', ':']);
    (!id.is_empty()).then(|| id.to_owned())
}

/// `(a)` or `**(a)**` at the start of a line, and what follows.
fn label(line: &str) -> Option<(String, &str)> {
    let rest = line.trim_start_matches([' ', '*']).strip_prefix('(')?;
    let letter = rest.chars().next().filter(char::is_ascii_lowercase)?;
    let rest = rest.get(1..)?.strip_prefix(')')?;
    Some((letter.to_string(), rest.trim_start_matches(['*', ' '])))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[(&str, &str)]) {
        let found = responses(text, false).unwrap();
        let got: Vec<(&str, &str)> = found.iter().map(|one| (one.id.as_str(), one.text.as_str())).collect();
        assert_eq!(got, expected);
    }

    #[test]
    fn markdown_comes_apart_by_part() {
        case("(a) It falls.\nAnd more.\n\n(b) It rises.", &[("a", "It falls.\nAnd more."), ("b", "It rises.")]);
        case("# Test\n\n(a) It falls.", &[("a", "It falls.")]);
        case("## Part a\nIt falls.", &[("a", "It falls.")]);
        case("## Sara\nIt falls.\n## Tom\nIt rises.", &[("Sara", "It falls."), ("Tom", "It rises.")]);
        case("It falls.", &[("answer", "It falls.")]);
        case(r#"[{"id": "a", "text": "x"}]"#, &[("a", "x")]);
    }

    #[test]
    fn an_answer_may_not_be_a_book() {
        assert!(responses(&"a ".repeat(MOST_CHARACTERS / 2), false).is_ok());
        let error = responses(&format!("(a) short\n\n(b) {}", "word ".repeat(MOST_CHARACTERS)), false).unwrap_err();
        assert_eq!(error.line, 3);
        assert!(error.message.contains("`b`") && error.hint.contains("20000"), "{error:?}");
    }

    #[test]
    fn says_what_is_wrong_and_where() {
        assert_eq!(responses("", false).unwrap_err().message, "there is no response");
        assert_eq!(responses("(a) x\n(a) y", false).unwrap_err().message, "two responses have the id `a`");
        let error = responses("- id: a\n  txt: x\n", true).unwrap_err();
        assert_eq!(error.line, 2);
    }
}
