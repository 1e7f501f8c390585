//! Inputs as a person types them: `vmax=100 km=2 substrate=0:20:0.5`.
//!
//! What for: the command line, each law's example, the bench and the tests read values in one way.
//! **Must not know**: any law in particular; where the words come from.

use thiserror::Error;

use super::law::{Kind, Law, UnitRule, Value};
use crate::quantity::significant;

/// Levels that one range may have at most, so that a slip of the keyboard does not fill the memory.
const MOST_LEVELS: f64 = 1e6;
/// Numbers of levels below this are written in full.
const LARGEST_PLAIN: f64 = 1e9;

/// Inputs that have been read, in the order of the law's symbols.
#[derive(Debug, Clone, PartialEq)]
pub struct Typed {
    /// One value for each symbol; the place of a range holds its first level.
    pub values: Vec<Value>,
    /// The input that is to take several levels, if there is one.
    pub range: Option<Range>,
}

/// Levels of one input.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// Which input.
    pub place: usize,
    /// Its levels, in the order asked for.
    pub levels: Vec<f64>,
}

/// Why typed inputs can't be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TypedError {
    /// A word without an equals sign.
    #[error("`{0}` is not of the form symbol=value")]
    NoEquals(String),
    /// A symbol that the law does not have.
    #[error("`{law}` has no symbol `{name}`")]
    Unknown {
        /// The law's id.
        law: &'static str,
        /// What was typed.
        name: String,
        /// The nearest symbol, where one is near.
        near: Option<&'static str>,
        /// All symbols.
        known: Vec<&'static str>,
    },
    /// A symbol given twice.
    #[error("`{0}` is given twice")]
    Twice(&'static str),
    /// Symbols that were not given, each with its unit.
    #[error("`{law}` also needs {}", missing.join(", "))]
    Missing {
        /// The law's id.
        law: &'static str,
        /// The symbols.
        missing: Vec<String>,
    },
    /// Something else where a number belongs.
    #[error("`{value}` in `{symbol}` is not a number")]
    NotNumber {
        /// The symbol.
        symbol: &'static str,
        /// What was typed.
        value: String,
    },
    /// A range that has no levels or too many.
    #[error("`{value}` in `{symbol}` is not a range: start:stop:step, the step leading from one to the other")]
    BadRange {
        /// The symbol.
        symbol: &'static str,
        /// What was typed.
        value: String,
    },
    /// A range of far too many levels.
    #[error("`{value}` in `{symbol}` has {n} values; a range has {most} at most")]
    TooMany {
        /// The symbol.
        symbol: &'static str,
        /// What was typed.
        value: String,
        /// How many levels it has, in figures.
        n: String,
        /// How many it may have.
        most: String,
    },
    /// More than one range, or a range where a list or letters belong.
    #[error("`{0}` can't be a second range: one input is varied at a time")]
    TwoRanges(&'static str),
}

impl Law {
    /// Reads words of the form symbol=value, in any order: numbers (`inf` too), lists (`5474,1850`), letters, and for one
    /// number a range (`0:10:0.5`, the stop included).
    ///
    /// # Errors
    /// The first word that does not fit; then the symbols that are missing.
    pub fn read<W: AsRef<str>>(&self, words: &[W]) -> Result<Typed, TypedError> {
        let mut given: Vec<Option<Value>> = vec![None; self.inputs.len()];
        let mut range = None;
        for word in words {
            let word = word.as_ref();
            let (name, text) = word.split_once('=').ok_or_else(|| TypedError::NoEquals(word.to_owned()))?;
            let (place, symbol) = self.input(name.trim()).ok_or_else(|| self.unknown(name.trim()))?;
            let value = match symbol.kind {
                Kind::Text => Value::Text(text.to_owned()),
                Kind::List => Value::List(list(symbol.id, text)?),
                Kind::Number if text.contains(':') => {
                    let levels = levels(symbol.id, text)?;
                    let first = levels.first().copied().unwrap_or_default();
                    if range.replace(Range { place, levels }).is_some() {
                        return Err(TypedError::TwoRanges(symbol.id));
                    }
                    Value::Number(first)
                }
                Kind::Number => Value::Number(number(symbol.id, text)?),
            };
            if let Some(slot) = given.get_mut(place)
                && slot.replace(value).is_some()
            {
                return Err(TypedError::Twice(symbol.id));
            }
        }
        Ok(Typed { values: self.complete(given)?, range })
    }

    /// The law's own example.
    ///
    /// # Errors
    /// Never for a law of the library: a test reads them all.
    pub fn read_example(&self) -> Result<Typed, TypedError> {
        self.read(&self.example.split_whitespace().collect::<Vec<_>>())
    }

    /// Puts defaults in the empty places.
    fn complete(&self, given: Vec<Option<Value>>) -> Result<Vec<Value>, TypedError> {
        let filled: Vec<Option<Value>> = given
            .into_iter()
            .zip(self.inputs)
            .map(|(value, symbol)| value.or_else(|| symbol.default.map(Value::Number)))
            .collect();
        let missing: Vec<String> = filled
            .iter()
            .zip(self.inputs)
            .filter(|(value, _)| value.is_none())
            .map(|(_, symbol)| match symbol.unit {
                UnitRule::Ucum("1") | UnitRule::Any => format!("`{}`", symbol.id),
                UnitRule::Ucum(code) => format!("`{}` in {code}", symbol.id),
                UnitRule::Like(other) => format!("`{}` in the unit of `{other}`", symbol.id),
            })
            .collect();
        if missing.is_empty() {
            Ok(filled.into_iter().flatten().collect())
        } else {
            Err(TypedError::Missing { law: self.id, missing })
        }
    }

    fn unknown(&self, name: &str) -> TypedError {
        let known: Vec<&'static str> = self.inputs.iter().map(|symbol| symbol.id).collect();
        TypedError::Unknown { law: self.id, name: name.to_owned(), near: nearest(name, known.iter().copied()), known }
    }
}

impl Typed {
    /// The inputs at each level of the range; once as they are where there is none.
    pub fn levels(&self) -> impl Iterator<Item = Vec<Value>> + '_ {
        let place = self.range.as_ref().map(|range| range.place);
        let fixed = if place.is_none() { Some(self.values.clone()) } else { None };
        let levels = self.range.iter().flat_map(|range| range.levels.iter());
        fixed.into_iter().chain(levels.map(move |level| {
            let mut values = self.values.clone();
            if let Some(slot) = place.and_then(|place| values.get_mut(place)) {
                *slot = Value::Number(*level);
            }
            values
        }))
    }

    /// The inputs with the range at its middle level.
    pub fn middle(&self) -> Vec<Value> {
        let mut values = self.values.clone();
        if let Some(range) = &self.range
            && let (Some(slot), Some(level)) = (values.get_mut(range.place), range.levels.get(range.levels.len() / 2))
        {
            *slot = Value::Number(*level);
        }
        values
    }
}

