//! The parser's faults in the words of an author.

use serde_yaml::{Error, Location};

use crate::diagnostic::{Code, Diagnostic, code, nearest};
use crate::source::{FileId, Span};

/// The parser's error as a diagnostic, with the field that is missing or was probably meant.
pub(super) fn diagnostic(file: FileId, text: &str, error: &Error) -> (Diagnostic, Option<String>) {
    let mut span = error.location().map_or(Span { file, start: 0, end: 0 }, |location| span(file, text, &location));
    let mut wording = wording(error);
    if let Some(word) = &wording.word {
        span = narrow(text, span, word);
    }
    if *wording.code == code::MISSING_FIELD {
        span.start = first_key(text, span.start);
    } else if *wording.code == code::SEVERAL_DOCUMENTS {
        span.start = text.get(..span.start).and_then(|before| before.rfind("---")).unwrap_or(span.start);
    } else if *wording.code == code::YAML_SYNTAX && wording.message.contains("tab") {
        span = tab(text, span);
    } else if let Some(opening) = late_quote(text, span.start, &wording.message) {
        span = Span { start: opening, end: opening + 1, ..span };
        "the quotation mark that opens here is closed only on a later line".clone_into(&mut wording.message);
    }
    if span.end <= span.start || [&code::MISSING_FIELD, &code::SEVERAL_DOCUMENTS].contains(&wording.code) {
        span = first_word(text, span);
    }
    let mut diagnostic = Diagnostic::error(wording.code, span, wording.message);
    let mut field = wording.missing.map(str::to_owned);
    if let Some(given) = &wording.word {
        field = nearest(given, &wording.choices).map(str::to_owned);
        diagnostic = match &field {
            Some(near) => diagnostic.hint(format!("did you mean `{near}`?")),
            None => diagnostic.possible(&wording.choices),
        };
    }
    if let Some(hint) = wording.hint {
        diagnostic = diagnostic.hint(hint);
    }
    (diagnostic, field)
}

/// Bytes of a parser's location.
pub(super) fn span(file: FileId, text: &str, location: &Location) -> Span {
    let place = location.span();
    let at = |offset: Option<u64>| offset.and_then(|offset| usize::try_from(offset).ok());
    let start = at(place.byte_offset()).unwrap_or_else(|| offset(text, location)).min(text.len());
    let end = start.saturating_add(at(place.byte_len()).unwrap_or(0)).min(text.len());
    Span { file, start, end }
}

/// Where there are no bytes: from line and column, both counted from 1.
fn offset(text: &str, location: &Location) -> usize {
    let line = usize::try_from(location.line()).unwrap_or(1).saturating_sub(1);
    let column = usize::try_from(location.column()).unwrap_or(1).saturating_sub(1);
    let start = text.split_inclusive('\n').take(line).map(str::len).sum::<usize>();
    let rest = text.get(start..).unwrap_or_default().lines().next().unwrap_or_default();
    start + rest.char_indices().nth(column).map_or(rest.len(), |(at, _)| at)
}

/// The span of the word itself, where it stands at or right after the place that the parser gave.
fn narrow(text: &str, span: Span, word: &str) -> Span {
    let after = text.get(span.start..).unwrap_or_default();
    match after.find(word) {
        Some(at) if at < 200 && !word.is_empty() => {
            Span { start: span.start + at, end: span.start + at + word.len(), ..span }
        }
        _ => span,
    }
}

/// The first tab of the line that holds the span, or of the next.
fn tab(text: &str, span: Span) -> Span {
    let line = text.get(..span.start).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
    let two_lines: usize = text.get(line..).unwrap_or_default().split_inclusive('\n').take(2).map(str::len).sum();
    let found = text.get(line..line + two_lines).and_then(|lines| lines.find('\t'));
    found.map_or(span, |at| Span { start: line + at, end: line + at + 1, ..span })
}

