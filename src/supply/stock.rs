//! Pads for the drawer of a shell: what there is, and the cheapest way to so many of each.

use super::cover;
use super::offers::{Goods, Kind, Offer, are_alike, offers};
use super::order::Line;
use crate::profile::{Pack, Pad, Shell};
use crate::unit::{Id, Money};
use itertools::Itertools;

/// A pad as a drawer has it. What is sold for the same zone, thickness and sizes is one article, however it is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Article<'a> {
    /// What it is.
    pub kind: Kind,
    /// The sizes that take it, in the order of the shell.
    pub sizes: Vec<&'a Id>,
    /// The least that it costs, a pack shared evenly among its pads.
    pub worth: Money,
    /// What it costs on its own; `None` where it comes only in packs.
    pub single: Option<Money>,
    /// The packs that hold it, each with what one of it costs there: an equal share of the pack.
    pub packs: Vec<(&'a Pack, Money)>,
}

/// Pads that are bought for a drawer.
#[derive(Debug, Clone, PartialEq)]
pub struct Purchase<'a> {
    /// What is ordered, in the order of the profile.
    pub order: Vec<Line<'a>>,
    /// What the maker asks for it.
    pub bill: Money,
    /// By article, how many more come than are needed.
    pub left_over: Vec<u32>,
    /// How it was found.
    pub found: Found,
}

/// How a purchase was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// It is the cheapest of all.
    Cheapest,
    /// So much is needed that not all ways could be weighed: each pad is bought where it costs least by itself.
    PadByPad,
}

/// So many pads are weighed against each other at most.
const MOST_WEIGHED: u32 = 2_000;

/// Everything that a drawer of this shell may hold, in the order of the profile.
#[must_use]
pub fn articles(shell: &Shell) -> Vec<Article<'_>> {
    let offers = offers(shell);
    let mut articles: Vec<Article<'_>> = Vec::new();
    for pad in &shell.pads {
        if articles.iter().any(|known| known.is(pad, shell)) {
            continue;
        }
        let kind = (pad.zone, pad.thickness);
        let mut article =
            Article { kind, sizes: sizes(pad, shell), worth: Money::default(), single: None, packs: vec![] };
        for offer in &offers {
            let costs = offer.parts().filter(|(pad, _)| article.is(pad, shell)).map(|(_, cost)| cost).min();
            match (offer.goods, costs) {
                (_, None) => {}
                (Goods::Single(_), Some(price)) => {
                    article.single = Some(article.single.map_or(price, |known| known.min(price)));
                }
                (Goods::Pack(pack), Some(share)) => article.packs.push((pack, share)),
            }
        }
        let shares = article.packs.iter().map(|(_, share)| *share);
        article.worth = shares.chain(article.single).min().unwrap_or_default();
        articles.push(article);
    }
    articles
}

/// The sizes that take a pad.
fn sizes<'a>(pad: &Pad, shell: &'a Shell) -> Vec<&'a Id> {
    shell.sizes.iter().map(|size| &size.label).filter(|label| pad.fits_size(label)).collect()
}

impl Article<'_> {
    /// Whether a pad of its shell is this one.
    #[must_use]
    pub fn is(&self, pad: &Pad, shell: &Shell) -> bool {
        are_alike(self.kind, (pad.zone, pad.thickness)) && self.sizes == sizes(pad, shell)
    }

    /// Whether a size takes it as such a pad.
    #[must_use]
    pub fn serves(&self, kind: Kind, size: &Id) -> bool {
        are_alike(self.kind, kind) && self.sizes.contains(&size)
    }
}

/// The cheapest way to so many of each of the shell's [`articles`], as for any purchase (see the method): of equal bills
/// the one with the fewest pads left over. Every article is on offer, so there always is a way.
#[must_use]
pub fn stock_up<'a>(shell: &'a Shell, articles: &[Article<'a>], need: &[u32]) -> Purchase<'a> {
    let offers = offers(shell);
    let items = offers.iter().map(|offer| item(offer, articles, shell)).collect_vec();
    let is_little = need.iter().fold(0_u32, |sum, need| sum.saturating_add(*need)) <= MOST_WEIGHED;
    let cheapest = if is_little { cover::cheapest(&items, need).ok() } else { None };
    let found = if cheapest.is_some() { Found::Cheapest } else { Found::PadByPad };
    let counts = cheapest.unwrap_or_else(|| pad_by_pad(&items, need));
    let bought = offers.iter().zip(&counts).filter(|(_, count)| **count > 0);
    let order = bought.map(|(offer, count)| Line {
        goods: offer.goods,
        pads: offer.pads.iter().map(|pad| (pad.zone, pad.thickness)).collect(),
        count: *count,
        price: offer.price,
    });
    let bill = offers.iter().zip(&counts).map(|(offer, count)| offer.price * *count).sum();
    let comes = |at: usize| -> u32 { items.iter().zip(&counts).map(|(item, count)| item.holds[at] * count).sum() };
    let left_over = need.iter().enumerate().map(|(at, need)| comes(at).saturating_sub(*need)).collect();
    Purchase { order: order.collect(), bill, left_over, found }
}

fn item(offer: &Offer<'_>, articles: &[Article<'_>], shell: &Shell) -> cover::Item {
    let count = |article: &Article<'_>| offer.pads.iter().filter(|pad| article.is(pad, shell)).count();
    let holds = articles.iter().map(|article| u32::try_from(count(article)).unwrap_or(u32::MAX)).collect();
    cover::Item { price: offer.price.minor(), pads: offer.pads.len(), holds }
}

/// Each kind from the offer in which one of it costs least; what came along is taken into account.
fn pad_by_pad(items: &[cover::Item], need: &[u32]) -> Vec<u32> {
    let mut counts = vec![0; items.len()];
    for (kind, need) in need.iter().enumerate() {
        let there: u32 = items.iter().zip(&counts).map(|(item, count)| item.holds[kind] * count).sum();
        let each = |item: &cover::Item| u128::from(item.price) * 1_000_000 / u128::from(item.holds[kind]);
        let holding = items.iter().enumerate().filter(|(_, item)| item.holds[kind] > 0);
        if let Some((at, item)) = holding.min_by_key(|(_, item)| each(item)) {
            counts[at] += need.saturating_sub(there).div_ceil(item.holds[kind]);
        }
    }
    counts
}
