//! Foam: the shape of a zone, and the colour and pattern of its strain.

use super::{closed, sentence};
use crate::fit::{Band, CrossSection, ZoneCut};
use crate::profile::Zone;
use crate::render::colour::Scheme;
use crate::render::markup::escaped;
use crate::render::svg::text::number;
use itertools::Itertools;
use std::f64::consts::PI;

/// Steps along a zone, and half of what is free between two zones, as angles.
const STEPS: u8 = 22;
const FREE: f64 = 0.03;

/// Bands in order, with the names of their classes.
const BANDS: [(Band, &str); 5] = [
    (Band::Loose, "loose"),
    (Band::Light, "light"),
    (Band::Good, "good"),
    (Band::Tight, "tight"),
    (Band::HotSpot, "hot"),
];

pub(in crate::render::svg) const SHAPE: &str = "\
.name{font-size:13px;font-weight:bold}
.middle{text-anchor:middle}
.end{text-anchor:end}
.liner,.empty,.head,.crown{fill:none}
.liner{stroke-width:3}
.empty{stroke-width:1.2;stroke-dasharray:5 4}
.head{stroke-width:2}
.spread{fill-rule:evenodd;fill-opacity:0.16}
.foam{stroke-width:1}
.on{paint-order:stroke;stroke-width:3}
.crown{stroke-width:1;stroke-dasharray:2 3}
.dot{stroke:none}
.hatch{fill:none;stroke-width:1.4}
.cross{fill:none;stroke-width:1.6}
.rule{stroke-width:0.8}
";

/// The colours of a scheme.
pub(in crate::render::svg) fn colours(scheme: &Scheme) -> String {
    let Scheme { ground, ink, faint, head, .. } = scheme;
    let mut rules = format!(
        ".liner,.head,.empty{{stroke:{ink}}}\n.crown,.rule{{stroke:{faint}}}\n.skin{{fill:{head}}}\n.on{{stroke:{head}}}\n.spread,.dot{{fill:{ink}}}\n\
         .foam{{stroke:{ink}}}\n.hatch{{stroke:{ink}}}\n.cross{{stroke:{ground}}}\n"
    );
    for ((_, class), colour) in BANDS.iter().zip(scheme.foam) {
        rules.push_str(&format!(".{class}{{fill:{colour}}}\n"));
    }
    rules
}

/// The patterns that tell the bands apart without a colour: dots where there is too little pressure, lines where there
/// is too much.
pub(super) fn patterns(key: &str) -> String {
    let pattern = |(band, class): (Band, &str)| {
        let (size, marks) = match band {
            Band::Loose => (
                6,
                "<circle class=\"dot\" cx=\"1.5\" cy=\"1.5\" r=\"0.9\"/><circle class=\"dot\" cx=\"4.5\" cy=\"4.5\" r=\"0.9\"/>",
            ),
            Band::Light => (9, "<circle class=\"dot\" cx=\"4.5\" cy=\"4.5\" r=\"0.8\"/>"),
            Band::Good => (8, ""),
            Band::Tight => (7, "<path class=\"hatch\" d=\"M-1 8L8 -1M-1 1L1 -1M6 8L8 6\"/>"),
            Band::HotSpot => (6, "<path class=\"cross\" d=\"M0 0L6 6M6 0L0 6\"/>"),
        };
        format!(
            "<pattern id=\"{}\" width=\"{size}\" height=\"{size}\" patternUnits=\"userSpaceOnUse\">\
             <rect class=\"{class}\" width=\"{size}\" height=\"{size}\"/>{marks}</pattern>\n",
            id(key, class)
        )
    };
    format!("<defs>\n{}</defs>\n", BANDS.into_iter().map(pattern).join(""))
}

/// A zone of the cut between liner and head; nothing where there is no pad.
pub(super) fn zone(section: &CrossSection, cut: &ZoneCut, key: &str, at: impl Fn([f64; 2], f64) -> [f64; 2]) -> String {
    let Some(squeeze) = cut.squeeze else {
        return format!("<g data-zone=\"{}\"><title>{}</title></g>\n", cut.zone.name(), escaped(&sentence(cut)));
    };
    let piece = |middle: f64| {
        let angles = (0..=STEPS)
            .map(|step| middle - PI / 4.0 + FREE + (PI / 2.0 - 2.0 * FREE) * f64::from(step) / f64::from(STEPS));
        let angles = angles.collect_vec();
        let outer = angles.iter().map(|angle| at(section.liner.point(*angle), section.liner_behind));
        let inner = angles.iter().rev().map(|angle| at(section.worn.point(*angle), section.worn_behind));
        closed(outer.chain(inner))
    };
    let middles: &[f64] = match cut.zone {
        Zone::Brow => &[PI / 2.0],
        Zone::Rear => &[-PI / 2.0],
        Zone::Sides | Zone::Crown | Zone::Cheeks => &[0.0, PI],
    };
    let path = middles.iter().map(|middle| piece(*middle)).join("");
    drawn(cut, &format!("<path class=\"foam\" {} d=\"{path}\"/>", fill(squeeze.band, key)))
}

/// Both cheek pads beside a face, px: as wide as the face and as what is between the liners; `[x, y]` is the middle of the
/// strip's upper edge.
pub(super) fn cheeks(cut: &ZoneCut, [face, between]: [f64; 2], [x, y]: [f64; 2], key: &str) -> String {
    let height = super::FACE_HEIGHT;
    let Some((squeeze, pad)) = cut.squeeze.zip(cut.pad) else { return drawn(cut, "") };
    let thick = ((between - face) / 2.0).clamp(0.0, super::SCALE * pad);
    let [left, right] = [x - between / 2.0, x + between / 2.0];
    let [y0, y1] = [y, y + height].map(number);
    let pads = [left, right - thick].map(|from| {
        let [from, to] = [from, from + thick].map(number);
        format!("M{from} {y0}H{to}V{y1}H{from}Z")
    });
    let ends = [left, right].map(|x| format!("M{} {y0}V{y1}", number(x))).concat();
    let [face_x, face_w, h] = [x - face / 2.0, face, height].map(number);
    format!(
        "<rect class=\"skin\" x=\"{face_x}\" y=\"{y0}\" width=\"{face_w}\" height=\"{h}\"/>\n{}\
         <path class=\"head\" d=\"M{face_x} {y0}V{y1}M{} {y0}V{y1}\"/>\n<path class=\"liner\" d=\"{ends}\"/>\n",
        drawn(cut, &format!("<path class=\"foam\" {} d=\"{}\"/>", fill(squeeze.band, key), pads.concat())),
        number(x + face / 2.0)
    )
}

/// What fills foam of a band.
pub(super) fn fill(band: Band, key: &str) -> String {
    let class = BANDS.iter().find(|(known, _)| *known == band).map_or("good", |(_, class)| class);
    format!("fill=\"url(#{})\"", id(key, class))
}

fn drawn(cut: &ZoneCut, shape: &str) -> String {
    format!("<g data-zone=\"{}\"><title>{}</title>{shape}</g>\n", cut.zone.name(), escaped(&sentence(cut)))
}

fn id(key: &str, class: &str) -> String {
    format!("{key}-{class}")
}
