//! What to do next.

use super::event::OnHead;
use super::{Opening, Standing, swap};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, Estimate, FIT, HeadSet, JUDGES, PadSet, Quote, estimate, minutes_between};
use crate::plan::{self, Failed, JudgedStep, Midway, Plan, Query, Source};
use crate::profile::{Model, Reason, Size, Zone};
use itertools::Itertools;

/// What to do next, and what it follows from.
#[derive(Debug, Clone, PartialEq)]
pub struct Next<'a> {
    /// The customer with all that was measured and heard.
    pub customer: Customer<'a>,
    /// The head as inferred from it.
    pub head: Estimate,
    /// The rest of the session as planned; `None` once it has ended, or fits.
    pub plan: Option<Plan<'a>>,
    /// What to put on the head now; `None` where nothing is worth it.
    pub now: Option<Now<'a>>,
}

/// A helmet to put on, or other pads for the one on the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Now<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: &'a Size,
    /// The pads to have in it.
    pub pads: PadSet,
    /// Other thicknesses to have at hand.
    pub bring: Vec<(Zone, f64)>,
    /// Whether it is on the head already, with other pads.
    pub is_swap: bool,
    /// How often it fits: with the pads on offer, or, for other pads in the same helmet, with these.
    pub fit: Quote,
    /// How often it fits with the pads that are in it at first.
    pub at_once: Quote,
    /// What this round takes in the shop's reckoning, minutes.
    pub minutes: f64,
    /// Who says so.
    pub origin: Origin,
}

/// Who says what to put on.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// The plan.
    Plan {
        /// The computation, or a rule of the shop.
        source: Source,
        /// What the other one would have tried.
        rival: Option<Outlook>,
    },
    /// The fitter.
    Fitter,
}

/// A helmet with its chance.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// How people call it.
    pub title: String,
    /// Who names it.
    pub source: Source,
    /// How often it fits.
    pub fit: Quote,
}

/// Works out what to do next. `None` where the profiles don't know what the session speaks of.
#[must_use]
pub fn next<'a>(catalogue: &'a Catalogue, opening: &Opening, standing: &Standing) -> Option<Next<'a>> {
    let customer = standing.customer(opening, catalogue)?;
    if standing.fits() || standing.ended.is_some() {
        let head = estimate(catalogue, &customer.head, &judges(catalogue, &customer));
        return Some(Next { customer, head, plan: None, now: None });
    }
    let midway = midway(catalogue, standing, &customer);
    let query = query(catalogue, opening, standing, customer, midway.swap.is_some());
    let made = plan::go_on(catalogue, &query, &midway);
    let now = match &standing.chosen {
        Some(helmet) => chosen(catalogue, &query.customer, standing, helmet),
        None => planned(catalogue, standing, &midway, &made),
    };
    Some(Next { head: made.head.clone(), customer: query.customer, plan: Some(made), now })
}

fn midway<'a>(catalogue: &'a Catalogue, standing: &Standing, customer: &Customer<'a>) -> Midway<'a> {
    let failed = standing.failed().and_then(|(helmet, reason)| {
        let (model, size) = found(catalogue, helmet)?;
        Some(Failed { model, size, reason })
    });
    let were_in = standing.sets_on_head().collect_vec();
    let swap = standing.on_head().and_then(|helmet| swap::best(catalogue, customer, helmet, &were_in));
    Midway { failed, swap }
}

fn query<'a>(
    catalogue: &'a Catalogue,
    opening: &Opening,
    standing: &Standing,
    customer: Customer<'a>,
    swaps: bool,
) -> Query<'a> {
    let out = standing.out(catalogue);
    let models = opening.models.iter().filter(|model| !out.models.contains(model));
    let tries = opening.tries.saturating_sub(standing.helmets()).max(1);
    Query {
        customer,
        models: models.filter_map(|model| catalogue.model(model.as_str())).collect(),
        absent: opening.absent.iter().chain(&out.sizes).cloned().collect(),
        // Other pads in the same helmet are no further helmet.
        tries: tries + usize::from(swaps),
        minutes: opening.minutes.map(|minutes| (minutes - standing.minutes()).max(0.0)),
        lead: opening.lead,
    }
}

