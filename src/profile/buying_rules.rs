//! What a buyer asks of the range.

/// The shop's assumptions about the range of models.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuyingRules {
    /// Where at least this share of the customers fit nothing, there is a gap.
    pub gap_from: f64,
    /// A gap that loses a smaller share of all customers isn't told on its own.
    pub least_gap: f64,
    /// A smaller range keeps this share of the customers that are served now.
    pub keep: f64,
    /// A size or a tunable zone of a new model must win this share of all customers.
    pub least_gain: f64,
    /// From one pad of a new model's tunable zone to the next, mm of thickness.
    pub pad_step: f64,
    /// So many thinner and so many thicker pads are on offer for such a zone (a whole number is meant).
    pub pads_each_way: f64,
}

/// The shop's assumptions about pads in the drawer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockingRules {
    /// Customers that come in for a helmet in a week.
    pub customers_per_week: f64,
    /// Days from ordering a pad to having it.
    pub delivery_days: f64,
    /// The probability with which a pad is there whenever it is wanted until the next delivery.
    pub service_level: f64,
    /// What the shop earns with a pad, as a share of its price, where it is given.
    pub margin: Option<f64>,
    /// What a pad that isn't wanted until the next delivery costs, as a share of its price.
    pub left_over_loss: f64,
}
