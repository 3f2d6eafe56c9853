//! A head in a helmet, cut through around the brow: outlines and what each zone of the foam feels.

use super::interior::foam;
use super::{Band, Candidate, PadSet, SetVerdict, verdict};
use crate::head::{Contour, Dimensions, Moments};
use crate::profile::{Axis, FitRules, Zone};

/// A cut through a head and a helmet, seen from above. Lengths in mm; the head's middle is the origin.
#[derive(Debug, Clone, PartialEq)]
pub struct CrossSection {
    /// The head: through its length, breadth and circumference.
    pub head: Contour,
    /// Standard deviations of its length, breadth and face width.
    pub sd: [f64; 3],
    /// The shell's liner.
    pub liner: Contour,
    /// How far the liner's middle lies behind the head's: brow and rear pads of other thickness push the head.
    pub liner_behind: f64,
    /// The pads' inner side with nobody in the helmet.
    pub empty: Contour,
    /// How far its middle lies behind the head's.
    pub empty_behind: f64,
    /// The pads' inner side with the head in it: where they end, or where the head presses them.
    pub worn: Contour,
    /// How far its middle lies behind the head's.
    pub worn_behind: f64,
    /// Face width, and the distance between the liners beside it.
    pub face: [f64; 2],
    /// Every zone, in the order of [`Zone::ALL`].
    pub zones: [ZoneCut; 5],
}

/// A zone of the foam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneCut {
    /// Which.
    pub zone: Zone,
    /// Its pad, mm; `None` where the helmet has none.
    pub pad: Option<f64>,
    /// What the head does to it; `None` without a pad, and at the crown, where no measure of the head tells.
    pub squeeze: Option<Squeeze>,
}

/// What a head does to the foam of an axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Squeeze {
    /// Share of the foam's thickness that is pressed away; below 0 a gap, from 1 on the head doesn't go in.
    pub strain: f64,
    /// How that feels.
    pub band: Band,
    /// How much smaller (above 0: too tight) or larger (below 0: too loose) the head would have to be to be good on this
    /// axis, mm; 0 where it is.
    pub beyond: f64,
}

/// Cuts the middle one of some heads in a candidate, with the pads that suit it best; these, too.
#[must_use]
pub fn at_best(candidate: &Candidate<'_>, heads: &Moments, rules: &FitRules) -> (CrossSection, PadSet) {
    let verdict = verdict(candidate, rules.outline.effective(middle(heads)), rules);
    let best = verdict.best();
    (cross_section(candidate, best, heads, rules), best.pads)
}

/// Cuts the middle one of some heads in a candidate with some pads, the profile taken at its word. `set` is what the same head
/// does to the pads.
#[must_use]
pub fn cross_section(candidate: &Candidate<'_>, set: &SetVerdict, heads: &Moments, rules: &FitRules) -> CrossSection {
    let outline = rules.outline;
    let head = middle(heads);
    let taken = outline.effective(head);
    let [length, breadth, face] = candidate.cavity(rules);
    // Nobody measured the outline of a liner: it is as full as heads are.
    let liner = Contour::through(length, breadth, outline.circumference(length, breadth));
    let [along, across] = [Axis::Length, Axis::Breadth].map(|axis| foam(&set.pads, axis));
    let pad = |zone| set.pads.get(zone).unwrap_or(0.0);
    // The room that is left shares itself out as the pads do.
    let brow = if along > 0.0 { pad(Zone::Brow) / along } else { 0.5 };
    let behind = |room: f64| room * (0.5 - brow);
    let left = length - taken.length;
    // Foam reaches as far as it is thick, or to the head.
    let [filled, beside] = [left.clamp(0.0, along), (breadth - taken.breadth).clamp(0.0, across)];
    let worn_behind = behind(left) - behind(filled);
    let [_, sd_length, sd_breadth, sd_face, _] = heads.sd;
    CrossSection {
        head: Contour::through(head.length, head.breadth, head.circumference),
        sd: [sd_length, sd_breadth, sd_face],
        liner,
        liner_behind: behind(left),
        empty: liner.sized(length - along, breadth - across),
        empty_behind: behind(left) - behind(along),
        worn: liner.sized(length - filled, breadth - beside),
        worn_behind,
        face: [head.face_width, face],
        zones: zone_cuts(set, rules),
    }
}

/// What a head does to every zone of a set of pads, in the order of [`Zone::ALL`].
#[must_use]
pub fn zone_cuts(set: &SetVerdict, rules: &FitRules) -> [ZoneCut; 5] {
    Zone::ALL.map(|zone| zone_cut(zone, set, rules))
}

/// A head with the mean of each measure.
fn middle(heads: &Moments) -> Dimensions {
    let [circumference, length, breadth, face_width, _] = heads.mean;
    Dimensions { circumference, length, breadth, face_width }
}

