//! What every single change of the graph would save, found by trying them all.
//!
//! A change at a spot matters at the junctions of that spot and nowhere before them, so only what follows them is
//! followed anew: once for each helmet that some change leads to.

use super::follow::{Junction, Session, Standing, Unseen, best_of};
use super::rules::{Change, Lead, Patched, Rules, Spot};
use super::shelf::Shelf;
use std::collections::BTreeMap;

/// Minutes in all that each change saves, times the share of the customers: by spot, in the order of
/// [`Rules::changes`]; nothing for a spot where nobody comes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Savings(Vec<AtSpot>);

#[derive(Debug, Clone, PartialEq, Default)]
struct AtSpot {
    /// Share of all customers who come here, each counted once.
    reached: f64,
    saved: Vec<f64>,
}

/// A change with what it saves and how many customers come to its spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ranked {
    pub(super) change: Change,
    /// Minutes in all per customer.
    pub(super) saved: f64,
    /// Share of all customers.
    pub(super) reached: f64,
}

impl Savings {
    pub(super) fn none(shelf: &Shelf<'_>) -> Self {
        Self(vec![AtSpot::default(); Spot::all(shelf).count()])
    }

    /// What every single change saves in one group.
    pub(super) fn of(session: &Session<'_>, rules: &Rules) -> Self {
        let (_, junctions) = session.trace(Patched { rules, patch: None }, &mut Unseen);
        let mut savings = Self::none(session.shelf);
        for (at, junction) in junctions.iter().enumerate() {
            let is_below_itself = above(&junctions, at).any(|k| junctions[k].spot == junction.spot);
            if !is_below_itself {
                // Met again further down, the spot is changed there, too.
                let mut later = at + 1..junctions.len();
                let is_met_again =
                    later.any(|k| junctions[k].spot == junction.spot && above(&junctions, k).any(|own| own == at));
                savings.add(session, rules, junction, is_met_again);
            }
        }
        savings
    }

    /// What each change saves in all of several groups, the most first; times `scale`.
    pub(super) fn ranked<'s>(
        shelf: &Shelf<'_>,
        rules: &Rules,
        groups: impl Iterator<Item = &'s Self>,
        scale: f64,
    ) -> Vec<Ranked> {
        let mut sum = Self::none(shelf);
        groups.for_each(|group| sum.merge(group));
        let mut ranked = Vec::new();
        for (spot, AtSpot { reached, saved }) in Spot::all(shelf).zip(sum.0).filter(|(_, at)| !at.saved.is_empty()) {
            let changes = rules.changes(shelf, spot).into_iter().zip(saved);
            let scaled = changes.map(|(change, saved)| (change, saved * scale, reached * scale));
            ranked.extend(scaled.map(|(change, saved, reached)| Ranked { change, saved, reached }));
        }
        ranked.sort_by(|a, b| b.saved.total_cmp(&a.saved).then(a.change.cmp(&b.change)));
        ranked
    }

    /// Whether anybody comes to a spot.
    pub(super) fn reaches(&self, spot: Spot) -> bool {
        !self.0[spot.number()].saved.is_empty()
    }

    fn merge(&mut self, other: &Self) {
        for (own, other) in self.0.iter_mut().zip(&other.0) {
            own.reached += other.reached;
            own.saved.resize(own.saved.len().max(other.saved.len()), 0.0);
            own.saved.iter_mut().zip(&other.saved).for_each(|(own, other)| *own += other);
        }
    }

    fn add(&mut self, session: &Session<'_>, rules: &Rules, junction: &Junction, is_met_again: bool) {
        let options = Options::at(session, rules, junction);
        let mut known: BTreeMap<usize, f64> = BTreeMap::new();
        if let (Some((_, candidate)), false) = (junction.choice, is_met_again) {
            known.insert(candidate, junction.cost);
        }
        let changes = rules.changes(session.shelf, junction.spot);
        let own = &mut self.0[junction.spot.number()];
        own.reached += junction.standing.crowd.mass;
        own.saved.resize(changes.len(), 0.0);
        for (saved, change) in own.saved.iter_mut().zip(changes) {
            let leads = change.of(rules.at(junction.spot));
            let Some(candidate) = options.choose(&leads) else {
                *saved += junction.cost - session.go_without() * junction.standing.crowd.mass;
                continue;
            };
            let cost = known.get(&candidate).copied().unwrap_or_else(|| {
                let patched = Patched { rules, patch: Some((junction.spot, &leads)) };
                let (cost, is_patched) = session.cost(patched, &junction.standing, candidate);
                // Where the changed spot is met on the way, the cost is that of this change only.
                if !is_patched {
                    known.insert(candidate, cost);
                }
                cost
            });
            *saved += junction.cost - cost;
        }
    }
}

/// What each lead would have the customers of a junction try: worked out once for all changes.
pub(super) struct Options {
    /// By model: its best size, with what speaks for it.
    any_size: Vec<Option<Worth>>,
    /// The same for the leads that stand there.
    leads: Vec<(Lead, Option<Worth>)>,
}

/// What speaks for a candidate, and which it is.
pub(super) type Worth = ((f64, f64), usize);

impl Options {
    pub(super) fn at(session: &Session<'_>, rules: &Rules, junction: &Junction) -> Self {
        let free = best_sizes(session, &junction.standing);
        let lead = |lead: &Lead| {
            let untried = |size: &&usize| !junction.standing.tried.contains(size);
            let sizes = rules.sizes(session.shelf, *lead, junction.failed).iter().filter(untried);
            (*lead, best_of(sizes.map(|size| (session.worth(&junction.standing.chooser, *size), *size))))
        };
        Self { any_size: free, leads: rules.at(junction.spot).iter().map(lead).collect() }
    }

    fn choose(&self, leads: &[Lead]) -> Option<usize> {
        let known = |lead: &Lead| match self.leads.iter().find(|(known, _)| known == lead) {
            Some((_, worth)) => *worth,
            None => self.any_size[lead.to],
        };
        best_of(leads.iter().filter_map(known)).map(|(_, candidate)| candidate)
    }
}

/// By model: of its untried sizes the one that most speaks for.
pub(super) fn best_sizes(session: &Session<'_>, standing: &Standing) -> Vec<Option<Worth>> {
    let best = |model: usize| {
        let untried = session.shelf.sizes(model).iter().filter(|size| !standing.tried.contains(size));
        best_of(untried.map(|size| (session.worth(&standing.chooser, *size), *size)))
    };
    session.shelf.models().map(best).collect()
}

/// The junctions above one, the nearest first.
fn above(junctions: &[Junction], at: usize) -> impl Iterator<Item = usize> {
    std::iter::successors(junctions[at].before, |above| junctions[*above].before)
}
