//! Units at run time: UCUM codes read, converted, printed.

use thiserror::Error;

use super::atoms;
use super::constants::ICE_POINT;
use super::dimension::Dimension;
use super::significant::superscript;

/// Why a unit can't be read or a value converted.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum UnitError {
    /// An atom that the table does not have.
    #[error("unknown unit `{atom}` in `{code}`")]
    Unknown {
        /// The whole code.
        code: String,
        /// The part that is not known.
        atom: String,
    },
    /// A code that breaks off or has a sign too many.
    #[error("`{code}` is not a unit: {reason}")]
    Malformed {
        /// The whole code.
        code: String,
        /// What is wrong with it.
        reason: &'static str,
    },
    /// Units of unlike things.
    #[error("`{from}` ({from_dimension}) can't be turned into `{to}` ({to_dimension})")]
    Unlike {
        /// Code of the unit given.
        from: String,
        /// Its dimension.
        from_dimension: String,
        /// Code of the unit wanted.
        to: String,
        /// Its dimension.
        to_dimension: String,
    },
}

/// A unit: its code, what it measures and how many base units it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit {
    code: String,
    display: String,
    dimension: Dimension,
    factor: f64,
    offset: f64,
}

impl Unit {
    /// Reads a UCUM code: `umol/(L.min)`, `cm2/(V.s)`, `1/%`, `Cel`, `CFU/mL`, `1`.
    ///
    /// # Errors
    /// Unknown atoms and codes that break off.
    pub fn parse(code: &str) -> Result<Self, UnitError> {
        let mut reader = Reader { code, rest: code, n_atoms: 0, celsius: false };
        let term = reader.term()?;
        if !reader.rest.is_empty() {
            return Err(reader.malformed("something is left over"));
        }
        let offset = if reader.celsius && reader.n_atoms == 1 && term.alone { ICE_POINT.value } else { 0.0 };
        if reader.celsius && offset <= 0.0 {
            return Err(reader.malformed("degrees Celsius can't be part of a product; write K"));
        }
        Ok(Self {
            code: code.to_owned(),
            display: inverted(&term.display).unwrap_or(term.display),
            dimension: term.dimension,
            factor: term.factor,
            offset,
        })
    }

    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        self.dimension
    }

    /// The code it was read from.
    pub fn code(&self) -> &str {
        &self.code
    }

    /// As a reader sees it: `µm²/s`, `mol/L`, `°C`; nothing for a plain number and for pH.
    pub fn display(&self) -> &str {
        &self.display
    }

    /// A written number with the unit behind it: "64 %", "0.30 mol/L", "7.2".
    pub fn attach(&self, number: &str) -> String {
        if self.display.is_empty() { number.to_owned() } else { format!("{number} {}", self.display) }
    }

    /// The value in another unit of the same dimension.
    ///
    /// # Errors
    /// The dimensions differ.
    pub fn convert(&self, value: f64, to: &Self) -> Result<f64, UnitError> {
        if self.dimension != to.dimension {
            return Err(UnitError::Unlike {
                from: self.code.clone(),
                from_dimension: self.dimension.to_string(),
                to: to.code.clone(),
                to_dimension: to.dimension.to_string(),
            });
        }
        if self.code == to.code {
            return Ok(value);
        }
        Ok((value * self.factor + (self.offset - to.offset)) / to.factor)
    }
}

/// A part of a code that has been read.
struct Term {
    factor: f64,
    dimension: Dimension,
    display: String,
    /// Whether it is one bare atom.
    alone: bool,
}

/// Reads a code from left to right.
struct Reader<'a> {
    code: &'a str,
    rest: &'a str,
    n_atoms: usize,
    celsius: bool,
}

impl<'a> Reader<'a> {
    fn malformed(&self, reason: &'static str) -> UnitError {
        UnitError::Malformed { code: self.code.to_owned(), reason }
    }

    /// Takes this sign off the front, if it is there.
    fn take(&mut self, sign: char) -> bool {
        self.rest.strip_prefix(sign).is_some_and(|rest| {
            self.rest = rest;
            true
        })
    }

