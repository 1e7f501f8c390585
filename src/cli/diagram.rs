//! Reads a teacher's signed diagram from CSV, with the place of every fault.
//!
//! The first row names the columns; `from`, `sign` and `to` must be among them, in any order; others are not read.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::diagnostic::{Code, Diagnostic, code};
use crate::reasoning::Sign;
use crate::reasoning::press::Diagram;
use crate::source::{Fault, FileId, Sources, Span};

/// The largest file that is read, in bytes.
pub(super) const LARGEST_FILE: u64 = 1_000_000;
/// The most things that a diagram may hold.
const MOST_THINGS: usize = 100;

/// What was read.
pub(super) struct Reading {
    /// The arrows that could be read.
    pub diagram: Diagram,
    /// What makes the diagram unusable.
    pub faults: Vec<Diagnostic>,
    /// What the teacher should know.
    pub warnings: Vec<Diagnostic>,
}

/// Reads the text of a diagram file.
pub(super) fn read(sources: &Sources, file: FileId) -> Reading {
    let mut reading = Reading { diagram: Diagram::new(), faults: Vec::new(), warnings: Vec::new() };
    let text = Text { file, text: sources.text(file) };
    match sources.fault(file) {
        Some(Fault::NotUtf8 { at }) => {
            let here = text.span(at..at + char::REPLACEMENT_CHARACTER.len_utf8());
            let fault = Diagnostic::error(&code::NOT_UTF8, here, "this is not UTF-8 text");
            reading.faults.push(fault.hint("save the file as CSV in UTF-8"));
            return reading;
        }
        Some(Fault::TooLarge { .. }) => {
            let message = format!("the file is larger than a diagram can be: at most {LARGEST_FILE} bytes are read");
            let fault = Diagnostic::error(&code::FILE_TOO_LARGE, text.span(0..0), message);
            reading.faults.push(fault.hint("give a CSV file with one arrow a row"));
            return reading;
        }
        None => {}
    }
    let mut rows = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.text.as_bytes());
    // Nothing else can go wrong: the text is UTF-8 and rows may have any length.
    let records: Vec<csv::StringRecord> = rows.records().filter_map(Result::ok).filter(|row| !is_blank(row)).collect();
    let Some((header, arrows)) = records.split_first() else {
        let fault = Diagnostic::error(&code::EMPTY_FILE, text.span(0..0), "the file is empty");
        reading.faults.push(fault.hint("begin with the row `from,sign,to`, then one arrow a row"));
        return reading;
    };
    let Some(columns) = columns(header, text, &mut reading.faults) else { return reading };
    let mut seen = BTreeMap::new();
    for record in arrows {
        let row = Row { text, record, columns };
        row.read(&mut reading, &mut seen);
    }
    if seen.is_empty() && reading.faults.is_empty() {
        let row = Span { end: text.field(header, header.len()).end, ..text.field(header, 0) };
        let fault = Diagnostic::error(&code::NO_ARROWS, row, "below its first row the file has no arrows");
        reading.faults.push(fault.hint("add rows such as `grass,+,hare`"));
    }
    if reading.diagram.nodes.len() > MOST_THINGS {
        let message = format!("the diagram has {} things; at most {MOST_THINGS} are read", reading.diagram.nodes.len());
        let fault = Diagnostic::error(&code::TOO_MANY_THINGS, text.span(0..0), message);
        reading.faults.push(fault.hint("leave out what the question does not need"));
    }
    reading
}

fn is_blank(record: &csv::StringRecord) -> bool {
    record.iter().all(|field| field.trim().is_empty())
}

/// Places of `from`, `sign`, `to` in a row.
type Columns = [usize; 3];

