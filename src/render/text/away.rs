//! What to send a customer who is away, for people.

use super::head::head;
use super::page::{Page, fixed, mm, percent, whole_minutes};
use crate::away::{Ask, Order, Proposal, Sent, Verdict};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::render::json::Warning;
use crate::render::sheet_words::CHECKS;
use crate::unit::Money;
use itertools::Itertools;

/// A gain in the chance of a fit that is worth a sentence.
const WORTH_TELLING: f64 = 0.02;

/// Differences of whom a helmet fits that are put into words: points of the shape index, and mm of circumference.
const SHAPE_WORDS: f64 = 0.7;
const SIZE_WORDS: f64 = 2.0;

/// The order as a page.
#[must_use]
pub fn away(
    catalogue: &Catalogue,
    ask: &Ask<'_>,
    order: &Order<'_>,
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    head(&mut page, catalogue, &ask.customer, &order.head);
    advice(&mut page, order);
    let view = View { order, currency: catalogue.shop.currency.as_str() };
    view.verdict(&mut page, catalogue);
    view.ways(&mut page);
    if order.verdict != Verdict::ComeIn {
        page.heading("AT HOME, before it is kept");
        CHECKS.iter().for_each(|check| page.wrapped("  - ", check));
    }
    page.cautions(cautions);
    page.finish()
}

/// What one more measure would buy.
fn advice(page: &mut Page, order: &Order<'_>) {
    let advice = &order.advice;
    let Some(best) = advice.gains.first() else { return };
    let words = if best.first_fit < advice.first_fit + WORTH_TELLING {
        "another measure from home hardly makes any helmet fit more often".to_owned()
    } else {
        let mut others = advice.gains[1..].iter().map(|gain| format!("{} {}", gain.measure.name(), percent(gain.first_fit)));
        let others = others.join(", ");
        let others = if others.is_empty() { others } else { format!(" (with instead {others})") };
        format!(
            "ask for the {}, three readings: the best helmet then fits with {} instead of {}{others}",
            best.measure.name(),
            percent(best.first_fit),
            percent(advice.first_fit)
        )
    };
    page.wrapped("  measure   ", &words);
}

struct View<'v, 'a> {
    order: &'v Order<'a>,
    currency: &'v str,
}

impl View<'_, '_> {
    fn verdict(&self, page: &mut Page, catalogue: &Catalogue) {
        let heading = match self.order.verdict {
            Verdict::One => "SEND ONE",
            Verdict::Two => "SEND TWO, one comes back",
            Verdict::ComeIn => "COME IN",
        };
        page.heading(heading);
        match (self.order.verdict, &self.order.one, &self.order.two) {
            (Verdict::One, Some(one), _) => self.sent(page, one),
            (Verdict::Two, _, Some(two)) => self.sent(page, two),
            _ => self.why_come_in(page, catalogue),
        }
        if let Some(lead) = self.order.lead {
            let words = format!("{} {} cheaper than the next way, ±{}", amount(lead.value), self.currency, amount(lead.error));
            page.wrapped("  ", &words);
        }
    }

    fn sent(&self, page: &mut Page, proposal: &Proposal) {
        for (at, sent) in proposal.sent.iter().enumerate() {
            let other = proposal.sent.iter().enumerate().find(|(k, _)| *k != at).map(|(_, other)| other);
            page.hanging(&format!("  {}. ", at + 1), 5, &self.named(sent));
            page.hanging("     ", 5, &self.mounted(sent));
            if let Some(other) = other {
                page.hanging("     ", 5, &whom(sent, other));
            }
        }
    }

    fn why_come_in(&self, page: &mut Page, catalogue: &Catalogue) {
        let best = [&self.order.two, &self.order.one].into_iter().flatten().map(|proposal| proposal.chance.value);
        let best = best.max_by(f64::total_cmp).unwrap_or(0.0);
        let least = catalogue.shop.away.least_chance;
        let words = if best < least {
            format!(
                "Whatever is sent fits with {} at most, and the shop sends nothing below {} (least_chance of shop.yaml). \
                 In the shop pads can be swapped, and each helmet tells what to try next.",
                percent(best),
                percent(least)
            )
        } else {
            "A visit costs less than what would be sent, comes back, and a visit after all.".to_owned()
        };
        page.wrapped("  ", &words);
    }

