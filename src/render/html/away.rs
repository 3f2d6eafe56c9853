//! What to send a customer who is away.

use super::Page;
use super::block::{cautions, facts, list, paragraph, section, table, warnings};
use super::head::head;
use crate::away::{Ask, Order, Proposal, Sent, Verdict};
use crate::catalogue::Catalogue;
use crate::render::away_words::{AwayWords, VISIT, WAYS_NOTE, advice, back, cost, verdict, whom};
use crate::render::json::Warning;
use crate::render::markup::escaped;
use crate::render::sheet_words::CHECKS;
use crate::render::table::{Cell, Column, Table};
use crate::render::text::{known, percent};
use itertools::Itertools;

/// The order as a page.
#[must_use]
pub fn away(catalogue: &Catalogue, ask: &Ask<'_>, order: &Order<'_>, warned: &[Warning], cautioned: &[&str]) -> String {
    let (currency, least) = (catalogue.shop.currency.as_str(), catalogue.shop.away.least_chance);
    let words = AwayWords { order, currency, least };
    let (what, then) = verdict(order.verdict);
    let parts = [
        warnings(warned.iter().map(|warning| warning.message.as_str())),
        decided(&words),
        ways(&words),
        told(catalogue, ask, order),
        head(&order.head),
        at_home(order.verdict),
    ];
    let about = format!("For a customer who is away, from {}", catalogue.shop.name);
    let footer = cautions(cautioned);
    let title = format!("{what}{then}");
    Page { title: &title, about: &about, style: STYLE, main: parts.concat(), footer, ..Page::default() }.finish()
}

fn decided(words: &AwayWords<'_, '_>) -> String {
    let lead = words.lead().map_or_else(String::new, |lead| paragraph(&lead));
    let Some(proposal) = words.proposed() else { return [paragraph(&words.why_come_in()), lead].concat() };
    let helmets = proposal.sent.iter().enumerate().map(|(at, sent)| {
        let other = proposal.sent.iter().enumerate().find(|(k, _)| *k != at).map(|(_, other)| other);
        helmet(words, sent, other)
    });
    format!("<ol class=\"sent\">\n{}</ol>\n{lead}", helmets.collect_vec().concat())
}

fn helmet(words: &AwayWords<'_, '_>, sent: &Sent, other: Option<&Sent>) -> String {
    let title = escaped(&words.order.candidates[sent.candidate].title());
    let (fits, price, currency) = (percent(sent.fit.value), words.price(sent), escaped(words.currency));
    let mounted = paragraph(&words.mounted(sent));
    let whom = other.map_or_else(String::new, |other| paragraph(&whom(sent, other)));
    format!("<li><h2>{title}</h2>\n<p><b>fits {fits}</b>, {price} {currency}</p>\n{mounted}{whom}</li>\n")
}

fn ways(words: &AwayWords<'_, '_>) -> String {
    let way = |proposal: &Proposal| {
        let fits = Cell::percent(proposal.chance.value);
        vec![words.titles(proposal).join(" and ").into(), fits, back(proposal).into(), cost(proposal).into()]
    };
    let visit = [VISIT.to_owned(), String::new(), String::new(), words.order.visit.to_string()].map(Cell::from);
    let proposals = [&words.order.one, &words.order.two].into_iter().flatten();
    let rows = proposals.map(way).chain([visit.into()]).collect();
    let columns = ["fits", "comes back", words.currency].map(Column::numbers);
    let columns = [Column::words("way")].into_iter().chain(columns).collect();
    let seldom = words.seldom().map_or_else(String::new, |seldom| paragraph(&seldom));
    let caption = "What each is expected to cost shop and customer";
    section("ways", "Ways", &[table(caption, &Table { columns, rows }), seldom, paragraph(WAYS_NOTE)])
}

/// What is known of the head, and what another measure would tell.
fn told(catalogue: &Catalogue, ask: &Ask<'_>, order: &Order<'_>) -> String {
    let known = ("known", known(catalogue, &ask.customer));
    let measure = advice(order).map(|advice| ("measure", advice));
    section("known", "What is known", &[facts(&[known].into_iter().chain(measure).collect_vec())])
}

fn at_home(verdict: Verdict) -> String {
    if verdict == Verdict::ComeIn {
        String::new()
    } else {
        section("home", "At home, before it is kept", &[list(CHECKS)])
    }
}

const STYLE: &str = "\
.sent { list-style-position: inside; padding: 0; display: grid; gap: .8rem; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)) }
.sent li { border: 2px solid var(--ink); border-radius: .5rem; padding: .6rem .9rem; margin: 0 }
.sent h2 { margin: 0 0 .3rem; display: inline }
.sent p { margin: .3rem 0 }
tbody th { overflow-wrap: anywhere }
@media (max-width: 34rem) { .ways table { font-size: .8rem } }
";
