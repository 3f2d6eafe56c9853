//! One helmet on one head: pads in, pads out, and what is heard of it.

use super::Chance;
use crate::fit::{Candidate, PadSet, SetVerdict, changed, minutes_between, verdict};
use crate::head::EffectiveHead;
use crate::journal::Round;
use crate::profile::{Reason, Shop};

/// What happened, and the truth behind it.
pub(super) struct Tryout {
    pub(super) rounds: Vec<Round>,
    /// Why no pads on offer make a fit; `None` where some do.
    pub(super) truth: Option<Reason>,
}

/// Puts a helmet on with its start pads. Where they are no good, the fitter's hands find the pads that are: of those that
/// fit, the ones that are the quickest to swap to; where none does, the least bad ones. So a try ends as plans count it.
pub(super) fn try_on(
    helmet: &Candidate<'_>,
    head: EffectiveHead,
    start: &PadSet,
    shop: &Shop,
    misreport: f64,
    chance: &mut Chance,
) -> Tryout {
    let judged = verdict(helmet, head, &shop.fit);
    let truth = judged.best().reason;
    let first = judged.sets.iter().find(|set| same(&set.pads, start)).unwrap_or_else(|| judged.best());
    let swap = |set: &SetVerdict| minutes_between(&first.pads, &set.pads, helmet.model);
    let fitting = judged.sets.iter().filter(|set| set.fits());
    let last = fitting.min_by(|a, b| swap(a).total_cmp(&swap(b))).unwrap_or_else(|| judged.best());
    let mut round =
        |set: &SetVerdict, minutes| Round { pads: set.pads, reason: heard(set.reason, misreport, chance), minutes };
    let mut rounds = vec![round(first, shop.minutes.fetch + shop.minutes.check)];
    if !first.fits() && !same(&first.pads, &last.pads) {
        rounds.push(round(last, swap(last) + shop.minutes.recheck));
    }
    Tryout { rounds, truth }
}

/// The reason that is named: now and then another one than the true one. A fit is seen by the fitter, and never wrong.
#[must_use]
pub fn heard(truth: Option<Reason>, misreport: f64, chance: &mut Chance) -> Option<Reason> {
    let truth = truth?;
    if !chance.happens(misreport) {
        return Some(truth);
    }
    let others: Vec<Reason> = Reason::geometric().iter().copied().filter(|reason| *reason != truth).collect();
    chance.one_of(&others).copied()
}

fn same(a: &PadSet, b: &PadSet) -> bool {
    changed(a, b).next().is_none()
}
