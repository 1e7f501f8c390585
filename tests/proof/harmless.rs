//! Five hundred rewordings that leave every fact as it is: hardly any may be flagged.

use std::collections::BTreeMap;
use std::ops::Range;

use toehold::seed::{Seed, Stream};

use super::Desk;
use super::edits::{Place, lines, numbers, pick, replaced, words};

const N: usize = 500;

type Rewording = fn(&str, &mut Stream) -> Option<String>;

const REWORDINGS: [(&str, Rewording); 19] = [
    ("synonym in prose", prose_synonym),
    ("synonym in guide or answers", guide_synonym),
    ("other word for a direction", direction_synonym),
    ("sentences reordered", reordered),
    ("sentence added to prose", added_to_prose),
    ("sentence added to guide", added_to_guide),
    ("question reworded", question),
    ("question reordered", question_reordered),
    ("blank lines", blank_lines),
    ("wrapped", wrapped),
    ("typo", typo),
    ("other writing of the same number", number_style),
    ("number in words or digits", number_word),
    ("emphasis", emphasis),
    ("line ends and spaces", spaces),
    ("alternative added or taken out", alternative),
    ("heading or title", heading),
    ("cautions or map", cautions),
    ("pictures", pictures),
];

/// Replaces one of these words where it stands in one of these places.
fn swap(text: &str, stream: &mut Stream, pairs: &[(&str, &str)], places: &[Place]) -> Option<String> {
    let mut found: Vec<(Range<usize>, &str)> = Vec::new();
    for line in lines(text).iter().filter(|line| places.contains(&line.place)) {
        for (old, new) in pairs {
            found.extend(words(line, old).into_iter().map(|range| (range, *new)));
        }
    }
    let (range, new) = pick(stream, &found)?.clone();
    Some(replaced(text, range, new))
}

const WORDS: [(&str, &str); 34] = [
    ("equal", "identical"),
    ("Equal", "Identical"),
    ("Each", "Every"),
    ("each", "every"),
    ("placed", "put"),
    ("measured", "determined"),
    ("records", "takes down"),
    ("same", "very same"),
    ("liquid", "fluid"),
    ("because", "since"),
    ("so", "and therefore"),
    ("which", "and this"),
    ("kept", "held"),
    ("needs", "requires"),
    ("colour", "hue"),
    ("light", "radiation"),
    ("tiny", "minute"),
    ("people", "villagers"),
    ("school", "college"),
    ("group", "team"),
    ("whole", "entire"),
    ("lets", "allows"),
    ("only", "solely"),
    ("stirred", "mixed"),
    ("filled", "loaded"),
    ("read", "measured"),
    ("Readings", "Measurements"),
    ("averaged", "pooled"),
    ("held", "kept"),
    ("made", "prepared"),
    ("begin", "start"),
    ("time", "while"),
    ("through", "by way of"),
    ("molecules", "particles"),
];

fn prose_synonym(text: &str, stream: &mut Stream) -> Option<String> {
    swap(text, stream, &WORDS, &[Place::Prose])
}

fn guide_synonym(text: &str, stream: &mut Stream) -> Option<String> {
    swap(text, stream, &WORDS, &[Place::GuideRow, Place::Answer, Place::Scaffold, Place::Sample, Place::After])
}

/// Words for the same direction.
const SAME_WAY: [(&str, &str); 30] = [
    ("rises", "increases"),
    ("rises", "goes up"),
    ("rises", "climbs"),
    ("falls", "decreases"),
    ("falls", "goes down"),
    ("falls", "drops"),
    ("falls", "declines"),
    ("falls", "is lower"),
    ("goes up", "rises"),
    ("goes up", "increases"),
    ("goes down", "falls"),
    ("goes down", "decreases"),
    ("stays the same", "does not change"),
    ("stays the same", "remains unchanged"),
    ("does not change", "stays the same"),
    ("larger", "greater"),
    ("larger", "bigger"),
    ("higher", "greater"),
    ("smaller", "lower"),
    ("fewer", "less"),
    ("Fewer", "A smaller number of"),
    ("More", "A greater amount of"),
    ("more", "to a greater extent"),
    ("raises", "increases"),
    ("lowers", "reduces"),
    ("lowers", "decreases"),
    ("shrinks", "becomes smaller"),
    ("lower", "reduced"),
    ("brighter", "higher in brightness"),
    ("shorter", "less long"),
];

