//! The outline of a head from above, in plain characters.

use crate::drill::Look;
use itertools::Itertools;

/// A terminal's cell is about twice as high as it is wide: a row is 1 cm of the head, a column half of that. The scale is the
/// same for all heads, so that their size is seen, too.
const ROW_MM: f64 = 10.0;
const COLUMN_MM: f64 = 5.0;

/// Points that are drawn: several in each cell.
const POINTS: u16 = 2400;

/// Columns of the ruler at the side.
const SIDE: &str = "         ";

/// What the outline does in a cell.
#[derive(Debug, Clone, Copy, Default)]
struct Cell {
    /// How far it runs in both directions, mm.
    run: [f64; 2],
    /// Where it lies in the row on average, from 0 at the top to 1, times its run.
    height: f64,
    /// Above 0 where it falls to the right.
    fall: f64,
}

/// The lines of a drawing, the face at the top; rulers in cm begin at its upper and at its left edge.
pub(super) fn drawn(look: &Look) -> Vec<String> {
    let [columns, rows] = [(look.breadth, COLUMN_MM), (look.length, ROW_MM)].map(|(mm, step)| cells(mm / step));
    let mut grid = vec![vec![Cell::default(); columns]; rows];
    for (from, to) in look.outline(POINTS).into_iter().tuple_windows() {
        let [x, y] = [(from[0] + to[0]) / 2.0 / COLUMN_MM, (from[1] + to[1]) / 2.0 / ROW_MM];
        let row = cells(y.floor()).min(rows - 1);
        let cell = &mut grid[row][cells(x.floor()).min(columns - 1)];
        let [across, down] = [to[0] - from[0], to[1] - from[1]];
        cell.run = [cell.run[0] + across.abs(), cell.run[1] + down.abs()];
        cell.height += across.hypot(down) * (y - y.floor());
        cell.fall += across * down;
    }
    let nose = format!("{SIDE}{}/\\", " ".repeat((columns / 2).saturating_sub(1)));
    let body = grid.iter().enumerate().map(|(row, cells)| {
        let tick = if row % 5 == 0 { format!("{row:>6} - ") } else { "       - ".to_owned() };
        format!("{tick}{}", cells.iter().map(Cell::sign).collect::<String>()).trim_end().to_owned()
    });
    std::iter::once(nose).chain(body.collect_vec()).chain(ruler(columns)).collect()
}

impl Cell {
    fn sign(&self) -> char {
        let [across, down] = self.run;
        let along = across.hypot(down);
        match self.height / along {
            // A corner that the line only just touches would make it look thick.
            _ if along < COLUMN_MM / 2.0 => ' ',
            _ if down > 2.0 * across && down < ROW_MM / 2.0 => ' ',
            _ if down > 2.0 * across => '|',
            height if across > 2.0 * down && height < 1.0 / 3.0 => '\'',
            height if across > 2.0 * down && height < 2.0 / 3.0 => '-',
            _ if across > 2.0 * down => '.',
            _ if self.fall > 0.0 => '\\',
            _ => '/',
        }
    }
}

/// A ruler below a drawing: a tick for each cm, and each fifth with its number.
fn ruler(columns: usize) -> [String; 2] {
    let tick = |column: usize| match column {
        _ if column.is_multiple_of(10) => '|',
        _ if column.is_multiple_of(2) => '\'',
        _ => ' ',
    };
    let ticks = (0..=columns).map(tick).collect::<String>();
    let numbers = (0..=columns).step_by(10).map(|column| format!("{:<10}", column / 2)).collect::<String>();
    [format!("{SIDE}{ticks}"), format!("{SIDE}{numbers} cm")].map(|line| line.trim_end().to_owned())
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a head is a few dozen cells long")]
fn cells(count: f64) -> usize {
    count.ceil().clamp(0.0, 200.0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    /// What somebody reads off: the row and the third of it where the outline ends, and the column of its right edge.
    fn read(lines: &[String]) -> [f64; 2] {
        let body = lines.iter().skip(1).take_while(|line| !line.contains('|') || line.contains('-')).collect_vec();
        let rows = body.iter().map(|line| line.chars().skip(SIDE.len()).collect_vec()).collect_vec();
        let right = rows.iter().filter_map(|row| row.iter().rposition(|sign| *sign != ' ')).max().unwrap();
        let end = rows.iter().rposition(|row| row.iter().any(|sign| *sign != ' ')).unwrap();
        // The outline ends where it is lowest.
        let third = match &rows[end] {
            row if row.contains(&'.') => 5.0 / 6.0,
            row if row.contains(&'-') => 0.5,
            _ => 1.0 / 6.0,
        };
        #[expect(clippy::cast_precision_loss, reason = "a few dozen")]
        let [right, end] = [right as f64, end as f64];
        [(right + 0.5) * COLUMN_MM, (end + third) * ROW_MM]
    }

    /// The edge of a column is off by 2.5 mm at most and the third of a row by 2 mm, which is 2 points of the index and a bit.
    #[rstest]
    fn the_drawing_has_the_heads_proportions(
        #[values(530.0, 551.0, 575.0, 588.0, 610.0)] tape: f64,
        #[values(70.0, 74.0, 77.0, 79.0, 83.0, 88.0)] index: f64,
    ) {
        let look = Look::new(tape, index);
        let lines = drawn(&look);
        let [breadth, length] = read(&lines);
        assert!((breadth - look.breadth).abs() <= 2.6, "{breadth} for {look:?}\n{}", lines.join("\n"));
        assert!((length - look.length).abs() <= 2.6, "{length} for {look:?}\n{}", lines.join("\n"));
        assert!(
            (100.0 * breadth / length - index).abs() <= 2.3,
            "{breadth}/{length} for {look:?}\n{}",
            lines.join("\n")
        );
    }

    #[rstest]
    #[case(520.0, 70.0)]
    #[case(650.0, 95.0)]
    #[case(700.0, 120.0)]
    fn a_drawing_is_narrow_and_plain(#[case] tape: f64, #[case] index: f64) {
        for line in drawn(&Look::new(tape, index)) {
            assert!(line.len() <= 72 && line.is_ascii() && !line.ends_with(' '), "{line:?}");
        }
    }
}
