//! What a choice of somebody's own costs at a point of a session.

use super::next::{midway, query};
use super::{Opening, Standing};
use crate::catalogue::Catalogue;
use crate::fit::HeadSet;
use crate::plan::{self, Choice, Weighed};

/// Weighs choices against what the plan would do where a session stands, in their order. `None` where the profiles don't
/// know what the session speaks of.
#[must_use]
pub fn weigh<'a>(
    catalogue: &'a Catalogue,
    opening: &Opening,
    standing: &Standing,
    choices: &[Choice<'a>],
) -> Option<Vec<Weighed>> {
    let customer = standing.customer(opening, catalogue)?;
    let chooser = HeadSet::chooser(catalogue, &customer);
    let midway = midway(catalogue, standing, &customer, &chooser);
    let query = query(catalogue, opening, standing, customer, midway.swap.is_some());
    Some(plan::weigh(catalogue, &query, &midway, &chooser, choices))
}