fn direction_synonym(text: &str, stream: &mut Stream) -> Option<String> {
    swap(text, stream, &SAME_WAY, &[Place::GuideRow, Place::Answer, Place::Figure, Place::Scaffold, Place::Sample])
}

/// Ends of sentences: a stop, a space, a capital letter.
fn sentences(paragraph: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut start = 0;
    for (at, _) in paragraph.match_indices(". ") {
        if paragraph[at + 2..].starts_with(|c: char| c.is_uppercase()) {
            out.push(paragraph[start..=at].to_owned());
            start = at + 2;
        }
    }
    out.push(paragraph[start..].to_owned());
    out
}

fn rewritten(
    text: &str,
    stream: &mut Stream,
    places: &[Place],
    write: impl Fn(&str, &mut Stream) -> Option<String>,
) -> Option<String> {
    let all = lines(text);
    let fitting: Vec<_> = all.iter().filter(|line| places.contains(&line.place)).collect();
    let line = pick(stream, &fitting)?;
    let new = write(line.text, stream)?;
    Some(replaced(text, line.range.clone(), &new))
}

fn reordered(text: &str, stream: &mut Stream) -> Option<String> {
    rewritten(text, stream, &[Place::Prose], |paragraph, stream| {
        let mut parts = sentences(paragraph);
        stream.shuffle(&mut parts);
        Some(parts.join(" "))
    })
}

const ADDED: [&str; 12] = [
    "The work is done in the morning.",
    "Nobody in the group had tried this before.",
    "Gloves are worn throughout.",
    "A pupil keeps a careful notebook.",
    "The glassware is rinsed well beforehand.",
    "All of this happens on a steady bench.",
    "The same person does all the pipetting.",
    "It is worth reading this paragraph again.",
    "Mind the command term.",
    "The lid stays on between readings.",
    "Drops on the outside are wiped off.",
    "The order of the readings is drawn by lot.",
];

fn added_to_prose(text: &str, stream: &mut Stream) -> Option<String> {
    rewritten(text, stream, &[Place::Prose, Place::Figure, Place::Map], |paragraph, stream| {
        let mut parts = sentences(paragraph);
        let at = stream.below(parts.len() + 1);
        parts.insert(at, (*pick(stream, &ADDED)?).to_owned());
        Some(parts.join(" "))
    })
}

fn cells(row: &str) -> Vec<String> {
    row.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect()
}

fn row(cells: &[String]) -> String {
    format!("| {} |", cells.join(" | "))
}

fn added_to_guide(text: &str, stream: &mut Stream) -> Option<String> {
    rewritten(text, stream, &[Place::GuideRow], |line, stream| {
        let notes = [
            "Accept any clear wording.",
            "The term need not be named.",
            "Look for the reason, not for the word.",
            "A labelled sketch earns too.",
        ];
        let mut cells = cells(line);
        let note = *pick(stream, &notes)?;
        cells[1] = if stream.below(2) == 0 { format!("{} {note}", cells[1]) } else { format!("{note} {}", cells[1]) };
        Some(row(&cells))
    })
}

fn question(text: &str, stream: &mut Stream) -> Option<String> {
    let pairs = [
        ("Show the setup.", "Write down your working."),
        ("Show the setup.", "Let the examiner see how you got there."),
        ("A visitor claims", "Someone from the next village claims"),
        ("Under the same conditions,", "Treated in just the same way,"),
        ("**Describe** how", "In a sentence or two, **describe** in which way"),
        ("**Explain**, step by step, how", "**Explain**, link by link, how"),
        ("**Explain** how", "Using what you know, **explain** how"),
        ("**Identify** the", "**Identify**, in a few words, the"),
        ("Take ", "Use "),
        ("using ", "by means of "),
        ("Do not forget the unit.", ""),
        ("from the means and", "with the help of the means and"),
        ("A second", "Another"),
        ("In a second", "In another"),
        ("then changes", "now behaves"),
        ("of the investigation", "in this investigation"),
    ];
    swap_text(text, stream, &pairs, Place::Question)
}

