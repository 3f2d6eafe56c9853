//! The heads that cards are about, and which size of which model fits each of them.

use crate::catalogue::Catalogue;
use crate::head::{Dimensions, EffectiveHead, Outline, Particles, shape_index};
use crate::profile::{FitRules, Model, ShapeWords, Size};
use crate::range::{Answers, Column, ColumnSet, Pattern, Shelf, taken};
use std::ops::Range;

/// Heads at hand, asked once about every size of a shelf.
pub(super) struct People<'a> {
    heads: Vec<Person>,
    /// Every size as a shelf of its own helmets, model by model.
    pub(super) sizes: Shelf<'a>,
    /// The usual step between labels, mm.
    pub(super) label_step: f64,
    /// The models of the shelf, and where the sizes of each stand.
    models: Vec<(&'a Model, Range<usize>)>,
    answers: Answers,
}

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Person {
    /// Circumference, mm.
    pub(super) circumference: f64,
    /// 0 for a long, 1 for an intermediate, 2 for a round oval.
    pub(super) word: usize,
    /// The room that it takes.
    pub(super) room: EffectiveHead,
}

impl<'a> People<'a> {
    /// Asks about every size of the models of a shelf.
    pub(super) fn of(shelf: &Shelf<'a>, heads: &Particles, catalogue: &Catalogue) -> Self {
        let mut models = Vec::new();
        let mut sizes = Vec::new();
        for column in &shelf.columns {
            let first = sizes.len();
            sizes.extend(
                column
                    .candidates
                    .iter()
                    .map(|candidate| Column { model: column.model, candidates: vec![candidate.clone()] }),
            );
            models.push((column.model, first..sizes.len()));
        }
        let sizes = Shelf::new(sizes, shelf.rules);
        let answers = Answers::of(&sizes, &taken(heads, shelf.rules.outline), None);
        let label_step = catalogue.shop.checking.label_step;
        let person = |head| Person::of(heads.head(head), shelf.rules.outline, catalogue.shop.words);
        let heads = (0..heads.len()).map(person).collect();
        Self { heads, sizes, label_step, models, answers }
    }

    /// How many they are.
    pub(super) fn count(&self) -> usize {
        self.heads.len()
    }

    /// Each of them with the sizes that fit, in their order.
    pub(super) fn each(&self) -> impl Iterator<Item = (Person, Pattern<'_>)> {
        self.heads.iter().copied().zip(self.answers.patterns())
    }

    /// When pads fit.
    pub(super) fn rules(&self) -> &FitRules {
        &self.sizes.rules
    }

    /// Where the sizes of a model of the shelf stand.
    pub(super) fn sizes_of(&self, model: usize) -> Range<usize> {
        self.models[model].1.clone()
    }

    /// The same as a set to ask for.
    pub(super) fn set_of(&self, model: usize) -> ColumnSet {
        self.sizes_of(model).collect()
    }

    /// The models of the shelf by their places.
    pub(super) fn models(&self) -> impl Iterator<Item = usize> + use<> {
        0..self.models.len()
    }

    /// A model of the shelf.
    pub(super) fn model(&self, place: usize) -> &'a Model {
        self.models[place].0
    }

    /// A size, by its place among those of all models.
    pub(super) fn size(&self, place: usize) -> &'a Size {
        self.sizes.columns[place].candidates[0].size
    }
}

impl Person {
    fn of(head: Dimensions, outline: Outline, words: ShapeWords) -> Self {
        Self {
            circumference: head.circumference,
            word: words.place(shape_index(head.length, head.breadth)),
            room: outline.effective(head),
        }
    }
}

/// Whether some size of a set fits: with standard pads, with some pads on offer.
pub(super) fn fits(pattern: Pattern<'_>, set: &ColumnSet) -> [bool; 2] {
    [pattern.standard.has_any(set.columns()), pattern.on_offer.has_any(set.columns())]
}
