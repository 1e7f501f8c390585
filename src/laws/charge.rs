//! Charges: of one acid or base group, and of a protein, with the pKa set that is used.

use super::law::Effect::{Depends, Minus, Plus};
use super::law::{Law, LawError, Value};
use super::row::{PH, found, given, gives, number, numbers, one, solved, ten_to, text};
use super::separation::FAMILY;

pub(super) const IONISED_ACID: Law = Law {
    id: "ionised-acid",
    family: FAMILY,
    title: "ionised share of an acid",
    formula: "f = 1/(1 + 10^(pKa − pH))",
    inputs: &[
        number("ph", "pH", "1", PH, "pH", Plus),
        number("pka", "pKa", "1", (-10.0, 25.0), "pKa of the acid group", Minus),
    ],
    outputs: &[gives("fraction", "1", "share that has given up its proton (and carries −1)")],
    assumptions: "one group, dilute solution",
    source: "Henderson 1908; Hasselbalch 1917 (from memory)",
    setup: "1/(1 + 10^({pka} − {ph}))",
    example: "ph=0:14:0.5 pka=4.8",
    eval: |v| {
        let [ph, pka] = numbers(v)?;
        one(1.0 / (1.0 + ten_to(pka - ph)))
    },
    inverses: &[
        solved("ph", |out, v| given(v).and_then(|[_, pka]: [f64; 2]| found(pka + libm::log10(out / (1.0 - out))))),
        solved("pka", |out, v| given(v).and_then(|[ph, _]: [f64; 2]| found(ph - libm::log10(out / (1.0 - out))))),
    ],
};

pub(super) const IONISED_BASE: Law = Law {
    id: "ionised-base",
    family: FAMILY,
    title: "ionised share of a base",
    formula: "f = 1/(1 + 10^(pH − pKa))",
    inputs: &[
        number("ph", "pH", "1", PH, "pH", Minus),
        number("pka", "pKa", "1", (-10.0, 25.0), "pKa of the protonated group", Plus),
    ],
    outputs: &[gives("fraction", "1", "share that has taken up a proton (and carries +1)")],
    assumptions: "one group, dilute solution",
    source: "Henderson 1908; Hasselbalch 1917 (from memory)",
    setup: "1/(1 + 10^({ph} − {pka}))",
    example: "ph=0:14:0.5 pka=9.2",
    eval: |v| {
        let [ph, pka] = numbers(v)?;
        one(1.0 / (1.0 + ten_to(ph - pka)))
    },
    inverses: &[
        solved("ph", |out, v| given(v).and_then(|[_, pka]: [f64; 2]| found(pka + libm::log10((1.0 - out) / out)))),
        solved("pka", |out, v| given(v).and_then(|[ph, _]: [f64; 2]| found(ph - libm::log10((1.0 - out) / out)))),
    ],
};

/// pKa values of the groups that carry a plus when protonated, and those that carry a minus when not.
///
/// # Source
/// Bjellqvist 1993 Electrophoresis 14:1023, as shipped in Biopython 1.88.
const POSITIVE_SIDE: [(char, f64); 3] = [('K', 10.0), ('R', 12.0), ('H', 5.98)];
const NEGATIVE_SIDE: [(char, f64); 4] = [('D', 4.05), ('E', 4.45), ('C', 9.0), ('Y', 10.0)];
/// The free amino end: by its residue, else the common value.
const AMINO_END: [(char, f64); 7] =
    [('A', 7.59), ('M', 7.0), ('S', 6.93), ('P', 8.36), ('T', 6.82), ('V', 7.44), ('E', 7.7)];
const AMINO_END_COMMON: f64 = 7.5;
/// The free carboxyl end: by its residue, else the common value.
const CARBOXYL_END: [(char, f64); 2] = [('D', 4.55), ('E', 4.75)];
const CARBOXYL_END_COMMON: f64 = 3.55;

