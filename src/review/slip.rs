//! Where a slip lies: of the claims that go the other way, the one that tells the first step behind those told rightly.

use super::correction::corrects;
use super::course::{Course, PLAINLY, Told};
use super::matching::Matcher;
use super::meaning::Accord;

impl Course {
    /// "They get shorter, so there is less room and less is bound": where an answer turns at a claim that may be of several
    /// steps, it turns at the first of them that it has not told rightly; and where the claims behind it tell of steps that
    /// lie between, at those. What corrects itself turns at what it corrects.
    pub(super) fn slip(&self, at: usize, before: usize, claims: &[usize], matcher: &Matcher<'_>) -> usize {
        let (Some(turned), Some(right)) = (self.told.get(at), self.told.get(before)) else { return at };
        // "…, or rather it stiffens": of what was just told, where it is plainly of nothing else.
        let claim = matcher.reading.claims.get(turned.claim);
        if claim.is_some_and(|claim| corrects(matcher.reading, claim)) {
            return if turned.share < PLAINLY { before } else { at };
        }
        let told = |claim: usize, accord: Accord| {
            self.told.iter().enumerate().filter(move |(_, told)| told.claim == claim && told.accord == accord)
        };
        let reached = told(right.claim, right.accord).map(|(_, told)| told.node).max().unwrap_or(right.node);
        // What a step sets out from is what the step before leads to.
        let own = |told: &Told| if self.sets_out(told.node) { told.node.saturating_sub(1) } else { told.node };
        let point = |told: &Told| self.nodes.get(own(told)).map(|node| node.place.point);
        let behind = |told: &Told| own(told) > reached;
        if turned.node <= reached {
            let onward = told(turned.claim, turned.accord).filter(|(_, told)| behind(told)).map(|(at, _)| at).next();
            return onward.unwrap_or(at);
        }
        let later = claims.iter().copied().skip_while(|claim| *claim <= turned.claim);
        let run = later.take_while(|claim| told(*claim, turned.accord).next().is_some());
        let between = run.flat_map(|claim| told(claim, turned.accord));
        let between =
            between.filter(|(_, told)| behind(told) && told.node < turned.node && point(told) != point(turned));
        between.min_by_key(|(_, told)| told.node).map_or(at, |(at, _)| at)
    }

    /// "… more enzyme. But how much of it there is doesn't matter": what was told rightly stands, and what follows from it is
    /// denied. Says whether it is so.
    pub(super) fn deny_next(
        &mut self,
        at: usize,
        node: usize,
        seen: &[(usize, Accord)],
        matcher: &Matcher<'_>,
    ) -> bool {
        let Some((claim, share)) = self.told.get(at).map(|told| (told.claim, told.share)) else { return false };
        let piece = matcher.reading.claims.get(claim).and_then(|claim| matcher.reading.pieces.get(claim.at));
        let step = |node: usize| self.nodes.get(node).map(|node| (node.place.point, node.place.step));
        let told = seen.iter().any(|(known, _)| step(*known) == step(node) || *known >= node);
        if !told || !piece.is_some_and(|piece| piece.lower.ends_with("matter")) {
            return false;
        }
        let follows = |next: &usize| step(*next) > step(node) && !self.sets_out(*next);
        let Some(node) = (node + 1..self.nodes.len()).find(follows) else { return false };
        self.told.push(Told { node, claim, accord: Accord::Oppose, share, blamed: true, whole: false });
        true
    }

    /// Whether what was told is what a point sets out from, so that the point before it leads to that.
    pub(super) fn crosses(&self, at: usize) -> bool {
        let node = self.told.get(at).map_or(0, |told| told.node);
        let point = |node: usize| self.nodes.get(node).map(|node| node.place.point);
        node > 0 && self.sets_out(node) && point(node - 1) != point(node)
    }

    /// Marks what leads to that which was told.
    pub(super) fn blame_before(&mut self, at: usize) {
        let Some(told) = self.told.get(at).filter(|told| told.node > 0) else { return };
        self.told.push(Told { node: told.node - 1, blamed: true, whole: false, ..told.clone() });
    }
}
