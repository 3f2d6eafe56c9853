//! A sheet for a maker: what they don't offer, and what that costs in customers.
//!
//! Heads with an even number choose what is proposed, the others say what it wins.

mod complaints;
mod gains;
mod missing;
mod packs;

pub use complaints::{Complaint, Complaints, complaints};
pub use missing::Missing;
pub use packs::{PackUse, Pair};

use super::lacking::{Lack, Lacking, judges};
use super::ladder::ladder;
use super::shelf::{Column, Shelf};
use super::spread::{Spread, spreads};
use super::tally::{Change, ColumnSet, Tally, real, share};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::head::Particles;
use crate::profile::Model;
use gains::{Found, found, won};
use itertools::Itertools;
use packs::Ends;

/// What a maker should hear.
#[derive(Debug, Clone, PartialEq)]
pub struct MakerSheet<'a> {
    /// The maker's models on the shelf.
    pub models: Vec<&'a Model>,
    /// Heads that say what is won.
    pub judges: u64,
    /// The share of all customers whom a helmet of this maker fits with some pads on offer.
    pub served: Quote,
    /// What would win customers, the most first.
    pub lines: Vec<SheetLine<'a>>,
    /// How many other things would win some, but too few to be told.
    pub minor: usize,
    /// What all lines together win.
    pub together: Gain,
    /// The use of packs; those first whose split would save customers most.
    pub packs: Vec<PackUse<'a>>,
    /// For each model the two single pads that are most often needed together.
    pub pairs: Vec<Pair<'a>>,
}

/// Something that isn't on offer, and what it would win.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetLine<'a> {
    /// The model.
    pub model: &'a Model,
    /// What.
    pub missing: Missing,
    /// What it wins.
    pub gain: Gain,
    /// The gain for the maker where the profiles are off as far as they say; only for the first lines.
    pub spread: Option<Spread>,
}

/// Customers won, as a share of all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// Those whom no helmet of the maker fits without it.
    pub for_maker: Quote,
    /// Those whom no helmet on the shelf fits without it.
    pub for_shop: Quote,
}

/// So many lines are looked at in other worlds.
const SPREAD_LINES: usize = 12;

/// What a maker should hear, from heads of equal weight. The maker has some model on the shelf.
#[must_use]
pub fn maker_sheet<'a>(
    maker: &str,
    shelf: &Shelf<'a>,
    heads: &Particles,
    catalogue: &'a Catalogue,
    seed: u64,
) -> MakerSheet<'a> {
    let own = shelf.columns.iter().positions(|column| column.model.maker == maker).collect_vec();
    let models = own.iter().map(|column| shelf.columns[*column].model).collect_vec();
    let lacking = Lacking::of(shelf, heads, &own);
    let rungs = ladder(shelf.columns.iter().map(|column| column.model));
    let all = models.iter().flat_map(|model| found(model, &rungs, &lacking, catalogue));
    let least = catalogue.shop.buying.least_gap * real(lacking.of[0]);
    let (told, minor): (Vec<_>, Vec<_>) = all.partition(|found| real(found.choosing as u64) >= least);
    let told = told.into_iter().sorted_by_key(|found| std::cmp::Reverse(found.choosing)).collect_vec();
    let spreads = in_worlds(shelf, &own, &told, (&judges(heads), seed), catalogue);
    let ends = models.iter().map(|model| Ends::of(model, heads, catalogue)).collect_vec();
    let unserved = lacking.heads.iter().filter(|lack| lack.judges).count() as u64;
    MakerSheet {
        judges: lacking.of[1],
        served: share(lacking.of[1] - unserved, lacking.of[1]),
        together: gain(&lacking, &together(&models, &told, &lacking, catalogue)),
        lines: told.into_iter().enumerate().map(|(at, found)| line(found, &lacking, spreads.get(at))).collect(),
        minor: minor.len(),
        packs: packs(&ends, catalogue),
        pairs: ends.iter().filter_map(Ends::pair).collect(),
        models,
    }
}

fn line<'a>(found: Found<'a>, lacking: &Lacking, spread: Option<&Spread>) -> SheetLine<'a> {
    let gain = gain(lacking, &found.won);
    SheetLine { model: found.model, missing: found.missing, gain, spread: spread.copied() }
}

/// What those who judge say of customers at these places.
fn gain(lacking: &Lacking, won: &[usize]) -> Gain {
    let judged = |is_so: &dyn Fn(&Lack) -> bool| {
        let won = won.iter().map(|head| &lacking.heads[*head]).filter(|lack| lack.judges && is_so(lack)).count();
        Change { won: won as u64, lost: 0, of: lacking.of[1] }.quote()
    };
    Gain { for_maker: judged(&|_| true), for_shop: judged(&|lack| lack.by_all) }
}

/// The customers whom the models fit with everything that is told.
fn together(models: &[&Model], told: &[Found<'_>], lacking: &Lacking, catalogue: &Catalogue) -> Vec<usize> {
    let changed = models.iter().map(|model| {
        let own = told.iter().filter(|found| found.model.id == model.id);
        own.fold((*model).clone(), |changed, found| found.missing.added_to(&changed))
    });
    let won = changed.flat_map(|model| won(&model, &lacking.heads, catalogue));
    won.sorted().dedup().collect()
}

/// What the first lines win for the maker where the profiles are off.
fn in_worlds(
    shelf: &Shelf<'_>,
    own: &[usize],
    told: &[Found<'_>],
    (heads, seed): (&Particles, u64),
    catalogue: &Catalogue,
) -> Vec<Spread> {
    let changed = told.iter().take(SPREAD_LINES).map(|found| found.missing.added_to(found.model)).collect_vec();
    let known = shelf.columns.len();
    let added = changed.iter().map(|model| Column::of(model, catalogue));
    let wide = Shelf::new(shelf.columns.iter().cloned().chain(added).collect(), shelf.rules);
    let own: ColumnSet = own.iter().copied().collect();
    spreads(&wide, heads, seed, |tally: &Tally| {
        let gain = |line: usize| {
            tally.share(|pattern| pattern.on_offer.has(known + line) && !pattern.on_offer.has_any(own.columns())).value
        };
        (0..changed.len()).map(gain).collect()
    })
}

/// Those whose split would save customers most first.
fn packs<'a>(ends: &[Ends<'a>], catalogue: &Catalogue) -> Vec<PackUse<'a>> {
    let packs = ends.iter().flat_map(|ends| ends.packs(catalogue));
    packs.sorted_by(|a, b| b.saved_by_splitting().total_cmp(&a.saved_by_splitting())).collect()
}

impl PackUse<'_> {
    /// How many pads of a bought pack go into a helmet, on average.
    #[must_use]
    pub fn used_of_one(&self) -> f64 {
        real(self.pads.iter().map(|(_, count)| count).sum()) / real(self.bought.max(1))
    }

    /// What customers of the model would save on average if its pads were sold singly, minor units.
    #[must_use]
    pub fn saved_by_splitting(&self) -> f64 {
        real(self.bill.saturating_sub(self.bill_if_split)) / real(self.customers.max(1))
    }

    /// How often something is so, for each customer of the model.
    #[must_use]
    pub fn for_each(&self, count: u64) -> f64 {
        real(count) / real(self.customers.max(1))
    }
}
