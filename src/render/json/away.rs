//! What to send a customer who is away as a document: `lidladder.away/1`.

use super::common::{Head, Warning, error, pads, probability, round};
use crate::away::{Ask, Order, Proposal, Sent, Verdict};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::plan::Gain;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What to send a customer who measured at home. Amounts are in minor units of the currency.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "An order of lidladder for a customer who is away", extend("$id" = "urn:lidladder:away:1"))]
pub struct AwayDocument {
    /// `lidladder.away/1`.
    #[schemars(extend("const" = "lidladder.away/1"))]
    schema: String,
    seed: u64,
    head: Head,
    verdict: VerdictWord,
    /// The best single helmet; nothing where none fits anybody.
    one: Option<ProposalBody>,
    /// The best two helmets, chosen together; one of them comes back in any case.
    two: Option<ProposalBody>,
    visit_cost_minor: u64,
    /// An order that fits with a smaller chance isn't proposed.
    least_chance: f64,
    /// By how much the verdict is cheaper than the next way that could be proposed.
    lead_minor: Option<f64>,
    lead_error_minor: Option<f64>,
    currency: String,
    /// Chance that the best single helmet fits, as things stand.
    first_fit: f64,
    /// What another measure from home would change, the most worth taking first.
    measure_next: Vec<GainBody>,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum VerdictWord {
    SendOne,
    SendTwo,
    ComeIn,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ProposalBody {
    helmets: Vec<SentBody>,
    /// Chance that one of them fits as it comes out of the box.
    fit_probability: f64,
    fit_probability_error: f64,
    /// What it is expected to cost shop and customer together.
    expected_cost_minor: f64,
    expected_cost_error_minor: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SentBody {
    model: String,
    size: String,
    /// The pads in it, mm by zone; the shop mounts them.
    pads: BTreeMap<String, f64>,
    swap_minutes: f64,
    /// Of the helmet with its standard pads.
    price_minor: u64,
    /// The least that the other pads cost.
    pads_price_minor: u64,
    fit_probability: f64,
    fit_probability_error: f64,
    /// Chance that it fits and the other one doesn't.
    only_fit_probability: f64,
    only_fit_probability_error: f64,
    /// Means of the heads that only this one fits.
    only_fits: Option<MeansBody>,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MeansBody {
    circumference_mm: f64,
    shape_index: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GainBody {
    /// circumference, length, breadth or face width.
    measure: String,
    /// Standard deviation that was assumed: the mean of three readings by the customer.
    reading_sd_mm: f64,
    /// Expected chance that the best single helmet then fits.
    first_fit: f64,
}

/// The document of an order.
#[must_use]
pub fn away(
    catalogue: &Catalogue,
    ask: &Ask<'_>,
    order: &Order<'_>,
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> AwayDocument {
    let proposal = |proposal: &Proposal| ProposalBody::of(proposal, &order.candidates);
    AwayDocument {
        schema: "lidladder.away/1".to_owned(),
        seed: ask.customer.seed,
        head: Head::of(&ask.customer, &order.head),
        verdict: match order.verdict {
            Verdict::One => VerdictWord::SendOne,
            Verdict::Two => VerdictWord::SendTwo,
            Verdict::ComeIn => VerdictWord::ComeIn,
        },
        one: order.one.as_ref().map(proposal),
        two: order.two.as_ref().map(proposal),
        visit_cost_minor: order.visit.minor(),
        least_chance: catalogue.shop.away.least_chance,
        lead_minor: order.lead.map(|lead| round(lead.value, 0)),
        lead_error_minor: order.lead.map(|lead| error(lead, 0)),
        currency: catalogue.shop.currency.to_string(),
        first_fit: round(order.advice.first_fit, 4),
        measure_next: order.advice.gains.iter().map(GainBody::of).collect(),
        warnings,
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

impl ProposalBody {
    fn of(proposal: &Proposal, candidates: &[Candidate<'_>]) -> Self {
        let Quote { value, .. } = proposal.cost;
        Self {
            helmets: proposal.sent.iter().map(|sent| SentBody::of(sent, &candidates[sent.candidate])).collect(),
            fit_probability: probability(proposal.chance),
            fit_probability_error: error(proposal.chance, 4),
            expected_cost_minor: round(value, 0),
            expected_cost_error_minor: error(proposal.cost, 0),
        }
    }
}

impl SentBody {
    fn of(sent: &Sent, candidate: &Candidate<'_>) -> Self {
        Self {
            model: candidate.model.id.to_string(),
            size: candidate.size.label.to_string(),
            pads: pads(&sent.pads),
            swap_minutes: round(sent.minutes, 2),
            price_minor: candidate.model.price.minor(),
            pads_price_minor: sent.price.minor(),
            fit_probability: probability(sent.fit),
            fit_probability_error: error(sent.fit, 4),
            only_fit_probability: probability(sent.alone),
            only_fit_probability_error: error(sent.alone, 4),
            only_fits: sent.whom.map(|means| MeansBody {
                circumference_mm: round(means.circumference, 1),
                shape_index: round(means.shape_index, 1),
            }),
        }
    }
}

impl GainBody {
    fn of(gain: &Gain) -> Self {
        Self {
            measure: gain.measure.name().to_owned(),
            reading_sd_mm: round(gain.reading_sd, 2),
            first_fit: round(gain.first_fit, 4),
        }
    }
}
