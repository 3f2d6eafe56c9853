//! What to send a customer who is away, for people.

use super::head::head;
use super::page::{Page, fixed, percent};
use crate::away::{Ask, Order, Proposal, Verdict};
use crate::catalogue::Catalogue;
use crate::render::away_words::{AwayWords, VISIT, WAYS_NOTE, advice, back, cost, verdict, whom};
use crate::render::json::Warning;
use crate::render::sheet_words::CHECKS;

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
    if let Some(advice) = advice(order) {
        page.wrapped("  measure   ", &advice);
    }
    let (currency, least) = (catalogue.shop.currency.as_str(), catalogue.shop.away.least_chance);
    let words = AwayWords { order, currency, least };
    decided(&mut page, &words);
    ways(&mut page, &words);
    if order.verdict != Verdict::ComeIn {
        page.heading("AT HOME, before it is kept");
        CHECKS.iter().for_each(|check| page.wrapped("  - ", check));
    }
    page.cautions(cautions);
    page.finish()
}

fn decided(page: &mut Page, words: &AwayWords<'_, '_>) {
    let (what, then) = verdict(words.order.verdict);
    page.heading(&format!("{}{then}", what.to_uppercase()));
    match words.proposed() {
        Some(proposal) => sent(page, words, proposal),
        None => page.wrapped("  ", &words.why_come_in()),
    }
    if let Some(lead) = words.lead() {
        page.wrapped("  ", &lead);
    }
}

fn sent(page: &mut Page, words: &AwayWords<'_, '_>, proposal: &Proposal) {
    for (at, helmet) in proposal.sent.iter().enumerate() {
        let other = proposal.sent.iter().enumerate().find(|(k, _)| *k != at).map(|(_, other)| other);
        let title = words.order.candidates[helmet.candidate].title();
        let (price, currency) = (words.price(helmet), words.currency);
        let named = format!("{title} - fits {}, {price} {currency}", percent(helmet.fit.value));
        page.hanging(&format!("  {}. ", at + 1), 5, &named);
        page.hanging("     ", 5, &words.mounted(helmet));
        if let Some(other) = other {
            page.hanging("     ", 5, &whom(helmet, other));
        }
    }
}

fn ways(page: &mut Page, words: &AwayWords<'_, '_>) {
    page.heading("WAYS, and what each is expected to cost shop and customer");
    page.line(&format!("  {:<42}{:>7}{:>13}{:>14}", "", "fits", "comes back", words.currency));
    for proposal in [&words.order.one, &words.order.two].into_iter().flatten() {
        way(page, words, proposal);
    }
    page.line(&format!("  {VISIT:<62}{:>14}", words.order.visit.to_string()));
    if let Some(seldom) = words.seldom() {
        page.wrapped("  ", &seldom);
    }
    page.wrapped("  ", WAYS_NOTE);
}

fn way(page: &mut Page, words: &AwayWords<'_, '_>, proposal: &Proposal) {
    let mut names = words.titles(proposal).into_iter();
    let first = names.next().unwrap_or_default();
    let (chance, back, cost) = (percent(proposal.chance.value), back(proposal), cost(proposal));
    page.line(&format!("  {}{chance:>7}{back:>13}{cost:>14}", fixed(&first, 42)));
    names.for_each(|name| page.wrapped("    and ", &name));
}
