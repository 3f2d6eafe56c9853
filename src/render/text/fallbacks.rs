//! The shop's rules, for people.

use super::page::{Page, bold};
use crate::fallback::{Excerpt, Onward, Question};
use crate::profile::{Edge, Model, Reason};
use crate::render::rule_words::{
    self, LEFT_OUT, NO_RULE, NONE, any_of, by_nature, counts, one_by_one, silent, size, stop,
};
use crate::unit::Id;
use itertools::Itertools;

/// Columns of the longest reason.
const REASON: usize = 19;

/// The rules that were asked for, model by model or way by way, and how many there are.
#[must_use]
pub fn fallbacks(excerpt: &Excerpt<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    match &excerpt.question {
        Question::All => {
            headed(&mut page, "RULES:", "what the shop tries next, and why");
            by_model(&mut page, excerpt);
        }
        Question::For(reasons) => {
            headed(&mut page, "RULES", &format!("for {}", any_of(reasons)));
            by_model(&mut page, excerpt);
        }
        Question::About(model) => about(&mut page, excerpt, model),
        Question::Ways(model, reasons) => ways(&mut page, excerpt, model, reasons),
    }
    summary(&mut page, excerpt);
    page.cautions(cautions);
    page.finish()
}

/// One paragraph for each model.
fn by_model(page: &mut Page, excerpt: &Excerpt<'_>) {
    let is_all = excerpt.question == Question::All;
    for model in &excerpt.models {
        let rules = excerpt.rules.iter().map(|(_, edge)| *edge).filter(|edge| edge.from == model.id).collect_vec();
        if is_all || !rules.is_empty() {
            page.line("");
            page.wrapped("", &title(model));
            under_kinds(page, &rules, |edge| format!("-> {}", target(excerpt, edge)));
        }
    }
}

/// What a model leads to, and what leads to it.
fn about<'a>(page: &mut Page, excerpt: &Excerpt<'a>, model: &'a Id) {
    let name = excerpt.name(model);
    let rules = |is_meant: &dyn Fn(&Edge) -> bool| {
        excerpt.rules.iter().map(|(_, edge)| *edge).filter(|edge| is_meant(edge)).collect_vec()
    };
    headed(page, "FROM", &format!("{name} ({model})"));
    under_kinds(page, &rules(&|edge| edge.from == *model), |edge| format!("-> {}", target(excerpt, edge)));
    page.line("");
    headed(page, "TO", name);
    let source = |edge: &Edge| format!("<- {}, {}: {}", excerpt.name(&edge.from), size(edge), edge.note);
    under_kinds(page, &rules(&|edge| edge.to == *model), source);
}

/// Rules under the kinds of their reasons.
fn under_kinds(page: &mut Page, rules: &[&Edge], words: impl Fn(&Edge) -> String) {
    if rules.is_empty() {
        page.line(&format!("  {NONE}"));
    }
    for (nature, rules) in by_nature(rules) {
        page.line(&format!("  {}", rule_words::kind(nature)));
        for edge in rules {
            page.hanging(&format!("    {:<REASON$} ", edge.reason.id()), 4 + REASON + 4, &words(edge));
        }
    }
}

/// Every way for the reasons one after the other.
fn ways<'a>(page: &mut Page, excerpt: &Excerpt<'a>, model: &'a Id, reasons: &[Reason]) {
    headed(page, "WAYS", &format!("from {} ({model}), if {}", excerpt.name(model), one_by_one(reasons)));
    if let Some(onward) = &excerpt.ways {
        branch(page, excerpt, onward, 1);
    }
}

fn branch(page: &mut Page, excerpt: &Excerpt<'_>, onward: &Onward, depth: usize) {
    let indent = "  ".repeat(depth);
    match onward {
        Onward::Arrived => {}
        Onward::Silent(reason) => page.wrapped(&indent, &silent(*reason)),
        Onward::LeftOut => page.wrapped(&indent, LEFT_OUT),
        Onward::Steps(steps) => {
            for step in steps {
                let Some(edge) = excerpt.rule(step.rule) else { continue };
                page.hanging(&format!("{indent}{} -> ", edge.reason.id()), indent.len() + 4, &target(excerpt, edge));
                if let Some(words) = stop(excerpt, edge) {
                    page.wrapped(&format!("{indent}  "), &words);
                }
                branch(page, excerpt, &step.then, depth + 1);
            }
        }
    }
}

fn summary(page: &mut Page, excerpt: &Excerpt<'_>) {
    page.line("");
    if excerpt.rules.is_empty() {
        page.line(NO_RULE);
        return;
    }
    page.line(&counts(excerpt));
    for circle in &excerpt.circles {
        page.hanging("  circle: ", 4, &rule_words::circle(excerpt, circle, " -> "));
    }
}

/// A heading that may be longer than a line.
fn headed(page: &mut Page, heading: &str, words: &str) {
    page.hanging(&format!("{} ", bold(heading)), 2, words);
}

fn title(model: &Model) -> String {
    format!("{} ({}, {})", model.name, model.id, model.kind.name())
}

fn target(excerpt: &Excerpt<'_>, edge: &Edge) -> String {
    format!("{}, {}: {}", excerpt.name(&edge.to), size(edge), edge.note)
}
