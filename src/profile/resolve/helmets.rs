//! A family of helmets.

use super::Checker;
use crate::diag::{Diagnostic, SourceId};
use crate::head::Measure;
use crate::profile::bounds::{
    BREADTH_INSIDE, CENTRE_SD_MM, INDEX_SD, LABEL_CM, LENGTH_INSIDE, MASS_G, MOST_PADS, NOISE_DB, PAD_MM, SHAPE_INDEX,
    SWAP_MINUTES, of_head,
};
use crate::profile::raw::{
    HelmetFile, PadsTrade, RawAttributes, RawChinRoom, RawInterior, RawKind, RawModel, RawOrigin, RawPack, RawPad,
    RawShell, RawSize, RawSwapMinutes, RawZone,
};
use crate::profile::yaml;
use crate::profile::{
    Attributes, ByZone, ChinRoom, Interior, Kind, MeasuredInterior, Model, Origin, Pack, Pad, Place, Shell, Size,
    Supply, Trade, Zone,
};
use crate::unit::Id;

/// Reads a file of helmets: its models, each with the place of its id.
pub fn helmets(source: SourceId, text: &str) -> Result<Vec<(Model, Place)>, Vec<Diagnostic>> {
    let (file, places) = yaml::read::<HelmetFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
    let family = Family {
        maker: check.text("maker", file.maker),
        family: check.text("family", file.family),
        trade: match file.pads_trade {
            PadsTrade::Exchange => Trade::Exchange,
            PadsTrade::Sale => Trade::Sale,
        },
        swap_minutes: swap_minutes(&mut check, &file.swap_minutes),
    };
    let mut models = Vec::new();
    for (at, raw) in file.models.into_iter().enumerate() {
        let path = format!("models[{at}]");
        let place = check.place(format!("{path}.id"));
        models.push((model(&mut check, &path, raw, &family), place));
    }
    check.finish(models)
}

/// What all models of a file share.
struct Family {
    maker: String,
    family: String,
    trade: Trade,
    swap_minutes: ByZone<f64>,
}

fn swap_minutes(check: &mut Checker<'_>, raw: &RawSwapMinutes) -> ByZone<f64> {
    ByZone::from_fn(|zone| {
        let path = format!("swap_minutes.{}", zone.name());
        raw.of(zone).map_or(0.0, |number| check.number(&path, number, SWAP_MINUTES, "the time for a swap"))
    })
}

fn model(check: &mut Checker<'_>, path: &str, raw: RawModel, family: &Family) -> Model {
    let id = check.id(&format!("{path}.id"), raw.id);
    let name = check.text(&format!("{path}.name"), raw.name);
    let price = check.money(&format!("{path}.price"), raw.price);
    let interior = interior(check, &format!("{path}.interior"), &raw.interior);
    let attributes = attributes(check, &format!("{path}.attributes"), raw.attributes);
    let has_shells = !raw.shells.is_empty();
    if !has_shells {
        let help = "write at least one shell with at least one size";
        check.error("profile-empty", &format!("{path}.shells"), "this model has no shell", "nothing to try on", help);
    }
    let mut labels = Vec::new();
    let mut shell_names = Vec::new();
    let mut shells = Vec::new();
    for (at, raw) in raw.shells.into_iter().enumerate() {
        let path = format!("{path}.shells[{at}]");
        shell_names.push((raw.id.clone(), format!("{path}.id")));
        labels.extend(raw.sizes.iter().enumerate().map(|(k, s)| (s.label.clone(), format!("{path}.sizes[{k}].label"))));
        shells.push(shell(check, &path, raw));
    }
    check.unique("shell", &shell_names);
    check.unique("size", &labels);
    Model {
        id,
        name,
        maker: family.maker.clone(),
        family: family.family.clone(),
        kind: kind(raw.kind),
        price,
        interior,
        attributes,
        swap_minutes: family.swap_minutes,
        trade: family.trade,
        shells,
    }
}

