//! An audit under way: customers come in, rules are followed, changes are weighed and verified.

use super::customers::{Batches, Group, Written, draw, real};
use super::facts::Ledger;
use super::known::Known;
use super::rules::{Patched, Rules, Spot};
use super::shelf::Shelf;
use super::tally::{Counting, Takes, Tally, walk};
use super::weigh::{Ranked, Savings};
use super::{Change, Question, Verified, Weighed};
use crate::fit::Quote;
use crate::head::PARTICLES;
use crate::plan::Belief;
use crate::unit::Progress;
use itertools::Itertools;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// Batches whose customers are held at a time, at most. Changes are weighed on the first of them, so on 131,072 heads:
/// more would only make the totals more exact.
const HELD: usize = 32;

/// Customers times helmets that are held at a time, so that a large range takes no more memory than a small one.
const HELD_TRIES: usize = 1 << 24;

/// Changes in the list of the best ones that go together.
const TOGETHER: usize = 5;

/// A round of weighing takes about as long as so many batches.
const ROUND: usize = 12;

/// Rules that mislead are weighed one by one, the worst so many.
const MISLEADING: usize = 12;

/// Scramble numbers of the customers, and of those on whom changes are verified.
const CUSTOMERS: u32 = 0x0001_0000;
const VERIFIERS: u32 = 0x0100_0000;

pub(super) struct Auditor<'c, 'a> {
    pub(super) shelf: &'c Shelf<'a>,
    pub(super) question: &'c Question<'a>,
    pub(super) known: BTreeMap<Written, Known>,
    tell: &'c mut dyn FnMut(Progress),
    at: Progress,
}

/// What the customers of an audit did.
pub(super) struct Seen {
    /// Following the graph, the plan, the fixed order.
    pub(super) takes: [Takes; 3],
    pub(super) ledger: Ledger,
    /// How many different readings were written down.
    pub(super) readings: usize,
    pub(super) held: Held,
}

/// Customers who stay, so that changes can be weighed on them: those of the first batches.
pub(super) struct Held {
    batches: Batches,
    groups: BTreeMap<Written, Group>,
}

/// A graph in the making, and what every single change of it would save in each group.
struct Weighing {
    rules: Rules,
    savings: BTreeMap<Written, Savings>,
    /// Where the last change was made: only groups that come there have to be weighed anew.
    last: Option<Spot>,
}

/// A graph made better.
pub(super) struct Improved {
    /// Every single change of the graph as it stood, the best first.
    pub(super) changes: Vec<(Change, f64)>,
    /// The best change of each rule that would better not be there as it is.
    pub(super) misleading: Vec<Weighed>,
    pub(super) together: Vec<Weighed>,
    pub(super) rules: Rules,
}

impl<'c, 'a> Auditor<'c, 'a> {
    pub(super) fn new(shelf: &'c Shelf<'a>, question: &'c Question<'a>, tell: &'c mut dyn FnMut(Progress)) -> Self {
        let batches = Batches::of(question.heads, CUSTOMERS).numbers().len();
        // Customers and verifiers batch by batch, and the rounds of weighing.
        let of = 2 * batches + ROUND * TOGETHER;
        Self { shelf, question, known: BTreeMap::new(), tell, at: Progress { done: 0, of } }
    }

