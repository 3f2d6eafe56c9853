//! How the pads of packs are used, and which pads go into a helmet together.

use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::head::Particles;
use crate::profile::{Model, Pack, Shell, Size, Supply};
use crate::range::shelf::taken;
use crate::range::wear::Dressed;
use crate::supply::{self, Goods, Kind, Purpose, Wish};
use crate::unit::Money;
use itertools::Itertools;
use std::collections::BTreeMap;

/// A pack of a shell, and what becomes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct PackUse<'a> {
    /// The model.
    pub model: &'a Model,
    /// The shell.
    pub shell: &'a Shell,
    /// The pack.
    pub pack: &'a Pack,
    /// Customers whom the model fits with some pads on offer.
    pub customers: u64,
    /// How often it is bought for them.
    pub bought: u64,
    /// Its pads, and how often each goes into a helmet.
    pub pads: Vec<(Kind, u64)>,
    /// What customers pay for the pads that they need, minor units added up.
    pub bill: u64,
    /// The same if its pads were sold singly, each at an even share of its price.
    pub bill_if_split: u64,
}

/// Two pads that are sold singly and go into one helmet.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair<'a> {
    /// The model.
    pub model: &'a Model,
    /// The shell.
    pub shell: &'a Shell,
    /// What they are.
    pub pads: [Kind; 2],
    /// Customers whom the model fits with some pads on offer.
    pub customers: u64,
    /// Those of them who need both.
    pub both: u64,
    /// Those who need one of them or both.
    pub either: u64,
}

/// How customers of a model end: in which size, with which pads that aren't standard, and how many do.
pub(super) struct Ends<'a> {
    model: &'a Model,
    customers: u64,
    ends: Vec<End<'a>>,
}

struct End<'a> {
    shell: &'a Shell,
    size: &'a Size,
    pads: Vec<Kind>,
    count: u64,
}

impl<'a> Ends<'a> {
    /// Every head in the size and with the pads that a customer takes of the model.
    pub(super) fn of(model: &'a Model, heads: &Particles, catalogue: &'a Catalogue) -> Self {
        let rules = &catalogue.shop.fit;
        let candidates = Candidate::of_models([model], catalogue);
        // Nothing lies in a drawer here: pads are told by what they are.
        let dressed = candidates.iter().map(|candidate| Dressed::of(0, candidate, rules, |_| None)).collect_vec();
        let cavities = candidates.iter().map(|candidate| candidate.cavity(rules)).collect_vec();
        let taken = taken(heads, rules.outline);
        let mut counts: BTreeMap<(usize, [usize; 3]), u64> = BTreeMap::new();
        for ((length, breadth), face_width) in taken[0].iter().zip(&taken[1]).zip(&taken[2]) {
            let head = [length, breadth, face_width];
            let sizes = dressed.iter().zip(&cavities).enumerate();
            let rooms = sizes.map(|(at, (size, cavity))| (at, size, [0, 1, 2].map(|axis| cavity[axis] - head[axis])));
            let ways = rooms.filter(|(_, size, room)| size.fits(*room)).map(|(at, size, room)| size.on(at, room));
            if let Some(way) = ways.reduce(|best, way| if way.is_better_than(&best) { way } else { best }) {
                *counts.entry((way.size, way.options)).or_default() += 1;
            }
        }
        let customers = counts.values().sum();
        let ends = counts.into_iter().map(|((at, options), count)| {
            let candidate = &candidates[at];
            let chosen = options
                .iter()
                .zip(&candidate.axes)
                .filter_map(|(option, table)| table.as_ref().map(|table| table.options[*option].pads.clone()));
            let is_swapped = |(zone, mm): &Kind| {
                candidate.size.standard.get(*zone).is_some_and(|standard| (standard - mm).abs() > 1e-9)
            };
            let pads = chosen.flatten().filter(is_swapped).collect();
            End { shell: candidate.shell, size: candidate.size, pads, count }
        });
        Self { model, customers, ends: ends.collect() }
    }

    /// Every pack of the model that is bought.
    pub(super) fn packs(&self, catalogue: &Catalogue) -> Vec<PackUse<'a>> {
        let shells = self.model.shells.iter();
        let packs = shells.flat_map(|shell| shell.packs.iter().enumerate().map(move |(at, pack)| (shell, at, pack)));
        packs.map(|(shell, at, pack)| self.pack(shell, (at, pack), catalogue)).filter(|pack| pack.bought > 0).collect()
    }

    fn pack(&self, shell: &'a Shell, (at, pack): (usize, &'a Pack), catalogue: &Catalogue) -> PackUse<'a> {
        let kinds = shell.pads.iter().filter(|pad| pad.supply == Supply::Pack(at)).map(|pad| (pad.zone, pad.thickness));
        let mut told = PackUse {
            model: self.model,
            shell,
            pack,
            customers: self.customers,
            bought: 0,
            pads: kinds.map(|kind| (kind, 0)).collect(),
            bill: 0,
            bill_if_split: 0,
        };
        let split = split(shell, at);
        for end in self.ends.iter().filter(|end| std::ptr::eq(end.shell, shell) && !end.pads.is_empty()) {
            let Some(supplied) = supply::supply(&end.wish(self.model, catalogue)) else { continue };
            let is_it = |goods: Goods<'_>| matches!(goods, Goods::Pack(bought) if std::ptr::eq(bought, pack));
            let bought = supplied.best.order.iter().filter(|line| is_it(line.goods)).map(|line| line.count);
            let bought = u64::from(bought.sum::<u32>());
            let bill = supplied.best.bill.minor();
            let bill_if_split = supply::price(&end.pads, &split, end.size).map_or(bill, Money::minor);
            told.bill += bill * end.count;
            told.bill_if_split += bill_if_split * end.count;
            if bought > 0 {
                told.bought += bought * end.count;
                let used = told.pads.iter_mut().filter(|(kind, _)| end.pads.contains(kind));
                used.for_each(|(_, count)| *count += end.count);
            }
        }
        told
    }

    /// The two single pads of the model that most customers need together.
    pub(super) fn pair(&self) -> Option<Pair<'a>> {
        let mut best: Option<Pair<'a>> = None;
        for shell in &self.model.shells {
            let singles = shell.pads.iter().filter(|pad| matches!(pad.supply, Supply::Single(_)));
            for [a, b] in singles.map(|pad| (pad.zone, pad.thickness)).array_combinations() {
                let ends = || self.ends.iter().filter(|end| std::ptr::eq(end.shell, shell));
                let has = |end: &End<'_>, kind: Kind| end.pads.contains(&kind);
                let both: u64 = ends().filter(|end| has(end, a) && has(end, b)).map(|end| end.count).sum();
                if both > best.as_ref().map_or(0, |best| best.both) {
                    let either = ends().filter(|end| has(end, a) || has(end, b)).map(|end| end.count).sum();
                    let (model, customers) = (self.model, self.customers);
                    best = Some(Pair { model, shell, pads: [a, b], customers, both, either });
                }
            }
        }
        best
    }
}

