//! Customers who measure at home: the sheet that tells them how, and what to send them.
//!
//! Nobody swaps pads at home, so what is sent is a helmet with one pad set, and it fits or it comes back. Three ways are
//! weighed by what they are expected to cost shop and customer together: send one, send two and have one back, or have
//! the customer come in.

mod costs;
mod judges;
mod pairs;
mod parcel;
mod sheet;
mod shortlist;

pub use sheet::{Sheet, Spot, sheet};

use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, Estimate, FIT, HeadSet, JUDGES, Outcomes, PadSet, Quote, estimate};
use crate::head::Measure;
use crate::plan::{Advice, advise};
use crate::profile::{Measurer, Model, Tool};
use crate::unit::{Id, Money};
use costs::Costs;
use itertools::Itertools;
use judges::{Judged, Judges};
use parcel::Parcel;
use shortlist::{Listed, weight_of};

/// Readings that a measuring sheet asks for.
pub const READINGS: usize = 3;

/// Who asks, and what may be sent.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask<'a> {
    /// Whom it is for.
    pub customer: Customer<'a>,
    /// The models that may be sent.
    pub models: Vec<&'a Model>,
    /// Sizes of them that are not there, as `(model, size)`.
    pub absent: Vec<(Id, Id)>,
}

/// What to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Send one helmet.
    One,
    /// Send two; one comes back in any case.
    Two,
    /// Send none: the customer comes in.
    ComeIn,
}

/// What to do for a customer who is away, and what the other ways would cost.
#[derive(Debug, Clone, PartialEq)]
pub struct Order<'a> {
    /// What can be sent, in the order that the proposals refer to.
    pub candidates: Vec<Candidate<'a>>,
    /// The head as inferred.
    pub head: Estimate,
    /// What to do.
    pub verdict: Verdict,
    /// The best single helmet; `None` where nothing fits anybody.
    pub one: Option<Proposal>,
    /// The best pair; `None` where there is none.
    pub two: Option<Proposal>,
    /// What a visit costs.
    pub visit: Money,
    /// By how much the verdict is cheaper than the next cheapest way that could be proposed, minor units; `None` where
    /// there is none.
    pub lead: Option<Quote>,
    /// What another measurement at home would change: chances of the best single helmet.
    pub advice: Advice,
}

/// One or two helmets to send.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// What is sent.
    pub sent: Vec<Sent>,
    /// Chance that one of them fits.
    pub chance: Quote,
    /// What it is expected to cost, minor units.
    pub cost: Quote,
}

/// A helmet to send.
#[derive(Debug, Clone, PartialEq)]
pub struct Sent {
    /// Which.
    pub candidate: usize,
    /// The pads to mount beforehand.
    pub pads: PadSet,
    /// Minutes for that.
    pub minutes: f64,
    /// The least that those pads cost that are not standard.
    pub price: Money,
    /// Chance that it fits.
    pub fit: Quote,
    /// Chance that it fits, and the other one doesn't.
    pub alone: Quote,
    /// The heads that only this one fits; `None` where there are none.
    pub whom: Option<Means>,
}

/// Means of some heads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Means {
    /// Circumference, mm.
    pub circumference: f64,
    /// Shape index.
    pub shape_index: f64,
}

