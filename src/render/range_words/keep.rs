//! How few models serve how many.

use super::figures::{between, of_hundred};
use crate::range::{Fewer, FewerWanted, Pads, Subset, Worth};
use crate::unit::plain;
use itertools::Itertools;

/// The best subsets with what was wanted of them.
pub(in crate::render) struct KeepWords<'w, 'a> {
    pub(in crate::render) wanted: &'w FewerWanted,
    pub(in crate::render) fewer: &'w Fewer<'a>,
}

impl KeepWords<'_, '_> {
    /// The places of the curve that a page tells: up to the first that serves as many as all, then all.
    pub(in crate::render) fn told(&self) -> Vec<usize> {
        let curve = &self.fewer.curve;
        let enough = curve.iter().position(|subset| subset.serves_all).unwrap_or_default();
        let last = (enough + 1 < curve.len()).then(|| curve.len() - 1);
        (0..curve.len().min(enough + 1)).chain(last).collect()
    }

    /// What comes in and what goes out against the line before.
    pub(in crate::render) fn moved(&self, at: usize) -> String {
        let curve = &self.fewer.curve;
        let subset = &curve[at];
        if curve[..at].iter().any(|subset| subset.serves_all) {
            return "all others, for nobody more".to_owned();
        }
        let before: &[usize] = at.checked_sub(1).map_or(&[], |before| &curve[before].columns);
        let come = subset.columns.iter().filter(|column| !before.contains(column)).map(|column| self.name(*column));
        let go = before.iter().filter(|column| !subset.columns.contains(column)).map(|column| self.name(*column));
        let mut words = come.collect_vec().join(", ");
        let go = go.collect_vec().join(", ");
        if !go.is_empty() {
            words = format!("{words} (out: {go})");
        }
        if subset.at_most_more > 0.0 {
            words = format!("{words} (another choice: at most {:.2} more)", subset.at_most_more * 100.0);
        }
        words
    }

    /// The same in as few words as there is room for.
    pub(in crate::render) fn first_in(&self, at: usize) -> String {
        let curve = &self.fewer.curve;
        let before: &[usize] = at.checked_sub(1).map_or(&[], |before| &curve[before].columns);
        let mut come = curve[at].columns.iter().filter(|column| !before.contains(column));
        match (come.next(), come.count()) {
            _ if curve[..at].iter().any(|subset| subset.serves_all) => "all others".to_owned(),
            (Some(first), 0) => self.name(*first).to_owned(),
            (Some(first), others) => format!("{} and {others}", self.name(*first)),
            (None, _) => String::new(),
        }
    }

    /// How the lines of the curve were found, and what they count.
    pub(in crate::render) fn of_curve(&self) -> String {
        format!(
            "Of those served: of 100 customers whom all models serve {}. Each line is the best choice of so many models{}, on \
             one half of the customers; the figures are those of the other half. Of models that do \
             equally well the first by its id is told. ±: sampling error, four standard errors.",
            self.pads(),
            if self.fewer.curve.iter().all(|subset| subset.at_most_more <= 0.0) {
                ", with proof"
            } else {
                " that was found, and where that isn't proven the line says how much more another might serve"
            }
        )
    }

    /// How many of all models the smallest range has.
    pub(in crate::render) fn count(&self) -> String {
        format!("{} of {} models", self.smallest().columns.len(), self.fewer.shelf.columns.len())
    }

    /// What the smallest range serves, and how sure that is.
    pub(in crate::render) fn serves(&self) -> String {
        let found = if self.fewer.is_smallest { "No smaller one" } else { "No smaller one that was found" };
        let [all, stay, share] = self.fewer.spreads.map(between);
        format!(
            "{found} serves {} of 100 customers whom all models serve {}, on the half that chose; on the other half this \
             one serves {} of them. Where profiles are off as far as they say, it is {share} in nine of ten cases: {stay} of 100 \
             customers instead of {all}.",
            self.share(),
            self.pads(),
            of_hundred(self.smallest().of_served),
        )
    }

    /// What its helmets fit as they come; nothing where that was the question.
    pub(in crate::render) fn as_they_come(&self) -> Option<String> {
        let whole = self.fewer.curve.last().filter(|_| self.wanted.pads == Pads::OnOffer)?;
        let words = format!(
            "As they come, with the standard pads, its helmets fit {} of 100 customers and those of the whole range {}: the \
             others need a swap. With --pads standard those count who need none.",
            of_hundred(self.smallest().standard),
            of_hundred(whole.standard)
        );
        Some(words)
    }

    /// The models that stay because somebody wanted it.
    pub(in crate::render) fn always(&self) -> Option<String> {
        let always = &self.wanted.always;
        (!always.is_empty()).then(|| format!("Asked to stay: {}.", always.iter().map(|at| self.name(*at)).join(", ")))
    }

    /// The smallest range that serves the share that is wanted.
    pub(in crate::render) fn smallest(&self) -> &Subset {
        &self.fewer.curve[self.fewer.smallest]
    }

    /// The share that is wanted, of 100.
    pub(in crate::render) fn share(&self) -> String {
        plain((self.wanted.keep * 10_000.0).round() / 100.0)
    }

    /// With which pads a customer counts as served.
    pub(in crate::render) fn pads(&self) -> &'static str {
        match self.wanted.pads {
            Pads::OnOffer => "with the pads on offer",
            Pads::Standard => "with the standard pads",
        }
    }

    pub(in crate::render) fn name(&self, column: usize) -> &str {
        &self.fewer.shelf.columns[column].model.name
    }
}

/// The one that counts most first.
pub(in crate::render) fn by_worth(worth: &[Worth]) -> impl Iterator<Item = &Worth> {
    worth.iter().sorted_by(|a, b| b.share.value.total_cmp(&a.share.value).then(a.column.cmp(&b.column)))
}

/// Said where all models stay.
pub(in crate::render) const ALL_STAY: &str = "No model: without any of them too few are served.";
