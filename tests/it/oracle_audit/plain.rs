//! The plain alternative to an audit: customers who come in one by one. Each goes from helmet to helmet, every report
//! that may be heard is followed with its probability, and nothing is shared between customers but what a fitter knows.

use itertools::Itertools;
use lidladder::catalogue::Catalogue;
use lidladder::fallback::allows_size;
use lidladder::fit::{Candidate, Customer, EffectiveHeads, FIT, HeadSet, Outcomes, evaluate};
use lidladder::head::{Measure, PARTICLES, Particles, Posterior, Reading, Stream};
use lidladder::plan::{JudgedStep, Lead, Query, plan};
use lidladder::profile::Reason;
use std::collections::BTreeMap;

pub(crate) const TAPE_SD: f64 = 3.0;
pub(crate) const STEP: f64 = 5.0;
pub(crate) const TRIES: usize = 4;

/// The scramble of the first of eight batches of customers.
const FIRST_SCRAMBLE: u32 = 0x0001_0000;

/// What customers did in all.
pub(crate) struct Plain {
    pub(crate) graph: Sums,
    pub(crate) plan: Sums,
    /// By rule: how many customers go this way.
    pub(crate) rules_used: BTreeMap<usize, f64>,
    /// How many different tape readings there are.
    pub(crate) readings: usize,
}

/// Sums over customers: tries, minutes, and who leaves without a helmet.
#[derive(Debug, Default, Clone, Copy)]
pub(crate) struct Sums {
    pub(crate) tries: f64,
    pub(crate) minutes: f64,
    pub(crate) no_fit: f64,
}

/// What a fitter knows of customers with this tape reading.
struct Known<'a> {
    tape: f64,
    /// The heads that say which size a target is handed out in.
    heads: Outcomes,
    /// What the ranking begins with; `None` where it lists nothing.
    first: Option<usize>,
    plan: Option<JudgedStep>,
    /// The candidates of the plan.
    listed: Vec<Candidate<'a>>,
}

/// One customer in every helmet.
struct OneHead {
    reason: Vec<u8>,
    minutes: Vec<f64>,
}

struct Counter<'a> {
    catalogue: &'a Catalogue,
    everything: &'a [Candidate<'a>],
    rules_used: BTreeMap<usize, f64>,
    graph: Sums,
    plan: Sums,
}

/// Adults of whom the tape is known, an eighth of them in each batch.
pub(crate) fn one_by_one(catalogue: &Catalogue, customers: usize) -> Plain {
    let everything = Candidate::of_models(catalogue.models(), catalogue);
    let mut counter = Counter {
        catalogue,
        everything: &everything,
        rules_used: BTreeMap::new(),
        graph: Sums::default(),
        plan: Sums::default(),
    };
    let mut known: BTreeMap<i64, Known<'_>> = BTreeMap::new();
    for scramble in (FIRST_SCRAMBLE..).take(8) {
        for (tape, head) in batch(catalogue, &everything, customers / 8, scramble) {
            let known = known.entry(tape).or_insert_with(|| know(catalogue, tape as f64 * STEP, &everything));
            counter.follow(known, &head);
            let plan = known.plan.as_ref();
            counter.walk(known, plan, &head, 1.0);
        }
    }
    let Counter { graph, plan, rules_used, .. } = counter;
    Plain { graph, plan, rules_used, readings: known.len() }
}

/// The customers of a batch: what the tape says, in steps, and what each helmet does on the head.
fn batch(catalogue: &Catalogue, everything: &[Candidate<'_>], customers: usize, scramble: u32) -> Vec<(i64, OneHead)> {
    let population = catalogue.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), customers, 1, scramble);
    let room = EffectiveHeads::of(&heads, catalogue.shop.fit.outline);
    let candidates = everything.iter().collect_vec();
    let tried = evaluate(&candidates, &room, &catalogue.shop.fit, &catalogue.shop.minutes, (1, scramble));
    let noise = Stream::new(1, scramble, "written readings").stratified_normals(0);
    let sd = (TAPE_SD * TAPE_SD - STEP * STEP / 12.0).sqrt();
    let tape = heads.circumference.iter().zip(noise).map(|(mm, noise)| ((mm + sd * noise) / STEP).round() as i64);
    let head = |at: usize| OneHead {
        reason: tried.reason.iter().map(|reason| reason[at]).collect(),
        minutes: tried.minutes.iter().map(|minutes| minutes[at]).collect(),
    };
    tape.collect_vec().into_iter().enumerate().map(|(at, tape)| (tape, head(at))).collect()
}

