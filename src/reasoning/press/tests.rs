use super::balance::{self, Equation, Step};
use super::terms::{Answer, Budget, Matrix, Tally, only};
use super::{Diagram, Reason, press, verify};
use crate::reasoning::Sign::{self, Minus, Plus};

/// Reads arrows such as `grass + hare`, one a line.
fn diagram(arrows: &str) -> Diagram {
    let mut diagram = Diagram::new();
    for arrow in arrows.lines().map(str::trim).filter(|line| !line.is_empty()) {
        let words: Vec<&str> = arrow.split(' ').collect();
        diagram.connect(words[0], if words[1] == "+" { Plus } else { Minus }, words[2]);
    }
    diagram
}

#[track_caller]
fn case(arrows: &str, source: &str, expected: &str) {
    let diagram = diagram(arrows);
    let from = diagram.find(source).unwrap();
    let found: String = (0..diagram.nodes.len()).map(|to| press(&diagram, from, to).ascii()).collect();
    assert_eq!(found, expected, "{source} raised, of {:?}", diagram.nodes);
}

const CHAIN: &str = "grass - grass
    grass + hare
    hare - grass
    hare - hare
    hare + lynx
    lynx - hare
    lynx - lynx";

// Trophic cascade: Levins 1974; Oksanen et al., American Naturalist 118 (1981) 240–261 (from memory).
#[test]
fn more_at_the_bottom_of_a_chain_raises_all_above() {
    case(CHAIN, "grass", "+++");
}

#[test]
fn more_at_the_top_of_a_chain_cascades_with_turning_signs() {
    case(CHAIN, "lynx", "+-+");
    case(CHAIN, "hare", "-++");
}

// Only the bottom holds itself back: what grazers gain, their hunters take (from memory, as above).
#[test]
fn a_hunter_without_a_limit_of_its_own_keeps_its_prey_where_it_was() {
    let chain = "grass - grass
        grass + hare
        hare - grass
        hare + lynx
        lynx - hare";
    case(chain, "grass", "+0+");
    case(chain, "hare", "00+");
    case(chain, "lynx", "+-+");
}

// Holt, Theoretical Population Biology 12 (1977) 197–229: apparent competition (from memory).
#[test]
fn two_prey_of_one_hunter_harm_each_other() {
    let shared = "hare - hare
        vole - vole
        owl - owl
        hare + owl
        owl - hare
        vole + owl
        owl - vole";
    case(shared, "hare", "+-+");
}

#[test]
fn a_hunter_of_two_rivals_may_favour_either() {
    let rivals = "a - a
        b - b
        owl - owl
        a - b
        b - a
        a + owl
        owl - a
        b + owl
        owl - b";
    case(rivals, "owl", "???");
}

#[test]
fn two_ways_of_opposite_sign_without_a_loop_are_withheld() {
    let fork = "rain + grass
        rain + flood
        flood - grass
        grass - grass
        flood - flood";
    case(fork, "rain", "+?+");
    let diagram = diagram(fork);
    let withheld = press(&diagram, 0, 1);
    let super::Response::Withheld(reason) = withheld else { panic!("{withheld:?}") };
    let told = "it would rise by rain → grass, and fall by rain → flood → grass; which is stronger, signs do not tell";
    assert_eq!(reason.to_string(), told);
}

#[test]
fn what_is_not_downstream_stays() {
    case("a - a\na + b\nb - b", "b", "0+");
}

#[test]
fn a_part_elsewhere_that_feeds_itself_cannot_turn_a_stable_answer() {
    // x and y feed each other, yet as a part of a stable community their determinant is positive.
    case("a - a\na + b\nb - b\nb + x\nx + y\ny + x\nx - x\ny - y\ny + c\nc - c", "a", "+++++");
}

