//! Customers who come in one after the other and follow the plan.

use super::fitter::Planned;
use super::tryout::{Tryout, try_on};
use super::{Chance, Fitter, Habits, World};
use crate::fit::verdict;
use crate::head::Dimensions;
use crate::journal::{Head, Record};
use crate::plan::JudgedStep;
use crate::profile::Reason;
use crate::score::Forecast;

/// One customer: what the counter wrote down, and the truth behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// The true head.
    pub head: Dimensions,
    /// Which of the shop's situations it was.
    pub situation: usize,
    /// What was said of the whole plan before it began: that it ends with a fit.
    pub whole: Forecast,
    /// What was said of one helmet of the list beside the plan, picked at random, and whether it would have fitted.
    pub listed: Option<Forecast>,
    /// The tries, in order; none where nothing was worth trying.
    pub tries: Vec<Tried>,
}

/// One try.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// What the counter wrote down.
    pub record: Record,
    /// Why no pads on offer make a fit in truth; `None` where some do.
    pub truth: Option<Reason>,
}

impl Visit {
    /// What the counter wrote down.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.tries.iter().map(|tried| &tried.record)
    }
}

/// Lets so many customers come in, with numbers from 1.
///
/// Where the start pads of a try are no good, the second round has the pads that the fitter's hands found to be the best
/// for this head. So the try ends as plans count it, with a fit wherever some pads on offer make one; but which pads stand in
/// a second round says something of the head, too, and rounds are no independent looks at it.
#[must_use]
pub fn simulate(
    world: &World<'_>,
    habits: &Habits<'_>,
    fitter: &mut Fitter<'_>,
    customers: u64,
    seed: u64,
) -> Vec<Visit> {
    (1..=customers).map(|number| visit(world, habits, fitter, number, seed)).collect()
}

fn visit(world: &World<'_>, habits: &Habits<'_>, fitter: &mut Fitter<'_>, number: u64, seed: u64) -> Visit {
    let (head, situation, known) = habits.customer(world.catalogue, seed, number);
    let planned = fitter.plan(&known);
    let session = Session { world, habits, planned, head, known, number };
    let tries = session.tries(&mut Chance::new(seed, "reports", number));
    let fits = tries.last().is_some_and(|tried| tried.truth.is_none());
    let whole = Forecast { said: planned.fit_in_the_end, happened: fits };
    let listed = session.listed(&mut Chance::new(seed, "list", number));
    Visit { head, situation, whole, listed, tries }
}

struct Session<'s, 'a> {
    world: &'s World<'a>,
    habits: &'s Habits<'a>,
    planned: &'s Planned,
    head: Dimensions,
    known: Head,
    number: u64,
}

impl Session<'_, '_> {
    fn tries(&self, chance: &mut Chance) -> Vec<Tried> {
        let mut tries = Vec::new();
        let mut step = self.planned.first.as_ref();
        while let Some(now) = step {
            let Some(tried) = self.try_step(now, tries.len(), chance) else { break };
            let heard = tried.record.last().and_then(|round| round.reason);
            step = heard.and_then(|reason| after(now, reason));
            tries.push(tried);
        }
        tries
    }

    fn try_step(&self, step: &JudgedStep, before: usize, chance: &mut Chance) -> Option<Tried> {
        let shop = &self.world.catalogue.shop;
        let (model, size) = self.planned.names.get(step.candidate)?;
        let helmet = self.world.helmet(model, size)?;
        let room = shop.fit.outline.effective(self.head);
        let Tryout { rounds, truth } = try_on(helmet, room, &step.pads.start, shop, self.habits.misreport, chance);
        let days = (self.number - 1) / u64::from(self.habits.a_day.max(1));
        let record = Record {
            day: self.habits.from.after(u32::try_from(days).unwrap_or(u32::MAX)),
            customer: self.number,
            number: u32::try_from(before + 1).unwrap_or(u32::MAX),
            head: self.known.clone(),
            model: model.clone(),
            size: size.clone(),
            fit_probability: Some(step.fit.value.clamp(0.0, 1.0)),
            rounds,
        };
        Some(Tried { record, truth })
    }

    fn listed(&self, chance: &mut Chance) -> Option<Forecast> {
        let rules = &self.world.catalogue.shop.fit;
        let (candidate, said) = *chance.one_of(&self.planned.listed)?;
        let (model, size) = self.planned.names.get(candidate)?;
        let judged = verdict(self.world.helmet(model, size)?, rules.outline.effective(self.head), rules);
        Some(Forecast { said, happened: judged.best().fits() })
    }
}

fn after(step: &JudgedStep, heard: Reason) -> Option<&JudgedStep> {
    step.branches.iter().find(|branch| branch.reasons.contains(&heard))?.next.as_ref()
}
