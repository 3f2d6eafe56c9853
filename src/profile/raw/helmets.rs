//! `helmets/<family>.yaml`: the models of one family of one maker.

use super::Number;
use crate::head::Measure;
use crate::profile::schema::{CurrencyCode, Name, Price, Text, Version, each_within, within};
use crate::profile::{Zone, bounds};
use schemars::JsonSchema;
use serde::Deserialize;

/// One family of helmets of one maker: its models, their shells, sizes and pads.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "helmets/*.yaml: a family of helmets")]
pub(crate) struct HelmetFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// Who makes the helmets, as people say it.
    #[schemars(with = "Text")]
    pub(crate) maker: String,
    /// What the maker calls the family.
    #[schemars(with = "Text")]
    pub(crate) family: String,
    /// The currency of the file's prices, the three capital letters of ISO 4217; the shop's where it is left out.
    #[schemars(with = "Option<CurrencyCode>", extend("examples" = ["EUR"]))]
    pub(crate) currency: Option<String>,
    /// Whether a standard pad is handed back when another is fitted.
    pub(crate) pads_trade: PadsTrade,
    /// With `exchange`: the share of its price that the maker credits for a standard pad handed back; nothing if left out.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) pads_credit: Option<Number>,
    /// Minutes to swap the pads of a zone, left and right together; a zone that is left out takes none.
    pub(crate) swap_minutes: RawSwapMinutes,
    /// The models of the family.
    pub(crate) models: Vec<RawModel>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum PadsTrade {
    /// The standard pad is handed back.
    Exchange,
    /// The customer buys the other pad and keeps both.
    Sale,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSwapMinutes {
    /// Minutes to swap the pad at the forehead.
    #[schemars(transform = within(bounds::SWAP_MINUTES))]
    pub(crate) brow: Option<Number>,
    /// Minutes to swap the pad at the back of the head.
    #[schemars(transform = within(bounds::SWAP_MINUTES))]
    pub(crate) rear: Option<Number>,
    /// Minutes to swap both pads above the ears.
    #[schemars(transform = within(bounds::SWAP_MINUTES))]
    pub(crate) sides: Option<Number>,
    /// Minutes to swap the pad on top.
    #[schemars(transform = within(bounds::SWAP_MINUTES))]
    pub(crate) crown: Option<Number>,
    /// Minutes to swap both pads beside the face.
    #[schemars(transform = within(bounds::SWAP_MINUTES))]
    pub(crate) cheeks: Option<Number>,
}

/// One model: one shape of the inside in several sizes.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawModel {
    /// What rules and options call the model; no other model of any file has the same.
    #[schemars(with = "Name", extend("examples" = ["example-middle"]))]
    pub(crate) id: String,
    /// The model's name for people.
    #[schemars(with = "Text")]
    pub(crate) name: String,
    /// What kind of helmet it is.
    #[serde(rename = "type")]
    pub(crate) kind: RawKind,
    /// Price of the helmet with its standard pads, in the shop's currency, with at most two decimals.
    #[schemars(with = "Price", extend("examples" = [389]))]
    pub(crate) price: Number,
    /// The shape of the inside, and how well it is known.
    pub(crate) interior: RawInterior,
    /// What the model has besides a shape.
    pub(crate) attributes: RawAttributes,
    /// The outer shells, the smallest first; each has sizes and pads of its own.
    #[schemars(length(min = 1))]
    pub(crate) shells: Vec<RawShell>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawKind {
    /// Closed, with a fixed chin bar.
    FullFace,
    /// Closed, with a chin bar that opens.
    FlipFront,
    /// Without a chin bar.
    OpenFace,
    /// With a peak and a visor, for roads and tracks.
    Adventure,
    /// With a peak and without a visor, for the dirt.
    OffRoad,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawInterior {
    /// The shape inside as 100 × breadth / length: about 74 is a long oval, 78 intermediate, 83 round.
    #[schemars(transform = within(bounds::SHAPE_INDEX))]
    pub(crate) shape_index: Number,
    /// Where the shape comes from; shop.yaml says how far such a profile may be off.
    pub(crate) origin: RawOrigin,
    /// How far the shape index may be off, instead of what shop.yaml says: standard deviation, in points of the index.
    #[schemars(transform = within(bounds::INDEX_SD))]
    pub(crate) sd: Option<Number>,
    /// How far the middle of a size may be off, instead of what shop.yaml says: standard deviation, mm of circumference.
    #[schemars(transform = within(bounds::CENTRE_SD_MM))]
    pub(crate) centre_sd_mm: Option<Number>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawOrigin {
    /// From a fitter's experience.
    ByEye,
    /// Measured in the empty helmet.
    Measured,
    /// Learned from recorded tries.
    Learned,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawAttributes {
    /// Mass of the helmet, in g.
    #[schemars(transform = within(bounds::MASS_G))]
    pub(crate) mass_g: Number,
    /// Noise at the ear by the shop's own list, in dB(A).
    #[schemars(transform = within(bounds::NOISE_DB))]
    pub(crate) noise_db: Option<Number>,
    /// Whether the arms of spectacles have a channel: `true` or `false`.
    pub(crate) spectacle_channel: bool,
    /// Whether an intercom has its place: `true` or `false`.
    pub(crate) intercom_ready: bool,
    /// Room between the chin and the bar; left out for helmets without a bar.
    pub(crate) chin_room: Option<RawChinRoom>,
    /// The approval marks on the label.
    #[schemars(with = "Vec<Text>", extend("examples" = [["UN R22.06"]]))]
    pub(crate) approvals: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawChinRoom {
    /// The bar is close to the chin.
    Small,
    /// As most helmets have it.
    Medium,
    /// The bar is far from the chin.
    Large,
}

/// One outer shell with its sizes and pads.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShell {
    /// The shell's name within the model.
    #[schemars(with = "Name", extend("examples" = ["small"]))]
    pub(crate) id: String,
    /// How much larger all its sizes are than their labels, in mm of circumference; the command `learn` finds it.
    #[schemars(transform = within(bounds::CENTRE_MM))]
    pub(crate) centre_mm: Option<Number>,
    /// How far the middle of a size of this shell may be off, instead of what the interior or shop.yaml says, in mm.
    #[schemars(transform = within(bounds::CENTRE_SD_MM))]
    pub(crate) centre_sd_mm: Option<Number>,
    /// The sizes that are made in this shell, the smallest first.
    #[schemars(length(min = 1))]
    pub(crate) sizes: Vec<RawSize>,
    /// The pads on offer for this shell, at most seven thicknesses a zone; they fit no other shell.
    #[serde(default)]
    pub(crate) pads: Vec<RawPad>,
    /// Packs in which pads of this shell are sold together.
    #[serde(default)]
    pub(crate) packs: Vec<RawPack>,
}

/// One size.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSize {
    /// The size as the label says it, in quotes if it is a number; no other size of the model has the same.
    #[schemars(with = "Name", extend("examples" = ["M"]))]
    pub(crate) label: String,
    /// The labelled range of circumference, the smaller number first, in cm.
    #[schemars(transform = each_within(bounds::LABEL_CM), extend("examples" = [[57, 58]]))]
    pub(crate) circumference_cm: [Number; 2],
    /// Thickness of the pads that the size is sold with, in mm; brow, rear and sides are needed.
    pub(crate) standard_pads_mm: RawStandardPads,
    /// The inside, measured in the empty helmet at the line of the tape; it comes before shape index and label.
    pub(crate) measured_interior_mm: Option<RawMeasuredInterior>,
    /// Face width of the head that the size is made for, in mm, where the maker or the shop knows it.
    #[schemars(transform = within(bounds::of_head(Measure::FaceWidth)))]
    pub(crate) face_width_mm: Option<Number>,
}

#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawStandardPads {
    /// Thickness of the pad at the forehead, in mm.
    #[schemars(required, transform = within(bounds::PAD_MM))]
    pub(crate) brow: Option<Number>,
    /// Thickness of the pad at the back of the head, in mm.
    #[schemars(required, transform = within(bounds::PAD_MM))]
    pub(crate) rear: Option<Number>,
    /// Thickness of one of the two pads above the ears, in mm.
    #[schemars(required, transform = within(bounds::PAD_MM))]
    pub(crate) sides: Option<Number>,
    /// Thickness of the pad on top, in mm.
    #[schemars(transform = within(bounds::PAD_MM))]
    pub(crate) crown: Option<Number>,
    /// Thickness of one of the two pads beside the face, in mm.
    #[schemars(transform = within(bounds::PAD_MM))]
    pub(crate) cheeks: Option<Number>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasuredInterior {
    /// From brow pad to rear pad, both uncompressed, in mm.
    #[schemars(transform = within(bounds::LENGTH_INSIDE))]
    pub(crate) length: Number,
    /// From side pad to side pad, both uncompressed, in mm.
    #[schemars(transform = within(bounds::BREADTH_INSIDE))]
    pub(crate) breadth: Number,
}

/// One pad on offer, sold either singly at a `price` or only in a `pack`.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["price"]}, {"required": ["pack"]}]))]
pub(crate) struct RawPad {
    /// Where it sits; left and right are one pair.
    pub(crate) zone: RawZone,
    /// Thickness of one pad, in mm.
    #[schemars(transform = within(bounds::PAD_MM))]
    pub(crate) thickness_mm: Number,
    /// Price if it is sold singly; of both where it is a pair. A pad has either this or `pack`.
    #[schemars(with = "Option<Price>", extend("examples" = [26]))]
    pub(crate) price: Option<Number>,
    /// The pack of the same shell that it is sold in. A pad has either this or `price`.
    #[schemars(with = "Option<Name>", extend("examples" = ["thin"]))]
    pub(crate) pack: Option<String>,
    /// Labels of the sizes that take it; every size of the shell if it is left out.
    #[schemars(with = "Option<Vec<Name>>", extend("examples" = [["M", "L"]]))]
    pub(crate) sizes: Option<Vec<String>>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawZone {
    /// At the forehead.
    Brow,
    /// At the back of the head.
    Rear,
    /// Above the ears, at the temples.
    Sides,
    /// On top.
    Crown,
    /// Beside the face.
    Cheeks,
}

/// One pack: several pads of one shell that are sold together.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPack {
    /// The pack's name within the shell; pads name it under `pack`.
    #[schemars(with = "Name", extend("examples" = ["thin"]))]
    pub(crate) id: String,
    /// Price of the whole pack, in the shop's currency, with at most two decimals.
    #[schemars(with = "Price", extend("examples" = [29]))]
    pub(crate) price: Number,
}

impl RawSwapMinutes {
    /// What a zone has.
    pub(crate) fn of(&self, zone: Zone) -> Option<Number> {
        match zone {
            Zone::Brow => self.brow,
            Zone::Rear => self.rear,
            Zone::Sides => self.sides,
            Zone::Crown => self.crown,
            Zone::Cheeks => self.cheeks,
        }
    }
}

impl RawStandardPads {
    /// What a zone has.
    pub(crate) fn of(&self, zone: Zone) -> Option<Number> {
        match zone {
            Zone::Brow => self.brow,
            Zone::Rear => self.rear,
            Zone::Sides => self.sides,
            Zone::Crown => self.crown,
            Zone::Cheeks => self.cheeks,
        }
    }
}
