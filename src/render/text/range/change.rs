//! What would change with other models, for people.

use super::customers;
use crate::range::{Alteration, Changed, Customers, Effect, Effects, Group, share};
use crate::render::range_words::change::{FIGURES, NOTHING, direction, group, is_nothing, told, what};
use crate::render::range_words::figures::{change, change_between, of_hundred};
use crate::render::text::page::{Page, fixed, percent};

/// What changes as a page.
#[must_use]
pub fn range_change(asked: &Customers<'_>, alterations: &[Alteration], changed: &Changed, cautions: &[&str]) -> String {
    let mut page = Page::default();
    customers(&mut page, asked);
    page.heading("WHAT IS CHANGED");
    for alteration in alterations {
        page.wrapped(&format!("  {:<9}", direction(alteration)), &what(alteration));
    }
    served(&mut page, changed);
    if alterations.len() > 1 {
        alone(&mut page, alterations, &changed.alone);
    }
    who(&mut page, changed);
    page.cautions(cautions);
    page.finish()
}

fn served(page: &mut Page, changed: &Changed) {
    page.heading("SERVED, of 100 customers");
    page.line("                     before       after        change   in nine of ten cases");
    let together = &changed.together;
    for (name, effect) in [("standard pads", together.standard), ("pads on offer", together.on_offer)] {
        let Effect { before, after, .. } = effect;
        page.line(&format!(
            "  {name}{:>12}{:>12}{:>14}{:>23}",
            of_hundred(before),
            of_hundred(after),
            change(effect.change.quote()),
            change_between(effect.spread)
        ));
    }
    if is_nothing(changed) {
        page.wrapped("  ", NOTHING);
    }
    page.wrapped("  ", FIGURES);
}

fn alone(page: &mut Page, alterations: &[Alteration], effects: &[Effects]) {
    page.heading("EACH ALONE, change of 100 customers");
    page.line("                                standard pads     pads on offer");
    for (alteration, effects) in alterations.iter().zip(effects) {
        let [standard, on_offer] = [effects.standard, effects.on_offer].map(|effect| change(effect.change.quote()));
        let (direction, name) = (direction(alteration), fixed(&alteration.name, 23));
        page.line(&format!("  {direction:<5}{name}{standard:>15}{on_offer:>18}"));
    }
}

fn who(page: &mut Page, changed: &Changed) {
    let change = changed.together.on_offer.change;
    if change.won + change.lost == 0 {
        return;
    }
    page.heading("WHO, with the pads on offer");
    for (what, count, groups) in [("won", change.won, &changed.won), ("lost", change.lost, &changed.lost)] {
        if count > 0 {
            page.line(&format!("  {what:<5}{} of 100 customers", of_hundred(share(count, change.of))));
            most(page, groups);
        }
    }
}

/// Where most of them are.
fn most(page: &mut Page, groups: &[Group]) {
    let (told, rest) = told(groups);
    for known in told {
        page.line(&format!("       {:>5} of them  {}", percent(known.share), group(known)));
    }
    if let Some(share) = rest {
        page.line(&format!("       {:>5} of them  elsewhere", percent(share)));
    }
}
