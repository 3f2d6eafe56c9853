//! A plan as a drawing.

use super::picture::Picture;
use super::tree::{Links, plan_tree};
use crate::catalogue::Catalogue;
use crate::plan::{Plan, Query};
use crate::render::plan_steps::numbered;
use crate::render::plan_words::PlanView;

/// The plan as a tree.
#[must_use]
pub fn plan(catalogue: &Catalogue, query: &Query<'_>, plan: &Plan<'_>) -> Picture {
    plan_tree(&PlanView { catalogue, query, plan }, &numbered(plan), Links::None)
}