fn columns(header: &csv::StringRecord, text: Text<'_>, faults: &mut Vec<Diagnostic>) -> Option<Columns> {
    let names: Vec<String> =
        header.iter().map(|name| name.trim_start_matches('\u{feff}').trim().to_lowercase()).collect();
    let find = |name: &str| names.iter().position(|other| other == name);
    let found = ["from", "sign", "to"].map(find);
    if let [Some(from), Some(sign), Some(to)] = found {
        return Some([from, sign, to]);
    }
    for (name, _) in ["from", "sign", "to"].iter().zip(found).filter(|(_, column)| column.is_none()) {
        let message = format!("there is no column `{name}`");
        let fault = Diagnostic::error(&code::HEADER_INCOMPLETE, text.field(header, 0), message);
        faults.push(fault.hint("the first row names the columns: `from,sign,to`"));
    }
    None
}

struct Row<'a> {
    text: Text<'a>,
    record: &'a csv::StringRecord,
    columns: Columns,
}

/// Where a pair was first given a sign, by (from, to).
type Seen = BTreeMap<(String, String), (Sign, Span)>;

impl Row<'_> {
    fn read(&self, reading: &mut Reading, seen: &mut Seen) {
        let before = reading.faults.len();
        let mut fault = |code: &'static Code, place: Span, message: String, hint: &str| {
            reading.faults.push(Diagnostic::error(code, place, message).hint(hint));
        };
        let [from, sign, to] = self.columns.map(|column| self.record.get(column).map_or("", str::trim));
        let [from_place, sign_place, to_place] = self.columns.map(|column| self.text.field(self.record, column));
        for (name, value, place) in [("from", from, from_place), ("to", to, to_place)] {
            if value.is_empty() {
                let message = format!("`{name}` is empty");
                fault(&code::BAD_NAME, place, message, "write a name at each end of the arrow");
            } else if value.contains('>') {
                let message = format!("the name `{value}` holds `>`, which parts two names in the answer");
                fault(&code::BAD_NAME, place, message, "write the name without it");
            }
        }
        let read = match sign {
            "+" => Sign::Plus,
            "-" | "−" | "–" => Sign::Minus,
            _ => {
                let message = format!("sign `{sign}` is neither + nor -");
                let hint = "write + where more of `from` raises `to`, - where it lowers it";
                fault(&code::UNKNOWN_SIGN, sign_place, message, hint);
                return;
            }
        };
        if reading.faults.len() > before {
            return;
        }
        let (first, first_place) = *seen.entry((from.to_owned(), to.to_owned())).or_insert((read, sign_place));
        if first != read {
            let message = format!("`{from}` on `{to}` is given as {read} here and as {first} before");
            let warning = Diagnostic::warning(&code::SIGN_GIVEN_BOTH_WAYS, sign_place, message);
            let hint =
                "the arrow is taken as one of unknown sign, and what hangs on it is withheld; keep one of the two";
            reading.warnings.push(warning.related(first_place, "it was given before here").hint(hint));
        }
        reading.diagram.connect(from, read, to);
    }
}

/// The whole text, for places.
#[derive(Clone, Copy)]
struct Text<'a> {
    file: FileId,
    text: &'a str,
}

impl Text<'_> {
    fn span(self, bytes: Range<usize>) -> Span {
        Span { file: self.file, start: bytes.start, end: bytes.end }
    }

    /// Where a field of a record stands, without spaces around it; where the row is too short, where it ends.
    fn field(self, record: &csv::StringRecord, field: usize) -> Span {
        let row = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(0));
        let rest = self.text.get(row..).unwrap_or_default();
        let skipped = rest.len() - rest.trim_start_matches(['\r', '\n', '\u{feff}']).len();
        let (mut fields, mut quoted, mut start) = (0, false, None);
        let mut end = row + skipped;
        for (byte, letter) in rest.char_indices().skip_while(|(byte, _)| *byte < skipped) {
            end = row + byte;
            if fields == field {
                start.get_or_insert(end);
            }
            if !quoted && (matches!(letter, '\r' | '\n') || (letter == ',' && fields == field)) {
                break;
            }
            match letter {
                '"' => quoted = !quoted,
                ',' if !quoted => fields += 1,
                _ => {}
            }
            end += letter.len_utf8();
        }
        self.span(start.unwrap_or(end)..end)
    }
}
