//! Whom a model suits.

use crate::card::{Card, Counts, OfWord, Row, Which};
use crate::render::json::range::{FigureBody, QuartilesBody, ShareBody};
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SuitsBody {
    /// Of all customers.
    as_it_comes: ShareBody,
    /// Of all customers.
    with_pads_on_offer: FigureBody,
    /// Of all customers: served by nothing else.
    only_by_it: FigureBody,
    /// Of all customers: those whom it fits most evenly of all.
    best_fit: ShareBody,
    /// Quartiles of these; null where they are too few.
    best_fit_at: Option<QuartilesBody>,
    /// Ovals in its sizes, those that it fits most often first.
    by_shape: Vec<OvalBody>,
    /// Before the labels, in each size, behind the labels. Every head lies in one of them.
    map: Vec<RowBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OvalBody {
    oval: OvalWord,
    counts: CountsBody,
    /// Why those fail, mostly, whom no size of it fits with any pads, each in the size that a tape picks; null without any.
    others_mostly: Option<MostlyBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MostlyBody {
    reason: String,
    /// Of those whom no size fits.
    share: ShareBody,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum OvalWord {
    Long,
    Intermediate,
    Round,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RowBody {
    which: WhichWord,
    /// Null before and behind the labels.
    size: Option<String>,
    long: CountsBody,
    intermediate: CountsBody,
    round: CountsBody,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum WhichWord {
    Smaller,
    Size,
    Larger,
}

/// Heads, and how many of them some size of the model fits.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CountsBody {
    heads: u64,
    as_it_comes: u64,
    with_pads_on_offer: u64,
}

impl SuitsBody {
    pub(super) fn of(card: &Card<'_>) -> Self {
        let own = &card.own;
        Self {
            as_it_comes: own.standard.into(),
            with_pads_on_offer: own.on_offer.into(),
            only_by_it: own.only.into(),
            best_fit: own.best.into(),
            best_fit_at: own.best_at.map(QuartilesBody::from),
            by_shape: card.suits.by_word.iter().map(OvalBody::of).collect(),
            map: card.suits.rows.iter().map(RowBody::of).collect(),
        }
    }
}

impl OvalBody {
    fn of(of: &OfWord) -> Self {
        Self {
            oval: [OvalWord::Long, OvalWord::Intermediate, OvalWord::Round][of.word],
            counts: of.counts.into(),
            others_mostly: of
                .mostly
                .map(|(reason, share)| MostlyBody { reason: reason.id().to_owned(), share: share.into() }),
        }
    }
}

impl RowBody {
    fn of(row: &Row<'_>) -> Self {
        let (which, size) = match row.which {
            Which::Under => (WhichWord::Smaller, None),
            Which::In(size) => (WhichWord::Size, Some(size.label.to_string())),
            Which::Over => (WhichWord::Larger, None),
        };
        let [long, intermediate, round] = row.by_word.map(CountsBody::from);
        Self { which, size, long, intermediate, round }
    }
}

impl From<Counts> for CountsBody {
    fn from(counts: Counts) -> Self {
        Self { heads: counts.heads, as_it_comes: counts.standard, with_pads_on_offer: counts.on_offer }
    }
}
