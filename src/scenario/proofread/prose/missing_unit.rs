//! A number told without the unit that the same number has elsewhere.

use std::collections::BTreeMap;

use super::super::numbers::{Number, numbers};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "missing-unit",
        meaning: "a number stands without a unit, and elsewhere in the text the same number has one",
        wrong: "The bath at 0.25 mol/L is read first, and that at 0.25 again later.",
        right: "The bath at 0.25 mol/L is read first, and again later.",
    },
    hint: "add the unit",
    source: Some("SI Brochure, 9th ed., section 5.4: a value is a number and a unit (from memory)"),
    severity: Severity::Warning,
    after_edit: false,
    check,
};

/// Units as they are printed, up to the first sign of composition.
const UNITS: &[&str] = &[
    "%", "°", "°C", "K", "mol", "mmol", "µmol", "nmol", "pmol", "L", "mL", "µL", "s", "min", "h", "V", "mV", "kV", "m",
    "mm", "cm", "µm", "nm", "pm", "bp", "kbp", "kJ", "J", "W", "kPa", "Pa", "bar", "g", "mg", "µg", "ng", "kg", "M",
    "mM", "µM", "s⁻¹", "µm⁻¹", "mm⁻¹", "lx", "Hz", "osmol", "mosmol", "seconds", "second", "minutes", "minute",
    "hours", "hour", "days", "percent", "per", "kD", "kDa", "Da", "U", "A", "mA", "N", "d",
];
/// Words after which a number counts or compares, and needs no unit.
const BARE: &[&str] =
    &["fraction", "share", "ratio", "factor", "times", "ph", "pka", "step", "level", "of", "near", "=", "×", "−", "+"];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let told = |kind| matches!(kind, Kind::Purpose | Kind::Procedure | Kind::Question);
    let passages: Vec<_> = manuscript.passages().into_iter().filter(|passage| told(passage.kind)).collect();
    let mut with_unit: BTreeMap<&str, &str> = BTreeMap::new();
    for passage in &passages {
        for number in numbers(passage.text) {
            if let Some(unit) = unit_after(passage.text, number) {
                with_unit.insert(number.text, unit);
            }
        }
    }
    let mut found = Vec::new();
    for passage in &passages {
        for number in numbers(passage.text).into_iter().filter(|number| number.text.len() > 1) {
            let Some(unit) = with_unit.get(number.text) else { continue };
            if unit_after(passage.text, number).is_none() && stands_bare(passage.text, number) {
                let start =
                    passage.text.get(..number.start).and_then(|before| before.trim_end().rfind(' ')).unwrap_or(0);
                let quote = passage.text.get(start..number.end).unwrap_or_default().trim();
                found.push(Found::new(&*passage.place, quote, format!("elsewhere it is `{} {unit}`", number.text)));
            }
        }
    }
    found
}

/// The unit after a number; in a list the last one's unit serves all.
fn unit_after<'a>(text: &'a str, number: Number<'_>) -> Option<&'a str> {
    let after = text.get(number.end..)?;
    let token = after.trim_start().split([' ', ',', ';', ')', '*']).next().unwrap_or_default();
    let token = token.trim_end_matches(['.', '?', ':', '”']);
    let symbol = token.split(['/', '·', '(']).next().unwrap_or_default();
    if UNITS.contains(&symbol) {
        return Some(token);
    }
    let next = numbers(text).into_iter().find(|next| next.start >= number.end)?;
    let between = text.get(number.end..next.start)?.trim();
    [",", "and", "to", "or", "–", ", and", "against"].contains(&between).then(|| unit_after(text, next)).flatten()
}

/// Whether a number neither counts what follows nor compares.
fn stands_bare(text: &str, number: Number<'_>) -> bool {
    let before = text.get(..number.start).unwrap_or_default().trim_end();
    let word = before.rsplit([' ', '(']).next().unwrap_or_default().to_lowercase();
    let after = text.get(number.end..).unwrap_or_default();
    let next = after.trim_start().split([' ', ',', '.']).next().unwrap_or_default();
    let ends = after.is_empty() || after.starts_with([',', '.', ';', ')', '?']);
    let small = ["and", "in", "at", "of", "for", "is", "are", "than", "there", "as"].contains(&next);
    // A number in a formula has its unit elsewhere.
    let alone = text.get(..number.start).is_some_and(|before| before.ends_with([' ', '(']));
    alone && !BARE.contains(&word.as_str()) && (ends || small)
}
