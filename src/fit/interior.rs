//! The head that a size is made for, and the room that its shell leaves.

use crate::head::{Outline, shape_index};
use crate::profile::{Axis, ByZone, FitRules, Model, Size, Zone};

/// The head for which every standard pad of a size sits at its ideal compression.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nominal {
    /// Circumference C₀, mm.
    pub circumference: f64,
    /// Shape index S.
    pub shape_index: f64,
    /// Face width W₀ as `[constant, per mm of circumference, per mm of breadth]`.
    pub face_width: [f64; 3],
}

impl Nominal {
    /// From the labelled range and the model's shape index, or from an interior measured in the empty helmet, and from
    /// how much larger the shell was learned to be.
    /// `face_rule` is used where the profile gives no face width.
    #[must_use]
    pub fn of(model: &Model, size: &Size, rules: &FitRules, face_rule: [f64; 3]) -> Self {
        let face_width = size.face_width.map_or(face_rule, |mm| [mm, 0.0, 0.0]);
        let Some(empty) = size.measured else {
            let shape_index = model.interior.shape_index;
            return Self { circumference: size.centre() + size.runs_larger, shape_index, face_width };
        };
        // Between uncompressed pads; the nominal head takes up the ideal share of the foam.
        let length = empty.length + rules.ideal * foam(&size.standard, Axis::Length);
        let breadth = empty.breadth + rules.ideal * foam(&size.standard, Axis::Breadth);
        let circumference = rules.outline.circumference(length, breadth) + size.runs_larger;
        Self { circumference, shape_index: shape_index(length, breadth), face_width }
    }

    /// Length, breadth and face width of the nominal head, mm.
    #[must_use]
    pub fn dimensions(&self, outline: Outline) -> [f64; 3] {
        let (length, breadth) = outline.nominal(self.circumference, self.shape_index);
        let [constant, per_circumference, per_breadth] = self.face_width;
        [length, breadth, constant + per_circumference * self.circumference + per_breadth * breadth]
    }
}

/// Distance between the linings of the shell on each axis, mm, as a size's label and standard pads imply it: the head
/// that it is made for and the foam that this head leaves. Every size of a shell should imply the same.
#[must_use]
pub fn implied_cavity(model: &Model, size: &Size, rules: &FitRules, face_rule: [f64; 3]) -> [f64; 3] {
    let nominal = Nominal::of(model, size, rules, face_rule).dimensions(rules.outline);
    [0, 1, 2].map(|axis| nominal[axis] + foam(&size.standard, Axis::ALL[axis]) * (1.0 - rules.ideal))
}

/// Total foam on an axis, mm: brow + rear, twice the sides, twice the cheeks.
#[must_use]
pub fn foam(pads: &ByZone<Option<f64>>, axis: Axis) -> f64 {
    let thickness = |zone: &Zone| pads.get(*zone).unwrap_or(0.0);
    axis.pads_per_zone() * axis.zones().iter().map(thickness).sum::<f64>()
}
