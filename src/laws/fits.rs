//! Curves fitted by least squares: Michaelis–Menten, exponential growth or decay, approach to a plateau.

use super::law::Effect::Depends;
use super::law::{Effect, Law, LawError, Output, UnitRule, Value};
use super::row::{ANY_NUMBER, NOT_NEGATIVE, count, ensure, gives_like, impossible, list, several};

/// The fits of the family of statistics.
pub(super) const LAWS: &[Law] = &[MICHAELIS_MENTEN_FIT, EXPONENTIAL_FIT, PLATEAU_FIT];

const FITTED: Effect = Depends("see the formula");

const MICHAELIS_MENTEN_FIT: Law = Law {
    id: "michaelis-menten-fit",
    family: super::statistics::FAMILY,
    title: "Michaelis–Menten curve fitted to rates",
    formula: "v = Vmax·S/(Km + S), Σ(v − measured)² least",
    inputs: &[
        list("substrate", "S", UnitRule::Any, NOT_NEGATIVE, "substrate concentrations", FITTED),
        list("rate", "v", UnitRule::Any, ANY_NUMBER, "early rates measured", FITTED),
    ],
    outputs: &[
        gives_like("vmax", "rate", "rate with enzyme saturated"),
        gives_like("km", "substrate", "substrate concentration at half that rate"),
        gives_like("residual_sd", "rate", "standard deviation about the curve, n − 2"),
    ],
    assumptions: "spread of the rates the same everywhere; a straight line through reciprocals gives other, biased values",
    source: "nonlinear least squares (Gauss–Newton with Levenberg's damping); checked against R and NIST Misra1d",
    setup: "",
    example: "substrate=0.02,0.06,0.11,0.22,0.56,1.1 rate=62,102,131,155,196,204",
    eval: |v| {
        let (x, y) = points(v)?;
        let top = y.iter().copied().fold(f64::MIN, f64::max);
        let middle = x.iter().sum::<f64>() / count(x.len());
        ensure(top > 0.0 && middle > 0.0, "at least one rate and one concentration must be above 0")?;
        fit(x, y, [1.2 * top, middle], |x, [vmax, km]| {
            let share = x / (km + x);
            (vmax * share, [share, -vmax * share / (km + x)])
        })
    },
    inverses: &[],
};

const EXPONENTIAL_FIT: Law = Law {
    id: "exponential-fit",
    family: super::statistics::FAMILY,
    title: "exponential growth or decay fitted to readings",
    formula: "y = a·e^(k·x), Σ(y − measured)² least",
    inputs: &[
        list("x", "x", UnitRule::Any, ANY_NUMBER, "times", FITTED),
        list("y", "y", UnitRule::Any, ANY_NUMBER, "readings", FITTED),
    ],
    outputs: &[
        Output { id: "rate", unit: UnitRule::Any, meaning: "rate constant k, per unit of x" },
        gives_like("start", "y", "value a at x = 0"),
        gives_like("residual_sd", "y", "standard deviation about the curve, n − 2"),
    ],
    assumptions: "spread of the readings the same everywhere (a line through logarithms gives other values); no plateau \
                  above or below 0; some readings above 0",
    source: "nonlinear least squares (Gauss–Newton with Levenberg's damping); checked against SciPy",
    setup: "",
    example: "x=0,1,2,3 y=10,16,27,44",
    eval: |v| {
        let (x, y) = points(v)?;
        let logs: Vec<(f64, f64)> =
            x.iter().zip(y).filter(|(_, y)| **y > 0.0).map(|(x, y)| (*x, libm::log(*y))).collect();
        ensure(logs.len() >= 2, "at least two readings must be above 0")?;
        let n = count(logs.len());
        let (mx, my) = (logs.iter().map(|p| p.0).sum::<f64>() / n, logs.iter().map(|p| p.1).sum::<f64>() / n);
        let (products, squares) =
            logs.iter().fold((0.0, 0.0), |(p, s), (x, y)| (p + (x - mx) * (y - my), s + (x - mx) * (x - mx)));
        ensure(squares > 0.0, "all values of `x` are alike")?;
        let k = products / squares;
        fit(x, y, [k, libm::exp(my - k * mx)], |x, [k, a]| {
            let e = libm::exp(k * x);
            (a * e, [a * x * e, e])
        })
    },
    inverses: &[],
};

