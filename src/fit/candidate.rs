//! One thing to try: a model in a size, with every pad that it takes.

use super::interior::foam;
use super::{AxisTable, Nominal, PadSet};
use crate::catalogue::Catalogue;
use crate::profile::{Axis, Bands, FitRules, Model, ProfileError, Shell, Size};
use crate::unit::Id;

/// A (model, size), ready for any number of heads.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate<'a> {
    /// The model.
    pub model: &'a Model,
    /// The shell of the size.
    pub shell: &'a Shell,
    /// The shell's place in the model.
    pub shell_index: usize,
    /// The size.
    pub size: &'a Size,
    /// The head that it is made for, the profile taken at its word.
    pub nominal: Nominal,
    /// How far the profile may be off.
    pub error: ProfileError,
    /// Length, breadth and face width; `None` for an axis without pads.
    pub axes: [Option<AxisTable>; 3],
    /// Foam of the standard pads that the nominal head leaves uncompressed, mm, by axis.
    pub room: [f64; 3],
    /// Minutes of a try but for swaps: fetching and checks.
    pub minutes: f64,
}

impl<'a> Candidate<'a> {
    /// Every size of these models, in their order.
    pub fn of_models(models: impl IntoIterator<Item = &'a Model>, catalogue: &'a Catalogue) -> Vec<Self> {
        let rules = &catalogue.shop.fit;
        let face_rule = catalogue.face_width_rule();
        let minutes = catalogue.shop.minutes.fetch + catalogue.shop.minutes.check;
        let mut candidates = Vec::new();
        for model in models {
            let assumed = catalogue.shop.profile_errors.of(model.interior.origin);
            let shape_index = model.interior.sd.unwrap_or(assumed.shape_index);
            for (shell_index, shell) in model.shells.iter().enumerate() {
                let centre = shell.centre_sd.or(model.interior.centre_sd).unwrap_or(assumed.centre);
                let error = ProfileError { shape_index, centre };
                for size in &shell.sizes {
                    let nominal = Nominal::of(model, size, rules, face_rule);
                    let axes = Axis::ALL.map(|axis| AxisTable::of(axis, model, shell, size, rules.bands(axis)));
                    let room = Axis::ALL.map(|axis| foam(&size.standard, axis) * (1.0 - rules.ideal));
                    candidates.push(Self { model, shell, shell_index, size, nominal, error, axes, room, minutes });
                }
            }
        }
        candidates
    }

    /// The size of a model with this label.
    #[must_use]
    pub fn of_size(model: &'a Model, label: &Id, catalogue: &'a Catalogue) -> Option<Self> {
        Self::of_models([model], catalogue).into_iter().find(|candidate| candidate.size.label == *label)
    }

    /// Every size of these models, in their order, but for the `(model, size)` that are not there.
    #[must_use]
    pub fn but_for(absent: &[(Id, Id)], models: &[&'a Model], catalogue: &'a Catalogue) -> Vec<Self> {
        let mut candidates = Self::of_models(models.iter().copied(), catalogue);
        candidates.retain(|c| !absent.iter().any(|(model, size)| c.model.id == *model && c.size.label == *size));
        candidates
    }

    /// The same with these pads in it and no choice, on a head already: another `minutes` is all that it takes.
    #[must_use]
    pub fn mounted(self, pads: &PadSet, rules: &FitRules, minutes: f64) -> Self {
        Self { axes: Axis::ALL.map(|axis| AxisTable::fixed(axis, pads, rules.bands(axis))), minutes, ..self }
    }

    /// Distance between the shell's liners on each axis where the profile is right, mm.
    #[must_use]
    pub fn cavity(&self, rules: &FitRules) -> [f64; 3] {
        let nominal = self.nominal.dimensions(rules.outline);
        [0, 1, 2].map(|axis| nominal[axis] + self.room[axis])
    }

    /// How people call it: `Wexmarsh One in M`.
    #[must_use]
    pub fn title(&self) -> String {
        format!("{} in {}", self.model.name, self.size.label)
    }
}

impl FitRules {
    /// The bands of an axis.
    #[must_use]
    pub fn bands(&self, axis: Axis) -> Bands {
        match axis {
            Axis::Length | Axis::Breadth => self.head,
            Axis::FaceWidth => self.cheeks,
        }
    }
}

impl Bands {
    /// How far a strain lies outside the good band: negative too loose, positive too tight, 0 good.
    #[must_use]
    pub fn excess(&self, strain: f64) -> f64 {
        if strain < self.light_below {
            strain - self.light_below
        } else if strain > self.tight_above {
            strain - self.tight_above
        } else {
            0.0
        }
    }
}
