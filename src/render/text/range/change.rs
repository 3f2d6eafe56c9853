//! What would change with other models, for people.

use super::figures::{change, change_between, customers, of_hundred};
use crate::range::{Alteration, Changed, Customers, Effect, Effects, Group, LeftOut, What, share};
use crate::render::text::page::{Page, fixed, percent};
use crate::unit::plain;
use itertools::Itertools;

/// Groups of customers that a page lists; the document has them all.
const LISTED: usize = 4;

/// What changes as a page.
#[must_use]
pub fn range_change(asked: &Customers<'_>, alterations: &[Alteration], changed: &Changed, cautions: &[&str]) -> String {
    let mut page = Page::default();
    customers(&mut page, asked);
    page.heading("WHAT IS CHANGED");
    alterations.iter().for_each(|alteration| what(&mut page, alteration));
    served(&mut page, &changed.together);
    if alterations.len() > 1 {
        alone(&mut page, alterations, &changed.alone);
    }
    who(&mut page, changed);
    page.cautions(cautions);
    page.finish()
}

fn what(page: &mut Page, alteration: &Alteration) {
    let name = &alteration.name;
    let sizes = alteration.put.iter().flat_map(|model| model.sizes()).map(|(_, size)| size.label.as_str()).join(", ");
    match &alteration.what {
        What::Dropped => page.wrapped("  out      ", name),
        What::Added => page.wrapped("  in       ", &format!("{name} in {sizes}")),
        What::Like { name: other, from } => {
            let words =
                format!("{name} in {sizes}: like {other}, whose shape index is {}, and known by eye", plain(*from));
            page.wrapped("  in       ", &words);
        }
        What::WithoutPads(left_out) => {
            page.wrapped("  less     ", &format!("{name} without {}", left_out.iter().map(pads).join(", ")));
        }
    }
}

fn pads(left_out: &LeftOut) -> String {
    match left_out {
        LeftOut::All => "any pads but those that it comes with".to_owned(),
        LeftOut::Zone(zone) => format!("other {} pads", zone.name()),
        LeftOut::Pad(zone, mm) => format!("{} {} mm", zone.name(), plain(*mm)),
    }
}

fn served(page: &mut Page, effects: &Effects) {
    page.heading("SERVED, of 100 customers");
    page.line("                     before       after        change   in nine of ten cases");
    for (name, effect) in [("standard pads", effects.standard), ("pads on offer", effects.on_offer)] {
        let Effect { before, after, .. } = effect;
        page.line(&format!(
            "  {name}{:>12}{:>12}{:>14}{:>23}",
            of_hundred(before),
            of_hundred(after),
            change(effect.change.quote()),
            change_between(effect.spread)
        ));
    }
    let [won, lost] = [effects.on_offer.change.won, effects.on_offer.change.lost];
    if won + lost + effects.standard.change.won + effects.standard.change.lost == 0 {
        page.wrapped("  ", "Nothing changes: every one of these customers is served as before.");
    }
    let words = "The profiles at their word; ±: sampling error, four standard errors, of the change on the same \
                 customers. The last column: where the change lies when profiles are off as far as they say.";
    page.wrapped("  ", words);
}

fn alone(page: &mut Page, alterations: &[Alteration], effects: &[Effects]) {
    page.heading("EACH ALONE, change of 100 customers");
    page.line("                                standard pads     pads on offer");
    for (alteration, effects) in alterations.iter().zip(effects) {
        let sign = match alteration.what {
            What::Dropped => "out",
            What::Added | What::Like { .. } => "in",
            What::WithoutPads(_) => "less",
        };
        let [standard, on_offer] = [effects.standard, effects.on_offer].map(|effect| change(effect.change.quote()));
        let name = fixed(&alteration.name, 23);
        page.line(&format!("  {sign:<5}{name}{standard:>15}{on_offer:>18}"));
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
    let shapes = ["long oval", "intermediate oval", "round oval"];
    let (told, rest) = groups.split_at(groups.len().min(LISTED));
    for Group { size, circumference, shape, share } in told {
        let cm = circumference / 10.0;
        page.line(&format!("       {:>5} of them  {size} (about {cm:.0} cm), {}", percent(*share), shapes[*shape]));
    }
    if !rest.is_empty() {
        let share = rest.iter().map(|group| group.share).sum();
        page.line(&format!("       {:>5} of them  elsewhere", percent(share)));
    }
}
