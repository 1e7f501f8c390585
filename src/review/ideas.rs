//! Ideas written by hand: all must be there.

use super::figure::{self, Figures};
use super::guide::{Idea, Point};
use super::judge::{Fared, Judge, Verdict, both, limit, says};
use super::meaning::Link;
use super::pattern::Wanted;
use super::read::Role;
use super::verdict::{Status, Stretch};
use crate::quantity::Unit as Measure;

impl Judge<'_> {
    /// Ideas written by hand: all must be there.
    pub(super) fn by_hand(&self, point: &Point) -> Verdict {
        let verdicts: Vec<Verdict> = point.ideas.iter().map(|idea| self.idea(idea)).collect();
        let places: Vec<Stretch> = verdicts.iter().flat_map(|(_, places)| places.clone()).collect();
        let statuses: Vec<Status> = verdicts.iter().map(|(status, _)| *status).collect();
        let statement = self.pattern(&point.statement);
        let rejected = self.rejected(point, &statement);
        let status = match () {
            () if statuses.contains(&Status::Contradicted) => Status::Contradicted,
            () if rejected.is_some() => Status::Contradicted,
            () if statuses.iter().all(|status| *status == Status::Found) => Status::Found,
            () if statuses.iter().all(|status| *status == Status::NotFound) => Status::NotFound,
            () => Status::LookAgain,
        };
        let denies = rejected.unwrap_or_default();
        (status, places.into_iter().chain(both(&[], &denies)).collect())
    }

    fn idea(&self, idea: &Idea) -> Verdict {
        if let Some(value) = idea.value {
            let unit = Measure::parse(&idea.unit).ok().filter(|_| !idea.unit.is_empty());
            let wanted = figure::within(value, idea.tolerance, unit);
            return self.figures(&Figures { value: Some(wanted), ..Figures::default() });
        }
        let mut verdict = (Status::Found, Vec::new());
        for term in &idea.terms {
            let (status, places) = self.term(term, idea);
            verdict.1.extend(places);
            if status != Status::Found {
                verdict.0 = if verdict.0 == Status::Contradicted { Status::Contradicted } else { status };
            }
        }
        let is_reason = |link: Link| matches!(link, Link::Because | Link::So);
        let linked = self.reading.pieces.iter().any(|piece| matches!(piece.role, Role::Link(link) if is_reason(link)));
        if idea.link && !linked && verdict.0 == Status::Found {
            verdict.0 = Status::LookAgain;
        }
        verdict
    }

    /// One term of an idea, or one of its alternatives; with its direction, where one is wanted.
    fn term(&self, term: &str, idea: &Idea) -> Verdict {
        let mut worst = (Status::NotFound, Vec::new());
        for alternative in term.split('|') {
            let mut pattern = self.pattern(alternative.trim());
            if let Some(direction) = idea.direction {
                let about =
                    pattern.units.iter().flat_map(|unit| unit.keys.iter().map(|key| (key.clone(), 1.0))).collect();
                pattern.wanted = vec![Wanted { direction, about, class: Vec::new(), cause: false }];
                pattern.direction_alone = true;
            }
            let found = self.matcher().find(&pattern);
            match Self::fared(&pattern, &found, limit::ALTERNATIVE) {
                Fared::Said => return (Status::Found, says(&found.says)),
                Fared::Denied => worst = (Status::Contradicted, both(&found.says, &found.denies)),
                Fared::Partly if worst.0 == Status::NotFound => worst = (Status::LookAgain, says(&found.says)),
                Fared::Partly | Fared::Missing => {}
            }
        }
        worst
    }
}
