//! Guides as the program writes them today, of every kind of question: what its sample answers say is marked as the guide marks
//! it. The marking set stands still; this shows when the wording of guides and the reviewer drift apart.

use std::collections::BTreeMap;

use toehold::concepts::written::TwistKind;
use toehold::review::{Guide, PointKind, Response, Reviewer, Status};
use toehold::scenario::{Generator, PartKind};
use toehold::seed::Seed;
use toehold::technique::{Refusals, TwistWish, Wish};
use toehold::{concepts, guide};

const SEEDS: u64 = 12;
const KINDS: [TwistKind; 7] = [
    TwistKind::Cut,
    TwistKind::Bypass,
    TwistKind::Reverse,
    TwistKind::Saturate,
    TwistKind::RemoveSetting,
    TwistKind::RivalPath,
    TwistKind::RateOrEndPoint,
];

/// What became of answers: found, and all of them.
type Counts = BTreeMap<(String, &'static str), (u32, u32)>;

fn counted(counts: &mut Counts) {
    let graph = concepts::load_and_check(&concepts::embedded()).unwrap();
    let generator = Generator::new(graph.clone());
    for (kind, seed) in KINDS.into_iter().flat_map(|kind| (0..SEEDS).map(move |seed| (kind, 4000 + seed))) {
        let wish = Wish { twist: TwistWish::Kind(kind), ..Wish::default() };
        let Some(scenario) = generator.one(&wish, Seed(seed), &mut Refusals::default()) else { continue };
        let asked: Guide = guide::of_scenario(&scenario);
        let lexicon = guide::lexicon(&graph, &scenario.front);
        let reviewer = Reviewer::new(&asked, &lexicon);
        // What must be drawn is not written.
        for part in scenario.parts.iter().filter(|part| part.kind != PartKind::Construct) {
            let own: Vec<_> = scenario.guide.iter().filter(|point| point.part == part.label).collect();
            let told = |which: fn(&toehold::scenario::Point) -> &str| {
                own.iter().map(|point| which(point)).collect::<Vec<_>>().join(" ")
            };
            for (which, text) in [("right", told(|point| &point.model)), ("wrong", told(|point| &point.wrong))] {
                let review = reviewer.review(&Response { id: part.label.clone(), text: text.clone() }).unwrap();
                let points = asked.questions.iter().find(|question| question.id == part.label);
                for (verdict, point) in review.points.iter().zip(&points.unwrap().points) {
                    let name = if point.kind == PointKind::Statement {
                        format!("{:?}", part.kind)
                    } else {
                        format!("{:?}: {:?}", part.kind, point.kind)
                    };
                    let count = counts.entry((name, which)).or_default();
                    count.0 += u32::from(verdict.status == Status::Found);
                    count.1 += 1;
                    if (verdict.status == Status::Found) != (which == "right") {
                        println!("{which} {:?} {}\n  {}\n  {text}", verdict.status, point.id, point.statement);
                    }
                }
            }
        }
    }
}

#[test]
fn sample_answers_are_marked_as_their_guide_marks_them() {
    let mut counts = Counts::new();
    counted(&mut counts);
    for ((name, which), (found, all)) in &counts {
        println!("{which:6} {found:4} of {all:4} found  {name}");
        let share = f64::from(*found) / f64::from(*all);
        match *which {
            "right" => assert!(share >= 0.9, "{name}: {found} of {all} right answers found"),
            _ => assert!(share <= 0.05, "{name}: {found} of {all} wrong answers found"),
        }
    }
    // Every kind of question and of point was met.
    assert_eq!(counts.len(), 2 * 14);
}
