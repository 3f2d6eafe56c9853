//! An explained step for people.

use super::head::known;
use super::page::{Page, fixed, percent};
use super::plan::{pads, rounded_up};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::plan::{
    Answer, Found, Instead, Likely, Moved, Passed, Plan, Query, Role, Source, StepWhy, Told, Verdict, is_felt,
};
use crate::profile::Reason;
use crate::render::json::Warning;
use itertools::Itertools;

/// Means that are less exact than this, mm or points of the index, are shown with their error.
const ROUGH_FROM: f64 = 1.0;

/// Chances that differ by less are called alike.
const NEAR_BELOW: f64 = 0.025;

/// The explained step as a page.
#[must_use]
pub fn why(
    catalogue: &Catalogue,
    query: &Query<'_>,
    (plan, answer): (&Plan<'_>, &Answer),
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let view = View { catalogue, query, candidates: &plan.candidates };
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    match &answer.found {
        Found::Step(why) => view.step(&mut page, answer, why),
        Found::Aside(why) => view.aside(&mut page, answer, why),
        Found::Nowhere(_) | Found::NoPlan => view.top(&mut page, "no step", answer),
    }
    page.cautions(cautions);
    page.finish()
}

struct View<'a> {
    catalogue: &'a Catalogue,
    query: &'a Query<'a>,
    candidates: &'a [Candidate<'a>],
}

