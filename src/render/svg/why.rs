//! An explained step as a picture.

use super::{Picture, cross_section, plan};
use crate::catalogue::Catalogue;
use crate::fit::at_best;
use crate::plan::{Answer, Found, Plan, Query};

/// Whoever gets to the step, in its helmet with the pads that suit best; the plan where there is no step.
#[must_use]
pub fn why(catalogue: &Catalogue, query: &Query<'_>, (made, answer): (&Plan<'_>, &Answer)) -> Picture {
    let (Found::Step(why) | Found::Aside(why)) = &answer.found else { return plan(catalogue, query, made) };
    let known = &made.candidates[why.step.candidate];
    let (cut, _) = at_best(known, &why.step.head, &catalogue.shop.fit);
    cross_section(&cut, &known.title(), "why")
}
