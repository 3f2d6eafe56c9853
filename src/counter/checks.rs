//! The fit checks with a helmet on the head, in order: stops first.

use crate::profile::Reason;

/// One check. Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Check {
    /// What to do.
    pub how: &'static str,
    /// What it can find.
    pub finds: &'static [Reason],
}

use Reason as R;

/// All checks. The stops come first: after one of them nothing else counts.
pub const CHECKS: &[Check] = &[
    Check { how: "close the strap and pull: it holds, and stays where it was set", finds: &[R::StrapCannotHold] },
    Check {
        how: "lift the rear edge forward, then the chin or front edge back: it stays on",
        finds: &[R::RollsOffForward, R::RollsOffBackward],
    },
    Check { how: "hold the helmet, turn the head: the skin moves with the pads", finds: &[R::TurnsOnHead] },
    Check {
        how: "snug all round, no gap at the temples, no room front to back",
        finds: &[R::TightAllRound, R::LooseAllRound, R::LooseFrontToBack, R::LooseSides],
    },
    Check {
        how: "no point that presses: brow, rear, temples, crown, ears",
        finds: &[R::TooRound, R::TooOval, R::BrowRearPress, R::TemplesPress, R::CrownPresses, R::CrownGap, R::EarPinch],
    },
    Check { how: "cheeks held, not bitten", finds: &[R::CheeksSqueeze, R::CheeksLoose] },
    Check {
        how: "view, spectacles, chin, neck; then some minutes of wearing it",
        finds: &[
            R::ViewBlocked,
            R::SpectaclesClash,
            R::ChinTouchesBar,
            R::RearEdgeInNeck,
            R::TooHeavy,
            R::TooNoisy,
            R::OverBudget,
            R::DislikesIt,
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::profile::Nature;
    use itertools::Itertools;

    #[test]
    fn every_reason_is_found_by_one_check() {
        let found = CHECKS.iter().flat_map(|check| check.finds.iter().copied()).sorted().collect_vec();
        assert_eq!(found, Reason::ALL.into_iter().sorted().collect_vec());
    }

    #[test]
    fn stops_come_first() {
        let stops = CHECKS.iter().map(|check| check.finds.iter().all(|reason| reason.nature() == Nature::Stop));
        assert_eq!(stops.dedup().collect_vec(), [true, false]);
    }
}
