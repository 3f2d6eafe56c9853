//! What readings say about one head: closed-form conditioning, one normal per component.

use super::{Gaussian, Population, Reading};
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// A head as far as it is known: a mixture of normals, and a shape named by eye if there was one.
#[derive(Debug, Clone, PartialEq)]
pub struct Posterior {
    /// `(weight, heads)` per component; the weights add up to 1.
    parts: Vec<(f64, Gaussian)>,
    by_eye: Option<ShapeByEye>,
    /// How many readings went in, and the least squared distance from a component.
    readings: usize,
    distance2: f64,
}

/// A shape named by eye: one of three words, each of which stands for an index. The eye is often wrong, so its sd is wide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShapeByEye {
    /// The index that the word stands for.
    pub mean: f64,
    /// Standard deviation, index points.
    pub sd: f64,
    /// The indices that the other two words stand for.
    pub others: [f64; 2],
}

impl ShapeByEye {
    /// Probability that this word is said of a head of this index, and not one of the others: each is as probable as a
    /// normal density around its own index makes it. Whoever looks has to say one of the three, so a very round head is
    /// nearly always called round, however far it lies beyond the index that the word stands for.
    #[must_use]
    pub fn likelihood(self, index: f64) -> f64 {
        let exponent = |mean: f64| 0.5 * ((index - mean) / self.sd).powi(2);
        let own = exponent(self.mean);
        1.0 / (1.0 + self.others.iter().map(|other| (own - exponent(*other)).exp()).sum::<f64>())
    }
}

impl Posterior {
    /// The population's heads given any readings, none included. At most one reading per measure.
    #[must_use]
    pub fn new(population: &Population, readings: &[Reading], by_eye: Option<ShapeByEye>) -> Self {
        let mut parts = Vec::new();
        let mut nearest = f64::INFINITY;
        for component in population.components() {
            let mut heads = component.heads;
            let (mut log_weight, mut distance2) = (component.share.ln(), 0.0);
            for &reading in readings {
                let (next, evidence) = heads.condition(reading);
                heads = next;
                log_weight += evidence.log_density;
                distance2 += evidence.distance2;
            }
            nearest = nearest.min(distance2);
            parts.push((log_weight, heads));
        }
        normalise(&mut parts);
        Self { parts, by_eye, readings: readings.len(), distance2: nearest }
    }

    /// The components: `(weight, heads)`, weights adding up to 1, before the shape named by eye.
    #[must_use]
    pub fn parts(&self) -> &[(f64, Gaussian)] {
        &self.parts
    }

    /// The shape named by eye.
    #[must_use]
    pub fn by_eye(&self) -> Option<ShapeByEye> {
        self.by_eye
    }

    /// Share of the nearest component's heads that are less unusual than these readings: 0 for none,
    /// close to 1 for a combination that hardly any head has.
    #[must_use]
    pub fn rarity(&self) -> f64 {
        if self.readings == 0 {
            return 0.0;
        }
        #[expect(clippy::cast_precision_loss, reason = "at most four readings")]
        ChiSquared::new(self.readings as f64).map_or(0.0, |law| law.cdf(self.distance2))
    }
}

/// Log weights to weights that add up to 1, without overflow.
fn normalise(parts: &mut [(f64, Gaussian)]) {
    let top = parts.iter().map(|part| part.0).fold(f64::NEG_INFINITY, f64::max);
    for part in parts.iter_mut() {
        part.0 = (part.0 - top).exp();
    }
    let total: f64 = parts.iter().map(|part| part.0).sum();
    for part in parts.iter_mut() {
        part.0 /= total;
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Component, Measure};
    use super::*;
    use crate::unit::Id;

    fn correlated() -> Population {
        let mut covariance = [[0.0; 4]; 4];
        for (i, row) in covariance.iter_mut().enumerate() {
            row[i] = 25.0;
        }
        covariance[0][1] = 15.0;
        covariance[1][0] = 15.0;
        let heads = Gaussian { mean: [570.0, 195.0, 150.0, 138.0], covariance };
        let part = |share| Component { name: "all".to_owned(), share, heads };
        Population::new(Id::try_from("x").unwrap(), "x".to_owned(), "test".to_owned(), vec![part(0.25), part(0.75)])
            .unwrap()
    }

    #[test]
    fn without_readings_it_is_the_population() {
        let head = Posterior::new(&correlated(), &[], None);
        assert!((head.parts()[0].0 - 0.25).abs() < 1e-12);
        assert!(head.rarity() < f64::EPSILON);
    }

    #[test]
    fn an_exact_reading_leaves_no_variance() {
        let reading = Reading { measure: Measure::Circumference, value: 580.0, sd: 0.0 };
        let (_, heads) = Posterior::new(&correlated(), &[reading], None).parts()[0];
        assert!((heads.mean[0] - 580.0).abs() < 1e-12 && heads.covariance[0][0].abs() < 1e-12);
        assert!((heads.mean[1] - 201.0).abs() < 1e-9, "length follows by regression: 195 + 0.6 * 10");
        assert!((heads.covariance[1][1] - 16.0).abs() < 1e-9, "25 - 15 * 15 / 25");
    }

    #[test]
    fn one_of_the_three_words_is_said_of_every_head() {
        let indices = [74.5, 78.0, 82.5];
        let word = |at: usize| ShapeByEye {
            mean: indices[at],
            sd: 3.0,
            others: [indices[(at + 1) % 3], indices[(at + 2) % 3]],
        };
        for index in [55.0, 74.5, 76.2, 79.0, 84.0, 110.0] {
            let said = [0, 1, 2].map(|at| word(at).likelihood(index));
            assert!((said.iter().sum::<f64>() - 1.0).abs() < 1e-12, "{said:?}");
        }
        assert!((word(0).likelihood(76.25) - word(1).likelihood(76.25)).abs() < 1e-12, "half way");
        assert!(word(2).likelihood(90.0) > 0.99 && word(0).likelihood(64.0) > 0.99);
    }

    #[test]
    fn a_head_far_out_is_rare() {
        let reading = Reading { measure: Measure::Length, value: 195.0 + 5.0 * 4.0, sd: 0.0 };
        assert!(Posterior::new(&correlated(), &[reading], None).rarity() > 0.9999);
    }
}
