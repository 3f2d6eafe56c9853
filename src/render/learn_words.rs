//! The words of what was learned from journals, the same on every kind of page.

use super::text::{percent, thousands};
use crate::catalogue::Catalogue;
use crate::head::Measure;
use crate::learn::{Belief, Difference, KeptApart, Learned, LearnedModel, Question, Score, Scores, Verdict};
use crate::profile::{Measurer, Tool};
use itertools::Itertools;

/// Where nobody judges.
pub(super) const NO_JUDGES: &str = "Nobody was kept apart who tried anything.";

/// What the error of a score is.
pub(super) const SCORE_ERROR: &str = "±: two standard errors of the customers who came.";

/// How to take changes over.
pub(super) const TAKE_OVER: &str = "As changes of the files: the same command with --profiles DIR --format patch. \
     Nothing is changed before you do.";

/// How much was heard.
pub(super) fn heard(learned: &Learned) -> String {
    let tried = learned.models.iter().filter(|model| model.tries > 0).count();
    format!(
        "{} customers, {} tries; {tried} of {} models were tried.",
        thousands(learned.customers),
        thousands(learned.tries),
        learned.models.len()
    )
}

/// That it is too little to learn from, where it is.
pub(super) fn too_little(catalogue: &Catalogue, learned: &Learned) -> Option<String> {
    let least = catalogue.shop.learning.least_customers;
    #[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
    let is_little = (learned.customers as f64) < least;
    is_little.then(|| {
        format!(
            "That is too little to change anything (fewer than {least}): all figures stay near those of the profiles."
        )
    })
}

/// Who judges what was learned.
pub(super) fn judges(question: &Question<'_>, scores: &Scores) -> String {
    let who = match question.kept_apart {
        KeptApart::Some => "whenever they came",
        KeptApart::Latest => "those who came last",
    };
    format!(
        "{} customers with {} tries, {who}: {} of the tries ended with a fit. How well that was foretold (0 is best):",
        thousands(scores.customers),
        thousands(scores.tries),
        percent(share(scores.fits, scores.tries))
    )
}

/// By how much forecasts became better or worse.
pub(super) fn difference(difference: Difference) -> String {
    let better = if difference.mean < 0.0 { "worse" } else { "better" };
    format!("{better} by {:.3}±{:.3}", difference.mean.abs(), 2.0 * difference.error)
}

/// What was said against what happened.
pub(super) fn reliability(score: &Score) -> String {
    let rows = score.reliability.iter().map(|row| {
        format!("{} said, {} of {} fitted", percent(row.said), percent(row.happened()), thousands(row.count))
    });
    rows.collect_vec().join("; ")
}

/// The changes that are proposed; `arrow` stands between before and now.
pub(super) fn changes(catalogue: &Catalogue, learned: &Learned, arrow: &str) -> Vec<String> {
    let mut changes = Vec::new();
    for model in &learned.models {
        let name = name(catalogue, model);
        if model.verdict == Verdict::Change {
            changes.push(format!("{name}: shape index {}", from_to(model.index, arrow)));
        }
        for shell in model.shells.iter().filter(|shell| shell.verdict == Verdict::Change) {
            changes.push(format!("{name}, shell {}: sizes {}", shell.id, larger(shell.centre, arrow)));
        }
    }
    for method in learned.measuring.iter().filter(|method| method.verdict == Verdict::Change) {
        changes.push(format!("{}: error {} mm", way(method.by, method.with), from_to(method.sd, arrow)));
    }
    if learned.misreport_verdict == Verdict::Change {
        changes.push(format!("misreported reasons: {}", rates(learned.misreport, arrow)));
    }
    if let (Verdict::Change, Some(own)) = (learned.population.verdict, &learned.population.own) {
        changes.push(format!("a population of our own, `{}`: {}", own.id, shifts(learned)));
    }
    changes
}

/// The models that nobody tried.
pub(super) fn untried(catalogue: &Catalogue, learned: &Learned) -> Option<String> {
    let untried = learned.models.iter().filter(|model| model.tries == 0).map(|model| name(catalogue, model));
    let untried = untried.collect_vec();
    (!untried.is_empty()).then(|| format!("Not tried: {}.", untried.join(", ")))
}

