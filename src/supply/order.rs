//! One way to get what is wanted: what is ordered, what is taken from the drawer, what is left over.

use super::offers::{Goods, Kind, Offer, are_alike, worth};
use super::{Wish, in_order};
use crate::unit::Money;

/// One line of an order.
#[derive(Debug, Clone, PartialEq)]
pub struct Line<'a> {
    /// What is ordered.
    pub goods: Goods<'a>,
    /// The pads in one of it.
    pub pads: Vec<Kind>,
    /// How many.
    pub count: u32,
    /// What one costs.
    pub price: Money,
}

/// Pads of one kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stack {
    /// What they are.
    pub kind: Kind,
    /// How many.
    pub count: u32,
    /// What all of them are worth: what they cost in this order, or would cost.
    pub value: Money,
}

/// One way to get what is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Way<'a> {
    /// What is ordered, in the order of the profile; may be nothing.
    pub order: Vec<Line<'a>>,
    /// What the maker asks for it.
    pub bill: Money,
    /// What the ordered pads that are wanted cost: the bill without what is left over.
    pub used: Money,
    /// Wanted pads from the shop's drawer.
    pub from_drawer: Vec<Stack>,
    /// Ordered pads that nobody wanted.
    pub left_over: Vec<Stack>,
}

impl<'a> Way<'a> {
    /// The way that buys so many of each offer.
    pub(super) fn of(wish: &Wish<'_>, offers: &[Offer<'a>], counts: &[u32]) -> Self {
        let bought = offers.iter().zip(counts).filter(|(_, count)| **count > 0);
        let order = bought.clone().map(|(offer, count)| Line {
            goods: offer.goods,
            pads: offer.pads.iter().map(|pad| (pad.zone, pad.thickness)).collect(),
            count: *count,
            price: offer.price,
        });
        let mut way = Self {
            order: order.collect(),
            bill: bought.clone().map(|(offer, count)| offer.price * *count).sum(),
            used: Money::default(),
            from_drawer: Vec::new(),
            left_over: Vec::new(),
        };
        let mut wanted = wish.wanted();
        for (offer, count) in bought {
            for (pad, cost) in offer.parts() {
                let kind = (pad.zone, pad.thickness);
                let fits = pad.fits_size(&wish.size.label);
                let open = wanted.iter_mut().find(|(known, _)| fits && are_alike(*known, kind)).map(|(_, open)| open);
                let used = open.as_ref().map_or(0, |open| (**open).min(*count));
                way.used = way.used + cost * used;
                open.into_iter().for_each(|open| *open -= used);
                add(&mut way.left_over, kind, *count - used, cost);
            }
        }
        for (kind, open) in wanted {
            add(&mut way.from_drawer, kind, open, worth(offers, wish.size, kind).unwrap_or_default());
        }
        way.left_over = in_order(way.left_over);
        way
    }

    /// What the pads from the drawer are worth.
    #[must_use]
    pub fn drawer_value(&self) -> Money {
        self.from_drawer.iter().map(|stack| stack.value).sum()
    }

    /// What is left over is worth this.
    #[must_use]
    pub fn left_value(&self) -> Money {
        self.left_over.iter().map(|stack| stack.value).sum()
    }
}

/// Puts pads onto their stack.
fn add(stacks: &mut Vec<Stack>, kind: Kind, count: u32, each: Money) {
    if count == 0 {
        return;
    }
    match stacks.iter_mut().find(|stack| are_alike(stack.kind, kind)) {
        Some(stack) => {
            stack.count += count;
            stack.value = stack.value + each * count;
        }
        None => stacks.push(Stack { kind, count, value: each * count }),
    }
}
