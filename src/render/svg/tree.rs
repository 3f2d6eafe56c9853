//! A plan as a tree: a box for each step, what leads to it written above, one below the other so that a narrow screen has room.

use super::picture::{Kind, Picture};
use super::text::{fitted, number};
use crate::layered::Extent;
use crate::plan::{Branch, Source};
use crate::render::colour::Scheme;
use crate::render::markup::escaped;
use crate::render::plan_steps::NumberedStep;
use crate::render::plan_words::{PlanView, if_heard, start};
use crate::render::text::percent;

/// As wide as a telephone shows it.
const WIDTH: f64 = 340.0;
const MARGIN: f64 = 6.0;

/// How far a step stands behind the one before it.
const INDENT: f64 = 18.0;

/// A box, which a thumb can hit, and the line of words above it.
const BOX: f64 = 46.0;
const WORDS: f64 = 22.0;

/// Where boxes begin below the heading.
const TOP: f64 = 34.0;

const NAME_SIZE: f64 = 13.0;
const SMALL_SIZE: f64 = 11.0;

const TITLE: &str = "What to try, and what then";

pub(super) const SHAPE: &str = "\
.name{font-size:13px;font-weight:bold}
.end{text-anchor:end}
.step rect{stroke-width:1}
.step .share{stroke:none}
.way{fill:none;stroke-width:1.5}
.way.shop{stroke-dasharray:6 3}
";

/// The colours of a scheme.
pub(super) fn colours(scheme: &Scheme) -> String {
    let Scheme { panel, ink, faint, shades, .. } = scheme;
    let [.., (share, _), _] = shades;
    format!(
        ".step rect{{fill:{panel};stroke:{faint}}}\n.step .share{{fill:{share}}}\n.way{{stroke:{ink}}}\n\
         .step .edge{{fill:none;stroke:{ink}}}\n"
    )
}

/// Whether boxes lead anywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::render) enum Links {
    /// A picture by itself.
    None,
    /// On a page that has a place `step-1` for step 1.
    Steps,
}

/// The plan as a drawing.
pub(in crate::render) fn plan_tree(view: &PlanView<'_>, steps: &[NumberedStep<'_>], links: Links) -> Picture {
    let top = if links == Links::None { TOP } else { MARGIN };
    let mut tree = Tree { view, links, drawn: String::new(), y: top, reached: vec![0.0; steps.len()] };
    if let Some(first) = steps.first() {
        tree.step(steps, first);
    } else {
        tree.note(MARGIN, "Nothing here is worth a try.");
    }
    let heading = match links {
        Links::None => format!("<text class=\"heading\" x=\"{MARGIN}\" y=\"20\">{TITLE}</text>\n"),
        // A page has its own.
        Links::Steps => String::new(),
    };
    Picture {
        kind: Kind::Tree,
        title: TITLE.to_owned(),
        description: description(view, steps),
        size: Extent { width: WIDTH, height: tree.y + MARGIN },
        body: heading + &tree.drawn,
        is_followed: links == Links::Steps,
    }
}

struct Tree<'t> {
    view: &'t PlanView<'t>,
    links: Links,
    drawn: String,
    /// Where the next thing begins.
    y: f64,
    /// How far down the line from each step goes so far.
    reached: Vec<f64>,
}

