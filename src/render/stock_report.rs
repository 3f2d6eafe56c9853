//! What is told of a drawer, for people and for programs.

use super::json::Warning;
use crate::catalogue::Catalogue;
use crate::profile::{Model, Shell};
use crate::range::stock::{Drawer, DrawerQuestion, Kit, Place};

/// A drawer with what was asked.
#[derive(Debug, Clone, Copy)]
pub struct StockReport<'r> {
    /// The profiles.
    pub catalogue: &'r Catalogue,
    /// The models, side by side as on the shelf.
    pub models: &'r [&'r Model],
    /// What was asked.
    pub question: &'r DrawerQuestion,
    /// The answer.
    pub drawer: &'r Drawer<'r>,
    /// How many customers were looked at, and where their heads come from.
    pub customers: (usize, &'r str),
    /// How many fits were recorded of these models; `None` where no journal was named.
    pub recorded: Option<u64>,
    /// The one model that is shown.
    pub only: Option<&'r Model>,
    /// What to look at first.
    pub warnings: &'r [Warning],
    /// What must be said.
    pub cautions: &'r [&'r str],
}

impl<'r> StockReport<'r> {
    /// Model and shell of a kit.
    pub(super) fn of_kit(&self, kit: &Kit<'_>) -> (&'r Model, &'r Shell) {
        self.shell(kit.model, kit.shell)
    }

    /// Model and shell of a pad.
    pub(super) fn of_pad(&self, place: &Place<'_>) -> (&'r Model, &'r Shell) {
        self.shell(place.model, place.shell)
    }

    fn shell(&self, model: usize, shell: usize) -> (&'r Model, &'r Shell) {
        (self.models[model], &self.models[model].shells[shell])
    }

    /// Whether something of the model at this place is shown.
    pub(super) fn shows(&self, model: usize) -> bool {
        self.only.is_none_or(|only| only.id == self.models[model].id)
    }
}
