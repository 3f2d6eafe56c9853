//! The stroke of a line, with its arrow heads.

use super::bundle::Bundle;
use super::text::number;
use crate::layered::{Point, Route};
use crate::profile::Nature;

/// Length and half the breadth of an arrow head.
const HEAD: f64 = 9.0;
const HALF: f64 = 4.5;

/// The line to the label and the line behind it, each with a head that shows where it leads. A halo keeps lines apart
/// where they cross.
pub(super) fn drawn(bundle: &Bundle<'_>, route: &Route) -> String {
    let class = bundle.nature().name();
    let mut svg = String::new();
    for way in [&route.before, &route.after] {
        let Some((path, head)) = path(way) else { continue };
        svg.push_str(&format!(
            "<path class=\"halo {class}\" d=\"{path}\"/><path class=\"line {class}\" d=\"{path}\"/>"
        ));
        if bundle.nature() == Nature::Stop {
            svg.push_str(&format!("<path class=\"core\" d=\"{path}\"/>"));
        }
        svg.push_str(&format!("<path class=\"head {class}\" d=\"{head}\"/>\n"));
    }
    svg
}

/// The path of a way, which ends a little early, and the head on its end.
fn path(way: &[Point]) -> Option<(String, String)> {
    let (tip, before) = (*way.last()?, *way.get(way.len().checked_sub(2)?)?);
    // Ways end upright or level.
    let is_level = (tip.y - before.y).abs() < 0.05;
    let (dx, dy) = if is_level { ((tip.x - before.x).signum(), 0.0) } else { (0.0, (tip.y - before.y).signum()) };
    let foot = Point { x: tip.x - dx * HEAD, y: tip.y - dy * HEAD };
    let head = [
        tip,
        Point { x: foot.x - dy * HALF, y: foot.y - dx * HALF },
        Point { x: foot.x + dy * HALF, y: foot.y + dx * HALF },
    ];
    let head = format!(
        "M{} {}L{} {}L{} {}Z",
        n(head[0].x),
        n(head[0].y),
        n(head[1].x),
        n(head[1].y),
        n(head[2].x),
        n(head[2].y)
    );
    let end = Point { x: tip.x - dx * (HEAD - 2.0), y: tip.y - dy * (HEAD - 2.0) };
    let mut points = way[..way.len() - 1].to_vec();
    points.push(end);
    let mut path = format!("M{} {}", n(points[0].x), n(points[0].y));
    for pair in points.windows(2) {
        path.push_str(&step(pair[0], pair[1]));
    }
    Some((path, head))
}

/// Straight where that is level or upright, otherwise an S that begins and ends upright.
fn step(from: Point, to: Point) -> String {
    let is_straight = (from.x - to.x).abs() < 0.05 || (from.y - to.y).abs() < 0.05;
    if is_straight {
        return format!("L{} {}", n(to.x), n(to.y));
    }
    let middle = n((from.y + to.y) / 2.0);
    format!("C{} {middle} {} {middle} {} {}", n(from.x), n(to.x), n(to.x), n(to.y))
}

fn n(value: f64) -> String {
    number(value)
}
