//! What would change with other models.

use super::super::Page;
use super::super::block::{cautions, facts, figure, paragraph, section, table};
use super::{STYLE, about, answer};
use crate::catalogue::Catalogue;
use crate::range::{Alteration, Changed, Customers, Effects, Group, Map, share};
use crate::render::range_words::change::{FIGURES, NOTHING, direction, group, is_nothing, told, what};
use crate::render::range_words::figures::{change, change_between, of_hundred};
use crate::render::svg::changed_map;
use crate::render::table::{Column, Table};
use crate::render::text::percent;
use itertools::Itertools;

/// What changes as a page for a browser, with the maps before and after.
#[must_use]
pub fn range_change(
    catalogue: &Catalogue,
    asked: &Customers<'_>,
    alterations: &[Alteration],
    (changed, maps): (&Changed, [&Map; 2]),
    must_say: &[&str],
) -> String {
    let map = changed_map(asked, maps);
    let main = [
        answered(alterations, changed),
        served(changed),
        section("map", "The map as it would be", &[figure(&map, MAP)]),
        who(changed),
        if alterations.len() > 1 { alone(alterations, &changed.alone) } else { String::new() },
    ];
    Page {
        title: "What would change in the range",
        about: &about(&catalogue.shop.name, asked),
        pictures: &[map.kind()],
        style: STYLE,
        main: main.concat(),
        footer: cautions(must_say),
    }
    .finish()
}

const MAP: &str = "From the top small heads to large ones; from the left long ovals to round ones. The figures hold with every pad on \
                   offer; what a cell is now stands in its title.";

fn answered(alterations: &[Alteration], changed: &Changed) -> String {
    let [standard, on_offer] = [changed.together.standard, changed.together.on_offer];
    let words = |after, pads: &str| format!("of 100 customers {pads}: then {} are served", of_hundred(after));
    let figures = [
        (change(on_offer.change.quote()), words(on_offer.after, "with every pad on offer")),
        (change(standard.change.quote()), words(standard.after, "with the standard pads")),
    ];
    let list = alterations.iter().map(|alteration| (direction(alteration), what(alteration))).collect_vec();
    section("change", "What is changed, and what that does", &[facts(&list), answer(&figures)])
}

fn served(changed: &Changed) -> String {
    let columns = vec![
        Column::words("Served with"),
        Column::numbers("before"),
        Column::numbers("after"),
        Column::numbers("change"),
        Column::numbers("in nine of ten cases"),
    ];
    let together = &changed.together;
    let rows = [("standard pads", together.standard), ("pads on offer", together.on_offer)].map(|(name, effect)| {
        let [before, after] = [effect.before, effect.after].map(of_hundred);
        vec![name.to_owned(), before, after, change(effect.change.quote()), change_between(effect.spread)]
    });
    let known = table("Served, of 100 customers", &Table::plain(columns, rows));
    let nothing = if is_nothing(changed) { paragraph(NOTHING) } else { String::new() };
    section("served", "Before and after", &[known, nothing, paragraph(FIGURES)])
}

fn alone(alterations: &[Alteration], effects: &[Effects]) -> String {
    let columns = vec![
        Column::words("Model"),
        Column::words("goes"),
        Column::numbers("standard pads"),
        Column::numbers("pads on offer"),
    ];
    let rows = alterations.iter().zip(effects).map(|(alteration, effects)| {
        let [standard, on_offer] = [effects.standard, effects.on_offer].map(|effect| change(effect.change.quote()));
        vec![alteration.name.clone(), direction(alteration).to_owned(), standard, on_offer]
    });
    let known =
        table("Each change by itself, made to the range as it is, of 100 customers", &Table::plain(columns, rows));
    section("alone", "Each alone", &[known])
}

fn who(changed: &Changed) -> String {
    let change = changed.together.on_offer.change;
    let parts = [("won", change.won, &changed.won), ("lost", change.lost, &changed.lost)];
    let parts = parts.into_iter().filter(|(_, count, _)| *count > 0).map(|(what, count, groups)| {
        let caption =
            format!("{what} with the pads on offer: {} of 100 customers", of_hundred(share(count, change.of)));
        groups_table(&caption, groups)
    });
    let parts = parts.collect_vec();
    if parts.is_empty() { String::new() } else { section("who", "Who wins, who loses", &parts) }
}

/// Where most of them are.
fn groups_table(caption: &str, groups: &[Group]) -> String {
    let columns = vec![Column::words("Size and shape"), Column::numbers("of them")];
    let (told, rest) = told(groups);
    let rest = rest.map(|share| vec!["elsewhere".to_owned(), percent(share)]);
    let rows = told.iter().map(|known| vec![group(known), percent(known.share)]).chain(rest);
    table(caption, &Table::plain(columns, rows))
}
