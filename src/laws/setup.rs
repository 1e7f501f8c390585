//! Worked calculations: a law's right-hand side with numbers and units in place of its symbols.
//!
//! What for: "show the setup" in a scoring guide. **Must not know**: any law in particular, prose, scenarios.

use super::law::{Law, Output, UnitRule, Value};
use super::row::kelvin;
use crate::quantity::{Unit, significant};

/// Figures of an input that is written as it stands, at most.
const MOST: usize = 4;
/// Figures of an answer, at least and at most; and where every input is exact.
const ANSWER: (usize, usize) = (2, 4);
const EXACT: usize = 3;

/// How an input is written in a setup, where its own digits do not say it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Written<'a> {
    /// Significant figures (0.3 with two of them is "0.30").
    pub figures: Option<usize>,
    /// UCUM code, for symbols that take any unit.
    pub unit: Option<&'a str>,
}

/// A worked calculation, ready to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// The formula in symbols.
    pub formula: &'static str,
    /// The right-hand side with numbers and units in place of the symbols.
    pub substituted: String,
    /// The value of the first output.
    pub value: f64,
    /// Its unit (UCUM code; empty where it takes the unit of an input that was given none).
    pub unit: String,
    /// Significant figures that the inputs warrant.
    pub figures: usize,
    /// The value to those figures, with the unit as readers write it.
    pub answer: String,
}

impl Law {
    /// The worked calculation for these inputs, each written as it stands; none where the law has no setup or gives no
    /// number for them.
    pub fn setup(&self, inputs: &[Value]) -> Option<Setup> {
        self.setup_as(inputs, &[])
    }

