//! Pads for the drawer: which are used, how many to have, what they cost, and what they are worth.

mod demand;
mod kits;
mod order;
mod recorded;
mod use_of;
mod zones;

pub use demand::{Demand, Losses, Wanted, enough, expected_loss, least_loss};
pub use kits::{BothWays, Bought, Kit, KitOrder, KitStep};
pub use order::{Group, WithinBudget, buying_order, within_budget, won};
pub use recorded::recorded_fits;
pub use zones::ZoneLoss;

use super::served::Figure;
use super::shelf::Shelf;
use super::spread::Spread;
use crate::fit::Quote;
use crate::head::Particles;
use crate::profile::StockingRules;
use crate::supply::{Article, articles};
use crate::unit::Money;
use itertools::Itertools;
use use_of::{Means, Uses, Wardrobe};

/// What is asked of the drawer.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawerQuestion {
    /// Customers, delivery, service or margin.
    pub rules: StockingRules,
    /// By model on the shelf, how often it is taken against the others where it fits.
    pub weights: Vec<f64>,
    /// What to buy for so much.
    pub budget: Option<Money>,
    /// Seed of the worlds.
    pub seed: u64,
}

/// The drawer as it should be.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawer<'a> {
    /// Customers until the next delivery.
    pub customers: f64,
    /// What one customer takes, on average.
    pub customer: PerCustomer,
    /// Every pad on offer, shell by shell.
    pub pads: Vec<StockedPad<'a>>,
    /// The kits to buy, shell by shell.
    pub kits: Vec<Kit<'a>>,
    /// In which order.
    pub order: KitOrder,
    /// What each zone is worth.
    pub zones: Vec<ZoneLoss>,
}

/// What one customer takes, on average.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PerCustomer {
    /// Leaves with standard pads: a probability.
    pub standard: Figure,
    /// Leaves with other pads.
    pub swapped: Figure,
    /// Leaves with nothing.
    pub nothing: Figure,
    /// Fits nothing with standard pads, and something with others.
    pub won: Figure,
    /// Pads that are swapped.
    pub pads: Figure,
    /// What they cost, minor units.
    pub spend: Figure,
    /// Customers won for each minor unit that is spent.
    pub won_by_spending: Figure,
}

/// Where a pad lies in the drawer.
#[derive(Debug, Clone, PartialEq)]
pub struct Place<'a> {
    /// Where its model stands on the shelf.
    pub model: usize,
    /// The shell's place in the model.
    pub shell: usize,
    /// What it is.
    pub article: Article<'a>,
}

/// How many of a pad to have.
#[derive(Debug, Clone, PartialEq)]
pub struct StockedPad<'a> {
    /// The pad.
    pub place: Place<'a>,
    /// How many a customer takes, on average.
    pub used: Quote,
    /// How many are wanted until the next delivery, on average.
    pub wanted: f64,
    /// How many to have.
    pub stock: u32,
    /// The probability that they are enough.
    pub enough: f64,
    /// How many are expected to be missing.
    pub missing: f64,
    /// How many are expected to be left over.
    pub left_over: f64,
}

/// Why there is no best stock: with a margin, and nothing lost by a pad that is left over, no stock is too large.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoLimit;

/// Heads of each world in which uses are counted.
const WORLD_HEADS: usize = 4_096;

/// Worlds in which uses are counted.
const WORLDS: usize = super::WORLDS;

/// The pads that the drawer should have for models side by side, and these customers.
///
/// A customer takes one of the models that fit, each with a probability in proportion to its weight, in the size and with
/// the pads that take the fewest minutes of swapping (then the fewest zones, the most even fit, the first in order).
/// Each pad is wanted by customers who know nothing of each other (Poisson). There is no such drawer with a margin where
/// nothing is lost by pads that are left over.
pub fn drawer<'a>(shelf: &Shelf<'a>, heads: &Particles, question: &DrawerQuestion) -> Result<Drawer<'a>, NoLimit> {
    let places = places(shelf);
    let wardrobe = Wardrobe::of(shelf, &places, &question.weights);
    let uses = wardrobe.uses(heads, None);
    let rules = &question.rules;
    let customers = rules.customers_per_week * rules.delivery_days / 7.0;
    let pads = places.into_iter().zip(uses.by_pad()).map(|(place, used)| stocked(place, used, customers, rules));
    let pads: Vec<_> = pads.collect::<Option<_>>().ok_or(NoLimit)?;
    let kits = kits::kits(shelf, &pads);
    let order = kits::order(shelf, heads, (&kits, &pads), (question.budget, question.seed));
    let customer = per_customer(&wardrobe, heads, &uses, question.seed);
    Ok(Drawer { customers, customer, pads, kits, order, zones: zones::zones(shelf, heads, question.seed) })
}

