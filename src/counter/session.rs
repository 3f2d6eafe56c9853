//! A session: its opening and its events.

use super::event::{Event, OnHead, Tried};
use super::next::{Next, Now, next};
use super::standing::{Standing, effective, last_to_take_back};
use super::{Opening, Unknown};
use crate::catalogue::Catalogue;
use crate::journal::{Read, Record, Round};
use crate::profile::Reason;

/// A session in progress.
#[derive(Debug, Clone, PartialEq)]
pub struct Session<'a> {
    catalogue: &'a Catalogue,
    opening: Opening,
    events: Vec<Event>,
}

/// Why something can't happen now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// A stop was heard of this helmet.
    #[error("a stop was heard of this model in this size: it is out for this customer, whatever the pads")]
    Stopped,
    /// Nothing is on the head, or going to be.
    #[error("no helmet is being tried: choose one, or end the session")]
    NothingOn,
    /// Other pads without a helmet to put them in.
    #[error("no helmet is on the head that other pads could be put into")]
    NoHelmet,
    /// Nothing to take back.
    #[error("there is nothing to take back")]
    NothingBefore,
    /// The last thing was a stop.
    #[error("a stop can't be taken back: that model in that size stays out for this customer")]
    StopStays,
    /// It has ended.
    #[error("the session has ended")]
    Ended,
    /// It fits.
    #[error("the helmet fits: end the session, or take that back first")]
    Fits,
}

impl<'a> Session<'a> {
    /// A session that begins, or goes on with these events.
    ///
    /// # Errors
    ///
    /// The first thing in it that the profiles don't have.
    pub fn new(catalogue: &'a Catalogue, opening: Opening, events: Vec<Event>) -> Result<Self, Unknown> {
        opening.check(catalogue)?;
        events.iter().try_for_each(|event| event.check(catalogue))?;
        Ok(Self { catalogue, opening, events })
    }

    /// What was known when it began.
    #[must_use]
    pub fn opening(&self) -> &Opening {
        &self.opening
    }

    /// The profiles.
    #[must_use]
    pub fn catalogue(&self) -> &'a Catalogue {
        self.catalogue
    }

    /// How it stands.
    #[must_use]
    pub fn standing(&self) -> Standing {
        Standing::after(&self.events)
    }

    /// What to do next.
    #[must_use]
    pub fn next(&self) -> Option<Next<'a>> {
        next(self.catalogue, &self.opening, &self.standing())
    }

    /// What was heard of the helmet that was to be tried.
    ///
    /// # Errors
    ///
    /// Where none was, or the session doesn't wait for it.
    pub fn heard(&self, now: Option<&Now<'_>>, reason: Option<Reason>) -> Result<Event, Refused> {
        self.is_open()?;
        let now = now.ok_or(Refused::NothingOn)?;
        let helmet =
            OnHead { model: now.model.id.clone(), size: now.size.label.clone(), pads: now.pads, is_swap: now.is_swap };
        if self.standing().is_stopped(&helmet.model, &helmet.size) {
            return Err(Refused::Stopped);
        }
        let fit_probability = Some(rounded(now.fit.value, 1e4));
        Ok(Event::Tried(Tried { helmet, fit_probability, minutes: rounded(now.minutes, 1e3), reason }))
    }

    /// The fitter's own choice of a helmet.
    ///
    /// # Errors
    ///
    /// After a stop of that helmet, or where the session doesn't wait for it.
    pub fn chose(&self, helmet: OnHead) -> Result<Event, Refused> {
        self.is_open()?;
        let standing = self.standing();
        if standing.is_stopped(&helmet.model, &helmet.size) {
            return Err(Refused::Stopped);
        }
        let is_on = standing.failed().is_some_and(|(on, _)| on.model == helmet.model && on.size == helmet.size);
        if helmet.is_swap && !is_on { Err(Refused::NoHelmet) } else { Ok(Event::Chose(helmet)) }
    }

    /// The customer doesn't want to put a model on.
    ///
    /// # Errors
    ///
    /// Where none was to be put on.
    pub fn declined(&self, now: Option<&Now<'_>>) -> Result<Event, Refused> {
        self.is_open()?;
        now.map(|now| Event::Declined(now.model.id.clone())).ok_or(Refused::NothingOn)
    }

    /// Something was measured.
    ///
    /// # Errors
    ///
    /// Where the session doesn't wait for it.
    pub fn measured(&self, read: Read) -> Result<Event, Refused> {
        self.is_open().map(|()| Event::Measured(read))
    }

    /// What happened last is taken back.
    ///
    /// # Errors
    ///
    /// Where nothing can be.
    pub fn took_back(&self) -> Result<Event, Refused> {
        if self.standing().ended.is_some() {
            return Err(Refused::Ended);
        }
        let events = effective(&self.events);
        match last_to_take_back(&events) {
            Some(_) => Ok(Event::TookBack),
            None if events.is_empty() => Err(Refused::NothingBefore),
            None => Err(Refused::StopStays),
        }
    }

    /// The session ends.
    ///
    /// # Errors
    ///
    /// Where it has already.
    pub fn ended(&self) -> Result<Event, Refused> {
        if self.standing().ended.is_some() { Err(Refused::Ended) } else { Ok(Event::Ended) }
    }

    /// Goes on after an event.
    pub fn add(&mut self, event: Event) {
        self.events.push(event);
    }

    /// What the journal gets: one record for each helmet, in order.
    #[must_use]
    pub fn records(&self, customer: u64) -> Vec<Record> {
        let standing = self.standing();
        let mut records: Vec<Record> = Vec::new();
        for tried in &standing.tried {
            let round = Round { pads: tried.helmet.pads, reason: tried.reason, minutes: tried.minutes };
            match records.last_mut().filter(|_| tried.helmet.is_swap) {
                Some(record) => record.rounds.push(round),
                None => records.push(self.record(customer, &standing, records.len(), tried, round)),
            }
        }
        records
    }

    fn record(&self, customer: u64, standing: &Standing, before: usize, tried: &Tried, round: Round) -> Record {
        let mut head = self.opening.head.clone();
        let known = standing.measured.iter().filter(|(helmets, _)| *helmets <= before);
        head.readings.extend(known.map(|(_, read)| *read));
        Record {
            day: self.opening.day,
            customer,
            number: u32::try_from(before + 1).unwrap_or(u32::MAX),
            head,
            model: tried.helmet.model.clone(),
            size: tried.helmet.size.clone(),
            fit_probability: tried.fit_probability,
            rounds: vec![round],
        }
    }

    fn is_open(&self) -> Result<(), Refused> {
        let standing = self.standing();
        match (standing.ended, standing.fits()) {
            (Some(_), _) => Err(Refused::Ended),
            (None, true) => Err(Refused::Fits),
            (None, false) => Ok(()),
        }
    }
}

/// To so many parts of one: more digits would say nothing, and would differ between machines.
fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}
