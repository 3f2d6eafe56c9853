//! The profile files as they are written: the only place that knows their keys.
//!
//! Every struct refuses unknown keys. Numbers are finite ([`Number`]); nothing here is checked beyond
//! its type: that is the work of `profile::resolve`, which knows the place of every value.

use serde::Deserialize;

/// A finite number; `.nan` and `.inf` are refused where they stand.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "f64")]
pub(crate) struct Number(pub(crate) f64);

impl TryFrom<f64> for Number {
    type Error = &'static str;

    fn try_from(value: f64) -> Result<Self, Self::Error> {
        if value.is_finite() { Ok(Self(value)) } else { Err("a finite number is needed here") }
    }
}

/// `helmets/<family>.yaml`: the models of one family of one maker.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HelmetFile {
    pub(crate) schema: u32,
    pub(crate) maker: String,
    pub(crate) family: String,
    pub(crate) pads_trade: PadsTrade,
    pub(crate) swap_minutes: ZoneNumbers,
    pub(crate) models: Vec<RawModel>,
}

/// Whether a standard pad is handed back when another is fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum PadsTrade {
    Exchange,
    Sale,
}

/// One number per pad zone; a zone without a pad is left out.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ZoneNumbers {
    pub(crate) brow: Option<Number>,
    pub(crate) rear: Option<Number>,
    pub(crate) sides: Option<Number>,
    pub(crate) crown: Option<Number>,
    pub(crate) cheeks: Option<Number>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawModel {
    pub(crate) id: String,
    pub(crate) name: String,
    #[serde(rename = "type")]
    pub(crate) kind: RawKind,
    pub(crate) price: Number,
    pub(crate) interior: RawInterior,
    pub(crate) attributes: RawAttributes,
    pub(crate) shells: Vec<RawShell>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawKind {
    FullFace,
    FlipFront,
    OpenFace,
    Adventure,
    OffRoad,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawInterior {
    pub(crate) shape_index: Number,
    pub(crate) origin: RawOrigin,
    /// Overrides what `shop.yaml` assumes for this origin.
    pub(crate) sd: Option<Number>,
    pub(crate) centre_sd_mm: Option<Number>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawOrigin {
    ByEye,
    Measured,
    Learned,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawAttributes {
    pub(crate) mass_g: Number,
    pub(crate) noise_db: Option<Number>,
    pub(crate) spectacle_channel: bool,
    pub(crate) intercom_ready: bool,
    pub(crate) chin_room: Option<RawChinRoom>,
    pub(crate) approvals: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawChinRoom {
    Small,
    Medium,
    Large,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShell {
    pub(crate) id: String,
    pub(crate) sizes: Vec<RawSize>,
    #[serde(default)]
    pub(crate) pads: Vec<RawPad>,
    #[serde(default)]
    pub(crate) packs: Vec<RawPack>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSize {
    pub(crate) label: String,
    pub(crate) circumference_cm: [Number; 2],
    pub(crate) standard_pads_mm: ZoneNumbers,
    pub(crate) measured_interior_mm: Option<RawMeasuredInterior>,
    /// Face width of the nominal head where the maker or the shop knows it.
    pub(crate) face_width_mm: Option<Number>,
}

/// Between the faces of the uncompressed standard pads, in the hat-band plane.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasuredInterior {
    pub(crate) length: Number,
    pub(crate) breadth: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPad {
    pub(crate) zone: RawZone,
    pub(crate) thickness_mm: Number,
    /// Sold singly at this price (a pair counts as one) ...
    pub(crate) price: Option<Number>,
    /// ... or only in this pack of the same shell.
    pub(crate) pack: Option<String>,
    /// The sizes of the shell that take it; all of them where left out.
    pub(crate) sizes: Option<Vec<String>>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawZone {
    Brow,
    Rear,
    Sides,
    Crown,
    Cheeks,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPack {
    pub(crate) id: String,
    pub(crate) price: Number,
}

/// `fallbacks.yaml`: what the shop tries next, by reason.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FallbackFile {
    pub(crate) schema: u32,
    pub(crate) edges: Vec<RawEdge>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawEdge {
    pub(crate) from: String,
    pub(crate) reason: String,
    pub(crate) to: String,
    pub(crate) note: String,
    /// `same`, `up`, `down` or a size label of the target.
    pub(crate) size: Option<String>,
}

/// `populations/<id>.yaml`: whose heads the shop expects.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PopulationFile {
    pub(crate) schema: u32,
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) source: String,
    pub(crate) components: Vec<RawComponent>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawComponent {
    pub(crate) name: String,
    pub(crate) share: Number,
    pub(crate) mean_mm: RawMeasures,
    pub(crate) covariance_mm2: RawCovariance,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasures {
    pub(crate) circumference: Number,
    pub(crate) length: Number,
    pub(crate) breadth: Number,
    pub(crate) face_width: Number,
}

/// Rows of the covariance matrix in the order circumference, length, breadth, face width.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCovariance {
    pub(crate) circumference: [Number; 4],
    pub(crate) length: [Number; 4],
    pub(crate) breadth: [Number; 4],
    pub(crate) face_width: [Number; 4],
}

/// `shop.yaml`: every assumption that the computation rests on.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ShopFile {
    pub(crate) schema: u32,
    pub(crate) shop: String,
    pub(crate) currency: String,
    pub(crate) population: String,
    pub(crate) nominal_face_width_from: String,
    pub(crate) minutes: RawMinutes,
    pub(crate) session: RawSession,
    pub(crate) fit: RawFit,
    pub(crate) shape_words: RawShapeWords,
    pub(crate) shape_by_eye: RawShapeByEye,
    pub(crate) measuring: Vec<RawMeasuring>,
    pub(crate) profile_error: RawProfileErrors,
    pub(crate) sketch: RawSketch,
    pub(crate) misreport: Number,
    pub(crate) inconsistent_head_above: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMinutes {
    pub(crate) fetch: Number,
    pub(crate) check: Number,
    pub(crate) recheck: Number,
    pub(crate) go_without: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSession {
    pub(crate) tries: u32,
    pub(crate) shop_rule_margin: Number,
    pub(crate) fold_below: Number,
    pub(crate) fold_share: Number,
    pub(crate) poor_fit_below: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawFit {
    pub(crate) outline_factor: Number,
    pub(crate) excess_share: Number,
    pub(crate) ideal_compression: Number,
    pub(crate) head_bands: RawBands,
    pub(crate) cheek_bands: RawBands,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawBands {
    pub(crate) loose_below: Number,
    pub(crate) light_below: Number,
    pub(crate) tight_above: Number,
    pub(crate) hot_spot_above: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShapeWords {
    pub(crate) long_below: Number,
    pub(crate) round_above: Number,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawShapeByEye {
    pub(crate) long: Number,
    pub(crate) intermediate: Number,
    pub(crate) round: Number,
    pub(crate) sd: Number,
}

/// How far a reading is off, by who took it and with what.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasuring {
    pub(crate) by: RawMeasurer,
    pub(crate) with: RawTool,
    pub(crate) sd_mm: Number,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawMeasurer {
    Staff,
    Customer,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawTool {
    Tape,
    Caliper,
    Ruler,
    Phone,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawProfileErrors {
    pub(crate) by_eye: RawProfileError,
    pub(crate) measured: RawProfileError,
    pub(crate) learned: RawProfileError,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawProfileError {
    pub(crate) shape_index: Number,
    pub(crate) centre_mm: Number,
}

/// What experience with a new helmet stands for.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSketch {
    pub(crate) step: Number,
    pub(crate) big_step: Number,
    pub(crate) comparison_sd: Number,
    pub(crate) least_spread: Number,
    pub(crate) far_moved: Number,
    pub(crate) odd_below: Number,
    pub(crate) little_learned: Number,
    pub(crate) hump_share: Number,
}

/// Who tried a new helmet: the same texts as the option `--tried` takes.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TriesFile {
    pub(crate) schema: u32,
    pub(crate) tries: Vec<String>,
}

/// A customer's notes: the same keys as the head options of the command line, each optional.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CustomerFile {
    pub(crate) schema: u32,
    pub(crate) circumference: Option<String>,
    pub(crate) length: Option<String>,
    pub(crate) breadth: Option<String>,
    pub(crate) face_width: Option<String>,
    pub(crate) measured_by: Option<String>,
    pub(crate) measured_with: Option<String>,
    pub(crate) shape: Option<String>,
    #[serde(default)]
    pub(crate) wears: Vec<String>,
    pub(crate) population: Option<String>,
    #[serde(default)]
    pub(crate) types: Vec<String>,
    #[serde(default)]
    pub(crate) must: Vec<String>,
    pub(crate) price_limit: Option<String>,
    pub(crate) mass_limit: Option<String>,
    #[serde(default)]
    pub(crate) out_of_stock: Vec<String>,
}
