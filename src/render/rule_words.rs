//! The words of the shop's rules, the same on every kind of page.

use super::diagnostics::numbered;
use crate::fallback::{Circle, Excerpt};
use crate::profile::{Edge, Nature, Reason, SizeHint};
use itertools::Itertools;

/// Where there is nothing to show.
pub(super) const NO_RULE: &str = "No rule: the shop has written nothing down for this.";

/// Where a model leads nowhere.
pub(super) const NONE: &str = "no rule";

/// Where ways are cut.
pub(super) const LEFT_OUT: &str = "and so on: more ways than anybody would read are left out";

/// Rules by the kind of their reasons; of one reason, in the order of the file. Kinds without a rule are left out.
pub(super) fn by_nature<'a>(rules: &[&'a Edge]) -> Vec<(Nature, Vec<&'a Edge>)> {
    let of = |nature: Nature| {
        let rules = rules.iter().copied().filter(|edge| edge.reason.nature() == nature);
        (nature, rules.sorted_by_key(|edge| edge.reason).collect_vec())
    };
    Nature::ALL.into_iter().map(of).filter(|(_, rules)| !rules.is_empty()).collect()
}

/// A kind of rules, and what is special about it.
pub(super) fn kind(nature: Nature) -> &'static str {
    match nature {
        Nature::Geometric => "geometric",
        Nature::Experience => "experience",
        Nature::Stop => "stop: out at once in this model and size, whatever the pads",
    }
}

/// Which size of the next model.
pub(super) fn size(edge: &Edge) -> String {
    match &edge.size {
        None => "any size".to_owned(),
        Some(SizeHint::Same) => "same size".to_owned(),
        Some(SizeHint::Up) => "a size up".to_owned(),
        Some(SizeHint::Down) => "a size down".to_owned(),
        Some(SizeHint::Label(label)) => format!("in {label}"),
    }
}

/// Any of these reasons.
pub(super) fn any_of(reasons: &[Reason]) -> String {
    reasons.iter().map(|reason| reason.id()).join(" or ")
}

/// These reasons one after the other.
pub(super) fn one_by_one(reasons: &[Reason]) -> String {
    reasons.iter().map(|reason| reason.id()).join(", then ")
}

/// Where a way ends before its end.
pub(super) fn silent(reason: Reason) -> String {
    format!("{}: the shop has no rule for it here", reason.id())
}

/// What a stop on a way means.
pub(super) fn stop(excerpt: &Excerpt<'_>, edge: &Edge) -> Option<String> {
    (edge.reason.nature() == Nature::Stop)
        .then(|| format!("(a stop: {} is out at once in this size, whatever the pads)", excerpt.name(&edge.from)))
}

/// How much there is.
pub(super) fn counts(excerpt: &Excerpt<'_>) -> String {
    let counts = [
        numbered(excerpt.models.len(), "model"),
        numbered(excerpt.rules.len(), "rule"),
        numbered(excerpt.reasons().len(), "reason"),
        numbered(excerpt.circles.len(), "circle"),
    ];
    counts.join(", ")
}

/// Models that lead to each other, with a way round whose models this stands between.
pub(super) fn circle(excerpt: &Excerpt<'_>, circle: &Circle<'_>, between: &str) -> String {
    let stops = circle.rules.iter().filter_map(|rule| excerpt.rule(*rule)).map(|edge| excerpt.name(&edge.to));
    let round = circle.models.first().map(|id| excerpt.name(id)).into_iter().chain(stops).join(between);
    format!("{} lead to each other, as in {round}", numbered(circle.models.len(), "model"))
}
