//! A family of helmets.

use super::{Checker, Read, currency, quoted, resolve};
use crate::diag::{Code, SourceId};
use crate::head::Measure;
use crate::profile::bounds::{
    BREADTH_INSIDE, CENTRE_MM, CENTRE_SD_MM, INDEX_SD, LABEL_CM, LENGTH_INSIDE, MASS_G, MOST_PADS, NOISE_DB, PAD_MM,
    SHAPE_INDEX, SHARE, SWAP_MINUTES, of_head,
};
use crate::profile::raw::{
    HelmetFile, Number, PadsTrade, RawAttributes, RawChinRoom, RawInterior, RawKind, RawModel, RawOrigin, RawPack,
    RawPad, RawShell, RawSize, RawSwapMinutes, RawZone,
};
use crate::profile::yaml;
use crate::profile::{
    Attributes, ByZone, ChinRoom, Interior, Kind, MeasuredInterior, Model, Origin, Pack, Pad, Placed, Shell, Size,
    Supply, Trade, Zone,
};
use crate::unit::{Currency, Id};

/// The models of one file, and what they share.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// The currency of the prices, where the file says one.
    pub currency: Option<Placed<Currency>>,
    /// The models in the order of the file.
    pub models: Vec<Placed<Model>>,
}

/// Reads a file of helmets.
pub fn helmets(source: SourceId, text: &str) -> Read<Family> {
    let document = yaml::read::<HelmetFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(family(check, file)))
}

fn family(check: &mut Checker<'_>, mut file: HelmetFile) -> Family {
    check.bounded("models", &mut file.models, MOST_MODELS, "models");
    let shared = Shared {
        maker: check.text("maker", file.maker),
        family: check.text("family", file.family),
        trade: trade(check, file.pads_trade, file.pads_credit),
        swap_minutes: swap_minutes(check, &file.swap_minutes),
    };
    let currency = file.currency.map(|text| currency(check, &text)).map(|currency| check.placed(currency, "currency"));
    let mut models = Vec::new();
    for (at, raw) in file.models.into_iter().enumerate() {
        let path = format!("models[{at}]");
        let model = model(check, &path, raw, &shared);
        models.push(check.placed(model, path));
    }
    Family { currency, models }
}

/// What all models of a file share.
struct Shared {
    maker: String,
    family: String,
    trade: Trade,
    swap_minutes: ByZone<f64>,
}

fn trade(check: &mut Checker<'_>, trade: PadsTrade, credit: Option<Number>) -> Trade {
    let share = credit.map(|share| check.number("pads_credit", share, SHARE, "the share"));
    if trade == PadsTrade::Sale {
        if credit.is_some() {
            let help = "write `pads_trade: exchange`, or take the credit out";
            let message = "a maker who takes no pads back credits nothing for them";
            check.error("credit-without-exchange", "pads_credit", message, "never credited", help);
        }
        return Trade::Sale;
    }
    Trade::Exchange { credit: share.unwrap_or(0.0) }
}

fn swap_minutes(check: &mut Checker<'_>, raw: &RawSwapMinutes) -> ByZone<f64> {
    ByZone::from_fn(|zone| {
        let path = format!("swap_minutes.{}", zone.name());
        raw.of(zone).map_or(0.0, |number| check.number(&path, number, SWAP_MINUTES, "the time for a swap"))
    })
}

/// How long lists may be. A family has about ten models, a model one to four shells, a shell about three sizes.
const MOST_MODELS: usize = 200;
const MOST_SHELLS: usize = 20;
const MOST_SIZES: usize = 40;
const MOST_PACKS: usize = 100;
const MOST_APPROVALS: usize = 40;

