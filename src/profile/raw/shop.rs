//! `shop.yaml`: every assumption that the computation rests on.

use super::{Number, RawAway, RawBuying, RawLearning, RawPadRules, RawPractice, RawStocking};
use crate::profile::bounds;
use crate::profile::schema::{CurrencyCode, Name, Price, Text, Version, each_within, within};
use schemars::JsonSchema;
use serde::Deserialize;

/// The shop's assumptions: every figure of a plan rests on them, and none has a hidden default.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "shop.yaml: the shop's assumptions")]
pub(crate) struct ShopFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// The shop's name, as people say it.
    #[schemars(with = "Text")]
    pub(crate) shop: String,
    /// The currency of every price: the three capital letters of ISO 4217.
    #[schemars(with = "CurrencyCode", extend("examples" = ["EUR"]))]
    pub(crate) currency: String,
    /// Whose heads come in while nothing is measured: the id of a file in populations/.
    #[schemars(with = "Name", extend("examples" = ["adults"]))]
    pub(crate) population: String,
    /// The population that gives a size its face width where the profile doesn't: an id; its first component counts.
    #[schemars(with = "Name", extend("examples" = ["men"]))]
    pub(crate) nominal_face_width_from: String,
    /// What things take, in minutes of the shop's time.
    pub(crate) minutes: RawMinutes,
    /// How a session with a customer goes.
    pub(crate) session: RawSession,
    /// When pads fit a head.
    pub(crate) fit: RawFit,
    /// Where the trade's words for shapes begin, as shape indices (100 × breadth / length).
    pub(crate) shape_words: RawShapeWords,
    /// The shape index that a word stands for when a head's shape was judged by eye.
    pub(crate) shape_by_eye: RawShapeByEye,
    /// How far a reading is off, by who took it and with what; a combination that is left out can't be used.
    pub(crate) measuring: Vec<RawMeasuring>,
    /// How far a helmet's profile is off, by the `origin` of its interior.
    pub(crate) profile_error: RawProfileErrors,
    /// What a fitter's words about a new helmet stand for.
    pub(crate) sketch: RawSketch,
    /// Who pays for pads that are bought for a customer.
    pub(crate) pads: RawPadRules,
    /// What it costs to send helmets to customers who measure at home.
    pub(crate) away: RawAway,
    /// How often a named reason is another than the true one, as a share: 0.08 is 8 in 100.
    #[schemars(transform = within(bounds::MISREPORT))]
    pub(crate) misreport: Number,
    /// A head rarer than this share of its population brings the advice to measure again.
    #[schemars(transform = within(bounds::RARE_ABOVE))]
    pub(crate) inconsistent_head_above: Number,
    /// What is usual on sale: the command `check` takes anything outside for a slip of the pen.
    pub(crate) plausible: RawPlausible,
    /// Where the command `check` begins to doubt a profile.
    pub(crate) checking: RawChecking,
    /// How the command `fallbacks audit` lets customers come in.
    pub(crate) auditing: RawAuditing,
    /// How the command `learn` weighs journals against the profiles.
    pub(crate) learning: RawLearning,
    /// What the command `range` asks of models.
    pub(crate) buying: RawBuying,
    /// How the command `range stock` fills the drawer with pads.
    pub(crate) stocking: RawStocking,
    /// How the command `drill` reads what a trainee does.
    pub(crate) practice: RawPractice,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMinutes {
    /// Minutes to take a helmet from the shelf and to put it back.
    #[schemars(transform = within(bounds::SHOP_MINUTES))]
    pub(crate) fetch: Number,
    /// Minutes for the fit checks with the helmet on.
    #[schemars(transform = within(bounds::SHOP_MINUTES))]
    pub(crate) check: Number,
    /// Minutes for the checks once more after pads were swapped.
    #[schemars(transform = within(bounds::SHOP_MINUTES))]
    pub(crate) recheck: Number,
    /// What a customer leaving without a helmet costs, in minutes.
    #[schemars(transform = within(bounds::GO_WITHOUT_MINUTES))]
    pub(crate) go_without: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSession {
    /// How many helmets a customer puts on at most, without `--steps`.
    #[schemars(range(min = *bounds::TRIES.start(), max = *bounds::TRIES.end()))]
    pub(crate) tries: u32,
    /// A rule of the shop gives way to a computed try that fits more often by more than this share (0.15 is 15 in 100).
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) shop_rule_margin: Number,
    /// Reasons heard from a smaller share of such customers are told together as "else".
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) fold_below: Number,
    /// Reasons with a smaller share of a helmet's failures are told together as "else".
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) fold_share: Number,
    /// Below this chance of ending with a fit, the plan warns that the range doesn't serve the head.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) poor_fit_below: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawFit {
    /// The circumference of a head over the perimeter of the ellipse of its length and breadth.
    #[schemars(transform = within(bounds::OUTLINE_FACTOR))]
    pub(crate) outline_factor: Number,
    /// How much of the room that hair and a full outline take counts: 0 none of it, 1 all.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) excess_share: Number,
    /// The strain at which a pad sits best: the share of its thickness that the head takes up.
    #[schemars(transform = within(bounds::IDEAL_COMPRESSION))]
    pub(crate) ideal_compression: Number,
    /// When brow, rear and side pads are loose or tight, by the strain of their foam.
    pub(crate) head_bands: RawBands,
    /// When cheek pads are loose or tight, by the strain of their foam.
    pub(crate) cheek_bands: RawBands,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawBands {
    /// Below this strain a pad is loose.
    #[schemars(transform = within(bounds::STRAIN))]
    pub(crate) loose_below: Number,
    /// Below this strain a pad touches too lightly; not less than `loose_below`.
    #[schemars(transform = within(bounds::STRAIN))]
    pub(crate) light_below: Number,
    /// Above this strain a pad is tight; more than `light_below`.
    #[schemars(transform = within(bounds::STRAIN))]
    pub(crate) tight_above: Number,
    /// Above this strain a pad makes a hot spot; not less than `tight_above`.
    #[schemars(transform = within(bounds::STRAIN))]
    pub(crate) hot_spot_above: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShapeWords {
    /// A head is a long oval below this shape index.
    #[schemars(transform = within(bounds::WORD_INDEX))]
    pub(crate) long_below: Number,
    /// A head is a round oval above this shape index; not less than `long_below`.
    #[schemars(transform = within(bounds::WORD_INDEX))]
    pub(crate) round_above: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShapeByEye {
    /// The shape index that "long" stands for.
    #[schemars(transform = within(bounds::WORD_INDEX))]
    pub(crate) long: Number,
    /// The shape index that "intermediate" stands for.
    #[schemars(transform = within(bounds::WORD_INDEX))]
    pub(crate) intermediate: Number,
    /// The shape index that "round" stands for.
    #[schemars(transform = within(bounds::WORD_INDEX))]
    pub(crate) round: Number,
    /// How far the eye is off: standard deviation, in points of the shape index.
    #[schemars(transform = within(bounds::BY_EYE_SD))]
    pub(crate) sd: Number,
}

/// How far a reading is off, by who took it and with what.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasuring {
    /// Who measured.
    pub(crate) by: RawMeasurer,
    /// What was measured with; the tape is for the circumference.
    pub(crate) with: RawTool,
    /// How far such a reading is off: standard deviation in mm; 0 is exact.
    #[schemars(transform = within(bounds::READING_SD_MM))]
    pub(crate) sd_mm: Number,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawMeasurer {
    /// Somebody trained, of the shop.
    Staff,
    /// The customer, at home.
    Customer,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawTool {
    /// A tape, for the circumference.
    Tape,
    /// A sliding or spreading caliper.
    Caliper,
    /// A ruler, or a book and a ruler.
    Ruler,
    /// A photograph or an app.
    Phone,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawProfileErrors {
    /// For interiors known from a fitter's experience.
    pub(crate) by_eye: RawProfileError,
    /// For interiors measured in the empty helmet.
    pub(crate) measured: RawProfileError,
    /// For interiors learned from recorded tries.
    pub(crate) learned: RawProfileError,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawProfileError {
    /// How far the interior's shape index is off: standard deviation, in points of the index.
    #[schemars(transform = within(bounds::INDEX_SD))]
    pub(crate) shape_index: Number,
    /// How far the middle of a size is off: standard deviation, in mm of circumference.
    #[schemars(transform = within(bounds::CENTRE_SD_MM))]
    pub(crate) centre_mm: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPlausible {
    /// The usual thickness of a pad, in mm: the smallest and the largest.
    #[schemars(transform = each_within(bounds::PAD_MM))]
    pub(crate) thickness_mm: [Number; 2],
    /// The usual price of a helmet, in the shop's currency: the smallest and the largest.
    #[schemars(with = "[Price; 2]")]
    pub(crate) helmet_price: [Number; 2],
    /// The usual price of a pad or a pack, in the shop's currency: the smallest and the largest.
    #[schemars(with = "[Price; 2]")]
    pub(crate) pad_price: [Number; 2],
    /// The usual mass of a helmet, in g: the smallest and the largest.
    #[schemars(transform = each_within(bounds::MASS_G))]
    pub(crate) mass_g: [Number; 2],
    /// The usual time to swap the pads of one zone, in minutes: the smallest and the largest.
    #[schemars(transform = each_within(bounds::SWAP_MINUTES))]
    pub(crate) swap_minutes: [Number; 2],
    /// The usual standard deviation of a head measure over its mean: the smallest and the largest.
    #[schemars(transform = each_within(bounds::SHARE))]
    pub(crate) head_spread: [Number; 2],
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawChecking {
    /// Room between the labels of two sizes, in mm of circumference; more is a gap.
    #[schemars(transform = within(bounds::CHECK_MM))]
    pub(crate) label_step_mm: Number,
    /// How far the liners of two sizes of one shell may differ, in mm.
    #[schemars(transform = within(bounds::CHECK_MM))]
    pub(crate) shell_differs_mm: Number,
    /// How far a measured interior may be from its label, in mm of circumference.
    #[schemars(transform = within(bounds::CHECK_LABEL_MM))]
    pub(crate) label_differs_mm: Number,
    /// How far a measured interior may be from the shape index, in points of the index.
    #[schemars(transform = within(bounds::CHECK_INDEX))]
    pub(crate) index_differs: Number,
    /// How far a population's circumference may be from its length and breadth, as a share.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) outline_differs: Number,
    /// A reason from more heads than this share, of those within a model's labels, needs a rule.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) common_reason: Number,
    /// A model that no rule leads to and that fits a smaller share of heads than this is out of reach.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) served_by_none: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSketch {
    /// How much rounder or longer "rounder" and "longer" are, in points of the index.
    #[schemars(transform = within(bounds::SKETCH_STEP))]
    pub(crate) step: Number,
    /// The same for "much rounder" and "much longer".
    #[schemars(transform = within(bounds::SKETCH_BIG_STEP))]
    pub(crate) big_step: Number,
    /// How far such a comparison is off, as a standard deviation in points of the index.
    #[schemars(transform = within(bounds::COMPARISON_SD))]
    pub(crate) comparison_sd: Number,
    /// How much interiors of a range differ at least, as a standard deviation in points of the index.
    #[schemars(transform = within(bounds::LEAST_SPREAD))]
    pub(crate) least_spread: Number,
    /// Two statements that are more than this many standard deviations apart contradict each other.
    #[schemars(transform = within(bounds::FAR_MOVED))]
    pub(crate) far_moved: Number,
    /// Reports that are less probable together than this contradict each other.
    #[schemars(transform = within(bounds::ODD_BELOW))]
    pub(crate) odd_below: Number,
    /// A standard deviation that shrinks to no less than this share of itself was hardly narrowed.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) little_learned: Number,
    /// A second possible shape is told from this share of the probability on.
    #[schemars(transform = within(bounds::HUMP_SHARE))]
    pub(crate) hump_share: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawAuditing {
    /// Steps in which readings are written down, in mm.
    #[schemars(transform = within(bounds::READING_STEP_MM))]
    pub(crate) reading_step_mm: Number,
    /// A failure that a smaller share of all customers reports than this needs no proposed rule.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) rare_reason: Number,
}
