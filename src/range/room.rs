//! The heads that a size fits, as spans on each axis.

use crate::fit::{AxisTable, Candidate};
use crate::profile::{Axis, Bands, FitRules};
use itertools::Itertools;

/// What a head may take on an axis, mm: from and to, both included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// The smallest that isn't too loose.
    pub from: f64,
    /// The largest that isn't too tight.
    pub to: f64,
}

/// The heads that fit: those whose length, breadth and face width (as [`crate::head::EffectiveHead`] has them) each lie in
/// one of the axis's spans. Spans of an axis are ascending and never touch.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// Spans of length, breadth and face width.
    pub axes: [Vec<Span>; 3],
}

/// Which pads of a size count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pads {
    /// Those that the helmet comes with.
    Standard,
    /// All that its maker offers for the size, in any combination.
    OnOffer,
}

/// The rooms that a head may leave to the foam of a size, wherever its shell's linings are. Zones of one axis never
/// touch another, so what fits with any pads is a product, too: on each axis the windows of all choices, joined.
#[derive(Debug, Clone, PartialEq)]
pub struct Clearance {
    /// By axis: from tight to light, mm, ascending; none for an axis without pads.
    axes: [Option<Vec<(f64, f64)>>; 3],
}

impl Span {
    /// An axis without pads takes every head.
    pub const ALL: Self = Self { from: f64::NEG_INFINITY, to: f64::INFINITY };

    /// Whether a head that takes so much lies in it.
    #[must_use]
    pub fn holds(self, taken: f64) -> bool {
        (self.from..=self.to).contains(&taken)
    }
}

impl Room {
    /// The heads that a (model, size) fits, the profile taken at its word.
    #[must_use]
    pub fn of(candidate: &Candidate<'_>, pads: Pads, rules: &FitRules) -> Self {
        Clearance::of(candidate, pads, rules).room(candidate.cavity(rules))
    }

    /// Whether a head that takes so much on each axis fits.
    #[must_use]
    pub fn holds(&self, taken: [f64; 3]) -> bool {
        self.axes.iter().zip(taken).all(|(spans, taken)| spans.iter().any(|span| span.holds(taken)))
    }
}

impl Clearance {
    /// Of a (model, size) with these pads.
    #[must_use]
    pub fn of(candidate: &Candidate<'_>, pads: Pads, rules: &FitRules) -> Self {
        let axes = [0, 1, 2].map(|axis| {
            let table = candidate.axes[axis].as_ref()?;
            Some(joined(table, pads, rules.bands(Axis::ALL[axis])))
        });
        Self { axes }
    }

    /// The heads that fit where the linings are so far apart, mm by axis.
    #[must_use]
    pub fn room(&self, cavity: [f64; 3]) -> Room {
        let span = |cavity: f64, (tight, light): (f64, f64)| Span { from: cavity - light, to: cavity - tight };
        let axes = [0, 1, 2].map(|axis| match &self.axes[axis] {
            None => vec![Span::ALL],
            // The most room is left by the smallest heads.
            Some(windows) => windows.iter().rev().map(|window| span(cavity[axis], *window)).collect(),
        });
        Room { axes }
    }
}

fn joined(table: &AxisTable, pads: Pads, bands: Bands) -> Vec<(f64, f64)> {
    // The standard pads come first.
    let count = if pads == Pads::Standard { 1 } else { table.options.len() };
    let windows = table.options[..count].iter().map(|option| bands.window(option.foam));
    let ascending = windows.sorted_by(|a, b| a.0.total_cmp(&b.0));
    ascending.coalesce(|a, b| if b.0 <= a.1 { Ok((a.0, a.1.max(b.1))) } else { Err((a, b)) }).collect()
}
