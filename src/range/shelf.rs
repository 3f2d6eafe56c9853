//! What is asked of every head: which of these helmets fit it.

use super::index::Index;
use super::room::{Clearance, Pads};
use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::head::{Dimensions, Outline, Particles, Stream};
use crate::profile::{FitRules, Model};
use itertools::Itertools;

/// One helmet that is asked for: a model in some sizes.
#[derive(Debug, Clone, PartialEq)]
pub struct Column<'a> {
    /// The model.
    pub model: &'a Model,
    /// Its sizes.
    pub candidates: Vec<Candidate<'a>>,
}

/// Helmets side by side, each a column of the answer.
#[derive(Debug, Clone)]
pub struct Shelf<'a> {
    /// The helmets.
    pub columns: Vec<Column<'a>>,
    /// When pads fit.
    pub rules: FitRules,
    sizes: Vec<Stock>,
}

/// A size on the shelf, ready for any error of its profile.
#[derive(Debug, Clone)]
struct Stock {
    column: usize,
    /// With the pads on offer, and with the standard pads.
    clearance: [Clearance; 2],
}

/// Where the profiles may be wrong, all at once: how far each column's shape index and each of its shells' centres is off.
#[derive(Debug, Clone, PartialEq)]
pub struct World {
    /// By column: points of the shape index.
    shape_index: Vec<f64>,
    /// By column and shell: mm of circumference.
    centre: Vec<Vec<f64>>,
}

impl<'a> Column<'a> {
    /// A model in every size.
    #[must_use]
    pub fn of(model: &'a Model, catalogue: &'a Catalogue) -> Self {
        Self { model, candidates: Candidate::of_models([model], catalogue) }
    }
}

impl<'a> Shelf<'a> {
    /// These columns under the shop's rules.
    #[must_use]
    pub fn new(columns: Vec<Column<'a>>, rules: FitRules) -> Self {
        let ready = |(column, candidate): (usize, &Candidate<'_>)| Stock {
            column,
            clearance: [Pads::OnOffer, Pads::Standard].map(|pads| Clearance::of(candidate, pads, &rules)),
        };
        let sizes = columns.iter().enumerate();
        let sizes = sizes.flat_map(|(at, column)| column.candidates.iter().map(move |candidate| (at, candidate)));
        let sizes = sizes.map(ready).collect();
        Self { columns, rules, sizes }
    }

    /// Words of one bitmap over the columns.
    #[must_use]
    pub fn words(&self) -> usize {
        self.columns.len().div_ceil(64).max(1)
    }

    /// The index of all columns, twice: with the pads on offer, and from the next word on with the standard pads. The
    /// profiles are taken at their word, or are off as in a world.
    #[must_use]
    pub fn index(&self, world: Option<&World>) -> Index {
        let candidates = self.columns.iter().flat_map(|column| &column.candidates);
        let rooms = self.sizes.iter().zip(candidates).flat_map(|(stock, candidate)| {
            let cavity = self.cavity(candidate, stock.column, world);
            let layer = |(layer, clearance): (usize, &Clearance)| {
                (64 * self.words() * layer + stock.column, clearance.room(cavity))
            };
            stock.clearance.iter().enumerate().map(layer).collect_vec()
        });
        Index::of(128 * self.words(), &rooms.collect_vec())
    }

    /// By column the distance between the liners of its first size on each axis, mm.
    pub(super) fn cavities(&self, world: Option<&World>) -> Vec<[f64; 3]> {
        let first = |(at, column): (usize, &Column<'_>)| {
            column.candidates.first().map_or([f64::NAN; 3], |candidate| self.cavity(candidate, at, world))
        };
        self.columns.iter().enumerate().map(first).collect()
    }

    fn cavity(&self, candidate: &Candidate<'_>, column: usize, world: Option<&World>) -> [f64; 3] {
        let mut nominal = candidate.nominal;
        if let Some(world) = world {
            nominal.shape_index += world.shape_index[column];
            nominal.circumference += world.centre[column][candidate.shell_index];
        }
        let nominal = nominal.dimensions(self.rules.outline);
        [0, 1, 2].map(|axis| nominal[axis] + candidate.room[axis])
    }

    /// Worlds in which the profiles are off as far as they say. Columns of one model are off together, whatever else is on
    /// the shelf.
    #[must_use]
    pub fn worlds(&self, count: usize, seed: u64) -> Vec<World> {
        let draws = self.columns.iter().map(|column| errors(column, count, seed)).collect_vec();
        (0..count)
            .map(|world| World {
                shape_index: draws.iter().map(|(shape_index, _)| shape_index[world]).collect(),
                centre: draws.iter().map(|(_, shells)| shells.iter().map(|centre| centre[world]).collect()).collect(),
            })
            .collect()
    }
}

/// A column's errors by world: of the shape index, and of the centres by shell.
fn errors(column: &Column<'_>, count: usize, seed: u64) -> (Vec<f64>, Vec<Vec<f64>>) {
    let stream = Stream::new(seed, WORLDS_SCRAMBLE, column.model.id.as_str());
    let draw = |dimension, sd: f64| stream.stratified_normals(dimension).map(|z| sd * z).take(count).collect_vec();
    let shape_index = column.candidates.first().map_or(0.0, |candidate| candidate.error.shape_index);
    let shells = (1..).zip(0..column.model.shells.len()).map(|(dimension, shell)| {
        let of_shell = column.candidates.iter().find(|candidate| candidate.shell_index == shell);
        draw(dimension, of_shell.map_or(0.0, |candidate| candidate.error.centre))
    });
    (draw(0, shape_index), shells.collect())
}

/// Apart from the scrambles of heads.
const WORLDS_SCRAMBLE: u32 = u32::MAX;

/// The room that heads take on each axis: length, breadth, face width.
#[must_use]
pub fn taken(heads: &Particles, outline: Outline) -> [Vec<f64>; 3] {
    let [mut lengths, mut breadths] = [&heads.length, &heads.breadth].map(Clone::clone);
    for ((length, breadth), circumference) in lengths.iter_mut().zip(&mut breadths).zip(&heads.circumference) {
        let head = Dimensions { circumference: *circumference, length: *length, breadth: *breadth, face_width: 0.0 };
        let room = outline.effective(head);
        (*length, *breadth) = (room.length, room.breadth);
    }
    [lengths, breadths, heads.face_width.clone()]
}
