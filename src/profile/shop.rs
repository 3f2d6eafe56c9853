//! What the shop assumes. Every value comes from `shop.yaml`; none has a default in the program.

use super::{AwayRules, BuyingRules, LearningRules, Origin, PadRules, PracticeRules, SketchRules, StockingRules};
use crate::head::{Outline, ShapeByEye};
use crate::unit::{Currency, Id, Money};
use std::ops::RangeInclusive;

/// The shop's assumptions.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// Currency of every price.
    pub currency: Currency,
    /// The population that customers come from.
    pub population: Id,
    /// The population whose face widths nominal heads have.
    pub face_width_from: Id,
    /// What things take.
    pub minutes: Minutes,
    /// How a session goes.
    pub session: Session,
    /// When pads fit.
    pub fit: FitRules,
    /// Where the trade's words for shapes begin.
    pub words: ShapeWords,
    /// What the three words mean when a shape was judged by eye: long, intermediate, round.
    pub by_eye: [ShapeByEye; 3],
    /// Errors of readings.
    pub measuring: Vec<(Measurer, Tool, f64)>,
    /// Errors of profiles.
    pub profile_errors: ProfileErrors,
    /// What experience with a new helmet stands for.
    pub sketch: SketchRules,
    /// Who pays for pads.
    pub pads: PadRules,
    /// What sending helmets costs.
    pub away: AwayRules,
    /// Probability that the reported reason is another than the true one.
    pub misreport: f64,
    /// A head rarer than this quantile is worth measuring again.
    pub inconsistent_above: f64,
    /// What is no slip of the pen.
    pub plausible: Plausible,
    /// Where the checker begins to doubt.
    pub checking: Checking,
    /// How an audit lets customers come in.
    pub auditing: Auditing,
    /// How journals weigh against the profiles.
    pub learning: LearningRules,
    /// What a buyer asks of the range.
    pub buying: BuyingRules,
    /// How the drawer is filled with pads.
    pub stocking: StockingRules,
    /// How practice is read.
    pub practice: PracticeRules,
}

/// What is no slip of the pen in a profile, each from the smallest to the largest number.
#[derive(Debug, Clone, PartialEq)]
pub struct Plausible {
    /// Thickness of a pad, mm.
    pub thickness: RangeInclusive<f64>,
    /// Price of a helmet.
    pub helmet_price: RangeInclusive<Money>,
    /// Price of a pad or a pack.
    pub pad_price: RangeInclusive<Money>,
    /// Mass of a helmet, g.
    pub mass: RangeInclusive<f64>,
    /// Minutes for the swap of a zone's pads.
    pub swap_minutes: RangeInclusive<f64>,
    /// Standard deviation of a measure in a population, as a share of its mean.
    pub head_spread: RangeInclusive<f64>,
}

/// Where the checker begins to doubt a profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Checking {
    /// Room between the labels of two sizes that follow each other, mm of circumference.
    pub label_step: f64,
    /// Two sizes of a shell imply linings further apart than this, mm of diameter.
    pub shell_differs: f64,
    /// A measured interior is this far from the middle of its label, mm of circumference.
    pub label_differs: f64,
    /// A measured interior is this far from the shape index.
    pub index_differs: f64,
    /// The mean circumference of a population is this far from the outline of its mean length and breadth, as a share.
    pub outline_differs: f64,
    /// A reason is common for a model when so large a share of the heads in its sizes fail for it.
    pub common_reason: f64,
    /// A model fits hardly anybody when it fits a smaller share of the population than this.
    pub served_by_none: f64,
}

/// How an audit of the shop's rules lets customers come in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Auditing {
    /// Steps in which readings are written down, mm.
    pub reading_step: f64,
    /// A failure that a smaller share of all customers reports than this needs no proposed rule.
    pub rare_reason: f64,
}

/// What things take, in minutes of the shop's time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Minutes {
    /// Fetching a helmet and putting it back.
    pub fetch: f64,
    /// The fit checks.
    pub check: f64,
    /// The checks once more after a swap of pads.
    pub recheck: f64,
    /// What going without a helmet costs.
    pub go_without: f64,
}

/// How a session goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Session {
    /// Helmets that a customer puts on before giving up.
    pub tries: usize,
    /// A computed next try leads only when its fit probability is better than the shop rule's by more than this.
    pub shop_rule_margin: f64,
    /// Reasons less probable than this, of all such customers, share one "else".
    pub fold_below: f64,
    /// So do reasons with a smaller share than this of a helmet's failures.
    pub fold_share: f64,
    /// Below this chance of ending with a fit, nothing fits well.
    pub poor_fit_below: f64,
}

/// When pads fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FitRules {
    /// How an outline relates to its ellipse.
    pub outline: Outline,
    /// The strain at which a pad holds best (ε*).
    pub ideal: f64,
    /// Bands on the two axes of the head.
    pub head: Bands,
    /// Bands at the cheeks.
    pub cheeks: Bands,
}

/// Strains at which one band ends and the next begins; each at most the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bands {
    /// Below it the pad is loose.
    pub loose_below: f64,
    /// Below it the pad is light, from it on good.
    pub light_below: f64,
    /// Above it the pad is tight.
    pub tight_above: f64,
    /// Above it the pad makes a hot spot.
    pub hot_spot_above: f64,
}

/// Where the trade's words for shapes begin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShapeWords {
    /// Long oval below this index.
    pub long_below: f64,
    /// Round oval above this index.
    pub round_above: f64,
}

/// Who measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measurer {
    /// Somebody trained.
    Staff,
    /// The customer.
    Customer,
}

/// What was measured with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// A tape, for the circumference.
    Tape,
    /// A sliding or spreading caliper.
    Caliper,
    /// A ruler, or a book and a ruler.
    Ruler,
    /// A photograph or an app.
    Phone,
}

/// Standard deviations of a profile's interior.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileError {
    /// Of the shape index.
    pub shape_index: f64,
    /// Of a shell's size centres, mm of circumference.
    pub centre: f64,
}

/// The same by where the interior came from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileErrors {
    /// From experience.
    pub by_eye: ProfileError,
    /// Measured.
    pub measured: ProfileError,
    /// Learned from tries.
    pub learned: ProfileError,
}

impl Shop {
    /// Standard deviation of a reading, mm. `None` where the shop's file has no line for it.
    #[must_use]
    pub fn reading_sd(&self, by: Measurer, with: Tool) -> Option<f64> {
        self.measuring.iter().find(|line| (line.0, line.1) == (by, with)).map(|line| line.2)
    }
}

impl ProfileErrors {
    /// What is assumed for an origin.
    #[must_use]
    pub fn of(&self, origin: Origin) -> ProfileError {
        match origin {
            Origin::ByEye => self.by_eye,
            Origin::Measured => self.measured,
            Origin::Learned => self.learned,
        }
    }
}

impl ShapeWords {
    /// The trade's words in the order of their places.
    pub const NAMES: [&str; 3] = ["long", "intermediate", "round"];

    /// The trade's word for an index.
    #[must_use]
    pub fn word(self, shape_index: f64) -> &'static str {
        ["long oval", "intermediate oval", "round oval"][self.place(shape_index)]
    }

    /// 0 for a long, 1 for an intermediate, 2 for a round oval.
    #[must_use]
    pub fn place(self, shape_index: f64) -> usize {
        usize::from(shape_index >= self.long_below) + usize::from(shape_index > self.round_above)
    }
}
