//! What changed from one step to the next, and why.

use super::event::{Event, Tried};
use super::next::{Next, Outlook};
use crate::profile::Reason;

/// What changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Remarks {
    /// Shape index and its standard deviation, before and after.
    pub index: [(f64, f64); 2],
    /// Length, breadth and face width that moved clearly: place among the four measures, before and after, mm.
    pub moved: Vec<(usize, f64, f64)>,
    /// What the plan had for it before it was heard; `None` where it had nothing, or nothing was heard.
    pub before: Option<Before>,
}

/// What the plan had in store.
#[derive(Debug, Clone, PartialEq)]
pub enum Before {
    /// It comes now.
    Same {
        /// How often it was to fit when the plan was made.
        then: f64,
    },
    /// Something else.
    Other(Outlook),
    /// It would have stopped there.
    Stop,
}

/// A measure that moves by less is as it was, mm.
const CLEARLY: f64 = 1.0;

/// What changed between two steps, and what the earlier one had planned for what was heard in between.
#[must_use]
pub fn remarks(before: &Next<'_>, event: &Event, after: &Next<'_>) -> Remarks {
    let index = |next: &Next<'_>| (next.head.mean[4].value, next.head.sd[4].value);
    let mean = |next: &Next<'_>, at: usize| next.head.mean[at].value;
    let moved = (1..4).map(|at| (at, mean(before, at), mean(after, at)));
    Remarks {
        index: [index(before), index(after)],
        moved: moved.filter(|(_, then, now)| (now - then).abs() >= CLEARLY).collect(),
        before: match event {
            Event::Tried(tried) => tried.reason.and_then(|reason| planned(before, tried, reason, after)),
            _ => None,
        },
    }
}

/// What the plan had for a reason, where it was the plan that was followed.
fn planned(before: &Next<'_>, tried: &Tried, reason: Reason, after: &Next<'_>) -> Option<Before> {
    let plan = before.plan.as_ref()?;
    let step = plan.first.as_ref()?;
    let first = &plan.candidates[step.candidate];
    if first.model.id != tried.helmet.model || first.size.label != tried.helmet.size {
        return None;
    }
    let branch = step.branches.iter().find(|branch| branch.reasons.contains(&reason))?;
    let Some(next) = &branch.next else { return Some(Before::Stop) };
    let known = &plan.candidates[next.candidate];
    let is_now = after.now.as_ref().is_some_and(|now| now.model.id == known.model.id && now.size == known.size);
    if is_now {
        return Some(Before::Same { then: next.fit.value });
    }
    Some(Before::Other(Outlook { title: known.title(), source: next.source, fit: next.fit }))
}
