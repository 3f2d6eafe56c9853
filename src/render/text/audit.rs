//! An audit of the shop's rules, for people.

use super::page::{Page, bold, percent};
use crate::audit::{Audit, Change, Question, RuleFacts, Silence, Spot, Takes, Targets, Verified, Weighed};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::profile::Edge;
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// Silent reasons that a page lists; the document has them all.
const LISTED: usize = 10;

/// Share of all customers from which a rule has a line of its own.
const OFTEN: f64 = 0.0001;

/// The audit as a page.
#[must_use]
pub fn audit(catalogue: &Catalogue, question: &Question<'_>, audit: &Audit<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let words = Words { catalogue, audit };
    who(&mut page, question, audit);
    totals(&mut page, catalogue, audit);
    words.changes(&mut page, question);
    words.misleading(&mut page);
    words.silences(&mut page);
    words.followed(&mut page);
    words.unused(&mut page);
    page.cautions(cautions);
    page.finish()
}

/// A count with its thousands apart: `100,000`.
pub(in crate::render) fn thousands(count: usize) -> String {
    let digits = count.to_string();
    let groups = digits.as_bytes().rchunks(3).rev().map(String::from_utf8_lossy);
    groups.collect_vec().join(",")
}

/// Minutes with their error.
fn minutes(quote: Quote) -> String {
    format!("{:.2}±{:.2}", quote.value + 0.0, quote.error)
}

/// So many of 1,000 customers.
pub(super) fn per_thousand(share: f64) -> String {
    let count = share * 1000.0;
    match count {
        0.0 => "0".to_owned(),
        _ if count < 0.05 => "<0.1".to_owned(),
        _ if count < 10.0 => format!("{count:.1}"),
        _ => format!("{count:.0}"),
    }
}

/// What a changed graph does to customers who had no part in it.
pub(super) fn compared(customers: usize, verified: &Verified) -> String {
    let [before, after] = [verified.before, verified.after];
    format!(
        "{} other customers take {} instead of {} minutes in all, {:.1} % instead of {:.1} % leave without a fit; saves {}.",
        thousands(customers),
        minutes(after.in_all),
        minutes(before.in_all),
        after.no_fit.value * 100.0,
        before.no_fit.value * 100.0,
        minutes(verified.saves)
    )
}

fn who(page: &mut Page, question: &Question<'_>, audit: &Audit<'_>) {
    page.heading(&format!("CUSTOMERS  {}", thousands(audit.heads)));
    let measured = question.measured.iter().map(|(measure, sd)| format!("{} (±{sd} mm)", measure.name())).join(", ");
    let tries = match question.tries {
        1 => "tries one helmet".to_owned(),
        tries => format!("tries up to {tries} helmets"),
    };
    let words = format!(
        "Heads of the population {}. Known of each: {measured}, written down in steps of {} mm: {} different \
         customers on paper. Each {tries}.",
        question.population.name, question.reading_step, audit.readings
    );
    page.wrapped("  ", &words);
}

fn totals(page: &mut Page, catalogue: &Catalogue, audit: &Audit<'_>) {
    page.heading("WHAT THEY TAKE, on average");
    page.line("                             tries       minutes      no fit        in all");
    let rows = [
        ("the shop's rules", audit.graph),
        ("the best fixed order", audit.fixed_order),
        ("the computed plan", audit.computed),
    ];
    for (name, takes) in rows {
        page.line(&row(name, &takes));
    }
    let words = format!(
        "in all: minutes of the tries, and {} for whoever leaves without a helmet (go_without of shop.yaml). The rules \
         begin with the first of the ranking; where there is none for a reason, the customer leaves. Only reasons of \
         geometry are heard. ±: sampling error, four standard errors.",
        catalogue.shop.minutes.go_without
    );
    page.wrapped("  ", &words);
}

fn row(name: &str, takes: &Takes) -> String {
    let no_fit = format!("{:.1}±{:.1} %", takes.no_fit.value * 100.0, takes.no_fit.error * 100.0);
    let two = |quote: Quote| format!("{:.2}±{:.2}", quote.value, quote.error);
    format!("  {name:<22}{:>12}{:>14}{no_fit:>12}{:>14}", two(takes.tries), two(takes.minutes), two(takes.in_all))
}

struct Words<'w, 'a> {
    catalogue: &'w Catalogue,
    audit: &'w Audit<'a>,
}

