//! A sheet for a maker as a document: `lidladder.range-maker/1`.

use super::figures::{ShareBody, SpreadBody};
use crate::head::Population;
use crate::range::{Complaint, Complaints, MakerSheet, Missing, PackUse, Pair, SheetLine};
use crate::render::json::common::round;
use crate::supply::Kind;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What a maker doesn't offer, and what it costs in customers. Amounts are in minor units of the currency.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A sheet of lidladder for a maker", extend("$id" = "urn:lidladder:range-maker:1"))]
pub struct RangeMakerDocument {
    /// `lidladder.range-maker/1`.
    #[schemars(extend("const" = "lidladder.range-maker/1"))]
    schema: String,
    seed: u64,
    maker: String,
    /// The name of the shop.
    from: String,
    currency: String,
    population: String,
    models: Vec<String>,
    /// Heads that every share is of.
    judging_heads: u64,
    /// Customers whom a helmet of the maker fits with some pads on offer.
    served: ShareBody,
    /// What would win customers, the most first.
    missing: Vec<LineBody>,
    /// How many other things would win some, but fewer than `least_gap` of shop.yaml.
    minor: usize,
    /// Everything under `missing` at once.
    together: GainBody,
    packs: Vec<PackBody>,
    /// For each model the two single pads that are most often needed together.
    pairs: Vec<PairBody>,
    /// Nothing where no journal was given.
    complaints: Option<ComplaintsBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineBody {
    model: String,
    what: What,
    /// The shell of another pad.
    shell: Option<String>,
    /// The zone of pads.
    zone: Option<String>,
    /// Thicknesses by shell.
    pads_mm: Option<BTreeMap<String, Vec<f64>>>,
    size: Option<SizeBody>,
    wins: GainBody,
    /// `wins.for_maker` over worlds in which the profiles are off; only for the first lines.
    wins_spread: Option<SpreadBody>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum What {
    /// One more thickness for a zone of a shell.
    Pad,
    /// Pads for a zone that has none on offer.
    Zone,
    /// A size.
    Size,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SizeBody {
    label: String,
    circumference_mm: (f64, f64),
    /// The size whose pads it has.
    like: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GainBody {
    /// Customers whom no helmet of the maker fits without it.
    for_maker: ShareBody,
    /// Those whom no helmet of the shop fits without it.
    for_shop: ShareBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PackBody {
    model: String,
    shell: String,
    pack: String,
    price_minor: u64,
    /// Times that it is bought for each customer whom the model fits.
    bought: f64,
    pads: Vec<PadBody>,
    /// Pads of a bought pack that go into a helmet, on average.
    used_of_one: f64,
    /// What a customer of the model would save on average if its pads were sold singly, at even shares of its price.
    saved_by_splitting_minor: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PadBody {
    zone: String,
    thickness_mm: f64,
    /// How often it goes into a helmet, for each customer whom the model fits.
    used: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PairBody {
    model: String,
    shell: String,
    /// By zone, mm.
    pads_mm: Vec<ThicknessBody>,
    /// Share of the customers of the model who need both.
    both: f64,
    /// Share of those who need one of them or both.
    either: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ThicknessBody {
    zone: String,
    thickness_mm: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ComplaintsBody {
    /// Tries of helmets of the maker.
    tries: usize,
    /// Sizes with fewer tries have only their stops told.
    least_tries: usize,
    /// How many sizes were tried less often.
    seldom_tried: usize,
    /// Lines of journals that are no records.
    unread_lines: usize,
    heard: Vec<HeardBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct HeardBody {
    model: String,
    size: String,
    reason: String,
    /// Tries in which it was heard.
    heard: usize,
    /// Tries of this size.
    tries: usize,
    /// Interval of 95 % for the share (Wilson).
    interval: (f64, f64),
    with: Vec<WithBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WithBody {
    /// Pads in the helmet that weren't standard when it was heard first.
    pads: Vec<ThicknessBody>,
    tries: usize,
}

/// What a sheet is made for and from.
#[derive(Debug, Clone, Copy)]
pub struct SheetOrigin<'o> {
    /// The seed of the heads.
    pub seed: u64,
    /// Whose heads.
    pub population: &'o Population,
    /// The shop's name.
    pub shop: &'o str,
    /// The shop's currency.
    pub currency: &'o str,
}

/// The document of a sheet, with complaints where a journal was given, and how many of its lines could not be read.
#[must_use]
pub fn range_maker(
    origin: SheetOrigin<'_>,
    sheet: &MakerSheet<'_>,
    complaints: Option<(&Complaints<'_>, usize)>,
) -> RangeMakerDocument {
    RangeMakerDocument {
        schema: "lidladder.range-maker/1".to_owned(),
        seed: origin.seed,
        maker: sheet.models.first().map(|model| model.maker.clone()).unwrap_or_default(),
        from: origin.shop.to_owned(),
        currency: origin.currency.to_owned(),
        population: origin.population.id.to_string(),
        models: sheet.models.iter().map(|model| model.id.to_string()).collect(),
        judging_heads: sheet.judges,
        served: sheet.served.into(),
        missing: sheet.lines.iter().map(LineBody::of).collect(),
        minor: sheet.minor,
        together: GainBody::of(sheet.together),
        packs: sheet.packs.iter().map(PackBody::of).collect(),
        pairs: sheet.pairs.iter().map(PairBody::of).collect(),
        complaints: complaints.map(|(complaints, unread)| ComplaintsBody::of(complaints, unread)),
    }
}

impl LineBody {
    fn of(line: &SheetLine<'_>) -> Self {
        let mut body = Self {
            model: line.model.id.to_string(),
            what: What::Pad,
            shell: None,
            zone: None,
            pads_mm: None,
            size: None,
            wins: GainBody::of(line.gain),
            wins_spread: line.spread.map(SpreadBody::from),
        };
        match &line.missing {
            Missing::Pad { shell, zone, thickness } => {
                body.shell = Some(shell.to_string());
                body.zone = Some(zone.name().to_owned());
                body.pads_mm = Some(BTreeMap::from([(shell.to_string(), vec![*thickness])]));
            }
            Missing::Zone { zone, pads } => {
                body.what = What::Zone;
                body.zone = Some(zone.name().to_owned());
                body.pads_mm = Some(pads.iter().map(|(shell, pads)| (shell.to_string(), pads.clone())).collect());
            }
            Missing::Size { rung, like } => {
                let (from, to) = rung.circumference;
                body.what = What::Size;
                body.size = Some(SizeBody {
                    label: rung.label.to_string(),
                    circumference_mm: (round(from, 2), round(to, 2)),
                    like: like.to_string(),
                });
            }
        }
        body
    }
}

impl GainBody {
    fn of(gain: crate::range::Gain) -> Self {
        Self { for_maker: gain.for_maker.into(), for_shop: gain.for_shop.into() }
    }
}

impl PackBody {
    fn of(pack: &PackUse<'_>) -> Self {
        let pad = |((zone, mm), count): &(Kind, u64)| PadBody {
            zone: zone.name().to_owned(),
            thickness_mm: *mm,
            used: round(pack.for_each(*count), 5),
        };
        Self {
            model: pack.model.id.to_string(),
            shell: pack.shell.id.to_string(),
            pack: pack.pack.id.to_string(),
            price_minor: pack.pack.price.minor(),
            bought: round(pack.for_each(pack.bought), 5),
            pads: pack.pads.iter().map(pad).collect(),
            used_of_one: round(pack.used_of_one(), 3),
            saved_by_splitting_minor: round(pack.saved_by_splitting(), 2),
        }
    }
}

impl PairBody {
    fn of(pair: &Pair<'_>) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "counts of heads")]
        let share = |count: u64| round(count as f64 / pair.customers.max(1) as f64, 5);
        Self {
            model: pair.model.id.to_string(),
            shell: pair.shell.id.to_string(),
            pads_mm: pair.pads.iter().map(ThicknessBody::of).collect(),
            both: share(pair.both),
            either: share(pair.either),
        }
    }
}

impl ThicknessBody {
    fn of((zone, mm): &Kind) -> Self {
        Self { zone: zone.name().to_owned(), thickness_mm: *mm }
    }
}

impl ComplaintsBody {
    fn of(complaints: &Complaints<'_>, unread: usize) -> Self {
        let with = |(pads, tries): &(Vec<Kind>, usize)| WithBody {
            pads: pads.iter().map(ThicknessBody::of).collect(),
            tries: *tries,
        };
        let heard = |complaint: &Complaint<'_>| HeardBody {
            model: complaint.model.id.to_string(),
            size: complaint.size.label.to_string(),
            reason: complaint.reason.id().to_owned(),
            heard: complaint.heard,
            tries: complaint.tries,
            interval: (round(complaint.interval.0, 4), round(complaint.interval.1, 4)),
            with: complaint.with.iter().map(with).collect(),
        };
        Self {
            tries: complaints.tries,
            least_tries: complaints.least,
            seldom_tried: complaints.seldom,
            unread_lines: unread,
            heard: complaints.told.iter().map(heard).collect(),
        }
    }
}
