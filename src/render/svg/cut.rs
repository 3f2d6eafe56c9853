//! A head in a helmet from above: outlines, the foam by its strain, and what each zone feels.

mod foam;
mod rows;

pub(super) use foam::{SHAPE, colours};

use super::picture::{Kind, Picture};
use super::text::{cut, number};
use crate::fit::{CrossSection, Squeeze, ZoneCut};
use crate::head::Contour;
use crate::layered::Extent;
use crate::profile::Zone;
use crate::render::markup::escaped;
use crate::render::text::mm;

/// Px for a mm: the same in all pictures, so that sizes can be compared.
const SCALE: f64 = 1.2;

/// As wide as a telephone shows it.
const WIDTH: f64 = 340.0;

/// Steps around an outline.
const STEPS: u16 = 120;

/// Lines of a label, px apart.
const LINE: f64 = 13.0;

/// Letters of a heading that have room.
const LONGEST: usize = 36;

/// The picture of a cut. `name` says what is cut, `key` tells its patterns from those of other pictures on a page.
#[must_use]
pub fn cross_section(section: &CrossSection, name: &str, key: &str) -> Picture {
    let stage = Stage::of(section);
    let rows = rows::rows(section, key, stage.bottom);
    let body = [
        foam::patterns(key),
        format!("<text class=\"name\" x=\"12\" y=\"20\">{}</text>\n", escaped(&cut(name, LONGEST))),
        stage.label("note middle", [WIDTH / 2.0, 37.0], "front"),
        stage.foam(section, key),
        stage.outlines(section),
        stage.words(section),
        stage.face(section, key),
        rows.drawn,
    ];
    Picture {
        kind: Kind::Cut,
        title: format!("{name}, from above"),
        description: description(section),
        size: Extent { width: WIDTH, height: rows.bottom },
        body: body.concat(),
        is_followed: false,
    }
}

/// Where the drawing lies.
struct Stage {
    /// The head's middle, px.
    middle: [f64; 2],
    /// Below the helmet.
    under: f64,
    /// Below the strip across the face.
    bottom: f64,
}

impl Stage {
    fn of(section: &CrossSection) -> Self {
        let front = (section.liner.length / 2.0 - section.liner_behind).max(section.head.length / 2.0);
        let back = (section.liner.length / 2.0 + section.liner_behind).max(section.head.length / 2.0);
        let middle = [WIDTH / 2.0, 44.0 + SCALE * front];
        let under = middle[1] + SCALE * back;
        Self { middle, under, bottom: under + FACE_BOTTOM }
    }

    /// A point of the cut, px; `behind` moves it to the rear, mm.
    fn at(&self, [x, y]: [f64; 2], behind: f64) -> [f64; 2] {
        [self.middle[0] + SCALE * x, self.middle[1] + SCALE * (behind - y)]
    }

    /// A closed path along an outline.
    fn path(&self, contour: Contour, behind: f64) -> String {
        let points = contour.points(STEPS);
        closed(points[1..].iter().map(|point| self.at(*point, behind)))
    }

    fn foam(&self, section: &CrossSection, key: &str) -> String {
        let zones = section.zones.iter().filter(|cut| cut.zone.axis().is_some() && cut.zone != Zone::Cheeks);
        zones.map(|cut| foam::zone(section, cut, key, |point, behind| self.at(point, behind))).collect()
    }

    /// The head, and how far it may differ: darker for one standard deviation, lighter for two. Above it, where the pads would
    /// reach without it and where the shell's liner is, which a head that doesn't go in crosses.
    fn outlines(&self, section: &CrossSection) -> String {
        let head = section.head;
        let at = |sds: f64| {
            let [length, breadth, _] = section.sd;
            self.path(head.sized(head.length + sds * length, head.breadth + sds * breadth), 0.0)
        };
        let band = |sds: f64| format!("<path class=\"spread\" d=\"{}{}\"/>\n", at(sds), at(-sds));
        let outline = at(0.0);
        let empty = self.path(section.empty, section.empty_behind);
        let liner = self.path(section.liner, section.liner_behind);
        format!(
            "<path class=\"skin\" d=\"{outline}\"/>\n{}{}<path class=\"empty\" d=\"{empty}\"/>\n\
             <path class=\"liner\" d=\"{liner}\"/>\n<path class=\"head\" d=\"{outline}\"/>\n",
            band(2.0),
            band(1.0)
        )
    }

    /// What the zones feel, beside each; and the crown, which lies above all of it.
    fn words(&self, section: &CrossSection) -> String {
        let [x, y] = self.middle;
        // Words stand within the head and the liner, and keep away from the soft band.
        let (head, liner) = (section.head, section.liner);
        let length = SCALE * head.length.min(liner.length) / 2.0;
        let breadth = SCALE * head.breadth.min(liner.breadth) / 2.0;
        let [off_length, off_breadth] = [section.sd[0], section.sd[1]].map(|sd| (SCALE * sd).min(16.0));
        let mut svg = String::new();
        for zone in &section.zones {
            let lines = label(zone);
            svg.push_str(&match zone.zone {
                Zone::Brow => self.lines("on middle", [x, y - length + off_length + 18.0], &lines),
                Zone::Rear => {
                    let height = LINE * (lines.len() as f64 - 1.0);
                    self.lines("on middle", [x, y + length - off_length - 10.0 - height], &lines)
                }
                Zone::Sides => {
                    let height = LINE * (lines.len() as f64 - 1.0);
                    self.lines("on", [x - breadth + off_breadth + 8.0, y + 4.0 - height / 2.0], &lines)
                }
                Zone::Crown => crown(zone, [x, y]),
                Zone::Cheeks => String::new(),
            });
        }
        svg
    }