impl Words<'_, '_> {
    fn changes(&self, page: &mut Page, question: &Question<'_>) {
        let audit = self.audit;
        page.heading("WHAT WOULD HELP MOST");
        let weighed = format!(
            "{} single changes weighed, each on {} customers: a rule added, taken away or led elsewhere{}. Minutes are \
             those in all that a customer saves on average.",
            thousands(audit.changes.len()),
            thousands(audit.weighed_on),
            match question.targets {
                Targets::AnyType => "",
                Targets::SameType => " (to models of the same type only)",
            }
        );
        page.wrapped("  ", &weighed);
        if audit.together.is_empty() {
            page.wrapped("  ", "None of them saves anything.");
            return;
        }
        for (at, Weighed { change, saves }) in audit.together.iter().enumerate() {
            page.hanging(
                &format!("  {}. ", at + 1),
                5,
                &format!("{}: saves {}", self.change(*change), minutes(*saves)),
            );
        }
        let words = "The first is the best single change, the others are the best after those before them. With all of \
                     them, ";
        page.wrapped("  ", &format!("{words}{}", compared(audit.heads, &audit.verified)));
    }

    fn misleading(&self, page: &mut Page) {
        page.heading("RULES THAT MISLEAD");
        if self.audit.misleading.is_empty() {
            page.wrapped("  ", "None costs more minutes than the sampling error.");
        }
        for Weighed { change, saves } in &self.audit.misleading {
            let Some((rule, edge)) = change.dropped.and_then(|lead| lead.rule).and_then(|rule| self.edge(rule)) else {
                continue;
            };
            page.wrapped("  ", &format!("{} (\"{}\")", bold(&self.rule(edge)), edge.note));
            let facts = self.audit.rules.iter().find(|facts| facts.rule == rule);
            let why = facts.map_or(String::new(), |facts| self.why(edge, facts));
            page.wrapped("     ", &format!("{why} {}: saves {}.", self.instead(*change), minutes(*saves)));
        }
    }

    /// What speaks against a rule.
    fn why(&self, edge: &Edge, facts: &RuleFacts) -> String {
        let used = per_thousand(facts.used);
        let mut words = vec![format!(
            "Of 1,000 customers {used} go this way, and it fits {} of them (±{:.0}).",
            percent(facts.fits.value),
            facts.fits.error * 100.0
        )];
        let again = facts.again(edge.reason);
        if again >= 0.2 {
            words.push(format!("For {} of them {} again.", percent(again), edge.reason.words()));
        } else if let Some((reason, share)) = facts.fails.first().filter(|(_, share)| *share >= 0.2) {
            words.push(format!("For {} of them {} then.", percent(*share), reason.words()));
        }
        words.extend(self.geometry(edge, facts));
        if let Some((model, fits)) = facts.best.filter(|(_, fits)| *fits > facts.fits.value + 0.05) {
            words.push(format!("{} would fit {}.", self.name(model), percent(fits)));
        }
        words.join(" ")
    }

    /// The two helmets compared, where the second is no better for the reason.
    fn geometry(&self, edge: &Edge, facts: &RuleFacts) -> Option<String> {
        let usual = facts.usual.filter(|usual| usual.helps(edge.reason) < 0.5)?;
        let [failed, next] = [usual.failed, usual.next].map(|at| &self.audit.candidates[at]);
        let [before, after] = [failed, next].map(|candidate| candidate.model.interior.shape_index);
        let shape = match after - before {
            change if change > 0.25 => "rounder",
            change if change < -0.25 => "a longer oval",
            _ => "of the same shape",
        };
        let axes = ["front to back", "at the sides", "at the cheeks"];
        let mut differs = usual.wider.iter().zip(axes).filter(|(wider, _)| wider.abs() >= 0.5).map(|(wider, axis)| {
            format!("{:.0} mm {} {axis}", wider.abs(), if *wider > 0.0 { "wider" } else { "narrower" })
        });
        let differs = differs.join(" and ");
        Some(format!(
            "It points the wrong way: {} is {shape} ({after} against {before}){}.",
            next.title(),
            if differs.is_empty() { String::new() } else { format!(", {differs} than {}", failed.title()) }
        ))
    }

    fn silences(&self, page: &mut Page) {
        let silences = &self.audit.silences;
        if silences.is_empty() {
            return;
        }
        page.heading("NO RULE, AND THE CUSTOMER LEAVES, of 1,000 customers");
        for silence in silences.iter().take(LISTED) {
            page.hanging(&format!("  {:>5}  ", per_thousand(silence.share)), 9, &self.silence(silence));
        }
        if silences.len() > LISTED {
            let rest: f64 = silences.iter().skip(LISTED).map(|silence| silence.share).sum();
            let words = format!("at {} other places, each in the JSON document", silences.len() - LISTED);
            page.hanging(&format!("  {:>5}  ", per_thousand(rest)), 9, &words);
        }
    }

