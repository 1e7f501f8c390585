//! What was generated passes.

use super::Desk;

#[test]
fn every_generated_scenario_passes() {
    let desk = Desk::new();
    for seed in [1, 99] {
        for text in desk.scenarios(seed, 150) {
            let found = desk.proof(text.clone().into_bytes());
            assert!(found.diagnostics.is_empty(), "{text}\n{}", found.text());
        }
    }
}
