//! Records put together by customer, in an order that is that of no file.

use super::KeptApart;
use crate::catalogue::Catalogue;
use crate::journal::{Record, to_line};
use crate::profile::LearningRules;
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeMap;

/// One customer: what was tried on one head.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Visitor<'a> {
    /// At least one, in the order in which they were tried.
    pub(super) records: Vec<&'a Record>,
    /// Tells this visitor from all others, whatever file the records stand in.
    name: String,
}

/// The customers of some journals, and what was left out.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Gathered<'a> {
    /// By their first day.
    pub(super) visitors: Vec<Visitor<'a>>,
    /// Tries of helmets that the profiles don't know, by model and size.
    pub(super) unknown: BTreeMap<(Id, Id), usize>,
    /// Customers who stand in the journals twice.
    pub(super) twice: usize,
}

impl Visitor<'_> {
    /// What is known of the head at the end.
    pub(super) fn last(&self) -> &Record {
        self.records[self.records.len() - 1]
    }

    /// The number of the visitor's own heads. From the name and not from the place, so that a customer more changes
    /// nobody else's.
    pub(super) fn scramble(&self) -> u32 {
        self.name.bytes().fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
    }
}

/// Puts records together. Customers of two journals are never the same one; one whose every try stands in two journals
/// word for word is counted once.
pub(super) fn gather<'a>(catalogue: &Catalogue, journals: &'a [Vec<Record>]) -> Gathered<'a> {
    let mut gathered = Gathered::default();
    let mut visitors = Vec::new();
    for journal in journals {
        let mut by_customer: BTreeMap<u64, Vec<&Record>> = BTreeMap::new();
        for record in journal {
            if is_known(catalogue, record) {
                by_customer.entry(record.customer).or_default().push(record);
            } else {
                *gathered.unknown.entry((record.model.clone(), record.size.clone())).or_default() += 1;
            }
        }
        visitors.extend(by_customer.into_values().map(visitor));
    }
    let day = |visitor: &Visitor<'_>| visitor.records[0].day;
    visitors.sort_by(|a, b| day(a).cmp(&day(b)).then_with(|| a.name.cmp(&b.name)));
    let all = visitors.len();
    visitors.dedup_by(|a, b| a.name == b.name);
    gathered.twice = all - visitors.len();
    gathered.visitors = visitors;
    gathered
}

fn is_known(catalogue: &Catalogue, record: &Record) -> bool {
    let model = catalogue.model(record.model.as_str());
    model.is_some_and(|model| model.sizes().any(|(_, size)| size.label == record.size))
}

fn visitor(records: Vec<&Record>) -> Visitor<'_> {
    let lines = records.into_iter().map(|record| (record.number, to_line(record), record));
    let lines = lines.sorted_by(|a, b| a.0.cmp(&b.0).then_with(|| a.1.cmp(&b.1))).collect_vec();
    let lines = lines.into_iter().dedup_by(|a, b| a.1 == b.1).collect_vec();
    let name = lines.iter().map(|(_, line, _)| line.as_str()).join("\n");
    Visitor { records: lines.into_iter().map(|(_, _, record)| record).collect(), name }
}

/// Which visitors are kept apart: all tries of one, or none.
pub(super) fn kept_apart(visitors: usize, how: KeptApart, rules: &LearningRules, seed: u64) -> Vec<bool> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "2 to 100")]
    let every = rules.held_out.round() as usize;
    let first = usize::try_from(seed % 100).unwrap_or(0);
    match how {
        KeptApart::Some => (0..visitors).map(|at| (at + first) % every == 0).collect(),
        KeptApart::Latest => (0..visitors).map(|at| at >= visitors - visitors / every).collect(),
    }
}