/// The nearest of some names, where one is near enough to be meant.
pub fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let (likeness, near) = known
        .map(|candidate| (strsim::jaro_winkler(name, candidate), candidate))
        .max_by(|(one, _), (other, _)| one.total_cmp(other))?;
    (likeness >= 0.75 || strsim::damerau_levenshtein(name, near) <= 1).then_some(near)
}

fn number(symbol: &'static str, text: &str) -> Result<f64, TypedError> {
    significant::parse(text).ok_or_else(|| TypedError::NotNumber { symbol, value: text.to_owned() })
}

fn list(symbol: &'static str, text: &str) -> Result<Vec<f64>, TypedError> {
    text.split(',').map(|part| number(symbol, part)).collect()
}

/// The levels from start to stop, both included where the step leads there; freed of the rounding that adding up brings.
fn levels(symbol: &'static str, text: &str) -> Result<Vec<f64>, TypedError> {
    let parts: Vec<f64> = text.split(':').map(|part| number(symbol, part)).collect::<Result<_, _>>()?;
    let bad = || TypedError::BadRange { symbol, value: text.to_owned() };
    let [start, end, step] = parts.as_slice() else { return Err(bad()) };
    let steps = (end - start) / step;
    if steps.is_nan() || steps < 0.0 || !step.is_finite() {
        return Err(bad());
    }
    if steps >= MOST_LEVELS {
        let n = (steps + 1e-9).floor() + 1.0;
        let n = if n < LARGEST_PLAIN { format!("{n}") } else { format!("about {}", significant::shortest(n, 2)) };
        return Err(TypedError::TooMany { symbol, value: text.to_owned(), n, most: format!("{MOST_LEVELS}") });
    }
    let last = (steps + 1e-9).floor();
    let places = std::iter::successors(Some(0.0), |place| Some(place + 1.0)).take_while(|place| *place <= last);
    Ok(places.map(|place| tidy(start + place * step, step.abs())).collect())
}

