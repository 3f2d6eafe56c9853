//! What was said of the shape before any customer: normals over the shape index.

use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::head::ShapeByEye;
use crate::profile::{Kind, Model, SketchRules};
use itertools::Itertools;

/// A normal distribution over the shape index.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Normal {
    /// Its mean.
    pub mean: f64,
    /// Its standard deviation, more than 0.
    pub sd: f64,
}

/// One statement about the shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statement<'a> {
    /// What was said.
    pub said: Saying<'a>,
    /// What it means.
    pub index: Normal,
}

/// What can be said of a shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Saying<'a> {
    /// It is like a model, or differs from it so.
    Like(&'a Model, Comparison),
    /// The empty helmet looks so.
    ByEye(ShapeByEye),
    /// Nothing: it is one more helmet beside so many of the range, of this type where one is named.
    Range(usize, Option<Kind>),
}

/// How an interior compares with that of a known model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "plain words")]
pub enum Comparison {
    MuchLonger,
    Longer,
    Same,
    Rounder,
    MuchRounder,
}

/// The statements that the words stand for. Where neither a model nor a look is named, the range speaks.
#[must_use]
pub fn statements<'a>(
    catalogue: &'a Catalogue,
    likes: &[(&'a Model, Comparison)],
    by_eye: Option<ShapeByEye>,
    kind: Option<Kind>,
) -> Vec<Statement<'a>> {
    let like = |(model, comparison): &(&'a Model, Comparison)| like(catalogue, model, *comparison);
    let look = by_eye.map(|eye| Statement { said: Saying::ByEye(eye), index: Normal { mean: eye.mean, sd: eye.sd } });
    let said = likes.iter().map(like).chain(look).collect_vec();
    if said.is_empty() { vec![range(catalogue, kind)] } else { said }
}

/// All statements together: the product of independent normals, so precisions add up.
#[must_use]
pub fn together(statements: &[Statement<'_>]) -> Normal {
    let precision: f64 = statements.iter().map(|statement| statement.index.sd.powi(-2)).sum();
    let weighted: f64 = statements.iter().map(|statement| statement.index.mean * statement.index.sd.powi(-2)).sum();
    Normal { mean: weighted / precision, sd: precision.powf(-0.5) }
}

/// The largest distance between two statements, in standard deviations of their difference; 0 for one alone.
#[must_use]
pub fn discord(statements: &[Statement<'_>]) -> f64 {
    let indices = statements.iter().map(|statement| statement.index);
    let distance = |[a, b]: [Normal; 2]| (a.mean - b.mean).abs() / a.sd.hypot(b.sd);
    indices.array_combinations().map(distance).fold(0.0, f64::max)
}

impl Comparison {
    /// All of them, from the longest to the roundest.
    pub const ALL: [Self; 5] = [Self::MuchLonger, Self::Longer, Self::Same, Self::Rounder, Self::MuchRounder];

    /// How options write it.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::MuchLonger => "much-longer",
            Self::Longer => "longer",
            Self::Same => "same",
            Self::Rounder => "rounder",
            Self::MuchRounder => "much-rounder",
        }
    }

    /// Points of the shape index that it stands for.
    #[must_use]
    pub fn step(self, rules: &SketchRules) -> f64 {
        match self {
            Self::MuchLonger => -rules.big_step,
            Self::Longer => -rules.step,
            Self::Same => 0.0,
            Self::Rounder => rules.step,
            Self::MuchRounder => rules.big_step,
        }
    }
}

fn like<'a>(catalogue: &Catalogue, model: &'a Model, comparison: Comparison) -> Statement<'a> {
    let rules = &catalogue.shop.sketch;
    let sizes = Candidate::of_models([model], catalogue);
    // Sizes of a model share an index, unless some were measured in the empty helmet.
    let own = mean(sizes.iter().map(|size| size.nominal.shape_index));
    let error = sizes.first().map_or(0.0, |size| size.error.shape_index);
    let index = Normal { mean: own + comparison.step(rules), sd: error.hypot(rules.comparison_sd) };
    Statement { said: Saying::Like(model, comparison), index }
}

/// One more helmet of the range: the spread of those that are there, and the error of their mean.
fn range(catalogue: &Catalogue, kind: Option<Kind>) -> Statement<'_> {
    let indices = |kind: Option<Kind>| {
        let models = catalogue.models().iter().filter(|model| kind.is_none_or(|kind| model.kind == kind));
        models.map(|model| model.interior.shape_index).collect_vec()
    };
    let of_kind = indices(kind);
    // A type that the shop has no helmet of yet says nothing; the whole range has at least one model.
    let (known, kind) = if of_kind.is_empty() { (indices(None), None) } else { (of_kind, kind) };
    let centre = mean(known.iter().copied());
    let squares: f64 = known.iter().map(|index| (index - centre).powi(2)).sum();
    let count = count(known.len());
    let spread = (squares / (count - 1.0).max(1.0)).sqrt().max(catalogue.shop.sketch.least_spread);
    let index = Normal { mean: centre, sd: spread * (1.0 + 1.0 / count).sqrt() };
    Statement { said: Saying::Range(known.len(), kind), index }
}

fn mean(values: impl ExactSizeIterator<Item = f64>) -> f64 {
    let count = count(values.len());
    values.sum::<f64>() / count
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(f64::from(u32::MAX), f64::from)
}
