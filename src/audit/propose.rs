//! A graph from the computation: for every model and every way in which it fails, what to try next.

use super::auditor::{Auditor, Held};
use super::customers::real;
use super::follow::fitting;
use super::rules::{Rules, Spot};
use super::shelf::Shelf;
use super::weigh::{Ranked, best_sizes};
use super::{Question, Verified};
use crate::catalogue::Catalogue;
use crate::profile::Nature;
use crate::unit::Progress;
use itertools::Itertools;
use std::collections::BTreeMap;

/// How often the draft is changed at every spot that is better otherwise. A third time saves nothing to speak of.
const ROUNDS: usize = 2;

/// A change that saves fewer minutes per customer than this isn't worth a departure from the draft.
const LEAST: f64 = 0.002;

/// Nor is one for fewer customers than these: the draft stands on all who might come, a change only on those who do.
const FEW: f64 = 100.0;

/// With fewer customers than these at a place nothing is said about it at all.
const TOO_FEW: f64 = 30.0;

/// A proposed graph. Models are known by their places in the catalogue, rules by theirs in the list of rules.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// The geometric rules, by model and reason.
    pub rules: Vec<ProposedRule>,
    /// What is heard from too few customers for a rule.
    pub rare: Vec<Spot>,
    /// Where no model is worth its minutes.
    pub hopeless: Vec<Spot>,
    /// The shop's own rules for what geometry doesn't tell.
    pub kept: Vec<usize>,
    /// The shop's graph and the proposed one, on customers who had no part in it.
    pub verified: Verified,
}

/// One proposed rule. Its figures are about customers for whom the model goes on first.
#[derive(Debug, Clone, PartialEq)]
pub struct ProposedRule {
    /// Where.
    pub spot: Spot,
    /// What to try then.
    pub to: usize,
    /// Share of the customers who say so when the model goes on first in the size that suits them best.
    pub heard: f64,
    /// Of these, the share that the target fits in the size that suits them best.
    pub fits: f64,
    /// The other model that fits most of them, and their share.
    pub other: Option<(usize, f64)>,
    /// Whether the shop has this rule, too.
    pub is_shops: bool,
}

/// Proposes a graph. A first draft takes for each spot the model that costs least as the next and last try, for all
/// customers who might come there; then each spot gets the change that an audit finds best for it, if it saves something.
#[must_use]
pub fn propose(catalogue: &Catalogue, question: &Question<'_>, progress: &mut dyn FnMut(Progress)) -> Proposal {
    let shelf = Shelf::of(catalogue, question.targets);
    let shops = Rules::of(&shelf, catalogue.edges());
    let mut auditor = Auditor::new(&shelf, question, progress);
    let held = auditor.hold();
    let starts = Start::all(&auditor, &held);
    let customers = real(held.customers());
    let rare = catalogue.shop.auditing.rare_reason.max(TOO_FEW / customers);
    let is_rare = |start: &Start| start.heard < rare * start.tried;
    let draft = starts.iter().filter(|(_, start)| !is_rare(start));
    let draft = Rules::leading(&shelf, draft.filter_map(|(spot, start)| start.best().map(|to| (*spot, to))));
    let is_wanted = |change: &Ranked| change.saved > LEAST && change.reached * customers >= FEW;
    let rules = auditor.refine(&draft, &held, ROUNDS, is_wanted);
    let verified = auditor.verify(&shops, &rules);
    let led = Spot::all(&shelf).flat_map(|spot| rules.at(spot).iter().map(move |lead| (spot, lead.to)));
    let rule = |(spot, to): (Spot, usize)| {
        let is_shops = shops.at(spot).iter().any(|lead| lead.to == to);
        starts[&spot].rule(spot, to, is_shops)
    };
    let is_silent = |spot: &Spot| rules.at(*spot).is_empty();
    let (rare, hopeless) = Spot::all(&shelf).filter(is_silent).partition(|spot| is_rare(&starts[spot]));
    let geometric = |rule: &usize| catalogue.edges()[*rule].reason.nature() == Nature::Geometric;
    Proposal {
        rules: led.map(rule).collect(),
        rare,
        hopeless,
        kept: (0..catalogue.edges().len()).filter(|rule| !geometric(rule)).collect(),
        verified,
    }
}

/// What is heard at a spot when its model goes on first, and what trying each model next comes to.
#[derive(Debug, Clone, Default)]
struct Start {
    heard: f64,
    tried: f64,
    /// Where a rule may lead.
    targets: Vec<usize>,
    /// By model: minutes in all of one more try.
    cost: Vec<f64>,
    /// By model: share of all customers whom it fits.
    fits: Vec<f64>,
    go_without: f64,
}

impl Start {
    /// By spot.
    fn all(auditor: &Auditor<'_, '_>, held: &Held) -> BTreeMap<Spot, Self> {
        let shelf = auditor.shelf;
        let none = Self {
            cost: vec![0.0; shelf.models().len()],
            fits: vec![0.0; shelf.models().len()],
            go_without: shelf.catalogue.shop.minutes.go_without,
            ..Self::default()
        };
        let mut starts: BTreeMap<Spot, Self> = Spot::all(shelf).map(|spot| (spot, none.clone())).collect();
        for (spot, start) in &mut starts {
            start.targets = shelf.targets(spot.from).to_vec();
        }
        for (written, group) in held.groups() {
            let session = auditor.known[written].session(shelf, group);
            let whole = session.whole();
            for (_, first) in best_sizes(&session, &whole).into_iter().flatten() {
                for (spot, standing) in session.after_first(first) {
                    let start = starts.entry(spot).or_default();
                    start.heard += standing.crowd.mass;
                    start.tried += whole.crowd.mass;
                    let best = best_sizes(&session, &standing);
                    for model in shelf.targets(spot.from).iter().copied() {
                        let Some((_, size)) = best[model] else { continue };
                        start.cost[model] += session.cost_of_last(&standing.crowd, size);
                        start.fits[model] += fitting(&standing.crowd, &group.crowd.outcome[size]);
                    }
                }
            }
        }
        starts
    }

    /// The model that costs least as one more try; `None` where leaving costs no more.
    fn best(&self) -> Option<usize> {
        let best = self.targets.iter().copied().min_by(|a, b| self.cost[*a].total_cmp(&self.cost[*b]))?;
        (self.cost[best] < self.heard * self.go_without).then_some(best)
    }

    fn rule(&self, spot: Spot, to: usize, is_shops: bool) -> ProposedRule {
        let share = |model: usize| self.fits[model] / self.heard;
        let others = self.targets.iter().copied().filter(|model| *model != to);
        let other = others.max_by(|a, b| share(*a).total_cmp(&share(*b)).then(b.cmp(a)));
        ProposedRule {
            spot,
            to,
            heard: self.heard / self.tried,
            fits: share(to),
            other: other.map(|model| (model, share(model))).filter(|(_, fits)| *fits > 0.0),
            is_shops,
        }
    }
}

impl Proposal {
    /// How many of the rules the shop has, too.
    #[must_use]
    pub fn agreed(&self) -> usize {
        self.rules.iter().filter(|rule| rule.is_shops).count()
    }

    /// For how many models there are rules.
    #[must_use]
    pub fn models(&self) -> usize {
        self.rules.iter().map(|rule| rule.spot.from).unique().count()
    }
}
