//! What a law is: a row of a table, with a function in it.
//!
//! What for: one shape for every formula, so that the graph's checks, the experiment, the command line and the tests
//! need no special case. **Must not know**: any law in particular.

use thiserror::Error;

use crate::quantity::{Unit, significant};

/// A value that goes into or comes out of a law, in the unit that its symbol states.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number.
    Number(f64),
    /// A list of numbers (counts, replicates, fragment lengths).
    List(Vec<f64>),
    /// Letters: a nucleotide or amino-acid sequence, a recognition site, a topology.
    Text(String),
}

/// What kind of value a symbol takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// One number.
    Number,
    /// A list of numbers.
    List,
    /// Letters.
    Text,
}

/// The unit a symbol is read in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitRule {
    /// This UCUM code.
    Ucum(&'static str),
    /// Any unit, the same as that of the named symbol of this law.
    Like(&'static str),
    /// Any unit; other symbols may refer to it.
    Any,
}

/// What raising an input does to the law's first output, other inputs held, over the valid range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// Raises it (or leaves it, at a limit).
    Plus,
    /// Lowers it (or leaves it, at a limit).
    Minus,
    /// Leaves it.
    None,
    /// Raises it below a point and lowers it above; the text says where.
    Turning(&'static str),
    /// Depends on the other inputs; the text says how.
    Depends(&'static str),
}

/// One input of a law.
#[derive(Debug, Clone, Copy)]
pub struct Symbol {
    /// The name used on the command line and in concept files (`mu_long`).
    pub id: &'static str,
    /// The symbol as printed in the formula (`μL`).
    pub letter: &'static str,
    /// The unit it is read in.
    pub unit: UnitRule,
    /// Number, list or letters.
    pub kind: Kind,
    /// Least and greatest value at which the law is taken to hold, both included. Open ends are infinite.
    pub range: (f64, f64),
    /// What it is, in a few words.
    pub meaning: &'static str,
    /// Effect on the first output of raising it.
    pub effect: Effect,
    /// What the command line takes where it is not given.
    pub default: Option<f64>,
}

/// One output of a law.
#[derive(Debug, Clone, Copy)]
pub struct Output {
    /// The name under which it is reported.
    pub id: &'static str,
    /// Its unit.
    pub unit: UnitRule,
    /// What it is, in a few words.
    pub meaning: &'static str,
}

/// The law solved for one of its inputs.
#[derive(Debug, Clone, Copy)]
pub struct Inverse {
    /// The input that is found.
    pub symbol: &'static str,
    /// The value of that input, from the first output and all inputs (that input's own place is not read).
    pub solve: fn(f64, &[Value]) -> Result<f64, LawError>,
}

/// One law of the library.
#[derive(Debug, Clone, Copy)]
pub struct Law {
    /// Stable name (`gel-mobility`).
    pub id: &'static str,
    /// Family, as in the manual (`separation`).
    pub family: &'static str,
    /// The law's name in words, with no article.
    pub title: &'static str,
    /// The formula as a reader sees it, in Unicode.
    pub formula: &'static str,
    /// Inputs, in the order that `eval` takes them.
    pub inputs: &'static [Symbol],
    /// Outputs, in the order that `eval` gives them; the first is *the* value.
    pub outputs: &'static [Output],
    /// What is assumed, and where the law stops holding.
    pub assumptions: &'static str,
    /// Where it was published.
    pub source: &'static str,
    /// The right-hand side with `{symbol}` in place of each input, for "show the setup"; empty where no class would
    /// work it by hand.
    pub setup: &'static str,
    /// Believable inputs as the command line takes them, one of them a range (`start:stop:step`) where a curve is worth
    /// drawing; `show` plots it, the bench and the tests run it.
    pub example: &'static str,
    /// The formula itself. Inputs have been checked against kind and range.
    pub eval: fn(&[Value]) -> Result<Vec<Value>, LawError>,
    /// Solved for some inputs, where a calculation part asks for them.
    pub inverses: &'static [Inverse],
}

/// Why a law gives no value.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LawError {
    /// A value lies outside the range in which the law holds.
    #[error("{}", outside(.symbol, *.value, (*.low, *.high), .unit))]
    OutOfRange {
        /// The input's id.
        symbol: &'static str,
        /// What was given.
        value: f64,
        /// Least value allowed.
        low: f64,
        /// Greatest value allowed.
        high: f64,
        /// Unit of all three.
        unit: &'static str,
    },
    /// A value of the wrong kind.
    #[error("`{symbol}` takes {expected}")]
    WrongKind {
        /// The input's id.
        symbol: &'static str,
        /// "a number", "a list of numbers", "letters".
        expected: &'static str,
    },
    /// The number of inputs is wrong.
    #[error("{given} inputs given, {expected} needed")]
    WrongCount {
        /// How many came.
        given: usize,
        /// How many the law has.
        expected: usize,
    },
    /// Inputs in range one by one that cannot go together.
    #[error("{0}")]
    Impossible(String),
}

/// "`ph` is 20, outside −1 to 15" with the unit behind, where there is one.
fn outside(symbol: &str, value: f64, (low, high): (f64, f64), unit: &str) -> String {
    let write = |number: f64| significant::shortest(number, 6);
    let range = format!("`{symbol}` is {}, outside {} to {}", write(value), write(low), write(high));
    Unit::parse(unit).map_or_else(|_| range.clone(), |unit| unit.attach(&range))
}

impl Law {
    /// Place and description of the input of this name.
    pub fn input(&self, id: &str) -> Option<(usize, &'static Symbol)> {
        self.inputs.iter().enumerate().find(|(_, symbol)| symbol.id == id)
    }

    /// All outputs for these inputs, after checking their number, kinds and ranges.
    ///
    /// # Errors
    /// The first input that does not fit, or inputs that cannot go together.
    pub fn evaluate(&self, inputs: &[Value]) -> Result<Vec<Value>, LawError> {
        if inputs.len() != self.inputs.len() {
            return Err(LawError::WrongCount { given: inputs.len(), expected: self.inputs.len() });
        }
        for (symbol, value) in self.inputs.iter().zip(inputs) {
            symbol.admits(value)?;
        }
        let outputs = (self.eval)(inputs)?;
        let endless = |value: &Value| matches!(value, Value::Number(x) if !x.is_finite());
        if outputs.iter().any(endless) {
            return Err(LawError::Impossible("these inputs give no finite value".to_owned()));
        }
        Ok(outputs)
    }

    /// The input of this name that makes the first output this value, the other inputs held; its own place is not read.
    ///
    /// # Errors
    /// The law has no inverse for that input; no value in range gives that output.
    pub fn solve(&self, symbol: &str, output: f64, inputs: &[Value]) -> Result<f64, LawError> {
        let (Some(inverse), Some((_, input))) =
            (self.inverses.iter().find(|inverse| inverse.symbol == symbol), self.input(symbol))
        else {
            return Err(LawError::Impossible(format!("`{}` is not solved for `{symbol}`", self.id)));
        };
        if inputs.len() != self.inputs.len() {
            return Err(LawError::WrongCount { given: inputs.len(), expected: self.inputs.len() });
        }
        for (other, value) in self.inputs.iter().zip(inputs) {
            if other.id != symbol {
                other.admits(value)?;
            }
        }
        let value = (inverse.solve)(output, inputs)?;
        input.admits(&Value::Number(value))?;
        Ok(value)
    }

    /// The first output as a number.
    ///
    /// # Errors
    /// As [`Law::evaluate`]; also where the first output is not a number.
    pub fn value(&self, inputs: &[Value]) -> Result<f64, LawError> {
        match self.evaluate(inputs)?.first() {
            Some(Value::Number(value)) => Ok(*value),
            _ => Err(LawError::Impossible(format!("`{}` does not give a single number", self.id))),
        }
    }
}

impl Symbol {
    /// The same symbol, taken as this where the command line does not give it.
    #[must_use]
    pub const fn or(mut self, default: f64) -> Self {
        self.default = Some(default);
        self
    }

    /// Checks kind and range.
    ///
    /// # Errors
    /// `WrongKind` or `OutOfRange`.
    pub fn admits(&self, value: &Value) -> Result<(), LawError> {
        let (low, high) = self.range;
        let unit = match self.unit {
            UnitRule::Ucum(code) => code,
            UnitRule::Like(_) | UnitRule::Any => "",
        };
        let outside = |x: f64| x.is_nan() || x < low || x > high;
        match (self.kind, value) {
            (Kind::Number, Value::Number(x)) if outside(*x) => {
                Err(LawError::OutOfRange { symbol: self.id, value: *x, low, high, unit })
            }
            (Kind::List, Value::List(xs)) => match xs.iter().find(|x| outside(**x)) {
                Some(x) => Err(LawError::OutOfRange { symbol: self.id, value: *x, low, high, unit }),
                None => Ok(()),
            },
            (Kind::Number, Value::Number(_)) | (Kind::Text, Value::Text(_)) => Ok(()),
            (Kind::Number, _) => Err(LawError::WrongKind { symbol: self.id, expected: "a number" }),
            (Kind::List, _) => Err(LawError::WrongKind { symbol: self.id, expected: "a list of numbers" }),
            (Kind::Text, _) => Err(LawError::WrongKind { symbol: self.id, expected: "letters" }),
        }
    }
}