const PLATEAU_FIT: Law = Law {
    id: "plateau-fit",
    family: super::statistics::FAMILY,
    title: "exponential approach to a plateau fitted to readings",
    formula: "y = P·(1 − e^(−k·x)), Σ(y − measured)² least",
    inputs: &[
        list("x", "x", UnitRule::Any, NOT_NEGATIVE, "times", FITTED),
        list("y", "y", UnitRule::Any, ANY_NUMBER, "readings", FITTED),
    ],
    outputs: &[
        Output { id: "rate", unit: UnitRule::Any, meaning: "rate constant k, per unit of x" },
        gives_like("plateau", "y", "value P reached in the end"),
        gives_like("residual_sd", "y", "standard deviation about the curve, n − 2"),
    ],
    assumptions: "starts at 0 and rises; spread of the readings the same everywhere",
    source: "nonlinear least squares (Gauss–Newton with Levenberg's damping); checked against NIST Misra1a",
    setup: "",
    example: "x=1,2,4,8,16 y=10,18,29,39,43",
    eval: |v| {
        let (x, y) = points(v)?;
        let top = y.iter().copied().fold(f64::MIN, f64::max);
        let middle = x.iter().sum::<f64>() / count(x.len());
        ensure(top > 0.0 && middle > 0.0, "at least one reading and one time must be above 0")?;
        fit(x, y, [1.0 / middle, 1.5 * top], |x, [k, plateau]| {
            let left = libm::exp(-k * x);
            (plateau * (1.0 - left), [plateau * x * left, 1.0 - left])
        })
    },
    inverses: &[],
};

/// Two lists of the same length, at least three points.
fn points(inputs: &[Value]) -> Result<(&[f64], &[f64]), LawError> {
    let [Value::List(x), Value::List(y)] = inputs else {
        return Err(LawError::WrongCount { given: inputs.len(), expected: 2 });
    };
    ensure(x.len() == y.len(), "both lists must have the same length")?;
    ensure(x.len() >= 3, "at least three points are needed for two parameters")?;
    Ok((x, y))
}

/// A curve with two parameters: its value at x and its slope against each of them.
type Curve = fn(f64, [f64; 2]) -> (f64, [f64; 2]);

/// Least squares for two parameters, by Levenberg's damped Gauss–Newton steps: a step that makes the fit worse is not
/// taken but shortened.
fn fit(x: &[f64], y: &[f64], start: [f64; 2], curve: Curve) -> Result<Vec<Value>, LawError> {
    let squares = |at: [f64; 2]| -> f64 {
        x.iter().zip(y).map(|(x, y)| y - curve(*x, at).0).map(|residual| residual * residual).sum()
    };
    let mut at = start;
    let mut best = squares(at);
    let mut damping = 1e-3;
    for _ in 0..500 {
        let steps = step(x, y, at, damping, curve);
        let next = [at[0] + steps[0], at[1] + steps[1]];
        let new = squares(next);
        if new.is_finite() && new <= best {
            let small = steps.iter().zip(at).all(|(step, at)| step.abs() <= 1e-13 * at.abs());
            (at, best) = (next, new);
            damping = f64::max(damping / 10.0, 1e-15);
            if small {
                break;
            }
        } else if damping > 1e12 {
            break;
        } else {
            damping *= 10.0;
        }
    }
    if !best.is_finite() {
        return Err(impossible("no curve of this form fits these points"));
    }
    several(&[at[0], at[1], (best / (count(x.len()) - 2.0)).sqrt()])
}

/// One damped step, δ from `(JᵀJ + λ·diag(JᵀJ))·δ = Jᵀr`, solved for two unknowns.
fn step(x: &[f64], y: &[f64], at: [f64; 2], damping: f64, curve: Curve) -> [f64; 2] {
    let (mut first_squared, mut mixed, mut second_squared) = (0.0, 0.0, 0.0);
    let mut down = [0.0, 0.0];
    for (x, y) in x.iter().zip(y) {
        let (value, [first, second]) = curve(*x, at);
        let residual = y - value;
        first_squared += first * first;
        mixed += first * second;
        second_squared += second * second;
        down[0] += first * residual;
        down[1] += second * residual;
    }
    first_squared *= 1.0 + damping;
    second_squared *= 1.0 + damping;
    let determinant = first_squared * second_squared - mixed * mixed;
    [
        (down[0] * second_squared - down[1] * mixed) / determinant,
        (first_squared * down[1] - mixed * down[0]) / determinant,
    ]
}
