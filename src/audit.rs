//! The shop's graph weighed against the computation: what customers take who follow it, which of its rules mislead, and
//! the one change that helps most.
//!
//! Customers are heads of a population, each with readings of its own. Those with the same readings written down are
//! one group, and get the very plan that `plan` makes for such readings. Everything is counted on the customers
//! themselves, whose heads chose nothing; wrong reports are counted by their probability, not drawn.

mod auditor;
mod customers;
mod facts;
mod follow;
mod known;
mod propose;
mod rules;
mod shelf;
mod tally;
#[cfg(test)]
mod tests;
mod weigh;

pub use facts::{RuleFacts, Silence, Usual};
pub use propose::{Proposal, ProposedRule, propose};
pub use rules::{Change, Lead, Spot};
pub use tally::Takes;

use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::head::{Measure, Population};
use crate::profile::Reason;
use crate::unit::Progress;
use auditor::Auditor;
use itertools::Itertools;
use rules::Rules;
use shelf::Shelf;

/// What an audit is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question<'a> {
    /// Whose heads come in.
    pub population: &'a Population,
    /// What is measured of each of them, with the error of a reading, mm.
    pub measured: Vec<(Measure, f64)>,
    /// Steps in which readings are written down, mm.
    pub reading_step: f64,
    /// How many customers; as many again verify what is proposed.
    pub heads: usize,
    /// Most helmets that a customer tries.
    pub tries: usize,
    /// Where changes and proposals may lead.
    pub targets: Targets,
    /// Seed of every draw.
    pub seed: u64,
}

/// Where a new rule may lead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Targets {
    /// To any model.
    AnyType,
    /// Only to models of the type that failed.
    SameType,
}

/// What an audit found. Models are known by their places in the catalogue, rules by theirs in the list of rules.
#[derive(Debug, Clone, PartialEq)]
pub struct Audit<'a> {
    /// Every model in every size.
    pub candidates: Vec<Candidate<'a>>,
    /// Customers.
    pub heads: usize,
    /// How many different readings were written down.
    pub readings: usize,
    /// Following the shop's graph from the first of the ranking on.
    pub graph: Takes,
    /// Following the computed plan.
    pub computed: Takes,
    /// Following the best order that doesn't listen.
    pub fixed_order: Takes,
    /// The rules that were followed.
    pub rules: Vec<RuleFacts>,
    /// Geometric rules that nobody followed.
    pub unused: Vec<usize>,
    /// Rules that geometry can't weigh.
    pub unweighed: usize,
    /// Where customers are left without a rule, most of them first.
    pub silences: Vec<Silence>,
    /// On how many customers changes were weighed.
    pub weighed_on: usize,
    /// Every single change and the minutes in all that it saves per customer, the best first.
    pub changes: Vec<(Change, f64)>,
    /// The rules that would better not be there as they are, by more than the error: each with its best change.
    pub misleading: Vec<Weighed>,
    /// The best changes that go together, each the best after those before it, with what it adds.
    pub together: Vec<Weighed>,
    /// All of these made, on customers who weighed nothing.
    pub verified: Verified,
}

/// Two graphs on the same customers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verified {
    /// The graph as it stands.
    pub before: Takes,
    /// The changed one.
    pub after: Takes,
    /// What the change saves, minutes in all per customer.
    pub saves: Quote,
}

/// A change with what it saves, minutes in all per customer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// Which.
    pub change: Change,
    /// On the customers that it was weighed on.
    pub saves: Quote,
}

/// Audits the shop's graph. The same question gives the same answer on every machine. `progress` is told now and then.
#[must_use]
pub fn audit<'a>(catalogue: &'a Catalogue, question: &Question<'a>, progress: &mut dyn FnMut(Progress)) -> Audit<'a> {
    let shelf = Shelf::of(catalogue, question.targets);
    let rules = Rules::of(&shelf, catalogue.edges());
    let mut auditor = Auditor::new(&shelf, question, progress);
    let seen = auditor.watch(&rules);
    let improved = auditor.improve(&rules, &seen.held);
    let verified = auditor.verify(&rules, &improved.rules);
    let [graph, computed, fixed_order] = seen.takes;
    let followed = seen.ledger.rules(&shelf);
    let is_geometric = |rule: &usize| Reason::geometric().contains(&catalogue.edges()[*rule].reason);
    let geometric = (0..catalogue.edges().len()).filter(is_geometric).collect_vec();
    let is_unused = |rule: &usize| followed.iter().all(|facts| facts.rule != *rule);
    Audit {
        heads: question.heads,
        readings: seen.readings,
        graph,
        computed,
        fixed_order,
        unused: geometric.iter().copied().filter(is_unused).collect(),
        unweighed: catalogue.edges().len() - geometric.len(),
        silences: seen.ledger.silences(),
        weighed_on: seen.held.customers(),
        rules: followed,
        changes: improved.changes,
        misleading: improved.misleading,
        together: improved.together,
        verified,
        candidates: shelf.candidates.clone(),
    }
}