fn zone_cut(zone: Zone, set: &SetVerdict, rules: &FitRules) -> ZoneCut {
    let pad = *set.pads.get(zone);
    let squeeze = |axis: Axis| {
        let at = Axis::ALL.iter().position(|known| *known == axis)?;
        let (strain, band) = (set.strain[at]?, set.band[at]?);
        Some(Squeeze { strain, band, beyond: rules.bands(axis).excess(strain) * foam(&set.pads, axis) })
    };
    ZoneCut { zone, pad, squeeze: pad.and_then(|_| squeeze(zone.axis()?)) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Catalogue, Origin, load};
    use crate::diag::Sources;
    use crate::fit::judged;
    use itertools::Itertools;

    fn demo() -> Catalogue {
        load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is sound")
    }

    /// Nothing but this head.
    fn heads(head: Dimensions) -> Moments {
        Moments::of([(head, 1.0)])
    }

    /// Every candidate of the demo range with its nominal head moved by so many mm.
    fn cuts(catalogue: &Catalogue, moved: [f64; 3]) -> Vec<(CrossSection, [f64; 3])> {
        let rules = &catalogue.shop.fit;
        let candidates = Candidate::of_models(catalogue.models(), catalogue);
        let cut = |candidate: &Candidate<'_>| {
            let [length, breadth, face_width] = candidate.nominal.dimensions(rules.outline);
            let (length, breadth, face_width) = (length + moved[0], breadth + moved[1], face_width + moved[2]);
            let circumference = rules.outline.circumference(length, breadth);
            let head = Dimensions { circumference, length, breadth, face_width };
            let set = judged(candidate, candidate.size.standard, rules.outline.effective(head), rules);
            let foams = Axis::ALL.map(|axis| foam(&set.pads, axis));
            (cross_section(candidate, &set, &heads(head), rules), foams)
        };
        candidates.iter().map(cut).collect_vec()
    }

    #[test]
    fn a_head_that_a_size_is_made_for_presses_the_ideal_share_away() {
        let catalogue = demo();
        for (cut, [along, across, _]) in cuts(&catalogue, [0.0; 3]) {
            let ideal = catalogue.shop.fit.ideal;
            for squeeze in cut.zones.iter().filter_map(|zone| zone.squeeze) {
                assert!((squeeze.strain - ideal).abs() < 1e-9 && squeeze.beyond.abs() < 1e-12, "{cut:?}");
            }
            // So the empty inside is smaller than the head by that share of the foam, and the pads end at the head.
            assert!((cut.head.length - cut.empty.length - ideal * along).abs() < 1e-6, "{cut:?}");
            assert!((cut.head.breadth - cut.empty.breadth - ideal * across).abs() < 1e-6, "{cut:?}");
            assert!((cut.worn.length - cut.head.length).abs() < 1e-6 && cut.worn_behind.abs() < 1e-9, "{cut:?}");
        }
    }

    /// A head with gaps on all sides touches nothing, and one that is far too large fills the liner.
    #[test]
    fn foam_is_never_longer_than_it_is_thick_nor_shorter_than_nothing() {
        let catalogue = demo();
        for (cut, [along, across, _]) in cuts(&catalogue, [-60.0, -60.0, -60.0]) {
            assert!((cut.worn.length - cut.empty.length).abs() < 1e-9, "{along} {cut:?}");
            assert!(
                (cut.worn_behind - cut.empty_behind).abs() < 1e-9 && cut.worn.breadth > cut.head.breadth,
                "{across}"
            );
            assert!(cut.zones.iter().filter_map(|zone| zone.squeeze).all(|squeeze| squeeze.beyond < -20.0));
        }
        for (cut, _) in cuts(&catalogue, [90.0, 90.0, 90.0]) {
            assert!((cut.worn.length - cut.liner.length).abs() < 1e-9 && cut.head.length > cut.liner.length);
            assert!(cut.zones.iter().filter_map(|zone| zone.squeeze).all(|squeeze| squeeze.beyond > 20.0));
        }
    }

    /// What is said in mm is what makes it good: a head by so much smaller or larger sits at the edge of the band.
    #[test]
    fn millimetres_beyond_are_those_that_it_takes() {
        let catalogue = demo();
        let rules = &catalogue.shop.fit;
        let head = Dimensions { circumference: 600.0, length: 214.0, breadth: 149.0, face_width: 131.0 };
        let model = catalogue.models().first().expect("a model");
        let mut seen = 0;
        for candidate in Candidate::of_models([model], &catalogue) {
            let best = verdict(&candidate, rules.outline.effective(head), rules).best().clone();
            let cut = cross_section(&candidate, &best, &heads(head), rules);
            for (zone, squeeze) in cut.zones.iter().filter_map(|cut| Some((cut.zone, cut.squeeze?))) {
                let axis = zone.axis().expect("squeezed");
                let strain = squeeze.strain - squeeze.beyond / foam(&best.pads, axis);
                assert!(rules.bands(axis).excess(strain).abs() < 1e-9, "{squeeze:?}");
                seen += usize::from(squeeze.beyond.abs() > 0.5);
            }
        }
        assert!(seen > 3, "{seen}");
    }

    /// Brow and rear pads press alike: the head moves to where they do.
    #[test]
    fn brow_and_rear_are_pressed_alike() {
        let catalogue = demo();
        for (cut, _) in cuts(&catalogue, [3.0, 0.0, 0.0]) {
            let pad = |zone: Zone| cut.zones[zone as usize].pad;
            let (Some(brow), Some(rear)) = (pad(Zone::Brow), pad(Zone::Rear)) else { continue };
            let front = cut.liner.length / 2.0 - cut.liner_behind - cut.head.length / 2.0;
            let back = cut.liner.length / 2.0 + cut.liner_behind - cut.head.length / 2.0;
            assert!((front / brow - back / rear).abs() < 1e-6, "{front} of {brow}, {back} of {rear}");
        }
    }
}
