//! A proposed graph as a document: `lidladder.proposal/1`.

use super::audit::{MeasuredBody, VerifiedBody, measured, targets};
use super::common::round;
use crate::audit::{Proposal, ProposedRule, Question, Spot};
use crate::catalogue::Catalogue;
use schemars::JsonSchema;
use serde::Serialize;

/// Rules from the computation.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A proposal of lidladder", extend("$id" = "urn:lidladder:proposal:1"))]
pub struct ProposalDocument {
    /// `lidladder.proposal/1`.
    #[schemars(extend("const" = "lidladder.proposal/1"))]
    schema: String,
    seed: u64,
    population: String,
    measured: Vec<MeasuredBody>,
    /// any type, or same type: where changes may lead.
    targets: String,
    customers: usize,
    /// The proposed rules, by model and reason.
    rules: Vec<ProposedBody>,
    /// What is heard from too few customers for a rule.
    rare: Vec<SpotBody>,
    /// Where nothing is worth its minutes.
    hopeless: Vec<SpotBody>,
    /// How many of the shop's own rules are kept.
    kept: usize,
    /// The shop's rules and the proposed ones, on other customers.
    verified: VerifiedBody,
    /// A whole `fallbacks.yaml`.
    yaml: String,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ProposedBody {
    from: String,
    reason: String,
    to: String,
    /// Share of the customers who say so when the model goes on first, 0 to 1.
    heard: f64,
    /// Of these, the share that the target fits.
    fits: f64,
    /// The other model that fits most of them; null where none does.
    other: Option<OtherBody>,
    /// Whether the shop has this rule, too.
    shop_has_it: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OtherBody {
    model: String,
    fits: f64,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SpotBody {
    from: String,
    reason: String,
}

/// The document of a proposal; `yaml` is the file that it proposes.
#[must_use]
pub fn proposal(
    catalogue: &Catalogue,
    question: &Question<'_>,
    proposal: &Proposal,
    (yaml, cautions): (String, &[&str]),
) -> ProposalDocument {
    let id = |model: usize| catalogue.models()[model].id.to_string();
    let rule = |rule: &ProposedRule| ProposedBody {
        from: id(rule.spot.from),
        reason: rule.spot.reason.id().to_owned(),
        to: id(rule.to),
        heard: round(rule.heard, 6),
        fits: round(rule.fits, 4),
        other: rule.other.map(|(model, fits)| OtherBody { model: id(model), fits: round(fits, 4) }),
        shop_has_it: rule.is_shops,
    };
    let spot = |spot: &Spot| SpotBody { from: id(spot.from), reason: spot.reason.id().to_owned() };
    ProposalDocument {
        schema: "lidladder.proposal/1".to_owned(),
        seed: question.seed,
        population: question.population.id.to_string(),
        measured: measured(question),
        targets: targets(question),
        customers: question.heads,
        rules: proposal.rules.iter().map(rule).collect(),
        rare: proposal.rare.iter().map(spot).collect(),
        hopeless: proposal.hopeless.iter().map(spot).collect(),
        kept: proposal.kept.len(),
        verified: VerifiedBody::of(&proposal.verified),
        yaml,
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}
