//! What experience with a new helmet stands for.

/// The shop's assumptions about a fitter's words, and when what is said doesn't go together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SketchRules {
    /// Points of the shape index between a model and one that is "rounder" or "longer".
    pub step: f64,
    /// The same for "much rounder" and "much longer".
    pub big_step: f64,
    /// Standard deviation of a comparison, points of the index; more than 0.
    pub comparison_sd: f64,
    /// Interiors of a range spread by at least this, points of the index; more than 0.
    pub least_spread: f64,
    /// Two statements that are more standard deviations apart contradict each other.
    pub far_moved: f64,
    /// So do reports that are less probable together than this, whatever the shape.
    pub odd_below: f64,
    /// A standard deviation that shrinks to no less than this share of itself was hardly narrowed.
    pub little_learned: f64,
    /// The least share of the probability that makes a second hump worth telling.
    pub hump_share: f64,
}