#[test]
fn a_loop_that_feeds_itself_beside_the_way_can_turn_it_round() {
    let beside = "a - a
        b - b
        a + b
        b - a
        x - x
        y - y
        x + y
        y + x
        b + x
        x - b";
    // a itself rises: where x and y outweigh what holds them, det(−A) > 0 leaves its complement no other sign.
    case(beside, "a", "+?++");
    let diagram = diagram(beside);
    let super::Response::Withheld(reason) = press(&diagram, 0, 1) else { panic!() };
    let told = "it would rise by a → b, and fall by a → b, turned round by the self-feeding loop x → y → x; \
                which is stronger, signs do not tell";
    assert_eq!(reason.to_string(), told);
}

#[test]
fn what_nothing_holds_back_never_settles_and_only_what_hangs_on_it_is_withheld() {
    case("sun + grass\ngrass + litter\ngrass - grass", "sun", "++?");
    let diagram = diagram("sun + grass\ngrass + litter\ngrass - grass");
    let super::Response::Withheld(reason) = press(&diagram, 0, 2) else { panic!() };
    assert_eq!(reason, Reason::NeverSettles { things: vec!["litter".to_owned()] });
}

#[test]
fn an_arrow_with_both_signs_withholds_what_hangs_on_it_alone() {
    let doubtful = "a - a\na + b\na - b\nb - b\na + c\nc - c";
    case(doubtful, "a", "+?+");
    let diagram = diagram(doubtful);
    let super::Response::Withheld(reason) = press(&diagram, 0, 1) else { panic!() };
    assert_eq!(reason.to_string(), "it hangs on a → b, given both as + and as −");
}

#[test]
fn a_self_effect_of_unknown_sign_is_one_that_holds_back_in_a_stable_community() {
    case("a - a\na + b\nb - b\nb + b", "a", "++");
}

/// Terms disagree, but stability settles the answer.
const LOOSE: &str = "a - a
    c - c
    a - b
    b - a
    a + c
    c - a
    c + b";

#[test]
fn stability_settles_what_terms_leave_open() {
    case(LOOSE, "a", "00+");
}

type Inner = Vec<(usize, usize, Option<Sign>)>;

fn part(arrows: &str) -> (usize, Inner, Matrix) {
    let diagram = diagram(arrows);
    let effects: Inner = diagram.effects().into_iter().map(|((from, to), sign)| (from, to, sign)).collect();
    let size = diagram.nodes.len();
    let matrix = Matrix::new(size, &effects);
    (size, effects, matrix)
}

fn steps(matrix: &Matrix) -> Vec<Step> {
    let mut budget = Budget::new(1_000_000);
    let mut table = balance::by_terms(matrix, &mut budget);
    balance::settle(matrix, &mut table, &mut budget)
}

#[test]
fn the_checker_accepts_the_engine_and_refuses_what_is_tampered_with() {
    let (size, effects, matrix) = part(LOOSE);
    let steps = steps(&matrix);
    assert!(!steps.is_empty() && verify::replay(size, &effects, &steps));
    for tampered in 0..steps.len() {
        let mut wrong = steps.clone();
        wrong[tampered].sign = wrong[tampered].sign.flipped();
        assert!(!verify::replay(size, &effects, &wrong), "a turned sign passes at step {tampered}");
        let mut wrong = steps.clone();
        wrong[tampered].by = Equation::Diagonal;
        assert!(!verify::replay(size, &effects, &wrong), "another equation passes at step {tampered}");
    }
}

#[test]
fn terms_are_counted_exactly() {
    let (_, _, matrix) = part(CHAIN);
    let mut budget = Budget::new(1_000);
    // det(−A) = three self-effects, and two ways of one loop beside a self-effect.
    assert_eq!(matrix.minor(0, 0, &mut budget), Some(Tally { plus: 3, minus: 0, unsigned: 0 }));
    // Without grass as pushed and lynx as seen only the path is left.
    assert_eq!(matrix.minor(only(0), only(2), &mut budget).map(Tally::answer), Some(Answer::Sign(Plus)));
    assert_eq!(matrix.minor(only(0), only(0), &mut Budget::new(1)), None);
}
