//! Mending what is mechanical in a concept file: spaces, tabs, and words of which it is plain which was meant.

use crate::diagnostic::Diagnostic;
use crate::source::{FileId, Sources, Span};

/// Codes whose "did you mean" names what stands at their place otherwise.
const NEARLY_RIGHT: &[&str] = &[
    "unknown-entity",
    "unknown-quantity",
    "unknown-principle",
    "unknown-setting",
    "unknown-influence",
    "unknown-act",
    "unknown-law",
    "unknown-symbol",
    "unknown-unit",
    "unknown-choice",
    "unknown-field",
    "ill-formed-id",
];

/// One change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mend {
    /// Line, counted from 1.
    pub line: usize,
    /// What was done, as a clause.
    pub what: String,
}

/// The text of a file without what is mechanically wrong in it, and what was changed: spaces at line ends, tabs before a
/// line's first word, carriage returns, a missing last line break, and every word for which a fault knows the right one.
pub fn mend(sources: &Sources, file: FileId, faults: &[Diagnostic]) -> (String, Vec<Mend>) {
    let mut text = sources.text(file).to_owned();
    let mut done = Vec::new();
    let mut words: Vec<(Span, String)> = faults.iter().filter_map(|fault| word(sources, file, fault)).collect();
    // From the end, so that places before stay true; one change a place.
    words.sort_by_key(|(span, _)| std::cmp::Reverse(span.start));
    words.dedup_by_key(|(span, _)| span.start);
    for (span, right) in words {
        let line = sources.place(file, span.start).line;
        done.push(Mend {
            line,
            what: format!("`{}` is now `{right}`", text.get(span.start..span.end).unwrap_or_default()),
        });
        text.replace_range(span.start..span.end, &right);
    }
    let mended: Vec<String> = text.split('\n').zip(1..).map(|(raw, line)| spaces(raw, line, &mut done)).collect();
    let mut text = mended.join("\n");
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
        done.push(Mend { line: mended.len(), what: "the last line now ends".to_owned() });
    }
    done.sort_by_key(|mend| mend.line);
    (text, done)
}

fn spaces(raw: &str, line: usize, done: &mut Vec<Mend>) -> String {
    let indent = raw.len() - raw.trim_start_matches([' ', '\t']).len();
    let (before, rest) = raw.split_at(indent);
    let mut kept = format!("{}{rest}", before.replace('\t', "  "));
    if before.contains('\t') {
        done.push(Mend { line, what: "each tab before the first word is now two spaces".to_owned() });
    }
    let end = kept.trim_end_matches([' ', '\t', '\r']).len();
    if end < kept.len() {
        kept.truncate(end);
        done.push(Mend { line, what: "spaces at the end are gone".to_owned() });
    }
    kept
}

/// The stretch that a fault is about and what it should be, where that is plain.
fn word(sources: &Sources, file: FileId, fault: &Diagnostic) -> Option<(Span, String)> {
    if fault.primary.file != file || !NEARLY_RIGHT.contains(&fault.code.name) {
        return None;
    }
    let right = fault.hints.iter().find_map(|hint| {
        let named = hint.strip_prefix("did you mean `").or_else(|| hint.strip_prefix("write `"))?;
        named.split_once('`').map(|(right, _)| right.to_owned())
    })?;
    let given = sources.text(file).get(fault.primary.start..fault.primary.end)?;
    // A quoted word keeps its quotation marks.
    let bare = given.trim_matches(['"', '\'']);
    let lead = given.find(bare)?;
    let start = fault.primary.start + lead;
    let plain = !bare.is_empty() && !bare.contains(['\n', ':', '{', '}', '[', ']', ',']);
    plain.then(|| (Span { file, start, end: start + bare.len() }, right))
}
