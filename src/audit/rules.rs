//! The shop's rules as an audit follows and changes them.

use super::shelf::Shelf;
use crate::fallback::allows_size;
use crate::profile::{Edge, Reason};
use crate::unit::Id;
use itertools::Itertools;

/// A model to go on with after a failure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Lead {
    /// Its place in the catalogue.
    pub to: usize,
    /// The shop's rule that says so, by its place in the list of rules. `None` where it is only proposed: then any size
    /// will do, and the one that fits most often is taken.
    pub rule: Option<usize>,
}

/// Where a rule belongs: a model that failed, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Spot {
    /// The model's place in the catalogue.
    pub from: usize,
    /// A geometric reason.
    pub reason: Reason,
}

/// One change of the shop's graph: something taken away, something put in, or both (redirected).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Change {
    /// Where.
    pub spot: Spot,
    /// What is taken away.
    pub dropped: Option<Lead>,
    /// The model that is put in, by its place in the catalogue. Where it is also the one dropped, it is the size that
    /// is set free.
    pub put: Option<usize>,
}

/// The geometric rules of a graph, by spot.
#[derive(Debug, Clone)]
pub(super) struct Rules {
    /// By [`Spot::number`].
    leads: Vec<Vec<Lead>>,
    /// By rule and by the place of the size that failed in its model: the candidates that the rule allows.
    allowed: Vec<Vec<Vec<usize>>>,
}

/// Rules with one spot seen otherwise.
#[derive(Debug, Clone, Copy)]
pub(super) struct Patched<'r> {
    pub(super) rules: &'r Rules,
    pub(super) patch: Option<(Spot, &'r [Lead])>,
}

impl Spot {
    /// Every spot of a shelf, in the order of their numbers.
    pub(super) fn all(shelf: &Shelf<'_>) -> impl Iterator<Item = Self> {
        shelf.models().cartesian_product(Reason::geometric()).map(|(from, reason)| Self { from, reason: *reason })
    }

    pub(super) fn number(self) -> usize {
        self.from * Reason::GEOMETRIC + self.reason as usize
    }
}

impl Change {
    /// What it leaves of these leads.
    pub(super) fn of(self, leads: &[Lead]) -> Vec<Lead> {
        let kept = leads.iter().copied().filter(|lead| Some(*lead) != self.dropped);
        kept.chain(self.put.map(|to| Lead { to, rule: None })).collect()
    }
}

impl Rules {
    /// The geometric ones of these rules; geometry has nothing to say about the others.
    pub(super) fn of(shelf: &Shelf<'_>, edges: &[Edge]) -> Self {
        let mut rules = Self { leads: vec![Vec::new(); Spot::all(shelf).count()], allowed: Vec::new() };
        for (rule, edge) in edges.iter().enumerate() {
            let place = |id: &Id| shelf.catalogue.models().iter().position(|model| model.id == *id);
            let (from, to) = (place(&edge.from), place(&edge.to));
            let mut allowed = Vec::new();
            if let (Some(from), Some(to), true) = (from, to, Reason::geometric().contains(&edge.reason)) {
                rules.leads[Spot { from, reason: edge.reason }.number()].push(Lead { to, rule: Some(rule) });
                let after = |failed: &usize| Self::allowed_after(shelf, edge, *failed, shelf.sizes(to));
                allowed = shelf.sizes(from).iter().map(after).collect();
            }
            rules.allowed.push(allowed);
        }
        rules
    }

    /// Rules of nothing but these targets, in any size.
    pub(super) fn leading(shelf: &Shelf<'_>, targets: impl Iterator<Item = (Spot, usize)>) -> Self {
        let mut rules = Self { leads: vec![Vec::new(); Spot::all(shelf).count()], allowed: Vec::new() };
        targets.for_each(|(spot, to)| rules.leads[spot.number()].push(Lead { to, rule: None }));
        rules
    }

    /// What there is at a spot.
    pub(super) fn at(&self, spot: Spot) -> &[Lead] {
        &self.leads[spot.number()]
    }

    /// The same rules with a change made.
    pub(super) fn changed(&self, change: Change) -> Self {
        let mut changed = self.clone();
        changed.leads[change.spot.number()] = change.of(self.at(change.spot));
        changed
    }

    /// Every single change that there is at a spot: each model added, each lead taken away, each lead led elsewhere.
    pub(super) fn changes(&self, shelf: &Shelf<'_>, spot: Spot) -> Vec<Change> {
        let leads = self.at(spot);
        let others = || shelf.targets(spot.from).iter().copied();
        let is_new = |to: &usize| leads.iter().all(|lead| lead.to != *to);
        let change = |dropped, put| Change { spot, dropped, put };
        let added = others().filter(is_new).map(|to| change(None, Some(to)));
        let dropped = leads.iter().map(|lead| change(Some(*lead), None));
        let led_to = |lead: &Lead, to: &usize| is_new(to) || (lead.to == *to && lead.rule.is_some());
        let led = leads
            .iter()
            .flat_map(|lead| others().filter(move |to| led_to(lead, to)).map(move |to| change(Some(*lead), Some(to))));
        added.chain(dropped).chain(led).collect()
    }

    /// The candidates that a lead allows after one that failed.
    pub(super) fn sizes<'r>(&'r self, shelf: &'r Shelf<'_>, lead: Lead, failed: usize) -> &'r [usize] {
        let first = shelf.sizes(shelf.model(failed)).first().copied().unwrap_or(failed);
        match lead.rule {
            Some(rule) => self.allowed[rule].get(failed - first).map_or(&[], Vec::as_slice),
            None => shelf.sizes(lead.to),
        }
    }

    fn allowed_after(shelf: &Shelf<'_>, edge: &Edge, failed: usize, sizes: &[usize]) -> Vec<usize> {
        let allows = |next: &usize| {
            let (failed, next) = (&shelf.candidates[failed], &shelf.candidates[*next]);
            allows_size(edge, failed.size, next.model, next.size)
        };
        sizes.iter().copied().filter(allows).collect()
    }
}

impl<'r> Patched<'r> {
    /// The leads at a spot, and whether they are the patch.
    pub(super) fn at(&self, spot: Spot) -> (&'r [Lead], bool) {
        match self.patch {
            Some((patched, leads)) if patched == spot => (leads, true),
            _ => (self.rules.at(spot), false),
        }
    }
}
