//! Constants of nature, each with its unit and source.

/// A constant with its unit and where its value comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constant {
    /// The name in words.
    pub name: &'static str,
    /// The symbol as printed.
    pub letter: &'static str,
    /// The value in that unit.
    pub value: f64,
    /// UCUM code.
    pub unit: &'static str,
    /// Where the value comes from.
    pub source: &'static str,
}

const CODATA: &str = "CODATA 2018 (exact since the SI of 2019)";

/// Molar gas constant.
pub const GAS: Constant = Constant {
    name: "molar gas constant",
    letter: "R",
    value: 8.314_462_618_153_24,
    unit: "J/(mol.K)",
    source: CODATA,
};

/// Molar gas constant in litres and bars, as classes use it for water potential.
pub const GAS_L_BAR: Constant = Constant {
    name: "molar gas constant",
    letter: "R",
    value: 0.083_144_626_181_532_4,
    unit: "L.bar/(mol.K)",
    source: CODATA,
};

/// Molar gas constant in thermochemical calories, as tables of nearest neighbours use it.
pub const GAS_CAL: Constant = Constant {
    name: "molar gas constant",
    letter: "R",
    value: 1.987_204_258_640_831_6,
    unit: "cal/(mol.K)",
    source: "CODATA 2018, divided by 4.184 J/cal",
};

/// Faraday constant.
pub const FARADAY: Constant =
    Constant { name: "Faraday constant", letter: "F", value: 96_485.332_123_310_01, unit: "C/mol", source: CODATA };

/// Avogadro constant.
pub const AVOGADRO: Constant =
    Constant { name: "Avogadro constant", letter: "NA", value: 6.022_140_76e23, unit: "1/mol", source: CODATA };

/// Boltzmann constant.
pub const BOLTZMANN: Constant =
    Constant { name: "Boltzmann constant", letter: "k", value: 1.380_649e-23, unit: "J/K", source: CODATA };

/// Elementary charge.
pub const CHARGE: Constant =
    Constant { name: "elementary charge", letter: "e", value: 1.602_176_634e-19, unit: "C", source: CODATA };

/// Planck constant.
pub const PLANCK: Constant =
    Constant { name: "Planck constant", letter: "h", value: 6.626_070_15e-34, unit: "J.s", source: CODATA };

/// Speed of light in vacuum.
pub const LIGHT: Constant =
    Constant { name: "speed of light in vacuum", letter: "c", value: 299_792_458.0, unit: "m/s", source: CODATA };

/// Standard atmosphere.
pub const ATMOSPHERE: Constant = Constant {
    name: "standard atmosphere",
    letter: "atm",
    value: 101_325.0,
    unit: "Pa",
    source: "CODATA 2018 (exact by definition)",
};

/// Standard acceleration of free fall.
pub const GRAVITY: Constant = Constant {
    name: "standard acceleration of free fall",
    letter: "g",
    value: 9.806_65,
    unit: "m/s2",
    source: "3rd General Conference on Weights and Measures 1901 (exact by definition)",
};

/// Zero of the Celsius scale.
pub const ICE_POINT: Constant = Constant {
    name: "zero of the Celsius scale",
    letter: "T0",
    value: 273.15,
    unit: "K",
    source: "exact by definition of the degree Celsius",
};

/// All of them, for tables and tests.
pub const ALL: &[Constant] =
    &[GAS, GAS_L_BAR, GAS_CAL, FARADAY, AVOGADRO, BOLTZMANN, CHARGE, PLANCK, LIGHT, ATMOSPHERE, GRAVITY, ICE_POINT];
