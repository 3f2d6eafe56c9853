//! Whose heads the shop expects: a mixture of normals over the four measures, from a survey.

use super::{Gaussian, Measure};
use crate::unit::Id;

/// A population of heads. It is data: it comes from a profile file that names its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Population {
    /// Its name in the profiles.
    pub id: Id,
    /// Its name for people.
    pub name: String,
    /// Where the numbers come from.
    pub source: String,
    components: Vec<Component>,
}

/// One normal of the mixture (men, women).
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Its name for people.
    pub name: String,
    /// Share of the population, more than 0; the shares add up to 1.
    pub share: f64,
    /// The heads of the component.
    pub heads: Gaussian,
}

/// Why numbers are no population.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PopulationFault {
    /// No component at all.
    #[error("a population needs at least one component")]
    Empty,
    /// Shares don't add up.
    #[error("the shares of the components must be more than 0 and add up to 1")]
    Shares,
    /// A mean that no head has.
    #[error("component {} has a mean that no human head has", .0 + 1)]
    Mean(usize),
    /// Not symmetric, or not positive definite.
    #[error(
        "the covariances of component {} are those of no people: each stands in two places and must be the same there, and \
         none may be larger than its variances allow (the matrix must be positive definite)",
        .0 + 1
    )]
    Covariance(usize),
}

impl Population {
    /// Checks the numbers: shares, means within human range, symmetric and positive definite covariances.
    pub fn new(id: Id, name: String, source: String, components: Vec<Component>) -> Result<Self, PopulationFault> {
        if components.is_empty() {
            return Err(PopulationFault::Empty);
        }
        let total: f64 = components.iter().map(|c| c.share).sum();
        if (total - 1.0).abs() > 1e-6 || components.iter().any(|c| c.share <= 0.0) {
            return Err(PopulationFault::Shares);
        }
        for (index, component) in components.iter().enumerate() {
            check(index, &component.heads)?;
        }
        Ok(Self { id, name, source, components })
    }

    /// The components, at least one.
    #[must_use]
    pub fn components(&self) -> &[Component] {
        &self.components
    }

    /// Expected face width for a circumference and breadth, as `[constant, per mm of C, per mm of B]`,
    /// by linear regression within the first component.
    #[must_use]
    pub fn face_width_rule(&self) -> [f64; 3] {
        let Gaussian { mean, covariance: v } = self.components[0].heads;
        let determinant = v[0][0] * v[2][2] - v[0][2] * v[0][2];
        let per_c = (v[3][0] * v[2][2] - v[3][2] * v[0][2]) / determinant;
        let per_b = (v[3][2] * v[0][0] - v[3][0] * v[0][2]) / determinant;
        [mean[3] - per_c * mean[0] - per_b * mean[2], per_c, per_b]
    }
}

fn check(index: usize, heads: &Gaussian) -> Result<(), PopulationFault> {
    for measure in Measure::ALL {
        let (least, most) = measure.human_range();
        if !(least..=most).contains(&heads.mean[measure.index()]) {
            return Err(PopulationFault::Mean(index));
        }
    }
    let symmetric = (0..4).all(|i| (0..i).all(|j| (heads.covariance[i][j] - heads.covariance[j][i]).abs() < 1e-6));
    let definite = heads.factor().is_some_and(|a| (0..4).all(|i| a[i][i] > 0.0));
    if symmetric && definite { Ok(()) } else { Err(PopulationFault::Covariance(index)) }
}
