//! The new model that would win most customers, for people.

use super::figures::{plainly, share, spread};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::head::Population;
use crate::profile::Zone;
use crate::range::{Blueprint, Design, Designs, Part, Rung};
use crate::render::text::audit::thousands;
use crate::render::text::page::{Page, fixed, mm, percent};
use crate::unit::plain;
use itertools::Itertools;

/// The answer as a page.
#[must_use]
pub fn range_design(
    catalogue: &Catalogue,
    population: &Population,
    models: usize,
    designs: &Designs<'_>,
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    let words = Words { catalogue, designs };
    words.who(&mut page, population, models);
    match &designs.best {
        Some(best) if best.pays => {
            words.best(&mut page, best);
            words.parts(&mut page, best);
            words.next(&mut page);
            words.by_index(&mut page);
            words.reshaped(&mut page, best);
            words.notes(&mut page);
        }
        best => words.nothing(&mut page, best.as_ref()),
    }
    page.cautions(cautions);
    page.finish()
}

struct Words<'w, 'a> {
    catalogue: &'w Catalogue,
    designs: &'w Designs<'a>,
}

impl Words<'_, '_> {
    fn who(&self, page: &mut Page, population: &Population, models: usize) {
        page.heading("CUSTOMERS WITHOUT A HELMET");
        let what = if models == 1 { "not the one model".to_owned() } else { format!("none of the {models} models") };
        let words = format!(
            "{} of all customers fit {what} that can be had here, with any pads on offer. If the profiles are off as far as \
             they say, it is {}. (Population: {}.)",
            share(self.designs.gap),
            spread(self.designs.gap_spread),
            population.name
        );
        page.wrapped("  ", &words);
    }

    fn best(&self, page: &mut Page, best: &Design) {
        page.heading("THE NEW MODEL THAT WOULD WIN MOST");
        let blueprint = &best.blueprint;
        page.wrapped("  shape     ", &self.shape(blueprint));
        page.wrapped("  sizes     ", &blueprint.sizes.iter().map(rung).join(", "));
        page.wrapped("  tunable   ", &tunable(blueprint));
        page.wrapped("  pads      ", &self.pads(blueprint));
        let of_gap = best.gain.value / self.designs.gap.value.max(f64::MIN_POSITIVE);
        let words = format!(
            "{} of all customers, {} of those who have nothing now; if the profiles of the others are off, {}",
            share(best.gain),
            percent(of_gap),
            spread(best.spread)
        );
        page.wrapped("  wins      ", &words);
    }

    fn shape(&self, blueprint: &Blueprint) -> String {
        let word = self.catalogue.shop.words.word(blueprint.shape_index);
        format!("index {} ({word})", plain(blueprint.shape_index))
    }

    fn pads(&self, blueprint: &Blueprint) -> String {
        let known = Zone::ALL.into_iter().filter(|zone| *zone != Zone::Crown);
        let known = known.filter_map(|zone| self.designs.pads.get(zone).map(|pad| (zone, pad)));
        let standard = known.map(|(zone, pad)| format!("{} {}", zone.name(), mm(pad))).join(", ");
        let standard = format!("{standard} mm in every size, as usual here");
        let buying = &self.catalogue.shop.buying;
        if blueprint.zones().next().is_none() {
            return standard;
        }
        let ways = plain(buying.pads_each_way.round());
        format!("{standard}; {ways} thinner and {ways} thicker where tunable, each {} mm apart", mm(buying.pad_step))
    }

    fn parts(&self, page: &mut Page, best: &Design) {
        page.heading("WHAT EACH PART OF IT WINS, customers lost without it");
        for (part, quote) in &best.parts {
            page.line(&format!("  {}{:>14}", fixed(&named(part), 36), share(*quote)));
        }
        let least = plainly(self.catalogue.shop.buying.least_gain);
        let words = format!(
            "Nothing is in it that wins less than {least} of all customers by itself (least_gain of shop.yaml)."
        );
        page.wrapped("  ", &words);
    }

