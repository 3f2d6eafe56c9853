//! What the strokes and words of a drawing mean.

use super::SMALL_SIZE;
use super::bundle::sample;
use super::text::{cut, number, width};
use crate::fallback::{Excerpt, Question};
use crate::layered::{Extent, Point};
use crate::profile::{Nature, Reason};
use crate::render::diagnostics::numbered;
use crate::render::markup::escaped;
use itertools::Itertools;

pub(super) const TITLE: &str = "What the shop tries next, and why";

/// Columns of the longest line.
const LONGEST: usize = 100;

const LINE: f64 = 17.0;
const HEADING: f64 = 28.0;
const INDENT: f64 = 26.0;

/// The words above a drawing.
pub(super) struct Legend {
    pub(super) size: Extent,
    /// The same for those who don't see the drawing.
    pub(super) description: String,
    lines: Vec<(Option<Nature>, String)>,
}

impl Legend {
    pub(super) fn of(excerpt: &Excerpt<'_>) -> Self {
        let counts = format!(
            "{}, {}, {}",
            numbered(excerpt.models.len(), "model"),
            numbered(excerpt.rules.len(), "rule"),
            numbered(excerpt.circles.len(), "circle")
        );
        let plain = |text: &str| (None, text.to_owned());
        let lines = [
            plain("A line leads from the model that failed to the one to try next; its label says why."),
            (Some(Nature::Geometric), "geometric: follows from measures and pads.".to_owned()),
            (Some(Nature::Experience), "experience: only the shop knows.".to_owned()),
            (
                Some(Nature::Stop),
                "stop: the model that failed is out at once in this size, whatever the pads.".to_owned(),
            ),
            plain("A line with several reasons has the stroke of the first kind: stop, geometric, experience."),
            plain("In brackets the size to take where it isn't the same: up, down, a label, or any."),
            (None, format!("{counts}. No rule is a fit check: only the helmet on the head tells.")),
        ];
        let lines =
            asked(excerpt).map(|words| (None, cut(&words, LONGEST))).into_iter().chain(lines).collect::<Vec<_>>();
        let widest = lines.iter().map(|(_, text)| INDENT + width(text, SMALL_SIZE)).fold(0.0, f64::max);
        let size = Extent { width: widest.max(width(TITLE, 17.0)), height: HEADING + LINE * lines.len() as f64 };
        let description = lines.iter().map(|(_, text)| text.as_str()).collect::<Vec<_>>().join(" ");
        Self { size, description, lines }
    }

    pub(super) fn drawn(&self, corner: Point) -> String {
        let [x, y] = [corner.x, corner.y + 16.0].map(number);
        let mut svg = format!("<g class=\"legend\"><text class=\"heading\" x=\"{x}\" y=\"{y}\">{TITLE}</text>\n");
        for (at, (nature, text)) in self.lines.iter().enumerate() {
            let y = corner.y + HEADING + LINE * (at as f64 + 0.5);
            let indent = nature.map_or(0.0, |_| INDENT);
            svg.push_str(&nature.map_or(String::new(), |nature| sample(nature, Point { x: corner.x, y })));
            let [x, y] = [corner.x + indent, y + 4.0].map(number);
            svg.push_str(&format!("<text class=\"note\" x=\"{x}\" y=\"{y}\">{}</text>\n", escaped(text)));
        }
        svg.push_str("</g>\n");
        svg
    }
}

/// What part of the rules is drawn.
fn asked(excerpt: &Excerpt<'_>) -> Option<String> {
    let named = |reasons: &[Reason], between| reasons.iter().map(|reason| reason.id()).join(between);
    match &excerpt.question {
        Question::All => None,
        Question::About(model) => Some(format!("Only the rules from and to {}.", excerpt.name(model))),
        Question::For(reasons) => Some(format!("Only the rules for {}.", named(reasons, " or "))),
        Question::Ways(model, reasons) => {
            Some(format!("Only the ways from {}, if {}.", excerpt.name(model), named(reasons, ", then ")))
        }
    }
}
