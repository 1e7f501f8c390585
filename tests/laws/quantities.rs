//! Units and written numbers: what holds of all of them.

use proptest::prelude::*;
use toehold::quantity::{Quantity, Unit, significant};

/// Units in groups of one dimension.
const GROUPS: [&[&str]; 9] = [
    &["mol/L", "mmol/L", "umol/L", "nmol/mL", "mol/m3", "osm/L"],
    &["umol/(L.min)", "nmol/(mL.s)", "mmol/(L.h)", "kat/m3"],
    &["um2/s", "cm2/s", "m2/h", "mm2/min"],
    &["bar", "MPa", "mm[Hg]", "atm", "kPa", "J/m3"],
    &["Cel", "K", "mK"],
    &["cm2/(V.s)", "m2/(V.s)", "um2/(mV.ms)"],
    &["%", "1", "[pH]", "{molecules}", "10*-3"],
    &["bp", "kbp", "Mbp"],
    &["[e]", "C", "A.s", "fC"],
];

fn pick() -> impl Strategy<Value = (Unit, Unit, Unit)> {
    (0..GROUPS.len(), any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<prop::sample::Index>())
        .prop_map(|(group, one, two, three)| {
            let unit =
                |index: prop::sample::Index| Unit::parse(GROUPS[group][index.index(GROUPS[group].len())]).unwrap();
            (unit(one), unit(two), unit(three))
        })
}

fn near(one: f64, other: f64, scale: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()) + 1e-11 * scale
}

proptest! {
    /// There and back is where one was, and two steps lead where one does. (Celsius loses digits against 273.15.)
    #[test]
    fn conversions_compose((one, two, three) in pick(), value in -1e6..1e6f64) {
        let there = one.convert(value, &two).unwrap();
        prop_assert!(near(two.convert(there, &one).unwrap(), value, 1e6), "{} {}", one.code(), two.code());
        let scale = 1e6 * one.convert(1e3, &three).unwrap().abs();
        prop_assert!(near(two.convert(there, &three).unwrap(), one.convert(value, &three).unwrap(), scale));
    }

    /// Units of different groups never turn into one another.
    #[test]
    fn unlike_units_stay_apart((one, _, _) in pick(), (two, _, _) in pick()) {
        prop_assert_eq!(one.convert(1.0, &two).is_ok(), one.dimension() == two.dimension());
    }

    /// No text at all makes the reader panic, and a code that is read keeps its spelling.
    #[test]
    fn any_text_is_a_unit_or_an_error(code in "[a-zA-Z0-9/.(){}%*^\\[\\]-]{0,12}|.{0,8}") {
        if let Ok(unit) = Unit::parse(&code) {
            prop_assert_eq!(unit.code(), code.as_str());
            prop_assert!(!unit.display().contains(' ') || code.contains(' '));
        }
    }

    /// What is written to so many figures reads back as the number rounded to as many, and shows that many.
    #[test]
    fn written_numbers_read_back(mantissa in -9.999..9.999f64, exponent in -12..12i32, figures in 1u8..10) {
        let value = mantissa * libm::pow(10.0, f64::from(exponent));
        let n = usize::from(figures);
        let text = significant::figures(value, n);
        let back = significant::parse(&text).unwrap();
        prop_assert!(near(back, significant::round_to(value, n), 0.0), "{value} {text} {back}");
        prop_assert!((back - value).abs() <= value.abs() * 5.1 * libm::pow(10.0, -f64::from(figures)));
        prop_assert!(!text.contains('-') && !text.contains('e'));
        if text.contains('.') || text.contains('×') {
            prop_assert_eq!(significant::count(&text), n, "{}", text);
        }
    }

    /// The same for decimals and for the shortest form.
    #[test]
    fn decimals_and_shortest_read_back(value in -1e5..1e5f64, decimals in 0usize..6) {
        let text = significant::decimals(value, decimals);
        prop_assert!(near(significant::parse(&text).unwrap(), significant::round_decimals(value, decimals), 0.0));
        let text = significant::shortest(value, 12);
        prop_assert!(near(significant::parse(&text).unwrap(), value, 1e-2));
    }
}

#[test]
fn quantities_print_with_their_unit() {
    let print =
        |value: f64, code: &str, figures: usize| Quantity::new(value, Unit::parse(code).unwrap()).display(figures);
    assert_eq!(print(0.3, "mol/L", 2), "0.30 mol/L");
    assert_eq!(print(-7.362, "bar", 2), "−7.4 bar");
    assert_eq!(print(64.0, "%", 2), "64 %");
    assert_eq!(print(7.2, "[pH]", 2), "7.2");
    assert_eq!(print(2.4e-4, "cm2/(V.s)", 2), "0.00024 cm²/(V·s)");
    let kelvin = Quantity::new(22.0, Unit::parse("Cel").unwrap()).to(&Unit::parse("K").unwrap()).unwrap();
    assert_eq!(kelvin.display(3), "295 K");
}
