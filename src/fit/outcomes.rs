//! What becomes of many heads in many helmets: computed once, read by every question.

use super::Candidate;
use crate::head::{Outline, Particles, Stream};
use crate::profile::{FitRules, Minutes, Reason};
use itertools::Itertools;

/// The outcome of a try that ends with a good fit; a failure is 1 + the reason's place in [`Reason::geometric`].
pub const FIT: u8 = 0;

/// The room that heads take, as a struct of arrays; see [`crate::head::EffectiveHead`].
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EffectiveHeads {
    length: Vec<f64>,
    breadth: Vec<f64>,
    face_width: Vec<f64>,
    /// Which draw of the profile errors each head meets; empty where each meets that of its own place.
    draw: Vec<u32>,
}

/// The choices of pads on each axis that are good for a head, as bits; all of them on an axis without pads.
pub type Good = [u64; 3];

/// Outcomes of every candidate (first index) on every head (second index).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcomes {
    /// [`FIT`] or the number of the true reason.
    pub reason: Vec<Vec<u8>>,
    /// Minutes of the try: fetch, check, and the swaps to the pads that the head ends with.
    pub minutes: Vec<Vec<f64>>,
    /// The cell of each axis (length, breadth, face width) in the candidate's tables.
    pub cells: Vec<[Vec<u8>; 3]>,
}

impl EffectiveHeads {
    /// The room that these heads take.
    #[must_use]
    pub fn of(heads: &Particles, outline: Outline) -> Self {
        let mut effective = Self::default();
        for index in 0..heads.len() {
            let room = outline.effective(heads.head(index));
            effective.length.push(room.length);
            effective.breadth.push(room.breadth);
            effective.face_width.push(room.face_width);
        }
        effective
    }

    /// The first `count` of them.
    #[must_use]
    pub fn first(&self, count: usize) -> Self {
        let cut = |values: &[f64]| values.iter().copied().take(count).collect();
        Self {
            length: cut(&self.length),
            breadth: cut(&self.breadth),
            face_width: cut(&self.face_width),
            draw: self.draw.iter().copied().take(count).collect(),
        }
    }

    /// The heads at these places, one of them more than once where its place is. Each goes on to meet the profile errors
    /// that it met before.
    #[must_use]
    pub(super) fn at(&self, places: &[u32]) -> Self {
        let pick = |values: &[f64]| places.iter().map(|place| values[*place as usize]).collect();
        let draw = |place: &u32| self.draw.get(*place as usize).copied().unwrap_or(*place);
        Self {
            length: pick(&self.length),
            breadth: pick(&self.breadth),
            face_width: pick(&self.face_width),
            draw: places.iter().map(draw).collect(),
        }
    }

    fn len(&self) -> usize {
        self.length.len()
    }
}

