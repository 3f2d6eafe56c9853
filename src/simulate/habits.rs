//! Who comes in, and what is written down of them before anything is tried.

use super::Chance;
use crate::catalogue::Catalogue;
use crate::head::{Dimensions, Measure, Population, Posterior, shape_index};
use crate::journal::{Day, Head, Read};
use crate::profile::{Measurer, Shop, Tool};

/// How a shop works and who its customers are.
#[derive(Debug, Clone)]
pub struct Habits<'a> {
    /// Whose heads come in, and whose the shop expects.
    pub population: &'a Population,
    /// What is measured; which situation a customer is in follows the shares.
    pub situations: Vec<Situation>,
    /// How often a reported reason is truly another than the true one.
    pub misreport: f64,
    /// The day of the first customer.
    pub from: Day,
    /// Customers on each day.
    pub a_day: u32,
}

/// What is known of a customer's head.
#[derive(Debug, Clone, PartialEq)]
pub struct Situation {
    /// How common it is, in whatever unit the other shares have.
    pub share: f64,
    /// What is measured.
    pub taken: Vec<Taken>,
    /// Whether the shape is judged by eye.
    pub shape: Shape,
}

/// Whether a shape is judged by eye.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Nobody says anything about it.
    Unsaid,
    /// One of the three words is said, right as often as the shop assumes.
    ByEye,
}

/// One measure as the shop takes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// What is measured.
    pub measure: Measure,
    /// Who measures.
    pub by: Measurer,
    /// With what.
    pub with: Tool,
    /// How far a written reading is taken to be off (sd), mm.
    pub sd: f64,
    /// How far it truly is off (sd, rounding included), mm.
    pub true_sd: f64,
    /// The steps in which it is written down, more than 0 mm.
    pub step: f64,
}

impl Taken {
    /// A measure whose true error is the one that the shop assumes; `None` where the shop assumes none for it.
    #[must_use]
    pub fn as_assumed(shop: &Shop, measure: Measure, by: Measurer, with: Tool, step: f64) -> Option<Self> {
        let sd = shop.reading_sd(by, with)?;
        Some(Self { measure, by, with, sd, true_sd: sd, step })
    }

    /// What is written down of a head.
    #[must_use]
    pub fn read(&self, head: Dimensions, chance: &mut Chance) -> Read {
        // Rounding adds a variance of step² / 12.
        let before = (self.true_sd.powi(2) - self.step.powi(2) / 12.0).max(0.0).sqrt();
        let exact = head.to_array()[self.measure.index()] + before * chance.normal();
        let value = (exact / self.step).round() * self.step;
        Read { measure: self.measure, value, sd: self.sd, by: self.by, with: self.with }
    }
}

impl Habits<'_> {
    /// The customer of this number: the true head, the place of the situation, and what is written down.
    pub(super) fn customer(&self, catalogue: &Catalogue, seed: u64, number: u64) -> (Dimensions, usize, Head) {
        let mut chance = Chance::new(seed, "customer", number);
        let head = Heads::of(self.population).draw(&mut chance);
        let shares: Vec<f64> = self.situations.iter().map(|situation| situation.share).collect();
        let at = chance.pick(&shares);
        let mut known =
            Head { population: self.population.id.clone(), readings: Vec::new(), shape: None, wears: Vec::new() };
        if let Some(situation) = self.situations.get(at) {
            known.readings = situation.taken.iter().map(|taken| taken.read(head, &mut chance)).collect();
            known.shape = match situation.shape {
                Shape::Unsaid => None,
                Shape::ByEye => Some(word(&catalogue.shop, head, &mut chance)),
            };
        }
        (head, at, known)
    }
}

/// Heads of a population, ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Heads {
    weights: Vec<f64>,
    /// By component: the mean, and the lower triangular factor of the covariance.
    parts: Vec<([f64; 4], [[f64; 4]; 4])>,
}

impl Heads {
    /// The heads of a population.
    #[must_use]
    pub fn of(population: &Population) -> Self {
        let heads = Posterior::new(population, &[], None);
        let parts = heads.parts().iter().map(|(_, heads)| (heads.mean, heads.factor().unwrap_or_default())).collect();
        Self { weights: heads.parts().iter().map(|(weight, _)| *weight).collect(), parts }
    }

    /// One of them.
    #[must_use]
    pub fn draw(&self, chance: &mut Chance) -> Dimensions {
        let (mean, factor) = self.parts[chance.pick(&self.weights)];
        let normals = [(); 4].map(|()| chance.normal());
        let mut values = mean;
        for (value, row) in values.iter_mut().zip(factor) {
            *value += row.iter().zip(normals).map(|(a, z)| a * z).sum::<f64>();
        }
        Dimensions::from_array(values)
    }
}

/// The word that an eye finds for a shape: it calls the index that it sees by the shop's words. Plans reckon with the words in another way (`ShapeByEye`); the two agree closely.
fn word(shop: &Shop, head: Dimensions, chance: &mut Chance) -> usize {
    shop.words.place(seen_index(shop, head, chance))
}

/// The shape index that an eye sees, with the error that the shop assumes.
#[must_use]
pub fn seen_index(shop: &Shop, head: Dimensions, chance: &mut Chance) -> f64 {
    shape_index(head.length, head.breadth) + shop.by_eye[1].sd * chance.normal()
}
