//! Heredity and evolution.

use super::law::Effect::{Depends, Minus, Plus, Turning};
use super::law::Law;
use super::row::{FRACTION, ensure, found, given, gives, number, numbers, one, several, solved};

const FAMILY: &str = "heredity and evolution";

/// The laws of this family.
pub(super) const LAWS: &[Law] =
    &[HARDY_WEINBERG, SELECTION_STEP, RECOMBINATION, SUBSTITUTIONS, POISSON, MUTATIONS_PER_CULTURE];

const HARDY_WEINBERG: Law = Law {
    id: "hardy-weinberg",
    family: FAMILY,
    title: "genotypes under random mating",
    formula: "2·p·q; p²; q², with q = 1 − p",
    inputs: &[number("p", "p", "1", FRACTION, "frequency of one allele", Turning("at p = 0.5"))],
    outputs: &[
        gives("heterozygotes", "1", "share of heterozygotes"),
        gives("homozygotes_p", "1", "share of homozygotes for that allele"),
        gives("homozygotes_q", "1", "share of homozygotes for the other"),
    ],
    assumptions: "two alleles, random mating, no selection, migration or mutation, a large population",
    source: "Hardy 1908; Weinberg 1908 (from memory)",
    setup: "2({p})(1 − {p})",
    example: "p=0:1:0.05",
    eval: |v| {
        let [p] = numbers(v)?;
        let q = 1.0 - p;
        several(&[2.0 * p * q, p * p, q * q])
    },
    inverses: &[],
};

const SELECTION_STEP: Law = Law {
    id: "selection-step",
    family: FAMILY,
    title: "allele frequency after a generation of selection",
    formula: "q′ = [q²·(1 − s) + p·q·(1 − h·s)]/(1 − 2·p·q·h·s − q²·s), p = 1 − q",
    inputs: &[
        number("q", "q", "1", FRACTION, "frequency of the allele selected against", Plus),
        number("s", "s", "1", (-10.0, 1.0), "selection coefficient", Depends("lowers it where h lies between 0 and 1")),
        number(
            "h",
            "h",
            "1",
            (-10.0, 10.0),
            "dominance of that allele",
            Depends("lowers it where s > 0 and the allele is rare"),
        ),
    ],
    outputs: &[gives("q_next", "1", "frequency in the next generation")],
    assumptions: "differences in survival with fitness 1, 1 − hs, 1 − s; random mating, separate generations, a large \
                  population",
    source: "Haldane 1924; Fisher 1930 (from memory)",
    setup: "[({q})²(1 − {s}) + (1 − {q})({q})(1 − {h}·{s})]/[1 − 2(1 − {q})({q})({h})({s}) − ({q})²({s})]",
    example: "q=0:1:0.05 s=0.2 h=0.5",
    eval: |v| {
        let [q, s, h] = numbers(v)?;
        ensure(1.0 - h * s >= 0.0, "the fitness 1 − h·s of heterozygotes can't be negative")?;
        let p = 1.0 - q;
        let mean = p * p + 2.0 * p * q * (1.0 - h * s) + q * q * (1.0 - s);
        ensure(mean > 0.0, "nobody survives")?;
        one((q * q * (1.0 - s) + p * q * (1.0 - h * s)) / mean)
    },
    inverses: &[],
};

const RECOMBINATION: Law = Law {
    id: "recombination",
    family: FAMILY,
    title: "share of recombinant gametes at a map distance",
    formula: "r = ½·(1 − e^(−2d)), d = cM/100",
    inputs: &[number("map_distance", "d", "cM", (0.0, 1e4), "map distance", Plus)],
    outputs: &[gives("recombinants", "1", "share of recombinant gametes")],
    assumptions: "crossovers do not hinder one another (no interference); never above one half",
    source: "Haldane 1919 Journal of Genetics 8:299 (from memory)",
    setup: "½(1 − e^(−2({map_distance})/(100 cM)))",
    example: "map_distance=0:200:10",
    eval: |v| {
        let [distance] = numbers(v)?;
        one(-0.5 * libm::expm1(-distance / 50.0))
    },
    inverses: &[solved("map_distance", |out, _| found(-50.0 * libm::log1p(-2.0 * out)))],
};

const SUBSTITUTIONS: Law = Law {
    id: "substitutions",
    family: FAMILY,
    title: "substitutions at each site, corrected for repeated ones",
    formula: "d = −¾·ln(1 − 4·p/3)",
    inputs: &[number("p", "p", "1", (0.0, 0.75), "share of sites that differ", Plus)],
    outputs: &[gives("distance", "1", "substitutions at each site")],
    assumptions: "every change equally likely, base frequencies equal, p < 0.75",
    source: "Jukes & Cantor 1969 (from memory)",
    setup: "−¾ ln(1 − 4({p})/3)",
    example: "p=0:0.7:0.05",
    eval: |v| {
        let [p] = numbers(v)?;
        ensure(p < 0.75, "at `p` = 0.75 the sequences are as unlike as random ones: no distance can be told")?;
        one(-0.75 * libm::log1p(-4.0 * p / 3.0))
    },
    inverses: &[solved("p", |out, _| found(-0.75 * libm::expm1(-4.0 * out / 3.0)))],
};

const POISSON: Law = Law {
    id: "poisson",
    family: FAMILY,
    title: "probability of so many rare events",
    formula: "P = e^(−m)·m^k/k!",
    inputs: &[
        number("mean", "m", "1", (0.0, 1e6), "mean number", Turning("at m = k")),
        number("k", "k", "1", (0.0, 1e6), "number asked for, whole", Turning("at k near m")),
    ],
    outputs: &[gives("probability", "1", "probability of exactly k")],
    assumptions: "events happen one by one, independently, at a constant mean",
    source: "Poisson 1837 (from memory)",
    setup: "e^(−{mean}) × ({mean})^{k}/{k}!",
    example: "mean=0:10:0.5 k=3",
    eval: |v| {
        let [mean, k] = numbers(v)?;
        ensure((k - k.round()).abs() <= 0.0, "`k` must be a whole number")?;
        one(poisson(mean, k))
    },
    inverses: &[],
};

fn poisson(mean: f64, k: f64) -> f64 {
    if mean <= 0.0 {
        return if k <= 0.0 { 1.0 } else { 0.0 };
    }
    libm::exp(k * libm::log(mean) - mean - libm::lgamma(k + 1.0))
}

const MUTATIONS_PER_CULTURE: Law = Law {
    id: "mutations-per-culture",
    family: FAMILY,
    title: "mutations in each culture, from the cultures without mutants",
    formula: "m = −ln p0",
    inputs: &[number("p0", "p0", "1", (1e-15, 1.0), "share of cultures without any mutant", Minus)],
    outputs: &[gives("mutations", "1", "mean number of mutations in a culture")],
    assumptions: "many cultures alike, every mutant found, p0 between 0.1 and 0.7; divided by the number of cells it gives \
                  the mutation rate",
    source: "Luria & Delbrück 1943 Genetics 28:491 (from memory)",
    setup: "−ln({p0})",
    example: "p0=0.05:1:0.05",
    eval: |v| {
        let [p0] = numbers(v)?;
        one(-libm::log(p0))
    },
    inverses: &[solved("p0", |out, v| given::<1>(v).and_then(|_| found(libm::exp(-out))))],
};