    /// Takes off the front while the test holds.
    fn take_while(&mut self, test: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|c| !test(c)).unwrap_or(self.rest.len());
        let (head, tail) = self.rest.split_at(end);
        self.rest = tail;
        head
    }

    /// Components joined by `.` and `/`, read from left to right.
    fn term(&mut self) -> Result<Term, UnitError> {
        let mut whole = Term { factor: 1.0, dimension: Dimension::NONE, display: String::new(), alone: true };
        let mut power = 1;
        if self.take('/') {
            whole.display.push_str("1/");
            whole.alone = false;
            power = -1;
        }
        loop {
            let part = self.component()?;
            whole.factor = if power > 0 { whole.factor * part.factor } else { whole.factor / part.factor };
            whole.dimension = whole.dimension.times(part.dimension, power);
            whole.display.push_str(&part.display);
            whole.alone = whole.alone && part.alone;
            if self.take('.') {
                power = 1;
                whole.display.push('·');
            } else if self.take('/') {
                power = -1;
                if whole.display.is_empty() {
                    whole.display.push('1');
                }
                whole.display.push('/');
            } else {
                return Ok(whole);
            }
            whole.alone = false;
        }
    }

    /// A bracketed term, an annotation, a number, or an atom with its power.
    fn component(&mut self) -> Result<Term, UnitError> {
        if self.take('(') {
            let inner = self.term()?;
            if !self.take(')') {
                return Err(self.malformed("a bracket stays open"));
            }
            return Ok(Term { display: format!("({})", inner.display), alone: false, ..inner });
        }
        if self.take('{') {
            let name = self.take_while(|c| c != '}');
            if !self.take('}') {
                return Err(self.malformed("a brace stays open"));
            }
            return Ok(Term { factor: 1.0, dimension: Dimension::NONE, display: name.to_owned(), alone: false });
        }
        if self.rest.starts_with(|c: char| c.is_ascii_digit()) {
            return self.number();
        }
        self.atom()
    }

    /// A whole number, or a power of ten (`10*6`).
    fn number(&mut self) -> Result<Term, UnitError> {
        let digits = self.take_while(|c| c.is_ascii_digit());
        if digits == "10" && (self.take('*') || self.take('^')) {
            let power = self.power()?;
            let display = format!("10{}", superscript(i32::from(power)));
            return Ok(Term { factor: ten_to(power), dimension: Dimension::NONE, display, alone: false });
        }
        let factor: f64 = digits.parse().map_err(|_| self.malformed("a number is too long"))?;
        let display = if digits == "1" && !self.rest.starts_with('/') { String::new() } else { digits.to_owned() };
        Ok(Term { factor, dimension: Dimension::NONE, display, alone: false })
    }

    /// An atom with prefix, power and annotation.
    fn atom(&mut self) -> Result<Term, UnitError> {
        let start = self.rest;
        loop {
            self.take_while(|c| c.is_alphabetic() || c == '%' || c == '°');
            if !self.rest.starts_with('[') {
                break;
            }
            self.take_while(|c| c != ']');
            if !self.take(']') {
                return Err(self.malformed("a bracket stays open"));
            }
        }
        let name = start.strip_suffix(self.rest).unwrap_or(start);
        if name.is_empty() {
            return Err(self.malformed("a unit is missing"));
        }
        let Some((prefix, scale, atom)) = atoms::find(name) else {
            return Err(UnitError::Unknown { code: self.code.to_owned(), atom: name.to_owned() });
        };
        self.n_atoms += 1;
        self.celsius = self.celsius || atom.code == "Cel";
        let signed = self.rest.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '+');
        let power = if signed { self.power()? } else { 1 };
        let mut display = format!("{prefix}{}", atom.display);
        if power != 1 {
            display.push_str(&superscript(i32::from(power)));
        }
        if self.take('{') {
            self.take_while(|c| c != '}');
            if !self.take('}') {
                return Err(self.malformed("a brace stays open"));
            }
        }
        let base = scale * atom.factor;
        let factor = (0..power.unsigned_abs()).fold(1.0, |product, _| product * base);
        let factor = if power < 0 { 1.0 / factor } else { factor };
        Ok(Term { factor, dimension: Dimension::NONE.times(atom.dimension, power), display, alone: power == 1 })
    }

    /// A power with an optional sign.
    fn power(&mut self) -> Result<i16, UnitError> {
        let negative = self.take('-');
        if !negative {
            self.take('+');
        }
        let digits = self.take_while(|c| c.is_ascii_digit());
        let power: i16 = digits.parse().map_err(|_| self.malformed("a power is missing or too great"))?;
        if power > 30 {
            return Err(self.malformed("a power is missing or too great"));
        }
        Ok(if negative { -power } else { power })
    }
}

