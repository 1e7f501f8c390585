//! The scoring guide: the path again, as what earns.

use super::Point;
use super::parts::empty;
use super::text::{Voice, capital};
use super::write::{Verdicts, lower, readout_decimals, shown_reading};
use crate::concepts::InfluenceIx;
use crate::quantity::significant::round_to;
use crate::reasoning::{Direction, Sign};

/// Words by which a file's reader knows what a point or a question is for: a file holds its guide as a teacher left it.
pub mod phrase {
    /// How the point for the link between steps begins.
    pub const LINK: &str = "The link:";
    /// A question that holds this tells the outcome of a changed experiment, and asks for both effects.
    pub const TOLD: &str = "The reading is now about";
    /// A prediction that holds this is of no change.
    pub const STAYS: &str = "does not change";
}

/// A part about two ways that pull apart.
pub(super) struct RivalPart {
    pub(super) text: String,
    pub(super) points: Vec<Point>,
}

/// The point for one step, when its cause goes this way.
pub(super) fn earns(voice: &Voice<'_>, ix: InfluenceIx, cause: Direction) -> Point {
    let influence = voice.graph.influence(ix);
    let later = |texts: &[String]| texts.iter().map(|text| voice.later(text, Some(ix))).collect();
    let statement = format!("{}.", capital(&voice.clause(ix, cause)));
    let principle = voice.graph.principle(influence.principle);
    let mut reject: Vec<String> = later(&influence.reject);
    let belief = voice.likeliest_belief(ix);
    if let Some(wrong) = belief {
        // What the misconception says need not stand there twice.
        let held = wrong.belief.to_lowercase();
        reject.retain(|one| !held.contains(&one.to_lowercase()));
        reject.push(format!(
            "“{}” (a misconception: {})",
            wrong.belief.trim_end_matches('.'),
            lower(wrong.fails.trim_end_matches('.'))
        ));
    }
    Point {
        model: statement.clone(),
        wrong: belief.map_or_else(|| reject.first().cloned().unwrap_or_default(), |wrong| wrong.belief.clone()),
        statement,
        accept: later(&influence.accept),
        reject,
        principle: Some(principle.id.clone()),
        ..empty()
    }
}

/// A chain of steps as so many points; where there are fewer steps than points, the last point is for the link.
pub(super) fn chain(voice: &Voice<'_>, steps: &[(InfluenceIx, Direction)], n: usize) -> Vec<Point> {
    let with_link = steps.len() < n;
    let groups = if with_link { n.saturating_sub(1).min(steps.len()) } else { n }.max(1);
    let mut points = Vec::new();
    for number in 0..groups {
        let from = number * steps.len() / groups;
        let to = (number + 1) * steps.len() / groups;
        let group = steps.get(from..to).unwrap_or_default();
        points.push(joined(voice, group));
    }
    if with_link {
        let end = steps.last().map(|(ix, _)| voice.the(voice.graph.influence(*ix).to)).unwrap_or_default();
        points.push(Point {
            statement: format!(
                "{} the answer joins the steps with “because” or “so”, in order, up to {end}.",
                phrase::LINK
            ),
            model: "Each of these follows because of the one before it.".into(),
            accept: vec!["a chain of arrows with a reason at each".into()],
            reject: vec!["the steps listed without a link".into()],
            ..empty()
        });
    }
    points
}

fn joined(voice: &Voice<'_>, group: &[(InfluenceIx, Direction)]) -> Point {
    let mut point = empty();
    let mut clauses = Vec::new();
    let mut misconception = None;
    for (ix, cause) in group {
        let one = earns(voice, *ix, *cause);
        clauses.push(voice.clause(*ix, *cause));
        // Room for one alternative a step, and two where the step stands alone; the misconception comes last and stays.
        let most = if group.len() == 1 { 2 } else { 1 };
        point.accept.extend(one.accept.into_iter().take(most));
        let mut reject = one.reject;
        misconception = reject.pop();
        point.reject.extend(reject.into_iter().take(most));
        point.principle = one.principle;
        point.wrong = one.wrong;
    }
    point.reject.extend(misconception);
    point.statement = format!("{}.", capital(&clauses.join("; ")));
    point.model.clone_from(&point.statement);
    point
}

/// A reading that is foretold, which nobody can tell as finely as one that is made.
fn about(voice: &Voice<'_>, value: f64) -> String {
    let places = [9.95, 0.995, 0.0995].iter().filter(|least| value.abs() < **least).count();
    let value = if value.abs() < 1000.0 { value } else { round_to(value, 3) };
    shown_reading(voice, value, places.min(readout_decimals(voice)))
}

/// A reading as a student sees it where the first series has been at the same place: its mean, as the table prints it.
fn seen(voice: &Voice<'_>, value: f64) -> String {
    let mut rows = voice.data.plain.rows.iter().zip(&voice.data.plain.noiseless);
    let there = rows.find(|(_, noiseless)| (*noiseless - value).abs() < 1e-6 * value.abs());
    there.map_or_else(|| about(voice, value), |(row, _)| shown_reading(voice, row.mean, readout_decimals(voice)))
}

