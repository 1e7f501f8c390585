//! The sign of an influence is held against its law: whatever is wrong is found, whatever is right is let through.

use toehold::concepts::graph::{DeclaredSign, Graph, Influence, SymbolSource};
use toehold::concepts::{embedded, load_and_check};
use toehold::diagnostic::Diagnostic;
use toehold::laws::Value;
use toehold::source::Sources;

/// A graph of one influence: `from` in this unit and range, and the fields of the influence.
fn graph(unit_from: &str, range: &str, unit_to: &str, influence: &str) -> Result<Graph, Vec<Diagnostic>> {
    let text = format!(
        r#"
field: {{ id: f, name: F }}
entities: [{{ id: e, intro: a thing, names: [{{ one: thing, many: things }}] }}]
quantities:
  - {{ id: a, name: A, the: a, symbol: a, unit: "{unit_from}", entity: e, more: more, less: less, range: {range}, role: treatment, at_the_bench: set }}
  - id: b
    name: B
    the: b
    symbol: b
    unit: "{unit_to}"
    entity: e
    more: more
    less: less
    range: [0, 1000]
    role: readout
    at_the_bench: read
    reading: {{ instrument: an eye, resolution: 1, relative_sd: 0, absolute_sd: 1 }}
principles:
  - {{ id: p, name: p, statement: It is so., recall: [{{ ask: Is it?, answer: It is. }}], terms: [so], source: common practice }}
influences:
  - id: i
    from: a
    to: b
    principle: p
    because: it is so
    time_s: 1
    role: {{ ask: What?, answer: That. }}
    up: it rises
    down: it falls
{influence}
acts:
  - {{ id: act, dial: a, changes: [a, b], doing: setting it, sought: the amount in, levels: [{levels}], text: [It is set.], control: the first }}
"#,
        levels = levels(range),
    );
    let mut sources = Sources::new();
    sources.add("one.yaml", text.into_bytes());
    load_and_check(&sources)
}

/// Three levels across a range.
fn levels(range: &str) -> String {
    let (low, high) = range.trim_matches(['[', ']']).split_once(',').unwrap();
    let (low, high): (f64, f64) = (low.trim().parse().unwrap(), high.trim().parse().unwrap());
    format!("[{low}, {}, {high}]", f64::midpoint(low, high))
}

#[track_caller]
fn good(result: Result<Graph, Vec<Diagnostic>>) {
    if let Err(faults) = result {
        panic!("{:?}", faults.iter().map(|fault| (fault.code.name, &fault.message)).collect::<Vec<_>>());
    }
}

#[track_caller]
fn bad(result: Result<Graph, Vec<Diagnostic>>, code: &str) {
    let faults = result.expect_err("a fault");
    assert_eq!(faults.iter().map(|fault| fault.code.name).collect::<Vec<_>>(), [code], "{}", faults[0].message);
}

fn ph(sign: &str, low: &str) -> Result<Graph, Vec<Diagnostic>> {
    let law = format!(
        "    sign: {sign}\n    law:\n      name: ph-activity\n      input: ph\n      fixed: [{{ symbol: vmax, value: 10 }}, {{ symbol: pka_high, value: 9 }}]\n      {low}\n"
    );
    graph("[pH]", "[2, 12]", "umol/min", &law)
}

#[test]
fn turning_points_must_be_where_the_law_turns() {
    let fixed = "letters: []\n      free: [{ symbol: pka_low, low: 4.9, high: 5.1, step: 0.1 }]";
    good(ph("turning\n    turns_at: 7", fixed));
    bad(ph("turning\n    turns_at: 8", fixed), "sign-disagrees-with-law");
    bad(ph("turning\n    turns_at: 6", fixed), "sign-disagrees-with-law");
    bad(ph("\"+\"", fixed), "sign-disagrees-with-law");
    bad(ph("\"-\"", fixed), "sign-disagrees-with-law");
    // What is drawn moves the top: no one point is right.
    let wide = "free: [{ symbol: pka_low, low: 3, high: 7, step: 0.5 }]";
    bad(ph("turning\n    turns_at: 7", wide), "sign-disagrees-with-law");
}

fn hill(over: &str, sign: &str) -> Result<Graph, Vec<Diagnostic>> {
    let law = format!(
        "    sign: \"{sign}\"\n    {over}\n    law:\n      name: hill\n      input: ligand\n      fixed: [{{ symbol: half, value: 1 }}, {{ symbol: n, value: 4 }}]\n"
    );
    graph("umol/L", "[0, 1000000]", "1", &law)
}

#[test]
fn saturation_at_an_end_is_no_fault_but_no_change_at_all_is() {
    good(hill("", "+"));
    bad(hill("", "-"), "sign-disagrees-with-law");
    bad(hill("over: [100000, 1000000]", "+"), "no-effect");
}

