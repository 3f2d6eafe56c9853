//! An audit as a document: `lidladder.audit/1`.

use super::common::{error, round};
use crate::audit::{Audit, Change, Lead, Question, RuleFacts, Takes, Targets, Verified, Weighed};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use schemars::JsonSchema;
use serde::Serialize;

/// The shop's rules weighed against the computation.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "An audit of lidladder", extend("$id" = "urn:lidladder:audit:1"))]
pub struct AuditDocument {
    /// `lidladder.audit/1`.
    #[schemars(extend("const" = "lidladder.audit/1"))]
    schema: String,
    seed: u64,
    population: String,
    measured: Vec<MeasuredBody>,
    /// Steps in which readings are written down.
    reading_step_mm: f64,
    /// any type, or same type: where changes may lead.
    targets: String,
    customers: usize,
    /// How many different readings were written down.
    different_readings: usize,
    /// Most helmets that a customer tries.
    tries: usize,
    /// What going without a helmet counts.
    go_without_minutes: f64,
    /// Following the shop's rules from the first of the ranking on; where there is none the customer leaves.
    shop_rules: TakesBody,
    /// Following the computed plan.
    computed_plan: TakesBody,
    /// Following the best order that doesn't listen to reasons.
    fixed_order: TakesBody,
    /// The rules that were followed, in the order of the file.
    rules: Vec<RuleBody>,
    /// Geometric rules that nobody followed.
    unused_rules: Vec<RuleName>,
    /// Rules that geometry can't weigh.
    unweighed_rules: usize,
    /// Where customers leave because there is no rule, most of them first.
    silences: Vec<SilenceBody>,
    /// On how many customers changes were weighed.
    weighed_on: usize,
    /// Every single change, the best first.
    changes: Vec<ChangeBody>,
    /// Rules that cost more than the sampling error, each with its best change.
    misleading: Vec<WeighedBody>,
    /// The best changes that go together, each the best after those before it.
    together: Vec<WeighedBody>,
    /// All of these made, on other customers.
    verified: VerifiedBody,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct MeasuredBody {
    measure: String,
    /// Standard deviation of a reading, rounding included.
    sd_mm: f64,
}

/// A figure with its sampling error (four standard errors).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FigureBody {
    value: f64,
    error: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TakesBody {
    /// Helmets put on.
    tries: FigureBody,
    /// Minutes of the tries.
    minutes: FigureBody,
    /// Share without a fit, 0 to 1.
    no_fit: FigureBody,
    /// Minutes of the tries, going without counted.
    minutes_in_all: FigureBody,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RuleName {
    from: String,
    reason: String,
    to: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RuleBody {
    from: String,
    reason: String,
    to: String,
    note: String,
    /// Share of all customers who go this way, 0 to 1.
    used: f64,
    /// Of them, the share that it then fits.
    fits: FigureBody,
    /// Of them, those whom the target fails, by true reason.
    fails: Vec<FailBody>,
    /// The model that would fit most of them; null where none fits any.
    best: Option<BestBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FailBody {
    reason: String,
    share: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BestBody {
    model: String,
    fits: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SilenceBody {
    from: String,
    reason: String,
    /// Share of all customers who leave here, 0 to 1.
    share: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ChangeBody {
    from: String,
    reason: String,
    /// The target that is taken away; null where a rule is added.
    dropped: Option<String>,
    /// The target that is put in, in any size; null where a rule is only taken away. The same as `dropped`: the rule
    /// stays, its size is left open.
    put: Option<String>,
    /// Minutes in all that a customer saves on average.
    saves: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WeighedBody {
    from: String,
    reason: String,
    /// The target that is taken away; null where a rule is added.
    dropped: Option<String>,
    /// The target that is put in, in any size; null where a rule is only taken away.
    put: Option<String>,
    /// Minutes in all that a customer saves on average.
    saves: FigureBody,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct VerifiedBody {
    before: TakesBody,
    after: TakesBody,
    saves: FigureBody,
}

/// The document of an audit.
#[must_use]
pub fn audit(catalogue: &Catalogue, question: &Question<'_>, audit: &Audit<'_>, cautions: &[&str]) -> AuditDocument {
    let names = Names(catalogue);
    AuditDocument {
        schema: "lidladder.audit/1".to_owned(),
        seed: question.seed,
        population: question.population.id.to_string(),
        measured: measured(question),
        targets: targets(question),
        reading_step_mm: question.reading_step,
        customers: audit.heads,
        different_readings: audit.readings,
        tries: question.tries,
        go_without_minutes: catalogue.shop.minutes.go_without,
        shop_rules: TakesBody::of(&audit.graph),
        computed_plan: TakesBody::of(&audit.computed),
        fixed_order: TakesBody::of(&audit.fixed_order),
        rules: audit.rules.iter().filter_map(|facts| names.rule(facts)).collect(),
        unused_rules: audit.unused.iter().filter_map(|rule| names.edge(*rule)).collect(),
        unweighed_rules: audit.unweighed,
        silences: audit
            .silences
            .iter()
            .map(|silence| SilenceBody {
                from: names.model(silence.spot.from),
                reason: silence.spot.reason.id().to_owned(),
                share: round(silence.share, 6),
            })
            .collect(),
        weighed_on: audit.weighed_on,
        changes: audit.changes.iter().map(|(change, saved)| names.change(*change, *saved)).collect(),
        misleading: audit.misleading.iter().map(|weighed| names.weighed(weighed)).collect(),
        together: audit.together.iter().map(|weighed| names.weighed(weighed)).collect(),
        verified: VerifiedBody::of(&audit.verified),
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

pub(super) fn targets(question: &Question<'_>) -> String {
    match question.targets {
        Targets::AnyType => "any type".to_owned(),
        Targets::SameType => "same type".to_owned(),
    }
}

pub(super) fn measured(question: &Question<'_>) -> Vec<MeasuredBody> {
    let body =
        |(measure, sd): &(crate::head::Measure, f64)| MeasuredBody { measure: measure.name().to_owned(), sd_mm: *sd };
    question.measured.iter().map(body).collect()
}

impl VerifiedBody {
    pub(super) fn of(verified: &Verified) -> Self {
        Self {
            before: TakesBody::of(&verified.before),
            after: TakesBody::of(&verified.after),
            saves: FigureBody::of(verified.saves, 3),
        }
    }
}

impl FigureBody {
    fn of(quote: Quote, digits: i32) -> Self {
        Self { value: round(quote.value, digits), error: error(quote, digits) }
    }
}

impl TakesBody {
    fn of(takes: &Takes) -> Self {
        Self {
            tries: FigureBody::of(takes.tries, 3),
            minutes: FigureBody::of(takes.minutes, 3),
            no_fit: FigureBody::of(takes.no_fit, 5),
            minutes_in_all: FigureBody::of(takes.in_all, 3),
        }
    }
}

/// What the numbers of an audit are called.
struct Names<'n>(&'n Catalogue);

impl Names<'_> {
    fn model(&self, model: usize) -> String {
        self.0.models()[model].id.to_string()
    }

    fn edge(&self, rule: usize) -> Option<RuleName> {
        let edge = self.0.edges().get(rule)?;
        Some(RuleName { from: edge.from.to_string(), reason: edge.reason.id().to_owned(), to: edge.to.to_string() })
    }

    fn rule(&self, facts: &RuleFacts) -> Option<RuleBody> {
        let RuleName { from, reason, to } = self.edge(facts.rule)?;
        let fail = |(reason, share): &(crate::profile::Reason, f64)| FailBody {
            reason: reason.id().to_owned(),
            share: round(*share, 4),
        };
        Some(RuleBody {
            from,
            reason,
            to,
            note: self.0.edges()[facts.rule].note.clone(),
            used: round(facts.used, 6),
            fits: FigureBody::of(facts.fits, 4),
            fails: facts.fails.iter().map(fail).collect(),
            best: facts.best.map(|(model, fits)| BestBody { model: self.model(model), fits: round(fits, 4) }),
        })
    }

    fn change(&self, change: Change, saved: f64) -> ChangeBody {
        let (dropped, put) = self.targets(change);
        ChangeBody {
            from: self.model(change.spot.from),
            reason: change.spot.reason.id().to_owned(),
            dropped,
            put,
            saves: round(saved, 4),
        }
    }

    fn weighed(&self, weighed: &Weighed) -> WeighedBody {
        let (dropped, put) = self.targets(weighed.change);
        WeighedBody {
            from: self.model(weighed.change.spot.from),
            reason: weighed.change.spot.reason.id().to_owned(),
            dropped,
            put,
            saves: FigureBody::of(weighed.saves, 3),
        }
    }

    fn targets(&self, change: Change) -> (Option<String>, Option<String>) {
        (change.dropped.map(|Lead { to, .. }| self.model(to)), change.put.map(|to| self.model(to)))
    }
}
