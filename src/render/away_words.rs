//! The words of what is sent to a customer who is away, the same on every kind of page.

use super::text::{mm, percent, whole_minutes};
use crate::away::{Order, Proposal, Sent, Verdict};
use crate::unit::Money;
use itertools::Itertools;

/// A gain in the chance of a fit that is worth a sentence.
const WORTH_TELLING: f64 = 0.02;

/// Differences of whom a helmet fits that are put into words: points of the shape index, and mm of circumference.
const SHAPE_WORDS: f64 = 0.7;
const SIZE_WORDS: f64 = 2.0;

/// What the figures of the ways are.
pub(super) const WAYS_NOTE: &str = "fits: as it comes out of the box, with the pads that the shop mounted. Of two helmets one comes back in any \
     case. Costs: postage, what comes back, pads that the kept helmet doesn't need, and a visit where nothing \
     fits (away of shop.yaml). ±: sampling error.";

/// The way without a parcel.
pub(super) const VISIT: &str = "the customer comes in";

/// What to do, and what comes of it at once.
pub(super) fn verdict(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::One => ("Send one", ""),
        Verdict::Two => ("Send two", ", one comes back"),
        Verdict::ComeIn => ("Come in", ""),
    }
}

/// What one more measure would buy; nothing where all are taken.
pub(super) fn advice(order: &Order<'_>) -> Option<String> {
    let advice = &order.advice;
    let best = advice.gains.first()?;
    if best.first_fit < advice.first_fit + WORTH_TELLING {
        return Some("another measure from home hardly makes any helmet fit more often".to_owned());
    }
    let mut others =
        advice.gains[1..].iter().map(|gain| format!("{} {}", gain.measure.name(), percent(gain.first_fit)));
    let others = others.join(", ");
    let others = if others.is_empty() { others } else { format!(" (with instead {others})") };
    Some(format!(
        "ask for the {}, three readings: the likeliest helmet then fits with {} instead of {}{others}",
        best.measure.name(),
        percent(best.first_fit),
        percent(advice.first_fit)
    ))
}

/// Names and sentences of one order.
pub(super) struct AwayWords<'w, 'a> {
    pub(super) order: &'w Order<'a>,
    pub(super) currency: &'w str,
    /// The least chance with which the shop sends anything.
    pub(super) least: f64,
}

impl<'w> AwayWords<'w, '_> {
    /// What is sent; nothing where the customer comes in.
    pub(super) fn proposed(&self) -> Option<&'w Proposal> {
        match self.order.verdict {
            Verdict::One => self.order.one.as_ref(),
            Verdict::Two => self.order.two.as_ref(),
            Verdict::ComeIn => None,
        }
    }

    /// Why nothing is sent.
    pub(super) fn why_come_in(&self) -> String {
        let best = [&self.order.two, &self.order.one].into_iter().flatten().map(|proposal| proposal.chance.value);
        let best = best.max_by(f64::total_cmp).unwrap_or(0.0);
        if best < self.least {
            format!(
                "The best that could be sent fits with {}, and the shop sends nothing below {} (least_chance of shop.yaml). \
                 In the shop pads can be swapped, and each helmet tells what to try next.",
                percent(best),
                percent(self.least)
            )
        } else {
            "A visit costs less than what would be sent, comes back, and a visit after all.".to_owned()
        }
    }

    /// By how much it is cheaper than the next way.
    pub(super) fn lead(&self) -> Option<String> {
        self.order.lead.map(|lead| {
            format!(
                "Expected to cost {}±{} {} less than the next way.",
                amount(lead.value),
                amount(lead.error),
                self.currency
            )
        })
    }

    /// What fits too seldom to be proposed.
    pub(super) fn seldom(&self) -> Option<String> {
        let seldom = [&self.order.one, &self.order.two].into_iter().flatten();
        let seldom = seldom.filter(|proposal| proposal.chance.value < self.least).map(|proposal| proposal.sent.len());
        let seldom = seldom.map(|count| if count == 1 { "one" } else { "two" }).join(" or ");
        (!seldom.is_empty()).then(|| {
            format!(
                "To send {seldom} isn't proposed: it fits less often than {} (least_chance of shop.yaml).",
                percent(self.least)
            )
        })
    }

    /// The helmets of a proposal.
    pub(super) fn titles(&self, proposal: &Proposal) -> Vec<String> {
        proposal.sent.iter().map(|sent| self.order.candidates[sent.candidate].title()).collect()
    }

    /// What it costs with the pads, in the shop's currency.
    pub(super) fn price(&self, sent: &Sent) -> Money {
        self.order.candidates[sent.candidate].model.price + sent.price
    }

    /// The pads that come into it.
    pub(super) fn mounted(&self, sent: &Sent) -> String {
        let own = &self.order.candidates[sent.candidate].size.standard;
        let mut changed = sent.pads.iter().filter_map(|(zone, pad)| {
            let (pad, own) = ((*pad)?, (*own.get(zone))?);
            let word = if pad < own { "thinner" } else { "thicker" };
            ((pad - own).abs() > 1e-9).then(|| format!("{word} {} ({} mm)", zone.name(), mm(pad)))
        });
        let changed = changed.join(", ");
        match changed.as_str() {
            "" => "standard pads".to_owned(),
            _ if sent.price == Money::default() => format!("mount first: {changed}"),
            _ => format!(
                "mount first: {changed}; {} min, pads {} {} of the price",
                whole_minutes(sent.minutes),
                sent.price,
                self.currency
            ),
        }
    }
}

/// How often what is sent comes back.
pub(super) fn back(proposal: &Proposal) -> String {
    let share = percent(1.0 - proposal.chance.value);
    if proposal.sent.len() == 1 { share } else { format!("both {share}") }
}

/// What a proposal is expected to cost.
pub(super) fn cost(proposal: &Proposal) -> String {
    format!("{}±{}", amount(proposal.cost.value), amount(proposal.cost.error))
}

/// Which heads only this one of two fits.
pub(super) fn whom(sent: &Sent, other: &Sent) -> String {
    let share = percent(sent.alone.value);
    let Some((own, others)) = sent.whom.zip(other.whom) else { return format!("alone fits {share}") };
    let mut words = Vec::new();
    match own.circumference - others.circumference {
        gap if gap > SIZE_WORDS => words.push(format!("larger ({:.0} mm around)", own.circumference)),
        gap if gap < -SIZE_WORDS => words.push(format!("smaller ({:.0} mm around)", own.circumference)),
        _ => {}
    }
    match own.shape_index - others.shape_index {
        gap if gap > SHAPE_WORDS => words.push(format!("rounder (index {:.1})", own.shape_index)),
        gap if gap < -SHAPE_WORDS => words.push(format!("longer (index {:.1})", own.shape_index)),
        _ => {}
    }
    match words.is_empty() {
        true => format!("the only one that fits for {share}"),
        false => format!("the only one that fits for {share}: the {} heads of the two", words.iter().join(" and ")),
    }
}

/// Minor units as an amount with two decimals.
fn amount(minor: f64) -> String {
    format!("{:.2}", (minor / 100.0).abs())
}