impl View<'_> {
    fn step(&self, page: &mut Page, answer: &Answer, why: &StepWhy) {
        let title = self.title(why.step.candidate);
        self.top(page, &format!("step {}: {title}", answer.way.len() + 1), answer);
        if !answer.way.is_empty() {
            page.wrapped("  reached   ", &format!("by {} of such customers", chance(why.reach)));
        }
        let says = match why.step.source {
            Source::Computed => "by the computation".to_owned(),
            Source::Rule(rule) => format!("by the shop's rule: {}", self.note(rule)),
        };
        self.figures(page, why, &says);
        to_come(page, why);
        self.instead(page, why);
        self.heads(page, why, "on arriving here");
    }

    fn aside(&self, page: &mut Page, answer: &Answer, why: &StepWhy) {
        self.top(page, &format!("beside the plan: {}", self.title(why.step.candidate)), answer);
        let reached =
            format!("{} of such customers get so far; what no measure tells has no probability", chance(why.reach));
        page.wrapped("  reached   ", &reached);
        let note = if let Source::Rule(rule) = why.step.source { self.note(rule) } else { "" };
        self.figures(page, why, &format!("by the shop's rule: {note}; in the size that fits such heads most often"));
        let words = "No figure compares it with another helmet: what speaks for it is the shop's experience, which no \
                     measure shows. The figures take the heads that the helmet before fits.";
        page.wrapped("  compared  ", words);
        self.heads(page, why, "that one fits");
    }

    /// The heading, whom it is for, and the way there.
    fn top(&self, page: &mut Page, title: &str, answer: &Answer) {
        page.heading(&format!("WHY {title}"));
        page.wrapped("  customer  ", &known(self.catalogue, &self.query.customer));
        match &answer.found {
            Found::NoPlan => page.line("  way       there is no plan"),
            _ if answer.way.is_empty() => page.line("  way       the plan begins here"),
            _ => {}
        }
        for (at, passed) in answer.way.iter().enumerate() {
            let lead = if at == 0 { "  way       " } else { "            " };
            page.hanging(&format!("{lead}{}. ", at + 1), 15, &self.passed(passed));
        }
    }

    fn passed(&self, passed: &Passed) -> String {
        let (title, words) = (self.title(passed.candidate), passed.reason.words());
        let chance = chance(passed.probability);
        match passed.branch.len() {
            0 => format!("{title} fits ({chance}), but {words}"),
            1 => format!("{title} fails: {words} ({chance})"),
            _ => format!("{title} fails: {words}, in the plan's \"else\" ({chance})"),
        }
    }

    fn figures(&self, page: &mut Page, why: &StepWhy, says: &str) {
        page.wrapped("  fits      ", &format!("{}, with the pads on offer", chance(why.step.fit)));
        page.wrapped("  takes     ", &format!("{} minutes", quoted(why.minutes)));
        page.wrapped("  pads      ", &pads(&self.candidates[why.step.candidate], &why.step.pads));
        page.wrapped("  chosen    ", says);
    }

    fn instead(&self, page: &mut Page, why: &StepWhy) {
        page.heading("INSTEAD of this step");
        page.line("     model and size                 fits  the try   to the end  than the choice");
        let row = |label: &str, candidate: usize, fit: Quote, minutes: Quote, cost: Quote| {
            let title = fixed(&self.title(candidate), 28);
            let (fit, minutes) = (percent(fit.value), minutes.value);
            format!("{label:>4} {title} {fit:>6} {minutes:>8.1} {:>12}", quoted(cost))
        };
        page.line(&row("", why.step.candidate, why.step.fit, why.minutes, why.rest.cost));
        for (letter, other) in ('a'..).zip(&why.instead) {
            let line = row(&format!("{letter}."), other.candidate, other.fit, other.minutes, other.rest.cost);
            page.line(&format!("{line} {:>16}", signed(other.more)));
        }
        let leaving = format!(
            "     {} {:>6} {:>8} {:>12.1}",
            fixed("leaving without", 28),
            "",
            "",
            self.catalogue.shop.minutes.go_without
        );
        page.line(&format!("{leaving} {:>16}", signed(why.leaving)));
        page.wrapped(
            "     ",
            "Minutes. To the end: all tries, with going without counted; the choice can still be had later.",
        );
        for (letter, other) in ('a'..).zip(&why.instead) {
            page.hanging(&format!("  {letter}. "), 5, &self.compared(why, other));
        }
        if why.instead.is_empty() {
            page.wrapped("     ", "Without the choice, nothing else would be tried here.");
        }
    }

    /// What something else is, and why the choice wins, if it does.
    fn compared(&self, why: &StepWhy, other: &Instead) -> String {
        let choice = self.title(why.step.candidate);
        let mut roles = other.roles.iter().map(|role| match role {
            Role::NextBest => {
                let without =
                    other.more_without.map_or_else(String::new, |more| format!(" (then {} minutes)", signed(more)));
                format!("what the plan would have if {choice} were not on the shelf{without}")
            }
            Role::Rule(rule) => format!("the shop's rule: {}", self.note(*rule)),
            Role::Computed => "what the computation alone would try".to_owned(),
        });
        let roles = roles.join("; ");
        let because = because(why, other);
        let verdict = match (other.verdict(), why.step.source) {
            (Verdict::Worse, _) => format!("{choice} is better here: {because}."),
            (Verdict::Alike, _) => format!("No clear difference to {choice}: {because}."),
            (Verdict::Better, Source::Rule(_)) => {
                format!(
                    "By these figures better than {choice}, which leads as the shop's rule, within its margin: {because}."
                )
            }
            (Verdict::Better, Source::Computed) => {
                format!(
                    "By these figures better than {choice}; the heads that chose the plan did not show it: {because}."
                )
            }
        };
        format!("{}: {roles}. {verdict}", self.title(other.candidate))
    }

    fn heads(&self, page: &mut Page, why: &StepWhy, here: &str) {
        page.heading("HEADS that remain likely");
        page.line("                      chance  circumference  shape index   long  interm.  round");
        page.line(&row("as measured", "", &why.measured));
        if let Some(likely) = why.here.as_ref().filter(|_| why.reach.value < 1.0 - 1e-9) {
            page.line(&row(here, "", likely));
            news(page, "", likely);
        }
        for told in &why.told {
            outcome(page, told);
        }
        let words = "± is the spread (sd) of such heads. News is what moves by more than a quarter of the spread, and \
                     beyond the sampling error.";
        page.wrapped("  ", words);
    }

    fn title(&self, candidate: usize) -> String {
        self.candidates[candidate].title()
    }

    fn note(&self, rule: usize) -> &str {
        self.catalogue.edges().get(rule).map_or("", |edge| &edge.note)
    }
}

/// What the plan takes from here on, and what listening is worth.
fn to_come(page: &mut Page, why: &StepWhy) {
    let rest = &why.rest;
    let words = format!(
        "{} minutes and {:.2}±{:.2} helmets to the end of the plan, this try included; {} leave without a helmet",
        quoted(rest.minutes),
        rest.tries.value,
        rounded_up(rest.tries.error, 100.0),
        chance(rest.no_fit)
    );
    page.wrapped("  to come   ", &words);
    // A step that never fails has nothing to tell.
    if why.unheard.value > 0.0 {
        let words = format!(
            "why it fails saves {} of the {} minutes that are to come after a failure, going without counted",
            quoted(why.hearing),
            quoted(why.unheard)
        );
        page.wrapped("  hearing   ", &words);
    }
}

/// An outcome of the try, and what it tells.
fn outcome(page: &mut Page, told: &Told) {
    let label = match told.reasons.as_slice() {
        [] => "it fits",
        [one] => one.id(),
        all if all.len() == Reason::GEOMETRIC => "it fails",
        _ => "else",
    };
    let chance = percent(told.probability.value);
    let Some(likely) = &told.likely else { return };
    page.line(&row(label, &chance, likely));
    let heard = match told.reasons.as_slice() {
        [] => String::new(),
        [one] => format!("If {}: ", one.words()),
        all if all.len() == Reason::GEOMETRIC => String::new(),
        several => format!("If it is {}: ", several.iter().map(|reason| reason.id()).join(", ")),
    };
    news(page, &heard, likely);
}