/// Where the quotation mark opens that ended before this byte, if that is on an earlier line: the parser takes the next
/// opening one for its end, and stumbles over what follows there.
fn late_quote(text: &str, at: usize, message: &str) -> Option<usize> {
    let mark = match message {
        _ if !message.contains("trailing content") => return None,
        _ if message.contains("double-quoted") => '"',
        _ if message.contains("single-quoted") => '\'',
        _ => return None,
    };
    let closing = text.get(..=at).or_else(|| text.get(..at))?.rfind(mark)?;
    let before = text.get(..closing)?;
    let is_escaped = |opening: &usize| before.get(..*opening).is_some_and(|before| before.ends_with('\\'));
    let opening = before.rmatch_indices(mark).map(|(opening, _)| opening).find(|opening| !is_escaped(opening))?;
    before.get(opening..)?.contains('\n').then_some(opening)
}

/// The first key of the block mapping that the key at this byte is in, where that stands at the start of a line.
fn first_key(text: &str, at: usize) -> usize {
    let before = text.get(..at).unwrap_or_default();
    let line = before.rfind('\n').map_or(0, |end| end + 1);
    let column = at - line;
    let is_key = |line: &str| line.get(..column).is_some_and(|lead| lead.trim_matches([' ', '-']).is_empty());
    if !is_key(before.get(line..).unwrap_or_default()) {
        return at;
    }
    let (mut first, mut end) = (at, line);
    while let Some(above) = before.get(..end.saturating_sub(1)).filter(|_| end > 0) {
        let start = above.rfind('\n').map_or(0, |end| end + 1);
        let here = above.get(start..).unwrap_or_default();
        let lead = here.len() - here.trim_start_matches([' ', '-']).len();
        if lead == column {
            first = start + column;
        }
        let starts_item = here.trim_start().starts_with("- ") && lead == column;
        if !here.trim().is_empty() && (lead < column || starts_item) {
            break;
        }
        end = start;
    }
    first
}

/// From the start of the span to the end of the word there.
fn first_word(text: &str, span: Span) -> Span {
    let after = text.get(span.start..).unwrap_or_default();
    let gap = after.len() - after.trim_start_matches([' ', '-']).len();
    let (start, after) = (span.start + gap, after.get(gap..).unwrap_or_default());
    let length = after.find([' ', '\n', '\r', ',', ']', '}']).unwrap_or(after.len());
    let whole = after.get(..length).unwrap_or_default().trim_end_matches(':');
    if whole.is_empty() { span } else { Span { start, end: start + whole.len(), ..span } }
}

/// What is said of an error.
struct Wording {
    code: &'static Code,
    message: String,
    missing: Option<&'static str>,
    word: Option<String>,
    choices: Vec<&'static str>,
    hint: Option<String>,
}

impl Wording {
    fn new(code: &'static Code, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), missing: None, word: None, choices: Vec::new(), hint: None }
    }

    fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    fn choice(mut self, word: &str, choices: &[&'static str]) -> Self {
        self.word = Some(word.to_owned());
        self.choices = choices.to_vec();
        self
    }
}

fn wording(error: &Error) -> Wording {
    match error {
        Error::SerdeUnknownField { field, expected, .. } => {
            Wording::new(&code::UNKNOWN_FIELD, format!("unknown field `{field}`")).choice(field, expected)
        }
        Error::SerdeUnknownVariant { variant, expected, .. } => {
            Wording::new(&code::UNKNOWN_CHOICE, format!("`{variant}` is not one of the words this field takes"))
                .choice(variant, expected)
        }
        Error::SerdeMissingField { field, .. } => Wording {
            missing: Some(field),
            ..Wording::new(&code::MISSING_FIELD, format!("the field `{field}` is missing"))
                .hint(format!("add `{field}:` to this part"))
        },
        Error::DuplicateMappingKey { key, .. } => {
            let key = key.as_deref().unwrap_or("…");
            Wording::new(&code::DUPLICATE_KEY, format!("the key `{key}` stands twice in one mapping"))
                .hint("remove one of the two")
        }
        Error::NullIntoString { .. } => Wording::new(&code::EMPTY_VALUE, "a text is needed here, and there is none")
            .hint("write the text, or leave the field out where it is optional"),
        Error::InvalidScalar { ty, .. } => wrong_type(ty, None),
        Error::InvalidBooleanStrict { .. } => wrong_type("bool", None),
        Error::SerdeInvalidType { unexpected, expected, .. }
        | Error::SerdeInvalidValue { unexpected, expected, .. } => wrong_type(expected, Some(kind(unexpected))),
        Error::SerdeInvalidLength { len, .. } => wrong_type("an array of length 2", Some(len.to_string())),
        Error::TaggedScalarCannotDeserializeIntoString { .. } => wrong_type("string", Some("a tag".to_owned())),
        Error::Unexpected { expected, .. } => wrong_type(expected, None),
        Error::AliasError { error, .. } | Error::WithSnippet { error, .. } => wording(error),
        other => whole_text(other),
    }
}

/// Errors that concern the text as a whole.
fn whole_text(error: &Error) -> Wording {
    match error {
        Error::Budget { breach, .. } => {
            let depth = format!("{breach:?}").contains("Depth");
            if depth { too_deep() } else { too_big() }
        }
        Error::AliasReplayCounterOverflow { .. }
        | Error::AliasReplayLimitExceeded { .. }
        | Error::AliasExpansionLimitExceeded { .. }
        | Error::AliasReplayStackDepthExceeded { .. } => too_big(),
        Error::MultipleDocuments { .. } => Wording::new(&code::SEVERAL_DOCUMENTS, "a second YAML document begins here")
            .hint("put it into a file of its own, or remove the `---`"),
        Error::UnknownAnchor { .. } | Error::RecursiveReferencesRequireWeakTypes { .. } => {
            Wording::new(&code::UNKNOWN_ANCHOR, "this alias refers to no anchor before it")
                .hint("write the value out; quote a text that begins with `*`")
        }
        Error::Eof { .. } => Wording::new(&code::YAML_SYNTAX, "the file ends in the midst of a value"),
        other => {
            let message = other.to_string();
            let message = message.split(" at line ").next().unwrap_or_default();
            let message = message.split('\n').next().unwrap_or_default();
            if message.contains("recursion") || message.contains("nesting") || message.contains("depth") {
                return too_deep();
            }
            let hint = if message.contains("tab") {
                "indent with spaces"
            } else {
                "look for an open quotation mark or bracket, or a text with `: ` or a sign in it that needs quotes"
            };
            Wording::new(&code::YAML_SYNTAX, format!("this is not YAML: {message}")).hint(hint)
        }
    }
}

fn too_big() -> Wording {
    Wording::new(&code::YAML_TOO_BIG, "the text unfolds into more values than an author file may hold")
        .hint("write values out instead of nesting aliases; split a large file")
}

fn too_deep() -> Wording {
    Wording::new(&code::NESTED_TOO_DEEP, "lists or mappings are nested too deep here")
        .hint("no part needs more than six levels")
}

/// A value of another kind than the field takes.
fn wrong_type(expected: &str, found: Option<String>) -> Wording {
    let expected = kind(expected);
    let found = found.map(|found| format!(", not {found}")).unwrap_or_default();
    let hint = match expected.as_str() {
        "a number" => "write a plain number without a unit, such as `60` or `1.5e-4`",
        "`true` or `false`" => "write `true` or `false`, without quotation marks",
        "a text" => "write a text; quote it if it begins with a bracket, a brace or a sign",
        "a list" | "two numbers" => "write the entries in brackets, `[a, b]`, or each on a line with `- ` before it",
        _ => "write `key: value`, each on its own line, indented alike",
    };
    Wording::new(&code::WRONG_TYPE, format!("this takes {expected}{found}")).hint(hint)
}

/// The parser's names for kinds of values, in words.
fn kind(ty: &str) -> String {
    let words = match ty {
        "bool" | "boolean" | "a boolean" => "`true` or `false`",
        "string" | "a string" | "String" | "string scalar" => "a text",
        "map" | "mapping" | "mapping start" => "a mapping",
        "an array of length 2" => "two numbers",
        other if other.starts_with("f64") || other.starts_with("floating point") => "a number",
        other if other.starts_with("struct ") => "a mapping",
        other if other.contains("sequence") => "a list",
        other => other,
    };
    words.to_owned()
}
