//! What to send a customer who is away, for people.

use super::head::head;
use super::page::{Page, fixed, mm, percent, whole_minutes};
use crate::away::{Ask, Order, Proposal, Sent, Verdict};
use crate::catalogue::Catalogue;
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
    view.verdict(&mut page, catalogue.shop.away.least_chance);
    view.ways(&mut page, catalogue.shop.away.least_chance);
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
        let mut others =
            advice.gains[1..].iter().map(|gain| format!("{} {}", gain.measure.name(), percent(gain.first_fit)));
        let others = others.join(", ");
        let others = if others.is_empty() { others } else { format!(" (with instead {others})") };
        format!(
            "ask for the {}, three readings: the likeliest helmet then fits with {} instead of {}{others}",
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
    fn verdict(&self, page: &mut Page, least: f64) {
        let heading = match self.order.verdict {
            Verdict::One => "SEND ONE",
            Verdict::Two => "SEND TWO, one comes back",
            Verdict::ComeIn => "COME IN",
        };
        page.heading(heading);
        match (self.order.verdict, &self.order.one, &self.order.two) {
            (Verdict::One, Some(one), _) => self.sent(page, one),
            (Verdict::Two, _, Some(two)) => self.sent(page, two),
            _ => self.why_come_in(page, least),
        }
        if let Some(lead) = self.order.lead {
            let words = format!(
                "Expected to cost {}±{} {} less than the next way.",
                amount(lead.value),
                amount(lead.error),
                self.currency
            );
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

    fn why_come_in(&self, page: &mut Page, least: f64) {
        let best = [&self.order.two, &self.order.one].into_iter().flatten().map(|proposal| proposal.chance.value);
        let best = best.max_by(f64::total_cmp).unwrap_or(0.0);
        let words = if best < least {
            format!(
                "The best that could be sent fits with {}, and the shop sends nothing below {} (least_chance of shop.yaml). \
                 In the shop pads can be swapped, and each helmet tells what to try next.",
                percent(best),
                percent(least)
            )
        } else {
            "A visit costs less than what would be sent, comes back, and a visit after all.".to_owned()
        };
        page.wrapped("  ", &words);
    }

    fn ways(&self, page: &mut Page, least: f64) {
        page.heading("WAYS, and what each is expected to cost shop and customer");
        page.line(&format!("  {:<42}{:>7}{:>13}{:>14}", "", "fits", "comes back", self.currency));
        if let Some(one) = &self.order.one {
            self.way(page, one, &percent(1.0 - one.chance.value));
        }
        if let Some(two) = &self.order.two {
            self.way(page, two, &format!("both {}", percent(1.0 - two.chance.value)));
        }
        let visit = self.order.visit;
        page.line(&format!("  {:<62}{:>14}", "the customer comes in", visit.to_string()));
        let seldom = [&self.order.one, &self.order.two].into_iter().flatten();
        let seldom = seldom.filter(|proposal| proposal.chance.value < least).map(|proposal| proposal.sent.len());
        let seldom = seldom.map(|count| if count == 1 { "one" } else { "two" }).join(" or ");
        if !seldom.is_empty() {
            let words = format!(
                "To send {seldom} isn't proposed: it fits less often than {} (least_chance of shop.yaml).",
                percent(least)
            );
            page.wrapped("  ", &words);
        }
        page.wrapped(
            "  ",
            "fits: as it comes out of the box, with the pads that the shop mounted. Of two helmets one comes back in any \
             case. Costs: postage, what comes back, pads that the kept helmet doesn't need, and a visit where nothing \
             fits (away of shop.yaml). ±: sampling error.",
        );
    }

    fn way(&self, page: &mut Page, proposal: &Proposal, back: &str) {
        let title = |sent: &Sent| self.order.candidates[sent.candidate].title();
        let mut names = proposal.sent.iter().map(title);
        let cost = format!("{}±{}", amount(proposal.cost.value), amount(proposal.cost.error));
        let first = names.next().unwrap_or_default();
        let chance = percent(proposal.chance.value);
        page.line(&format!("  {}{chance:>7}{back:>13}{cost:>14}", fixed(&first, 42)));
        names.for_each(|name| page.wrapped("    and ", &name));
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