fn row(label: &str, chance: &str, likely: &Likely) -> String {
    let spread = |k: usize| format!("{:.1} ±{:.1}", likely.mean[k].value, likely.sd[k].value);
    let [long, intermediate, round] = likely.words.map(|share| percent(share.value));
    let label = fixed(label, 20);
    format!("  {label}{chance:>6}  {:>13}  {:>11}  {long:>5}  {intermediate:>7}  {round:>5}", spread(0), spread(4))
}

/// How the heads that are left differ from those before, in words.
fn news(page: &mut Page, heard: &str, likely: &Likely) {
    let spread = |k: usize| format!("{:.1}±{:.1}", likely.mean[k].value, likely.sd[k].value);
    let words = likely.moved.iter().map(|moved| match moved {
        Moved::Rounder => format!("rounder ({})", spread(4)),
        Moved::Longer => format!("a longer oval ({})", spread(4)),
        Moved::Larger => format!("larger ({} mm)", spread(0)),
        Moved::Smaller => format!("smaller ({} mm)", spread(0)),
        Moved::WiderFace => format!("wider in the face ({} mm)", spread(3)),
        Moved::NarrowerFace => format!("narrower in the face ({} mm)", spread(3)),
    });
    let words = listed(&words.collect_vec());
    let said =
        if words.is_empty() { "much as thought".to_owned() } else { format!("then probably {words} than thought") };
    let (c, s) = (likely.mean[0].error, likely.mean[4].error);
    let rough = if c.max(s) < ROUGH_FROM {
        String::new()
    } else {
        format!(
            "; rough, from {:.0} heads: the means are known to ±{:.1} mm and ±{:.1}",
            likely.effective_heads,
            rounded_up(c, 10.0),
            rounded_up(s, 10.0)
        )
    };
    page.hanging("     ", 5, &format!("{heard}{said}{rough}"));
}

/// What speaks for the choice, and what against it.
fn because(why: &StepWhy, other: &Instead) -> String {
    let shares = &other.shares;
    let (fits, other_fits) = (percent(why.step.fit.value), percent(other.fit.value));
    let pads = format!("{:.1} minutes of pads", (other.minutes.value - why.minutes.value).abs());
    let saves = format!("(saves {:.0} minutes, against {:.0})", why.hearing.value, other.hearing.value);
    let words = [
        (
            shares.fails,
            format!("it fits more often ({fits} against {other_fits})"),
            format!("it fits less often ({fits} against {other_fits})"),
        ),
        (shares.pads, format!("it takes {pads} less"), format!("it takes {pads} more")),
        (
            shares.heard,
            format!("what is heard when it fails tells more {saves}"),
            format!("what is heard when it fails tells less {saves}"),
        ),
        (
            shares.unheard,
            "those whom it doesn't fit are easier to serve".to_owned(),
            "those whom it doesn't fit are harder to serve".to_owned(),
        ),
    ];
    let [mut pros, mut cons] = [const { Vec::new() }; 2];
    for (share, pro, con) in words {
        if !is_felt(share) {
            continue;
        }
        if share.value > 0.0 { pros.push(pro) } else { cons.push(con) }
    }
    if !is_felt(shares.fails) {
        let is_near = (why.step.fit.value - other.fit.value).abs() < NEAR_BELOW;
        let alike = if is_near {
            format!("it fits about as often ({fits} against {other_fits})")
        } else {
            format!("too few heads tell whether it fits more often ({fits} against {other_fits})")
        };
        if pros.is_empty() { cons.insert(0, alike) } else { pros.insert(0, alike) }
    }
    match (listed(&pros), listed(&cons)) {
        (pros, cons) if cons.is_empty() => pros,
        (pros, cons) if pros.is_empty() => cons,
        (pros, cons) => format!("{pros}, though {cons}"),
    }
}

/// `a, b and c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A probability with its error, as exact as the error allows.
fn chance(quote: Quote) -> String {
    let (value, error) = (quote.value * 100.0, quote.error * 100.0);
    if error > 1.0 {
        format!("{value:.0}±{:.0} %", error.ceil())
    } else {
        format!("{value:.1}±{:.1} %", rounded_up(error, 10.0))
    }
}

/// Minutes with their error.
fn quoted(minutes: Quote) -> String {
    format!("{:.1}±{:.1}", minutes.value, rounded_up(minutes.error, 10.0))
}

/// The same with a sign before it.
fn signed(minutes: Quote) -> String {
    format!("{:+.1}±{:.1}", minutes.value, rounded_up(minutes.error, 10.0))
}
