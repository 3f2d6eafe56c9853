//! From records to beliefs: readings first, then helmets, then misreports; scored, and judged.

use super::apply::{is_measured, own_population, with_helmets, with_misreport, with_readings};
use super::customers::{Visitor, gather, kept_apart};
use super::helmets::{HelmetBelief, helmets};
use super::misreports::misreports;
use super::population::{Measured, measured};
use super::replay::Reader;
use super::scores::{Scores, scores};
use super::witness::Shelf;
use super::{Belief, Question, Verdict};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::journal::Record;
use crate::profile::{LearningRules, Measurer, Model, Tool};
use crate::unit::Id;
use itertools::Itertools;

/// What journals say.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Customers with a try of a known helmet.
    pub customers: usize,
    /// Their tries.
    pub tries: usize,
    /// Customers who stand in the journals twice and are counted once.
    pub twice: usize,
    /// Tries of helmets that the profiles don't know: model, size, how many.
    pub unknown: Vec<(Id, Id, usize)>,
    /// Every model of the catalogue, in its order.
    pub models: Vec<LearnedModel>,
    /// How often a reason is misreported, before and now.
    pub misreport: [Belief; 2],
    /// Failures that tell of it.
    pub failures: usize,
    /// What is to become of it.
    pub misreport_verdict: Verdict,
    /// The lines under `measuring`, in their order.
    pub measuring: Vec<LearnedMethod>,
    /// Whose heads come in.
    pub population: LearnedPopulation,
    /// How well tries of other customers are foretold; `None` where there are none.
    pub scores: Option<Scores>,
}

/// What was learned of a model.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedModel {
    /// The model.
    pub id: Id,
    /// Tries that tell of it.
    pub tries: usize,
    /// The shape index, before and now.
    pub index: [Belief; 2],
    /// What is to become of it.
    pub verdict: Verdict,
    /// Its shells, in their order.
    pub shells: Vec<LearnedShell>,
    /// About how many more tries would narrow the index enough for a verdict; `None` where they have, and where too
    /// few are there to say.
    pub more_tries: Option<usize>,
}

/// What was learned of a shell.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedShell {
    /// The shell.
    pub id: Id,
    /// Tries in it.
    pub tries: usize,
    /// How much larger than labelled its sizes are, mm of circumference, before and now.
    pub centre: [Belief; 2],
    /// What is to become of it.
    pub verdict: Verdict,
}

/// What was learned of a way to measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedMethod {
    /// Who measures.
    pub by: Measurer,
    /// With what.
    pub with: Tool,
    /// Standard deviation of a reading, mm, before and now.
    pub sd: [Belief; 2],
    /// Readings that tell of it.
    pub readings: usize,
    /// What is to become of it.
    pub verdict: Verdict,
}

/// What was learned of the customers.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedPopulation {
    /// The population that it begins with.
    pub from: Id,
    /// Heads of which anything was measured.
    pub heads: usize,
    /// How far the means are from the population's, mm: C, L, B, W.
    pub shift: [[Belief; 2]; 4],
    /// Factor on the standard deviations.
    pub spread: [Belief; 2],
    /// What is to become of it.
    pub verdict: Verdict,
    /// The shop's own population, to be kept as a file; `None` where its numbers would be none of people.
    pub own: Option<Population>,
}

/// Learns from journals, each with the records of one file. Neither the order of the journals nor that of their records
/// matters.
#[must_use]
pub fn learn(catalogue: &Catalogue, journals: &[Vec<Record>], question: &Question<'_>) -> Learned {
    let gathered = gather(catalogue, journals);
    let rules = &catalogue.shop.learning;
    let apart = kept_apart(gathered.visitors.len(), question.kept_apart, rules, question.seed);
    let (judges, others): (Vec<_>, Vec<_>) = gathered.visitors.iter().zip(apart).partition(|(_, apart)| *apart);
    let [judges, others] = [judges, others].map(|part| part.into_iter().map(|(visitor, _)| visitor).collect_vec());
    let all = gathered.visitors.iter().collect_vec();
    let scores = Found::of(catalogue, question, &others).scores(catalogue, question, &judges);
    let found = Found::of(catalogue, question, &all);
    let judged = Judged { rules, customers: all.len(), scores: scores.as_ref() };
    let models = catalogue.models().iter().enumerate();
    let models = models
        .map(|(at, model)| judged.model(catalogue, model, found.helmets.iter().find(|belief| belief.model == at)));
    let models = models.collect();
    let measuring = catalogue.shop.measuring.iter().zip(&found.measured.lines);
    let measuring = measuring.map(|((by, with, _), (sd, readings))| LearnedMethod {
        by: *by,
        with: *with,
        sd: *sd,
        readings: *readings,
        verdict: judged.on(*sd, *readings),
    });
    Learned {
        customers: all.len(),
        tries: all.iter().map(|visitor| visitor.records.len()).sum(),
        twice: gathered.twice,
        unknown: gathered.unknown.iter().map(|((model, size), count)| (model.clone(), size.clone(), *count)).collect(),
        models,
        misreport: found.misreport,
        failures: found.failures,
        misreport_verdict: judged.on(found.misreport, found.failures),
        measuring: measuring.collect(),
        population: judged.population(catalogue, question.population, &found.measured),
        scores,
    }
}

/// What some customers say.
struct Found {
    measured: Measured,
    helmets: Vec<HelmetBelief>,
    misreport: [Belief; 2],
    failures: usize,
    /// The profiles with all of it.
    catalogue: Catalogue,
}

/// How often helmets and misreports are learned in turn at most.
const TURNS: usize = 4;

