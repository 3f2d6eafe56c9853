//! What customers said of a maker's helmets, counted: no customer can be told from it.

use crate::journal::{Record, to_line};
use crate::profile::{Model, Nature, Reason, Size};
use crate::score::wilson;
use crate::supply::Kind;
use itertools::Itertools;
use std::collections::BTreeMap;

/// What journals hold of a maker's helmets.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Complaints<'a> {
    /// Tries of helmets of this maker.
    pub tries: usize,
    /// The least tries of a size from which its complaints are told.
    pub least: usize,
    /// Sizes that were tried, but less often.
    pub seldom: usize,
    /// Stops first, whatever the tries; then the most common ones.
    pub told: Vec<Complaint<'a>>,
}

/// A reason that was heard in a size.
#[derive(Debug, Clone, PartialEq)]
pub struct Complaint<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: &'a Size,
    /// The reason.
    pub reason: Reason,
    /// Tries in which it was heard.
    pub heard: usize,
    /// Tries of this size.
    pub tries: usize,
    /// The interval of 95 % for its share.
    pub interval: (f64, f64),
    /// The pads in which it was heard first, as far as they aren't standard, with how often: the most common set first.
    pub with: Vec<(Vec<Kind>, usize)>,
}

/// Counts what journals hold. A try that stands in two journals word for word counts once.
#[must_use]
pub fn complaints<'a>(models: &[&'a Model], journals: &[Vec<Record>], least: usize) -> Complaints<'a> {
    let records = journals.iter().flatten().unique_by(|record| to_line(record)).collect_vec();
    let mut complaints = Complaints { least, ..Complaints::default() };
    for model in models {
        for (_, size) in model.sizes() {
            let is_it = |record: &&&Record| record.model == model.id && record.size == size.label;
            let tries = records.iter().filter(is_it).copied().collect_vec();
            complaints.tries += tries.len();
            complaints.seldom += usize::from(!tries.is_empty() && tries.len() < least);
            complaints.told.extend(of_size(model, size, &tries, least));
        }
    }
    complaints.told.sort_by(|a, b| {
        let stop = |complaint: &Complaint<'_>| complaint.reason.nature() == Nature::Stop;
        stop(b).cmp(&stop(a)).then(b.heard.cmp(&a.heard))
    });
    complaints
}

fn of_size<'a>(model: &'a Model, size: &'a Size, tries: &[&Record], least: usize) -> Vec<Complaint<'a>> {
    let mut heard: BTreeMap<Reason, Vec<Vec<Kind>>> = BTreeMap::new();
    for record in tries {
        let rounds = record.rounds.iter().filter_map(|round| round.reason.map(|reason| (reason, round)));
        for (reason, round) in rounds.unique_by(|(reason, _)| *reason) {
            let pads = round.pads.iter().filter_map(|(zone, mm)| mm.map(|mm| (zone, mm)));
            let others = pads.filter(|(zone, mm)| size.standard.get(*zone).is_none_or(|own| (own - mm).abs() > 1e-9));
            heard.entry(reason).or_default().push(others.collect());
        }
    }
    let is_told = |reason: Reason| tries.len() >= least || reason.nature() == Nature::Stop;
    let told = heard.into_iter().filter(|(reason, _)| is_told(*reason));
    told.map(|(reason, pads)| Complaint {
        model,
        size,
        reason,
        heard: pads.len(),
        tries: tries.len(),
        interval: wilson(pads.len(), tries.len()),
        with: counted(pads),
    })
    .collect()
}

/// Equal sets with their number, the most common one first, then the one with fewer and thinner pads.
fn counted(sets: Vec<Vec<Kind>>) -> Vec<(Vec<Kind>, usize)> {
    let order = |a: &Vec<Kind>, b: &Vec<Kind>| {
        let key = |set: &Vec<Kind>| set.iter().map(|(zone, mm)| (*zone, mm.to_bits())).collect_vec();
        a.len().cmp(&b.len()).then_with(|| key(a).cmp(&key(b)))
    };
    let sorted = sets.into_iter().sorted_by(order).dedup_with_count().map(|(count, set)| (set, count));
    // A stable order keeps the one above among equally common sets.
    sorted.sorted_by_key(|(_, count)| std::cmp::Reverse(*count)).collect()
}