fn swap_text(text: &str, stream: &mut Stream, pairs: &[(&str, &str)], place: Place) -> Option<String> {
    let mut found = Vec::new();
    for line in lines(text).iter().filter(|line| line.place == place) {
        for (old, new) in pairs {
            let places = line.text.match_indices(old).map(|(at, _)| line.range.start + at);
            found.extend(places.map(|at| (at..at + old.len(), *new)));
        }
    }
    let (range, new) = pick(stream, &found)?.clone();
    Some(replaced(text, range, new))
}

fn question_reordered(text: &str, stream: &mut Stream) -> Option<String> {
    rewritten(text, stream, &[Place::Question], |line, stream| {
        let (label, rest) = line.split_once(' ')?;
        let at = rest.rfind(" *(")?;
        let mut parts = sentences(&rest[..at]);
        let before = parts.clone();
        stream.shuffle(&mut parts);
        (parts != before).then(|| format!("{label} {}{}", parts.join(" "), &rest[at..]))
    })
}

fn blank_lines(text: &str, stream: &mut Stream) -> Option<String> {
    let (front, body) = text.split_at(text.match_indices("\n---\n").next()?.0 + 5);
    let many = "\n".repeat(2 + stream.below(3));
    let blank: Vec<usize> = body.match_indices("\n\n").map(|(at, _)| at).collect();
    let at = *pick(stream, &blank)?;
    Some(format!("{front}{}{many}\n{}", &body[..at], &body[at + 2..]))
}

/// Breaks a line into short ones, as an editor does.
fn wrapped(text: &str, stream: &mut Stream) -> Option<String> {
    let places = [Place::Prose, Place::Figure, Place::Question, Place::Answer, Place::Subtitle];
    rewritten(text, stream, &places, |line, stream| {
        let width = 50 + stream.below(60);
        let indent = if line.starts_with(|c: char| c.is_ascii_digit()) { "   " } else { "" };
        let mut out = String::new();
        let mut length = 0;
        for word in line.split(' ') {
            let more = word.chars().count() + 1;
            if length + more > width && length > 0 {
                out.push('\n');
                out.push_str(indent);
                length = 0;
            } else if length > 0 {
                out.push(' ');
            }
            out.push_str(word);
            length += more;
        }
        Some(out)
    })
}

/// Two letters of a long word change places, as when a slip is made or mended.
#[expect(clippy::too_many_lines, reason = "a list of words and their slips")]
fn typo(text: &str, stream: &mut Stream) -> Option<String> {
    let facts = [
        "three",
        "seven",
        "eight",
        "higher",
        "lower",
        "larger",
        "smaller",
        "falls",
        "rises",
        "fewer",
        "longer",
        "shorter",
        "brighter",
        "faster",
        "slower",
        "minutes",
        "raises",
        "lowers",
        "stays",
        "change",
        "describe",
        "explain",
        "identify",
        "predict",
        "justify",
        "calculate",
        "evaluate",
        "estimate",
        "points",
        "greater",
        "twenty",
        "thirty",
        "forty",
        "fifty",
        "sixty",
        "increases",
        "decreases",
        "shrinks",
        "unchanged",
        "goes",
        "grows",
        "drops",
        "climbs",
        "weaker",
        "stronger",
        "farther",
        "thirty",
        "fifteen",
        "forty",
        "hours",
    ];
    rewritten(text, stream, &[Place::Prose, Place::Question, Place::GuideRow, Place::Answer], |line, stream| {
        let mut found = Vec::new();
        let mut start = 0;
        for word in line.split(' ') {
            let plain = word.chars().all(char::is_alphabetic) && word.chars().count() >= 5;
            if plain && !facts.contains(&word.to_lowercase().as_str()) {
                found.push((start, word));
            }
            start += word.len() + 1;
        }
        let (start, word) = *pick(stream, &found)?;
        let mut letters: Vec<char> = word.chars().collect();
        let at = 1 + stream.below(letters.len() - 3);
        letters.swap(at, at + 1);
        let new: String = letters.into_iter().collect();
        Some(format!("{}{new}{}", &line[..start], &line[start + word.len()..]))
    })
}

