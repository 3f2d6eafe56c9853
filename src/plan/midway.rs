//! A session that has begun: what a plan goes on from.

use super::policy::Rule;
use crate::catalogue::Catalogue;
use crate::fallback::{Fallbacks, allows_size};
use crate::fit::{Candidate, PadSet, changed};
use crate::profile::{Model, Reason, Size};
use crate::unit::Id;
use itertools::Itertools;

/// What has happened, beyond what it says of the head: that stands with the [customer](crate::fit::Customer).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Midway<'a> {
    /// The last try, where it failed: the shop's rules for it come next.
    pub failed: Option<Failed<'a>>,
    /// Other pads for the helmet on the head, which count as one more thing to try.
    pub swap: Option<Swap<'a>>,
}

/// A try that failed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Failed<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: &'a Size,
    /// Why.
    pub reason: Reason,
}

/// Other pads for a helmet that is on the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: Id,
    /// The pads that would be in it.
    pub pads: PadSet,
    /// What it takes: the swap, and the checks once more.
    pub minutes: f64,
}

impl Midway<'_> {
    /// The shop's rules for the last try, as candidates; `None` where nothing has failed yet.
    pub(super) fn heard(&self, catalogue: &Catalogue, candidates: &[Candidate<'_>]) -> Option<Vec<Rule>> {
        let failed = self.failed?;
        let fallbacks = Fallbacks::new(catalogue.edges());
        let of = |reason: Reason| {
            let rules = fallbacks.from(&failed.model.id).into_iter().filter(|(_, edge)| edge.reason == reason);
            let rules = rules.map(|(number, edge)| {
                let allowed = |next: &Candidate<'_>| {
                    next.model.id == edge.to && allows_size(edge, failed.size, next.model, next.size)
                };
                Rule { number, targets: candidates.iter().positions(allowed).collect() }
            });
            rules.collect_vec()
        };
        let own = of(failed.reason);
        // A stop without a rule of its own is "loose all round" to the shop's rules, as it is to geometry.
        let as_heard = failed.reason.direction().and_then(Reason::from_direction);
        let others = as_heard.filter(|heard| own.is_empty() && *heard != failed.reason).map(of);
        Some(others.unwrap_or(own))
    }

    /// Which candidate is the helmet on the head with other pads.
    pub(super) fn on_head(&self, candidates: &[Candidate<'_>]) -> Option<usize> {
        let swap = self.swap.as_ref()?;
        candidates.iter().position(|known| known.model.id == swap.model.id && known.size.label == swap.size)
    }
}

impl<'a> Swap<'a> {
    /// Whether it is the same pads in the same helmet.
    pub(super) fn is_alike(&self, other: &Self) -> bool {
        self.model.id == other.model.id && self.size == other.size && changed(&self.pads, &other.pads).next().is_none()
    }

    /// It as one more thing to try.
    pub(super) fn candidate(&self, catalogue: &'a Catalogue) -> Option<Candidate<'a>> {
        let on_head = Candidate::of_size(self.model, &self.size, catalogue)?;
        Some(on_head.mounted(&self.pads, &catalogue.shop.fit, self.minutes))
    }
}
