//! The plan as a document: `lidladder.plan/1`.

use super::common::{Head, HeadValues, View, Warning, error, pads, probability, round};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::plan::{Branch, JudgedStep, Lead, Pads, Plan, Query, Source, Totals};
use itertools::Itertools;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A plan. Errors are sampling errors: four standard errors from independent scrambles of the heads.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A plan of lidladder", extend("$id" = "urn:lidladder:plan:1"))]
pub struct PlanDocument {
    /// `lidladder.plan/1`.
    #[schemars(extend("const" = "lidladder.plan/1"))]
    schema: String,
    /// How the figures were obtained.
    method: Method,
    head: Head,
    /// What measuring more is expected to buy, the most worth taking first.
    next_measurements: Vec<NextMeasurement>,
    ranking: Vec<RankedFit>,
    plan: PlanBody,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Method {
    seed: u64,
    /// Heads that chose the plan.
    choosing_heads: usize,
    /// Sets of other heads that the figures are quoted from, and heads in each.
    judging_sets: u32,
    judging_heads: usize,
    /// shop-first, shop-only or computed-only.
    lead: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NextMeasurement {
    measure: String,
    reading_sd_mm: f64,
    /// Expected chance that the first helmet fits, with this measurement.
    first_fit_probability: f64,
    /// The same as things stand.
    first_fit_probability_now: f64,
    shape_index_sd: f64,
    shape_index_sd_now: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RankedFit {
    model: String,
    size: String,
    /// Chance of a good fit with some of the pads on offer.
    fit_probability: f64,
    fit_probability_error: f64,
    /// Chance of a good fit with `pads`, without another swap.
    fit_at_once_probability: f64,
    /// Pads to mount first, mm by zone.
    pads: BTreeMap<String, f64>,
    minutes: f64,
    /// Price of the helmet, in minor units of `currency`.
    price_minor: u64,
    currency: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PlanBody {
    expected_tries: f64,
    expected_tries_error: f64,
    expected_minutes: f64,
    expected_minutes_error: f64,
    no_fit_probability: f64,
    no_fit_probability_error: f64,
    optimality: OptimalityBody,
    /// The best order that doesn't listen to reasons, for comparison.
    fixed_order: FixedOrder,
    first: Option<Node>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OptimalityBody {
    /// `exact`: no plan costs less; `bounded`: no plan costs less than the bound, which is `gap` below this one.
    kind: String,
    /// (cost − bound) / bound.
    gap: f64,
    /// Minutes, with going without counted, on the heads that chose the plan.
    cost_minutes: f64,
    bound_minutes: f64,
    /// What the plan would cost without the shop's rules.
    computed_cost_minutes: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FixedOrder {
    expected_tries: f64,
    expected_tries_error: f64,
    expected_minutes: f64,
    expected_minutes_error: f64,
    no_fit_probability: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Node {
    model: String,
    size: String,
    /// Probability of getting to this step.
    reach_probability: f64,
    /// Whoever gets here, on average.
    head_mean: HeadValues,
    /// Their standard deviations.
    head_sd: HeadValues,
    /// Chance of a good fit, given that the plan got here.
    fit_probability: f64,
    fit_probability_error: f64,
    fit_at_once_probability: f64,
    /// Pads to mount first, mm by zone.
    start_pads: BTreeMap<String, f64>,
    /// Other pads to have at hand, mm by zone.
    bring_pads: BTreeMap<String, Vec<f64>>,
    minutes: f64,
    /// What the other of shop and computation would have tried.
    instead_of: Option<Alternative>,
    /// What to do when it fails: the probabilities and the chance of a fit add up to 1.
    on: Vec<OnReason>,
    /// Rules of the shop for what no geometry tells.
    beyond_geometry: Vec<Aside>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OnReason {
    /// Id of the reason; `else` where improbable ones are folded together.
    reason: String,
    /// The reasons behind `else`.
    reasons: Vec<String>,
    /// Chance of hearing it when this step is tried.
    probability: f64,
    /// Who says what is next: `shop`, `computed`, or `none` where nothing more is worth trying.
    source: String,
    /// The shop's note on its rule.
    note: Option<String>,
    next: Option<Box<Node>>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Alternative {
    model: String,
    size: String,
    source: String,
    fit_probability: f64,
    note: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Aside {
    reason: String,
    model: String,
    size: String,
    /// How often it fits a head that this step's helmet fits.
    fit_probability: f64,
    note: String,
}

/// The document of a plan.
#[must_use]
pub fn plan(
    catalogue: &Catalogue,
    query: &Query<'_>,
    plan: &Plan<'_>,
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> PlanDocument {
    let view = View { catalogue, candidates: &plan.candidates };
    PlanDocument {
        schema: "lidladder.plan/1".to_owned(),
        method: Method::of(query),
        head: Head::of(&query.customer, &plan.head),
        next_measurements: next_measurements(plan),
        ranking: plan.ranking.iter().map(|ranked| view.ranked(ranked)).collect(),
        plan: body(&view, plan),
        warnings,
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

impl Method {
    pub(super) fn of(query: &Query<'_>) -> Self {
        Self {
            seed: query.customer.seed,
            choosing_heads: crate::head::PARTICLES,
            judging_sets: crate::fit::JUDGES,
            judging_heads: query.customer.judged_heads(),
            lead: lead(query.lead).to_owned(),
        }
    }
}

impl View<'_> {
    fn ranked(&self, ranked: &crate::plan::Ranked) -> RankedFit {
        let (model, size) = self.name(ranked.candidate);
        RankedFit {
            model,
            size,
            fit_probability: probability(ranked.fit),
            fit_probability_error: error(ranked.fit, 4),
            fit_at_once_probability: probability(ranked.pads.fit_at_once),
            pads: pads(&ranked.pads.start),
            minutes: round(ranked.minutes, 2),
            price_minor: self.candidates[ranked.candidate].model.price.minor(),
            currency: self.catalogue.shop.currency.to_string(),
        }
    }

    fn node(&self, step: &JudgedStep) -> Node {
        let (model, size) = self.name(step.candidate);
        Node {
            model,
            size,
            reach_probability: round(step.reach, 4),
            head_mean: HeadValues::of(step.head.mean.map(|mean| round(mean, 2))),
            head_sd: HeadValues::of(step.head.sd.map(|sd| round(sd, 2))),
            fit_probability: probability(step.fit),
            fit_probability_error: error(step.fit, 4),
            fit_at_once_probability: probability(step.pads.fit_at_once),
            start_pads: pads(&step.pads.start),
            bring_pads: bring(&step.pads),
            minutes: round(step.minutes, 2),
            instead_of: step.rival.map(|(candidate, source, fit)| self.alternative(candidate, source, fit)),
            on: step.branches.iter().map(|branch| self.on(branch)).collect(),
            beyond_geometry: step.asides.iter().filter_map(|aside| self.aside(*aside)).collect(),
        }
    }

    fn on(&self, branch: &Branch) -> OnReason {
        let (reason, reasons) = match branch.reasons.as_slice() {
            [one] => (one.id().to_owned(), Vec::new()),
            several => ("else".to_owned(), several.iter().map(|reason| reason.id().to_owned()).collect()),
        };
        OnReason {
            reason,
            reasons,
            probability: probability(branch.probability),
            source: branch.next.as_ref().map_or("none", |next| source(next.source)).to_owned(),
            note: branch.next.as_ref().and_then(|next| self.note(next.source)),
            next: branch.next.as_ref().map(|next| Box::new(self.node(next))),
        }
    }

    fn alternative(&self, candidate: usize, from: Source, fit: Quote) -> Alternative {
        let (model, size) = self.name(candidate);
        Alternative {
            model,
            size,
            source: source(from).to_owned(),
            fit_probability: probability(fit),
            note: self.note(from),
        }
    }

    fn aside(&self, (rule, candidate, fit): (usize, usize, Quote)) -> Option<Aside> {
        let edge = self.catalogue.edges().get(rule)?;
        let (model, size) = self.name(candidate);
        let note = edge.note.clone();
        Some(Aside { reason: edge.reason.id().to_owned(), model, size, fit_probability: probability(fit), note })
    }
}

fn next_measurements(plan: &Plan<'_>) -> Vec<NextMeasurement> {
    let now = &plan.advice;
    let next = now.gains.iter().map(|gain| NextMeasurement {
        measure: gain.measure.name().to_owned(),
        reading_sd_mm: gain.reading_sd,
        first_fit_probability: round(gain.first_fit, 3),
        first_fit_probability_now: round(now.first_fit, 3),
        shape_index_sd: round(gain.shape_sd, 2),
        shape_index_sd_now: round(now.shape_sd, 2),
    });
    next.collect()
}

fn body(view: &View<'_>, plan: &Plan<'_>) -> PlanBody {
    let Totals { tries, minutes, no_fit } = plan.totals;
    let fixed = plan.fixed_order;
    PlanBody {
        expected_tries: round(tries.value, 3),
        expected_tries_error: error(tries, 3),
        expected_minutes: round(minutes.value, 2),
        expected_minutes_error: error(minutes, 2),
        no_fit_probability: probability(no_fit),
        no_fit_probability_error: error(no_fit, 4),
        optimality: OptimalityBody {
            kind: if plan.optimality.is_exact() { "exact" } else { "bounded" }.to_owned(),
            gap: round(plan.optimality.gap(), 4),
            cost_minutes: round(plan.optimality.cost, 2),
            bound_minutes: round(plan.optimality.lower, 2),
            computed_cost_minutes: round(plan.optimality.computed, 2),
        },
        fixed_order: FixedOrder {
            expected_tries: round(fixed.tries.value, 3),
            expected_tries_error: error(fixed.tries, 3),
            expected_minutes: round(fixed.minutes.value, 2),
            expected_minutes_error: error(fixed.minutes, 2),
            no_fit_probability: probability(fixed.no_fit),
        },
        first: plan.first.as_ref().map(|first| view.node(first)),
    }
}

/// Thicknesses to bring by zone, mm.
pub(super) fn bring(pads: &Pads) -> BTreeMap<String, Vec<f64>> {
    let zones = pads.bring.iter().map(|(zone, mm)| (zone.name().to_owned(), *mm));
    zones.into_group_map().into_iter().collect()
}

pub(super) fn source(source: Source) -> &'static str {
    match source {
        Source::Computed => "computed",
        Source::Rule(_) => "shop",
    }
}

fn lead(lead: Lead) -> &'static str {
    match lead {
        Lead::ShopFirst => "shop-first",
        Lead::ShopOnly => "shop-only",
        Lead::ComputedOnly => "computed-only",
    }
}
