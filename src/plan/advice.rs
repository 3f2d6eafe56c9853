//! Which measurement is most worth taking next: a number from the heads, not a fixed text.

use crate::catalogue::Catalogue;
use crate::fit::{Customer, FIT, HeadSet, Outcomes};
use crate::head::{Measure, PARTICLES, Stream, shape_index};
use crate::profile::{Measurer, Tool};
use itertools::Itertools;

/// Readings are looked at in this many groups of equal probability.
const BINS: usize = 16;

/// What measuring more would buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// Chance that the first helmet fits, as things stand.
    pub first_fit: f64,
    /// Standard deviation of the shape index, as things stand.
    pub shape_sd: f64,
    /// Measurements not taken yet, the most worth taking first.
    pub gains: Vec<Gain>,
}

/// What one measurement is expected to buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// Which.
    pub measure: Measure,
    /// Standard deviation of the reading that was assumed, mm.
    pub reading_sd: f64,
    /// Expected chance that the first helmet fits, chosen after the reading.
    pub first_fit: f64,
    /// Expected standard deviation of the shape index after the reading.
    pub shape_sd: f64,
}

/// Weighs the measurements that were not taken. For each, every head of the set yields a reading; heads with like
/// readings are taken together, one half of them chooses a helmet and the other half says how often it fits.
///
/// `reading_sd` says how far such a reading is off, mm.
pub(crate) fn advise(
    customer: &Customer<'_>,
    heads: &HeadSet,
    tried: &Outcomes,
    reading_sd: impl Fn(Measure) -> f64,
) -> Advice {
    // Half of the heads tell a measurement's worth to about a point; with a worn helmet only those count that agree.
    let heads = &heads.heads.first(if customer.worn.is_empty() { PARTICLES / 2 } else { PARTICLES });
    let weight = &heads.weight;
    let shape = (0..weight.len()).map(|i| shape_index(heads.length[i], heads.breadth[i])).collect_vec();
    let all = (0..weight.len()).collect_vec();
    let missing =
        Measure::ALL.into_iter().filter(|measure| !customer.readings.iter().any(|reading| reading.measure == *measure));
    let gain = |measure| {
        let reading_sd = reading_sd(measure);
        let readings = readings(heads.values(measure), measure, reading_sd, customer.seed);
        let shape_sd = residual_sd(weight, &readings, &shape);
        Gain { measure, reading_sd, first_fit: first_fit_after(weight, tried, &readings), shape_sd }
    };
    let gains = missing.map(gain).sorted_by(|a, b| b.first_fit.total_cmp(&a.first_fit)).collect();
    Advice {
        first_fit: first_fit(weight, tried, &all),
        shape_sd: residual_sd(weight, &vec![0.0; all.len()], &shape),
        gains,
    }
}

/// How far a reading by staff is off, with tape or caliper, mm.
pub(super) fn by_staff(catalogue: &Catalogue, measure: Measure) -> f64 {
    let tool = if measure == Measure::Circumference { Tool::Tape } else { Tool::Caliper };
    catalogue.shop.reading_sd(Measurer::Staff, tool).unwrap_or(3.0)
}

fn readings(values: &[f64], measure: Measure, sd: f64, seed: u64) -> Vec<f64> {
    let noise = Stream::new(seed, 0, measure.name()).stratified_normals(0);
    values.iter().zip(noise).map(|(value, noise)| value + sd * noise).collect()
}

fn first_fit_after(weight: &[f64], tried: &Outcomes, readings: &[f64]) -> f64 {
    let mut order = (0..readings.len()).collect_vec();
    order.sort_by(|a, b| readings[*a].total_cmp(&readings[*b]).then(a.cmp(b)));
    let mut bins = vec![Vec::new(); BINS];
    let (mut reached, total) = (0.0, weight.iter().sum::<f64>());
    for head in order {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to BINS")]
        let bin = (reached / total * BINS as f64) as usize;
        bins[bin.min(BINS - 1)].push(head);
        reached += weight[head];
    }
    let mass = |bin: &Vec<usize>| bin.iter().map(|head| weight[*head]).sum::<f64>();
    bins.iter().map(|bin| mass(bin) * first_fit(weight, tried, bin)).sum::<f64>() / total
}

/// Chance that the helmet chosen on one half of some heads fits the other half, both ways.
fn first_fit(weight: &[f64], tried: &Outcomes, heads: &[usize]) -> f64 {
    let halves = [0, 1].map(|odd| heads.iter().copied().filter(|head| head.count_ones() % 2 == odd).collect_vec());
    let masses = halves.each_ref().map(|half| half.iter().map(|head| weight[*head]).sum::<f64>());
    let fits = |candidate: usize, half: &[usize]| -> f64 {
        let reasons = &tried.reason[candidate];
        half.iter().filter(|head| reasons[**head] == FIT).map(|head| weight[*head]).sum()
    };
    let best = |half: &[usize]| {
        (0..tried.reason.len()).map(|candidate| (fits(candidate, half), candidate)).max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let won: f64 = [(0, 1), (1, 0)]
        .into_iter()
        .filter_map(|(choosing, judging)| {
            best(&halves[choosing]).map(|(_, candidate)| fits(candidate, &halves[judging]))
        })
        .sum();
    let total = masses[0] + masses[1];
    if total > 0.0 { won / total } else { 0.0 }
}

/// Standard deviation of `y` that is left when `x` is known, by linear regression.
fn residual_sd(weight: &[f64], x: &[f64], y: &[f64]) -> f64 {
    let mean = |values: &[f64]| weight.iter().zip(values).map(|(w, v)| w * v).sum::<f64>();
    let (mx, my) = (mean(x), mean(y));
    let moment = |f: &dyn Fn(usize) -> f64| weight.iter().enumerate().map(|(i, w)| w * f(i)).sum::<f64>();
    let xx = moment(&|i| (x[i] - mx).powi(2));
    let xy = moment(&|i| (x[i] - mx) * (y[i] - my));
    let yy = moment(&|i| (y[i] - my).powi(2));
    let explained = if xx > 0.0 { xy * xy / xx } else { 0.0 };
    (yy - explained).max(0.0).sqrt()
}
