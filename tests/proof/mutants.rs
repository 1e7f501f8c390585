//! Five hundred scenarios with one fact broken: nearly all must be reported at their line.

use std::collections::BTreeMap;

use toehold::diagnostic::Severity;
use toehold::seed::{Seed, Stream};

use super::Desk;
use super::edits::{Line, Place, lines, numbers, pick, replaced, words};

const N: usize = 500;

/// A broken text.
struct Mutant {
    text: String,
    line: usize,
    what: String,
}

type Mutator = fn(&str, &mut Stream) -> Option<Mutant>;

const MUTATORS: [(&str, Mutator); 9] = [
    ("number", number),
    ("number", number),
    ("number word", number_word),
    ("sign", sign),
    ("unit", unit),
    ("total", total),
    ("direction", direction),
    ("comparative", comparative),
    ("two numbers swapped", swapped_numbers),
];

fn mutant(text: &str, line: &Line<'_>, range: std::ops::Range<usize>, with: &str) -> Mutant {
    let what = format!("{:?} line {}: `{}` -> `{with}`", line.place, line.number, &text[range.clone()]);
    Mutant { text: replaced(text, range, with), line: line.number, what }
}

/// A place first, so that the long prose does not drown the tables.
fn line_at<'a>(lines: &'a [Line<'a>], places: &[Place], stream: &mut Stream) -> Option<&'a Line<'a>> {
    let place = pick(stream, places)?;
    let here: Vec<&Line<'_>> = lines.iter().filter(|line| line.place == *place).collect();
    pick(stream, &here).copied()
}

/// One digit becomes another, one is put in, or the point moves.
fn number(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let places = [
        Place::DataRow,
        Place::GuideRow,
        Place::Question,
        Place::Prose,
        Place::Figure,
        Place::Answer,
        Place::Scaffold,
        Place::Sample,
        Place::After,
        Place::Map,
    ];
    let lines = lines(text);
    let line = line_at(&lines, &places, stream)?;
    let range = pick(stream, &numbers(line))?.clone();
    let old = &text[range.clone()];
    let digits: Vec<usize> = old.bytes().enumerate().filter(|(_, b)| b.is_ascii_digit()).map(|(at, _)| at).collect();
    let at = *pick(stream, &digits)?;
    let digit = char::from(b'0' + u8::try_from(stream.below(10)).unwrap());
    let new = match stream.below(4) {
        0 => format!("{}{digit}{}", &old[..at], &old[at..]),
        1 if old.contains('.') => old.replacen('.', "", 1),
        1 => format!("{old}0"),
        _ => format!("{}{digit}{}", &old[..at], &old[at + 1..]),
    };
    let changed = (new.parse::<f64>().ok()? - old.parse::<f64>().ok()?).abs() > 1e-12;
    changed.then(|| mutant(text, line, range, &new))
}