    /// Takes all customers through the graph, the plan and the fixed order.
    pub(super) fn watch(&mut self, rules: &Rules) -> Seen {
        let batches = Batches::of(self.question.heads, CUSTOMERS);
        let mut tallies = [0; 3].map(|_| Tally::of(batches.numbers().len()));
        let mut ledger = Ledger::default();
        let mut held = None;
        let mut readings = BTreeSet::new();
        for numbers in self.waves(&batches) {
            let groups = self.come_in(&batches, numbers.clone());
            for (written, group) in &groups {
                readings.insert(*written);
                let known = &self.known[written];
                let session = known.session(self.shelf, group);
                let [graph, plan, order] = &mut tallies;
                let patched = Patched { rules, patch: None };
                let (_, junctions) = session.trace(patched, &mut Counting { tally: graph, group });
                ledger.note(&session, &junctions, &batches);
                let whole = Belief::whole(&group.crowd);
                walk(known.plan.as_ref(), &whole, group, &known.place, &mut Counting { tally: plan, group });
                walk(known.fixed_order.as_ref(), &whole, group, &known.place, &mut Counting { tally: order, group });
            }
            held.get_or_insert(groups);
        }
        let go_without = self.go_without();
        let takes = tallies.map(|tally| tally.takes(&batches, go_without));
        let held = Held { batches, groups: held.unwrap_or_default() };
        Seen { takes, ledger, readings: readings.len(), held }
    }

    /// Only the customers on whom changes are weighed.
    pub(super) fn hold(&mut self) -> Held {
        let batches = Batches::of(self.question.heads, CUSTOMERS);
        let first = self.waves(&batches).next().unwrap_or_default();
        Held { groups: self.come_in(&batches, first), batches }
    }

    /// Weighs every single change, makes the best one, and again, as long as something is saved.
    pub(super) fn improve(&mut self, rules: &Rules, held: &Held) -> Improved {
        let mut weighing = Weighing::of(rules);
        let before = self.tally(held, rules);
        let changes = self.weigh(&mut weighing, held);
        let misleading = self.misleading(rules, held, &before, &changes);
        let mut together = Vec::new();
        let (mut before, mut best) = (before, worthwhile(&changes));
        while let Some(change) = best {
            weighing.make(change);
            let after = self.tally(held, &weighing.rules);
            together.push(Weighed { change, saves: before.saved_by(&after, &held.batches, self.go_without()) });
            if together.len() == TOGETHER {
                break;
            }
            before = after;
            best = worthwhile(&self.weigh(&mut weighing, held));
        }
        let changes = changes.into_iter().map(|ranked| (ranked.change, ranked.saved)).collect();
        Improved { changes, misleading, together, rules: weighing.rules }
    }

    /// Makes at each spot the change that is best there and wanted, all at once; `rounds` times. No spot gets a second
    /// lead: who reads the rules should find one answer. Changes that meet on one path may hinder each other, so the
    /// result is no better than it is found to be.
    pub(super) fn refine(
        &mut self,
        rules: &Rules,
        held: &Held,
        rounds: usize,
        is_wanted: impl Fn(&Ranked) -> bool,
    ) -> Rules {
        let mut refined = rules.clone();
        for _ in 0..rounds {
            let changes = self.weigh(&mut Weighing::of(&refined), held);
            let is_single = |change: Change| change.dropped.is_some() || refined.at(change.spot).is_empty();
            let wanted = changes.into_iter().filter(|ranked| is_single(ranked.change) && is_wanted(ranked));
            let best = wanted.unique_by(|ranked| ranked.change.spot).collect_vec();
            refined = best.iter().fold(refined, |refined, best| refined.changed(best.change));
        }
        refined
    }

    /// Every single change with what it saves, the best first.
    fn weigh(&mut self, weighing: &mut Weighing, held: &Held) -> Vec<Ranked> {
        for (written, group) in &held.groups {
            let is_settled = weighing.savings.get(written).is_some_and(|known| match weighing.last {
                Some(spot) => !known.reaches(spot),
                None => true,
            });
            if !is_settled {
                let session = self.known[written].session(self.shelf, group);
                weighing.savings.insert(*written, Savings::of(&session, &weighing.rules));
            }
        }
        self.went_on(ROUND);
        let scale = real(self.question.heads) / real(held.customers());
        Savings::ranked(self.shelf, &weighing.rules, weighing.savings.values(), scale)
    }

