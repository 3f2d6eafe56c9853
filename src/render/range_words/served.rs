//! Who is served.

use super::figures::{heads, of_hundred, percent, whole};
use super::heads::region;
use crate::range::{Gap, Own, Served};
use crate::render::text::thousands;
use itertools::Itertools;

/// Models by letter, where their overlap has room on a page.
pub(in crate::render) const LETTERS: &str = "abcdefghijklmnopqr";
pub(in crate::render) const MOST_LETTERS: usize = LETTERS.len();

/// What the columns of the table of models mean.
pub(in crate::render) const MODELS: &str = "only this: served by nothing else. Best fit: served most evenly by this one. Where: the middle half of these \
                                            customers, by circumference and shape index.";

/// What pads win, and who goes without.
pub(in crate::render) fn pads_win(served: &Served<'_>) -> String {
    format!(
        "Pads win {} of 100; {} of 100 fit nothing.",
        percent(served.on_offer.quote.value - served.standard.quote.value),
        percent(1.0 - served.on_offer.quote.value)
    )
}

/// The middle half of the customers whom a model fits best: circumference in cm, shape index. `None` where they are too few.
pub(in crate::render) fn best_at(own: &Own<'_>) -> Option<[String; 2]> {
    let ends = |ends: [f64; 2]| ends.iter().map(|end| format!("{end:.0}")).dedup().join("-");
    own.best_at.map(|[cm, index]| [cm.map(|mm| mm / 10.0), index].map(ends))
}

/// Whose heads lie in a gap.
pub(in crate::render) fn of_gap(gap: &Gap<'_>, served: &Served<'_>) -> String {
    region(&gap.region, served.models.iter().flat_map(|own| own.models.iter().copied()))
}

/// Of 100 customers with heads of a gap, so many fit nothing.
pub(in crate::render) fn lost_there(gap: &Gap<'_>) -> String {
    whole(gap.lost.value / gap.customers.value.max(f64::MIN_POSITIVE))
}

/// What comes nearest to fitting a gap, and why it doesn't.
pub(in crate::render) fn nearest(gap: &Gap<'_>) -> Option<String> {
    gap.nearest.map(|nearest| {
        format!(
            "{} in {}, but {}, by {:.0} mm",
            nearest.model.name,
            nearest.size.label,
            nearest.reason.words(),
            nearest.miss.max(1.0)
        )
    })
}

/// A gap in one sentence.
pub(in crate::render) fn of_lost(gap: &Gap<'_>, served: &Served<'_>) -> String {
    format!(
        "{}: {} of 100 customers are lost there, {} % of those who have such heads.",
        of_gap(gap, served),
        of_hundred(gap.lost),
        lost_there(gap)
    )
}

/// Who fits nothing and lies in no gap.
pub(in crate::render) fn elsewhere(served: &Served<'_>) -> String {
    let all = of_hundred(served.gaps.lost);
    match served.gaps.gaps.len() {
        0 => format!("No region. The {all} of 100 who fit nothing are spread over all shapes."),
        _ => format!(
            "Elsewhere, in no region: {} of the {all} of 100 who fit nothing.",
            of_hundred(served.gaps.elsewhere)
        ),
    }
}

/// How sure all of it is.
pub(in crate::render) fn how(served: &Served<'_>) -> String {
    let kept = if served.kept as u64 == served.heads {
        String::new()
    } else {
        format!(
            " Best fits, gaps and the last column of the first table are counted on {} of them.",
            thousands(served.kept)
        )
    };
    format!(
        "Counted on {} heads: a customer is served where all pads of some size are good, by the profiles and the bands of \
         shop.yaml. ±: sampling error, four standard errors.{kept} If profiles are off: nine in ten of {} ranges whose \
         helmets differ from their profiles as far as these say. Comfort, looks and price keep more customers from a \
         helmet than geometry does: this is the most that can be served.",
        heads(served.heads),
        crate::range::WORLDS
    )
}