/// The two points of a twist that the signs decide.
pub(super) fn twist_points(voice: &Voice<'_>, verdicts: &Verdicts) -> Vec<Point> {
    let Some((influence, twist)) = voice.twist() else { return Vec::new() };
    let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
    let curve = voice.data.twisted.as_ref().map(|run| run.noiseless.clone()).unwrap_or_default();
    let first = curve.first().map_or_else(String::new, |v| about(voice, *v));
    let level = curve.first().map_or_else(String::new, |v| seen(voice, *v));
    let last = curve.last().map_or_else(String::new, |v| about(voice, *v));
    let plain = verdicts.direction;
    let says = match verdicts.twisted_direction {
        Some(Direction::Unchanged) => format!("{readout} {}; it stays near {level}", phrase::STAYS),
        Some(direction) => format!("{readout} now {direction}, from about {first} to about {last}"),
        None => String::new(),
    };
    let because = voice.filled_later(&twist.because, influence, Some(twist));
    let step = voice.graph.influence(influence);
    let is_last = voice.technique.path.steps().last() == Some(&influence);
    // The changed experiment may call it something else.
    let changed = voice.technique.settings.after(twist);
    let to = voice.later(voice.graph.quantity(step.to).the_where(&changed.holds), None);
    let elsewhere = match verdicts.twisted_direction {
        Some(Direction::Unchanged) => format!(
            "{} is therefore the same at every level{}",
            capital(&to),
            if is_last { "" } else { ", and so is everything after it" }
        ),
        _ => format!(
            "{} therefore changes in the opposite direction to that in the first series{}",
            capital(&to),
            if is_last { "" } else { ", and so does everything after it" }
        ),
    };
    let trap = voice.filled_later(&twist.trap, influence, Some(twist));
    let others = twist.accept.iter().map(|other| voice.filled_later(other, influence, Some(twist)));
    let turned = if verdicts.twisted_direction == Some(Direction::Unchanged) {
        "no longer works"
    } else {
        "now works the other way round"
    };
    let named = format!("the step from {} to {to} named as the one that {turned}", voice.the(step.from));
    let predicts = Point {
        // No student can know the figures.
        model: format!("{} {}.", capital(&readout), verdicts.twisted_direction.map_or("changes", verb)),
        wrong: format!("{} {} as before.", capital(&readout), verb(plain)),
        statement: format!("{}. The direction alone earns.", capital(&says)),
        accept: match verdicts.twisted_direction {
            Some(Direction::Unchanged) => vec!["“stays the same”; “hardly changes”; “no effect”".into()],
            Some(Direction::Rises) => vec!["“goes up”; “increases”".into()],
            _ => vec!["“goes down”; “decreases”".into()],
        },
        reject: vec![format!("“it {}”", verb(plain))],
        ..empty()
    };
    let justifies = Point {
        model: format!("{}. {elsewhere}.", capital(&because)),
        wrong: capital(&trap),
        statement: format!("{}. {elsewhere}.", capital(&because)),
        accept: std::iter::once(named).chain(others).collect(),
        reject: vec![trap],
        principle: Some(voice.graph.principle(step.principle).id.clone()),
        ..empty()
    };
    vec![predicts, justifies]
}

/// The part for a twist in which magnitudes decide: the outcome is told, and the two ways are to be explained.
pub(super) fn rival_part(voice: &Voice<'_>, verdicts: &Verdicts) -> RivalPart {
    let places = readout_decimals(voice);
    let curve = voice.data.twisted.as_ref().map(|run| run.noiseless.clone()).unwrap_or_default();
    let shown = |v: Option<&f64>| v.map_or_else(String::new, |v| shown_reading(voice, *v, places));
    let last_level = voice.technique.levels.len().saturating_sub(1);
    let readout = voice.the(voice.graph.rig(voice.technique.rig).readout);
    let text = format!(
        "{} {} {} {} and {} {}. **Explain**, from both effects that the treatment now has, why \
         {readout} {} this time.",
        voice.agent(),
        phrase::TOLD,
        shown(curve.first()),
        voice.at(0),
        shown(curve.last()),
        voice.at(last_level),
        verdicts.twisted_direction.map_or("changes", verb)
    );
    let Some((influence, twist)) = voice.twist() else { return RivalPart { text, points: Vec::new() } };
    let own = Direction::from(if verdicts.direction == Direction::Rises { Sign::Plus } else { Sign::Minus });
    let opposite = own.after(crate::reasoning::StepSign::Acts(Sign::Minus));
    let because = voice.filled_later(&twist.because, influence, Some(twist));
    let others = twist.accept.iter().map(|other| voice.filled_later(other, influence, Some(twist)));
    let says = format!("{}; by this second effect {readout} {}.", capital(&because), verb(opposite));
    let second = Point {
        model: says.clone(),
        wrong: capital(&voice.filled_later(&twist.trap, influence, Some(twist))),
        statement: says,
        accept: std::iter::once("the second effect named, with its direction".to_owned()).chain(others).collect(),
        reject: vec![voice.filled_later(&twist.trap, influence, Some(twist))],
        principle: Some(voice.graph.principle(voice.graph.influence(influence).principle).id.clone()),
        ..empty()
    };
    let balance = Point {
        model: "The two effects act against each other, and over these levels the second one is larger.".into(),
        wrong: "The first effect has stopped.".into(),
        statement: format!(
            "The first effect still makes {readout} {}; the two oppose each other, and the reading shows that the \
             second is the larger over these levels.",
            base_verb(own)
        ),
        accept: vec!["“both act; the second wins”".into()],
        reject: vec!["“the first effect has stopped”".into()],
        ..empty()
    };
    RivalPart { text, points: vec![second, balance] }
}

/// "rises", "falls", "stays the same".
pub(super) fn verb(direction: Direction) -> &'static str {
    match direction {
        Direction::Rises => "rises",
        Direction::Falls => "falls",
        Direction::Unchanged => "stays the same",
    }
}

fn base_verb(direction: Direction) -> &'static str {
    match direction {
        Direction::Rises => "rise",
        Direction::Falls => "fall",
        Direction::Unchanged => "stay the same",
    }
}
