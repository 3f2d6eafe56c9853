//! What to do next.

use super::event::OnHead;
use super::{Opening, Standing, pads};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, Estimate, FIT, HeadSet, PadSet, Quote, changed, estimate, minutes_between};
use crate::plan::{self, Failed, Midway, Pads, Plan, Query, Source};
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
    /// How often each thing is heard of it with the pads that are in it now: first that it fits, then the geometric
    /// reasons in their order, wrong ones counted. As in the plan a fit is observed truly.
    pub heard: Vec<Quote>,
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
        let head = estimate(catalogue, &customer.head, &HeadSet::judges(catalogue, &customer));
        return Some(Next { customer, head, plan: None, now: None });
    }
    let chooser = HeadSet::chooser(catalogue, &customer);
    let midway = midway(catalogue, standing, &customer, &chooser);
    let query = query(catalogue, opening, standing, customer, midway.swap.is_some());
    let (made, judges) = plan::go_on(catalogue, &query, &midway, &chooser);
    let panel = Panel { catalogue, customer: &query.customer, standing, chooser: &chooser, judges: &judges };
    let now = match &standing.chosen {
        Some(helmet) => panel.chosen(helmet),
        None => panel.planned(&midway, &made),
    };
    Some(Next { head: made.head.clone(), customer: query.customer, plan: Some(made), now })
}

pub(super) fn midway<'a>(
    catalogue: &'a Catalogue,
    standing: &Standing,
    customer: &Customer<'a>,
    chooser: &HeadSet,
) -> Midway<'a> {
    let failed = standing.failed().and_then(|(helmet, reason)| {
        let (model, size) = found(catalogue, helmet)?;
        Some(Failed { model, size, reason })
    });
    let were_in = standing.sets_on_head().collect_vec();
    let swap = standing.on_head().and_then(|helmet| pads::other(catalogue, (customer, chooser), helmet, &were_in));
    Midway { failed, swap }
}

pub(super) fn query<'a>(
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

/// Heads that choose what comes next, and those that judge it.
struct Panel<'p, 'a> {
    catalogue: &'a Catalogue,
    customer: &'p Customer<'a>,
    standing: &'p Standing,
    chooser: &'p HeadSet,
    judges: &'p [HeadSet],
}

