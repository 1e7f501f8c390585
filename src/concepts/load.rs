//! Loading: concept files into parts as written, with every structural fault of every file.
//!
//! Comes in: sources. Goes out: the parts of all files that could be read, and the faults of the rest.
//! **Must not know**: whether a reference leads anywhere.
//!
//! The parser stops at the first fault of a text. So that one run reports them all, the item that holds the fault is
//! blanked out with spaces (places of all others stay the same) and the text is read again.

mod outline;
mod wording;

use std::collections::BTreeSet;

use serde_yaml::Options;

use super::written::File;
use crate::diagnostic::{Diagnostic, code};
use crate::source::{FileId, LIMIT, Sources, Span};

/// Faults reported of one file at most; a file with more is no concept file.
const MOST_FAULTS: usize = 60;

/// What the files hold.
#[derive(Debug, Default)]
pub struct Written {
    /// The files that could be read, items with a structural fault left out.
    pub files: Vec<(FileId, File)>,
    /// Ids of the items left out, by the key of their list: known, though nothing more is known of them.
    pub broken: BTreeSet<(String, String)>,
}

/// Reads all sources.
pub fn load(sources: &Sources) -> (Written, Vec<Diagnostic>) {
    let mut written = Written::default();
    let mut faults = Vec::new();
    for id in sources.ids() {
        if let Some(fault) = unreadable(sources, id) {
            faults.push(fault);
        } else {
            file(sources, id, &mut written, &mut faults);
        }
    }
    (written, faults)
}

/// The fault of a file whose bytes are not a text of the right size.
pub fn unreadable(sources: &Sources, file: FileId) -> Option<Diagnostic> {
    use crate::source::Fault;
    match sources.fault(file)? {
        Fault::TooLarge { bytes } => {
            let message = format!("the file has {bytes} bytes; at most {LIMIT} are read");
            let span = Span { file, start: 0, end: 0 };
            Some(Diagnostic::error(&code::FILE_TOO_LARGE, span, message).hint("split it, one file a field"))
        }
        Fault::NotUtf8 { at } => {
            let span = Span { file, start: at, end: at + char::REPLACEMENT_CHARACTER.len_utf8() };
            let message = format!("byte {at} of the file is not UTF-8 text");
            Some(Diagnostic::error(&code::NOT_UTF8, span, message).hint("save the file as UTF-8"))
        }
    }
}

/// The parser's error about a text of this file, in the words of an author.
pub fn yaml_fault(file: FileId, text: &str, error: &serde_yaml::Error) -> Diagnostic {
    wording::diagnostic(file, text, error).0
}

fn file(sources: &Sources, file: FileId, written: &mut Written, faults: &mut Vec<Diagnostic>) {
    let mut text = sources.text(file).to_owned();
    if let Some(fault) = empty(file, &text) {
        faults.push(fault);
        return;
    }
    let outline = outline::Outline::of(&text);
    let mut meant: BTreeSet<(Option<usize>, String)> = BTreeSet::new();
    for _ in 0..MOST_FAULTS {
        match serde_yaml::from_str_with_options::<File>(&text, options()) {
            Ok(parts) => {
                written.files.push((file, parts));
                return;
            }
            Err(error) => {
                let (mut fault, near) = wording::diagnostic(file, &text, &error);
                if let Some(field) = near.as_ref().filter(|_| *fault.code == code::MISSING_FIELD)
                    && let Some(hint) = outline::misplaced(sources.text(file), fault.primary.start, field)
                {
                    fault = fault.hint(hint);
                }
                let repair = outline.repair(&text, &fault);
                let item = outline.item_at(fault.primary.start);
                let key = near.map(|field| (item, field));
                // A field that is there under a misspelt name has been reported once.
                if *fault.code != code::MISSING_FIELD || !key.as_ref().is_some_and(|key| meant.contains(key)) {
                    faults.push(fault);
                }
                meant.extend(key);
                let Some(repair) = repair else { return };
                written.broken.extend(repair.broken);
                outline::blank(&mut text, &repair.range);
                if blank_text(&text) {
                    return;
                }
            }
        }
    }
}

/// Strict booleans, so that `n` stays a letter; a budget that all fields together stay far below.
fn options() -> Options {
    let budget = serde_yaml::budget! { max_nodes: 500_000, max_events: 2_000_000, max_depth: 40 };
    let aliases = serde_yaml::alias_limits! { max_total_replayed_events: 100_000 };
    serde_yaml::options! { strict_booleans: true, with_snippet: false, budget: budget, alias_limits: aliases }
}

fn empty(file: FileId, text: &str) -> Option<Diagnostic> {
    let span = Span { file, start: 0, end: 0 };
    blank_text(text).then(|| {
        Diagnostic::error(&code::EMPTY_FILE, span, "the file holds no part")
            .hint("write at least one list of parts, such as `quantities:`, or remove the file")
    })
}

fn blank_text(text: &str) -> bool {
    text.trim_start_matches('\u{feff}').lines().all(|line| {
        let line = line.trim();
        line.is_empty() || line.starts_with('#') || line == "---" || line == "..." || line == "{}"
    })
}
