//! Where customers go without, as regions that a buyer can say in words.

use super::region::{Grid, Region};
use super::shelf::Shelf;
use super::tally::share;
use crate::fit::{Candidate, Quote, Reach};
use crate::head::{Dimensions, EffectiveHead, Particles};
use crate::profile::{BuyingRules, Model, Reason, Size};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Everybody whom nothing fits with the pads on offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Gaps<'a> {
    /// Regions that lose most customers first. Where two of them meet, the heads count for one.
    pub gaps: Vec<Gap<'a>>,
    /// The share of all customers who fit nothing and are in none of them.
    pub elsewhere: Quote,
    /// The share of all customers who fit nothing.
    pub lost: Quote,
}

/// A region in which most customers fit nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap<'a> {
    /// Whose heads.
    pub region: Region,
    /// The share of all customers who are in it.
    pub customers: Quote,
    /// The share of all customers who are in it and fit nothing.
    pub lost: Quote,
    /// What comes nearest to fitting them; `None` on an empty shelf.
    pub nearest: Option<Nearest<'a>>,
}

/// The helmet that misses the heads of a region by least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size that is nearest for most of them.
    pub size: &'a Size,
    /// Why it mostly fails, with the best pads on offer.
    pub reason: Reason,
    /// By how many mm of room, on average over those for whom it fails so.
    pub miss: f64,
}

/// Regions that are looked for.
const MOST_GAPS: usize = 12;

/// Heads that say what is nearest to a region.
const ASKED: usize = 2048;

/// Finds the gaps of a shelf, given which heads something fits. Regions are chosen on the heads with an even number, and
/// counted on the others.
#[must_use]
pub fn gaps<'a>(shelf: &Shelf<'a>, heads: &Particles, served: &[bool], rules: &BuyingRules) -> Gaps<'a> {
    let [mut choosing, mut judging] = [0, 1].map(|half| {
        let places = (half..heads.len()).step_by(2);
        Grid::of(places.map(|place| (heads.head(place), served[place])))
    });
    let (all, lost) = judging.counts(&Region::EVERYBODY);
    let mut gaps = Vec::new();
    let mut elsewhere = lost;
    while gaps.len() < MOST_GAPS
        && let Some(region) = choosing.heaviest(rules.gap_from)
    {
        let (_, chosen) = choosing.counts(&region);
        #[expect(clippy::cast_precision_loss, reason = "counts far below 2⁵²")]
        if (chosen as f64) < rules.least_gap * choosing.heads() as f64 {
            break;
        }
        let (inside, outside) = judging.counts(&region);
        elsewhere -= outside;
        let unserved = (0..heads.len()).filter(|head| !served[*head]).map(|head| heads.head(head));
        let those = unserved.filter(|head| region.holds(head)).take(ASKED).collect_vec();
        let nearest = nearest(shelf, &those);
        choosing.clear(&region);
        judging.clear(&region);
        gaps.push(Gap { region, customers: share(inside, all), lost: share(outside, all), nearest });
    }
    gaps.sort_by(|a, b| b.lost.value.total_cmp(&a.lost.value));
    Gaps { gaps, elsewhere: share(elsewhere, all), lost: share(lost, all) }
}

/// What misses these heads by least, added up over them.
fn nearest<'a>(shelf: &Shelf<'a>, heads: &[Dimensions]) -> Option<Nearest<'a>> {
    let outline = shelf.rules.outline;
    let taken = heads.iter().map(|head| outline.effective(*head)).collect_vec();
    let tried = shelf.columns.iter().map(|column| {
        let ready = |candidate: &Candidate<'a>| (candidate.size, Reach::of(candidate, &shelf.rules));
        let sizes = column.candidates.iter().map(ready).collect_vec();
        let miss = |head: &EffectiveHead| {
            let misses = sizes.iter().map(|(size, reach)| Miss { size, mm: reach.misses(*head) });
            misses.min_by(Miss::order)
        };
        (column.model, taken.iter().filter_map(miss).collect_vec())
    });
    let total = |misses: &[Miss<'_>]| misses.iter().map(Miss::total).sum::<f64>();
    let asked = tried.filter(|(_, misses)| !misses.is_empty());
    let (model, misses) = asked.min_by(|(_, a), (_, b)| total(a).total_cmp(&total(b)))?;
    let mut reasons: BTreeMap<Reason, Vec<&Miss<'a>>> = BTreeMap::new();
    for miss in &misses {
        if let Some(reason) = Reason::from_direction(miss.mm.map(sign)) {
            reasons.entry(reason).or_default().push(miss);
        }
    }
    let (reason, failed) =
        reasons.into_iter().max_by_key(|(reason, failed)| (failed.len(), std::cmp::Reverse(*reason)))?;
    let sizes = failed.iter().map(|miss| &miss.size.label).counts();
    let (size, _) = failed.iter().map(|miss| (miss.size, sizes[&miss.size.label])).max_by_key(|(_, count)| *count)?;
    #[expect(clippy::cast_precision_loss, reason = "at most 2048")]
    let miss = failed.iter().map(|miss| miss.along(reason)).sum::<f64>() / failed.len() as f64;
    Some(Nearest { model, size, reason, miss })
}

/// By how much one head misses a size.
struct Miss<'a> {
    size: &'a Size,
    /// By axis, mm: more than 0 too tight, less than 0 too loose.
    mm: [f64; 3],
}

impl Miss<'_> {
    fn total(&self) -> f64 {
        self.mm.iter().map(|mm| mm.abs()).sum()
    }

    fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.total().total_cmp(&other.total())
    }

    /// The largest miss on the axes of a reason.
    fn along(&self, reason: Reason) -> f64 {
        let direction = reason.direction().unwrap_or_default();
        self.mm.iter().zip(direction).map(|(mm, sign)| mm * f64::from(sign)).fold(0.0, f64::max)
    }
}

fn sign(mm: f64) -> i8 {
    i8::from(mm > 0.0) - i8::from(mm < 0.0)
}
