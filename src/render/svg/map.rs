//! The map of customers and helmets by circumference and shape index.

mod cell;
mod changes;
mod frame;
mod gaps;

use super::picture::{Kind, Picture};
use crate::range::{Customers, Map, Served};
use crate::render::colour::Scheme;
use cell::SHADES;
use frame::Frame;

/// Who is served, as a map: in each cell how many models fit, and around cells the gaps.
#[must_use]
pub fn range_map(customers: &Customers<'_>, served: &Served<'_>) -> Picture {
    const TITLE: &str = "How many models serve whom";
    let frame = Frame::of(&served.map);
    let gaps = gaps::drawn(served, &frame);
    let key = (!gaps.is_empty()).then_some(gaps::key as fn(f64, f64) -> String);
    let body = [frame.head(TITLE, customers, key), frame.cells(|_, _| None), gaps];
    picture(TITLE, customers, &served.map, &frame, body.concat())
}

/// The same of a range as it would be, with what changes against the range as it is. The maps are of the same heads.
#[must_use]
pub fn changed_map(customers: &Customers<'_>, [before, after]: [&Map; 2]) -> Picture {
    const TITLE: &str = "How many models would serve whom";
    let frame = Frame::of(after);
    let key = Some(changes::key as fn(f64, f64) -> String);
    let cells = frame.cells(|row, column| Some(before.cell(row, column)));
    picture(TITLE, customers, after, &frame, [frame.head(TITLE, customers, key), cells].concat())
}

fn picture(title: &str, customers: &Customers<'_>, map: &Map, frame: &Frame<'_>, body: String) -> Picture {
    let lost: u64 = map.cells().map(|(_, _, cell)| cell.heads - cell.on_offer).sum();
    let description = format!(
        "Customers of {}. Rows are circumferences, columns shape indices (100 × breadth / length). In each cell the number of models that \
         serve a customer on average, with the pads on offer, and customers of 1,000. {:.2} % of all customers fit nothing.",
        customers.whose(),
        100.0 * lost as f64 / map.heads().max(1) as f64
    );
    Picture { kind: Kind::Map, title: title.to_owned(), description, size: frame.size(), body, is_followed: false }
}

/// What doesn't depend on the scheme.
pub(super) const SHAPE: &str = "\
.step,.count,.few,.number{text-anchor:middle}
.row{text-anchor:end}
.count{font-size:13px;font-weight:bold}
.number{font-weight:bold}
.outline rect{fill:none;stroke-width:2.5}
.outline .halo{stroke-width:6}
.gap circle{stroke-width:1.5}
.won,.lost{stroke-width:1.5}
";

/// Grounds of the cells with the colour of the words on them, from none to many, and what lies on top of them.
pub(super) fn colours(scheme: &Scheme) -> String {
    let Scheme { ground, ink, faint, .. } = scheme;
    let rule = |(class, (ground, words)): (&str, (&str, &str))| {
        format!(".{class}{{fill:{ground};stroke:{faint};stroke-width:0.5}}\n.on-{class}{{fill:{words}}}\n")
    };
    let cells: String = SHADES.into_iter().zip(scheme.shades).map(rule).collect();
    format!(
        "{cells}.outline rect{{stroke:{ink}}}\n.outline .halo{{stroke:{ground}}}\n.gap circle{{fill:{ground};stroke:{ink}}}\n\
         .won{{fill:{ground};stroke:{ink}}}\n.lost{{fill:{ink};stroke:{ground}}}\n"
    )
}
