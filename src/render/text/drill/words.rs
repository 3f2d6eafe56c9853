//! What is answered, heard and best, in words.

use super::super::page::{mm, percent};
use crate::catalogue::Catalogue;
use crate::counter::OnHead;
use crate::drill::{Answer, Best, Mark};
use crate::fit::{PadSet, Quote, changed};
use crate::profile::{Nature, Reason, ShapeWords, Zone};
use crate::unit::Id;
use itertools::Itertools;

/// What a model is called.
pub(super) fn name(catalogue: &Catalogue, id: &Id) -> String {
    catalogue.model(id.as_str()).map_or_else(|| id.to_string(), |model| model.name.clone())
}

/// A helmet: `Wexmarsh One in L`.
pub(super) fn helmet(catalogue: &Catalogue, (model, size): (&Id, &Id)) -> String {
    format!("{} in {size}", name(catalogue, model))
}

/// An answer.
pub(super) fn answered(catalogue: &Catalogue, answer: &Answer) -> String {
    match answer {
        Answer::Helmet { model, size, pads } if pads.is_empty() => helmet(catalogue, (model, size)),
        Answer::Helmet { model, size, pads } => format!("{} with {}", helmet(catalogue, (model, size)), named(pads)),
        Answer::Pads(pads) => named(pads),
        Answer::NoPads => "another helmet".to_owned(),
        Answer::Shape(shape) => ShapeWords::NAMES.get(*shape).map_or_else(String::new, |word| (*word).to_owned()),
        Answer::Stop => "a stop".to_owned(),
        Answer::NoStop => "no stop".to_owned(),
        Answer::Leave => "letting the customer go".to_owned(),
    }
}

/// What would have been best.
pub(super) fn best(catalogue: &Catalogue, best: &Best) -> String {
    match best {
        Best::Try(on, fit) if on.is_swap => {
            format!("{} in it, fits {}", set(catalogue, on), percent(fit.value))
        }
        Best::Try(on, fit) => fits(catalogue, on, *fit),
        Best::Another(on, fit) => format!("another helmet, {}", fits(catalogue, on, *fit)),
        Best::Leave => "letting the customer go".to_owned(),
        Best::Shape(shape, share) => {
            let word = ShapeWords::NAMES.get(*shape).copied().unwrap_or_default();
            format!("{word} ({})", percent(share.value))
        }
        Best::Stop(true) => "a stop".to_owned(),
        Best::Stop(false) => "no stop".to_owned(),
    }
}

fn fits(catalogue: &Catalogue, on: &OnHead, fit: Quote) -> String {
    format!("{}, fits {}", helmet(catalogue, (&on.model, &on.size)), percent(fit.value))
}

/// The pads of a helmet that are not standard.
fn set(catalogue: &Catalogue, on: &OnHead) -> String {
    let size = catalogue.model(on.model.as_str()).and_then(|model| model.size(&on.size));
    let other = size.map_or_else(Vec::new, |(_, size)| changed(&size.standard, &on.pads).collect());
    if other.is_empty() { "the standard pads".to_owned() } else { named(&other) }
}

/// Pads: `sides 10, cheeks 28 mm`.
pub(super) fn named(pads: &[(Zone, f64)]) -> String {
    format!("{} mm", pads.iter().map(|(zone, thick)| format!("{} {}", zone.name(), mm(*thick))).join(", "))
}

/// All pads of a set.
pub(super) fn whole(pads: &PadSet) -> String {
    named(&pads.iter().filter_map(|(zone, thick)| thick.map(|thick| (zone, thick))).collect_vec())
}

/// What the customer says of a helmet, as a sentence.
pub(super) fn says(reason: Option<Reason>) -> String {
    match reason {
        None => "It fits: every check is passed.".to_owned(),
        Some(reason) if reason.nature() == Nature::Stop => format!("{}. A STOP.", capital(reason.words())),
        Some(reason) => format!("{}.", capital(reason.words())),
    }
}

/// The same with a capital.
pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Whether a helmet wasn't let on the head, because that can hurt somebody.
pub(super) fn is_prevented(mark: &Mark) -> bool {
    mark.helmet.is_some() && mark.weighed.is_none()
}

/// A figure with its error, both to a tenth.
pub(super) fn tenths(figure: Quote) -> String {
    // Nobody should read -0.0.
    format!("{:.1}±{:.1}", (figure.value * 10.0).round() / 10.0 + 0.0, (figure.error * 10.0).ceil() / 10.0)
}
