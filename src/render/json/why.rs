//! An explained step as a document: `lidladder.why/1`.

mod heads;

use super::common::{View, Warning, error, pads, probability, round};
use super::plan::{Method, bring, source};
use crate::catalogue::Catalogue;
use crate::plan::{
    Answer, Found, Instead, NowhereKind, Passed, Plan, Query, Role, Shares, Source, StepWhy, ToCome, Verdict,
};
use heads::Heads;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A step of a plan, explained. Errors are sampling errors: four standard errors from independent scrambles of the
/// heads; those of differences are taken on the same heads.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "An explained step of lidladder", extend("$id" = "urn:lidladder:why:1"))]
pub struct WhyDocument {
    /// `lidladder.why/1`.
    #[schemars(extend("const" = "lidladder.why/1"))]
    schema: String,
    /// How the figures were obtained.
    method: Method,
    /// The steps that were left behind.
    way: Vec<PassedStep>,
    /// What the way leads to: `step`; `aside`, the target of a shop's rule for what no geometry tells; or no step:
    /// `end` where the plan ends, `unheard` where no head would report it, `no-rule` where neither geometry nor the
    /// shop speaks, `stop` where the helmet is out at once, `beside-the-plan` where it goes on behind an aside,
    /// `no-plan` where nothing is worth a try.
    leads_to: String,
    /// The last report that leads to no step.
    ends_with: Option<Ending>,
    step: Option<ExplainedStep>,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PassedStep {
    model: String,
    size: String,
    reason: String,
    /// The reasons that the plan answers alike, this one among them; none for an aside, where the helmet fits.
    reasons: Vec<String>,
    /// Chance of hearing one of them when the step is tried; for an aside, of the helmet fitting.
    probability: f64,
    probability_error: f64,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ending {
    model: String,
    size: String,
    reason: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ExplainedStep {
    model: String,
    size: String,
    /// Who says so: `shop` or `computed`.
    source: String,
    /// The shop's note on its rule.
    note: Option<String>,
    /// Probability of getting here; for an aside, of getting to the step before it and that helmet fitting.
    reach_probability: f64,
    reach_probability_error: f64,
    /// Chance of a good fit, given that the plan got here.
    fit_probability: f64,
    fit_probability_error: f64,
    fit_at_once_probability: f64,
    /// Pads to mount first, mm by zone.
    start_pads: BTreeMap<String, f64>,
    /// Other pads to have at hand, mm by zone.
    bring_pads: BTreeMap<String, Vec<f64>>,
    minutes: f64,
    minutes_error: f64,
    to_the_end: ToTheEnd,
    /// Minutes to come after a failure where nobody hears why it fails, with going without counted.
    after_a_failure_unheard_minutes: f64,
    after_a_failure_unheard_minutes_error: f64,
    /// How many of them hearing saves.
    hearing_saves_minutes: f64,
    hearing_saves_minutes_error: f64,
    /// What else could be tried here, the next best first.
    instead: Vec<Other>,
    /// Minutes that leaving at once would cost more.
    leaving_costs_more_minutes: f64,
    leaving_costs_more_minutes_error: f64,
    heads: Heads,
}

/// From here to the end of the plan, this try included.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ToTheEnd {
    expected_tries: f64,
    expected_tries_error: f64,
    expected_minutes: f64,
    expected_minutes_error: f64,
    no_fit_probability: f64,
    no_fit_probability_error: f64,
    /// Minutes, with going without counted.
    cost_minutes: f64,
    cost_minutes_error: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Other {
    model: String,
    size: String,
    /// `next-best`: what the plan would have if its choice were not on the shelf; `shop`: a rule says so; `computed`:
    /// the computation alone would try it.
    roles: Vec<String>,
    /// The shop's note on its rule.
    note: Option<String>,
    fit_probability: f64,
    fit_probability_error: f64,
    minutes: f64,
    minutes_error: f64,
    to_the_end: ToTheEnd,
    /// `worse` than the plan's choice, `alike` or `better`, as far as the sampling tells.
    verdict: String,
    /// Minutes that it costs more to the end, with the plan's choice still to be had later.
    costs_more_minutes: f64,
    costs_more_minutes_error: f64,
    shares: SharesOfMore,
    /// Minutes that hearing why it fails saves after a failure.
    hearing_saves_minutes: f64,
    hearing_saves_minutes_error: f64,
    /// Minutes that the plan costs more where its choice is not there at all; only for the next best.
    costs_more_minutes_without_the_choice: Option<f64>,
    costs_more_minutes_without_the_choice_error: Option<f64>,
}

/// Where the difference comes from, minutes; the four add up to it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SharesOfMore {
    /// Its pads take longer.
    pads: f64,
    pads_error: f64,
    /// It fails more often.
    fails: f64,
    fails_error: f64,
    /// Whomever it fails is harder to serve, even where nobody hears why.
    unheard: f64,
    unheard_error: f64,
    /// What is heard when it fails tells less.
    heard: f64,
    heard_error: f64,
}

/// The document of an explained step.
#[must_use]
pub fn why(
    catalogue: &Catalogue,
    query: &Query<'_>,
    (plan, answer): (&Plan<'_>, &Answer),
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> WhyDocument {
    let view = View { catalogue, candidates: &plan.candidates };
    let (leads_to, ends_with, step) = match &answer.found {
        Found::Step(why) => ("step", None, Some(view.step(why))),
        Found::Aside(why) => ("aside", None, Some(view.step(why))),
        Found::NoPlan => ("no-plan", None, None),
        Found::Nowhere(nowhere) => {
            let (model, size) = view.name(nowhere.candidate);
            let ending = Ending { model, size, reason: nowhere.reason.id().to_owned() };
            (nowhere_word(nowhere.kind), Some(ending), None)
        }
    };
    WhyDocument {
        schema: "lidladder.why/1".to_owned(),
        method: Method::of(query),
        way: answer.way.iter().map(|passed| view.passed(passed)).collect(),
        leads_to: leads_to.to_owned(),
        ends_with,
        step,
        warnings,
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

fn nowhere_word(kind: NowhereKind) -> &'static str {
    match kind {
        NowhereKind::End => "end",
        NowhereKind::Unheard => "unheard",
        NowhereKind::NoRule => "no-rule",
        NowhereKind::Stop => "stop",
        NowhereKind::BesideThePlan => "beside-the-plan",
    }
}

impl View<'_> {
    fn passed(&self, passed: &Passed) -> PassedStep {
        let (model, size) = self.name(passed.candidate);
        PassedStep {
            model,
            size,
            reason: passed.reason.id().to_owned(),
            reasons: passed.branch.iter().map(|reason| reason.id().to_owned()).collect(),
            probability: probability(passed.probability),
            probability_error: error(passed.probability, 4),
        }
    }

    fn step(&self, why: &StepWhy) -> ExplainedStep {
        let (model, size) = self.name(why.step.candidate);
        ExplainedStep {
            model,
            size,
            source: source(why.step.source).to_owned(),
            note: self.note(why.step.source),
            reach_probability: probability(why.reach),
            reach_probability_error: error(why.reach, 4),
            fit_probability: probability(why.step.fit),
            fit_probability_error: error(why.step.fit, 4),
            fit_at_once_probability: probability(why.step.pads.fit_at_once),
            start_pads: pads(&why.step.pads.start),
            bring_pads: bring(&why.step.pads),
            minutes: round(why.minutes.value, 2),
            minutes_error: error(why.minutes, 2),
            to_the_end: ToTheEnd::of(&why.rest),
            after_a_failure_unheard_minutes: round(why.unheard.value, 2),
            after_a_failure_unheard_minutes_error: error(why.unheard, 2),
            hearing_saves_minutes: round(why.hearing.value, 2),
            hearing_saves_minutes_error: error(why.hearing, 2),
            instead: why.instead.iter().map(|other| self.other(other)).collect(),
            leaving_costs_more_minutes: round(why.leaving.value, 2),
            leaving_costs_more_minutes_error: error(why.leaving, 2),
            heads: Heads::of(why),
        }
    }

    fn other(&self, other: &Instead) -> Other {
        let (model, size) = self.name(other.candidate);
        let role = |role: &Role| match role {
            Role::NextBest => "next-best".to_owned(),
            Role::Rule(_) => "shop".to_owned(),
            Role::Computed => "computed".to_owned(),
        };
        let rule = other.roles.iter().find_map(|role| if let Role::Rule(rule) = role { Some(*rule) } else { None });
        Other {
            model,
            size,
            roles: other.roles.iter().map(role).collect(),
            note: rule.and_then(|rule| self.note(Source::Rule(rule))),
            fit_probability: probability(other.fit),
            fit_probability_error: error(other.fit, 4),
            minutes: round(other.minutes.value, 2),
            minutes_error: error(other.minutes, 2),
            to_the_end: ToTheEnd::of(&other.rest),
            verdict: match other.verdict() {
                Verdict::Worse => "worse",
                Verdict::Alike => "alike",
                Verdict::Better => "better",
            }
            .to_owned(),
            costs_more_minutes: round(other.more.value, 2),
            costs_more_minutes_error: error(other.more, 2),
            shares: SharesOfMore::of(&other.shares),
            hearing_saves_minutes: round(other.hearing.value, 2),
            hearing_saves_minutes_error: error(other.hearing, 2),
            costs_more_minutes_without_the_choice: other.more_without.map(|more| round(more.value, 2)),
            costs_more_minutes_without_the_choice_error: other.more_without.map(|more| error(more, 2)),
        }
    }
}

impl ToTheEnd {
    fn of(rest: &ToCome) -> Self {
        Self {
            expected_tries: round(rest.tries.value, 3),
            expected_tries_error: error(rest.tries, 3),
            expected_minutes: round(rest.minutes.value, 2),
            expected_minutes_error: error(rest.minutes, 2),
            no_fit_probability: probability(rest.no_fit),
            no_fit_probability_error: error(rest.no_fit, 4),
            cost_minutes: round(rest.cost.value, 2),
            cost_minutes_error: error(rest.cost, 2),
        }
    }
}

impl SharesOfMore {
    fn of(shares: &Shares) -> Self {
        Self {
            pads: round(shares.pads.value, 2),
            pads_error: error(shares.pads, 2),
            fails: round(shares.fails.value, 2),
            fails_error: error(shares.fails, 2),
            unheard: round(shares.unheard.value, 2),
            unheard_error: error(shares.unheard, 2),
            heard: round(shares.heard.value, 2),
            heard_error: error(shares.heard, 2),
        }
    }
}
