//! The sheet of formulas and constants: what the laws of a version's questions use.

use std::collections::BTreeSet;

use serde::Serialize;

use super::Version;
use crate::concepts::graph::Graph;
use crate::laws::{self, Kind, Law, Symbol, UnitRule};
use crate::quantity::constants::{self, Constant};
use crate::quantity::{Unit, significant};

/// A formula with its symbols.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct FormulaView {
    title: String,
    law: &'static str,
    gives: SymbolView,
    symbols: Vec<SymbolView>,
}

/// A symbol with its unit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct SymbolView {
    letter: String,
    meaning: String,
    unit: String,
}

/// A constant as a formula sheet shows it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(super) struct ConstantView {
    name: &'static str,
    letter: &'static str,
    value: String,
}

/// Formulas that a class works by hand, each once, in the order of the questions, and the constants in them.
pub(super) fn formulas(graph: &Graph, version: &Version) -> (Vec<FormulaView>, Vec<ConstantView>) {
    let mut met: BTreeSet<&'static str> = BTreeSet::new();
    let mut laws: Vec<&'static Law> = Vec::new();
    for question in &version.questions {
        let rival = question.scenario.twist.iter().flat_map(|twist| twist.rival_path.iter().flatten());
        for id in question.scenario.path.iter().chain(rival) {
            let Some(ix) = graph.find_influence(id) else { continue };
            let law = graph.influence(ix).law.law;
            if !law.setup.is_empty() && met.insert(law.id) {
                laws.push(law);
            }
        }
    }
    // A test that is asked for is no step of a path.
    let parts = version.questions.iter().flat_map(|question| &question.scenario.parts);
    if parts.into_iter().any(|part| part.text.contains("chi-square")) {
        laws.extend(laws::find("chi-square"));
    }
    let constants: BTreeSet<ConstantView> = laws.iter().flat_map(|law| constants_of(law)).collect();
    (laws.into_iter().map(formula).collect(), constants.into_iter().collect())
}

fn formula(law: &'static Law) -> FormulaView {
    // How many degrees of freedom there are, a question tells.
    let shown = law.formula.split(';').next().unwrap_or(law.formula);
    let left = law.formula.split_once('=').map_or("", |(left, _)| left.trim());
    let gives = law.outputs.first().map(|output| SymbolView {
        letter: left.to_owned(),
        meaning: plain(output.meaning).to_owned(),
        unit: unit(output.unit, law),
    });
    let gives = gives.unwrap_or(SymbolView { letter: left.to_owned(), meaning: String::new(), unit: String::new() });
    let stands = |symbol: &&Symbol| symbol.kind != Kind::Text && shown.contains(symbol.letter);
    let symbols = law.inputs.iter().filter(stands).map(|symbol| SymbolView {
        letter: symbol.letter.to_owned(),
        meaning: plain(symbol.meaning).to_owned(),
        // What the formula takes in kelvins is told in kelvins, whatever the questions tell it in.
        unit: if law.setup.contains(&format!("{{{}:K}}", symbol.id)) { "K".into() } else { unit(symbol.unit, law) },
    });
    FormulaView { title: capital(law.title), law: shown, gives, symbols: symbols.collect() }
}

/// The unit as readers write it; empty for a plain number.
fn unit(rule: UnitRule, law: &Law) -> String {
    match rule {
        UnitRule::Ucum(code) => Unit::parse(code).map_or_else(|_| code.to_owned(), |unit| unit.display().to_owned()),
        UnitRule::Like(id) => match law.input(id).map(|(_, symbol)| (symbol.unit, symbol.letter)) {
            Some((UnitRule::Ucum(code), _)) => unit(UnitRule::Ucum(code), law),
            Some((_, letter)) => format!("unit of {letter}"),
            None => String::new(),
        },
        UnitRule::Any => String::new(),
    }
}

/// A meaning without what it says of the command line in brackets, as in "(`inf`: not bound)".
fn plain(meaning: &'static str) -> &'static str {
    meaning.split_once(" (`").map_or(meaning, |(before, _)| before)
}

/// Constants whose value stands in a law's setup, with the digits that stand there.
fn constants_of(law: &Law) -> Vec<ConstantView> {
    let mut found: Vec<ConstantView> =
        constants::ALL.iter().filter_map(|constant| value(constant, law.setup)).collect();
    if law.setup.contains(":K}") {
        let ice = &constants::ICE_POINT;
        let value = format!("{} = 0 °C", shown(ice, &significant::decimals(ice.value, 2)));
        found.push(ConstantView { name: ice.name, letter: "", value });
    }
    found
}

fn value(constant: &'static Constant, setup: &str) -> Option<ConstantView> {
    let digits = (3..=6).rev().map(|figures| significant::figures(constant.value, figures));
    let digits = digits.into_iter().find(|digits| setup.contains(&format!("({digits} ")))?;
    Some(ConstantView { name: constant.name, letter: constant.letter, value: shown(constant, &digits) })
}

fn shown(constant: &Constant, digits: &str) -> String {
    Unit::parse(constant.unit).map_or_else(|_| digits.to_owned(), |unit| unit.attach(digits))
}

fn capital(text: &str) -> String {
    // "pH of a buffer" keeps its small letter.
    if text.chars().nth(1).is_some_and(char::is_uppercase) {
        return text.to_owned();
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// # Source
    /// In Ψs = −iCRT and in van 't Hoff's 1/Tm − 1/T, T is the thermodynamic temperature (SI Brochure, 9th edition, 2.3.1: its
    /// unit is the kelvin); Q10^((T2 − T1)/10) takes a difference, which is the same in degrees Celsius.
    #[test]
    fn thermodynamic_temperatures_are_in_kelvins() {
        let units = |id: &str| -> Vec<(String, String)> {
            let symbols = formula(laws::find(id).expect("a law")).symbols;
            let temperatures = symbols.into_iter().filter(|symbol| symbol.letter.starts_with('T'));
            temperatures.map(|symbol| (symbol.letter, symbol.unit)).collect()
        };
        let pair = |letter: &str, unit: &str| (letter.to_owned(), unit.to_owned());
        assert_eq!(units("solute-potential"), [pair("T", "K")]);
        assert_eq!(units("q10"), [pair("T1", "°C"), pair("T2", "°C")]);
        let hairpin = laws::all().filter(|law| law.formula.contains("1/T")).map(|law| law.id);
        for id in hairpin {
            assert!(units(id).iter().all(|(_, unit)| unit == "K"), "{id}");
        }
    }
}