/// Weighs what to send. One set of heads chooses helmets and pads, eight fresh ones judge them; the verdict is read off
/// the judges' figures.
#[must_use]
pub fn order<'a>(catalogue: &'a Catalogue, ask: &Ask<'a>) -> Order<'a> {
    let customer = &ask.customer;
    let rules = &catalogue.shop.away;
    let costs = Costs::of(rules);
    let chooser = HeadSet::chooser(catalogue, customer);
    let candidates = Candidate::but_for(&ask.absent, &ask.models, catalogue);
    let tried = chooser.try_all(catalogue, customer, &candidates.iter().collect_vec());
    let listed = shortlist::shortlist(&candidates, &chooser, &tried, costs);
    let sets = HeadSet::judges(catalogue, customer);
    let judges = Judges::new(catalogue, customer, &sets);
    let one =
        best_single(&listed, &chooser.heads.weight, costs).map(|parcel| judges.judge(&candidates, &[parcel], costs));
    let two = pairs::best_pair(&listed, &chooser.heads.weight, costs)
        .map(|(first, second)| judges.judge(&candidates, &[listed[first].parcel, listed[second].parcel], costs));
    let (verdict, lead) = weigh(one.as_ref(), two.as_ref(), costs, rules.least_chance);
    Order {
        head: estimate(catalogue, &customer.head, &sets),
        verdict,
        one: one.map(|(proposal, _)| proposal),
        two: two.map(|(proposal, _)| proposal),
        visit: rules.visit,
        lead,
        advice: advise(customer, &chooser, &as_outcomes(&listed, chooser.heads.len()), |m| home_sd(catalogue, m)),
        candidates,
    }
}

/// The single parcel that is expected to cost least; of equal ones the first of the list.
fn best_single(listed: &[Listed], weight: &[f64], costs: Costs) -> Option<Parcel> {
    let cost = |listed: &Listed| {
        let needed = weight_of(listed.needs.iter().copied(), weight);
        costs.one(listed.chance, costs.mounting(listed.minutes, listed.price, needed))
    };
    let fitting = listed.iter().filter(|listed| listed.chance > 0.0);
    fitting.min_by(|a, b| cost(a).total_cmp(&cost(b))).map(|listed| listed.parcel)
}

/// The cheapest way that may be proposed, and by how much it leads. A visit always may; of equal costs the smaller order
/// comes first.
fn weigh(one: Option<&Judged>, two: Option<&Judged>, costs: Costs, least: f64) -> (Verdict, Option<Quote>) {
    let visits = vec![costs.visit(); JUDGES as usize];
    let orders = [(Verdict::One, one), (Verdict::Two, two)].into_iter();
    let orders = orders.filter_map(|(verdict, judged)| judged.map(|judged| (verdict, judged)));
    let proposed = orders.filter(|(_, (proposal, _))| proposal.chance.value >= least);
    let ways =
        proposed.map(|(verdict, (_, paid))| (verdict, paid.as_slice())).chain([(Verdict::ComeIn, visits.as_slice())]);
    let cost = |(_, paid): &(Verdict, &[f64])| paid.iter().sum::<f64>();
    let ways = ways.sorted_by(|a, b| cost(a).total_cmp(&cost(b))).collect_vec();
    let lead = ways.get(1).map(|(_, next)| Quote::of(next.iter().zip(ways[0].1).map(|(next, best)| next - best)));
    (ways[0].0, lead)
}

/// The list as outcomes, for whoever asks only what fits.
fn as_outcomes(listed: &[Listed], heads: usize) -> Outcomes {
    let row = |listed: &Listed| (0..heads).map(|head| if listed.fits_head(head) { FIT } else { FIT + 1 }).collect();
    Outcomes { reason: listed.iter().map(row).collect(), ..Outcomes::default() }
}

/// How far the mean of the sheet's readings at home is off, mm.
fn home_sd(catalogue: &Catalogue, measure: Measure) -> f64 {
    let shop = &catalogue.shop;
    let sd = shop.reading_sd(Measurer::Customer, home_tool(measure));
    // Where the shop says nothing of customers, its own people's error is the least that can be assumed.
    let sd = sd.or_else(|| shop.reading_sd(Measurer::Staff, Tool::Tape)).unwrap_or_default();
    shop.away.mean_sd(sd, READINGS)
}

/// What customers have at home: a tape, and a ruler with two books.
#[must_use]
pub fn home_tool(measure: Measure) -> Tool {
    if measure == Measure::Circumference { Tool::Tape } else { Tool::Ruler }
}
