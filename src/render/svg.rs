//! Pictures as SVG, whole in themselves: no script, no font and no picture from outside.

mod bars;
mod bundle;
mod cut;
mod legend;
mod line;
mod map;
mod paint;
mod picture;
mod plan;
mod range;
mod text;
mod tree;
mod why;

pub use cut::cross_section;
pub use map::{changed_map, range_map};
pub(in crate::render) use picture::Kind;
pub use picture::Picture;
pub use plan::plan;
pub use range::{designs_by_shape, kits_in_order, models_and_shares};
pub(in crate::render) use tree::{Links, plan_tree};
pub use why::why;

use crate::fallback::Excerpt;
use crate::layered::{Extent, Frame, Layout, Line, Point, Spacing, TooLarge, layout};
use crate::profile::{Edge, Model};
use crate::render::markup::escaped;
use bundle::{Bundle, bundles};
use itertools::Itertools;
use legend::Legend;
use text::{cut, number, width};

/// Margin around everything.
const MARGIN: f64 = 24.0;

/// Height of a model's box, and the room beside its name.
const NODE_HEIGHT: f64 = 40.0;
const NODE_PADDING: f64 = 14.0;

/// Sizes of the letters.
const NAME_SIZE: f64 = 13.0;
const SMALL_SIZE: f64 = 11.0;

/// The longest name that is written out; the whole of it stands in the title.
const LONGEST_NAME: usize = 30;

/// A line goes straight for a little more than the length of an arrow head.
const SPACING: Spacing = Spacing { boxes: 28.0, lines: 13.0, rows: 44.0, straight: 10.0, rise: 0.06, reach: 60.0 };

/// The rules as a drawing: a box for each model, and one line for all rules from a model to another, which carries
/// their reasons.
///
/// # Errors
/// When the graph is too large for any drawing to show.
pub fn fallbacks(excerpt: &Excerpt<'_>) -> Result<Picture, TooLarge> {
    let bundles = bundles(excerpt);
    let nodes: Vec<Extent> = excerpt.models.iter().map(|model| extent(model)).collect();
    let lines: Vec<Line> = bundles.iter().map(Bundle::line).collect();
    let layout = layout(&nodes, &lines, &SPACING)?;
    let legend = Legend::of(excerpt);
    Ok(assemble(excerpt, &bundles, &layout, &legend))
}

fn assemble(excerpt: &Excerpt<'_>, bundles: &[Bundle<'_>], layout: &Layout, legend: &Legend) -> Picture {
    let width = layout.size.width.max(legend.size.width) + 2.0 * MARGIN;
    let top = MARGIN + legend.size.height + MARGIN;
    let height = top + layout.size.height + MARGIN;
    let left = (width - layout.size.width) / 2.0;
    let mut svg = legend.drawn(Point { x: MARGIN, y: MARGIN });
    svg.push_str(&format!("<g transform=\"translate({} {})\">\n", number(left), number(top)));
    // The halo of a line cuts those below it. Lines that go far sideways cross many, and would look dashed.
    let ways = bundles.iter().zip(&layout.routes);
    for (bundle, route) in ways.sorted_by(|(_, a), (_, b)| a.sideways().total_cmp(&b.sideways())) {
        let [line, label] = [line::drawn(bundle, route), bundle.drawn(excerpt, route.label)];
        svg.push_str(&format!("<g class=\"way\">\n{line}{label}</g>\n"));
    }
    for (model, frame) in excerpt.models.iter().zip(&layout.nodes) {
        svg.push_str(&drawn(excerpt, model, frame));
    }
    svg.push_str("</g>\n");
    Picture {
        kind: Kind::Graph,
        title: legend::TITLE.to_owned(),
        description: legend.description.clone(),
        size: Extent { width, height },
        body: svg,
        is_followed: false,
    }
}

fn extent(model: &Model) -> Extent {
    let name = width(&cut(&model.name, LONGEST_NAME), NAME_SIZE).max(width(model.kind.name(), SMALL_SIZE));
    Extent { width: name + 2.0 * NODE_PADDING, height: NODE_HEIGHT }
}

fn drawn(excerpt: &Excerpt<'_>, model: &Model, frame: &Frame) -> String {
    let Frame { middle, extent } = *frame;
    let leading =
        |is_meant: &dyn Fn(&&Edge) -> bool| excerpt.rules.iter().map(|(_, edge)| *edge).filter(is_meant).count();
    let title = format!(
        "{} ({}), {}: rules that lead from it: {}, to it: {}",
        model.name,
        model.id,
        model.kind.name(),
        leading(&|edge| edge.from == model.id),
        leading(&|edge| edge.to == model.id)
    );
    let [x, y, w, h] =
        [middle.x - extent.width / 2.0, middle.y - extent.height / 2.0, extent.width, extent.height].map(number);
    let [middle_x, name_y, kind_y] = [middle.x, middle.y - 2.0, middle.y + 12.5].map(number);
    format!(
        "<g class=\"model\"><title>{}</title><rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" rx=\"6\"/>\
         <text class=\"name\" x=\"{middle_x}\" y=\"{name_y}\">{}</text>\
         <text class=\"kind\" x=\"{middle_x}\" y=\"{kind_y}\">{}</text></g>\n",
        escaped(&title),
        escaped(&cut(&model.name, LONGEST_NAME)),
        model.kind.name()
    )
}
