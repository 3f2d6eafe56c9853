//! How hard practice is: what is known of a customer, and whether they say what they feel.

use crate::head::Measure;
use crate::profile::{Measurer, Shop, Tool};
use crate::simulate::Taken;

/// How hard practice is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Tape and caliper in trained hands, a look from above, true reports.
    First,
    /// The tape alone, a look from above, a worn helmet's complaint, true reports.
    Second,
    /// A tape in the customer's hands, a complaint, and reports that are wrong as often as the shop assumes.
    Third,
}

/// Readings by caliper are written down in whole millimetres.
const CALIPER_STEP: f64 = 1.0;

impl Level {
    /// All of them, the easiest first.
    pub const ALL: [Self; 3] = [Self::First, Self::Second, Self::Third];

    /// Its number, from 1.
    #[must_use]
    pub fn number(self) -> u8 {
        self as u8 + 1
    }

    /// The level of a number.
    #[must_use]
    pub fn of_number(number: u8) -> Option<Self> {
        Self::ALL.into_iter().find(|level| level.number() == number)
    }

    /// What is measured, as exactly as the shop assumes. What it assumes nothing for is left out.
    #[must_use]
    pub fn taken(self, shop: &Shop) -> Vec<Taken> {
        let by = if self == Self::Third { Measurer::Customer } else { Measurer::Staff };
        let tape = Taken::as_assumed(shop, Measure::Circumference, by, Tool::Tape, shop.auditing.reading_step);
        let caliper = |measure| Taken::as_assumed(shop, measure, by, Tool::Caliper, CALIPER_STEP);
        let by_caliper = [Measure::Length, Measure::Breadth].map(caliper).into_iter().flatten();
        tape.into_iter().chain(by_caliper.filter(|_| self == Self::First)).collect()
    }

    /// The face width, which is measured where the cheeks are what it is about. Nothing where the shop assumes nothing for it.
    #[must_use]
    pub fn face_width(self, shop: &Shop) -> Option<Taken> {
        let by = if self == Self::Third { Measurer::Customer } else { Measurer::Staff };
        Taken::as_assumed(shop, Measure::FaceWidth, by, Tool::Caliper, CALIPER_STEP)
    }

    /// Whether the head can be looked at from above.
    #[must_use]
    pub fn is_seen(self) -> bool {
        self != Self::Third
    }

    /// Whether a customer comes in with a helmet, and says where it hurts.
    #[must_use]
    pub fn has_complaint(self) -> bool {
        self != Self::First
    }

    /// How often a customer names another reason than the true one.
    #[must_use]
    pub fn misreport(self, shop: &Shop) -> f64 {
        if self == Self::Third { shop.misreport } else { 0.0 }
    }
}