    fn next(&self, page: &mut Page) {
        page.heading("ANOTHER SHAPE");
        let apart = plain(self.catalogue.shop.profile_errors.by_eye.shape_index);
        let Some((next, lead)) = self.designs.next.as_ref().zip(self.designs.lead) else {
            page.wrapped("  ", &format!("None that lies {apart} points of the index away or more is worth having."));
            return;
        };
        let blueprint = &next.blueprint;
        let (more, word) = if lead.quote.value < 0.0 { (lead.turned(), "more") } else { (lead, "less") };
        let parts = [Some(next), self.designs.best.as_ref()].map(|one| one.map_or(0, |one| one.blueprint.parts()));
        let words = format!(
            "The best one at least {apart} points of the index away, which an eye can tell apart: {}; sizes {}; tunable: {}. \
             It wins {}, {} {word} than the first ({} if the profiles are off), with {} sizes and tunable axes instead of \
             {}.",
            self.shape(blueprint),
            blueprint.sizes.iter().map(|rung| rung.label.as_str()).join(", "),
            tunable(blueprint),
            share(next.gain),
            share(more.quote),
            spread(more.spread),
            parts[0],
            parts[1]
        );
        page.wrapped("  ", &words);
    }

    /// One line for each whole point of the index.
    fn by_index(&self, page: &mut Page) {
        page.heading("THE BEST MODEL OF EACH SHAPE");
        page.line("  index          wins");
        let whole = self.designs.by_index.iter().filter(|(blueprint, _)| blueprint.shape_index.fract() == 0.0);
        let most = self.designs.by_index.iter().map(|(_, gain)| gain.value).fold(f64::MIN_POSITIVE, f64::max);
        for (blueprint, gain) in whole {
            let sizes = blueprint.sizes.iter().map(|rung| rung.label.as_str()).join(" ");
            let bar = bar(*gain, most);
            let line = format!("  {:>5}{:>14}  {}{sizes}", plain(blueprint.shape_index), share(*gain), fixed(&bar, 26));
            page.line(&fixed(&line, 80));
        }
    }

    fn reshaped(&self, page: &mut Page, best: &Design) {
        let Some((model, gain)) = self.designs.reshaped else { return };
        page.heading("A MODEL THAT EXISTS, WITH THIS SHAPE");
        let words = format!(
            "{} with the index {}, in its own sizes and with its own pads, would win {}: `lidladder range --add {}@{}` \
             says more of it.",
            model.name,
            plain(best.blueprint.shape_index),
            share(gain),
            model.id,
            plain(best.blueprint.shape_index)
        );
        page.wrapped("  ", &words);
    }

    fn notes(&self, page: &mut Page) {
        page.heading("HOW SURE");
        let words = format!(
            "Every index in steps of 0.5, every set of the sizes {} and every choice of tunable zones was tried on one half \
             of the heads; every figure is from the other half, {} heads. ±: sampling error, four standard errors. Profiles \
             off as far as they say: nine in ten such cases lie in there, with the new model as drawn.",
            self.designs.ladder.iter().map(|rung| rung.label.as_str()).join(", "),
            thousands(usize::try_from(self.designs.judges).unwrap_or(usize::MAX))
        );
        page.wrapped("  ", &words);
    }

    fn nothing(&self, page: &mut Page, best: Option<&Design>) {
        page.heading("NO NEW MODEL IS WORTH HAVING");
        let least = plainly(self.catalogue.shop.buying.least_gain);
        let words = match best {
            None => "No model in the usual sizes would win any customer of them.".to_owned(),
            Some(best) => format!(
                "Each size and each tunable zone of a new model should win {least} of all customers (least_gain of \
                 shop.yaml), and none does. What comes nearest: {}; sizes {}; tunable: {}; it wins {}.",
                self.shape(&best.blueprint),
                best.blueprint.sizes.iter().map(|rung| rung.label.as_str()).join(", "),
                tunable(&best.blueprint),
                share(best.gain)
            ),
        };
        page.wrapped("  ", &words);
        self.notes(page);
    }
}

/// A size with its range.
fn rung(rung: &Rung) -> String {
    let [from, to] = [rung.circumference.0, rung.circumference.1].map(|mm| plain(mm / 10.0));
    format!("{} ({from}-{to} cm)", rung.label)
}

fn tunable(blueprint: &Blueprint) -> String {
    let zones = blueprint.zones().map(Zone::name).join(", ");
    if zones.is_empty() { "nothing".to_owned() } else { zones }
}

fn named(part: &Part) -> String {
    match part {
        Part::Size(size) => format!("size {}", rung(size)),
        Part::Tunable(axis) => format!("tunable {}", axis.zones().iter().map(|zone| zone.name()).join(" and ")),
    }
}

/// As long as the gain, the largest being 24 columns.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 24")]
fn bar(gain: Quote, most: f64) -> String {
    "#".repeat((24.0 * gain.value / most).round() as usize)
}
