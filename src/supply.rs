//! What a wanted pad set costs, and the cheapest way to get it.
//!
//! A pad is sold singly or in a pack, a pack holds pads for several zones, and the shop may have some in a drawer. The
//! cheapest combination is found exactly (`cover`); who pays for it is counted in whole minor units (`settle`).

mod cover;
mod offers;
mod order;
mod settle;
mod stock;

pub use offers::{Goods, Kind, Offer, on_offer, takes};
pub use order::{Line, Stack, Way};
pub use settle::{Settlement, Supplied, supply};
pub use stock::{Article, Found, Purchase, articles, stock_up};

use crate::profile::{ByZone, Model, PadRules, Shell, Size, Zone};
use crate::unit::Money;
use itertools::Itertools;

/// What is wanted, and what is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish<'a> {
    /// The model.
    pub model: &'a Model,
    /// Its shell.
    pub shell: &'a Shell,
    /// The size.
    pub size: &'a Size,
    /// The wanted pads: for a helmet at most one for each zone.
    pub pads: Vec<Kind>,
    /// How many of each.
    pub sets: u32,
    /// What for.
    pub purpose: Purpose,
    /// What is in the helmets now, mm by zone.
    pub mounted: ByZone<Option<f64>>,
    /// Pads of this shell that the shop has, one for each time that they are named.
    pub drawer: Vec<Kind>,
    /// Who pays.
    pub rules: PadRules,
}

/// What pads are bought for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// They go into a customer's helmet, and others come out.
    Helmet,
    /// They go into the drawer.
    Stock,
}

/// The least that these pads cost for a size, one of each; `None` where one of them isn't on offer.
#[must_use]
pub fn price(pads: &[Kind], shell: &Shell, size: &Size) -> Option<Money> {
    let offers = offers::offers(shell);
    let items = offers.iter().map(|offer| offer.item(pads, size)).collect_vec();
    let counts = cover::cheapest(&items, &vec![1; pads.len()]).ok()?;
    Some(offers.iter().zip(counts).map(|(offer, count)| offer.price * count).sum())
}

impl<'a> Wish<'a> {
    /// The pads that have to be got, and how many of each: those that are not in the helmet already.
    #[must_use]
    pub fn wanted(&self) -> Vec<(Kind, u32)> {
        let is_new = |kind: &&Kind| self.purpose == Purpose::Stock || !self.is_mounted(**kind);
        let mut wanted: Vec<(Kind, u32)> = Vec::new();
        for kind in self.pads.iter().filter(is_new) {
            match wanted.iter_mut().find(|(known, _)| offers::are_alike(*known, *kind)) {
                Some((_, count)) => *count += self.sets,
                None => wanted.push((*kind, self.sets)),
            }
        }
        wanted
    }

    /// Whether a pad is in the helmet already.
    #[must_use]
    pub fn is_mounted(&self, kind: Kind) -> bool {
        self.mounted.get(kind.0).is_some_and(|mm| offers::are_alike((kind.0, mm), kind))
    }

    /// Wanted pads that are neither on offer nor in the drawer often enough.
    #[must_use]
    pub fn missing(&self) -> Vec<Kind> {
        let offers = offers::offers(self.shell);
        let short = |(kind, count): &(Kind, u32)| self.in_drawer(*kind) < *count;
        let not_sold = |(kind, _): &(Kind, u32)| offers::worth(&offers, self.size, *kind).is_none();
        let missing = self.wanted().into_iter().filter(|wanted| short(wanted) && not_sold(wanted));
        missing.map(|(kind, _)| kind).collect()
    }

    fn in_drawer(&self, kind: Kind) -> u32 {
        let count = self.drawer.iter().filter(|pad| offers::are_alike(**pad, kind)).count();
        u32::try_from(count).unwrap_or(u32::MAX)
    }

    /// What comes out of the helmets, by zone: one for each pad that goes in.
    fn comes_out(&self) -> Vec<(Kind, u32)> {
        if self.purpose == Purpose::Stock {
            return Vec::new();
        }
        let out = |(zone, _): Kind| self.mounted.get(zone).map(|mm| ((zone, mm), self.sets));
        self.wanted().into_iter().filter_map(|(kind, _)| out(kind)).collect()
    }

    fn is_standard(&self, (zone, mm): Kind) -> bool {
        self.size.standard.get(zone).is_some_and(|standard| (standard - mm).abs() < 1e-9)
    }
}

/// Zones in their order, for lists.
fn in_order(stacks: Vec<Stack>) -> Vec<Stack> {
    let place = |zone: Zone| Zone::ALL.iter().position(|known| *known == zone);
    let by_place = |a: &Stack, b: &Stack| place(a.kind.0).cmp(&place(b.kind.0)).then(a.kind.1.total_cmp(&b.kind.1));
    stacks.into_iter().sorted_by(by_place).collect()
}

/// Another shell of a model that takes such a pad.
#[must_use]
pub fn shell_that_takes<'a>(model: &'a Model, own: &Shell, (zone, mm): Kind) -> Option<&'a Shell> {
    let takes = |shell: &&Shell| shell.pads.iter().any(|pad| offers::are_alike((pad.zone, pad.thickness), (zone, mm)));
    model.shells.iter().filter(|shell| shell.id != own.id).find(takes)
}
