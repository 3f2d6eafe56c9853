//! The helmet itself, its sizes and its pads.

use crate::card::{Card, MadeFor, PadChoice, ShellPads, ZonePads};
use crate::profile::{ChinRoom, Origin, ShapeWords};
use crate::render::json::common::round;
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct HelmetBody {
    maker: String,
    family: String,
    /// full-face, flip-front, open-face, adventure or off-road.
    r#type: String,
    price_minor: u64,
    mass_g: f64,
    noise_db: Option<f64>,
    spectacle_channel: bool,
    intercom_ready: bool,
    /// Null where there is no bar before the chin.
    chin_room: Option<ChinRoomWord>,
    approvals: Vec<String>,
    interior: InteriorBody,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ChinRoomWord {
    Small,
    Medium,
    Large,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct InteriorBody {
    shape_index: f64,
    /// The shop's word: long oval, intermediate oval or round oval.
    word: String,
    origin: OriginWord,
    /// Standard deviation of the index.
    shape_index_sd: f64,
    /// Standard deviation of the sizes' centres, mm of circumference; the largest of the shells.
    centre_sd_mm: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum OriginWord {
    ByEye,
    Measured,
    Learned,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SizeBody {
    size: String,
    shell: String,
    /// From and to, mm of circumference.
    label_mm: [f64; 2],
    /// The head for which all of its standard pads sit at their best.
    made_for: HeadBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct HeadBody {
    circumference_mm: f64,
    length_mm: f64,
    breadth_mm: f64,
    face_width_mm: f64,
    shape_index: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ShellBody {
    shell: String,
    sizes: Vec<String>,
    zones: Vec<ZoneBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ZoneBody {
    zone: String,
    /// Whether some size takes another pad than its own.
    tunable: bool,
    swap_minutes: f64,
    pads: Vec<PadBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PadBody {
    thickness_mm: f64,
    /// Sizes that come with it.
    standard_in: Vec<String>,
    /// Sizes that it is on offer for.
    on_offer_for: Vec<String>,
    /// The least that one costs; null where it isn't on offer.
    price_minor: Option<u64>,
    in_packs_only: bool,
}

impl HelmetBody {
    pub(super) fn of(card: &Card<'_>, words: ShapeWords) -> Self {
        let (model, interior) = (card.model, card.model.interior);
        let attributes = &model.attributes;
        Self {
            maker: model.maker.clone(),
            family: model.family.clone(),
            r#type: model.kind.name().to_owned(),
            price_minor: model.price.minor(),
            mass_g: attributes.mass_g,
            noise_db: attributes.noise_db,
            spectacle_channel: attributes.spectacle_channel,
            intercom_ready: attributes.intercom_ready,
            chin_room: attributes.chin_room.map(|room| match room {
                ChinRoom::Small => ChinRoomWord::Small,
                ChinRoom::Medium => ChinRoomWord::Medium,
                ChinRoom::Large => ChinRoomWord::Large,
            }),
            approvals: attributes.approvals.clone(),
            interior: InteriorBody {
                shape_index: interior.shape_index,
                word: words.word(interior.shape_index).to_owned(),
                origin: match interior.origin {
                    Origin::ByEye => OriginWord::ByEye,
                    Origin::Measured => OriginWord::Measured,
                    Origin::Learned => OriginWord::Learned,
                },
                shape_index_sd: card.error.shape_index,
                centre_sd_mm: card.error.centre,
            },
        }
    }
}

impl SizeBody {
    pub(super) fn of(made: &MadeFor<'_>) -> Self {
        let [circumference_mm, length_mm, breadth_mm, face_width_mm] = made.head.map(|mm| round(mm, 1));
        let shape_index = round(made.shape_index, 1);
        let (from, to) = made.size.circumference;
        Self {
            size: made.size.label.to_string(),
            shell: made.shell.id.to_string(),
            label_mm: [from, to],
            made_for: HeadBody { circumference_mm, length_mm, breadth_mm, face_width_mm, shape_index },
        }
    }
}

impl ShellBody {
    pub(super) fn of(pads: &ShellPads<'_>) -> Self {
        Self {
            shell: pads.shell.id.to_string(),
            sizes: pads.sizes.iter().map(|size| size.label.to_string()).collect(),
            zones: pads.zones.iter().map(ZoneBody::of).collect(),
        }
    }
}

impl ZoneBody {
    fn of(zone: &ZonePads<'_>) -> Self {
        Self {
            zone: zone.zone.name().to_owned(),
            tunable: zone.is_tunable,
            swap_minutes: zone.minutes,
            pads: zone.choices.iter().map(PadBody::of).collect(),
        }
    }
}

impl PadBody {
    fn of(choice: &PadChoice<'_>) -> Self {
        Self {
            thickness_mm: choice.thickness,
            standard_in: choice.standard_in.iter().map(ToString::to_string).collect(),
            on_offer_for: choice.on_offer_for.iter().map(ToString::to_string).collect(),
            price_minor: choice.price.map(crate::unit::Money::minor),
            in_packs_only: choice.is_in_pack_only,
        }
    }
}
