//! What was learned from journals, for people.

use super::audit::thousands;
use super::page::{Page, bold, percent};
use crate::catalogue::Catalogue;
use crate::head::Measure;
use crate::learn::{Belief, Difference, KeptApart, Learned, LearnedModel, Question, Scores, Verdict};
use crate::profile::{Measurer, Tool};
use crate::render::json::Warning;
use itertools::Itertools;

/// The page.
#[must_use]
pub fn learn(
    catalogue: &Catalogue,
    question: &Question<'_>,
    learned: &Learned,
    (warnings, cautions): (&[Warning], &[&str]),
) -> String {
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    heard(&mut page, catalogue, learned);
    judged(&mut page, question, learned);
    proposed(&mut page, catalogue, learned);
    helmets(&mut page, catalogue, learned);
    shop(&mut page, learned);
    more_tries(&mut page, catalogue, learned);
    page.cautions(cautions);
    page.finish()
}

fn heard(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("HEARD");
    let tried = learned.models.iter().filter(|model| model.tries > 0).count();
    page.wrapped(
        "  ",
        &format!(
            "{} customers, {} tries; {tried} of {} models were tried.",
            thousands(learned.customers),
            thousands(learned.tries),
            learned.models.len()
        ),
    );
    let least = catalogue.shop.learning.least_customers;
    #[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
    if (learned.customers as f64) < least {
        page.wrapped(
            "  ",
            &format!("That is too little to change anything (fewer than {least}): all figures stay near those of the profiles."),
        );
    }
}

fn judged(page: &mut Page, question: &Question<'_>, learned: &Learned) {
    page.heading("JUDGED by customers who were kept apart");
    let Some(scores) = &learned.scores else {
        page.line("  Nobody was kept apart who tried anything.");
        return;
    };
    let who = match question.kept_apart {
        KeptApart::Some => "whenever they came",
        KeptApart::Latest => "those who came last",
    };
    page.wrapped(
        "  ",
        &format!(
            "{} customers with {} tries, {who}: {} of the tries ended with a fit. How well that was foretold (0 is best):",
            thousands(scores.customers),
            thousands(scores.tries),
            percent(share(scores.fits, scores.tries))
        ),
    );
    page.line(&score("Brier score", (scores.before.brier, scores.after.brier), scores.brier));
    page.line(&score("log score", (scores.before.log, scores.after.log), scores.log));
    page.wrapped("    ", "±: two standard errors of the customers who came.");
    reliability(page, scores);
}

fn score(name: &str, (before, after): (f64, f64), difference: Difference) -> String {
    let better = if difference.mean < 0.0 { "worse" } else { "better" };
    let by = format!("{better} by {:.3}±{:.3}", difference.mean.abs(), 2.0 * difference.error);
    format!("    {name:<11} by the profiles {before:.3}, as learned {after:.3}: {by}")
}

fn reliability(page: &mut Page, scores: &Scores) {
    for (name, score) in [("by the profiles", &scores.before), ("as learned", &scores.after)] {
        let rows = score.reliability.iter().map(|row| {
            format!("{} said, {} of {} fitted", percent(row.said), percent(row.happened()), thousands(row.count))
        });
        page.hanging(&format!("    {name:<16} "), 21, &rows.collect_vec().join("; "));
    }
}

fn proposed(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("PROPOSED changes of the profiles");
    let mut changes = Vec::new();
    for model in &learned.models {
        let name = name(catalogue, model);
        if model.verdict == Verdict::Change {
            changes.push(format!("{name}: shape index {}", from_to(model.index)));
        }
        for shell in model.shells.iter().filter(|shell| shell.verdict == Verdict::Change) {
            changes.push(format!("{name}, shell {}: sizes {}", shell.id, larger(shell.centre)));
        }
    }
    for method in learned.measuring.iter().filter(|method| method.verdict == Verdict::Change) {
        changes.push(format!("{}: error {} mm", way(method.by, method.with), from_to(method.sd)));
    }
    if learned.misreport_verdict == Verdict::Change {
        changes.push(format!("misreported reasons: {}", rates(learned.misreport)));
    }
    if let (Verdict::Change, Some(own)) = (learned.population.verdict, &learned.population.own) {
        changes.push(format!("a population of our own, `{}`: {}", own.id, shifts(learned)));
    }
    if changes.is_empty() {
        page.line("  None.");
        return;
    }
    changes.iter().for_each(|change| page.wrapped("  - ", change));
    page.wrapped("  ", "As changes of the files: the same command with --profiles DIR --format patch. Nothing is changed before you do.");
}

