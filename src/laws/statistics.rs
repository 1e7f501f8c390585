//! Statistics that students use.

use statrs::distribution::{ChiSquared, ContinuousCDF, StudentsT};

use super::law::Effect::{Depends, Plus};
use super::law::{Effect, Law, LawError, Output, Symbol, UnitRule, Value};
use super::row::{ANY_NUMBER, NOT_NEGATIVE, count, ensure, gives, gives_like, list, number, one, several};
use crate::quantity::significant::round_to;

/// Name of the family.
pub(super) const FAMILY: &str = "statistics";

/// The laws of this family; the fits follow in their own file.
pub(super) const LAWS: &[Law] = &[MEAN, SD, SEM, INTERVAL, CHI_SQUARE, T_TEST, T_TEST_POOLED, T_TEST_PAIRED, LINE];

/// Figures kept of what comes from a distribution: its last digits may differ between machines.
const FIGURES: usize = 12;

const VALUES: &[Symbol] = &[list("values", "x", UnitRule::Any, ANY_NUMBER, "the values", Depends("see the formula"))];
const SPREAD: Effect = Depends("raises it for a value away from the mean");

const MEAN: Law = Law {
    id: "mean",
    family: FAMILY,
    title: "mean",
    formula: "x̄ = Σx/n",
    inputs: &[list("values", "x", UnitRule::Any, ANY_NUMBER, "the values", Plus)],
    outputs: &[gives_like("mean", "values", "mean")],
    assumptions: "at least one value",
    source: "textbook",
    setup: "",
    example: "values=4.2,4.6,5.1",
    eval: |v| one(Sample::of(v, 1)?.mean),
    inverses: &[],
};

const SD: Law = Law {
    id: "sd",
    family: FAMILY,
    title: "standard deviation",
    formula: "s = √(Σ(x − x̄)²/(n − 1))",
    inputs: &[list("values", "x", UnitRule::Any, ANY_NUMBER, "the values", SPREAD)],
    outputs: &[gives_like("sd", "values", "standard deviation")],
    assumptions: "at least two values, a sample (n − 1); describes the spread of single values, whatever n",
    source: "textbook",
    setup: "",
    example: "values=4.2,4.6,5.1",
    eval: |v| one(Sample::of(v, 2)?.sd()),
    inverses: &[],
};

const SEM: Law = Law {
    id: "sem",
    family: FAMILY,
    title: "standard error of the mean",
    formula: "SEM = s/√n",
    inputs: &[list("values", "x", UnitRule::Any, ANY_NUMBER, "the values", SPREAD)],
    outputs: &[gives_like("sem", "values", "standard error of the mean")],
    assumptions: "at least two values, independent; describes how well the mean is known",
    source: "textbook",
    setup: "",
    example: "values=4.2,4.6,5.1",
    eval: |v| one(Sample::of(v, 2)?.sem()),
    inverses: &[],
};

const INTERVAL: Law = Law {
    id: "interval",
    family: FAMILY,
    title: "interval of two standard errors around the mean",
    formula: "±2·SEM",
    inputs: VALUES,
    outputs: &[
        gives_like("half_width", "values", "two standard errors"),
        gives_like("low", "values", "mean less two standard errors"),
        gives_like("high", "values", "mean and two standard errors"),
    ],
    assumptions: "at least two values, roughly normal; covers the true mean in 95 % of cases only where n is large (82 % at \
                  n = 3, 88 % at 5, 92 % at 10)",
    source: "textbook; Student 1908 (from memory)",
    setup: "",
    example: "values=4.2,4.6,5.1",
    eval: |v| {
        let sample = Sample::of(v, 2)?;
        let half = 2.0 * sample.sem();
        several(&[half, sample.mean - half, sample.mean + half])
    },
    inverses: &[],
};

const CHI_SQUARE: Law = Law {
    id: "chi-square",
    family: FAMILY,
    title: "chi-square test of counts",
    formula: "χ² = Σ(O − E)²/E; df = k − 1 − removed",
    inputs: &[
        list(
            "observed",
            "O",
            UnitRule::Ucum("1"),
            NOT_NEGATIVE,
            "observed counts",
            Depends("away from expected raises it"),
        ),
        list(
            "expected",
            "E",
            UnitRule::Ucum("1"),
            NOT_NEGATIVE,
            "expected counts",
            Depends("away from observed raises it"),
        ),
        number("removed", "removed", "1", (0.0, 1e6), "parameters estimated from the data", Effect::None).or(0.0),
    ],
    outputs: &[
        gives("chi_square", "1", "sum of squared differences over expected"),
        gives("df", "1", "degrees of freedom"),
        gives("p", "1", "chance of at least this much by luck alone"),
    ],
    assumptions: "counts (never percentages or means) of independent cases, each expected count 5 or more",
    source: "Pearson 1900 (from memory)",
    setup: "",
    example: "observed=5474,1850 expected=5493,1831 removed=0",
    eval: chi_square,
    inverses: &[],
};