    /// The face between the cheek pads, in a strip of its own: they sit lower than the cut.
    fn face(&self, section: &CrossSection, key: &str) -> String {
        let Some(cheeks) = section.zones.iter().find(|cut| cut.zone == Zone::Cheeks) else { return String::new() };
        let [x, top] = [self.middle[0], self.under + FACE_TOP];
        let [face, between] = section.face.map(|mm| SCALE * mm);
        let bar = foam::cheeks(cheeks, [face, between], [x, top], key);
        let lines = label(cheeks);
        let middle = top + FACE_HEIGHT / 2.0 + 4.0 - LINE / 2.0 * (lines.len() as f64 - 1.0);
        format!("{bar}{}", self.lines("middle", [x, middle], &lines))
    }

    fn lines(&self, class: &str, [x, y]: [f64; 2], lines: &[String]) -> String {
        let line = |(at, words): (usize, &String)| self.label(class, [x, y + LINE * at as f64], words);
        lines.iter().enumerate().map(line).collect()
    }

    fn label(&self, class: &str, at: [f64; 2], words: &str) -> String {
        let [x, y] = at.map(number);
        format!("<text class=\"{class}\" x=\"{x}\" y=\"{y}\">{}</text>\n", escaped(words))
    }
}

/// The strip across the face, px below the helmet.
const FACE_TOP: f64 = 16.0;
const FACE_HEIGHT: f64 = 30.0;
const FACE_BOTTOM: f64 = FACE_TOP + FACE_HEIGHT + 8.0;

/// The circle of the crown: above the cut, and no measure of the head says how it fits.
fn crown(cut: &ZoneCut, [x, y]: [f64; 2]) -> String {
    let [x, top, lower, middle] = [x, y - 3.0, y + 10.0, y].map(number);
    let pad = cut.pad.map_or_else(|| "no pad".to_owned(), |pad| format!("{} mm", mm(pad)));
    format!(
        "<g data-zone=\"crown\"><title>{}</title><circle class=\"crown\" cx=\"{x}\" cy=\"{middle}\" r=\"27\"/></g>\n\
         <text class=\"on middle\" x=\"{x}\" y=\"{top}\">crown</text>\n<text class=\"on middle\" x=\"{x}\" y=\"{lower}\">{pad}</text>\n",
        escaped(&sentence(cut))
    )
}

/// What stands beside a zone: its name with what it feels, and how far that is from good.
fn label(cut: &ZoneCut) -> Vec<String> {
    let name = cut.zone.name();
    let felt = cut.squeeze.map_or("no pad", |squeeze| squeeze.band.name());
    let off = cut.squeeze.and_then(|squeeze| Some((beyond(squeeze), side(squeeze)?)));
    // Beside the crown there is room for short lines only.
    match (cut.zone, off) {
        (Zone::Sides, None) => vec![name.to_owned(), felt.to_owned()],
        (Zone::Sides, Some((by, side))) => vec![name.to_owned(), felt.to_owned(), by, side.to_owned()],
        (_, None) => vec![format!("{name}: {felt}")],
        (_, Some((by, side))) => vec![format!("{name}: {felt}"), format!("{by} {side}")],
    }
}

/// On which side of good; `None` where it is good.
fn side(squeeze: Squeeze) -> Option<&'static str> {
    match squeeze.beyond {
        mm if mm > SAID_FROM => Some("too tight"),
        mm if mm < -SAID_FROM => Some("too loose"),
        _ => None,
    }
}

/// Less than this is said of nothing, mm.
const SAID_FROM: f64 = 0.05;

/// How far something is too tight or too loose.
fn beyond(squeeze: Squeeze) -> String {
    format!("{} mm", mm(squeeze.beyond.abs()))
}

/// What is told of a zone.
fn sentence(cut: &ZoneCut) -> String {
    let name = cut.zone.name();
    let pad = match cut.pad {
        None => return format!("{name}: no pad"),
        Some(pad) => format!("{name}: pad {} mm", mm(pad)),
    };
    let Some(squeeze) = cut.squeeze else { return format!("{pad}; whether it fits shows on the head only") };
    let felt = format!("{pad}, strain {}, {}", rows::strain(squeeze), squeeze.band.name());
    side(squeeze).map_or_else(|| felt.clone(), |side| format!("{felt}: {} {side} {}", beyond(squeeze), along(cut.zone)))
}

/// Which pads share the mm.
fn along(zone: Zone) -> &'static str {
    match zone {
        Zone::Brow | Zone::Rear => "front to back, brow and rear together",
        Zone::Sides | Zone::Cheeks | Zone::Crown => "across, left and right together",
    }
}

fn description(section: &CrossSection) -> String {
    let head = section.head;
    let zones = section.zones.iter().map(sentence).collect::<Vec<_>>().join(". ");
    format!(
        "A head from above in a helmet, cut at the brow. Head: length {:.0} ± {:.0} mm, breadth {:.0} ± {:.0} mm, {:.0} mm around. \
         Between the liners: length {:.0} mm, breadth {:.0} mm. {zones}. The soft band shows how far length and breadth may be off: \
         each is in its dark part for two of three such heads, and in all of it for 19 of 20. The dashed line is the inside of the pads with nobody in the helmet.",
        head.length,
        section.sd[0],
        head.breadth,
        section.sd[1],
        head.perimeter(),
        section.liner.length,
        section.liner.breadth
    )
}

/// A closed path through points.
fn closed(points: impl IntoIterator<Item = [f64; 2]>) -> String {
    let mut path = String::new();
    for (at, [x, y]) in points.into_iter().enumerate() {
        path.push_str(&format!("{}{} {}", if at == 0 { "M" } else { "L" }, number(x), number(y)));
    }
    path + "Z"
}
