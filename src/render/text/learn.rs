//! What was learned from journals, for people.

use super::page::{Page, bold};
use crate::catalogue::Catalogue;
use crate::learn::{Difference, Learned, Question, Scores};
use crate::render::json::Warning;
use crate::render::learn_words::{
    self, NO_JUDGES, SCORE_ERROR, TAKE_OVER, changes, difference, from_to, judges, larger, name, too_little, tries,
    untried, word,
};

/// Between before and now.
const ARROW: &str = " -> ";

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
    page.heading("READINGS, REASONS, CUSTOMERS  before -> now");
    learn_words::shop(learned, ARROW).iter().for_each(|line| page.wrapped("  - ", line));
    if let Some(words) = learn_words::more_tries(catalogue, learned) {
        page.heading("MORE TRIES would tell more");
        page.wrapped("  ", &words);
    }
    page.cautions(cautions);
    page.finish()
}

fn heard(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("HEARD");
    page.wrapped("  ", &learn_words::heard(learned));
    if let Some(words) = too_little(catalogue, learned) {
        page.wrapped("  ", &words);
    }
}

fn judged(page: &mut Page, question: &Question<'_>, learned: &Learned) {
    page.heading("JUDGED by customers who were kept apart");
    let Some(scores) = &learned.scores else {
        page.line(&format!("  {NO_JUDGES}"));
        return;
    };
    page.wrapped("  ", &judges(question, scores));
    page.line(&score("Brier score", (scores.before.brier, scores.after.brier), scores.brier));
    page.line(&score("log score", (scores.before.log, scores.after.log), scores.log));
    page.wrapped("    ", SCORE_ERROR);
    reliability(page, scores);
}

fn score(name: &str, (before, after): (f64, f64), by: Difference) -> String {
    format!("    {name:<11} by the profiles {before:.3}, as learned {after:.3}: {}", difference(by))
}

fn reliability(page: &mut Page, scores: &Scores) {
    for (name, score) in [("by the profiles", &scores.before), ("as learned", &scores.after)] {
        page.hanging(&format!("    {name:<16} "), 21, &learn_words::reliability(score));
    }
}

fn proposed(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("PROPOSED changes of the profiles");
    let changes = changes(catalogue, learned, ARROW);
    if changes.is_empty() {
        page.line("  None.");
        return;
    }
    changes.iter().for_each(|change| page.wrapped("  - ", change));
    page.wrapped("  ", TAKE_OVER);
}

fn helmets(page: &mut Page, catalogue: &Catalogue, learned: &Learned) {
    page.heading("HELMETS  tries, shape index before -> now; sizes in mm of circumference");
    for model in learned.models.iter().filter(|model| model.tries > 0) {
        let words = format!("{}, index {} - {}", tries(model.tries), from_to(model.index, ARROW), word(model.verdict));
        page.hanging(&bold(&format!("  {}  ", name(catalogue, model))), 6, &words);
        for shell in model.shells.iter().filter(|shell| shell.tries > 0) {
            let words = format!("{}, {} - {}", tries(shell.tries), larger(shell.centre, ARROW), word(shell.verdict));
            page.hanging(&format!("    {}: ", shell.id), 6, &words);
        }
    }
    if let Some(untried) = untried(catalogue, learned) {
        page.wrapped("  ", &untried);
    }
}
