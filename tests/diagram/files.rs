//! Diagram files: what is read, what is refused and where the fault is.

use std::io::Write as _;

use crate::program::{Run, toehold};

fn explain(bytes: &[u8], format: &str) -> Run {
    let mut file = tempfile::Builder::new().suffix(".csv").tempfile().unwrap();
    file.write_all(bytes).unwrap();
    let path = file.path().to_str().unwrap();
    let run = toehold(&["explain", "--diagram", path, "--format", format]);
    Run { err: run.err.replace(path, "FILE"), ..run }
}

#[track_caller]
fn pairs(bytes: &[u8], expected: &str) {
    let run = explain(bytes, "json");
    assert_eq!((run.out.trim_end(), run.err.as_str(), run.code), (expected, "", 0));
}

/// Refused with these faults, each as `place code message`, every one with a hint.
#[track_caller]
fn refused(bytes: &[u8], expected: &[&str]) {
    let run = explain(bytes, "json");
    assert_eq!((run.out.as_str(), run.code), ("", 2));
    assert_eq!(faults(&run.err), expected, "{}", run.err);
}

/// What was said, one line a fault, without excerpts.
fn faults(said: &str) -> Vec<String> {
    let of = |fault: &str| {
        let (weight, message) = fault.lines().next().unwrap().split_once("]: ").unwrap();
        let place = fault.lines().find_map(|line| line.trim().strip_prefix("--> FILE:")).unwrap();
        assert!(fault.contains("= hint: "), "{fault}");
        format!("{place} {} {message}", weight.split('[').nth(1).unwrap())
    };
    said.split("\n\n").filter(|fault| !fault.trim().is_empty()).map(of).collect()
}

const TWO: &str = r#"{"version":1,"pairs":{"a>a":"+","a>b":"+","b>a":"-","b>b":"+"}}"#;

#[test]
fn plain_rows_are_read() {
    pairs(b"from,sign,to\na,-,a\na,+,b\nb,-,a\nb,-,b\n", TWO);
}

#[test]
fn dos_lines_quotes_blanks_a_byte_order_mark_and_a_true_minus_are_read() {
    let text = "\u{feff}from,sign,to\r\n\r\n\"a\",−,a\r\n a , + ,b\r\n,,\r\nb,\"-\",a\r\nb,-,b";
    pairs(text.as_bytes(), TWO);
}

#[test]
fn columns_are_found_by_name() {
    pairs(b"To,why,From,Sign\na,crowding,a,-\nb,food,a,+\na,eaten,b,-\nb,fights,b,-\n", TWO);
}

#[test]
fn a_name_may_hold_commas_and_line_breaks() {
    let run = explain(b"from,sign,to\n\"a, b\nc\",+,d\nd,x,e\n", "json");
    assert_eq!(faults(&run.err), ["4:3 unknown-sign sign `x` is neither + nor -"]);
}

#[test]
fn the_table_says_why_an_answer_is_withheld() {
    let run =
        explain(b"from,sign,to\nrain,+,grass\nrain,+,flood\nflood,-,grass\ngrass,-,grass\nflood,-,flood\n", "text");
    insta::assert_snapshot!(run.out, @r"
    Raising each thing for good (rows): what happens to each (columns)

            1 2 3
    1 rain  + ? +
    2 grass 0 + 0
    3 flood 0 − +

    + rises, − falls, 0 stays; ? the signs do not tell

    ? rain raised, grass: it would rise by rain → grass, and fall by rain → flood → grass; which is stronger, signs do not tell
    ");
    assert_eq!((run.err.as_str(), run.code), ("", 0));
}

#[test]
fn an_arrow_given_both_ways_is_read_as_unknown_with_a_warning() {
    let run = explain(b"from,sign,to\na,+,b\na,-,b\nb,-,b\nb,+,c\nc,-,c\n", "json");
    assert_eq!(
        run.out.trim_end(),
        r#"{"version":1,"pairs":{"a>a":"+","a>b":"?","a>c":"?","b>a":"0","b>b":"+","b>c":"+","c>a":"0","c>b":"0","c>c":"+"}}"#
    );
    let warning = "3:3 sign-given-both-ways `a` on `b` is given as − here and as + before";
    assert_eq!((faults(&run.err), run.code), (vec![warning.to_owned()], 0));
    assert!(run.err.starts_with("warning[") && run.err.contains("FILE:2:3"), "{}", run.err);
}

#[test]
fn the_same_arrow_twice_is_one_arrow() {
    pairs(b"from,sign,to\na,-,a\na,+,b\na,+,b\nb,-,a\nb,-,b\n", TWO);
}

#[test]
fn a_missing_column_is_named() {
    refused(b"from,effect,to\na,+,b\n", &["1:1 header-incomplete there is no column `sign`"]);
}

#[test]
fn every_bad_row_is_reported_at_its_place_with_a_caret() {
    let text = "from,sign,to\nä,?,b\n\na,+\n\"q,r\",up,s\n,+,a\n";
    refused(
        text.as_bytes(),
        &[
            "2:3 unknown-sign sign `?` is neither + nor -",
            "4:4 bad-name `to` is empty",
            "5:7 unknown-sign sign `up` is neither + nor -",
            "6:1 bad-name `from` is empty",
        ],
    );
    let said = explain(text.as_bytes(), "text").err;
    assert!(said.contains("5 | \"q,r\",up,s\n  |       ^^\n"), "{said}");
}

#[test]
fn an_empty_file_and_one_without_arrows_are_refused() {
    refused(b"", &["1:1 empty-file the file is empty"]);
    refused(b"\r\n \n", &["1:1 empty-file the file is empty"]);
    refused(b"from,sign,to\n", &["1:1 no-arrows below its first row the file has no arrows"]);
}

#[test]
fn bytes_that_are_no_text_are_shown_where_they_begin() {
    refused(b"from,sign,to\na,\xff,b\n", &["2:3 not-utf8 this is not UTF-8 text"]);
}

#[test]
fn far_too_large_files_and_diagrams_are_refused() {
    let run = explain(&vec![b'a'; 1_000_001], "json");
    assert!(run.code == 2 && run.err.contains("is larger than a diagram can be"), "{}", run.err);
    let rows: Vec<String> = (0..101).map(|thing| format!("t{thing},-,t{thing}")).collect();
    let run = explain(format!("from,sign,to\n{}", rows.join("\n")).as_bytes(), "json");
    assert!(run.code == 2 && run.err.contains("the diagram has 101 things; at most 100 are read"), "{}", run.err);
}

#[test]
fn a_file_that_is_not_there_is_said_so() {
    let run = toehold(&["explain", "--diagram", "nowhere.csv"]);
    assert_eq!(run.code, 2);
    assert!(run.err.starts_with("error: `nowhere.csv` could not be read: it is not there"), "{}", run.err);
}

#[test]
fn help_shows_an_example() {
    let run = toehold(&["explain", "--help"]);
    assert!(run.code == 0 && run.out.contains("toehold explain --diagram pond.csv"), "{}", run.out);
}