/// A plain hyphen for a minus, `u` for `µ`, noughts at the end, thousands set apart, units in words.
fn number_style(text: &str, stream: &mut Stream) -> Option<String> {
    let mut found: Vec<(Range<usize>, String)> = Vec::new();
    for line in lines(text).iter().filter(|line| !matches!(line.place, Place::Front | Place::Heading | Place::Other)) {
        for (old, new) in [("µmol", "umol"), ("−", "-"), (" min", " minutes"), (" %", "%"), ("µm", "μm"), (" °C", "°C")]
        {
            for (at, _) in line.text.match_indices(old) {
                // "min⁻¹" is no number of minutes.
                let end = line.text[at + old.len()..].chars().next().map(|c| if c == '⁻' { 'x' } else { c });
                let in_header = line.place == Place::DataHeader;
                if !(end.is_some_and(char::is_alphanumeric) || in_header && old.starts_with(' ')) {
                    let range = line.range.start + at..line.range.start + at + old.len();
                    let after_digit = text[..range.start].ends_with(|c: char| c.is_ascii_digit());
                    if !old.starts_with(' ') || after_digit {
                        found.push((range, new.to_owned()));
                    }
                }
            }
        }
        for range in numbers(line) {
            let number = &text[range.clone()];
            if number.contains('.') {
                let shorter = number.trim_end_matches('0').trim_end_matches('.');
                let other = if shorter == number { format!("{number}0") } else { shorter.to_owned() };
                found.push((range, other));
            } else if number.len() > 3 {
                let (before, after) = number.split_at(number.len() - 3);
                found.push((range.clone(), format!("{before},{after}")));
                found.push((range, format!("{before}\u{202f}{after}")));
            }
        }
    }
    let (range, new) = pick(stream, &found)?.clone();
    Some(replaced(text, range, &new))
}

fn number_word(text: &str, stream: &mut Stream) -> Option<String> {
    let pairs = [
        ("three", "3"),
        ("four", "4"),
        ("five", "5"),
        ("six", "6"),
        ("seven", "7"),
        ("eight", "8"),
        ("twenty minutes", "20 minutes"),
        ("10 min", "ten minutes"),
        ("20 min", "twenty minutes"),
    ];
    swap(text, stream, &pairs, &[Place::Prose, Place::Figure])
}

fn emphasis(text: &str, stream: &mut Stream) -> Option<String> {
    let all = lines(text);
    let fitting: Vec<_> =
        all.iter().filter(|line| matches!(line.place, Place::Prose | Place::GuideRow | Place::DataRow)).collect();
    let line = pick(stream, &fitting)?;
    let whole = |range: &&Range<usize>| !text[range.end..].starts_with(|c: char| "⁰¹²³⁴⁵⁶⁷⁸⁹⁻".contains(c));
    let all = numbers(line);
    let fitting: Vec<_> = all.iter().filter(whole).collect();
    let range = (*pick(stream, &fitting)?).clone();
    let mark = *pick(stream, &["**", "*", "`", "_"])?;
    let inner = text[range.clone()].to_owned();
    Some(replaced(text, range, &format!("{mark}{inner}{mark}")))
}

fn spaces(text: &str, stream: &mut Stream) -> Option<String> {
    match stream.below(4) {
        0 => Some(text.replace('\n', "\r\n")),
        1 => Some(format!("\u{feff}{text}")),
        2 => Some(text.split('\n').map(|line| format!("{line}  ")).collect::<Vec<_>>().join("\n")),
        _ => {
            let all = lines(text);
            let rows: Vec<_> =
                all.iter().filter(|line| matches!(line.place, Place::DataRow | Place::GuideRow)).collect();
            let line = pick(stream, &rows)?;
            Some(replaced(text, line.range.clone(), &line.text.replace(" | ", "   |  ")))
        }
    }
}

