//! Who pays for pads.

use crate::unit::Money;

/// The shop's assumptions about pads that are bought for a customer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PadRules {
    /// Who pays for the pads that go into the helmet.
    pub paid_by: Payer,
    /// Up to this sum a customer pays nothing.
    pub free_up_to: Money,
}

/// Who pays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "plain words")]
pub enum Payer {
    Customer,
    Shop,
}
