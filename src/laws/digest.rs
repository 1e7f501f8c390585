//! Cutting a sequence at recognition sites.

use super::law::Effect::Depends;
use super::law::{Kind, Law, LawError, Output, Symbol, UnitRule, Value};
use super::melting::{bases, complement};
use super::row::{count, number, text};

pub(super) const DIGEST: Law = Law {
    id: "digest",
    family: super::nucleic::FAMILY,
    title: "lengths of the fragments that a restriction enzyme leaves",
    formula: "linear: n cuts give n + 1 fragments; circular: n cuts give n (none: the ring stays whole)",
    inputs: &[
        text("sequence", "sequence", "one strand, 5′ to 3′", Depends("decides where the sites lie")),
        text(
            "site",
            "site",
            "recognition site, same on both strands (GAATTC, GANTC; several, cut at the same place, joined by commas)",
            Depends("a longer site is rarer"),
        ),
        CUT,
        text("topology", "topology", "`linear` or `circular`", Depends("a ring gives one fragment less")),
    ],
    outputs: &[
        Output { id: "lengths", unit: UnitRule::Ucum("bp"), meaning: "fragment lengths, longest first" },
        Output { id: "cuts", unit: UnitRule::Ucum("bp"), meaning: "bases before each cut of the upper strand" },
    ],
    assumptions: "every site is cut, nothing else is, methylation does not matter; sites that span the origin of a ring count",
    source: "textbook; checked against Biopython 1.88 on lambda and pUC19",
    setup: "",
    example: "sequence=AAGAATTCAAAAGAATTCAA site=GAATTC cut=1 topology=linear",
    eval: |v| match v {
        [Value::Text(sequence), Value::Text(site), Value::Number(cut), Value::Text(topology)] => {
            digest(sequence, site, *cut, topology)
        }
        _ => Err(LawError::WrongCount { given: v.len(), expected: 4 }),
    },
    inverses: &[],
};

const CUT: Symbol = Symbol {
    kind: Kind::Number,
    ..number(
        "cut",
        "cut",
        "bp",
        (0.0, 30.0),
        "bases of the site before the cut, upper strand",
        Depends("shifts all ends"),
    )
};

/// Sites found, cuts put in order, lengths between them.
fn digest(sequence: &str, sites: &str, cut: f64, topology: &str) -> Result<Vec<Value>, LawError> {
    let bases = bases(sequence)?;
    let circular = match topology.trim() {
        "linear" => false,
        "circular" => true,
        other => return Err(LawError::Impossible(format!("`topology` is `linear` or `circular`, not `{other}`"))),
    };
    let mut cuts: Vec<usize> = Vec::new();
    for site in sites.split(',') {
        let site = pattern(site)?;
        let after = whole(cut, site.len())?;
        cuts.extend(starts(&bases, &site, circular).map(|start| start + after));
    }
    let n = bases.len();
    if circular {
        for cut in &mut cuts {
            *cut %= n;
        }
    } else {
        cuts.retain(|cut| (1..n).contains(cut));
    }
    cuts.sort_unstable();
    cuts.dedup();
    let mut lengths: Vec<usize> = cuts.iter().zip(cuts.iter().skip(1)).map(|(one, next)| next - one).collect();
    match (cuts.first(), cuts.last()) {
        (Some(first), Some(last)) if circular => lengths.push(first + n - last),
        (Some(first), Some(last)) => lengths.extend([*first, n - last]),
        _ => lengths.push(n),
    }
    lengths.sort_unstable_by(|one, two| two.cmp(one));
    let list = |numbers: Vec<usize>| Value::List(numbers.into_iter().map(count).collect());
    Ok(vec![list(lengths), list(cuts)])
}

/// Where the site begins, first base 0; in a ring also across the origin.
fn starts(bases: &[u8], site: &[&'static [u8]], circular: bool) -> impl Iterator<Item = usize> {
    let n = bases.len();
    let last = if circular { n } else { (n + 1).saturating_sub(site.len()) };
    let fits = move |start: &usize| {
        site.len() <= n
            && site.iter().zip(bases.iter().cycle().skip(*start)).all(|(allowed, base)| allowed.contains(base))
    };
    (0..last).filter(fits).collect::<Vec<_>>().into_iter()
}

/// For each place of the site the bases that it allows.
fn pattern(site: &str) -> Result<Vec<&'static [u8]>, LawError> {
    let site: Vec<char> = site.trim().chars().map(|c| c.to_ascii_uppercase()).collect();
    let allowed: Vec<&'static [u8]> = site
        .iter()
        .map(|code| any_of(*code).ok_or_else(|| LawError::Impossible(format!("`{code}` in `site` is not a base code"))))
        .collect::<Result<_, _>>()?;
    let mirrored = allowed
        .iter()
        .rev()
        .zip(&allowed)
        .all(|(one, two)| one.len() == two.len() && one.iter().all(|base| two.contains(&complement(*base))));
    if allowed.is_empty() {
        Err(LawError::Impossible("`site` is empty".to_owned()))
    } else if mirrored {
        Ok(allowed)
    } else {
        Err(LawError::Impossible("`site` does not read the same on both strands, which this law needs".to_owned()))
    }
}

/// Bases that a code of the nomenclature of 1984 stands for.
fn any_of(code: char) -> Option<&'static [u8]> {
    Some(match code {
        'A' => b"A",
        'C' => b"C",
        'G' => b"G",
        'T' | 'U' => b"T",
        'R' => b"AG",
        'Y' => b"CT",
        'S' => b"CG",
        'W' => b"AT",
        'K' => b"GT",
        'M' => b"AC",
        'B' => b"CGT",
        'D' => b"AGT",
        'H' => b"ACT",
        'V' => b"ACG",
        'N' => b"ACGT",
        _ => return None,
    })
}

/// The cut as a whole number of bases within the site.
fn whole(cut: f64, n_site: usize) -> Result<usize, LawError> {
    (0..=n_site).find(|place| (count(*place) - cut).abs() < 1e-9).ok_or_else(|| {
        LawError::Impossible(format!("`cut` is a whole number from 0 to {n_site}, the length of the site"))
    })
}
