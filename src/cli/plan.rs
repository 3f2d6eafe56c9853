//! `plan`: from a head to an ordered plan.

use super::args::{TypedPictureFormat, TypedPlan};
use super::resolve::Resolver;
use super::{Ending, Output, why};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::fit::{Customer, Estimate};
use crate::plan::{Plan, Query, plan};
use crate::profile::Reason;
use crate::render::json::{self, Warning};
use crate::render::{html, svg, text};
use crate::unit::plain;

pub(super) fn answer(
    typed: &TypedPlan,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let (query, reasons) = query(typed, catalogue, sources)?;
    if let Some(reasons) = reasons {
        return Ok(why::answer(typed, catalogue, &query, &reasons));
    }
    let made = plan(catalogue, &query);
    let warnings = warnings(catalogue, &query, &made);
    let ending = if warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format {
        TypedPictureFormat::Text => text::plan(catalogue, &query, &made, &warnings, text::PLAN_CAUTIONS),
        TypedPictureFormat::Json => json::text(&json::plan(catalogue, &query, &made, (warnings, text::PLAN_CAUTIONS))),
        TypedPictureFormat::Html => html::plan(catalogue, &query, &made, &warnings, text::PLAN_CAUTIONS),
        TypedPictureFormat::Svg => svg::plan(catalogue, &query, &made).file(),
    };
    Ok(Output { text, ending })
}

/// What is asked for, and the reasons of `--why`.
type Asked<'a> = (Query<'a>, Option<Vec<Reason>>);

fn query<'a>(typed: &TypedPlan, catalogue: &'a Catalogue, sources: &mut Sources) -> Result<Asked<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&typed.head, &typed.filter, sources)?;
    let customer = resolver.customer(&notes, &typed.common, catalogue, sources);
    let range = resolver.range(&notes, catalogue);
    let minutes = typed.minutes.as_ref().map(|text| sources.say("--minutes", text.clone()));
    let minutes = minutes.and_then(|said| resolver.number(&said, "a number of minutes, such as 30"));
    let query = customer.zip(range).map(|(customer, range)| Query {
        customer,
        models: range.models,
        absent: range.absent,
        tries: typed.steps.map_or(catalogue.shop.session.tries, usize::from),
        minutes,
        lead: typed.lead.meaning(),
    });
    let reasons = typed.why.as_ref().map(|reasons| {
        reasons.iter().filter_map(|text| resolver.reason(&sources.say("--why", text.clone()))).collect()
    });
    resolver.finish(query.map(|query| (query, reasons)))
}

/// What is odd about a plan.
pub(super) fn warnings(catalogue: &Catalogue, query: &Query<'_>, made: &Plan<'_>) -> Vec<Warning> {
    let mut warnings = head_warnings(catalogue, &query.customer, &made.head);
    let fits = 1.0 - made.totals.no_fit.value;
    if made.first.is_none() || fits < catalogue.shop.session.poor_fit_below {
        let quickest = made.ranking.iter().min_by(|a, b| a.minutes.total_cmp(&b.minutes));
        if let (None, Some(limit), Some(quickest)) = (&made.first, query.minutes, quickest)
            && quickest.minutes > limit
        {
            let title = made.candidates[quickest.candidate].title();
            let message =
                format!("No try fits into {} minutes: {title} alone takes {:.0}.", plain(limit), quickest.minutes);
            warnings.push(Warning { code: "too-little-time".to_owned(), message });
            return warnings;
        }
        let message = if made.first.is_none() {
            "Nothing in this range is worth trying on such a head.".to_owned()
        } else {
            format!(
                "This range serves such a head badly: the chance that the plan ends with a fit is {:.0} %.",
                fits * 100.0
            )
        };
        warnings.push(Warning { code: "poor-fit".to_owned(), message });
    }
    warnings
}

/// What is odd about a head.
pub(super) fn head_warnings(catalogue: &Catalogue, customer: &Customer<'_>, head: &Estimate) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if head.rarity > catalogue.shop.inconsistent_above {
        let message = if customer.readings.len() == 1 {
            "Hardly any head has such a measure: measure again. The figures below take it as it is."
        } else {
            "These measurements hardly ever go together on one head: measure again. The figures below take them as \
             they are."
        };
        warnings.push(Warning { code: "rare-head".to_owned(), message: message.to_owned() });
    }
    if head.effective_heads < FEW_HEADS || head.agreement < FEW_AGREE {
        let message = "What is said of the shape or the present helmet hardly goes with the measurements: hardly any \
                       sampled head agrees with both, so the figures are rough. Check them.";
        warnings.push(Warning { code: "few-heads".to_owned(), message: message.to_owned() });
    }
    warnings
}

/// Below this many effective heads in a set, its figures are rough.
const FEW_HEADS: f64 = 50.0;

/// Below this share of heads that do what was reported, the report is more probably a slip.
const FEW_AGREE: f64 = 0.005;