fn know<'a>(catalogue: &'a Catalogue, tape: f64, everything: &'a [Candidate<'a>]) -> Known<'a> {
    let population = catalogue.population("adults").expect("part of the demo range");
    let readings = vec![Reading { measure: Measure::Circumference, value: tape, sd: TAPE_SD }];
    let head = Posterior::new(population, &readings, None);
    let customer = Customer { head, readings, population: population.id.clone(), worn: Vec::new(), seed: 1 };
    let candidates = everything.iter().collect_vec();
    let ranking = HeadSet::draw(catalogue, &customer, PARTICLES, 0).try_all(catalogue, &customer, &candidates);
    let fits = ranking.reason.iter().map(|reasons| reasons.iter().filter(|reason| **reason == FIT).count());
    let first = fits.enumerate().max_by(|a, b| a.1.cmp(&b.1).then(b.0.cmp(&a.0))).map_or(0, |(at, _)| at);
    let heads = HeadSet::draw(catalogue, &customer, PARTICLES / 4, 0).try_all(catalogue, &customer, &candidates);
    let models = catalogue.models().iter().collect();
    let lead = Lead::ComputedOnly;
    let made = plan(catalogue, &Query { customer, models, absent: Vec::new(), tries: TRIES, minutes: None, lead });
    let first = Some(first).filter(|_| !made.ranking.is_empty());
    Known { tape, heads, first, plan: made.first, listed: made.candidates.clone() }
}

/// Probability that a report is heard where the truth is another reason or the same.
fn heard(catalogue: &Catalogue, report: u8, truth: u8) -> f64 {
    let misreport = catalogue.shop.misreport;
    if report == truth { 1.0 - misreport } else { misreport / (Reason::GEOMETRIC - 1) as f64 }
}

fn reports() -> impl Iterator<Item = u8> {
    1..=u8::try_from(Reason::GEOMETRIC).expect("ten")
}

impl Counter<'_> {
    fn follow(&mut self, known: &Known<'_>, head: &OneHead) {
        let heads = vec![1.0 / known.heads.heads() as f64; known.heads.heads()];
        match known.first {
            Some(first) => self.try_on(known, head, first, (1.0, &heads), &[]),
            None => self.graph.no_fit += 1.0,
        }
    }

    /// Tries a helmet on one head that comes here with some probability; `heads` are the weights of what a fitter knows.
    fn try_on(&mut self, known: &Known<'_>, head: &OneHead, helmet: usize, here: (f64, &[f64]), before: &[usize]) {
        let (probability, heads) = here;
        self.graph.tries += probability;
        self.graph.minutes += probability * head.minutes[helmet];
        if head.reason[helmet] == FIT {
            return;
        }
        let tried = [before, &[helmet]].concat();
        if tried.len() == TRIES {
            self.graph.no_fit += probability;
            return;
        }
        for report in reports() {
            let probability = probability * heard(self.catalogue, report, head.reason[helmet]);
            let likely = |(weight, truth): (&f64, &u8)| {
                if *truth == FIT { 0.0 } else { weight * heard(self.catalogue, report, *truth) }
            };
            let heads = heads.iter().zip(&known.heads.reason[helmet]).map(likely).collect_vec();
            match self.next(known, &heads, report, helmet, &tried) {
                None => self.graph.no_fit += probability,
                Some((rule, next)) => {
                    *self.rules_used.entry(rule).or_default() += probability;
                    self.try_on(known, head, next, (probability, &heads), &tried);
                }
            }
        }
    }

    /// The rule and the size that a fitter takes: what fits the known heads most often, then what is nearest to the tape.
    fn next(
        &self,
        known: &Known<'_>,
        heads: &[f64],
        report: u8,
        failed: usize,
        tried: &[usize],
    ) -> Option<(usize, usize)> {
        let reason = Reason::geometric()[usize::from(report) - 1];
        let failed = &self.everything[failed];
        let mut best: Option<((f64, f64), (usize, usize))> = None;
        for (rule, edge) in self.catalogue.edges().iter().enumerate() {
            if edge.from != failed.model.id || edge.reason != reason {
                continue;
            }
            for (at, next) in self.everything.iter().enumerate() {
                let is_allowed = next.model.id == edge.to && allows_size(edge, failed.size, next.model, next.size);
                if !is_allowed || tried.contains(&at) {
                    continue;
                }
                let fits: f64 =
                    heads.iter().zip(&known.heads.reason[at]).filter(|(_, truth)| **truth == FIT).map(|(w, _)| w).sum();
                let worth = ((fits * 1e9).round(), -(next.size.centre() - known.tape).abs());
                if best.is_none_or(|(known, _)| worth > known) {
                    best = Some((worth, (rule, at)));
                }
            }
        }
        best.map(|(_, choice)| choice)
    }

    fn walk(&mut self, known: &Known<'_>, step: Option<&JudgedStep>, head: &OneHead, probability: f64) {
        let Some(step) = step else {
            self.plan.no_fit += probability;
            return;
        };
        let listed = &known.listed[step.candidate];
        let same = |own: &Candidate<'_>| own.model.id == listed.model.id && own.size.label == listed.size.label;
        let helmet = self.everything.iter().position(same).expect("it stands on the shelf");
        self.plan.tries += probability;
        self.plan.minutes += probability * head.minutes[helmet];
        let truth = head.reason[helmet];
        if truth == FIT {
            return;
        }
        let mut planned = 0.0;
        for branch in &step.branches {
            let number =
                |reason: &Reason| Reason::geometric().iter().position(|known| known == reason).expect("geometric");
            let reports = branch.reasons.iter().map(|reason| u8::try_from(number(reason) + 1).expect("ten"));
            let share: f64 = reports.map(|report| heard(self.catalogue, report, truth)).sum();
            planned += share;
            self.walk(known, branch.next.as_ref(), head, probability * share);
        }
        self.plan.no_fit += probability * (1.0 - planned);
    }
}