    /// The same with a say in how each input is written, in the order of the inputs; what is left out is written as it
    /// stands. The answer has as many figures as the input with the fewest, from two to four; whole plain numbers and
    /// noughts count as exact.
    pub fn setup_as(&self, inputs: &[Value], written: &[Written<'_>]) -> Option<Setup> {
        if self.setup.is_empty() {
            return None;
        }
        let value = self.value(inputs).ok()?;
        let mut substituted = self.setup.to_owned();
        let mut fewest: Option<usize> = None;
        for (place, (symbol, input)) in self.inputs.iter().zip(inputs).enumerate() {
            let Value::Number(number) = input else { return None };
            let how = written.get(place).copied().unwrap_or_default();
            let code = self.code_of(place, written);
            let plain = code.as_deref().is_none_or(|code| code == "1");
            let digits = match how.figures {
                Some(figures) => significant::figures(*number, figures),
                None => significant::shortest(*number, MOST),
            };
            let whole = number.fract().abs() <= 0.0 && how.figures.is_none();
            let exact = number.abs() <= 0.0 || number.is_infinite() || (plain && whole);
            let mut shown = how.figures.unwrap_or_else(|| figures_of(&digits));
            if code.as_deref() == Some("Cel") {
                let absolute = significant::decimals(kelvin(*number), n_decimals(&digits));
                substituted = substituted.replace(&format!("{{{}:K}}", symbol.id), &format!("{absolute} K"));
                shown = figures_of(&absolute);
            }
            if !exact {
                fewest = Some(fewest.map_or(shown, |least| least.min(shown)));
            }
            let unit = code.as_deref().and_then(|code| Unit::parse(code).ok());
            let quantity = unit.map_or_else(|| digits.clone(), |unit| unit.attach(&digits));
            let bracketed = format!("({quantity})");
            let bare = if *number < 0.0 { &bracketed } else { &quantity };
            substituted = substituted.replace(&format!("({{{}}})", symbol.id), &bracketed);
            substituted = substituted.replace(&format!("{{{}}}", symbol.id), bare);
        }
        let figures = fewest.unwrap_or(EXACT).clamp(ANSWER.0, ANSWER.1);
        let unit = self.outputs.first().and_then(|output| self.code_out(output, written)).unwrap_or_default();
        let digits = significant::figures(value, figures);
        let answer = Unit::parse(&unit).map_or_else(|_| digits.clone(), |unit| unit.attach(&digits));
        Some(Setup { formula: self.formula, substituted, value, unit, figures, answer })
    }

    /// The UCUM code of the input at this place; none where it is left to the user and nothing was said.
    fn code_of(&self, place: usize, written: &[Written<'_>]) -> Option<String> {
        match self.inputs.get(place)?.unit {
            UnitRule::Ucum(code) => Some(code.to_owned()),
            UnitRule::Any => written.get(place).and_then(|how| how.unit).map(str::to_owned),
            UnitRule::Like(id) => {
                let (other, _) = self.input(id)?;
                written.get(other).and_then(|how| how.unit).map(str::to_owned)
            }
        }
    }

    /// The UCUM code of an output, likewise.
    fn code_out(&self, output: &Output, written: &[Written<'_>]) -> Option<String> {
        match output.unit {
            UnitRule::Ucum(code) => Some(code.to_owned()),
            UnitRule::Any => None,
            UnitRule::Like(id) => self.input(id).and_then(|(place, _)| self.code_of(place, written)),
        }
    }

    /// The unit of an output in words: its UCUM code, or which input it is like.
    pub fn unit_of(&self, output: &Output) -> String {
        match output.unit {
            UnitRule::Ucum(code) => code.to_owned(),
            UnitRule::Like(id) => match self.input(id).map(|(_, symbol)| symbol.unit) {
                Some(UnitRule::Ucum(code)) => code.to_owned(),
                _ => format!("as {id}"),
            },
            UnitRule::Any => "any".to_owned(),
        }
    }
}

/// Significant figures of a written number, a whole number's last noughts among them.
fn figures_of(digits: &str) -> usize {
    let mantissa = digits.split('×').next().unwrap_or_default();
    mantissa.chars().filter(char::is_ascii_digit).collect::<String>().trim_start_matches('0').len()
}

/// Places after the point.
fn n_decimals(digits: &str) -> usize {
    digits.split_once('.').map_or(0, |(_, decimals)| decimals.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::laws::find;

    #[track_caller]
    fn case(id: &str, inputs: &[f64], written: &[Written<'_>], substituted: &str, answer: &str) {
        let inputs: Vec<Value> = inputs.iter().copied().map(Value::Number).collect();
        let setup = find(id).unwrap().setup_as(&inputs, written).unwrap();
        assert_eq!((setup.substituted.as_str(), setup.answer.as_str()), (substituted, answer));
    }

    #[test]
    fn shows_numbers_units_and_kelvins() {
        case(
            "solute-potential",
            &[1.0, 0.3, 22.0],
            &[Written::default(), Written { figures: Some(2), unit: None }],
            "−(1)(0.30 mol/L)(0.0831 L·bar/(mol·K))(295 K)",
            "−7.4 bar",
        );
        case(
            "michaelis-menten",
            &[12.5, 2.1, 3.0],
            &[
                Written { figures: None, unit: Some("umol/(L.min)") },
                Written { figures: None, unit: Some("mmol/L") },
                Written { figures: Some(2), unit: None },
            ],
            "(12.5 µmol/(L·min))(3.0 mmol/L)/(2.1 mmol/L + 3.0 mmol/L)",
            "7.4 µmol/(L·min)",
        );
        case(
            "dose-response",
            &[-5.0, 100.0, 10.0, -1.5, 25.0],
            &[],
            "(−5) + (100 − (−5))/[1 + ((10)/(25))^(−1.5)]",
            "16",
        );
        case("hybrid-fraction", &[3.0], &[], "2/2^3", "0.250");
        case("water-potential", &[-7.36, 0.0], &[], "(−7.36 bar) + (0 bar)", "−7.36 bar");
    }

    #[test]
    fn no_place_is_left_empty() {
        for law in crate::laws::all().filter(|law| !law.setup.is_empty()) {
            let mut rest = law.setup.to_owned();
            for symbol in law.inputs {
                let named = [format!("{{{}}}", symbol.id), format!("{{{}:K}}", symbol.id)];
                assert!(named.iter().any(|name| rest.contains(name)), "{}: {} is not in the setup", law.id, symbol.id);
                rest = named.iter().fold(rest, |text, name| text.replace(name, ""));
            }
            let odd = rest.contains('_') || rest.contains(":K");
            assert!(!odd, "{}: something is left over in {rest}", law.id);
        }
    }
}