impl Tree<'_> {
    fn step(&mut self, steps: &[NumberedStep<'_>], step: &NumberedStep<'_>) {
        let left = left(step.depth);
        self.boxed(step, left);
        self.reached[step.number - 1] = self.y;
        for (branch, to) in &step.onward {
            self.words(step, branch, *to);
            match to.and_then(|to| steps.get(to - 1)) {
                Some(next) => self.step(steps, next),
                None => self.note(left + INDENT, &self.view.says(branch, step.depth)),
            }
        }
        if let Some(rest) = step.rest {
            self.note(left + INDENT, &format!("else ({}): rarer reasons", percent(rest)));
        }
    }

    /// A box: number and name with the chance of a fit, below it the pads to start with.
    fn boxed(&mut self, step: &NumberedStep<'_>, left: f64) {
        let known = self.view.candidate(step.step.candidate);
        let (fits, wide) = (step.step.fit.value, WIDTH - MARGIN - left);
        let start = start(known, &step.step.pads);
        let name = format!("{}. {}", step.number, known.title());
        let title = format!("{name}: fits {}, {:.0} minutes; {start}", percent(fits), step.step.minutes);
        let name = fitted(&name, NAME_SIZE, wide - 60.0);
        let start = fitted(&start, SMALL_SIZE, wide - 16.0);
        let [x, y, w, share, h] = [left, self.y, wide, wide * fits, BOX].map(number);
        let [text, end, upper, lower] = [left + 8.0, WIDTH - MARGIN - 8.0, self.y + 19.0, self.y + 36.0].map(number);
        let drawn = format!(
            "<g class=\"step\" data-step=\"{}\"><title>{}</title><rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>\
             <rect class=\"share\" x=\"{x}\" y=\"{y}\" width=\"{share}\" height=\"{h}\"/>\
             <rect class=\"edge\" x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>\
             <text class=\"name\" x=\"{text}\" y=\"{upper}\">{}</text>\
             <text class=\"name end\" x=\"{end}\" y=\"{upper}\">{}</text>\
             <text x=\"{text}\" y=\"{lower}\">{}</text></g>",
            step.number,
            escaped(&title),
            escaped(&name),
            percent(fits),
            escaped(&start)
        );
        self.drawn.push_str(&match self.links {
            Links::None => format!("{drawn}\n"),
            Links::Steps => format!("<a href=\"#step-{}\">{drawn}</a>\n", step.number),
        });
        self.y += BOX;
    }

    /// What is heard, above the box that it leads to, with a line from the step before.
    fn words(&mut self, step: &NumberedStep<'_>, branch: &Branch, to: Option<usize>) {
        let from = left(step.depth);
        let x = from + INDENT / 2.0;
        let foot = self.y + WORDS + if to.is_some() { BOX / 2.0 } else { 8.0 };
        let says = self.view.says(branch, step.depth);
        let class = if is_by_rule(branch) { "way shop" } else { "way" };
        let words = lead(branch);
        let title = format!("{}. {words} {says}", step.number);
        let reason = branch.reasons.iter().map(|reason| reason.id()).collect::<Vec<_>>().join(" ");
        let [x0, y0, x1, y1] = [x, self.reached[step.number - 1], from + INDENT, foot].map(number);
        self.reached[step.number - 1] = foot;
        let [text, y] = [from + INDENT, self.y + 15.0].map(number);
        let words = fitted(&words, SMALL_SIZE, WIDTH - MARGIN - from - INDENT);
        self.drawn.push_str(&format!(
            "<g class=\"heard\" data-edge=\"{} {reason}\"><title>{}</title><path class=\"{class}\" d=\"M{x0} {y0}V{y1}H{x1}\"/>\
             <text class=\"note\" x=\"{text}\" y=\"{y}\">{}</text></g>\n",
            step.number,
            escaped(&title),
            escaped(&words)
        ));
        self.y += WORDS;
    }

    /// Words where there is no box.
    fn note(&mut self, left: f64, words: &str) {
        let words = fitted(words, SMALL_SIZE, WIDTH - MARGIN - left - 6.0);
        let [x, y] = [left + 6.0, self.y + 12.0].map(number);
        self.drawn.push_str(&format!("<text class=\"note\" x=\"{x}\" y=\"{y}\">{}</text>\n", escaped(&words)));
        self.y += WORDS - 4.0;
    }
}

fn left(depth: usize) -> f64 {
    MARGIN + INDENT * depth as f64
}

/// What is heard, how probable that is, and whether the shop's rule says what comes then.
fn lead(branch: &Branch) -> String {
    let chance = percent(branch.probability.value);
    let who = if is_by_rule(branch) { ", shop's rule" } else { "" };
    format!("{} ({chance}{who}):", if_heard(branch, "else"))
}

fn is_by_rule(branch: &Branch) -> bool {
    branch.next.as_ref().is_some_and(|next| matches!(next.source, Source::Rule(_)))
}

fn description(view: &PlanView<'_>, steps: &[NumberedStep<'_>]) -> String {
    let said = steps.iter().map(|step| {
        let title = view.candidate(step.step.candidate).title();
        let fits = percent(step.step.fit.value);
        match step.from {
            None => format!("{}. {title}, fits {fits}.", step.number),
            Some((from, branch)) => format!("After {from}, {} {}. {title}, fits {fits}.", lead(branch), step.number),
        }
    });
    format!("A tree of helmets to try. {} {}", said.collect::<Vec<_>>().join(" "), view.expected())
}
