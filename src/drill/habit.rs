//! Bad habits that practice looks for.

/// A bad habit: the same kind of slip again and again. Safety first, then the more particular before the more general.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Habit {
    /// Goes on with a helmet after an absolute stop.
    IgnoresStops,
    /// Wants pads that another shell takes, but not this one.
    PadsOfAnotherShell,
    /// Goes up a size when the cheeks squeeze.
    SizeUpForCheeks,
    /// Takes long heads for intermediate ones.
    LongAsIntermediate,
    /// Takes intermediate heads for long ones.
    IntermediateAsLong,
    /// Takes round heads for intermediate ones.
    RoundAsIntermediate,
    /// Takes intermediate heads for round ones.
    IntermediateAsRound,
    /// Begins with too large a size.
    StartsTooLarge,
    /// Begins with too small a size.
    StartsTooSmall,
    /// Changes pads the wrong way, or in the wrong zone.
    PadsAgainst,
    /// Fetches another helmet that is worse in what was complained about.
    WrongWay,
    /// Fetches another helmet where other pads were worth more.
    HelmetBeforePads,
    /// Changes pads where another helmet was worth more.
    PadsBeyondHelp,
    /// Lets customers go whom something may well fit.
    GivesUpEarly,
}

use Habit as H;

impl Habit {
    /// All of them, in the order in which a slip is told: the first that it is.
    pub const ALL: [Self; 14] = [
        H::IgnoresStops,
        H::PadsOfAnotherShell,
        H::SizeUpForCheeks,
        H::LongAsIntermediate,
        H::IntermediateAsLong,
        H::RoundAsIntermediate,
        H::IntermediateAsRound,
        H::StartsTooLarge,
        H::StartsTooSmall,
        H::PadsAgainst,
        H::WrongWay,
        H::HelmetBeforePads,
        H::PadsBeyondHelp,
        H::GivesUpEarly,
    ];

    /// How files write it.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.spelling().0
    }

    /// How output says what somebody does.
    #[must_use]
    pub fn words(self) -> &'static str {
        self.spelling().1
    }

    /// What to keep in mind instead.
    #[must_use]
    pub fn instead(self) -> &'static str {
        self.spelling().2
    }

    /// The habit that files write so.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|habit| habit.id() == id)
    }

    /// Whether a slip of this kind can hurt somebody: then the whole exercise counts nothing.
    #[must_use]
    pub fn is_unsafe(self) -> bool {
        matches!(self, H::IgnoresStops | H::PadsOfAnotherShell)
    }

    /// The habit of taking one shape for another (0 long, 1 intermediate, 2 round); whoever takes a long head for a round
    /// one takes it for less long at least.
    #[must_use]
    pub fn of_shapes(true_shape: usize, taken_for: usize) -> Option<Self> {
        match (true_shape, taken_for) {
            (0, 1 | 2) => Some(H::LongAsIntermediate),
            (1, 0) => Some(H::IntermediateAsLong),
            (1, 2) => Some(H::IntermediateAsRound),
            (2, 0 | 1) => Some(H::RoundAsIntermediate),
            _ => None,
        }
    }

    /// The shape of the heads that it is about, where it is about shapes.
    #[must_use]
    pub fn shape(self) -> Option<usize> {
        match self {
            H::LongAsIntermediate => Some(0),
            H::IntermediateAsLong | H::IntermediateAsRound => Some(1),
            H::RoundAsIntermediate => Some(2),
            _ => None,
        }
    }

    fn spelling(self) -> (&'static str, &'static str, &'static str) {
        match self {
            H::IgnoresStops => (
                "ignores-stops",
                "goes on with a helmet after an absolute stop",
                "that model in that size is out, whatever the pads",
            ),
            H::PadsOfAnotherShell => (
                "pads-of-another-shell",
                "asks for pads of another shell",
                "pads of one shell never go into another: look up the shell of the size",
            ),
            H::SizeUpForCheeks => (
                "size-up-for-cheeks",
                "goes up a size when the cheeks squeeze",
                "thinner cheek pads, or a model that is wider at the cheeks; a larger size is loose above",
            ),
            H::LongAsIntermediate => (
                "long-as-intermediate",
                "takes long heads for intermediate or round ones",
                "compare length with breadth before the first helmet",
            ),
            H::IntermediateAsLong => (
                "intermediate-as-long",
                "takes intermediate heads for long ones",
                "compare length with breadth before the first helmet",
            ),
            H::RoundAsIntermediate => (
                "round-as-intermediate",
                "takes round heads for intermediate or long ones",
                "compare length with breadth before the first helmet",
            ),
            H::IntermediateAsRound => (
                "intermediate-as-round",
                "takes intermediate heads for round ones",
                "compare length with breadth before the first helmet",
            ),
            H::StartsTooLarge => {
                ("starts-too-large", "begins with too large a size", "the tape on the label's range first, pads later")
            }
            H::StartsTooSmall => {
                ("starts-too-small", "begins with too small a size", "the tape on the label's range first, pads later")
            }
            H::PadsAgainst => (
                "pads-against-the-reason",
                "changes pads the wrong way, or in the wrong zone",
                "thinner where it presses, thicker where it is loose, in the zone that was named",
            ),
            H::WrongWay => (
                "helmet-against-the-reason",
                "fetches a helmet that is worse in what was complained about",
                "too tight: wider there; too loose: narrower there",
            ),
            H::HelmetBeforePads => (
                "helmet-before-pads",
                "fetches another helmet where other pads help",
                "pads first where they are on offer: a swap takes minutes, a helmet all checks anew",
            ),
            H::PadsBeyondHelp => (
                "pads-beyond-help",
                "changes pads where only another helmet helps",
                "one shape fits no other: count the millimetres that the thinnest pad gives",
            ),
            H::GivesUpEarly => (
                "gives-up-early",
                "lets customers go whom something may well fit",
                "go on as long as the next helmet is worth its minutes",
            ),
        }
    }
}

/// Something that a choice says of a habit: here it could be slipped into, and was or wasn't.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sign {
    /// Of which habit.
    pub habit: Habit,
    /// Whether it was a slip.
    pub slipped: bool,
}