impl StockingRules {
    /// What a pad of this price costs that is missing, and one that is left over; `None` without a margin.
    #[must_use]
    pub fn losses(&self, price: f64) -> Option<Losses> {
        self.margin.map(|margin| Losses { missing: margin * price, left_over: self.left_over_loss * price })
    }

    fn stock(&self, demand: &impl Demand) -> Option<u32> {
        // Both losses are shares of the price, so the best stock is that of any price.
        self.losses(1.0).map_or_else(|| Some(enough(demand, self.service_level)), |losses| least_loss(demand, losses))
    }
}

/// Every pad on offer in sizes that are there, shell by shell.
fn places<'a>(shelf: &Shelf<'a>) -> Vec<Place<'a>> {
    let mut places = Vec::new();
    for (model, column) in shelf.columns.iter().enumerate() {
        for (shell, known) in column.model.shells.iter().enumerate() {
            if column.candidates.iter().any(|candidate| candidate.shell_index == shell) {
                places.extend(articles(known).into_iter().map(|article| Place { model, shell, article }));
            }
        }
    }
    places
}

fn stocked<'a>(place: Place<'a>, used: Quote, customers: f64, rules: &StockingRules) -> Option<StockedPad<'a>> {
    let wanted = used.value * customers;
    let demand = Wanted::of(wanted);
    let stock = rules.stock(&demand)?;
    let [missing, left_over] = [demand.missing(stock), demand.left_over(stock)];
    Some(StockedPad { place, used, wanted, stock, enough: demand.at_most(stock), missing, left_over })
}

fn per_customer(wardrobe: &Wardrobe<'_>, heads: &Particles, uses: &Uses, seed: u64) -> PerCustomer {
    let some = heads.thinned(WORLD_HEADS);
    let worlds = wardrobe.worlds(WORLDS, seed);
    let means = worlds.iter().map(|world| wardrobe.uses(&some, Some(world)).means()).collect_vec();
    let all = uses.means();
    let figure = |of: fn(&Means) -> Quote| Figure {
        quote: of(&all),
        spread: Spread::of(means.iter().map(|means| of(means).value)),
    };
    PerCustomer {
        standard: figure(|means| means.standard),
        swapped: figure(|means| means.swapped),
        nothing: figure(|means| means.nothing),
        won: figure(|means| means.won),
        pads: figure(|means| means.pads),
        spend: figure(|means| means.spend),
        won_by_spending: figure(|means| means.won_by_spending),
    }
}

impl Drawer<'_> {
    /// How many pads there should be.
    #[must_use]
    pub fn stock(&self) -> u64 {
        self.pads.iter().map(|pad| u64::from(pad.stock)).sum()
    }

    /// What the kits cost.
    #[must_use]
    pub fn bill(&self) -> Money {
        self.kits.iter().map(|kit| kit.purchase.bill).sum()
    }

    /// What they would cost if every pad could be had singly.
    #[must_use]
    pub fn singly(&self) -> Money {
        self.kits.iter().map(|kit| kit.singly).sum()
    }

    /// Of the pads that are wanted, the share that is in the drawer.
    #[must_use]
    pub fn filled(&self) -> f64 {
        let wanted: f64 = self.pads.iter().map(|pad| pad.wanted).sum();
        if wanted > 0.0 { 1.0 - self.pads.iter().map(|pad| pad.missing).sum::<f64>() / wanted } else { 1.0 }
    }

    /// What missing pads and pads left over cost until the next delivery, minor units; `None` without a margin.
    #[must_use]
    pub fn expected_loss(&self, rules: &StockingRules) -> Option<f64> {
        let loss = |pad: &StockedPad<'_>| {
            let losses = rules.losses(super::tally::real(pad.place.article.worth.minor()))?;
            Some(losses.missing * pad.missing + losses.left_over * pad.left_over)
        };
        self.pads.iter().map(loss).sum()
    }
}