impl Found {
    /// Helmets are learned with a misreport rate, and the rate with helmets: where the rate turns out to be clearly
    /// another one, both are learned once more.
    fn of(catalogue: &Catalogue, question: &Question<'_>, visitors: &[&Visitor<'_>]) -> Self {
        let measured = measured(&catalogue.shop, question.population, visitors);
        let mut read = with_readings(catalogue, question.population, &measured);
        let mut turn = 1;
        loop {
            let reader = Reader { was: catalogue, now: &read, seed: question.seed };
            let shelf = Shelf::of(&read);
            let witnesses = visitors.iter().map(|visitor| shelf.witness(&reader, visitor)).collect_vec();
            let helmets = helmets(&read.shop, &shelf, &witnesses);
            let (misreport, failures) = misreports(&reader, &witnesses, &helmets);
            let [_, rate] = misreport;
            let is_settled = (rate.mean - read.shop.misreport).abs() < 2.0 * rate.sd;
            read = with_misreport(&read, rate.mean);
            if is_settled || turn == TURNS {
                return Self { catalogue: with_helmets(&read, &helmets), measured, helmets, misreport, failures };
            }
            turn += 1;
        }
    }

    fn scores(&self, was: &Catalogue, question: &Question<'_>, judges: &[&Visitor<'_>]) -> Option<Scores> {
        let reader = |now| Reader { was, now, seed: question.seed };
        scores(&reader(was), &reader(&self.catalogue), judges)
    }
}

/// What verdicts depend on.
struct Judged<'a> {
    rules: &'a LearningRules,
    customers: usize,
    scores: Option<&'a Scores>,
}

impl Judged<'_> {
    /// A figure of the shop: it is changed only where the whole foretells no worse.
    fn on(&self, beliefs: [Belief; 2], told: usize) -> Verdict {
        let is_worse = || self.scores.is_some_and(|scores| scores.brier.is_worse());
        Verdict::on(beliefs, told.min(self.customers), self.rules).unless(is_worse, Verdict::Worse)
    }

    /// A figure of a model: it is changed only where this model's tries are foretold no worse.
    fn on_model(&self, beliefs: [Belief; 2], told: usize, model: &Id) -> Verdict {
        let is_worse = || {
            let own = self.scores.and_then(|scores| scores.by_model.get(model));
            own.is_some_and(super::Difference::is_worse)
        };
        // A journal of few customers changes nothing; one of many may change a model that few of them tried.
        let told = if told == 0 { 0 } else { self.customers };
        Verdict::on(beliefs, told, self.rules).unless(is_worse, Verdict::Worse)
    }

    fn model(&self, catalogue: &Catalogue, model: &Model, belief: Option<&HelmetBelief>) -> LearnedModel {
        let assumed = catalogue.shop.profile_errors.of(model.interior.origin);
        let prior = Belief { mean: 0.0, sd: model.interior.sd.unwrap_or(assumed.shape_index) };
        let index = belief.map_or([prior; 2], |belief| belief.index);
        let shells = model.shells.iter().enumerate().map(|(at, shell)| {
            let sd = shell.centre_sd.or(model.interior.centre_sd).unwrap_or(assumed.centre);
            let own = belief.and_then(|belief| belief.shells.iter().find(|known| known.shell == at));
            let tries = own.map_or(0, |own| own.tries);
            let centre = own.map_or([Belief { mean: 0.0, sd }; 2], |own| own.centre);
            let verdict = self.on_model(centre, tries, &model.id);
            let larger = shell.sizes.first().map_or(0.0, |size| size.runs_larger);
            LearnedShell { id: shell.id.clone(), tries, centre: from(larger, centre), verdict }
        });
        let shells = shells.collect_vec();
        let tries = shells.iter().map(|shell| shell.tries).sum();
        let verdict = self.on_model(index, tries, &model.id).unless(|| is_measured(model), Verdict::Measured);
        let more_tries = more_tries(index, tries, self.rules);
        LearnedModel {
            id: model.id.clone(),
            tries,
            index: from(model.interior.shape_index, index),
            verdict,
            shells,
            more_tries,
        }
    }

    fn population(&self, catalogue: &Catalogue, from: &Population, measured: &Measured) -> LearnedPopulation {
        let shift = [0, 1, 2, 3].map(|k| [measured.shift_before[k], measured.shift[k]]);
        let figures = shift.iter().chain(std::iter::once(&measured.spread));
        let verdicts = figures.map(|figure| self.on(*figure, measured.heads)).collect_vec();
        let known = [Verdict::Change, Verdict::Worse, Verdict::Confirmed, Verdict::Vague];
        let own = own_population(catalogue, from, measured);
        LearnedPopulation {
            from: from.id.clone(),
            heads: measured.heads,
            shift,
            spread: measured.spread,
            // One clear figure is enough for a file of its own.
            verdict: known.into_iter().find(|verdict| verdicts.contains(verdict)).unwrap_or(verdicts[0]),
            own,
        }
    }
}

fn from(mean: f64, beliefs: [Belief; 2]) -> [Belief; 2] {
    beliefs.map(|belief| Belief { mean: mean + belief.mean, ..belief })
}

/// Information adds up try by try: as many more as are missing at the rate so far.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "far below 2⁵², and more than 0"
)]
fn more_tries([before, now]: [Belief; 2], tries: usize, rules: &LearningRules) -> Option<usize> {
    const FEW: usize = 5;
    let wanted = rules.narrowed * before.sd;
    if tries < FEW || before.sd <= 0.0 || now.sd <= wanted {
        return None;
    }
    let each = (now.sd.powi(-2) - before.sd.powi(-2)) / tries as f64;
    (each > 0.0).then(|| ((wanted.powi(-2) - now.sd.powi(-2)) / each).ceil() as usize)
}
