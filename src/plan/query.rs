//! What a plan is asked for.

use super::policy::Lead;
use crate::fit::Customer;
use crate::profile::Model;
use crate::unit::Id;

/// What a plan is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Query<'a> {
    /// Whom it is for.
    pub customer: Customer<'a>,
    /// The models that may be tried.
    pub models: Vec<&'a Model>,
    /// Sizes of them that are not there, as `(model, size)`.
    pub absent: Vec<(Id, Id)>,
    /// Most helmets to try.
    pub tries: usize,
    /// Most minutes to spend, where there is a limit.
    pub minutes: Option<f64>,
    /// Who leads.
    pub lead: Lead,
}
