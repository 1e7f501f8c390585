//! The front matter of a file: found, read, and every fault of it with its place.

use std::ops::Range;

use serde_yaml::Options;

use crate::concepts::yaml_fault;
use crate::diagnostic::{Diagnostic, code};
use crate::plan;
use crate::scenario::{FORMAT, Front};
use crate::source::{FileId, NoFrontMatter, Span, front_matter};

/// Faults of front matter that are reported at most.
const MOST_FAULTS: usize = 12;

/// What stands above the page.
#[derive(Debug)]
pub(super) struct Matter<'a> {
    file: FileId,
    text: &'a str,
    /// Bytes of the YAML.
    yaml: Range<usize>,
    /// Where the page begins; none where the front matter does not end.
    pub(super) body: Option<usize>,
    /// As written, where it could be read.
    pub(super) front: Option<Front>,
    pub(super) faults: Vec<Diagnostic>,
}

/// Whether a text begins as a scenario does.
pub fn has_front_matter(text: &str) -> bool {
    front_matter(text) != Err(NoFrontMatter::Missing)
}

/// Where the page of a text begins.
pub(super) fn body(text: &str) -> Option<usize> {
    front_matter(text).ok().map(|found| found.body)
}

/// Reads the front matter of a file.
pub(super) fn read(file: FileId, text: &str) -> Matter<'_> {
    let mut matter = Matter { file, text, yaml: 0..0, body: None, front: None, faults: Vec::new() };
    let found = match front_matter(text) {
        Ok(found) => found,
        Err(NoFrontMatter::Missing) => {
            matter.faults.push(missing(file, text));
            return matter;
        }
        Err(NoFrontMatter::Open { opening }) => {
            let message = "the front matter that begins here does not end";
            let span = Span { file, start: opening, end: opening + 3 };
            let fault = Diagnostic::error(&code::FRONT_MATTER_MALFORMED, span, message);
            matter.faults.push(fault.hint("close it with a line of three hyphens, `---`, before the title"));
            return matter;
        }
    };
    matter.yaml = found.yaml.clone();
    matter.body = Some(found.body);
    let yaml = text.get(found.yaml).unwrap_or_default();
    if yaml.lines().all(|line| line.trim().is_empty() || line.trim().starts_with('#')) {
        let message = "the front matter is empty";
        let span = Span { file, start: found.opening, end: found.opening + 3 };
        let fault = Diagnostic::error(&code::FRONT_MATTER_MALFORMED, span, message);
        matter.faults.push(fault.hint("put back the lines that `toehold generate` wrote"));
    } else if !matter.is_newer() {
        matter.parse();
    }
    matter
}

fn missing(file: FileId, text: &str) -> Diagnostic {
    let end = text.lines().next().map_or(0, str::len);
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let fault = Diagnostic::error(&code::EMPTY_FILE, Span { file, start: 0, end: 0 }, "the file is empty");
        return fault.hint("a scenario is written by `toehold generate`");
    }
    let message = "the file does not begin with front matter, so nothing says which scenario it is";
    Diagnostic::error(&code::FRONT_MATTER_MISSING, Span { file, start: 0, end }, message)
        .hint("a scenario begins with the lines between two `---` that `toehold generate` wrote: put them back")
}