/// The first step of the plan.
fn planned<'a>(catalogue: &Catalogue, standing: &Standing, midway: &Midway<'a>, made: &Plan<'a>) -> Option<Now<'a>> {
    let swap = midway.swap.as_ref();
    let is_swap = |step: &JudgedStep| {
        let known = &made.candidates[step.candidate];
        swap.is_some_and(|swap| swap.model.id == known.model.id && swap.size == known.size.label)
    };
    let step = made.first.as_ref()?;
    let known = &made.candidates[step.candidate];
    let pads = swap.filter(|_| is_swap(step)).map_or(step.pads.start, |swap| swap.pads);
    let rival =
        step.rival.map(|(candidate, source, fit)| Outlook { title: made.candidates[candidate].title(), source, fit });
    Some(Now {
        model: known.model,
        size: known.size,
        bring: step.pads.bring.clone(),
        is_swap: is_swap(step),
        fit: step.fit,
        at_once: step.pads.fit_at_once,
        minutes: minutes(catalogue, standing, known.model, known.size, &pads, is_swap(step)),
        origin: Origin::Plan { source: step.source, rival },
        pads,
    })
}

/// What the fitter chose.
fn chosen<'a>(
    catalogue: &'a Catalogue,
    customer: &Customer<'a>,
    standing: &Standing,
    helmet: &OnHead,
) -> Option<Now<'a>> {
    let (model, size) = found(catalogue, helmet)?;
    let on_offer = Candidate::of_models([model], catalogue).into_iter().find(|c| c.size.label == size.label)?;
    let as_mounted = on_offer.clone().mounted(&helmet.pads, &catalogue.shop.fit, 0.0);
    let judges = judges(catalogue, customer);
    let at_once = chance(catalogue, customer, &judges, &as_mounted);
    Some(Now {
        model,
        size,
        pads: helmet.pads,
        bring: Vec::new(),
        is_swap: helmet.is_swap,
        fit: if helmet.is_swap { at_once } else { chance(catalogue, customer, &judges, &on_offer) },
        at_once,
        minutes: minutes(catalogue, standing, model, size, &helmet.pads, helmet.is_swap),
        origin: Origin::Fitter,
    })
}

/// What a round takes: the helmet fetched, its pads set up and checked; or the swap and the checks once more.
fn minutes(
    catalogue: &Catalogue,
    standing: &Standing,
    model: &Model,
    size: &Size,
    pads: &PadSet,
    is_swap: bool,
) -> f64 {
    let minutes = &catalogue.shop.minutes;
    match standing.tried.last().filter(|_| is_swap) {
        Some(last) => minutes_between(&last.helmet.pads, pads, model) + minutes.recheck,
        None => minutes.fetch + minutes.check + minutes_between(&size.standard, pads, model),
    }
}

fn judges(catalogue: &Catalogue, customer: &Customer<'_>) -> Vec<HeadSet> {
    (1..=JUDGES).map(|k| HeadSet::draw(catalogue, customer, customer.judged_heads(), k)).collect()
}

fn chance(catalogue: &Catalogue, customer: &Customer<'_>, judges: &[HeadSet], candidate: &Candidate<'_>) -> Quote {
    Quote::of(judges.iter().map(|set| {
        let tried = set.try_all(catalogue, customer, &[candidate]);
        let heads = tried.reason[0].iter().zip(&set.heads.weight);
        heads.filter(|(reason, _)| **reason == FIT).map(|(_, weight)| weight).sum()
    }))
}

fn found<'a>(catalogue: &'a Catalogue, helmet: &OnHead) -> Option<(&'a Model, &'a Size)> {
    let model = catalogue.model(helmet.model.as_str())?;
    let (_, size) = model.sizes().find(|(_, size)| size.label == helmet.size)?;
    Some((model, size))
}

impl Next<'_> {
    /// How probable each reason is for what comes now, the most probable first.
    #[must_use]
    pub fn expected(&self) -> Vec<(Reason, f64)> {
        let first = self.plan.as_ref().and_then(|plan| plan.first.as_ref());
        let step = first.filter(|_| self.now.as_ref().is_some_and(|now| now.origin != Origin::Fitter));
        let branches = step.into_iter().flat_map(|step| &step.branches);
        let single = branches.filter_map(|branch| match branch.reasons.as_slice() {
            [one] => Some((*one, branch.probability.value)),
            _ => None,
        });
        single.sorted_by(|a, b| b.1.total_cmp(&a.1)).collect()
    }
}