fn chi_square(v: &[Value]) -> Result<Vec<Value>, LawError> {
    let [Value::List(observed), Value::List(expected), Value::Number(removed)] = v else {
        return Err(LawError::WrongCount { given: v.len(), expected: 3 });
    };
    ensure(observed.len() == expected.len(), "`observed` and `expected` must have the same length")?;
    ensure(expected.iter().all(|count| *count > 0.0), "`expected` must be above 0 in every class")?;
    let (all, hoped): (f64, f64) = (observed.iter().sum(), expected.iter().sum());
    ensure((all - hoped).abs() <= 0.01 * hoped, "`expected` must be counts that add up to those of `observed`")?;
    let df = count(observed.len()) - 1.0 - removed;
    ensure(df >= 1.0, "no degree of freedom is left: too few classes")?;
    let chi_square = observed.iter().zip(expected).map(|(o, e)| (o - e) * (o - e) / e).sum();
    let p = ChiSquared::new(df).map_err(|error| LawError::Impossible(error.to_string()))?.sf(chi_square);
    several(&[chi_square, df, round_to(p, FIGURES)])
}

const GROUPS: &[Symbol] = &[
    list(
        "a",
        "a",
        UnitRule::Any,
        ANY_NUMBER,
        "first group",
        Depends("raises t where it raises the mean of the first group"),
    ),
    list(
        "b",
        "b",
        UnitRule::Like("a"),
        ANY_NUMBER,
        "second group",
        Depends("lowers t where it raises the mean of the second"),
    ),
];

const TESTED: &[Output] = &[
    gives("t", "1", "difference of means over its standard error"),
    gives("df", "1", "degrees of freedom"),
    gives("p", "1", "chance of a difference at least this great, either way, by luck alone"),
];

const T_TEST: Law = Law {
    id: "t-test",
    family: FAMILY,
    title: "t test of two groups (Welch)",
    formula: "t = (x̄a − x̄b)/√(sa²/na + sb²/nb); df by Welch",
    inputs: GROUPS,
    outputs: TESTED,
    assumptions: "independent groups, roughly normal, spreads may differ; two-sided p",
    source: "Welch 1947 Biometrika 34:28 (from memory)",
    setup: "",
    example: "a=4.2,4.6,5.1 b=5.3,5.5,6.0",
    eval: |v| {
        let (a, b) = two(v)?;
        let (va, vb) = (a.variance() / a.n, b.variance() / b.n);
        let df = (va + vb) * (va + vb) / (va * va / (a.n - 1.0) + vb * vb / (b.n - 1.0));
        tested(a.mean - b.mean, (va + vb).sqrt(), df)
    },
    inverses: &[],
};

const T_TEST_POOLED: Law = Law {
    id: "t-test-pooled",
    family: FAMILY,
    title: "t test of two groups of like spread (Student)",
    formula: "t = (x̄a − x̄b)/√(s²·(1/na + 1/nb)); df = na + nb − 2",
    inputs: GROUPS,
    outputs: TESTED,
    assumptions: "independent groups, roughly normal, the same spread in both (else use t-test); two-sided p",
    source: "Student 1908 (from memory)",
    setup: "",
    example: "a=4.2,4.6,5.1 b=5.3,5.5,6.0",
    eval: |v| {
        let (a, b) = two(v)?;
        let df = a.n + b.n - 2.0;
        let pooled = (a.squares + b.squares) / df;
        tested(a.mean - b.mean, (pooled * (1.0 / a.n + 1.0 / b.n)).sqrt(), df)
    },
    inverses: &[],
};