/// 0.30000000000000004 as 0.3; what is next to nothing beside the step as 0.
fn tidy(level: f64, step: f64) -> f64 {
    if level.abs() < 1e-9 * step { 0.0 } else { significant::round_to(level, 12) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::laws::{all, find};

    #[test]
    fn every_example_can_be_read_and_evaluated() {
        for law in all() {
            let typed = law.read_example().unwrap_or_else(|error| panic!("{}: {error}", law.id));
            for values in typed.levels() {
                if let Err(error) = law.evaluate(&values) {
                    panic!("{} {values:?}: {error}", law.id);
                }
            }
        }
    }

    #[test]
    fn ranges_include_their_stop() {
        let law = find("michaelis-menten").unwrap();
        let typed = law.read(&["vmax=1", "km=1", "substrate=0:0.3:0.1"]).unwrap();
        assert_eq!(typed.range.unwrap().levels, [0.0, 0.1, 0.2, 0.3]);
        let back = law.read(&["vmax=1", "km=1", "substrate=3:0:-1.5"]).unwrap();
        assert_eq!(back.range.unwrap().levels, [3.0, 1.5, 0.0]);
        for bad in ["0:1", "0:1:0", "0:1:-1", "0:1e9:1e-9", "0:x:1"] {
            assert!(law.read(&["vmax=1", "km=1", &format!("substrate={bad}")]).is_err(), "{bad}");
        }
        let most = law.read(&["vmax=1", "km=1", "substrate=0:999999:1"]).unwrap();
        assert_eq!(most.range.unwrap().levels.len(), 1_000_000);
        for (many, said) in [("0:1e9:1e-9", "has about 1 × 10¹⁸ values"), ("0:1000000:1", "has 1000001 values")] {
            let error = law.read(&["vmax=1", "km=1", &format!("substrate={many}")]).unwrap_err().to_string();
            assert!(error.contains(said) && error.ends_with("a range has 1000000 at most"), "{error}");
        }
    }

    #[test]
    fn says_what_is_wrong() {
        let law = find("michaelis-menten").unwrap();
        let wrong = |words: &[&str]| law.read(words).unwrap_err().to_string();
        assert_eq!(wrong(&["vmax=1", "km=2"]), "`michaelis-menten` also needs `substrate` in the unit of `km`");
        assert_eq!(wrong(&["vmax=1", "vmax=2"]), "`vmax` is given twice");
        assert_eq!(wrong(&["vmax"]), "`vmax` is not of the form symbol=value");
        assert_eq!(wrong(&["km=two"]), "`two` in `km` is not a number");
        assert!(matches!(law.read(&["kn=2"]).unwrap_err(), TypedError::Unknown { near: Some("km"), .. }));
    }
}
