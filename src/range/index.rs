//! Which of many helmets fit a head, answered for all of them at once.
//!
//! On each axis the ends of all spans cut the line into cells, and within a cell nothing changes. So each cell has a
//! bitmap of the rooms that hold it, a head lies in one cell of each axis, and the AND of three bitmaps says what fits:
//! exactly, whatever the number of helmets. (A bitmap index over the ranges of three columns, O'Neil and Quass 1997.)

use super::room::{Room, Span};

/// Bitmaps over the cells of each axis.
#[derive(Debug, Clone)]
pub struct Index {
    axes: [Line; 3],
    /// Words of an answer.
    words: usize,
}

/// One axis, cut where a span begins or ends.
#[derive(Debug, Clone)]
struct Line {
    /// Where a cell begins: ascending, with an infinity behind.
    edges: Vec<f64>,
    /// Where the buckets begin, mm.
    origin: f64,
    /// Buckets per mm.
    per_mm: f64,
    /// For a bucket, how many edges surely lie before it.
    first: Vec<u32>,
    /// For each cell the bitmaps of all slots, one after the other.
    rows: Vec<u64>,
    /// Words of a row.
    width: usize,
}

/// Buckets on a line: many more than there are edges for most ranges, so that hardly any head looks at a second edge.
const BUCKETS: usize = 8192;

impl Index {
    /// Over rooms, each with the column (a bit of the answer) that it counts for. A column with several rooms is answered
    /// where one of them fits.
    ///
    /// Cost: rooms × cells. A room outside of `columns` is a mistake of the program, and panics.
    #[must_use]
    pub fn of(columns: usize, rooms: &[(usize, Room)]) -> Self {
        let words = columns.div_ceil(64).max(1);
        let mut filled = vec![0; columns];
        // The rooms of a column lie in slots of their own, so that the AND never mixes two of them.
        let mut slots = Vec::with_capacity(rooms.len());
        for (column, _) in rooms {
            slots.push(filled[*column]);
            filled[*column] += 1;
        }
        let width = words * filled.into_iter().max().unwrap_or(0);
        let axes = [0, 1, 2].map(|axis| {
            let mut line = Line::cut(rooms.iter().flat_map(|(_, room)| &room.axes[axis]), width);
            for ((column, room), slot) in rooms.iter().zip(&slots) {
                for span in &room.axes[axis] {
                    line.mark(span.from, span.to, slot * words + column / 64, 1 << (column % 64));
                }
            }
            line
        });
        Self { axes, words }
    }

    /// Words of an answer.
    #[must_use]
    pub fn words(&self) -> usize {
        self.words
    }

    /// Answers for heads that take so much room (length, breadth, face width, of equal length): bit by bit the columns that
    /// fit, so many words for each head, into `answers`, whatever was in it.
    pub fn ask(&self, taken: &[Vec<f64>; 3], answers: &mut Vec<u64>) {
        answers.clear();
        answers.resize(taken[0].len() * self.words, 0);
        let heads = taken[0].iter().zip(&taken[1]).zip(&taken[2]);
        let rows = heads.map(|((length, breadth), face_width)| {
            [self.axes[0].row(*length), self.axes[1].row(*breadth), self.axes[2].row(*face_width)]
        });
        // Of up to 64 columns with two kinds of pads an answer has two words, and they need no inner loop.
        if let (2, (pairs, [])) = (self.words, answers.as_chunks_mut::<2>()) {
            for (answer, rows) in pairs.iter_mut().zip(rows) {
                let [(a, _), (b, _), (c, _)] = rows.map(<[u64]>::as_chunks::<2>);
                for ((a, b), c) in a.iter().zip(b).zip(c) {
                    answer[0] |= a[0] & b[0] & c[0];
                    answer[1] |= a[1] & b[1] & c[1];
                }
            }
        } else {
            for (answer, rows) in answers.chunks_exact_mut(self.words).zip(rows) {
                let [a, b, c] = rows.map(|row| row.chunks_exact(self.words));
                for ((a, b), c) in a.zip(b).zip(c) {
                    for (word, ((a, b), c)) in answer.iter_mut().zip(a.iter().zip(b).zip(c)) {
                        *word |= a & b & c;
                    }
                }
            }
        }
    }
}

impl Line {
    fn cut<'s>(spans: impl Iterator<Item = &'s Span>, width: usize) -> Self {
        // A span holds its end, a cell doesn't: the cell ends at the next number.
        let mut edges: Vec<_> = spans.flat_map(|span| [span.from, span.to.next_up()]).collect();
        edges.sort_by(f64::total_cmp);
        edges.dedup_by(|a, b| a.total_cmp(b).is_eq());
        let rows = vec![0; (edges.len() + 1) * width];
        edges.push(f64::INFINITY);
        let mut finite = edges.iter().copied().filter(|edge| edge.is_finite());
        let origin = finite.next().unwrap_or(0.0);
        let last = finite.next_back().unwrap_or(origin);
        #[expect(clippy::cast_precision_loss, reason = "a small constant")]
        let per_mm = BUCKETS as f64 / (last - origin).max(1.0);
        let mut line = Self { edges, origin, per_mm, first: vec![0; BUCKETS], rows, width };
        let mut before = 0;
        for (bucket, first) in line.first.iter_mut().enumerate() {
            // A little before the bucket begins, so that no rounding takes a head beyond its cell.
            #[expect(clippy::cast_precision_loss, reason = "a small constant")]
            let begin = origin + (bucket as f64 - 1e-3) / per_mm;
            while line.edges[before as usize] <= begin {
                before += 1;
            }
            *first = before;
        }
        line
    }

    fn mark(&mut self, from: f64, to: f64, word: usize, bit: u64) {
        for cell in self.cell(from)..=self.edges.partition_point(|edge| *edge < to.next_up()) {
            self.rows[cell * self.width + word] |= bit;
        }
    }

    #[inline]
    fn row(&self, taken: f64) -> &[u64] {
        &self.rows[self.cell(taken) * self.width..][..self.width]
    }

    /// How many edges lie at or before it.
    #[inline]
    fn cell(&self, taken: f64) -> usize {
        // The last edge is infinite: nothing comes behind it.
        let taken = taken.min(f64::MAX);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "what lies outside ends in the last one"
        )]
        let bucket = ((taken - self.origin) * self.per_mm) as usize;
        let mut cell = self.first[bucket.min(BUCKETS - 1)] as usize;
        while self.edges[cell] <= taken {
            cell += 1;
        }
        cell
    }
}
