//! Measures that a table lacks, drawn from the population.

use crate::head::{Dimensions, Measure, Particles, Population, Posterior, Reading, Stream};
use crate::range::CHUNK;
use itertools::Itertools;

/// A head with these measures, the others drawn once from the population's heads that have them exactly. What is drawn
/// depends on the seed and the head's number alone.
pub(super) fn filled(known: [Option<f64>; 4], population: &Population, seed: u64, number: u64) -> Dimensions {
    if let [Some(circumference), Some(length), Some(breadth), Some(face_width)] = known {
        return Dimensions { circumference, length, breadth, face_width };
    }
    let readings = Measure::ALL.into_iter().zip(known);
    let readings =
        readings.filter_map(|(measure, value)| Some(Reading { measure, value: value?, sd: 0.0 })).collect_vec();
    // As many heads to a scramble as a chunk of drawn heads has.
    #[expect(clippy::cast_possible_truncation, reason = "the remainder is small, and scrambles may come round again")]
    let (scramble, index) = ((number / CHUNK) as u32, (number % CHUNK) as u32);
    Particles::one(&Posterior::new(population, &readings, None), Stream::new(seed, scramble, "table"), index)
}
