//! One axis of a (model, size) by what becomes of a head with the best pads on offer: windows of rooms.

use super::{AxisTable, Candidate};
use crate::head::EffectiveHead;
use crate::profile::{FitRules, Reason};
use itertools::Itertools;

/// The rooms in which some choice of pads is good, and between them those that are too tight or too loose.
#[derive(Debug, Clone, PartialEq)]
struct Windows {
    /// Rooms at which the class changes, ascending, mm.
    breaks: Vec<f64>,
    /// One more than breaks: 0 where some choice is good, +1 too tight, −1 too loose.
    classes: Vec<i8>,
}

/// One size by what becomes of a head in it with the best pads on offer, the profile taken at its word.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// Distance between the linings by axis, mm.
    cavity: [f64; 3],
    /// None for an axis without pads.
    windows: [Option<Windows>; 3],
}

impl Reach {
    /// Of a (model, size).
    #[must_use]
    pub fn of(candidate: &Candidate<'_>, rules: &FitRules) -> Self {
        let windows = [0, 1, 2].map(|axis| candidate.axes[axis].as_ref().map(Windows::of));
        Self { cavity: candidate.cavity(rules), windows }
    }

    /// Why this head fails; `None` where it fits.
    #[must_use]
    pub fn reason(&self, head: EffectiveHead) -> Option<Reason> {
        let rooms = self.rooms(head);
        let class = |axis: usize| self.windows[axis].as_ref().map_or(0, |windows| windows.class(rooms[axis]));
        Reason::from_direction([class(0), class(1), class(2)])
    }

    /// By how many mm a head misses a good fit on each axis: positive where it is too tight, negative where it is too loose, 0 where
    /// some pads are good.
    #[must_use]
    pub fn misses(&self, head: EffectiveHead) -> [f64; 3] {
        let rooms = self.rooms(head);
        [0, 1, 2].map(|axis| self.windows[axis].as_ref().map_or(0.0, |windows| windows.miss(rooms[axis])))
    }

    fn rooms(&self, head: EffectiveHead) -> [f64; 3] {
        let taken = [head.length, head.breadth, head.face_width];
        [0, 1, 2].map(|axis| self.cavity[axis] - taken[axis])
    }
}

impl Windows {
    /// The windows of a table: its cells, joined where they have one class.
    fn of(table: &AxisTable) -> Self {
        let starts = std::iter::once(f64::NEG_INFINITY).chain(table.breaks.iter().copied());
        let cells = starts.zip(table.cells.iter().map(|cell| cell.class));
        let (starts, classes): (Vec<_>, Vec<_>) = cells.dedup_by(|(_, a), (_, b)| a == b).unzip();
        Self { breaks: starts[1..].to_vec(), classes }
    }

    /// What a head that leaves this room is: 0 where some choice is good, +1 too tight, −1 too loose.
    fn class(&self, room: f64) -> i8 {
        self.classes[self.at(room)]
    }

    /// By how many mm a head that leaves this room misses the nearest room in which some choice is good: positive where
    /// it is too tight, negative where it is too loose, 0 where some choice is good.
    fn miss(&self, room: f64) -> f64 {
        let at = self.at(room);
        let is_good = |k: &usize| self.classes[*k] == 0;
        // A good window has a break on each side: no choice is good without any foam, or with any room.
        match self.classes[at] {
            0 => 0.0,
            1.. => (at..self.classes.len()).find(is_good).map_or(f64::INFINITY, |k| self.breaks[k - 1] - room),
            _ => (0..at).rev().find(is_good).map_or(f64::NEG_INFINITY, |k| self.breaks[k] - room),
        }
    }

    /// A handful of breaks: counting them is faster than searching.
    fn at(&self, room: f64) -> usize {
        self.breaks.iter().filter(|edge| **edge <= room).count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::Cell;

    fn cell(class: i8) -> Cell {
        Cell { class, option: 0, good: 0 }
    }

    #[test]
    fn a_miss_is_the_way_to_the_nearest_good_room() {
        let cells = [1, 0, 0, -1, 1, 0, -1].map(cell).to_vec();
        let table = AxisTable { options: Vec::new(), breaks: vec![5.0, 6.0, 8.0, 11.0, 15.0, 24.0], cells };
        let windows = Windows::of(&table);
        assert_eq!(windows.classes, [1, 0, -1, 1, 0, -1], "the two good cells are one window");
        for (room, class, miss) in [
            (4.0, 1, 1.0),
            (5.0, 0, 0.0),
            (7.0, 0, 0.0),
            (9.0, -1, -1.0),
            (14.0, 1, 1.0),
            (20.0, 0, 0.0),
            (26.5, -1, -2.5),
        ] {
            assert_eq!(windows.class(room), class, "{room}");
            assert!((windows.miss(room) - miss).abs() < 1e-12, "{room}: {}", windows.miss(room));
        }
    }
}