fn model(check: &mut Checker<'_>, path: &str, mut raw: RawModel, family: &Shared) -> Model {
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
    let names = Names::of(path, &raw.shells);
    check.unique("shell", &names.shells);
    check.unique("size", &names.sizes);
    let mut shells = Vec::new();
    for (at, raw) in raw.shells.into_iter().enumerate() {
        shells.push(shell(check, &format!("{path}.shells[{at}]"), raw, &names));
    }
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

/// The names that the shells of a model define, each with its path.
#[derive(Default)]
struct Names {
    shells: Vec<(String, String)>,
    sizes: Vec<(String, String)>,
    packs: Vec<(String, String)>,
}

impl Names {
    fn of(path: &str, shells: &[RawShell]) -> Self {
        let mut names = Self::default();
        for (at, shell) in shells.iter().enumerate() {
            let path = format!("{path}.shells[{at}]");
            names.shells.push((shell.id.clone(), format!("{path}.id")));
            let sizes = shell.sizes.iter().enumerate();
            names.sizes.extend(sizes.map(|(k, size)| (size.label.clone(), format!("{path}.sizes[{k}].label"))));
            let packs = shell.packs.iter().enumerate();
            names.packs.extend(packs.map(|(k, pack)| (pack.id.clone(), format!("{path}.packs[{k}].id"))));
        }
        names
    }

    /// The names of one shell among these.
    fn within(names: &[(String, String)], shell: &str) -> Vec<(String, String)> {
        names.iter().filter(|(_, path)| path.starts_with(&format!("{shell}."))).cloned().collect()
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

fn attributes(check: &mut Checker<'_>, path: &str, mut raw: RawAttributes) -> Attributes {
    check.bounded(&format!("{path}.approvals"), &mut raw.approvals, MOST_APPROVALS, "approvals");
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

fn shell(check: &mut Checker<'_>, path: &str, raw: RawShell, names: &Names) -> Shell {
    let id = check.id(&format!("{path}.id"), raw.id);
    if raw.sizes.is_empty() {
        let help = "write at least one size";
        check.error("profile-empty", &format!("{path}.sizes"), "this shell has no size", "nothing to try on", help);
    }
    let centre = raw.centre_mm.map(|mm| check.number(&format!("{path}.centre_mm"), mm, CENTRE_MM, "the centre in mm"));
    let centre_sd = raw
        .centre_sd_mm
        .map(|sd| check.number(&format!("{path}.centre_sd_mm"), sd, CENTRE_SD_MM, "the sd of the centre"));
    let mut sizes = Vec::new();
    for (at, raw) in raw.sizes.into_iter().enumerate() {
        sizes.push(size(check, &format!("{path}.sizes[{at}]"), &raw, centre.unwrap_or(0.0)));
    }
    let own_packs = Names::within(&names.packs, path);
    check.unique("pack", &own_packs);
    let mut packs = Vec::new();
    for (at, raw) in raw.packs.into_iter().enumerate() {
        packs.push(pack(check, &format!("{path}.packs[{at}]"), raw));
    }
    let mut pads = Vec::new();
    for (at, raw) in raw.pads.into_iter().enumerate() {
        pads.push(pad(check, &format!("{path}.pads[{at}]"), raw, (&sizes, &own_packs), names));
    }
    too_many_pads(check, path, &pads);
    Shell { id, sizes, pads, packs, centre_sd }
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

fn size(check: &mut Checker<'_>, path: &str, raw: &RawSize, runs_larger: f64) -> Size {
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
    Size { label, circumference: (from * 10.0, to * 10.0), standard, measured, face_width, runs_larger }
}

fn pack(check: &mut Checker<'_>, path: &str, raw: RawPack) -> Pack {
    Pack { id: check.id(&format!("{path}.id"), raw.id), price: check.money(&format!("{path}.price"), raw.price) }
}

fn pad(
    check: &mut Checker<'_>,
    path: &str,
    raw: RawPad,
    (sizes, packs): (&[Size], &[(String, String)]),
    names: &Names,
) -> Pad {
    let thickness = check.number(&format!("{path}.thickness_mm"), raw.thickness_mm, PAD_MM, "the thickness in mm");
    let supply = match (raw.price, &raw.pack) {
        (Some(price), None) => Supply::Single(check.money(&format!("{path}.price"), price)),
        (None, Some(pack)) => Supply::Pack(pack_number(check, &format!("{path}.pack"), pack, packs, names)),
        _ => {
            let help = "write `price:` for a pad sold singly, or `pack:` for one sold only in a pack";
            check.error("profile-supply", path, "a pad has either a price or a pack", "how is it sold?", help);
            Supply::Pack(0)
        }
    };
    let only = raw.sizes.map(|labels| only_sizes(check, path, labels, sizes, names));
    Pad { zone: zone(raw.zone), thickness, supply, sizes: only }
}

fn pack_number(check: &mut Checker<'_>, path: &str, pack: &str, packs: &[(String, String)], names: &Names) -> usize {
    if let Some(at) = packs.iter().position(|(name, _)| name == pack) {
        return at;
    }
    let shown = quoted(pack);
    if let Some((_, there)) = names.packs.iter().find(|(name, _)| name == pack) {
        let help = "a pack holds the pads of one shell: list it under `packs` of this shell, too, if it is sold for it";
        let message = format!("the pack `{shown}` is one of another shell");
        check.foreign(Code("pack-of-another-shell"), path, there, (&message, help));
    } else {
        let message = format!("this shell has no pack `{shown}`");
        let help = "list the pack under `packs` of the same shell: shells don't mix";
        check.error("profile-unknown-pack", path, message, "not a pack of this shell", help);
    }
    0
}

fn only_sizes(check: &mut Checker<'_>, path: &str, labels: Vec<String>, sizes: &[Size], names: &Names) -> Vec<Id> {
    let listed: Vec<_> = labels.iter().cloned().zip((0..).map(|at| format!("{path}.sizes[{at}]"))).collect();
    check.unique("size", &listed);
    let mut only = Vec::new();
    for (at, text) in labels.into_iter().enumerate() {
        let path = format!("{path}.sizes[{at}]");
        let label = check.id(&path, text);
        let elsewhere = names.sizes.iter().find(|(name, _)| name == label.as_str());
        match elsewhere {
            _ if sizes.iter().any(|size| size.label == label) => {}
            Some((_, there)) => {
                let message = format!("the size {label} sits in another shell than this pad");
                let help = "pads of one shell fit no other: list the pad under that shell, if it is sold for it";
                check.foreign(Code("pad-of-another-shell"), &path, there, (&message, help));
            }
            None => {
                let help = "a pad can name only sizes of its own shell";
                let message = format!("this shell has no size `{label}`");
                check.error("profile-unknown-size", &path, message, "not here", help);
            }
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
