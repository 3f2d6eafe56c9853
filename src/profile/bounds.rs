//! How large and how small the values of profile files may be: the one place of these numbers.
//!
//! The reader refuses what lies beyond them, and the schemas tell an editor the same. They are wide on purpose: they
//! catch slips of the unit or the pen, not rare helmets. The ends belong to the range.

use crate::head::Measure;
use std::ops::RangeInclusive;

/// A range of numbers, both ends included.
pub type Bounds = RangeInclusive<f64>;

/// The version of the profile files that this program reads.
pub(super) const SCHEMA: u32 = 1;

/// The characters of a text for people.
pub(super) const TEXT_LENGTH: RangeInclusive<usize> = 1..=200;

/// Minutes to swap the pads of a zone.
pub(super) const SWAP_MINUTES: Bounds = 0.0..=60.0;

/// The shape index of an interior: 100 × breadth / length.
pub const SHAPE_INDEX: Bounds = 65.0..=95.0;

/// Standard deviation of a profile's shape index.
pub const INDEX_SD: Bounds = 0.0..=5.0;

/// Standard deviation of the centres of a shell's sizes, mm of circumference.
pub const CENTRE_SD_MM: Bounds = 0.0..=15.0;

/// How much larger the sizes of a shell are than labelled, mm of circumference: three sizes.
pub const CENTRE_MM: Bounds = -60.0..=60.0;

/// Mass of a helmet, g.
pub(super) const MASS_G: Bounds = 400.0..=3000.0;

/// Noise at the ear, dB(A).
pub(super) const NOISE_DB: Bounds = 60.0..=130.0;

/// The ends of a labelled range, cm of circumference.
pub const LABEL_CM: Bounds = 44.0..=70.0;

/// Thickness of a pad, mm.
pub const PAD_MM: Bounds = 1.0..=60.0;

/// Pads that a shell offers for one zone. Every combination of brow and rear pads is looked at: with seven of each and
/// the standard ones that is 64 at most.
pub const MOST_PADS: usize = 7;

/// Interior length between uncompressed pads, mm.
pub(super) const LENGTH_INSIDE: Bounds = 120.0..=260.0;

/// Interior breadth between uncompressed pads, mm.
pub(super) const BREADTH_INSIDE: Bounds = 90.0..=220.0;

/// Minutes of fetching and checking.
pub(super) const SHOP_MINUTES: Bounds = 0.0..=120.0;

/// What going without a helmet costs, minutes.
pub(super) const GO_WITHOUT_MINUTES: Bounds = 0.0..=10_000.0;

/// Helmets that a customer puts on.
pub(super) const TRIES: RangeInclusive<u32> = 1..=8;

/// A share or a probability.
pub const SHARE: Bounds = 0.0..=1.0;

/// The shape index at which words begin, or that a word stands for.
pub(super) const WORD_INDEX: Bounds = 60.0..=100.0;

/// Standard deviation of a shape judged by eye, in points of the index.
pub(super) const BY_EYE_SD: Bounds = 0.1..=20.0;

/// Standard deviation of a reading, mm.
pub(super) const READING_SD_MM: Bounds = 0.0..=50.0;

/// Steps in which readings are written down, mm.
pub(super) const READING_STEP_MM: Bounds = 0.1..=20.0;

/// Circumference over the perimeter of the ellipse of length and breadth.
pub(super) const OUTLINE_FACTOR: Bounds = 0.9..=1.2;

/// The strain at which a pad sits best.
pub(super) const IDEAL_COMPRESSION: Bounds = 0.05..=0.9;

/// Strain of the foam on an axis.
pub(super) const STRAIN: Bounds = 0.0..=1.0;

/// How often a named reason is another than the true one.
pub const MISREPORT: Bounds = 0.0..=0.5;

/// The quantile above which a head is rare.
pub(super) const RARE_ABOVE: Bounds = 0.5..=1.0;

/// Room between two labels, and between the liners of two sizes of a shell, mm.
pub(super) const CHECK_MM: Bounds = 0.0..=30.0;
/// A measured interior against its label, mm of circumference.
pub(super) const CHECK_LABEL_MM: Bounds = 0.0..=50.0;
/// A measured interior against the shape index, in points.
pub(super) const CHECK_INDEX: Bounds = 0.0..=20.0;

/// Points of the index between a model and one that is "rounder".
pub(super) const SKETCH_STEP: Bounds = 0.0..=10.0;

/// The same for "much rounder".
pub(super) const SKETCH_BIG_STEP: Bounds = 0.0..=20.0;

/// Standard deviation of a comparison between two models, points of the index.
pub(super) const COMPARISON_SD: Bounds = 0.1..=10.0;

/// Least standard deviation of the interiors of a range, points of the index.
pub(super) const LEAST_SPREAD: Bounds = 0.1..=20.0;

/// Standard deviations between two statements that contradict each other.
pub(super) const FAR_MOVED: Bounds = 0.5..=10.0;

/// Probability of reports that contradict each other.
pub(super) const ODD_BELOW: Bounds = 0.0..=0.5;

/// Share of the probability in a second possible shape.
pub(super) const HUMP_SHARE: Bounds = 0.01..=0.5;

/// Customers of whom one is kept apart.
pub(super) const HELD_OUT: Bounds = 2.0..=100.0;

/// Customers or failures that something counts for.
pub(super) const COUNTED: Bounds = 1.0..=100_000.0;

/// Standard deviations by which a figure has moved clearly.
pub(super) const CLEAR_SDS: Bounds = 0.5..=10.0;

/// The factor by which a standard deviation may be off.
pub(super) const FACTOR: Bounds = 1.01..=10.0;

/// From one pad of a zone to the next, mm of thickness.
pub(super) const PAD_STEP_MM: Bounds = 0.5..=10.0;

/// Pads that are thinner than the standard ones, and as many that are thicker.
pub(super) const PADS_EACH_WAY: Bounds = 1.0..=3.0;

/// Customers that come in within a week.
pub const CUSTOMERS_PER_WEEK: Bounds = 0.1..=100_000.0;

/// Days until a delivery comes.
pub const DELIVERY_DAYS: Bounds = 0.1..=365.0;

/// The probability with which something is in stock.
pub const SERVICE_LEVEL: Bounds = 0.5..=0.9999;

/// Minutes by which a choice is a slip.
pub(super) const SLIP_MINUTES: Bounds = 0.0..=30.0;

/// How much something known beforehand counts, in choices.
pub(super) const CHOICES: Bounds = 0.5..=1000.0;

/// Choices of earlier runs that count.
pub(super) const LOOKS_BACK: Bounds = 0.0..=1000.0;

/// A probability from which something is said to be so.
pub(super) const SURE_FROM: Bounds = 0.5..=0.999;

/// Customers or days until something comes again.
pub(super) const AGAIN_AFTER: Bounds = 1.0..=60.0;

/// A measure of a human head, mm.
pub(super) fn of_head(measure: Measure) -> Bounds {
    let (least, most) = measure.human_range();
    least..=most
}