fn helmets(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("HELMETS  tries, shape index before -> now; sizes in mm of circumference");
    for model in learned.models.iter().filter(|model| model.tries > 0) {
        let words = format!("{}, index {} - {}", tries(model.tries), from_to(model.index), word(model.verdict));
        page.hanging(&bold(&format!("  {}  ", name(catalogue, model))), 6, &words);
        for shell in model.shells.iter().filter(|shell| shell.tries > 0) {
            let words = format!("{}, {} - {}", tries(shell.tries), larger(shell.centre), word(shell.verdict));
            page.hanging(&format!("    {}: ", shell.id), 6, &words);
        }
    }
    let untried = learned.models.iter().filter(|model| model.tries == 0).map(|model| name(catalogue, model));
    let untried = untried.collect_vec();
    if !untried.is_empty() {
        page.wrapped("  ", &format!("Not tried: {}.", untried.join(", ")));
    }
}

fn shop(page: &mut Page, learned: &Learned) {
    page.heading("READINGS, REASONS, CUSTOMERS  before -> now");
    for method in learned.measuring.iter().filter(|method| method.readings > 0) {
        let words = format!(
            "{}: error {} mm from {} readings - {}",
            way(method.by, method.with),
            from_to(method.sd),
            thousands(method.readings),
            word(method.verdict)
        );
        page.wrapped("  - ", &words);
    }
    let words = format!(
        "misreported reasons: {} from {} failures - {}",
        rates(learned.misreport),
        thousands(learned.failures),
        word(learned.misreport_verdict)
    );
    page.wrapped("  - ", &words);
    let population = &learned.population;
    let words = format!(
        "heads against `{}`, from {} measured ones: {} - {}",
        population.from,
        thousands(population.heads),
        shifts(learned),
        word(population.verdict)
    );
    page.wrapped("  - ", &words);
}

fn more_tries(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    let vague = learned.models.iter().filter(|model| model.verdict == Verdict::Vague);
    let words = vague.map(|model| match model.more_tries {
        Some(tries) => format!("{} (about {tries} more)", name(catalogue, model)),
        None => name(catalogue, model).to_owned(),
    });
    let words = words.collect_vec();
    if !words.is_empty() {
        page.heading("MORE TRIES would tell more");
        page.wrapped("  ", &format!("{}.", words.join(", ")));
    }
}

fn name<'a>(catalogue: &'a Catalogue, model: &'a LearnedModel) -> &'a str {
    catalogue.model(model.id.as_str()).map_or(model.id.as_str(), |known| known.name.as_str())
}

fn tries(count: usize) -> String {
    if count == 1 { "1 try".to_owned() } else { format!("{} tries", thousands(count)) }
}

fn word(verdict: Verdict) -> &'static str {
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

fn from_to([before, now]: [Belief; 2]) -> String {
    format!("{:.1}±{:.1} -> {:.1}±{:.1}", before.mean, before.sd, now.mean, now.sd)
}

fn larger([before, now]: [Belief; 2]) -> String {
    let signed = |belief: Belief| format!("{:+.1}±{:.1}", (belief.mean * 10.0).round() / 10.0 + 0.0, belief.sd);
    format!("{} -> {} mm", signed(before), signed(now))
}

fn rates([before, now]: [Belief; 2]) -> String {
    let rate = |belief: Belief| format!("{:.0}±{:.0} %", 100.0 * belief.mean, 100.0 * belief.sd);
    format!("{} -> {}", rate(before), rate(now))
}

fn shifts(learned: &Learned) -> String {
    let population = &learned.population;
    let one = |measure: Measure| {
        let [_, now] = population.shift[measure.index()];
        format!("{} {:+.1}±{:.1}", measure.name(), (now.mean * 10.0).round() / 10.0 + 0.0, now.sd)
    };
    let [_, spread] = population.spread;
    format!("{} mm; spread times {:.2}±{:.2}", Measure::ALL.map(one).join(", "), spread.mean, spread.sd)
}

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
