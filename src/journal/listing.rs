//! What stands in journals, all of it or what was asked for, and what it adds up to.

use super::{Contents, Day, Record};
use crate::profile::Reason;
use crate::unit::Id;
use itertools::Itertools;

/// Which tries are wanted. What is `None` asks for nothing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Wanted {
    /// Of this model.
    pub model: Option<Id>,
    /// In this size, whatever the case.
    pub size: Option<Id>,
    /// That ended so.
    pub ended: Option<Ended>,
    /// Of the customer with this number, in every journal.
    pub customer: Option<u64>,
    /// On this day or later.
    pub since: Option<Day>,
    /// On this day or before.
    pub until: Option<Day>,
}

/// How a try ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// With a good fit.
    Fits,
    /// With this reason.
    For(Reason),
}

/// Journals as they are listed.
#[derive(Debug, Clone, PartialEq)]
pub struct Listing {
    /// One for each file, in the order in which they were named.
    pub journals: Vec<Listed>,
    /// All of them together.
    pub totals: Totals,
}

/// What of one journal is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// Its name.
    pub name: String,
    /// Tries with the numbers of their lines, in the order of the file.
    pub tries: Vec<(usize, Record)>,
    /// How many lines of the whole file are no records.
    pub bad_lines: usize,
}

/// What the wanted tries add up to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Totals {
    /// How many customers; the same number in two journals is two customers.
    pub customers: usize,
    /// How many helmets were put on.
    pub tries: usize,
    /// How many of them ended with a good fit.
    pub fits: usize,
    /// Minutes of the shop's time.
    pub minutes: f64,
    /// The first and the last day.
    pub days: Option<(Day, Day)>,
    /// How many lines are no records, wanted or not.
    pub bad_lines: usize,
}

/// Minutes that all rounds of a try take.
#[must_use]
pub fn minutes(record: &Record) -> f64 {
    record.rounds.iter().map(|round| round.minutes).sum()
}

impl Listing {
    /// What is wanted of these journals, each with its name.
    #[must_use]
    pub fn new(journals: impl IntoIterator<Item = (String, Contents)>, wanted: &Wanted) -> Self {
        let listed = journals.into_iter().map(|(name, Contents { mut records, bad_lines, .. })| {
            records.retain(|(_, record)| wanted.takes(record));
            Listed { name, tries: records, bad_lines }
        });
        let journals = listed.collect_vec();
        let totals = Totals::of(&journals);
        Self { journals, totals }
    }
}

impl Totals {
    fn of(journals: &[Listed]) -> Self {
        let tries = || journals.iter().flat_map(|journal| journal.tries.iter().map(|(_, record)| record));
        let customers = |journal: &Listed| journal.tries.iter().map(|(_, record)| record.customer).unique().count();
        Self {
            customers: journals.iter().map(customers).sum(),
            tries: tries().count(),
            fits: tries().filter(|record| record.fits()).count(),
            minutes: tries().map(minutes).sum(),
            days: tries().map(|record| record.day).minmax().into_option(),
            bad_lines: journals.iter().map(|journal| journal.bad_lines).sum(),
        }
    }
}

impl Wanted {
    fn takes(&self, record: &Record) -> bool {
        let is_size = |size: &Id| size.as_str().eq_ignore_ascii_case(record.size.as_str());
        self.model.as_ref().is_none_or(|model| *model == record.model)
            && self.size.as_ref().is_none_or(is_size)
            && self.ended.is_none_or(|ended| Some(ended) == Ended::of(record))
            && self.customer.is_none_or(|customer| customer == record.customer)
            && self.since.is_none_or(|day| day <= record.day)
            && self.until.is_none_or(|day| record.day <= day)
    }
}

impl Ended {
    /// How a try ended; `None` for one without a round.
    #[must_use]
    pub fn of(record: &Record) -> Option<Self> {
        record.last().map(|round| round.reason.map_or(Self::Fits, Self::For))
    }

    /// `fits`, or the id of the reason.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::For(reason) => reason.id(),
        }
    }

    /// The ending that options write so.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        if id == "fits" { Some(Self::Fits) } else { Reason::from_id(id).map(Self::For) }
    }
}