fn interior(check: &mut Checker<'_>, path: &str, raw: &RawInterior) -> Interior {
    let shape_index = check.number(&format!("{path}.shape_index"), raw.shape_index, SHAPE_INDEX, "the shape index");
    let sd = raw.sd.map(|sd| check.number(&format!("{path}.sd"), sd, INDEX_SD, "the sd of the shape index"));
    let centre_sd = raw
        .centre_sd_mm
        .map(|sd| check.number(&format!("{path}.centre_sd_mm"), sd, CENTRE_SD_MM, "the sd of the centre"));
    let origin = match raw.origin {
        RawOrigin::ByEye => Origin::ByEye,
        RawOrigin::Measured => Origin::Measured,
        RawOrigin::Learned => Origin::Learned,
    };
    Interior { shape_index, origin, sd, centre_sd }
}

fn attributes(check: &mut Checker<'_>, path: &str, raw: RawAttributes) -> Attributes {
    let approvals = raw.approvals.into_iter().enumerate();
    Attributes {
        mass_g: check.number(&format!("{path}.mass_g"), raw.mass_g, MASS_G, "the mass in g"),
        noise_db: raw.noise_db.map(|db| check.number(&format!("{path}.noise_db"), db, NOISE_DB, "the noise in dB(A)")),
        spectacle_channel: raw.spectacle_channel,
        intercom_ready: raw.intercom_ready,
        chin_room: raw.chin_room.map(|room| match room {
            RawChinRoom::Small => ChinRoom::Small,
            RawChinRoom::Medium => ChinRoom::Medium,
            RawChinRoom::Large => ChinRoom::Large,
        }),
        approvals: approvals.map(|(k, mark)| check.text(&format!("{path}.approvals[{k}]"), mark)).collect(),
    }
}

fn shell(check: &mut Checker<'_>, path: &str, raw: RawShell) -> Shell {
    let id = check.id(&format!("{path}.id"), raw.id);
    if raw.sizes.is_empty() {
        let help = "write at least one size";
        check.error("profile-empty", &format!("{path}.sizes"), "this shell has no size", "nothing to try on", help);
    }
    let mut sizes = Vec::new();
    for (at, raw) in raw.sizes.into_iter().enumerate() {
        sizes.push(size(check, &format!("{path}.sizes[{at}]"), &raw));
    }
    let pack_names: Vec<_> =
        raw.packs.iter().enumerate().map(|(k, pack)| (pack.id.clone(), format!("{path}.packs[{k}].id"))).collect();
    check.unique("pack", &pack_names);
    let mut packs = Vec::new();
    for (at, raw) in raw.packs.into_iter().enumerate() {
        packs.push(pack(check, &format!("{path}.packs[{at}]"), raw));
    }
    let mut pads = Vec::new();
    for (at, raw) in raw.pads.into_iter().enumerate() {
        pads.push(pad(check, &format!("{path}.pads[{at}]"), raw, &sizes, &pack_names));
    }
    too_many_pads(check, path, &pads);
    Shell { id, sizes, pads, packs }
}

fn too_many_pads(check: &mut Checker<'_>, path: &str, pads: &[Pad]) {
    for zone in Zone::ALL {
        let count = pads.iter().filter(|pad| pad.zone == zone).count();
        if count > MOST_PADS {
            let message =
                format!("this shell offers {count} pads for the {}, but at most {MOST_PADS} are read", zone.name());
            let help = "leave out thicknesses that lie between others";
            check.error("profile-pads", &format!("{path}.pads"), message, "too many for one zone", help);
        }
    }
}