    /// Compares two graphs on customers of their own.
    pub(super) fn verify(&mut self, before: &Rules, after: &Rules) -> Verified {
        let batches = Batches::of(self.question.heads, VERIFIERS);
        let [mut old, mut new] = [0; 2].map(|_| Tally::of(batches.numbers().len()));
        for numbers in self.waves(&batches) {
            for (written, group) in &self.come_in(&batches, numbers) {
                let session = self.known[written].session(self.shelf, group);
                for (rules, tally) in [(before, &mut old), (after, &mut new)] {
                    session.trace(Patched { rules, patch: None }, &mut Counting { tally, group });
                }
            }
        }
        let go_without = self.go_without();
        let saves: Quote = old.saved_by(&new, &batches, go_without);
        Verified { before: old.takes(&batches, go_without), after: new.takes(&batches, go_without), saves }
    }

    /// Rules that cost, by more than the error: each with the best change that takes it away or leads it elsewhere.
    fn misleading(&self, rules: &Rules, held: &Held, as_it_stands: &Tally, ranked: &[Ranked]) -> Vec<Weighed> {
        let costing = ranked.iter().filter(|ranked| ranked.change.dropped.is_some() && ranked.saved > 0.0);
        let each = costing.map(|ranked| ranked.change).unique_by(|change| change.dropped).take(MISLEADING);
        let weighed = each.map(|change| {
            let changed = self.tally(held, &rules.changed(change));
            Weighed { change, saves: as_it_stands.saved_by(&changed, &held.batches, self.go_without()) }
        });
        weighed.filter(|weighed| weighed.saves.value > weighed.saves.error).collect()
    }

    /// What the customers of the weighing take with these rules.
    fn tally(&self, held: &Held, rules: &Rules) -> Tally {
        let batches = self.waves(&held.batches).next().unwrap_or_default();
        let mut tally = Tally::of(batches.len());
        for (written, group) in &held.groups {
            let session = self.known[written].session(self.shelf, group);
            session.trace(Patched { rules, patch: None }, &mut Counting { tally: &mut tally, group });
        }
        tally
    }

    /// Customers of some batches, and what a fitter knows of each group.
    fn come_in(&mut self, batches: &Batches, numbers: Range<usize>) -> BTreeMap<Written, Group> {
        let count = numbers.len();
        let groups = draw(self.shelf, self.question, batches, numbers);
        for (written, group) in &groups {
            let make = || Known::of(self.shelf, self.question, &group.readings, groups.len());
            self.known.entry(*written).or_insert_with(make);
        }
        self.went_on(count);
        groups
    }

    /// Batches that are held together.
    fn waves(&self, batches: &Batches) -> impl Iterator<Item = Range<usize>> + use<> {
        let count = batches.numbers().len();
        let held = HELD.min(HELD_TRIES / (PARTICLES * self.shelf.candidates.len().max(1))).max(1);
        (0..count).step_by(held).map(move |from| from..count.min(from + held))
    }

    fn go_without(&self) -> f64 {
        self.shelf.catalogue.shop.minutes.go_without
    }

    fn went_on(&mut self, steps: usize) {
        self.at.done = self.at.of.min(self.at.done + steps);
        (self.tell)(self.at);
    }
}

impl Weighing {
    fn of(rules: &Rules) -> Self {
        Self { rules: rules.clone(), savings: BTreeMap::new(), last: None }
    }

    fn make(&mut self, change: Change) {
        self.rules = self.rules.changed(change);
        self.last = Some(change.spot);
    }
}

impl Held {
    /// By what is written down of them.
    pub(super) fn groups(&self) -> impl Iterator<Item = (&Written, &Group)> {
        self.groups.iter()
    }

    /// How many there are.
    pub(super) fn customers(&self) -> usize {
        self.groups.values().map(|group| group.batch.len()).sum()
    }
}

/// The best of ranked changes, if it saves anything.
fn worthwhile(ranked: &[Ranked]) -> Option<Change> {
    ranked.first().filter(|best| best.saved > 0.0).map(|best| best.change)
}