    fn silence(&self, silence: &Silence) -> String {
        let here = |change: &Change| change.spot == silence.spot;
        let best = self.audit.changes.iter().find(|(change, saved)| here(change) && *saved > 0.0);
        let best = best.and_then(|(change, saved)| change.put.map(|to| (to, saved)));
        let spot = self.spot(silence.spot);
        match best {
            Some((to, saved)) => format!("{spot}; a rule to {} would save {saved:.2}", self.name(to)),
            None => format!("{spot}; no rule would help"),
        }
    }

    fn followed(&self, page: &mut Page) {
        if self.audit.rules.is_empty() {
            return;
        }
        page.heading("RULES AS THEY ARE FOLLOWED, of 1,000 customers");
        page.line("   used   fits   best  (the most that one model would fit)");
        let by_use = self.audit.rules.iter().sorted_by(|a, b| b.used.total_cmp(&a.used).then(a.rule.cmp(&b.rule)));
        let (often, hardly): (Vec<_>, Vec<_>) = by_use.partition(|facts| facts.used >= OFTEN);
        for facts in often {
            let Some((_, edge)) = self.edge(facts.rule) else { continue };
            let best = facts.best.filter(|(_, fits)| *fits > facts.fits.value + 0.005);
            let percents = [Some(facts.fits.value), best.map(|(_, fits)| fits)]
                .map(|fits| format!("{:>7}", fits.map_or("-".to_owned(), percent)));
            let other = best.map_or(String::new(), |(model, _)| format!(" ({})", self.name(model)));
            let first = format!("{:>7}{}  ", per_thousand(facts.used), percents.concat());
            page.hanging(&first, first.width(), &format!("{}{other}", self.rule(edge)));
        }
        if !hardly.is_empty() {
            page.hanging(
                "   <0.1                 ",
                23,
                &format!("{} other rules, each in the JSON document", hardly.len()),
            );
        }
    }

    fn unused(&self, page: &mut Page) {
        let audit = self.audit;
        page.heading("THE OTHERS");
        if !audit.unused.is_empty() {
            let names = audit.unused.iter().filter_map(|rule| self.edge(*rule)).map(|(_, edge)| self.rule(edge));
            page.wrapped("  ", &format!("Nobody came this way: {}.", names.collect_vec().join("; ")));
        }
        let words = format!(
            "{} rules are for what geometry doesn't tell (noise, price, stops and the like). An audit can't weigh them.",
            audit.unweighed
        );
        page.wrapped("  ", &words);
    }

    fn change(&self, change: Change) -> String {
        let spot = self.spot(change.spot);
        let to = |model: usize| self.name(model);
        match (change.dropped.map(|lead| lead.to), change.put) {
            (None, Some(put)) => format!("add {spot} -> {}", to(put)),
            (Some(dropped), None) => format!("take away {spot} -> {}", to(dropped)),
            (Some(dropped), Some(put)) if dropped == put => {
                format!("{spot} -> {}: leave its size open", to(put))
            }
            (Some(dropped), Some(put)) => format!("{spot} -> {} instead of {}", to(put), to(dropped)),
            (None, None) => spot,
        }
    }

    /// What a rule would better be.
    fn instead(&self, change: Change) -> String {
        match change.put {
            None => "Without it".to_owned(),
            Some(to) if change.dropped.is_some_and(|lead| lead.to == to) => "With its size left open".to_owned(),
            Some(to) => format!("Led to {} instead", self.name(to)),
        }
    }

    fn rule(&self, edge: &Edge) -> String {
        let name = |id| self.catalogue.model(id).map_or(id, |model| model.name.as_str());
        format!("{}, {} -> {}", name(edge.from.as_str()), edge.reason.id(), name(edge.to.as_str()))
    }

    fn spot(&self, spot: Spot) -> String {
        format!("{}, {}", self.name(spot.from), spot.reason.id())
    }

    fn name(&self, model: usize) -> &str {
        &self.catalogue.models()[model].name
    }

    fn edge(&self, rule: usize) -> Option<(usize, &Edge)> {
        self.catalogue.edges().get(rule).map(|edge| (rule, edge))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_are_told_as_people_write_them() {
        assert_eq!([7, 999, 1000, 1_234_567].map(thousands), ["7", "999", "1,000", "1,234,567"]);
        assert_eq!([0.0, 0.00001, 0.0014, 0.0146].map(per_thousand), ["0", "<0.1", "1.4", "15"]);
    }
}
