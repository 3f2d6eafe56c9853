//! The shop's rules, for people.

use super::page::{Page, bold};
use crate::fallback::{Excerpt, Onward, Question};
use crate::profile::{Edge, Model, Nature, Reason, SizeHint};
use crate::render::diagnostics::numbered;
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
            headed(&mut page, "RULES", &format!("for {}", listed(reasons)));
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
            by_nature(page, &rules, |edge| format!("-> {}", target(excerpt, edge)));
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
    by_nature(page, &rules(&|edge| edge.from == *model), |edge| format!("-> {}", target(excerpt, edge)));
    page.line("");
    headed(page, "TO", name);
    let source = |edge: &Edge| format!("<- {}, {}: {}", excerpt.name(&edge.from), size(edge), edge.note);
    by_nature(page, &rules(&|edge| edge.to == *model), source);
}

/// Rules by the kind of their reasons; of one reason, in the order of the file.
fn by_nature(page: &mut Page, rules: &[&Edge], words: impl Fn(&Edge) -> String) {
    if rules.is_empty() {
        page.line("  no rule");
    }
    for nature in Nature::ALL {
        let rules = rules.iter().filter(|edge| edge.reason.nature() == nature);
        let rules = rules.sorted_by_key(|edge| edge.reason).collect_vec();
        if !rules.is_empty() {
            page.line(heading(nature));
        }
        for edge in rules {
            page.hanging(&format!("    {:<REASON$} ", edge.reason.id()), 4 + REASON + 4, &words(edge));
        }
    }
}

fn heading(nature: Nature) -> &'static str {
    match nature {
        Nature::Geometric => "  geometric",
        Nature::Experience => "  experience",
        Nature::Stop => "  stop: out at once in this model and size, whatever the pads",
    }
}

/// Every way for the reasons one after the other.
fn ways<'a>(page: &mut Page, excerpt: &Excerpt<'a>, model: &'a Id, reasons: &[Reason]) {
    let path = reasons.iter().map(|reason| reason.id()).join(", then ");
    headed(page, "WAYS", &format!("from {} ({model}), if {path}", excerpt.name(model)));
    if let Some(onward) = &excerpt.ways {
        branch(page, excerpt, onward, 1);
    }
}

fn branch(page: &mut Page, excerpt: &Excerpt<'_>, onward: &Onward, depth: usize) {
    let indent = "  ".repeat(depth);
    match onward {
        Onward::Arrived => {}
        Onward::Silent(reason) => page.wrapped(&indent, &format!("{}: the shop has no rule for it here", reason.id())),
        Onward::LeftOut => page.wrapped(&indent, "and so on: more ways than anybody would read are left out"),
        Onward::Steps(steps) => {
            for step in steps {
                let Some(edge) = excerpt.rule(step.rule) else { continue };
                page.hanging(&format!("{indent}{} -> ", edge.reason.id()), indent.len() + 4, &target(excerpt, edge));
                if edge.reason.nature() == Nature::Stop {
                    let from = excerpt.name(&edge.from);
                    let words = format!("(a stop: {from} is out at once in this size, whatever the pads)");
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
        page.line("No rule: the shop has written nothing down for this.");
        return;
    }
    let counts = [
        numbered(excerpt.models.len(), "model"),
        numbered(excerpt.rules.len(), "rule"),
        numbered(excerpt.reasons().len(), "reason"),
        numbered(excerpt.circles.len(), "circle"),
    ];
    page.line(&counts.join(", "));
    for circle in &excerpt.circles {
        let stops = circle.rules.iter().filter_map(|rule| excerpt.rule(*rule)).map(|edge| excerpt.name(&edge.to));
        let round = circle.models.first().map(|id| excerpt.name(id)).into_iter().chain(stops).join(" -> ");
        page.hanging(
            "  circle: ",
            4,
            &format!("{} lead to each other, as in {round}", numbered(circle.models.len(), "model")),
        );
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

/// Which size of the next model.
fn size(edge: &Edge) -> String {
    match &edge.size {
        None => "any size".to_owned(),
        Some(SizeHint::Same) => "same size".to_owned(),
        Some(SizeHint::Up) => "a size up".to_owned(),
        Some(SizeHint::Down) => "a size down".to_owned(),
        Some(SizeHint::Label(label)) => format!("in {label}"),
    }
}

fn listed(reasons: &[Reason]) -> String {
    reasons.iter().map(|reason| reason.id()).join(" or ")
}
