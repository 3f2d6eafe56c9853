//! What bars say of a range.

use super::bars::{Bar, Bars, Rank, Shade, bars};
use super::picture::Picture;
use crate::catalogue::Catalogue;
use crate::range::{Designs, Fewer, FewerWanted};
use crate::render::StockReport;
use crate::render::range_words::design::{DesignWords, sizes};
use crate::render::range_words::figures::{of_hundred, share};
use crate::render::range_words::keep::KeepWords;
use crate::render::range_words::stock::named;
use crate::unit::plain;

/// How many models serve how many: a bar for each number of models, with what comes in.
#[must_use]
pub fn models_and_shares(wanted: &FewerWanted, fewer: &Fewer<'_>) -> Picture {
    let words = KeepWords { wanted, fewer };
    let bar = |at: usize| {
        let subset = &fewer.curve[at];
        let [standard, on_offer] = [subset.standard, subset.on_offer].map(|quote| 100.0 * quote.value);
        Bar {
            number: subset.columns.len().to_string(),
            name: words.first_in(at),
            parts: [standard, on_offer - standard],
            figure: of_hundred(subset.on_offer),
            rank: if at == fewer.smallest { Rank::Answer } else { Rank::Other },
        }
    };
    bars(&Bars {
        title: "How many models serve how many",
        description: format!(
            "For each number of models the best choice, and how many of 100 customers it serves. The smallest range that \
             serves {} of 100 whom all models serve has {}.",
            words.share(),
            words.count()
        ),
        key: Some(["with the standard pads", "more with the pads on offer, of 100 customers"]),
        shades: [Shade::Strong, Shade::Light],
        full: 100.0,
        bars: words.told().into_iter().map(bar).collect(),
    })
}

/// What the best new model of each shape wins.
#[must_use]
pub fn designs_by_shape(catalogue: &Catalogue, designs: &Designs<'_>) -> Picture {
    let words = DesignWords { catalogue, designs };
    let best = designs.best.as_ref().map(|best| best.blueprint.shape_index);
    let bar = |(blueprint, gain): &(crate::range::Blueprint, crate::fit::Quote)| Bar {
        number: plain(blueprint.shape_index),
        name: sizes(blueprint, " "),
        parts: [gain.value, 0.0],
        figure: share(*gain),
        rank: match best {
            // The best one may lie between two whole points.
            Some(best) if (best - blueprint.shape_index).abs() < 1e-9 => Rank::Answer,
            _ => Rank::Other,
        },
    };
    bars(&Bars {
        title: "The best model of each shape",
        description: "For each whole point of the shape index the sizes of the best new model, and the share of all \
                      customers that it would win."
            .to_owned(),
        key: None,
        shades: [Shade::Strong, Shade::Light],
        full: words.most(),
        bars: words.by_index().map(bar).collect(),
    })
}

/// What the kits win, one after the other.
#[must_use]
pub fn kits_in_order(report: &StockReport<'_>) -> Picture {
    let order = &report.drawer.order;
    let mut won = 0.0;
    let bars_of = order.steps.iter().zip(1..).map(|(step, count)| {
        let before = won;
        won += step.won.value;
        Bar {
            number: format!("{count}."),
            name: named(report, &report.drawer.kits[step.kit]),
            parts: [before, step.won.value],
            figure: format!("{:.1}", 100.0 * step.served.quote.value),
            rank: Rank::Other,
        }
    });
    let bars_of: Vec<_> = bars_of.collect();
    bars(&Bars {
        title: "Customers won by kits, in the order to buy them",
        description: format!(
            "With the standard pads alone {:.1} of 100 customers are served at once. Each bar is what the kits up to this one \
             win beyond them; the figure is how many are then served.",
            100.0 * order.before.quote.value
        ),
        key: Some(["won by the kits before", "won by this one; right: served, of 100"]),
        shades: [Shade::Light, Shade::Strong],
        full: won.max(f64::MIN_POSITIVE),
        bars: bars_of,
    })
}