const AMINO_ACIDS: &str = "ACDEFGHIKLMNPQRSTVWY";

pub(super) const NET_CHARGE: Law = Law {
    id: "net-charge",
    family: FAMILY,
    title: "net charge of a protein or peptide",
    formula: "z = Σ 1/(1 + 10^(pH − pKa)) over amino end, K, R, H − Σ 1/(1 + 10^(pKa − pH)) over carboxyl end, D, E, C, Y",
    inputs: &[
        text(
            "sequence",
            "sequence",
            "amino acids in one-letter code",
            Depends("K, R, H raise it; D, E, C, Y lower it"),
        ),
        number("ph", "pH", "1", PH, "pH", Minus),
    ],
    outputs: &[gives("charge", "[e]", "net charge in elementary charges")],
    assumptions: "groups act alone, each with the fixed pKa of its kind; no folding, no disulfide bridges, no added groups; \
                  pH of no charge good to ±0.5 to 1. Solved for pH it gives the isoelectric point (charge 0)",
    source: "Henderson 1908; Hasselbalch 1917; pKa set of Bjellqvist 1993 as in Biopython 1.88",
    setup: "",
    example: "sequence=ACDEFGHIKLMNPQRSTVWY ph=0:14:0.5",
    eval: |v| match v {
        [Value::Text(sequence), Value::Number(ph)] => one(charge(&groups(sequence)?, *ph)),
        _ => Err(LawError::WrongCount { given: v.len(), expected: 2 }),
    },
    inverses: &[solved("ph", |out, v| match v {
        [Value::Text(sequence), _] => ph_of(&groups(sequence)?, out),
        _ => Err(LawError::WrongCount { given: v.len(), expected: 2 }),
    })],
};

/// One group that can carry a charge.
struct Group {
    pka: f64,
    /// +1 where the protonated form is charged, −1 where the other is.
    sign: f64,
}

/// The groups of a sequence, its two ends included.
fn groups(sequence: &str) -> Result<Vec<Group>, LawError> {
    let residues: Vec<char> = sequence.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_ascii_uppercase()).collect();
    if let Some(odd) = residues.iter().find(|residue| !AMINO_ACIDS.contains(**residue)) {
        return Err(LawError::Impossible(format!("`{odd}` in `sequence` is not an amino acid")));
    }
    let (Some(first), Some(last)) = (residues.first(), residues.last()) else {
        return Err(LawError::Impossible("`sequence` is empty".to_owned()));
    };
    let of = |table: &[(char, f64)], residue: char| table.iter().find(|(c, _)| *c == residue).map(|(_, pka)| *pka);
    let mut groups = vec![
        Group { pka: of(&AMINO_END, *first).unwrap_or(AMINO_END_COMMON), sign: 1.0 },
        Group { pka: of(&CARBOXYL_END, *last).unwrap_or(CARBOXYL_END_COMMON), sign: -1.0 },
    ];
    for residue in &residues {
        if let Some(pka) = of(&POSITIVE_SIDE, *residue) {
            groups.push(Group { pka, sign: 1.0 });
        } else if let Some(pka) = of(&NEGATIVE_SIDE, *residue) {
            groups.push(Group { pka, sign: -1.0 });
        }
    }
    Ok(groups)
}

fn charge(groups: &[Group], ph: f64) -> f64 {
    groups.iter().map(|group| group.sign / (1.0 + ten_to(group.sign * (ph - group.pka)))).sum()
}

/// The pH at which the charge is this: the charge falls all the way, so the interval can be halved.
fn ph_of(groups: &[Group], wanted: f64) -> Result<f64, LawError> {
    let (mut low, mut high) = PH;
    if !(charge(groups, high)..=charge(groups, low)).contains(&wanted) {
        return found(f64::NAN);
    }
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if charge(groups, middle) > wanted { low = middle } else { high = middle }
    }
    found(f64::midpoint(low, high))
}
