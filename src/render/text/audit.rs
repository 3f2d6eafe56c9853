//! An audit of the shop's rules, for people.

use super::page::{Page, bold, percent};
use crate::audit::{Audit, Question, Takes, Weighed};
use crate::catalogue::Catalogue;
use crate::render::audit_words::{
    AuditWords, NO_CHANGE, NONE_MISLEADS, TOGETHER, compared, minutes, no_fit, per_thousand, unweighed, ways,
    ways_note, weighed, who,
};
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// Silent reasons that a page lists; the document has them all.
const LISTED: usize = 10;

/// The audit as a page.
#[must_use]
pub fn audit(catalogue: &Catalogue, question: &Question<'_>, audit: &Audit<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let words = AuditWords { catalogue, audit, arrow: "->" };
    page.heading(&format!("CUSTOMERS  {}", thousands(audit.heads)));
    page.wrapped("  ", &who(question, audit));
    totals(&mut page, catalogue, audit);
    changes(&mut page, &words, question);
    misleading(&mut page, &words);
    silences(&mut page, &words);
    followed(&mut page, &words);
    others(&mut page, &words);
    page.cautions(cautions);
    page.finish()
}

/// A count with its thousands apart: `100,000`.
pub(in crate::render) fn thousands(count: usize) -> String {
    let digits = count.to_string();
    let groups = digits.as_bytes().rchunks(3).rev().map(String::from_utf8_lossy);
    groups.collect_vec().join(",")
}

fn totals(page: &mut Page, catalogue: &Catalogue, audit: &Audit<'_>) {
    page.heading("WHAT THEY TAKE, on average");
    page.line("                             tries       minutes      no fit        in all");
    for (name, takes) in ways(audit) {
        page.line(&row(name, takes));
    }
    page.wrapped("  ", &ways_note(catalogue));
}

fn row(name: &str, takes: &Takes) -> String {
    let [tries, took, in_all] = [takes.tries, takes.minutes, takes.in_all].map(minutes);
    format!("  {name:<22}{tries:>12}{took:>14}{:>12}{in_all:>14}", no_fit(takes))
}

fn changes(page: &mut Page, words: &AuditWords<'_, '_>, question: &Question<'_>) {
    let audit = words.audit;
    page.heading("WHAT WOULD HELP MOST");
    page.wrapped("  ", &weighed(question, audit));
    if audit.together.is_empty() {
        page.wrapped("  ", NO_CHANGE);
        return;
    }
    for (at, Weighed { change, saves }) in audit.together.iter().enumerate() {
        let line = format!("{}: saves {}", words.change(*change), minutes(*saves));
        page.hanging(&format!("  {}. ", at + 1), 5, &line);
    }
    page.wrapped("  ", &format!("{TOGETHER}{}", compared(audit.heads, &audit.verified)));
}

fn misleading(page: &mut Page, words: &AuditWords<'_, '_>) {
    page.heading("RULES THAT MISLEAD");
    let misleading = words.misleading();
    if misleading.is_empty() {
        page.wrapped("  ", NONE_MISLEADS);
    }
    for misleading in misleading {
        page.wrapped("  ", &format!("{} (\"{}\")", bold(&misleading.rule), misleading.note));
        page.wrapped("     ", &misleading.why);
    }
}

fn silences(page: &mut Page, words: &AuditWords<'_, '_>) {
    let silences = &words.audit.silences;
    if silences.is_empty() {
        return;
    }
    page.heading("NO RULE, AND THE CUSTOMER LEAVES, of 1,000 customers");
    for silence in silences.iter().take(LISTED) {
        page.hanging(&format!("  {:>5}  ", per_thousand(silence.share)), 9, &words.silence(silence));
    }
    if silences.len() > LISTED {
        let rest: f64 = silences.iter().skip(LISTED).map(|silence| silence.share).sum();
        let words = format!("at {} other places, each in the JSON document", silences.len() - LISTED);
        page.hanging(&format!("  {:>5}  ", per_thousand(rest)), 9, &words);
    }
}

fn followed(page: &mut Page, words: &AuditWords<'_, '_>) {
    if words.audit.rules.is_empty() {
        return;
    }
    page.heading("RULES AS THEY ARE FOLLOWED, of 1,000 customers");
    page.line("   used   fits   best  (the most that one model would fit)");
    let (often, hardly) = words.followed();
    for facts in often {
        let Some(edge) = words.edge(facts.rule) else { continue };
        let better = facts.better();
        let percents = [Some(facts.fits.value), better.map(|(_, fits)| fits)]
            .map(|fits| format!("{:>7}", fits.map_or("-".to_owned(), percent)));
        let other = better.map_or(String::new(), |(model, _)| format!(" ({})", words.name(model)));
        let first = format!("{:>7}{}  ", per_thousand(facts.used), percents.concat());
        page.hanging(&first, first.width(), &format!("{}{other}", words.rule(edge)));
    }
    if hardly > 0 {
        let words = format!("{hardly} other rules, each in the JSON document");
        page.hanging("   <0.1                 ", 23, &words);
    }
}

fn others(page: &mut Page, words: &AuditWords<'_, '_>) {
    page.heading("THE OTHERS");
    if let Some(unused) = words.unused() {
        page.wrapped("  ", &unused);
    }
    page.wrapped("  ", &unweighed(words.audit));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_told_as_people_write_them() {
        assert_eq!([7, 999, 1000, 1_234_567].map(thousands), ["7", "999", "1,000", "1,234,567"]);
    }
}
