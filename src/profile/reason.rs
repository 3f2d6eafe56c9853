//! Why a try fails: the fixed vocabulary of the trade's reasons, each with the direction that it implies.

/// A reason for which a helmet on the head is no good.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the words of each stand in `Reason::words`")]
pub enum Reason {
    TightAllRound,
    LooseAllRound,
    TooRound,
    TooOval,
    BrowRearPress,
    TemplesPress,
    LooseFrontToBack,
    LooseSides,
    CheeksSqueeze,
    CheeksLoose,
    CrownPresses,
    CrownGap,
    EarPinch,
    SpectaclesClash,
    ChinTouchesBar,
    ViewBlocked,
    RearEdgeInNeck,
    TooHeavy,
    TooNoisy,
    OverBudget,
    DislikesIt,
    RollsOffForward,
    RollsOffBackward,
    TurnsOnHead,
    StrapCannotHold,
}

/// What kind of reason it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Nature {
    /// Follows from the head's measures and the pads.
    Geometric,
    /// Only the shop's experience and the model's attributes speak about it.
    Experience,
    /// Absolute: the model in this size is out, whatever the pads.
    Stop,
}

use Reason as R;

impl Nature {
    /// Every kind, in the order of the reasons.
    pub const ALL: [Self; 3] = [Self::Geometric, Self::Experience, Self::Stop];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Geometric => "geometric",
            Self::Experience => "experience",
            Self::Stop => "stop",
        }
    }
}

impl Reason {
    /// Every reason.
    pub const ALL: [Self; 25] = [
        R::TightAllRound,
        R::LooseAllRound,
        R::TooRound,
        R::TooOval,
        R::BrowRearPress,
        R::TemplesPress,
        R::LooseFrontToBack,
        R::LooseSides,
        R::CheeksSqueeze,
        R::CheeksLoose,
        R::CrownPresses,
        R::CrownGap,
        R::EarPinch,
        R::SpectaclesClash,
        R::ChinTouchesBar,
        R::ViewBlocked,
        R::RearEdgeInNeck,
        R::TooHeavy,
        R::TooNoisy,
        R::OverBudget,
        R::DislikesIt,
        R::RollsOffForward,
        R::RollsOffBackward,
        R::TurnsOnHead,
        R::StrapCannotHold,
    ];

    /// How many of [`Reason::ALL`], from the first, follow from geometry.
    pub const GEOMETRIC: usize = 10;

    /// The reasons that follow from geometry, in the order of their numbers in a table of outcomes.
    #[must_use]
    pub fn geometric() -> &'static [Self] {
        &Self::ALL[..Self::GEOMETRIC]
    }

    /// How profiles and options write it.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.spelling().0
    }

    /// How output says it, to go after "if": `the temples press`.
    #[must_use]
    pub fn words(self) -> &'static str {
        self.spelling().1
    }

    /// The reason that profiles write so.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|reason| reason.id() == id)
    }

    /// What kind of reason it is.
    #[must_use]
    pub fn nature(self) -> Nature {
        match self as usize {
            at if at < Self::GEOMETRIC => Nature::Geometric,
            at if at >= R::RollsOffForward as usize => Nature::Stop,
            _ => Nature::Experience,
        }
    }

    /// The direction `[length, breadth, face width]` that it implies: +1 too tight, −1 too loose, 0 neither.
    /// A stop has the geometry of "loose all round" with loose cheeks. `None` where geometry is silent.
    #[must_use]
    pub fn direction(self) -> Option<[i8; 3]> {
        match self {
            R::TightAllRound => Some([1, 1, 0]),
            R::LooseAllRound => Some([-1, -1, 0]),
            R::TooRound => Some([1, -1, 0]),
            R::TooOval => Some([-1, 1, 0]),
            R::BrowRearPress => Some([1, 0, 0]),
            R::TemplesPress => Some([0, 1, 0]),
            R::LooseFrontToBack => Some([-1, 0, 0]),
            R::LooseSides => Some([0, -1, 0]),
            R::CheeksSqueeze => Some([0, 0, 1]),
            R::CheeksLoose => Some([0, 0, -1]),
            _ if self.nature() == Nature::Stop => Some([-1, -1, -1]),
            _ => None,
        }
    }

    /// The geometric reason that a person would name for axes that are too tight (+1) or too loose (−1):
    /// head and crown line first, the cheeks only where all else is good. `None` where everything is good.
    #[must_use]
    pub fn from_direction([length, breadth, face_width]: [i8; 3]) -> Option<Self> {
        let wanted = match (length, breadth) {
            (0, 0) => [0, 0, face_width],
            _ => [length, breadth, 0],
        };
        Self::geometric().iter().copied().find(|reason| reason.direction() == Some(wanted))
    }

    fn spelling(self) -> (&'static str, &'static str) {
        match self {
            R::TightAllRound => ("tight-all-round", "it is tight all round"),
            R::LooseAllRound => ("loose-all-round", "it is loose all round"),
            R::TooRound => ("too-round", "brow and rear press, sides loose (too round)"),
            R::TooOval => ("too-oval", "sides press, loose front to back (too oval)"),
            R::BrowRearPress => ("brow-rear-press", "brow or rear presses"),
            R::TemplesPress => ("temples-press", "the temples press"),
            R::LooseFrontToBack => ("loose-front-to-back", "it is loose front to back"),
            R::LooseSides => ("loose-sides", "it is loose at the sides"),
            R::CheeksSqueeze => ("cheeks-squeeze", "the cheeks squeeze"),
            R::CheeksLoose => ("cheeks-loose", "the cheeks are loose"),
            R::CrownPresses => ("crown-presses", "the crown presses"),
            R::CrownGap => ("crown-gap", "there is a gap at the crown"),
            R::EarPinch => ("ear-pinch", "an ear is pinched"),
            R::SpectaclesClash => ("spectacles-clash", "spectacles clash"),
            R::ChinTouchesBar => ("chin-touches-bar", "the chin touches the bar"),
            R::ViewBlocked => ("view-blocked", "the view is blocked"),
            R::RearEdgeInNeck => ("rear-edge-in-neck", "the rear edge meets the neck"),
            R::TooHeavy => ("too-heavy", "it is too heavy"),
            R::TooNoisy => ("too-noisy", "it is too noisy"),
            R::OverBudget => ("over-budget", "it is over budget"),
            R::DislikesIt => ("dislikes-it", "the customer dislikes it"),
            R::RollsOffForward => ("rolls-off-forward", "it rolls off forward"),
            R::RollsOffBackward => ("rolls-off-backward", "it rolls off backward"),
            R::TurnsOnHead => ("turns-on-head", "it turns on the head"),
            R::StrapCannotHold => ("strap-cannot-hold", "the strap can't hold"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use itertools::iproduct;

    #[test]
    fn every_failure_has_one_reason_and_every_good_fit_none() {
        for (length, breadth, face) in iproduct!(-1..=1, -1..=1, -1..=1) {
            let reason = Reason::from_direction([length, breadth, face]);
            assert_eq!(reason.is_none(), (length, breadth, face) == (0, 0, 0));
        }
    }

    #[test]
    fn ids_are_read_back_and_natures_lie_in_a_row() {
        for reason in Reason::ALL {
            assert_eq!(Reason::from_id(reason.id()), Some(reason));
            assert_eq!(reason.direction().is_some(), reason.nature() != Nature::Experience);
        }
        assert!(Reason::geometric().iter().all(|reason| reason.nature() == Nature::Geometric));
        assert_eq!(Reason::DislikesIt.nature(), Nature::Experience);
    }
}
