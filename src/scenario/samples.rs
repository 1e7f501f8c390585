//! Sample answers to a long question: full, middling, and one that rests on misconceptions, each marked.

use super::{Part, PartKind, Point, SampleAnswer};

/// Three answers, each with the points that it earns.
pub(super) fn samples(parts: &[Part], guide: &[Point]) -> Vec<SampleAnswer> {
    vec![
        sample("full", parts, guide, |_, _| true),
        // A student who knows the facts and leaves out the links, the units and the reasons.
        sample("middling", parts, guide, |part, number| match part.kind {
            PartKind::Describe | PartKind::Identify | PartKind::Estimate => true,
            PartKind::Explain | PartKind::Construct | PartKind::Calculate | PartKind::PredictAndJustify => number == 0,
            PartKind::Evaluate | PartKind::Propose | PartKind::Limitation | PartKind::Unexpected => false,
        }),
        // A student who reads the table well and explains it by what is wrongly believed.
        sample("misconception", parts, guide, |part, number| match part.kind {
            PartKind::Estimate | PartKind::Construct => true,
            PartKind::Calculate => number == 0,
            _ => false,
        }),
    ]
}

fn sample(kind: &'static str, parts: &[Part], guide: &[Point], earns: impl Fn(&Part, usize) -> bool) -> SampleAnswer {
    let mut answers = Vec::new();
    let mut earned = Vec::new();
    for part in parts {
        let mut sentences: Vec<&str> = Vec::new();
        for (number, point) in guide.iter().filter(|point| point.part == part.label).enumerate() {
            if earns(part, number) {
                earned.push(point.point.clone());
                sentences.push(&point.model);
            } else if kind == "middling" && matches!(part.kind, PartKind::Explain | PartKind::PredictAndJustify) {
                // Left out, not wrong: a false statement would take away the point before it.
            } else if !point.wrong.is_empty() && !sentences.contains(&point.wrong.as_str()) {
                sentences.push(&point.wrong);
            }
        }
        let answer = if sentences.is_empty() { "(left blank)".to_owned() } else { sentences.join(" ") };
        answers.push((part.label.clone(), answer));
    }
    SampleAnswer { kind, answers, earned }
}
