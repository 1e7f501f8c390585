//! Whatever is done to a file, loading and checking end with a graph or with faults, never with a panic.

use std::fs;

use proptest::prelude::*;
use toehold::concepts::load_and_check;
use toehold::diagnostic;
use toehold::source::Sources;

use crate::program::tests;

/// One edit of the bytes of a file.
#[derive(Debug, Clone)]
enum Edit {
    Replace(usize, u8),
    Insert(usize, Vec<u8>),
    Remove(usize, usize),
    Copy(usize, usize, usize),
}

fn edit() -> impl Strategy<Value = Edit> {
    let sign = prop::sample::select(b"\n\t :-[]{}#&*!|>\"'%@`,.?0e\xff\x00\xc3".to_vec());
    let piece = prop::sample::select(vec![
        "\n  - ", "{{ ", " }}", ": ", "&a ", "*a", "<<: *a", "!!int ", "|\n", "\"", "[[", "---\n", ".inf", "null",
        "1e999", "µ", "\u{feff}", "\r\n", "...\n", "? ", "\u{2028}",
    ]);
    prop_oneof![
        (any::<usize>(), sign).prop_map(|(at, byte)| Edit::Replace(at, byte)),
        (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Edit::Replace(at, byte)),
        (any::<usize>(), piece).prop_map(|(at, text)| Edit::Insert(at, text.as_bytes().to_vec())),
        (any::<usize>(), 1_usize..400).prop_map(|(at, length)| Edit::Remove(at, length)),
        (any::<usize>(), any::<usize>(), 1_usize..300).prop_map(|(from, to, length)| Edit::Copy(from, to, length)),
    ]
}

fn apply(bytes: &mut Vec<u8>, edit: &Edit) {
    let place = |at: usize, bytes: &[u8]| at % (bytes.len() + 1);
    match edit {
        Edit::Replace(at, byte) => {
            let at = place(*at, bytes);
            if let Some(old) = bytes.get_mut(at) {
                *old = *byte;
            }
        }
        Edit::Insert(at, text) => {
            let at = place(*at, bytes);
            bytes.splice(at..at, text.iter().copied());
        }
        Edit::Remove(at, length) => {
            let at = place(*at, bytes);
            bytes.drain(at..(at + length).min(bytes.len()));
        }
        Edit::Copy(from, to, length) => {
            let from = place(*from, bytes);
            let piece = bytes[from..(from + length).min(bytes.len())].to_vec();
            let to = place(*to, bytes);
            bytes.splice(to..to, piece);
        }
    }
}

fn check(files: &[Vec<u8>]) {
    let mut sources = Sources::new();
    for (n, bytes) in files.iter().enumerate() {
        sources.add(format!("{n}.yaml"), bytes.clone());
    }
    if let Err(faults) = load_and_check(&sources) {
        assert!(!faults.is_empty());
        for fault in &faults {
            let text = diagnostic::terminal(&sources, fault, false);
            assert!(text.contains(fault.code.name));
            assert!(diagnostic::json(&sources, fault).is_object());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn edits_of_good_files_never_panic(edits in prop::collection::vec((any::<bool>(), edit()), 1..6)) {
        let read = |name| fs::read(tests().join("graphs/tiny").join(name)).unwrap();
        let mut files = [read("bench.yaml"), read("separation.yaml")];
        for (which, edit) in &edits {
            apply(&mut files[usize::from(*which)], edit);
        }
        check(&files);
    }

    #[test]
    fn noise_never_panics(bytes in prop::collection::vec(any::<u8>(), 0..300), text in "\\PC{0,200}") {
        check(&[bytes]);
        check(&[text.into_bytes()]);
    }
}

#[test]
fn deep_and_long_texts_never_panic() {
    for text in [
        "[".repeat(200_000),
        "{a: ".repeat(100_000),
        "- ".repeat(100_000),
        format!("entities:\n  - id: {}\n", "a".repeat(3_000_000)),
        format!("quantities:\n  - unit: {}\n", "(".repeat(100_000)),
        "a:\n".repeat(50_000),
        "  - id: x\n".repeat(50_000),
    ] {
        check(&[text.into_bytes()]);
    }
}
