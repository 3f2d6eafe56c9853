//! What a maker sells for a shell.

use super::cover::Item;
use crate::profile::{Pack, Pad, Shell, Size, Supply, Zone};
use crate::unit::Money;
use itertools::Itertools;

/// A pad by what it is: zone and thickness in mm. Left and right are one.
pub type Kind = (Zone, f64);

/// Whether two pads are alike.
pub(super) fn are_alike(a: Kind, b: Kind) -> bool {
    a.0 == b.0 && (a.1 - b.1).abs() < 1e-9
}

/// Something that can be ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Goods<'a> {
    /// A pad sold on its own.
    Single(&'a Pad),
    /// A pack.
    Pack(&'a Pack),
}

/// Something that can be ordered, with its price and what is in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer<'a> {
    /// What it is called.
    pub goods: Goods<'a>,
    /// Its price.
    pub price: Money,
    /// The pads in it, in the order of the profile.
    pub pads: Vec<&'a Pad>,
}

/// Whether a size takes such a pad: its standard one, or one on offer for it.
#[must_use]
pub fn takes(shell: &Shell, size: &Size, (zone, mm): Kind) -> bool {
    let is_it = |own: f64| are_alike((zone, own), (zone, mm));
    size.standard.get(zone).is_some_and(is_it) || on_offer(shell, size, zone).into_iter().any(is_it)
}

/// Everything on offer for a shell: single pads, then packs, in the order of the profile. Packs without a pad are none.
pub(super) fn offers(shell: &Shell) -> Vec<Offer<'_>> {
    let singles = shell.pads.iter().filter_map(|pad| match pad.supply {
        Supply::Single(price) => Some(Offer { goods: Goods::Single(pad), price, pads: vec![pad] }),
        Supply::Pack(_) => None,
    });
    let packs = shell.packs.iter().enumerate().map(|(at, pack)| Offer {
        goods: Goods::Pack(pack),
        price: pack.price,
        pads: shell.pads.iter().filter(|pad| pad.supply == Supply::Pack(at)).collect(),
    });
    singles.chain(packs.filter(|pack| !pack.pads.is_empty())).collect()
}

impl Offer<'_> {
    /// Its pads with what each costs in it: equal shares of the price, and a leftover minor unit for the first ones, so
    /// that they add up.
    pub(super) fn parts(&self) -> impl Iterator<Item = (&Pad, Money)> {
        let count = self.pads.len().max(1) as u64;
        let (share, rest) = (self.price.minor() / count, self.price.minor() % count);
        (0..).zip(&self.pads).map(move |(at, pad)| (*pad, Money::of_minor(share + u64::from(at < rest))))
    }

    /// The offer as the search sees it.
    pub(super) fn item(&self, kinds: &[Kind], size: &Size) -> Item {
        let is = |pad: &Pad, kind: Kind| pad.fits_size(&size.label) && are_alike((pad.zone, pad.thickness), kind);
        let count = |kind: &Kind| self.pads.iter().filter(|pad| is(pad, *kind)).count();
        let holds = kinds.iter().map(|kind| u32::try_from(count(kind)).unwrap_or(u32::MAX)).collect();
        Item { price: self.price.minor(), pads: self.pads.len(), holds }
    }
}

/// The least that a pad costs in any offer, a pack shared evenly among its pads; `None` where it isn't on offer for the
/// size.
pub(super) fn worth(offers: &[Offer<'_>], size: &Size, kind: Kind) -> Option<Money> {
    let parts = offers.iter().flat_map(Offer::parts);
    let alike = parts.filter(|(pad, _)| pad.fits_size(&size.label) && are_alike((pad.zone, pad.thickness), kind));
    alike.map(|(_, cost)| cost).min()
}

/// The thicknesses on offer for a zone of a size, ascending, mm.
#[must_use]
pub fn on_offer(shell: &Shell, size: &Size, zone: Zone) -> Vec<f64> {
    let pads = shell.pads.iter().filter(|pad| pad.zone == zone && pad.fits_size(&size.label));
    let sorted = pads.map(|pad| pad.thickness).sorted_by(f64::total_cmp);
    sorted.dedup_by(|a, b| (a - b).abs() < 1e-9).collect()
}