impl Matter<'_> {
    /// A file of a later version may have fields of which this one knows nothing.
    fn is_newer(&mut self) -> bool {
        let value = self.entry("toehold").and_then(|(_, value)| self.text.get(value));
        let version = value.and_then(|value| value.trim().parse::<u32>().ok());
        let Some(version) = version.filter(|version| *version > FORMAT) else { return false };
        let message = format!("file format {version} is newer than {FORMAT}, the newest that this program reads");
        let fault = Diagnostic::error(&code::NEWER_FORMAT, self.key("toehold"), message);
        self.faults.push(fault.hint("check it with a newer version of the program"));
        true
    }

    /// All of it; a field that does not belong is reported, blanked out, and the rest read again.
    fn parse(&mut self) {
        if self.entry(plan::KEY).is_some() {
            let message = "this is a plan: nothing follows from it until a scenario is made of it";
            let fault = Diagnostic::error(&code::TO_BE_FILLED, self.key(plan::KEY), message);
            self.faults.push(fault.hint("`toehold generate --from` this file writes the scenario; check that"));
            return;
        }
        if plan::may_be_meant(|name| self.entry(name).is_some()) {
            let message = "this is the front matter of neither a scenario nor a plan: it names a path and no more";
            let fault = Diagnostic::error(&code::MISSING_FIELD, self.key("path"), message);
            self.faults.push(fault.hint(plan::SIGN));
            return;
        }
        let mut text = blanked(self.text.get(..self.yaml.end).unwrap_or_default(), 0..self.yaml.start);
        while self.faults.len() < MOST_FAULTS {
            match serde_yaml::from_str_with_options::<Front>(&text, options()) {
                Ok(front) => {
                    // With a fault it does not make the scenario that was meant.
                    self.front = self.faults.is_empty().then_some(front);
                    return;
                }
                Err(error) => {
                    let fault = yaml_fault(self.file, &text, &error);
                    let at = fault.primary.start;
                    let unknown = *fault.code == code::UNKNOWN_FIELD;
                    if !self.is_misspelt(&fault) {
                        self.faults.push(fault);
                    }
                    let entries = entries(&text, self.yaml.start);
                    let Some(entry) = entries.into_iter().find(|entry| unknown && entry.contains(&at)) else { return };
                    if text.get(entry.clone()).is_none_or(|entry| entry.trim().is_empty()) {
                        return;
                    }
                    text = blanked(&text, entry);
                }
            }
        }
    }

    /// Whether a missing field is there under a name that has been reported.
    fn is_misspelt(&self, fault: &Diagnostic) -> bool {
        let name = fault.message.split('`').nth(1).unwrap_or_default();
        let meant = format!("did you mean `{name}`?");
        *fault.code == code::MISSING_FIELD && self.faults.iter().any(|other| other.hints.contains(&meant))
    }

    /// Bytes of a field's name and of its value.
    fn entry(&self, name: &str) -> Option<(Range<usize>, Range<usize>)> {
        let yaml = self.text.get(..self.yaml.end)?;
        let entry = entries(yaml, self.yaml.start).into_iter().find(|entry| {
            let key = yaml.get(entry.clone()).and_then(|entry| entry.split_once(':')).map(|(key, _)| key);
            key.is_some_and(|key| key.trim().trim_matches(['"', '\'']) == name)
        })?;
        let whole = yaml.get(entry.clone())?;
        let colon = entry.start + whole.find(':')?;
        Some((entry.start..colon, colon + 1..entry.start + whole.trim_end().len()))
    }

    /// The place of a field's name; the first line where there is no such field.
    pub(super) fn key(&self, name: &str) -> Span {
        let (key, _) = self.entry(name).unwrap_or((self.yaml.start..self.yaml.start, 0..0));
        Span { file: self.file, start: key.start, end: key.end }
    }

    /// The place of a word in a field's value; the field's name where it is not found.
    pub(super) fn word(&self, name: &str, word: &str) -> Span {
        let found = self.entry(name).and_then(|(_, value)| {
            let text = self.text.get(value.clone())?;
            let inner = |c: char| c.is_alphanumeric() || c == '-';
            let whole = |at: &usize| {
                let before = text.get(..*at).and_then(|before| before.chars().next_back());
                let after = text.get(at + word.len()..).and_then(|after| after.chars().next());
                !before.is_some_and(inner) && !after.is_some_and(inner)
            };
            let at = text.match_indices(word).map(|(at, _)| at).find(whole)?;
            Some(value.start + at..value.start + at + word.len())
        });
        found.map_or_else(|| self.key(name), |range| Span { file: self.file, start: range.start, end: range.end })
    }

    /// The place of one number of a list within brackets; the field's name where it is written otherwise.
    pub(super) fn number(&self, name: &str, place: usize) -> Span {
        let found = self.entry(name).and_then(|(_, value)| {
            let text = self.text.get(value.clone())?;
            let open = text.find('[')? + 1;
            let close = text.rfind(']').filter(|close| *close >= open)?;
            let mut at = value.start + open;
            for (n, item) in text.get(open..close)?.split(',').enumerate() {
                let start = at + item.len() - item.trim_start().len();
                if n == place {
                    return Some(start..start + item.trim().len());
                }
                at += item.len() + 1;
            }
            None
        });
        found.map_or_else(|| self.key(name), |range| Span { file: self.file, start: range.start, end: range.end })
    }

    /// The place of one line of a list of records; the field's name where it is written otherwise.
    pub(super) fn record(&self, name: &str, words: &[&str]) -> Span {
        let found = self.entry(name).and_then(|(_, value)| {
            let mut at = value.start;
            for line in self.text.get(value)?.split_inclusive('\n') {
                if words.iter().all(|word| line.contains(&format!("\"{word}\""))) {
                    let start = at + line.len() - line.trim_start().len();
                    return Some(start..start + line.trim().len());
                }
                at += line.len();
            }
            None
        });
        found.map_or_else(|| self.key(name), |range| Span { file: self.file, start: range.start, end: range.end })
    }
}

/// Top-level entries: each from its name to the next line that is not indented.
fn entries(text: &str, start: usize) -> Vec<Range<usize>> {
    let mut entries: Vec<Range<usize>> = Vec::new();
    let mut at = start;
    for line in text.get(start..).unwrap_or_default().split_inclusive('\n') {
        let end = at + line.len();
        let begins = line.starts_with(|c: char| c.is_alphanumeric() || c == '"' || c == '\'');
        match entries.last_mut() {
            Some(last) if !begins => last.end = end,
            _ => entries.push(at..end),
        }
        at = end;
    }
    entries
}

/// The text with spaces in place of these bytes, line breaks kept.
fn blanked(text: &str, range: Range<usize>) -> String {
    let (before, after) = (text.get(..range.start).unwrap_or_default(), text.get(range.end..).unwrap_or_default());
    let inner = text.get(range).unwrap_or_default();
    let spaces = inner.bytes().map(|byte| if byte == b'\n' { '\n' } else { ' ' });
    before.chars().chain(spaces).chain(after.chars()).collect()
}

/// Front matter is small: what unfolds into more is no front matter.
fn options() -> Options {
    let budget = serde_yaml::budget! { max_nodes: 20_000, max_events: 50_000, max_depth: 16 };
    serde_yaml::options! { strict_booleans: true, with_snippet: false, budget: budget }
}