/// Tries every candidate on every head. Each head meets its own draw of each model's profile error: one of
/// the shape index per model, one of the size centres per shell, from the model's own stream of `seed`.
///
/// Candidates of one model must stand side by side. Cost: linear in heads × candidates.
#[must_use]
pub fn evaluate(
    candidates: &[&Candidate<'_>],
    heads: &EffectiveHeads,
    rules: &FitRules,
    minutes: &Minutes,
    (seed, scramble): (u64, u32),
) -> Outcomes {
    let mut outcomes = Outcomes::default();
    for (_, group) in &candidates.iter().chunk_by(|candidate| &candidate.model.id) {
        let group = group.copied().collect_vec();
        let stream = Stream::new(seed, scramble, group[0].model.id.as_str());
        let errors = Errors::draw(&group, heads, stream);
        let mut shapes: Option<(f64, Shapes)> = None;
        for candidate in group {
            // Sizes of a model share a shape index unless each was measured.
            let index = candidate.nominal.shape_index;
            if shapes.as_ref().is_none_or(|(known, _)| (known - index).abs() > 1e-12) {
                shapes = Some((index, Shapes::of(index, &errors.shape_index, rules.outline)));
            }
            if let Some((_, shapes)) = &shapes {
                let centre = &errors.centre[candidate.shell_index];
                let rooms = rooms(candidate, heads, shapes, centre);
                outcomes.push(candidate, &rooms, minutes);
            }
        }
    }
    outcomes
}

/// Draws of a model's profile error, one per head.
struct Errors {
    shape_index: Vec<f64>,
    /// By shell, mm of circumference; empty for a shell that nobody asked for.
    centre: Vec<Vec<f64>>,
}

impl Errors {
    /// Draws for the candidates of one model; a shell that none of them sits in needs no draw.
    fn draw(group: &[&Candidate<'_>], heads: &EffectiveHeads, stream: Stream) -> Self {
        let last = heads.draw.iter().max().map_or(0, |last| *last as usize + 1);
        let draw = |dimension, sd: f64| {
            let drawn = stream.stratified_normals(dimension).map(|z| sd * z);
            if heads.draw.is_empty() {
                return drawn.take(heads.len()).collect();
            }
            let drawn: Vec<f64> = drawn.take(last).collect();
            heads.draw.iter().map(|place| drawn[*place as usize]).collect()
        };
        let of_shell = |shell: usize| group.iter().find(|candidate| candidate.shell_index == shell);
        let shells = (1..).zip(0..group[0].model.shells.len());
        let centre = |(dimension, shell)| {
            of_shell(shell).map_or_else(Vec::new, |candidate| draw(dimension, candidate.error.centre))
        };
        Self { shape_index: draw(0, group[0].error.shape_index), centre: shells.map(centre).collect() }
    }
}

/// Breadth over length, and length per mm of circumference, of a model's interior as each head meets it.
struct Shapes {
    ratio: Vec<f64>,
    length: Vec<f64>,
}

impl Shapes {
    fn of(shape_index: f64, errors: &[f64], outline: Outline) -> Self {
        let ratio = errors.iter().map(|error| (shape_index + error) / 100.0).collect_vec();
        let length = ratio.iter().map(|ratio| outline.nominal(1.0, 100.0 * ratio).0).collect();
        Self { ratio, length }
    }
}

/// The room that each head leaves to the foam on each axis, mm.
#[expect(clippy::cast_possible_truncation, reason = "f32 is exact to 0.00001 mm here, and twice as fast to compare")]
fn rooms(candidate: &Candidate<'_>, heads: &EffectiveHeads, shapes: &Shapes, centre: &[f64]) -> [Vec<f32>; 3] {
    let [constant, per_circumference, per_breadth] = candidate.nominal.face_width;
    let [front_back, sides, cheeks] = candidate.room;
    // One plain pass for each axis: loops like these become vector code.
    let circumference = centre.iter().map(|error| candidate.nominal.circumference + error).collect_vec();
    let length = circumference.iter().zip(&shapes.length).map(|(c, per_mm)| c * per_mm).collect_vec();
    let breadth = length.iter().zip(&shapes.ratio).map(|(length, ratio)| length * ratio).collect_vec();
    let face = circumference.iter().zip(&breadth).map(|(c, b)| constant + per_circumference * c + per_breadth * b);
    [
        length.iter().zip(&heads.length).map(|(own, taken)| (own + front_back - taken) as f32).collect(),
        breadth.iter().zip(&heads.breadth).map(|(own, taken)| (own + sides - taken) as f32).collect(),
        face.zip(&heads.face_width).map(|(own, taken)| (own + cheeks - taken) as f32).collect(),
    ]
}

impl Outcomes {
    /// How many heads were tried.
    #[must_use]
    pub fn heads(&self) -> usize {
        self.reason.first().map_or(0, Vec::len)
    }

    /// What is good for each head in a candidate, which stands at `place` among those tried.
    pub fn good_choices<'o>(
        &'o self,
        candidate: &'o Candidate<'_>,
        place: usize,
    ) -> impl Iterator<Item = Good> + use<'o> {
        (0..self.heads()).map(move |head| {
            let good = |axis: usize| match &candidate.axes[axis] {
                Some(table) => table.cells[usize::from(self.cells[place][axis][head])].good,
                None => u64::MAX,
            };
            [0, 1, 2].map(good)
        })
    }

    fn push(&mut self, candidate: &Candidate<'_>, rooms: &[Vec<f32>; 3], minutes: &Minutes) {
        let cells = [0, 1, 2].map(|axis| match &candidate.axes[axis] {
            Some(table) => count_breaks(&table.breaks, &rooms[axis]),
            None => vec![0; rooms[axis].len()],
        });
        let tables = [0, 1, 2].map(|axis| CellTable::of(candidate, axis));
        let (base, again) = (candidate.minutes, minutes.recheck);
        let [length, breadth, face] = &cells;
        let triples = length.iter().zip(breadth).zip(face).map(|((l, b), w)| [*l, *b, *w].map(usize::from));
        let (reasons, times) = triples
            .map(|[l, b, w]| {
                let digits = tables[0].digit[l] + tables[1].digit[b] + tables[2].digit[w];
                let swap = tables[0].minutes[l] + tables[1].minutes[b] + tables[2].minutes[w];
                let is_swapped = tables[0].swapped[l] | tables[1].swapped[b] | tables[2].swapped[w];
                (REASONS[usize::from(digits) % 27], base + swap + if is_swapped { again } else { 0.0 })
            })
            .unzip();
        self.reason.push(reasons);
        self.minutes.push(times);
        self.cells.push(cells);
    }
}

