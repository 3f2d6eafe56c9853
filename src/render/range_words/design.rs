//! The new model that would win most customers.

use super::figures::{plainly, share, spread};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::head::Population;
use crate::profile::Zone;
use crate::range::{Blueprint, Design, Designs, Part, Rung};
use crate::render::text::{mm, percent, thousands};
use crate::unit::plain;
use itertools::Itertools;

/// What was found, and where.
pub(in crate::render) struct DesignWords<'w, 'a> {
    pub(in crate::render) catalogue: &'w Catalogue,
    pub(in crate::render) designs: &'w Designs<'a>,
}

impl DesignWords<'_, '_> {
    /// Who has nothing now.
    pub(in crate::render) fn who(&self, population: &Population, models: usize) -> String {
        let what = if models == 1 { "not the one model".to_owned() } else { format!("none of the {models} models") };
        format!(
            "{} of all customers fit {what} that can be had here, with any pads on offer. If the profiles are off as far as \
             they say, it is {}. (Population: {}.)",
            share(self.designs.gap),
            spread(self.designs.gap_spread),
            population.name
        )
    }

    /// A design by its properties.
    pub(in crate::render) fn facts(&self, best: &Design) -> [(&'static str, String); 5] {
        let blueprint = &best.blueprint;
        [
            ("shape", self.shape(blueprint)),
            ("sizes", blueprint.sizes.iter().map(rung).join(", ")),
            ("tunable", tunable(blueprint)),
            ("pads", self.pads(blueprint)),
            ("wins", self.wins(best)),
        ]
    }

    fn wins(&self, best: &Design) -> String {
        let of_gap = best.gain.value / self.designs.gap.value.max(f64::MIN_POSITIVE);
        format!(
            "{} of all customers, {} of those who have nothing now; if the profiles of the others are off, {}",
            share(best.gain),
            percent(of_gap),
            spread(best.spread)
        )
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

    /// What a part must win to be in it.
    pub(in crate::render) fn least(&self) -> String {
        let least = plainly(self.catalogue.shop.buying.least_gain);
        format!("Nothing is in it that wins less than {least} of all customers by itself (least_gain of shop.yaml).")
    }

    /// The best one of another shape.
    pub(in crate::render) fn next(&self) -> String {
        let apart = plain(self.catalogue.shop.profile_errors.by_eye.shape_index);
        let Some((next, lead)) = self.designs.next.as_ref().zip(self.designs.lead) else {
            return format!("None that lies {apart} points of the index away or more is worth having.");
        };
        let blueprint = &next.blueprint;
        let (more, word) = if lead.quote.value < 0.0 { (lead.turned(), "more") } else { (lead, "less") };
        let parts = [Some(next), self.designs.best.as_ref()].map(|one| one.map_or(0, |one| one.blueprint.parts()));
        format!(
            "The best one at least {apart} points of the index away, which an eye can tell apart: {}; sizes {}; tunable: {}. \
             It wins {}, {} {word} than the first ({} if the profiles are off), with {} sizes and tunable axes instead of \
             {}.",
            self.shape(blueprint),
            sizes(blueprint, ", "),
            tunable(blueprint),
            share(next.gain),
            share(more.quote),
            spread(more.spread),
            parts[0],
            parts[1]
        )
    }

    /// The best design of each whole point of the index.
    pub(in crate::render) fn by_index(&self) -> impl Iterator<Item = &(Blueprint, Quote)> {
        self.designs.by_index.iter().filter(|(blueprint, _)| blueprint.shape_index.fract() == 0.0)
    }

    /// The most that a design of any shape wins; more than 0.
    pub(in crate::render) fn most(&self) -> f64 {
        self.designs.by_index.iter().map(|(_, gain)| gain.value).fold(f64::MIN_POSITIVE, f64::max)
    }

    /// A model that exists, in the shape of the best design.
    pub(in crate::render) fn reshaped(&self, best: &Design) -> Option<String> {
        let (model, gain) = self.designs.reshaped?;
        let words = format!(
            "{} with the index {}, in its own sizes and with its own pads, would win {}: `lidladder range --add {}@{}` \
             says more of it.",
            model.name,
            plain(best.blueprint.shape_index),
            share(gain),
            model.id,
            plain(best.blueprint.shape_index)
        );
        Some(words)
    }

    /// How sure all of it is.
    pub(in crate::render) fn how(&self) -> String {
        format!(
            "Every index in steps of 0.5, every set of the sizes {} and every choice of tunable zones was tried on one half \
             of the heads; every figure is from the other half, {} heads. ±: sampling error, four standard errors. Profiles \
             off as far as they say: nine in ten such cases lie in there, with the new model as drawn.",
            self.designs.ladder.iter().map(|rung| rung.label.as_str()).join(", "),
            thousands(usize::try_from(self.designs.judges).unwrap_or(usize::MAX))
        )
    }

    /// Why no new model is worth having, and what comes nearest.
    pub(in crate::render) fn nothing(&self) -> String {
        let least = plainly(self.catalogue.shop.buying.least_gain);
        match &self.designs.best {
            None => "No model in the usual sizes would win any customer of them.".to_owned(),
            Some(best) => format!(
                "Each size and each tunable zone of a new model should win {least} of all customers (least_gain of \
                 shop.yaml), and none does. What comes nearest: {}; sizes {}; tunable: {}; it wins {}.",
                self.shape(&best.blueprint),
                sizes(&best.blueprint, ", "),
                tunable(&best.blueprint),
                share(best.gain)
            ),
        }
    }
}

/// The labels of its sizes.
pub(in crate::render) fn sizes(blueprint: &Blueprint, between: &str) -> String {
    blueprint.sizes.iter().map(|rung| rung.label.as_str()).join(between)
}

/// A part of a design.
pub(in crate::render) fn named(part: &Part) -> String {
    match part {
        Part::Size(size) => format!("size {}", rung(size)),
        Part::Tunable(axis) => format!("tunable {}", axis.zones().iter().map(|zone| zone.name()).join(" and ")),
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