fn number_word(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let counts = ["three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    let lines = lines(text);
    let line = line_at(&lines, &[Place::Prose, Place::Figure], stream)?;
    let found: Vec<_> = counts.iter().flat_map(|word| words(line, word)).collect();
    let range = pick(stream, &found)?.clone();
    let new = pick(stream, &counts)?;
    (*new != &text[range.clone()]).then(|| mutant(text, line, range, new))
}

/// A minus becomes a plus or goes, a plus becomes a minus, a number becomes negative.
fn sign(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let places = [Place::DataRow, Place::GuideRow, Place::Question, Place::GuideRow, Place::Prose, Place::Sample];
    let lines = lines(text);
    let line = line_at(&lines, &places, stream)?;
    let mut choices: Vec<(std::ops::Range<usize>, &str)> = Vec::new();
    for (at, sign) in line.text.char_indices().filter(|(_, c)| "−+×".contains(*c)) {
        let range = line.range.start + at..line.range.start + at + sign.len_utf8();
        let before = line.text[..at].chars().next_back();
        let after = line.text[at + sign.len_utf8()..].chars().next();
        let binary = before == Some(' ') && after == Some(' ');
        match sign {
            '−' | '×' if binary => choices.push((range, "+")),
            '−' if after.is_some_and(|c| c.is_ascii_digit()) && before.is_none_or(|c| !c.is_alphanumeric()) => {
                choices.push((range, ""));
            }
            '+' if binary => choices.push((range, "−")),
            _ => {}
        }
    }
    let plain: Vec<_> = numbers(line)
        .into_iter()
        .filter(|range| {
            let negative = text[..range.start].chars().next_back().is_some_and(|c| "−-–±".contains(c));
            text[range.clone()].parse::<f64>().is_ok_and(|value| value != 0.0) && !negative
        })
        .collect();
    if choices.is_empty() || stream.below(3) == 0 {
        let range = pick(stream, &plain)?.clone();
        return Some(mutant(text, line, range.start..range.start, "−"));
    }
    let (range, with) = pick(stream, &choices)?.clone();
    Some(mutant(text, line, range, with))
}

const UNITS: [&str; 22] = [
    "%",
    "mmol/L",
    "µmol/L",
    "nmol/L",
    "mol/L",
    "osmol/L",
    "mosmol/L",
    "min",
    "h",
    "s",
    "mm",
    "cm",
    "nm",
    "µm",
    "°C",
    "V/cm",
    "bar",
    "L/(mol·cm)",
    "µmol/(L·min)",
    "bp",
    "g/L",
    "mg/mL",
];

/// The unit behind a number, or in a header, becomes another.
fn unit(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let places = [Place::DataHeader, Place::GuideRow, Place::Question, Place::Prose, Place::Figure, Place::Sample];
    let lines = lines(text);
    let line = line_at(&lines, &places, stream)?;
    let mut found = Vec::new();
    if line.place == Place::DataHeader {
        for unit in UNITS {
            let with_brackets = format!("({unit})");
            for (at, _) in line.text.match_indices(&with_brackets) {
                found.push(line.range.start + at + 1..line.range.start + at + 1 + unit.len());
            }
        }
    } else {
        for range in numbers(line) {
            // Nought is nought in any unit of its kind.
            if text[range.clone()].parse::<f64>().is_ok_and(|value| value == 0.0) {
                continue;
            }
            let Some(after) = text[range.end..line.range.end].strip_prefix(' ') else { continue };
            let end = |unit: &str| {
                after[unit.len()..].chars().next().is_none_or(|c| !c.is_alphanumeric() && c != '/' && c != '·')
            };
            let longest =
                UNITS.iter().filter(|unit| after.starts_with(**unit) && end(unit)).max_by_key(|unit| unit.len());
            if let Some(unit) = longest {
                found.push(range.end + 1..range.end + 1 + unit.len());
            }
        }
    }
    let range = pick(stream, &found)?.clone();
    let new = *pick(stream, &UNITS)?;
    (new != &text[range.clone()]).then(|| mutant(text, line, range, new))
}

/// The total in the subtitle, or the points of a question.
fn total(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let lines = lines(text);
    let new = (1 + stream.below(11)).to_string();
    let line = line_at(&lines, &[Place::Subtitle, Place::Question], stream)?;
    let (before, after) = if line.place == Place::Subtitle { (", ", " points") } else { ("*(", ")*") };
    let end = line.text.rfind(after)?;
    let start = line.text[..end].rfind(before)? + before.len();
    let range = line.range.start + start..line.range.start + end;
    (new != text[range.clone()]).then(|| mutant(text, line, range, &new))
}

const VERBS: [(&str, &str); 18] = [
    ("rises", "falls"),
    ("falls", "rises"),
    ("rise", "fall"),
    ("fall", "rise"),
    ("goes up", "goes down"),
    ("goes down", "goes up"),
    ("goes up", "stays the same"),
    ("goes down", "stays the same"),
    ("stays the same", "goes up"),
    ("increases", "decreases"),
    ("decreases", "increases"),
    ("raises", "lowers"),
    ("lowers", "raises"),
    ("does not change", "rises"),
    ("shrinks", "grows"),
    ("grows", "shrinks"),
    ("drops", "rises"),
    ("falls", "does not fall"),
];

const COMPARATIVES: [(&str, &str); 14] = [
    ("higher", "lower"),
    ("lower", "higher"),
    ("larger", "smaller"),
    ("smaller", "larger"),
    ("more", "less"),
    ("More", "Less"),
    ("fewer", "more"),
    ("Fewer", "More"),
    ("less", "more"),
    ("Less", "More"),
    ("brighter", "dimmer"),
    ("faster", "slower"),
    ("longer", "shorter"),
    ("slower", "faster"),
];

fn direction(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let places = [Place::Answer, Place::GuideRow, Place::Figure, Place::Scaffold, Place::Question, Place::Sample];
    swapped(text, stream, &VERBS, &places)
}

fn comparative(text: &str, stream: &mut Stream) -> Option<Mutant> {
    swapped(text, stream, &COMPARATIVES, &[Place::GuideRow])
}

fn swapped(text: &str, stream: &mut Stream, pairs: &[(&str, &str)], places: &[Place]) -> Option<Mutant> {
    let lines = lines(text);
    let line = line_at(&lines, places, stream)?;
    let mut found = Vec::new();
    for (old, new) in pairs {
        // "No longer" and "more than one" are no directions.
        let real = |range: &std::ops::Range<usize>| {
            !text[..range.start].ends_with("no ") && !text[range.end..].starts_with(" than")
        };
        found.extend(words(line, old).into_iter().filter(real).map(|range| (range, *new)));
    }
    let (range, new) = pick(stream, &found)?.clone();
    Some(mutant(text, line, range, new))
}

/// Two numbers of a line change places.
fn swapped_numbers(text: &str, stream: &mut Stream) -> Option<Mutant> {
    let places = [Place::DataRow, Place::GuideRow, Place::Question, Place::Figure, Place::Prose];
    let lines = lines(text);
    let line = line_at(&lines, &places, stream)?;
    let found = numbers(line);
    let (one, other) = (pick(stream, &found)?.clone(), pick(stream, &found)?.clone());
    if one.end >= other.start || text[one.clone()].parse::<f64>() == text[other.clone()].parse::<f64>() {
        return None;
    }
    let swapped = replaced(text, other.clone(), &text[one.clone()]);
    let mut mutant = mutant(&swapped, line, one.clone(), &text[other.clone()]);
    mutant.what = format!("{:?} line {}: `{}` <-> `{}`", line.place, line.number, &text[one], &text[other]);
    Some(mutant)
}

#[test]
fn mutants_are_reported_at_their_line() {
    let desk = Desk::new();
    let texts = desk.scenarios(2024, 120);
    let mut stream = Seed(7).stream("mutants");
    let mut counts: BTreeMap<&str, (usize, usize, usize)> = BTreeMap::new();
    let mut missed = Vec::new();
    let mut made = 0;
    while made < N {
        let text = &texts[stream.below(texts.len())];
        let (kind, mutator) = MUTATORS[made % MUTATORS.len()];
        let Some(mutant) = mutator(text, &mut stream) else { continue };
        made += 1;
        let found = desk.proof(mutant.text.clone().into_bytes());
        let caught = found.at_line(mutant.line);
        let fault = found.diagnostics.iter().any(|found| found.severity == Severity::Error);
        let entry = counts.entry(kind).or_default();
        entry.0 += 1;
        entry.1 += usize::from(caught);
        entry.2 += usize::from(caught && fault);
        if !caught {
            let line = mutant.text.lines().nth(mutant.line - 1).unwrap_or_default();
            missed.push(format!("{kind}: {}\n  {line}\n{}", mutant.what, found.text()));
        }
    }
    let caught = N - missed.len();
    println!("mutants reported at their line: {caught} of {N}");
    for (kind, (n, caught, faults)) in &counts {
        println!("  {kind}: {caught} of {n} ({faults} of them as faults)");
    }
    for one in &missed {
        println!("missed {one}");
    }
    assert!(caught * 100 >= 99 * N, "only {caught} of {N}");
}
