//! The range: who is served.

use super::figures::{self, between, of_hundred, percent, whole};
use super::map::{by_cell, helmets};
use super::words::region;
use crate::catalogue::Catalogue;
use crate::range::{Alone, Customers, Gap, Own, Served};
use crate::render::text::audit::thousands;
use crate::render::text::page::{Page, fixed};
use itertools::Itertools;

/// Models by letter, where their overlap has room on a page.
const LETTERS: &str = "abcdefghijklmnopqr";
const MOST_LETTERS: usize = LETTERS.len();

/// The range as a page.
#[must_use]
pub fn served(catalogue: &Catalogue, customers: &Customers<'_>, served: &Served<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    figures::customers(&mut page, customers);
    totals(&mut page, served);
    parts(&mut page, catalogue, served);
    models(&mut page, served);
    overlap(&mut page, served);
    page.heading("THE MAP  how many models serve a customer, on average, with the pads on offer");
    helmets(&served.map).iter().for_each(|line| page.line(line));
    page.heading("THE CUSTOMERS  of 1,000, on the same map");
    by_cell(&served.map).iter().for_each(|line| page.line(line));
    gaps(&mut page, served);
    how(&mut page, served);
    page.cautions(cautions);
    page.finish()
}

fn totals(page: &mut Page, served: &Served<'_>) {
    page.heading("WHO IS SERVED  by at least one helmet");
    page.line("                              of 100 customers   if profiles are off");
    for (name, figure) in [("with standard pads", served.standard), ("with every pad on offer", served.on_offer)] {
        page.line(&format!("  {name:<28}{:>16}{:>22}", of_hundred(figure.quote), between(figure.spread)));
    }
    let words = format!(
        "Pads win {} of 100; {} of 100 fit nothing.",
        percent(served.on_offer.quote.value - served.standard.quote.value),
        percent(1.0 - served.on_offer.quote.value)
    );
    page.wrapped("  ", &words);
}

fn parts(page: &mut Page, catalogue: &Catalogue, served: &Served<'_>) {
    page.heading("BY TYPE AND PRICE  if customers take nothing else, of 100");
    page.line("                               models    standard pads    every pad on offer");
    for part in &served.by_kind {
        page.line(&part_line(part.which.name(), part));
    }
    for part in &served.by_price {
        page.line(&part_line(&format!("up to {} {}", part.which, catalogue.shop.currency), part));
    }
}

fn part_line<T>(name: &str, part: &Alone<T>) -> String {
    let [standard, on_offer] = [part.standard, part.on_offer].map(of_hundred);
    format!("  {}{:>9}{standard:>17}{on_offer:>22}", fixed(name, 28), part.models)
}

fn models(page: &mut Page, served: &Served<'_>) {
    page.heading("BY MODEL AND FAMILY  of 100 customers");
    page.line("                           standard  every  only     best  where it is the best");
    page.line("                               pads    pad  this      fit        cm     index");
    let letters = LETTERS.chars().chain(std::iter::repeat(' '));
    for (own, letter) in served.models.iter().zip(letters) {
        page.line(&own_line(&format!("{letter} {}", own.models[0].name), own));
    }
    for (_, family, own) in served.families.iter().filter(|(_, _, own)| own.models.len() > 1) {
        page.line(&own_line(&format!("  all {} {family}", own.models.len()), own));
    }
    let words = "only this: served by nothing else. Best fit: served most evenly by this one. Where: the middle half of \
                 these customers, by circumference and shape index.";
    page.wrapped("  ", words);
}

fn own_line(name: &str, own: &Own<'_>) -> String {
    let [standard, any] = [own.standard, own.on_offer.quote].map(|quote| percent(quote.value));
    let [only, best] = [own.only.quote, own.best].map(|quote| percent(quote.value));
    let at = own.best_at.map_or_else(String::new, |[cm, index]| {
        let ends = |ends: [f64; 2]| ends.iter().map(|end| format!("{end:.0}")).dedup().join("-");
        let [cm, index] = [cm.map(|mm| mm / 10.0), index].map(ends);
        format!("{cm:>10}{index:>10}")
    });
    format!("  {}{standard:>7}{any:>7}{only:>6}{best:>9}{at}", fixed(name, 26))
}

fn overlap(page: &mut Page, served: &Served<'_>) {
    let count = served.models.len();
    if !(2..=MOST_LETTERS).contains(&count) {
        return;
    }
    page.heading("OVERLAP  of 100 customers whom a row serves, the column serves so many, too");
    page.line(&format!("   {}", LETTERS.chars().take(count).map(|letter| format!("{letter:>4}")).join("")));
    for ((one, row), letter) in served.overlap.iter().enumerate().zip(LETTERS.chars()) {
        let share = |(other, share): (usize, &f64)| {
            if one == other { "   .".to_owned() } else { format!("{:>4}", whole(*share)) }
        };
        page.line(&format!("  {letter}{}", row.iter().enumerate().map(share).collect_vec().concat()));
    }
}

fn gaps(page: &mut Page, served: &Served<'_>) {
    page.heading("GAPS  where most customers fit nothing, most of them first");
    for gap in &served.gaps.gaps {
        page.hanging("  ", 4, &gap_words(gap, served));
    }
    let elsewhere = served.gaps.elsewhere;
    let all = of_hundred(served.gaps.lost);
    let words = match served.gaps.gaps.len() {
        0 => format!("No region. The {all} of 100 who fit nothing are spread over all shapes."),
        _ => format!("Elsewhere, in no region: {} of the {all} of 100 who fit nothing.", of_hundred(elsewhere)),
    };
    page.wrapped("  ", &words);
}

fn gap_words(gap: &Gap<'_>, served: &Served<'_>) -> String {
    let models = served.models.iter().flat_map(|own| own.models.iter().copied());
    let lost = gap.lost.value / gap.customers.value.max(f64::MIN_POSITIVE);
    let nearest = gap.nearest.map_or_else(String::new, |nearest| {
        format!(
            " Nearest: {} in {}, but {}, by {:.0} mm.",
            nearest.model.name,
            nearest.size.label,
            nearest.reason.words(),
            nearest.miss.max(1.0)
        )
    });
    format!(
        "{}: {} of 100 customers are lost there, {} % of those who have such heads.{nearest}",
        region(&gap.region, models),
        of_hundred(gap.lost),
        whole(lost)
    )
}

fn how(page: &mut Page, served: &Served<'_>) {
    page.heading("HOW SURE");
    let kept = if served.kept as u64 == served.heads {
        String::new()
    } else {
        format!(
            " Best fits, gaps and the last column of the first table are counted on {} of them.",
            thousands(served.kept)
        )
    };
    let words = format!(
        "Counted on {} heads: a customer is served where all pads of some size are good, by the profiles and the bands of \
         shop.yaml. ±: sampling error, four standard errors.{kept} If profiles are off: nine in ten of {} ranges whose \
         helmets differ from their profiles as far as these say. Comfort, looks and price keep more customers from a \
         helmet than geometry does: this is the most that can be served.",
        thousands(usize::try_from(served.heads).unwrap_or(usize::MAX)),
        crate::range::WORLDS
    );
    page.wrapped("  ", &words);
}