/// Cell by cell of one axis: its digit of the outcome in base three, minutes from the standard pads, and whether any is swapped. As long as
/// a byte can count, so that no look-up needs a check.
struct CellTable {
    digit: [u8; 256],
    minutes: [f64; 256],
    swapped: [bool; 256],
}

impl CellTable {
    fn of(candidate: &Candidate<'_>, axis: usize) -> Self {
        let scale = [9, 3, 1][axis];
        let mut table = Self { digit: [scale; 256], minutes: [0.0; 256], swapped: [false; 256] };
        for (at, cell) in candidate.axes[axis].iter().flat_map(|known| known.cells.iter().take(256).enumerate()) {
            table.digit[at] = scale * (cell.class + 1).unsigned_abs();
            let option = candidate.axes[axis].as_ref().and_then(|known| known.options.get(cell.option));
            table.minutes[at] = option.map_or(0.0, |option| option.minutes);
            table.swapped[at] = option.is_some_and(|option| option.swaps > 0);
        }
        table
    }
}

/// For each room how many breaks it reaches: plain loops that the compiler turns into vector code.
#[expect(clippy::cast_possible_truncation, reason = "as the rooms")]
fn count_breaks(breaks: &[f64], rooms: &[f32]) -> Vec<u8> {
    let mut counts = vec![0_u8; rooms.len()];
    for edge in breaks.iter().map(|edge| *edge as f32) {
        for (count, room) in counts.iter_mut().zip(rooms) {
            *count += u8::from(*room >= edge);
        }
    }
    counts
}

/// The outcome for classes (+1) of length, breadth and face width as digits of base three.
static REASONS: std::sync::LazyLock<[u8; 27]> = std::sync::LazyLock::new(|| {
    let mut table = [FIT; 27];
    for (at, outcome) in table.iter_mut().enumerate() {
        let digits = [at / 9, at / 3 % 3, at % 3].map(|digit| i8::try_from(digit).unwrap_or(0) - 1);
        if let Some(reason) = Reason::from_direction(digits) {
            *outcome = number_of(reason);
        }
    }
    table
});

/// The number of a geometric reason in a table of outcomes.
fn number_of(reason: Reason) -> u8 {
    let place = Reason::geometric().iter().position(|known| *known == reason);
    place.and_then(|place| u8::try_from(place + 1).ok()).unwrap_or(FIT)
}