    fn ways(&self, page: &mut Page) {
        page.heading("WAYS, and what each is expected to cost shop and customer");
        page.line(&format!("  {:<43}{:>7}{:>13}{:>12}", "", "fits", "comes back", self.currency));
        if let Some(one) = &self.order.one {
            let back = percent(1.0 - one.chance.value);
            self.way(page, &self.names(one), (one.chance, &back), one.cost);
        }
        if let Some(two) = &self.order.two {
            let back = format!("both {}", percent(1.0 - two.chance.value));
            self.way(page, &self.names(two), (two.chance, &back), two.cost);
        }
        let visit = self.order.visit;
        page.line(&format!("  {:<63}{:>12}", "the customer comes in", visit.to_string()));
        page.wrapped(
            "  ",
            "fits: as it comes out of the box, with the pads that the shop mounted. Of two helmets one comes back in any \
             case. Costs: away in shop.yaml; whom nothing fits comes in after all. ±: sampling error.",
        );
    }

    fn way(&self, page: &mut Page, names: &str, (chance, back): (Quote, &str), cost: Quote) {
        let cost = format!("{}±{}", amount(cost.value), amount(cost.error));
        page.line(&format!("  {}{:>7}{:>13}{cost:>12}", fixed(names, 43), percent(chance.value), back));
    }

    /// `Wexmarsh One in M and Lantreth Hush in L`.
    fn names(&self, proposal: &Proposal) -> String {
        proposal.sent.iter().map(|sent| self.order.candidates[sent.candidate].title()).join(" and ")
    }

    fn named(&self, sent: &Sent) -> String {
        let candidate = &self.order.candidates[sent.candidate];
        let price = candidate.model.price + sent.price;
        format!("{} - fits {}, {price} {}", candidate.title(), percent(sent.fit.value), self.currency)
    }

    fn mounted(&self, sent: &Sent) -> String {
        let own = &self.order.candidates[sent.candidate].size.standard;
        let mut changed = sent.pads.iter().filter_map(|(zone, pad)| {
            let (pad, own) = ((*pad)?, (*own.get(zone))?);
            let word = if pad < own { "thinner" } else { "thicker" };
            ((pad - own).abs() > 1e-9).then(|| format!("{word} {} ({} mm)", zone.name(), mm(pad)))
        });
        let changed = changed.join(", ");
        match changed.as_str() {
            "" => "standard pads".to_owned(),
            _ if sent.price == Money::default() => format!("mount first: {changed}"),
            _ => format!(
                "mount first: {changed}; {} min, pads {} {} of the price",
                whole_minutes(sent.minutes),
                sent.price,
                self.currency
            ),
        }
    }
}

/// Which heads only this one of two fits.
fn whom(sent: &Sent, other: &Sent) -> String {
    let share = percent(sent.alone.value);
    let Some((own, others)) = sent.whom.zip(other.whom) else { return format!("alone fits {share}") };
    let mut words = Vec::new();
    match own.circumference - others.circumference {
        gap if gap > SIZE_WORDS => words.push(format!("larger ({:.0} mm around)", own.circumference)),
        gap if gap < -SIZE_WORDS => words.push(format!("smaller ({:.0} mm around)", own.circumference)),
        _ => {}
    }
    match own.shape_index - others.shape_index {
        gap if gap > SHAPE_WORDS => words.push(format!("rounder (index {:.1})", own.shape_index)),
        gap if gap < -SHAPE_WORDS => words.push(format!("longer (index {:.1})", own.shape_index)),
        _ => {}
    }
    match words.is_empty() {
        true => format!("the only one that fits for {share}"),
        false => format!("the only one that fits for {share}: the {} heads of the two", words.iter().join(" and ")),
    }
}

/// Minor units as an amount with two decimals.
fn amount(minor: f64) -> String {
    format!("{:.2}", (minor / 100.0).abs())
}