fn size(check: &mut Checker<'_>, path: &str, raw: &RawSize) -> Size {
    let label = check.id(&format!("{path}.label"), raw.label.clone());
    let range = format!("{path}.circumference_cm");
    let [from, to] =
        [0, 1].map(|k| check.number(&format!("{range}[{k}]"), raw.circumference_cm[k], LABEL_CM, "the labelled cm"));
    if from > to {
        let help = "write the smaller number first";
        check.error("profile-order", &range, "this range runs backwards", "from the larger to the smaller", help);
    }
    let standard = ByZone::from_fn(|zone| {
        let path = format!("{path}.standard_pads_mm.{}", zone.name());
        raw.standard_pads_mm.of(zone).map(|mm| check.number(&path, mm, PAD_MM, "the thickness in mm"))
    });
    for zone in [Zone::Brow, Zone::Rear, Zone::Sides] {
        if standard.get(zone).is_none() {
            let message = format!("the standard pad of the {} is missing", zone.name());
            let help = "every helmet has brow, rear and side pads: write their thickness in mm";
            check.error("profile-pads", &format!("{path}.standard_pads_mm"), message, "a zone is missing", help);
        }
    }
    let measured = raw.measured_interior_mm.as_ref().map(|raw| MeasuredInterior {
        length: check.number(&format!("{path}.measured_interior_mm.length"), raw.length, LENGTH_INSIDE, "the length"),
        breadth: check.number(
            &format!("{path}.measured_interior_mm.breadth"),
            raw.breadth,
            BREADTH_INSIDE,
            "the breadth",
        ),
    });
    let face_width = raw
        .face_width_mm
        .map(|mm| check.number(&format!("{path}.face_width_mm"), mm, of_head(Measure::FaceWidth), "the face width"));
    Size { label, circumference: (from * 10.0, to * 10.0), standard, measured, face_width }
}

fn pack(check: &mut Checker<'_>, path: &str, raw: RawPack) -> Pack {
    Pack { id: check.id(&format!("{path}.id"), raw.id), price: check.money(&format!("{path}.price"), raw.price) }
}

fn pad(check: &mut Checker<'_>, path: &str, raw: RawPad, sizes: &[Size], packs: &[(String, String)]) -> Pad {
    let thickness = check.number(&format!("{path}.thickness_mm"), raw.thickness_mm, PAD_MM, "the thickness in mm");
    let supply = match (raw.price, &raw.pack) {
        (Some(price), None) => Supply::Single(check.money(&format!("{path}.price"), price)),
        (None, Some(pack)) => match packs.iter().position(|(name, _)| name == pack) {
            Some(at) => Supply::Pack(at),
            None => {
                let message = format!("this shell has no pack `{pack}`", pack = pack.escape_debug());
                let help = "list the pack under `packs` of the same shell: shells don't mix";
                check.error("profile-unknown-pack", &format!("{path}.pack"), message, "not a pack of this shell", help);
                Supply::Pack(0)
            }
        },
        _ => {
            let help = "write `price:` for a pad sold singly, or `pack:` for one sold only in a pack";
            check.error("profile-supply", path, "a pad has either a price or a pack", "how is it sold?", help);
            Supply::Pack(0)
        }
    };
    let only = raw.sizes.map(|labels| only_sizes(check, path, labels, sizes));
    Pad { zone: zone(raw.zone), thickness, supply, sizes: only }
}

fn only_sizes(check: &mut Checker<'_>, path: &str, labels: Vec<String>, sizes: &[Size]) -> Vec<Id> {
    let mut only = Vec::new();
    for (at, label) in labels.into_iter().enumerate() {
        let path = format!("{path}.sizes[{at}]");
        let label = check.id(&path, label);
        if !sizes.iter().any(|size| size.label == label) {
            let help = "a pad can name only sizes of its own shell";
            check.error("profile-unknown-size", &path, format!("this shell has no size `{label}`"), "not here", help);
        }
        only.push(label);
    }
    only
}

fn zone(raw: RawZone) -> Zone {
    match raw {
        RawZone::Brow => Zone::Brow,
        RawZone::Rear => Zone::Rear,
        RawZone::Sides => Zone::Sides,
        RawZone::Crown => Zone::Crown,
        RawZone::Cheeks => Zone::Cheeks,
    }
}

fn kind(raw: RawKind) -> Kind {
    match raw {
        RawKind::FullFace => Kind::FullFace,
        RawKind::FlipFront => Kind::FlipFront,
        RawKind::OpenFace => Kind::OpenFace,
        RawKind::Adventure => Kind::Adventure,
        RawKind::OffRoad => Kind::OffRoad,
    }
}
