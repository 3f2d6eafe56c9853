//! What is doubtful in a journal whose lines are all records: try against try, and all against the shop's profiles.

use super::{Day, Read, Record};
use crate::head::Measure;
use crate::profile::{ByZone, Model, Shell, Size, Zone};
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// What the shop knows.
#[derive(Debug, Clone, Copy)]
pub struct Known<'a> {
    /// Its models.
    pub models: &'a [Model],
    /// Ids of its populations.
    pub populations: &'a [&'a Id],
    /// Two readings of one measure that are more than this many standard deviations apart contradict each other.
    pub far_apart: f64,
}

/// A line that somebody should look at.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// Its number.
    pub line: usize,
    /// Why.
    pub doubt: Doubt,
}

/// What is doubtful.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// Customer and number stand on an earlier line as well.
    Twice {
        /// Whose try.
        customer: u64,
        /// Which.
        number: u32,
        /// The earlier line.
        first: usize,
    },
    /// Tries before this one are missing.
    Gap {
        /// Whose.
        customer: u64,
        /// The first that is missing.
        from: u32,
        /// The last.
        to: u32,
    },
    /// A later try of a customer has an earlier day.
    Backwards {
        /// Its day.
        day: Day,
        /// The day of the try before.
        before: Day,
        /// The line of the try before.
        first: usize,
    },
    /// Two readings of one measure of a customer are further apart than their errors allow.
    Disagree {
        /// Of what.
        measure: Measure,
        /// What the customer's first line says, mm.
        one: f64,
        /// What this one says, mm.
        other: f64,
        /// The line of the first.
        first: usize,
    },
    /// The profiles don't know something.
    Unknown {
        /// What.
        stranger: Stranger,
        /// How many more tries name it.
        more: usize,
    },
}

/// Something that the profiles don't know.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stranger {
    /// A population.
    Population(Id),
    /// A model.
    Model(Id),
    /// A size of a model.
    Size(Id, Id),
    /// A pad in a size of a model.
    Pad {
        /// The model.
        model: Id,
        /// The size.
        size: Id,
        /// Where the pad sits.
        zone: Zone,
        /// Its thickness in hundredths of a millimetre; `None` for no pad.
        hundredths: Option<u32>,
    },
}

/// What is doubtful in the records of one journal, in the order of its lines.
#[must_use]
pub fn doubts(records: &[(usize, Record)], known: Known<'_>) -> Vec<Suspect> {
    let mut suspects = Vec::new();
    let mut customers: BTreeMap<u64, BTreeMap<u32, (usize, &Record)>> = BTreeMap::new();
    for (line, record) in records {
        let Record { customer, number, .. } = *record;
        match customers.entry(customer).or_default().entry(number) {
            Entry::Vacant(free) => _ = free.insert((*line, record)),
            Entry::Occupied(there) => {
                let first = there.get().0;
                suspects.push(Suspect { line: *line, doubt: Doubt::Twice { customer, number, first } });
            }
        }
    }
    for (customer, tries) in &customers {
        suspects.extend(gaps(*customer, tries));
        suspects.extend(days_backwards(tries));
        suspects.extend(disagreeing(tries, known.far_apart));
    }
    suspects.extend(unknown(records, known));
    // Doubts about one line keep their order.
    suspects.sort_by_key(|suspect| suspect.line);
    suspects
}

fn gaps(customer: u64, tries: &BTreeMap<u32, (usize, &Record)>) -> Vec<Suspect> {
    let mut next = 1;
    let mut found = Vec::new();
    for (number, (line, _)) in tries {
        if *number > next {
            found.push(Suspect { line: *line, doubt: Doubt::Gap { customer, from: next, to: number - 1 } });
        }
        next = number.saturating_add(1);
    }
    found
}

