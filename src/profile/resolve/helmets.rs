//! A family of helmets.

use super::{Checker, quoted};
use crate::diag::{Diagnostic, SourceId};
use crate::profile::raw::{
    HelmetFile, PadsTrade, RawAttributes, RawChinRoom, RawInterior, RawKind, RawModel, RawOrigin, RawPack, RawPad,
    RawShell, RawSize, RawZone, ZoneNumbers,
};
use crate::profile::yaml;
use crate::profile::{
    Attributes, ByZone, ChinRoom, Interior, Kind, MeasuredInterior, Model, Origin, Pack, Pad, Place, Shell, Size,
    Supply, Trade, Zone,
};
use crate::unit::Id;

/// Reads a file of helmets: its models, each with the place of its id.
pub fn helmets(source: SourceId, text: &str) -> Result<Vec<(Model, Place)>, Vec<Diagnostic>> {
    let (mut file, places) = yaml::read::<HelmetFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
    check.bounded("models", &mut file.models, MOST_MODELS, "models");
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

fn swap_minutes(check: &mut Checker<'_>, raw: &ZoneNumbers) -> ByZone<f64> {
    ByZone::from_fn(|zone| {
        let path = format!("swap_minutes.{}", zone.name());
        zone_number(raw, zone).map_or(0.0, |number| check.number(&path, number, 0.0..=60.0, "the time for a swap"))
    })
}

/// How long lists may be. A family has about ten models, a model one to four shells, a shell about three sizes.
const MOST_MODELS: usize = 200;
const MOST_SHELLS: usize = 20;
const MOST_SIZES: usize = 40;
const MOST_PACKS: usize = 100;
const MOST_APPROVALS: usize = 40;

fn model(check: &mut Checker<'_>, path: &str, mut raw: RawModel, family: &Family) -> Model {
    check.bounded(&format!("{path}.shells"), &mut raw.shells, MOST_SHELLS, "shells");
    for (at, shell) in raw.shells.iter_mut().enumerate() {
        bound_lists(check, &format!("{path}.shells[{at}]"), shell);
    }
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

fn bound_lists(check: &mut Checker<'_>, path: &str, shell: &mut RawShell) {
    check.bounded(&format!("{path}.sizes"), &mut shell.sizes, MOST_SIZES, "sizes");
    check.bounded(&format!("{path}.packs"), &mut shell.packs, MOST_PACKS, "packs");
    // More than can be looked at in one zone are refused further on.
    check.bounded(&format!("{path}.pads"), &mut shell.pads, (MOST_PADS + 1) * Zone::ALL.len(), "pads");
    for (at, pad) in shell.pads.iter_mut().enumerate() {
        if let Some(labels) = &mut pad.sizes {
            check.bounded(&format!("{path}.pads[{at}].sizes"), labels, MOST_SIZES, "sizes");
        }
    }
}

fn interior(check: &mut Checker<'_>, path: &str, raw: &RawInterior) -> Interior {
    let shape_index = check.number(&format!("{path}.shape_index"), raw.shape_index, 65.0..=95.0, "the shape index");
    let sd = raw.sd.map(|sd| check.number(&format!("{path}.sd"), sd, 0.0..=5.0, "the sd of the shape index"));
    let centre_sd = raw
        .centre_sd_mm
        .map(|sd| check.number(&format!("{path}.centre_sd_mm"), sd, 0.0..=15.0, "the sd of the centre"));
    let origin = match raw.origin {
        RawOrigin::ByEye => Origin::ByEye,
        RawOrigin::Measured => Origin::Measured,
        RawOrigin::Learned => Origin::Learned,
    };
    Interior { shape_index, origin, sd, centre_sd }
}

fn attributes(check: &mut Checker<'_>, path: &str, mut raw: RawAttributes) -> Attributes {
    check.bounded(&format!("{path}.approvals"), &mut raw.approvals, MOST_APPROVALS, "approvals");
    let approvals = raw.approvals.into_iter().enumerate();
    Attributes {
        mass_g: check.number(&format!("{path}.mass_g"), raw.mass_g, 400.0..=3000.0, "the mass in g"),
        noise_db: raw
            .noise_db
            .map(|db| check.number(&format!("{path}.noise_db"), db, 60.0..=130.0, "the noise in dB(A)")),
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

/// Every combination of brow and rear pads is looked at: with seven of each that is 64 at most.
const MOST_PADS: usize = 7;

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
        [0, 1].map(|k| check.number(&format!("{range}[{k}]"), raw.circumference_cm[k], 44.0..=70.0, "the labelled cm"));
    if from > to {
        let help = "write the smaller number first";
        check.error("profile-order", &range, "this range runs backwards", "from the larger to the smaller", help);
    }
    let standard = ByZone::from_fn(|zone| {
        let path = format!("{path}.standard_pads_mm.{}", zone.name());
        zone_number(&raw.standard_pads_mm, zone).map(|mm| check.number(&path, mm, 1.0..=60.0, "the thickness in mm"))
    });
    for zone in [Zone::Brow, Zone::Rear, Zone::Sides] {
        if standard.get(zone).is_none() {
            let message = format!("the standard pad of the {} is missing", zone.name());
            let help = "every helmet has brow, rear and side pads: write their thickness in mm";
            check.error("profile-pads", &format!("{path}.standard_pads_mm"), message, "a zone is missing", help);
        }
    }
    let measured = raw.measured_interior_mm.as_ref().map(|raw| MeasuredInterior {
        length: check.number(&format!("{path}.measured_interior_mm.length"), raw.length, 120.0..=260.0, "the length"),
        breadth: check.number(
            &format!("{path}.measured_interior_mm.breadth"),
            raw.breadth,
            90.0..=220.0,
            "the breadth",
        ),
    });
    let face_width =
        raw.face_width_mm.map(|mm| check.number(&format!("{path}.face_width_mm"), mm, 90.0..=190.0, "the face width"));
    Size { label, circumference: (from * 10.0, to * 10.0), standard, measured, face_width }
}

fn pack(check: &mut Checker<'_>, path: &str, raw: RawPack) -> Pack {
    Pack { id: check.id(&format!("{path}.id"), raw.id), price: check.money(&format!("{path}.price"), raw.price) }
}

fn pad(check: &mut Checker<'_>, path: &str, raw: RawPad, sizes: &[Size], packs: &[(String, String)]) -> Pad {
    let thickness = check.number(&format!("{path}.thickness_mm"), raw.thickness_mm, 1.0..=60.0, "the thickness in mm");
    let supply = match (raw.price, &raw.pack) {
        (Some(price), None) => Supply::Single(check.money(&format!("{path}.price"), price)),
        (None, Some(pack)) => match packs.iter().position(|(name, _)| name == pack) {
            Some(at) => Supply::Pack(at),
            None => {
                let message = format!("this shell has no pack `{}`", quoted(pack));
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

fn zone_number(numbers: &ZoneNumbers, zone: Zone) -> Option<crate::profile::raw::Number> {
    match zone {
        Zone::Brow => numbers.brow,
        Zone::Rear => numbers.rear,
        Zone::Sides => numbers.sides,
        Zone::Crown => numbers.crown,
        Zone::Cheeks => numbers.cheeks,
    }
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
