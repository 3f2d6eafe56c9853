//! How journals weigh against the profiles.

/// The shop's assumptions about learning from journals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearningRules {
    /// One customer in so many is kept apart, to judge what was learned from the others.
    pub held_out: f64,
    /// Fewer customers than this change nothing.
    pub least_customers: f64,
    /// A change is proposed for what moved by so many of its new standard deviations, ...
    pub clear_sds: f64,
    /// ... and of whose old standard deviation at most this share is left.
    pub narrowed: f64,
    /// The shop's misreport rate counts as so many failures.
    pub misreport_failures: f64,
    /// The standard deviation of a reading may be off by this factor, more than 1: one standard deviation of its
    /// logarithm.
    pub measuring_factor: f64,
    /// The shop's population counts as so many measured customers.
    pub population_customers: f64,
}
