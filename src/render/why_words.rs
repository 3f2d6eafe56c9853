//! What is said of an explained step, on every kind of page.

mod heads;
mod instead;

pub(super) use heads::{NEWS, label, news, outcome, shown_outcomes};
pub(super) use instead::{COMPARED, NOTHING_ELSE, compared};

use super::plan_words::rounded_up;
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::plan::{Passed, Source, StepWhy};

/// What an explained step refers to.
#[derive(Debug, Clone, Copy)]
pub(super) struct WhyView<'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) candidates: &'a [Candidate<'a>],
}

impl<'a> WhyView<'a> {
    /// How people call a candidate.
    pub(super) fn title(&self, candidate: usize) -> String {
        self.candidates[candidate].title()
    }

    /// A step that was left behind.
    pub(super) fn passed(&self, passed: &Passed) -> String {
        let (title, words) = (self.title(passed.candidate), passed.reason.words());
        let chance = chance(passed.probability);
        match passed.branch.len() {
            0 => format!("{title} fits ({chance}), but {words}"),
            1 => format!("{title} fails: {words} ({chance})"),
            _ => format!("{title} fails: {words}, in the plan's \"else\" ({chance})"),
        }
    }

    /// Who chose a step of the plan.
    pub(super) fn says(&self, why: &StepWhy) -> String {
        match why.step.source {
            Source::Computed => "by the computation".to_owned(),
            Source::Rule(rule) => format!("by the shop's rule: {}", self.note(rule)),
        }
    }

    /// Who chose a helmet beside the plan.
    pub(super) fn says_beside(&self, why: &StepWhy) -> String {
        format!("{}; in the size that fits such heads most often", self.says(why))
    }

    /// The shop's note on a rule.
    pub(super) fn note(&self, rule: usize) -> &'a str {
        self.catalogue.edges().get(rule).map_or("", |edge| &edge.note)
    }
}

/// How many get to a step of the plan.
pub(super) fn reached(why: &StepWhy) -> String {
    format!("by {} of such customers", chance(why.reach))
}

/// How many get to the step beside which a helmet stands.
pub(super) fn reached_beside(why: &StepWhy) -> String {
    format!("{} of such customers get so far; what no measure tells has no probability", chance(why.reach))
}

/// Why nothing is compared with a helmet beside the plan.
pub(super) const BESIDE: &str = "No figure compares it with another helmet: what speaks for it is the shop's experience, which no measure shows. The \
     figures take the heads that the helmet before fits.";

/// How often a step fits.
pub(super) fn fits(why: &StepWhy) -> String {
    format!("{}, with the pads on offer", chance(why.step.fit))
}

/// What a try takes.
pub(super) fn takes(why: &StepWhy) -> String {
    format!("{} minutes", quoted(why.minutes))
}

/// What the plan takes from here on.
pub(super) fn to_come(why: &StepWhy) -> String {
    let rest = &why.rest;
    format!(
        "{} minutes and {:.2}±{:.2} helmets to the end of the plan, this try included; {} leave without a helmet",
        quoted(rest.minutes),
        rest.tries.value,
        rounded_up(rest.tries.error, 100.0),
        chance(rest.no_fit)
    )
}

/// What listening is worth.
pub(super) fn hearing(why: &StepWhy) -> String {
    if why.step.branches.iter().any(|branch| branch.next.is_some()) {
        format!(
            "why it fails saves {} of the {} minutes that are to come after a failure, going without counted",
            quoted(why.hearing),
            quoted(why.unheard)
        )
    } else {
        "saves nothing: whatever is reported, the plan ends here".to_owned()
    }
}

/// `a, b and c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A probability with its error, as exact as the error allows.
fn chance(quote: Quote) -> String {
    let (value, error) = (quote.value * 100.0, quote.error * 100.0);
    if error > 1.0 {
        format!("{value:.0}±{:.0} %", error.ceil())
    } else {
        format!("{value:.1}±{:.1} %", rounded_up(error, 10.0))
    }
}

/// Minutes with their error.
pub(super) fn quoted(minutes: Quote) -> String {
    format!("{:.1}±{:.1}", tenths(minutes.value), rounded_up(minutes.error, 10.0))
}

/// The same with a sign before it.
pub(super) fn signed(minutes: Quote) -> String {
    format!("{:+.1}±{:.1}", tenths(minutes.value), rounded_up(minutes.error, 10.0))
}

/// Without the sign of a nothing.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}