impl<'a> Panel<'_, 'a> {
    /// The first step of the plan.
    fn planned(&self, midway: &Midway<'a>, made: &Plan<'a>) -> Option<Now<'a>> {
        let step = made.first.as_ref()?;
        let known = &made.candidates[step.candidate];
        let swap = midway.swap.as_ref();
        let swap = swap.filter(|swap| swap.model.id == known.model.id && swap.size == known.size.label);
        let pads = match swap {
            Some(swap) => swap.pads,
            None => pads::first(self.catalogue, (self.customer, self.chooser), known),
        };
        let rival = step.rival.map(|(candidate, source, fit)| Outlook {
            title: made.candidates[candidate].title(),
            source,
            fit,
        });
        Some(Now {
            model: known.model,
            size: known.size,
            bring: if swap.is_some() { Vec::new() } else { bring(known, &step.pads, &pads) },
            is_swap: swap.is_some(),
            fit: step.fit,
            heard: self.heard(&known.clone().mounted(&pads, &self.catalogue.shop.fit, 0.0)),
            minutes: self.minutes(known.model, known.size, &pads, swap.is_some()),
            origin: Origin::Plan { source: step.source, rival },
            pads,
        })
    }

    /// What the fitter chose.
    fn chosen(&self, helmet: &OnHead) -> Option<Now<'a>> {
        let (model, size) = found(self.catalogue, helmet)?;
        let on_offer = Candidate::of_size(model, &helmet.size, self.catalogue)?;
        let as_mounted = on_offer.clone().mounted(&helmet.pads, &self.catalogue.shop.fit, 0.0);
        Some(Now {
            model,
            size,
            pads: helmet.pads,
            bring: Vec::new(),
            is_swap: helmet.is_swap,
            fit: self.share(if helmet.is_swap { &as_mounted } else { &on_offer }, FIT),
            heard: self.heard(&as_mounted),
            minutes: self.minutes(model, size, &helmet.pads, helmet.is_swap),
            origin: Origin::Fitter,
        })
    }

    fn minutes(&self, model: &Model, size: &Size, pads: &PadSet, is_swap: bool) -> f64 {
        let helmet = OnHead { model: model.id.clone(), size: size.label.clone(), pads: *pads, is_swap };
        round_minutes(self.catalogue, self.standing, &helmet)
    }

    /// How often each thing is heard of a helmet with these pads.
    fn heard(&self, mounted: &Candidate<'_>) -> Vec<Quote> {
        let misreport = self.catalogue.shop.misreport;
        let others = u32::try_from(Reason::GEOMETRIC - 1).map_or(1.0, f64::from);
        let tried = self.tried(mounted);
        let fits = shares(self.judges, &tried, FIT).collect_vec();
        let heard = |(fits, own): (&f64, f64)| own * (1.0 - misreport) + (1.0 - fits - own) * misreport / others;
        let reasons = 1..=u8::try_from(Reason::GEOMETRIC).unwrap_or(u8::MAX);
        let reasons = reasons.map(|reason| Quote::of(fits.iter().zip(shares(self.judges, &tried, reason)).map(heard)));
        std::iter::once(Quote::of(fits.iter().copied())).chain(reasons).collect()
    }

    /// How often an outcome is true.
    fn share(&self, candidate: &Candidate<'_>, outcome: u8) -> Quote {
        Quote::of(shares(self.judges, &self.tried(candidate), outcome))
    }

    /// By judge what becomes of each head.
    fn tried(&self, candidate: &Candidate<'_>) -> Vec<Vec<u8>> {
        let tried = self.judges.iter().map(|set| set.try_all(self.catalogue, self.customer, &[candidate]).reason);
        tried.map(|reasons| reasons.into_iter().next().unwrap_or_default()).collect()
    }
}

/// What a round takes in the shop's reckoning, minutes: the helmet fetched, its pads set up and checked; or, where it is on
/// the head already, the swap and the checks once more. 0 for a helmet that the profiles don't have.
#[must_use]
pub fn round_minutes(catalogue: &Catalogue, standing: &Standing, helmet: &OnHead) -> f64 {
    let Some((model, size)) = found(catalogue, helmet) else { return 0.0 };
    let minutes = &catalogue.shop.minutes;
    match standing.tried.last().filter(|_| helmet.is_swap) {
        Some(last) => minutes_between(&last.helmet.pads, &helmet.pads, model) + minutes.recheck,
        None => minutes.fetch + minutes.check + minutes_between(&size.standard, &helmet.pads, model),
    }
}

/// What the plan has at hand for a helmet, but for the pads that come with it or are in it already.
fn bring(known: &Candidate<'_>, planned: &Pads, mounted: &PadSet) -> Vec<(Zone, f64)> {
    let start = changed(&known.size.standard, &planned.start);
    let is_there = |(zone, mm): &(Zone, f64)| mounted.get(*zone).is_some_and(|own| (own - mm).abs() < 1e-9);
    let all = start.chain(planned.bring.iter().copied()).filter(|pad| !is_there(pad));
    all.sorted_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))).collect()
}

/// By judge the weight of the heads with an outcome.
fn shares(judges: &[HeadSet], tried: &[Vec<u8>], outcome: u8) -> impl Iterator<Item = f64> {
    judges.iter().zip(tried).map(move |(set, reasons)| {
        let heads = reasons.iter().zip(&set.heads.weight);
        heads.filter(|(reason, _)| **reason == outcome).map(|(_, weight)| weight).sum()
    })
}

fn found<'a>(catalogue: &'a Catalogue, helmet: &OnHead) -> Option<(&'a Model, &'a Size)> {
    let model = catalogue.model(helmet.model.as_str())?;
    let (_, size) = model.size(&helmet.size)?;
    Some((model, size))
}