/// "1/min" as readers write it: min⁻¹. Only for a single unit below the line; "1/(mol·s)" stays as it is.
fn inverted(display: &str) -> Option<String> {
    let below = display.strip_prefix("1/")?;
    if below.contains(['/', '·', '(']) {
        return None;
    }
    let powers = |c: char| "⁰¹²³⁴⁵⁶⁷⁸⁹".contains(c);
    let name = below.trim_end_matches(powers);
    let power = below.strip_prefix(name).filter(|power| !power.is_empty()).unwrap_or("¹");
    Some(format!("{name}⁻{power}"))
}

/// A power of ten, exact where a float can be.
fn ten_to(power: i16) -> f64 {
    format!("1e{power}").parse().unwrap_or(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn shows(code: &str, expected: &str) {
        assert_eq!(Unit::parse(code).unwrap().display(), expected, "{code}");
    }

    #[track_caller]
    fn converts(value: f64, from: &str, to: &str, expected: f64) {
        let got = Unit::parse(from).unwrap().convert(value, &Unit::parse(to).unwrap()).unwrap();
        assert!((got - expected).abs() <= 1e-12 * expected.abs(), "{value} {from} = {got} {to}, not {expected}");
    }

    #[test]
    fn shows_units_as_readers_write_them() {
        for (code, expected) in [
            ("um2/s", "µm²/s"),
            ("mol/L", "mol/L"),
            ("Cel", "°C"),
            ("cm2/(V.s)", "cm²/(V·s)"),
            ("umol/(L.min)", "µmol/(L·min)"),
            ("1", ""),
            ("[pH]", ""),
            ("1/%", "%⁻¹"),
            ("1/min", "min⁻¹"),
            ("/min", "min⁻¹"),
            ("1/cm2", "cm⁻²"),
            ("1/(mol.s)", "1/(mol·s)"),
            ("mm[Hg]", "mmHg"),
            ("osm/L", "osmol/L"),
            ("[e]", "e"),
            ("CFU/mL", "CFU/mL"),
            ("[CFU]/mL", "CFU/mL"),
            ("bp.cm", "bp·cm"),
            ("g/cm4", "g/cm⁴"),
            ("{nat}", "nat"),
            ("s-1", "s⁻¹"),
            ("10*6/mL", "10⁶/mL"),
            ("kbp", "kbp"),
        ] {
            shows(code, expected);
        }
    }

    #[test]
    fn converts_between_units() {
        converts(1.0, "mol/L", "mmol/L", 1000.0);
        converts(1.0, "mmol/L", "mol/m3", 1.0);
        converts(25.0, "Cel", "K", 298.15);
        converts(310.15, "K", "Cel", 37.0);
        converts(1.0, "bar", "MPa", 0.1);
        converts(760.0, "mm[Hg]", "kPa", 101.325_014_435_4);
        converts(1.0, "umol/(L.min)", "nmol/(mL.h)", 60.0);
        converts(1.0, "V/cm", "V/m", 100.0);
        converts(50.0, "%", "1", 0.5);
        converts(2.0, "kbp", "bp", 2000.0);
        converts(1.0, "cm2/(V.s)", "m2/(V.s)", 1e-4);
        converts(1.0, "kJ", "kcal", 1.0 / 4.184);
    }

    #[test]
    fn refuses_unlike_and_broken_units() {
        let metre = Unit::parse("m").unwrap();
        assert!(matches!(metre.convert(1.0, &Unit::parse("s").unwrap()), Err(UnitError::Unlike { .. })));
        assert!(matches!(Unit::parse("furlong"), Err(UnitError::Unknown { .. })));
        for broken in ["", "mol/", "(mol", "mol)", "m2.", "J/Cel", "m99", "m[Hg", "m-", "{a"] {
            assert!(Unit::parse(broken).is_err(), "{broken}");
        }
    }
}
