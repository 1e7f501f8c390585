//! Reads a teacher's signed diagram from CSV, with the place of every fault.
//!
//! The first row names the columns; `from`, `sign` and `to` must be among them, in any order; others are not read.

use std::collections::BTreeMap;
use std::fmt;

use crate::reasoning::Sign;
use crate::reasoning::press::Diagram;

/// The largest file that is read, in bytes.
pub(super) const LARGEST_FILE: u64 = 1_000_000;
/// The most things that a diagram may hold.
const MOST_THINGS: usize = 100;

/// Something in the file that the teacher can mend, or should know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fault {
    /// Line, counted from 1.
    line: usize,
    /// Column in characters, counted from 1.
    column: usize,
    /// Lower-case fragment without a full stop.
    message: String,
    /// What to do about it.
    hint: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: {}\nhint: {}", self.line, self.column, self.message, self.hint)
    }
}

/// What was read.
pub(super) struct Reading {
    /// The arrows that could be read.
    pub diagram: Diagram,
    /// What makes the diagram unusable.
    pub faults: Vec<Fault>,
    /// What the teacher should know.
    pub warnings: Vec<Fault>,
}

/// Reads the text of a diagram file.
pub(super) fn read(bytes: &[u8]) -> Reading {
    let mut reading = Reading { diagram: Diagram::new(), faults: Vec::new(), warnings: Vec::new() };
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => Text(text),
        Err(error) => {
            let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let good = String::from_utf8_lossy(good);
            let end = Text(&good).place(good.len());
            reading.faults.push(fault(end, "this is not UTF-8 text", "save the file as CSV in UTF-8"));
            return reading;
        }
    };
    let mut rows = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.0.as_bytes());
    let mut records = Vec::new();
    for record in rows.records() {
        match record {
            Ok(record) if is_blank(&record) => {}
            Ok(record) => records.push(record),
            Err(error) => reading.faults.push(fault((1, 1), &error.to_string(), "save the file as CSV")),
        }
    }
    let Some((header, arrows)) = records.split_first() else {
        reading.faults.push(fault(
            (1, 1),
            "the file is empty",
            "begin with the row `from,sign,to`, then one arrow a row",
        ));
        return reading;
    };
    let Some(columns) = columns(header, text, &mut reading.faults) else { return reading };
    let mut seen = BTreeMap::new();
    for record in arrows {
        let row = Row { text, record, columns };
        row.read(&mut reading, &mut seen);
    }
    if seen.is_empty() && reading.faults.is_empty() {
        let place = text.place(text.0.len());
        reading.faults.push(fault(place, "the file has no arrows", "add rows such as `grass,+,hare`"));
    }
    if reading.diagram.nodes.len() > MOST_THINGS {
        let message = format!("the diagram has {} things; at most {MOST_THINGS} are read", reading.diagram.nodes.len());
        reading.faults.push(fault((1, 1), &message, "leave out what the question does not need"));
    }
    reading
}

fn fault((line, column): (usize, usize), message: &str, hint: &str) -> Fault {
    Fault { line, column, message: message.to_owned(), hint: hint.to_owned() }
}

fn is_blank(record: &csv::StringRecord) -> bool {
    record.iter().all(|field| field.trim().is_empty())
}

/// Places of `from`, `sign`, `to` in a row.
type Columns = [usize; 3];

fn columns(header: &csv::StringRecord, text: Text<'_>, faults: &mut Vec<Fault>) -> Option<Columns> {
    let names: Vec<String> =
        header.iter().map(|name| name.trim_start_matches('\u{feff}').trim().to_lowercase()).collect();
    let find = |name: &str| names.iter().position(|other| other == name);
    let found = ["from", "sign", "to"].map(find);
    if let [Some(from), Some(sign), Some(to)] = found {
        return Some([from, sign, to]);
    }
    let place = text.field(header, 0);
    for (name, _) in ["from", "sign", "to"].iter().zip(found).filter(|(_, column)| column.is_none()) {
        let message = format!("there is no column `{name}`");
        faults.push(fault(place, &message, "the first row names the columns: `from,sign,to`"));
    }
    None
}

struct Row<'a> {
    text: Text<'a>,
    record: &'a csv::StringRecord,
    columns: Columns,
}

/// First line on which a pair was given a sign, by (from, to).
type Seen = BTreeMap<(String, String), (Sign, usize)>;

impl Row<'_> {
    fn read(&self, reading: &mut Reading, seen: &mut Seen) {
        let before = reading.faults.len();
        let [from, sign, to] = self.columns.map(|column| self.record.get(column).map_or("", str::trim));
        let [from_place, sign_place, to_place] = self.columns.map(|column| self.text.field(self.record, column));
        for (name, value, place) in [("from", from, from_place), ("to", to, to_place)] {
            if value.is_empty() {
                let message = format!("`{name}` is empty");
                reading.faults.push(fault(place, &message, "write a name at each end of the arrow"));
            }
        }
        for (value, place) in [(from, from_place), (to, to_place)].into_iter().filter(|(value, _)| value.contains('>'))
        {
            let message = format!("the name `{value}` holds `>`, which parts two names in the answer");
            reading.faults.push(fault(place, &message, "write the name without it"));
        }
        let read = match sign {
            "+" => Some(Sign::Plus),
            "-" | "−" | "–" => Some(Sign::Minus),
            _ => None,
        };
        let Some(read) = read else {
            let message = format!("sign `{sign}` is neither + nor -");
            reading.faults.push(fault(
                sign_place,
                &message,
                "write + where more of `from` raises `to`, - where it lowers it",
            ));
            return;
        };
        if reading.faults.len() > before {
            return;
        }
        let (line, _) = sign_place;
        let (first, first_line) = *seen.entry((from.to_owned(), to.to_owned())).or_insert((read, line));
        if first != read {
            let message = format!("`{from}` on `{to}` is given as {read} here and as {first} on line {first_line}");
            let hint =
                "the arrow is taken as one of unknown sign, and what hangs on it is withheld; keep one of the two";
            reading.warnings.push(fault(sign_place, &message, hint));
        }
        reading.diagram.connect(from, read, to);
    }
}

/// The whole text, for places.
#[derive(Clone, Copy)]
struct Text<'a>(&'a str);

impl Text<'_> {
    /// Line and column of a byte, both counted from 1, the column in characters.
    fn place(self, byte: usize) -> (usize, usize) {
        let before = self.0.get(..byte).unwrap_or(self.0);
        let line = before.matches('\n').count() + 1;
        let start = before.rfind('\n').map_or(0, |newline| newline + 1);
        let column = before.get(start..).map_or(0, |rest| rest.trim_start_matches('\u{feff}').chars().count());
        (line, column + 1)
    }

    /// Where a field of a record begins; where the row is too short, where it ends.
    fn field(self, record: &csv::StringRecord, field: usize) -> (usize, usize) {
        let start = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(0));
        let rest = self.0.get(start..).unwrap_or_default();
        let skipped = rest.len() - rest.trim_start_matches(['\r', '\n', '\u{feff}']).len();
        let (mut fields, mut quoted) = (0, false);
        let mut at = start + skipped;
        for (byte, letter) in rest.char_indices().skip_while(|(byte, _)| *byte < skipped) {
            at = start + byte;
            if fields == field || (!quoted && matches!(letter, '\r' | '\n')) {
                return self.place(at);
            }
            match letter {
                '"' => quoted = !quoted,
                ',' if !quoted => fields += 1,
                _ => {}
            }
            at += letter.len_utf8();
        }
        self.place(at)
    }
}