fn alternative(text: &str, stream: &mut Stream) -> Option<String> {
    rewritten(text, stream, &[Place::GuideRow], |line, stream| {
        let mut cells = cells(line);
        let column = 2 + stream.below(2);
        let mut alternatives: Vec<String> =
            cells[column].split("; ").filter(|one| !one.is_empty()).map(str::to_owned).collect();
        if stream.below(2) == 0 && !alternatives.is_empty() {
            alternatives.remove(stream.below(alternatives.len()));
        } else {
            let new = ["the same in a drawing", "“it is all down to the membrane”", "a correct formula in words"];
            alternatives.push((*pick(stream, &new)?).to_owned());
        }
        cells[column] = alternatives.join("; ");
        Some(row(&cells))
    })
}

fn heading(text: &str, stream: &mut Stream) -> Option<String> {
    let pairs = [
        ("## Data", "## What they found"),
        ("## Questions", "## Your turn"),
        ("## How it works", "## The bench"),
        ("## Scoring guide", "## For the marker"),
        ("## Map", "## What this practises"),
        ("## What do you already know?", "## Before you start"),
        ("### Answers to the steps", "### Solutions"),
    ];
    if stream.below(4) == 0 {
        let all = lines(text);
        let title = all.iter().find(|line| line.text.starts_with("# "))?;
        return Some(replaced(text, title.range.clone(), "# A title of my own"));
    }
    let (old, new) = pick(stream, &pairs)?;
    text.contains(old).then(|| text.replacen(old, new, 1))
}

fn cautions(text: &str, stream: &mut Stream) -> Option<String> {
    if stream.below(2) == 0 {
        return Some(format!("{}\nAsk your teacher when in doubt.\n", text.trim_end()));
    }
    let at = text.find("*Fields:*")?;
    Some(format!("{}*Level:* upper school. {}", &text[..at], &text[at..]))
}

/// A picture gets words of its own, another name, or goes.
fn pictures(text: &str, stream: &mut Stream) -> Option<String> {
    let all = lines(text);
    let found: Vec<_> = all.iter().filter(|line| line.text.starts_with("![")).collect();
    let line = pick(stream, &found)?;
    let new = ["![A sketch of it](sketch-7.svg)", "", "*See the picture on the board.*"];
    Some(replaced(text, line.range.clone(), pick(stream, &new)?))
}

#[test]
fn rewordings_are_not_flagged() {
    let desk = Desk::new();
    let texts = desk.scenarios(4711, 120);
    let mut stream = Seed(8).stream("rewordings");
    let mut counts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let mut flagged = Vec::new();
    let mut made = 0;
    while made < N {
        let text = &texts[stream.below(texts.len())];
        let (kind, first) = REWORDINGS[made % REWORDINGS.len()];
        let Some(mut new) = first(text, &mut stream).filter(|new| new != text) else { continue };
        // A few more changes, since nobody stops at one; what breaks lines comes last, so that places stay known.
        let breaks = ["wrapped", "line ends and spaces", "blank lines"].contains(&kind);
        for _ in 0..if breaks { 0 } else { stream.below(3) } {
            let (_, more) = REWORDINGS[stream.below(8)];
            new = more(&new, &mut stream).unwrap_or(new);
        }
        made += 1;
        let found = desk.proof(new.clone().into_bytes());
        let entry = counts.entry(kind).or_default();
        entry.0 += 1;
        if !found.diagnostics.is_empty() {
            entry.1 += 1;
            flagged.push(format!("{kind}:\n{}", found.text()));
        }
    }
    println!("rewordings flagged: {} of {N}", flagged.len());
    for (kind, (n, flagged)) in &counts {
        println!("  {kind}: {flagged} of {n}");
    }
    for one in &flagged {
        println!("flagged {one}");
    }
    assert!(flagged.len() * 100 <= N, "{} of {N}", flagged.len());
}
