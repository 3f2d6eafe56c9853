//! The head: what can be measured on it, whose heads there are, and what readings say about one of them.
//!
//! Lengths in millimetres. Names after ISO 7250-1: head circumference, length and breadth, face width
//! (bizygomatic breadth). Pure: no file, no clock, randomness only from a seed that is passed in.

mod contour;
mod gaussian;
mod measure;
mod particles;
mod population;
mod posterior;
mod reading;
mod sequence;
mod shape;

pub use contour::Contour;
pub use gaussian::Gaussian;
pub use measure::{Dimensions, Measure, Reading};
pub use particles::{Moments, PARTICLES, Particles};
pub use population::{Component, Population, PopulationFault};
pub use posterior::{Posterior, ShapeByEye};
pub use reading::{WrittenFault, WrittenFaultKind, WrittenMeasure, read_measure};
pub use sequence::{Stream, normal_quantile};
pub use shape::{EffectiveHead, Outline, ellipse_perimeter, shape_index};