/// What was learned of readings, reasons and customers.
pub(super) fn shop(learned: &Learned, arrow: &str) -> Vec<String> {
    let methods = learned.measuring.iter().filter(|method| method.readings > 0).map(|method| {
        format!(
            "{}: error {} mm from {} readings - {}",
            way(method.by, method.with),
            from_to(method.sd, arrow),
            thousands(method.readings),
            word(method.verdict)
        )
    });
    let misreports = format!(
        "misreported reasons: {} from {} failures - {}",
        rates(learned.misreport, arrow),
        thousands(learned.failures),
        word(learned.misreport_verdict)
    );
    let population = &learned.population;
    let heads = format!(
        "heads against `{}`, from {} measured ones: {} - {}",
        population.from,
        thousands(population.heads),
        shifts(learned),
        word(population.verdict)
    );
    methods.chain([misreports, heads]).collect()
}

/// Models of which more tries would tell more.
pub(super) fn more_tries(catalogue: &Catalogue, learned: &Learned) -> Option<String> {
    let vague = learned.models.iter().filter(|model| model.verdict == Verdict::Vague);
    let words = vague.map(|model| match model.more_tries {
        Some(tries) => format!("{} (about {tries} more)", name(catalogue, model)),
        None => name(catalogue, model).to_owned(),
    });
    let words = words.collect_vec();
    (!words.is_empty()).then(|| format!("{}.", words.join(", ")))
}

/// How people call a model.
pub(super) fn name<'a>(catalogue: &'a Catalogue, model: &'a LearnedModel) -> &'a str {
    catalogue.model(model.id.as_str()).map_or(model.id.as_str(), |known| known.name.as_str())
}

/// So many tries.
pub(super) fn tries(count: usize) -> String {
    if count == 1 { "1 try".to_owned() } else { format!("{} tries", thousands(count)) }
}

/// What is to become of a figure.
pub(super) fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Change => "change it",
        Verdict::Silent => "nothing heard",
        Verdict::TooFew => "too few customers",
        Verdict::Vague => "known hardly better",
        Verdict::Confirmed => "as it was",
        Verdict::Worse => "moved, but it foretells worse",
        Verdict::Measured => "moved, but a measured inside comes first: measure it again",
    }
}

/// A figure before and now.
pub(super) fn from_to(figure: [Belief; 2], arrow: &str) -> String {
    figure.map(one_decimal).join(arrow)
}

/// How much larger than labelled sizes are, before and now.
pub(super) fn larger(centre: [Belief; 2], arrow: &str) -> String {
    format!("{} mm", centre.map(signed).join(arrow))
}

/// A figure with its standard deviation.
fn one_decimal(belief: Belief) -> String {
    format!("{:.1}±{:.1}", belief.mean, belief.sd)
}

/// The same with its sign; what rounds to 0 is no less than it.
fn signed(belief: Belief) -> String {
    format!("{:+.1}±{:.1}", (belief.mean * 10.0).round() / 10.0 + 0.0, belief.sd)
}

/// A rate before and now.
fn rates(rates: [Belief; 2], arrow: &str) -> String {
    rates.map(|rate| format!("{:.0}±{:.0} %", 100.0 * rate.mean, 100.0 * rate.sd)).join(arrow)
}

/// How the heads that come in differ from those of the population.
fn shifts(learned: &Learned) -> String {
    let population = &learned.population;
    let one = |measure: Measure| {
        let [_, now] = population.shift[measure.index()];
        format!("{} {}", measure.name(), signed(now))
    };
    let [_, spread] = population.spread;
    format!("{} mm; spread times {:.2}±{:.2}", Measure::ALL.map(one).join(", "), spread.mean, spread.sd)
}

/// Who measures with what.
fn way(by: Measurer, with: Tool) -> String {
    let by = match by {
        Measurer::Staff => "staff",
        Measurer::Customer => "customer",
    };
    let with = match with {
        Tool::Tape => "tape",
        Tool::Caliper => "caliper",
        Tool::Ruler => "ruler",
        Tool::Phone => "phone",
    };
    format!("{by} with {with}")
}

#[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
fn share(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 / whole as f64 }
}
