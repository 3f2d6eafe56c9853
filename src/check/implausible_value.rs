//! A number that could be computed with, but that no helmet on sale has: most often a slip of the decimal point or a
//! wrong unit. What is plausible stands in `shop.yaml`.

use super::parts::{PlacedShell, shells};
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Model, Place, Placed, Plausible, Supply, Zone};
use std::fmt::Display;
use std::ops::RangeInclusive;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("implausible-value");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let mut doubts = Doubts { case, plausible: &trusted.shop.plausible, found: Vec::new() };
    let mut last_file = None;
    for model in &case.look.draft.models {
        // The minutes stand once a file.
        if last_file.replace(model.place.source) != Some(model.place.source) {
            doubts.swap_minutes(model);
        }
        doubts.model(model);
    }
    doubts.found
}

struct Doubts<'a, 'c> {
    case: &'a Case<'c>,
    plausible: &'a Plausible,
    found: Vec<Diagnostic>,
}

impl Doubts<'_, '_> {
    fn swap_minutes(&mut self, model: &Placed<Model>) {
        for (zone, minutes) in model.value.swap_minutes.iter().filter(|(_, minutes)| **minutes > 0.0) {
            let place = model.place.file().key("swap_minutes").key(zone.name());
            self.look_at(&place, *minutes, &self.plausible.swap_minutes, " minutes for a swap of pads");
        }
    }

    fn model(&mut self, model: &Placed<Model>) {
        let Placed { value, place } = model;
        self.look_at(&place.key("price"), value.price, &self.plausible.helmet_price, " for a helmet");
        let mass = place.key("attributes").key("mass_g");
        self.look_at(&mass, value.attributes.mass_g, &self.plausible.mass, " g for a helmet");
        for shell in shells(model) {
            self.shell(&shell);
        }
    }

    fn shell(&mut self, shell: &PlacedShell<'_>) {
        for size in shell.sizes() {
            for zone in Zone::ALL {
                let place = size.place.key("standard_pads_mm").key(zone.name());
                if let Some(thickness) = size.value.standard.get(zone) {
                    self.look_at(&place, *thickness, &self.plausible.thickness, " mm for a pad");
                }
            }
        }
        for (pad, place) in shell.pads() {
            self.look_at(&place.key("thickness_mm"), pad.thickness, &self.plausible.thickness, " mm for a pad");
            if let Supply::Single(price) = pad.supply {
                self.look_at(&place.key("price"), price, &self.plausible.pad_price, " for a pad");
            }
        }
        for (at, pack) in shell.value.packs.iter().enumerate() {
            let place = shell.place.key("packs").entry(at).key("price");
            self.look_at(&place, pack.price, &self.plausible.pad_price, " for a pack of pads");
        }
    }

    fn look_at<T: PartialOrd + Display>(&mut self, place: &Place, number: T, range: &RangeInclusive<T>, what: &str) {
        if range.contains(&number) || !self.case.look.is_sound(place) {
            return;
        }
        let (least, most) = (range.start(), range.end());
        let words = if number < *least { "hardly enough" } else { "hardly so much" };
        let message = format!("{number}{what} is {words}: usual is {least} to {most}");
        let help = "check the decimal point and the unit; if it is right, widen `plausible` in shop.yaml";
        let problem = Diagnostic::warning(CODE, message).at(self.case.look.span(place), "hardly so").help(help);
        self.found.push(problem);
    }
}
