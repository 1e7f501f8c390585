//! `toehold laws` as a user meets it: the real binary, its output, its messages, its exit codes.

use std::process::{Command, Output};

use serde_json::Value as Json;

fn toehold(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_toehold")).args(words).output().unwrap()
}

#[track_caller]
fn out(words: &[&str]) -> String {
    let output = toehold(words);
    assert!(output.status.success(), "{words:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[track_caller]
fn json(words: &[&str]) -> Json {
    serde_json::from_str(&out(words)).unwrap()
}

/// Exit code 2, nothing on standard output, this message.
#[track_caller]
fn fails(words: &[&str], message: &str) {
    let output = toehold(words);
    assert_eq!(output.status.code(), Some(2), "{words:?}");
    assert!(output.stdout.is_empty());
    assert_eq!(String::from_utf8(output.stderr).unwrap(), message, "{words:?}");
}

#[test]
fn the_list_has_every_law_under_its_field() {
    let text = out(&["laws"]);
    for law in toehold::laws::all() {
        assert!(text.contains(&format!("\n  {} ", law.id)), "{}", law.id);
        assert!(text.contains(&format!("{}\n", law.family)), "{}", law.family);
    }
    let list = json(&["laws", "--format", "json"]);
    let laws = list.as_array().unwrap();
    assert_eq!(laws.len(), toehold::laws::all().count());
    for law in laws {
        for key in ["id", "field", "formula", "symbols", "source", "range"] {
            assert!(!law[key].is_null(), "{law}");
        }
    }
}

#[test]
fn every_law_can_be_shown() {
    for law in toehold::laws::all() {
        let text = out(&["laws", "show", law.id]);
        for needed in [law.formula, law.title, law.example] {
            assert!(text.contains(needed), "{}: no {needed}", law.id);
        }
        assert!(
            law.inputs.iter().all(|symbol| text.contains(symbol.id) && text.contains(symbol.meaning)),
            "{}",
            law.id
        );
        let ranged = law.read_example().unwrap().range.is_some();
        assert_eq!(text.contains('•'), ranged, "{}: the plot", law.id);
        if ranged {
            let svg = out(&["laws", "show", law.id, "--svg"]);
            assert!(svg.starts_with("<svg") && svg.contains("<title>") && svg.contains("role=\"img\""), "{}", law.id);
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{}", law.id);
        }
    }
}

#[test]
fn shows_one_law() {
    insta::assert_snapshot!(out(&["laws", "show", "quenching"]));
    insta::assert_snapshot!(out(&["laws", "show", "gel-mobility", "--svg"]));
    assert!(out(&["laws", "show", "quenching", "--against", "constant"]).contains("constant (L/mmol)"));
}

#[test]
fn evaluates() {
    let text = out(&["laws", "eval", "solute-potential", "particles=1", "concentration=0.3", "temperature=22"]);
    insta::assert_snapshot!(text);
    let value = json(&["laws", "eval", "michaelis-menten", "vmax=100", "km=2", "substrate=3", "--format", "json"]);
    assert_eq!((&value["law"], &value["value"]), (&Json::from("michaelis-menten"), &Json::from(60.0)));
    assert!(value["unit"].is_string());
    let chi = ["laws", "eval", "chi-square", "observed=5474,1850", "expected=5493,1831", "--format", "json"];
    insta::assert_snapshot!(out(&chi));
    let inhibited = ["vmax=100", "km=2", "substrate=3", "inhibitor=1", "ki_free=1", "ki_bound=inf", "--format", "json"];
    let value = json(&[&["laws", "eval", "mixed-inhibition"][..], &inhibited].concat());
    assert_eq!(value["value"], Json::from(300.0 / 7.0));
    let cut = ["sequence=AAGAATTCAAAAGAATTCAA", "site=GAATTC", "cut=1", "topology=circular", "--format", "json"];
    let value = json(&[&["laws", "eval", "digest"][..], &cut].concat());
    assert_eq!(value["value"], serde_json::json!([10.0, 10.0]));
}

#[test]
fn evaluates_over_a_range() {
    let words = ["laws", "eval", "michaelis-menten", "vmax=100", "km=2", "substrate=0:10:0.5"];
    let text = out(&words);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!((lines.len(), lines[0], lines[1], lines[5]), (22, "substrate,rate", "0,0", "2,50"));
    assert_eq!(lines[21], "10,83.33333333333333");
    let points = json(&[&words[..], &["--format", "json"]].concat());
    assert_eq!(points["points"][4]["value"], Json::from(50.0));
    assert!(
        out(&["laws", "eval", "hardy-weinberg", "p=0:1:0.25"])
            .starts_with("p,heterozygotes,homozygotes_p,homozygotes_q\n")
    );
}

#[test]
fn says_what_is_wrong() {
    fails(
        &["laws", "eval", "michaelis-mentin"],
        "error: no law is called `michaelis-mentin`\nhint: did you mean `michaelis-menten`?\n",
    );
    fails(&["laws", "show", "zzz"], "error: no law is called `zzz`\nhint: `toehold laws` lists them all\n");
    fails(
        &["laws", "eval", "ionised-acid", "ph=5", "pkb=3"],
        "error: `ionised-acid` has no symbol `pkb`\nhint: did you mean `pka`?\n",
    );
    fails(
        &["laws", "eval", "oxygen-saturation-hill", "po2=40"],
        "error: `oxygen-saturation-hill` also needs `p50` in mm[Hg], `n`\n\
         hint: for example: toehold laws eval oxygen-saturation-hill po2=0:120:4 p50=26.6 n=2.7\n",
    );
    fails(
        &["laws", "eval", "solute-potential", "particles=1", "concentration=30", "temperature=22"],
        "error: `concentration` is 30, outside 0 to 10 mol/L\n\
         hint: `toehold laws show solute-potential` tells where the law holds\n",
    );
    fails(&["laws", "eval", "ionised-acid", "ph=acid", "pka=3"], "error: `acid` in `ph` is not a number\n");
    assert_eq!(toehold(&["laws", "eval"]).status.code(), Some(2));
}

#[test]
fn a_range_of_too_many_values_says_how_many() {
    let run = crate::program::toehold(&["laws", "eval", "michaelis-menten", "vmax=1", "km=1", "substrate=0:1e9:1e-9"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(run.err.contains("has about 1 × 10¹⁸ values; a range has 1000000 at most"), "{}", run.err);
    assert!(run.err.contains("hint: take a larger step"), "{}", run.err);
}