fn days_backwards<'a>(tries: &'a BTreeMap<u32, (usize, &Record)>) -> impl Iterator<Item = Suspect> + 'a {
    let runs_back = |((first, earlier), (line, later)): (&(usize, &Record), &(usize, &Record))| {
        let doubt = Doubt::Backwards { day: later.day, before: earlier.day, first: *first };
        (later.day < earlier.day).then_some(Suspect { line: *line, doubt })
    };
    tries.values().tuple_windows().filter_map(runs_back)
}

/// Each measure once, against the customer's first reading of it.
fn disagreeing(tries: &BTreeMap<u32, (usize, &Record)>, far_apart: f64) -> Vec<Suspect> {
    let mut found = Vec::new();
    for measure in Measure::ALL {
        let lines =
            tries.values().flat_map(|(line, record)| record.head.readings.iter().map(move |read| (*line, read)));
        let mut readings = lines.filter(|(_, read)| read.measure == measure);
        let Some((first, one)) = readings.next() else { continue };
        if let Some((line, other)) = readings.find(|(_, other)| are_apart(one, other, far_apart)) {
            let doubt = Doubt::Disagree { measure, one: one.value, other: other.value, first };
            found.push(Suspect { line, doubt });
        }
    }
    found
}

fn are_apart(one: &Read, other: &Read, far_apart: f64) -> bool {
    (one.value - other.value).abs() > far_apart * one.sd.hypot(other.sd)
}

/// What the profiles don't know, each once, where it comes up first.
fn unknown(records: &[(usize, Record)], known: Known<'_>) -> impl Iterator<Item = Suspect> {
    let mut places: BTreeMap<Stranger, (usize, usize)> = BTreeMap::new();
    for (line, record) in records {
        for stranger in strangers(record, known).into_iter().unique() {
            places.entry(stranger).and_modify(|(_, more)| *more += 1).or_insert((*line, 0));
        }
    }
    places.into_iter().map(|(stranger, (line, more))| Suspect { line, doubt: Doubt::Unknown { stranger, more } })
}

fn strangers(record: &Record, known: Known<'_>) -> Vec<Stranger> {
    let mut found = Vec::new();
    let population = &record.head.population;
    if !known.populations.contains(&population) {
        found.push(Stranger::Population(population.clone()));
    }
    for worn in &record.head.wears {
        found.extend(size_of(&worn.model, &worn.size, known).err());
    }
    match size_of(&record.model, &record.size, known) {
        Err(stranger) => found.push(stranger),
        Ok((shell, size)) => {
            let sets = record.rounds.iter().flat_map(|round| round.pads.iter());
            let odd = sets.filter(|(zone, mm)| !is_offered(shell, size, *zone, **mm));
            found.extend(odd.map(|(zone, mm)| Stranger::Pad {
                model: record.model.clone(),
                size: record.size.clone(),
                zone,
                hundredths: mm.map(hundredths),
            }));
        }
    }
    found
}

fn size_of<'a>(model: &Id, label: &Id, known: Known<'a>) -> Result<(&'a Shell, &'a Size), Stranger> {
    let found = known.models.iter().find(|known| known.id == *model);
    let found = found.ok_or_else(|| Stranger::Model(model.clone()))?;
    found.size(label).ok_or_else(|| Stranger::Size(model.clone(), label.clone()))
}

/// Whether the size comes with such a pad, or may get one.
fn is_offered(shell: &Shell, size: &Size, zone: Zone, mm: Option<f64>) -> bool {
    let standard: &ByZone<Option<f64>> = &size.standard;
    let offered = shell.pads.iter().filter(|pad| pad.zone == zone && pad.fits_size(&size.label));
    let mut thicknesses = offered.map(|pad| Some(pad.thickness)).chain([*standard.get(zone)]);
    thicknesses.any(|thickness| thickness.map(hundredths) == mm.map(hundredths))
}

/// A thickness of a pad, which is from 0 to 100 mm.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 10,000")]
fn hundredths(mm: f64) -> u32 {
    (mm * 100.0).round() as u32
}