fn volume(sign: &str, iso: &str) -> Result<Graph, Vec<Diagnostic>> {
    let law = format!(
        "    sign: \"{sign}\"\n    law:\n      name: relative-volume\n      input: osmolarity\n      fixed: [{{ symbol: inactive, value: 0.4 }}]\n      {iso}\n"
    );
    graph("mosm/L", "[100, 2000]", "1", &law)
}

#[test]
fn what_was_first_is_tried_across_the_range() {
    good(volume("-", "at_first: [osmolarity_iso]"));
    bad(volume("+", "at_first: [osmolarity_iso]"), "sign-disagrees-with-law");
    good(volume("-", "free: [{ symbol: osmolarity_iso, low: 0.2, high: 0.4, step: 0.1 }]"));
}

#[test]
fn a_wrong_sign_anywhere_in_the_concepts_is_found() {
    let sources = embedded();
    let signs: Vec<Vec<usize>> = sources
        .ids()
        .map(|id| {
            let places = |sign| sources.text(id).match_indices(sign).map(|(at, _)| at + "sign: ".len());
            let mut all: Vec<usize> = places("sign: \"+\"").chain(places("sign: \"-\"")).collect();
            all.sort_unstable();
            all
        })
        .collect();
    let most = signs.iter().map(Vec::len).max().unwrap_or(0);
    for n in 0..most {
        let mut wrong = Sources::new();
        let mut expected = Vec::new();
        for (id, places) in sources.ids().zip(&signs) {
            let mut bytes = sources.text(id).as_bytes().to_vec();
            let file = if let Some(at) = places.get(n) {
                bytes[at + 1] = if bytes[at + 1] == b'+' { b'-' } else { b'+' };
                Some(*at)
            } else {
                None
            };
            let added = wrong.add_named(sources.path(id), sources.name(id), bytes);
            expected.extend(file.map(|at| (added, at)));
        }
        let faults = load_and_check(&wrong).expect_err("wrong signs");
        let found: Vec<_> = faults
            .iter()
            .filter(|fault| fault.code.name == "sign-disagrees-with-law")
            .map(|fault| (fault.primary.file, fault.primary.start))
            .collect();
        assert_eq!(found, expected, "sign number {n} of each file");
    }
}

/// A value between nought and one, from the middle bits of a linear congruence (constants of Knuth's MMIX, from memory).
fn draw(state: &mut u64) -> f64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    f64::from(u32::try_from(*state >> 32).unwrap()) / f64::from(u32::MAX)
}

fn source(source: &SymbolSource, first: f64, state: &mut u64) -> Value {
    match source {
        SymbolSource::Driven | SymbolSource::AtFirst => Value::Number(first),
        SymbolSource::Fixed(value) => Value::Number(*value),
        SymbolSource::Free { low, high, step } => {
            let n = ((high - low) / step + 1e-9).floor();
            Value::Number(low + step * (draw(state) * (n + 1.0)).floor().min(n))
        }
        SymbolSource::Letters(any_of) => {
            let last = any_of.len() - 1;
            let at = (0..last).take_while(|_| draw(state) > 0.5).count();
            Value::Text(any_of[at].clone())
        }
    }
}

/// Whether two values of `from`, the first lower, give values of `to` in the declared order, or equal ones.
fn ordered(influence: &Influence, graph: &Graph, low: f64, high: f64, state: &mut u64) -> Option<bool> {
    let law = &influence.law;
    let unit = &graph.quantity(influence.from).unit;
    let read = |x: f64| unit.convert(x, &law.input_unit).unwrap();
    let mut inputs: Vec<Value> = law.sources.iter().map(|one| source(one, read(low), state)).collect();
    inputs[law.input] = Value::Number(read(low));
    let before = law.law.value(&inputs).ok()?;
    inputs[law.input] = Value::Number(read(high));
    let after = law.law.value(&inputs).ok()?;
    let slack = 1e-9 * before.abs().max(after.abs());
    Some(match influence.sign {
        DeclaredSign::Plus => after >= before - slack,
        DeclaredSign::Minus => after <= before + slack,
        DeclaredSign::Turning { at } if high <= at => after >= before - slack,
        DeclaredSign::Turning { at } if low >= at => after <= before + slack,
        DeclaredSign::Turning { .. } => true,
    })
}

/// The checks try corners and middles of what is drawn; this tries whatever comes.
#[test]
fn drawn_values_never_break_a_sign_of_the_concepts() {
    let graph = load_and_check(&embedded()).unwrap();
    let mut state = 7;
    for (_, influence) in graph.influences() {
        let (least, greatest) = influence.over;
        for _ in 0..400 {
            let (one, other) = (draw(&mut state), draw(&mut state));
            let at = |share: f64| least + (greatest - least) * share;
            let result = ordered(influence, &graph, at(one.min(other)), at(one.max(other)), &mut state);
            assert_ne!(result, Some(false), "{}", influence.id);
            assert!(result.is_some(), "{}: no value within {least} to {greatest}", influence.id);
        }
    }
}