const T_TEST_PAIRED: Law = Law {
    id: "t-test-paired",
    family: FAMILY,
    title: "t test of pairs",
    formula: "t = d̄/(sd/√n), d = a − b; df = n − 1",
    inputs: GROUPS,
    outputs: TESTED,
    assumptions: "each value of one group belongs to one of the other, differences roughly normal; two-sided p",
    source: "Student 1908 (from memory)",
    setup: "",
    example: "a=4.2,4.6,5.1 b=5.3,5.5,6.0",
    eval: |v| {
        let [Value::List(a), Value::List(b)] = v else {
            return Err(LawError::WrongCount { given: v.len(), expected: 2 });
        };
        ensure(a.len() == b.len(), "`a` and `b` must have the same length: pairs are compared")?;
        let differences: Vec<f64> = a.iter().zip(b).map(|(a, b)| a - b).collect();
        let sample = Sample::from(&differences, 2)?;
        tested(sample.mean, sample.sem(), sample.n - 1.0)
    },
    inverses: &[],
};

/// t, df and the two-sided p.
fn tested(difference: f64, error: f64, df: f64) -> Result<Vec<Value>, LawError> {
    ensure(error > 0.0, "all values are alike: there is no spread to compare the difference with")?;
    let t = difference / error;
    let student = StudentsT::new(0.0, 1.0, df).map_err(|error| LawError::Impossible(error.to_string()))?;
    several(&[t, df, round_to(2.0 * student.sf(t.abs()), FIGURES)])
}

const LINE: Law = Law {
    id: "line",
    family: FAMILY,
    title: "line of least squares",
    formula: "y = a + b·x, b = Σ(x − x̄)(y − ȳ)/Σ(x − x̄)²",
    inputs: &[
        list("x", "x", UnitRule::Any, ANY_NUMBER, "values set", Depends("see the formula")),
        list("y", "y", UnitRule::Any, ANY_NUMBER, "values read", Depends("see the formula")),
    ],
    outputs: &[
        Output { id: "slope", unit: UnitRule::Any, meaning: "slope, in units of y over those of x" },
        gives_like("intercept", "y", "value at x = 0"),
        gives("r_squared", "1", "share of the spread of y that the line accounts for"),
    ],
    assumptions: "a straight relation, x without error, spread of y the same everywhere; says nothing beyond the range of x",
    source: "Legendre 1805; Gauss 1809 (from memory)",
    setup: "",
    example: "x=1,2,3,4 y=2.1,3.9,6.2,7.8",
    eval: |v| {
        let [Value::List(x), Value::List(y)] = v else {
            return Err(LawError::WrongCount { given: v.len(), expected: 2 });
        };
        ensure(x.len() == y.len(), "`x` and `y` must have the same length")?;
        let (sx, sy) = (Sample::from(x, 2)?, Sample::from(y, 2)?);
        ensure(sx.squares > 0.0, "all values of `x` are alike: no line can be drawn")?;
        let products: f64 = x.iter().zip(y).map(|(x, y)| (x - sx.mean) * (y - sy.mean)).sum();
        let slope = products / sx.squares;
        let r_squared = if sy.squares > 0.0 { slope * products / sy.squares } else { 1.0 };
        several(&[slope, sy.mean - slope * sx.mean, r_squared])
    },
    inverses: &[],
};

/// Number, mean and sum of squared deviations of some values.
pub(super) struct Sample {
    pub(super) n: f64,
    pub(super) mean: f64,
    pub(super) squares: f64,
}

impl Sample {
    /// From the only input.
    fn of(inputs: &[Value], least: usize) -> Result<Self, LawError> {
        match inputs {
            [Value::List(values)] => Self::from(values, least),
            _ => Err(LawError::WrongCount { given: inputs.len(), expected: 1 }),
        }
    }

    /// The mean is found twice, the second time from deviations, so that great values with small differences keep their
    /// digits.
    pub(super) fn from(values: &[f64], least: usize) -> Result<Self, LawError> {
        if values.len() < least {
            return Err(LawError::Impossible(format!("at least {least} values are needed")));
        }
        let n = count(values.len());
        let rough = values.iter().sum::<f64>() / n;
        let mean = rough + values.iter().map(|x| x - rough).sum::<f64>() / n;
        let squares = values.iter().map(|x| (x - mean) * (x - mean)).sum();
        Ok(Self { n, mean, squares })
    }

    fn variance(&self) -> f64 {
        self.squares / (self.n - 1.0)
    }

    fn sd(&self) -> f64 {
        self.variance().sqrt()
    }

    fn sem(&self) -> f64 {
        (self.variance() / self.n).sqrt()
    }
}

fn two(inputs: &[Value]) -> Result<(Sample, Sample), LawError> {
    match inputs {
        [Value::List(a), Value::List(b)] => Ok((Sample::from(a, 2)?, Sample::from(b, 2)?)),
        _ => Err(LawError::WrongCount { given: inputs.len(), expected: 2 }),
    }
}
