//! How a session stands after some events.

use super::event::{Event, OnHead, Tried};
use super::out::{self, Out};
use super::{Opening, opening};
use crate::catalogue::Catalogue;
use crate::fit::{Customer, PadSet, Worn};
use crate::head::{Posterior, Reading};
use crate::journal::Read;
use crate::profile::{Nature, Reason};
use crate::unit::Id;
use itertools::Itertools;

/// How a session stands.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Standing {
    /// What was heard, in order.
    pub tried: Vec<Tried>,
    /// What was measured during the session, with the number of helmets that had been on before.
    pub measured: Vec<(usize, Read)>,
    /// Models that the customer doesn't want to put on.
    pub declined: Vec<Id>,
    /// What the fitter goes on with, where it is their own choice.
    pub chosen: Option<OnHead>,
    /// How it ended.
    pub ended: Option<Ended>,
}

/// How a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// With a helmet.
    Fitted,
    /// Without one.
    Without,
}

impl Standing {
    /// How a session stands after these events.
    #[must_use]
    pub fn after<'e>(events: impl IntoIterator<Item = &'e Event>) -> Self {
        let mut standing = Self::default();
        for event in effective(events) {
            standing.add(event);
        }
        standing
    }

    fn add(&mut self, event: &Event) {
        match event {
            Event::Tried(tried) => {
                self.tried.push(tried.clone());
                self.chosen = None;
            }
            Event::Chose(helmet) => self.chosen = Some(helmet.clone()),
            Event::Declined(model) => {
                self.declined.push(model.clone());
                self.chosen = None;
            }
            Event::Measured(read) => self.measured.push((self.helmets(), *read)),
            Event::TookBack => {}
            Event::Ended => self.ended = Some(if self.fits() { Ended::Fitted } else { Ended::Without }),
        }
    }

    /// Helmets that were on the head, other pads in the same helmet not counted.
    #[must_use]
    pub fn helmets(&self) -> usize {
        self.tried.iter().filter(|tried| !tried.helmet.is_swap).count()
    }

    /// Minutes of the session so far.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.tried.iter().map(|tried| tried.minutes).sum()
    }

    /// Whether the last helmet fits.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.tried.last().is_some_and(|tried| tried.reason.is_none())
    }

    /// The last failure, if the last helmet failed.
    #[must_use]
    pub fn failed(&self) -> Option<(&OnHead, Reason)> {
        let last = self.tried.last()?;
        Some((&last.helmet, last.reason?))
    }

    /// The helmet on the head, where other pads in it could still help: none after a stop, and none where the complaint
    /// is not about pads.
    #[must_use]
    pub fn on_head(&self) -> Option<&OnHead> {
        let (helmet, reason) = self.failed()?;
        let is_open = reason.nature() == Nature::Geometric && !self.declined.contains(&helmet.model);
        is_open.then_some(helmet)
    }

    /// The pad sets that were in the helmet on the head.
    pub(super) fn sets_on_head(&self) -> impl Iterator<Item = &PadSet> {
        let first = self.tried.iter().rposition(|tried| !tried.helmet.is_swap).unwrap_or(0);
        self.tried[first.min(self.tried.len())..].iter().map(|tried| &tried.helmet.pads)
    }

    /// Every `(model, size)` that is out, and every model: tried, declined, stopped, or against a complaint.
    pub(super) fn out(&self, catalogue: &Catalogue) -> Out {
        let mut out = Out { models: self.declined.clone(), sizes: Vec::new() };
        for tried in &self.tried {
            out.sizes.push((tried.helmet.model.clone(), tried.helmet.size.clone()));
            let failed = tried.reason.zip(catalogue.model(tried.helmet.model.as_str()));
            if let Some((reason, model)) = failed {
                out.models.extend(out::by_complaint(reason, model, catalogue));
            }
        }
        out.models = out.models.into_iter().sorted().dedup().collect();
        out
    }

    /// Whether a stop was heard of this model in this size: then it is out for good.
    #[must_use]
    pub fn is_stopped(&self, model: &Id, size: &Id) -> bool {
        self.tried.iter().any(|tried| {
            let is_it = tried.helmet.model == *model && tried.helmet.size == *size;
            is_it && tried.reason.is_some_and(|reason| reason.nature() == Nature::Stop)
        })
    }

    /// The customer with all that was measured and heard.
    pub(super) fn customer<'a>(&self, opening: &Opening, catalogue: &'a Catalogue) -> Option<Customer<'a>> {
        let mut customer = opening.customer(catalogue)?;
        let population = catalogue.population(customer.population.as_str())?;
        customer.readings.extend(self.measured.iter().map(|(_, read)| Reading::from(read)));
        customer.head = Posterior::new(population, &customer.readings, customer.head.by_eye());
        customer.worn.extend(self.tried.iter().filter_map(|tried| worn(tried, catalogue)));
        Some(customer)
    }
}

/// What a round says of the head. What no geometry tells says nothing.
fn worn<'a>(tried: &Tried, catalogue: &'a Catalogue) -> Option<Worn<'a>> {
    let helmet = &tried.helmet;
    let is_silent = tried.reason.is_some_and(|reason| reason.direction().is_none());
    if is_silent || opening::size_is_known(catalogue, &helmet.model, &helmet.size).is_err() {
        return None;
    }
    let model = catalogue.model(helmet.model.as_str())?;
    Some(Worn { model, size: helmet.size.clone(), pads: Some(helmet.pads), reason: tried.reason })
}

/// The events that count: what was taken back is gone, but for a stop, which stays.
pub(super) fn effective<'e>(events: impl IntoIterator<Item = &'e Event>) -> Vec<&'e Event> {
    let mut kept: Vec<&Event> = Vec::new();
    for event in events {
        if *event != Event::TookBack {
            kept.push(event);
        } else if let Some(last) = last_to_take_back(&kept) {
            kept.remove(last);
        }
    }
    kept
}

/// Which event would be taken back: the last that is no stop.
pub(super) fn last_to_take_back(events: &[&Event]) -> Option<usize> {
    let last = events.len().checked_sub(1)?;
    let is_stop =
        matches!(events[last], Event::Tried(Tried { reason: Some(reason), .. }) if reason.nature() == Nature::Stop);
    (!is_stop).then_some(last)
}
