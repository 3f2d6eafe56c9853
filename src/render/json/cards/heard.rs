//! What is heard of a model, and where to go then.

use crate::card::{Complaint, Complaints, Next, ShopsNext, Swap, Turn};
use crate::profile::Edge;
use crate::render::json::range::ShareBody;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// What becomes of the heads in the labels of the model, each in the size that a tape picks. Shares without another word are
/// of these heads.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct HeardBody {
    heads: u64,
    fit_as_it_comes: ShareBody,
    /// In the same size.
    fit_with_pads_on_offer: ShareBody,
    /// What is heard most often first.
    complaints: Vec<ComplaintBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ComplaintBody {
    reason: String,
    /// Heard of less than one in 200, as it comes and with the best pads.
    rare: bool,
    /// Heard with the standard pads.
    heard: ShareBody,
    /// Heard with the standard pads, and other pads of the same size make a good fit.
    pads_help: ShareBody,
    /// Heard with the best pads on offer, whatever was heard before.
    stays: ShareBody,
    /// What helps, the most frequent first.
    swaps: Vec<SwapBody>,
    /// What fits most of those with whom it stays; null where nothing does.
    computed_next: Option<NextBody>,
    /// The shop's rules for it, in the order of the file.
    shop: Vec<ShopBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SwapBody {
    /// By zone.
    pads: BTreeMap<String, TurnWord>,
    /// Of those whom pads help.
    share: ShareBody,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum TurnWord {
    Thinner,
    Thicker,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NextBody {
    model: String,
    /// same, up or down: which size after the one that failed.
    size: String,
    /// Of those with whom the complaint stays; chosen on one half of them, told of the other.
    fits: ShareBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ShopBody {
    rule: RuleBody,
    /// Of those with whom the complaint stays, on the half that is told; null where there are none, or the model isn't one of
    /// those that were asked for.
    fits: Option<ShareBody>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleBody {
    /// Its place among the rules of the file, from 1.
    number: usize,
    reason: String,
    to: String,
    /// same, up, down or a label, as in the file; null where the shop doesn't say.
    size: Option<String>,
    note: String,
}

impl HeardBody {
    pub(super) fn of(complaints: &Complaints<'_>) -> Self {
        Self {
            heads: complaints.heads,
            fit_as_it_comes: complaints.at_once.into(),
            fit_with_pads_on_offer: complaints.with_pads.into(),
            complaints: complaints.list.iter().map(ComplaintBody::of).collect(),
        }
    }
}

impl ComplaintBody {
    fn of(complaint: &Complaint<'_>) -> Self {
        Self {
            reason: complaint.reason.id().to_owned(),
            rare: complaint.is_rare(),
            heard: complaint.heard.into(),
            pads_help: complaint.cured.into(),
            stays: complaint.stays.into(),
            swaps: complaint.swaps.iter().map(SwapBody::of).collect(),
            computed_next: complaint.computed.as_ref().map(NextBody::of),
            shop: complaint.shop.iter().map(ShopBody::of).collect(),
        }
    }
}

impl SwapBody {
    fn of(swap: &Swap) -> Self {
        let word = |turn: Turn| match turn {
            Turn::Thinner => TurnWord::Thinner,
            Turn::Thicker => TurnWord::Thicker,
        };
        let pads = swap.zones.iter().map(|(zone, turn)| (zone.name().to_owned(), word(*turn)));
        Self { pads: pads.collect(), share: swap.share.into() }
    }
}

impl NextBody {
    fn of(next: &Next<'_>) -> Self {
        Self { model: next.to.id.to_string(), size: next.size.as_written().to_owned(), fits: next.fits.into() }
    }
}

impl ShopBody {
    fn of(next: &ShopsNext<'_>) -> Self {
        Self { rule: RuleBody::of(next.rule, next.edge), fits: next.fits.map(ShareBody::from) }
    }
}

impl RuleBody {
    pub(super) fn of(place: usize, edge: &Edge) -> Self {
        Self {
            number: place + 1,
            reason: edge.reason.id().to_owned(),
            to: edge.to.to_string(),
            size: edge.size.as_ref().map(|size| size.as_written().to_owned()),
            note: edge.note.clone(),
        }
    }
}