impl<'a> End<'a> {
    fn wish(&self, model: &'a Model, catalogue: &Catalogue) -> Wish<'a> {
        Wish {
            model,
            shell: self.shell,
            size: self.size,
            pads: self.pads.clone(),
            sets: 1,
            purpose: Purpose::Helmet,
            mounted: self.size.standard,
            drawer: Vec::new(),
            rules: catalogue.shop.pads,
        }
    }
}

/// The shell with the pads of a pack sold singly as well, each at an even share of its price.
fn split(shell: &Shell, pack: usize) -> Shell {
    let mut split = shell.clone();
    let count = shell.pads.iter().filter(|pad| pad.supply == Supply::Pack(pack)).count().max(1) as u64;
    let share = Money::of_minor(shell.packs[pack].price.minor().div_ceil(count));
    let parts = split.pads.iter_mut().filter(|pad| pad.supply == Supply::Pack(pack));
    parts.for_each(|pad| pad.supply = Supply::Single(share));
    split
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::fit::foam;
    use crate::head::Dimensions;
    use crate::profile::{Axis, Pad, Zone};

    /// A head that leaves such rooms, mm, in the only size of a model.
    fn head(catalogue: &Catalogue, cavity: [f64; 3], rooms: [f64; 3]) -> Dimensions {
        let [length, breadth, face_width] = [0, 1, 2].map(|axis| cavity[axis] - rooms[axis]);
        // An outline without hair takes what its length and breadth say.
        let circumference = catalogue.shop.fit.outline.circumference(length, breadth);
        Dimensions { circumference, length, breadth, face_width }
    }

    #[test]
    fn a_pack_is_bought_for_whoever_needs_one_of_its_pads() {
        let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
        let mut model = catalogue.model("haspenfell-plum").unwrap().clone();
        let mut shell = model.shells.remove(0);
        shell.sizes.truncate(1);
        let size = shell.sizes[0].clone();
        let [rear, sides] = [Zone::Rear, Zone::Sides].map(|zone| size.standard.get(zone).unwrap() + 6.0);
        let pad = |zone, thickness| Pad { zone, thickness, supply: Supply::Pack(0), sizes: None };
        shell.pads = vec![pad(Zone::Rear, rear), pad(Zone::Sides, sides)];
        shell.packs = vec![Pack { id: shell.packs[0].id.clone(), price: Money::of_minor(4000) }];
        model.shells = vec![shell];

        let candidate = Candidate::of_models([&model], &catalogue).remove(0);
        let cavity = candidate.cavity(&catalogue.shop.fit);
        let good = Axis::ALL.map(|axis| 0.64 * foam(&size.standard, axis));
        // Strains of the standard pads below the good band, where thicker ones are good.
        let light = Axis::ALL.map(|axis| 0.85 * foam(&size.standard, axis));
        let of = |rooms| head(&catalogue, cavity, rooms);
        let heads = [good, [good[0], light[1], good[2]], [light[0], light[1], good[2]], [good[0], good[1], 99.0]];
        let heads = Particles::of(heads.map(of));
        let ends = Ends::of(&model, &heads, &catalogue);
        assert_eq!(ends.customers, 3, "one of four fits nothing");
        let packs = ends.packs(&catalogue);
        let [pack] = &packs[..] else { panic!("{packs:?}") };
        assert_eq!(pack.bought, 2);
        assert_eq!(pack.pads, [((Zone::Rear, rear), 1), ((Zone::Sides, sides), 2)]);
        // By hand: two packs at 40.00; singly one pad at 20.00, and two.
        assert_eq!((pack.bill, pack.bill_if_split), (8000, 6000));
        assert!((pack.used_of_one() - 1.5).abs() < 1e-12 && (pack.saved_by_splitting() - 2000.0 / 3.0).abs() < 1e-9);
        assert_eq!(ends.pair(), None, "nothing is sold singly");

        model.shells[0].pads.iter_mut().for_each(|pad| pad.supply = Supply::Single(Money::of_minor(2500)));
        let ends = Ends::of(&model, &heads, &catalogue);
        let pair = ends.pair().unwrap();
        assert_eq!((pair.both, pair.either, pair.customers), (1, 2, 3));
    }
}
