//! The steps of a plan with numbers, in the order in which a tree is read: a step, then all that follows its first branch.

use super::plan_words::shown_branches;
use crate::plan::{Branch, JudgedStep, Plan};

/// A step that is shown.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct NumberedStep<'p> {
    pub(super) step: &'p JudgedStep,
    /// From 1 on.
    pub(super) number: usize,
    /// Steps before it.
    pub(super) depth: usize,
    /// The step before, and what was heard there.
    pub(super) from: Option<(usize, &'p Branch)>,
    /// The branches that enough customers reach, each with the number of the step that it leads to.
    pub(super) onward: Vec<(&'p Branch, Option<usize>)>,
    /// Probability of all other branches, where that is worth a word.
    pub(super) rest: Option<f64>,
}

/// All steps that enough customers reach; none where nothing is worth a try.
pub(super) fn numbered<'p>(plan: &'p Plan<'_>) -> Vec<NumberedStep<'p>> {
    let mut steps = Vec::new();
    if let Some(first) = &plan.first {
        add(&mut steps, first, 0, None);
    }
    steps
}

fn add<'p>(
    steps: &mut Vec<NumberedStep<'p>>,
    step: &'p JudgedStep,
    depth: usize,
    from: Option<(usize, &'p Branch)>,
) -> usize {
    let (branches, rest) = shown_branches(step);
    let at = steps.len();
    steps.push(NumberedStep { step, number: at + 1, depth, from, onward: Vec::new(), rest });
    for branch in branches {
        let to = branch.next.as_ref().map(|next| add(steps, next, depth + 1, Some((at + 1, branch))));
        steps[at].onward.push((branch, to));
    }
    at + 1
}
