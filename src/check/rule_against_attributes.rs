//! A rule whose target has what the customer complains about, only more: a heavier one for "too heavy", a louder one for
//! "too noisy", a dearer one for "over budget", less room for a chin that touches, no channel for spectacles.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{ChinRoom, Model, Reason, is_no_better};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-against-attributes");

/// What speaks against a rule: the words for both models, and the keys where it stands.
struct Against {
    words: String,
    keys: &'static [&'static str],
}

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)) {
        let rule = &edge.value;
        let (Some(from), Some(to)) = (case.model(&rule.from), case.model(&rule.to)) else { continue };
        let Some(against) = against(rule.reason, &from.value, &to.value) else { continue };
        let place = |model: &crate::profile::Placed<Model>| {
            against.keys.iter().fold(model.place.clone(), |place, key| place.key(key))
        };
        if [from, to].iter().all(|model| case.look.is_sound(&place(model))) {
            let message = format!("after {} this rule leads to a model that {}", rule.reason.id(), against.words);
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&edge.place.key("to")), "no better")
                .see(case.look.span(&place(from)), "the one that failed")
                .see(case.look.span(&place(to)), "the next one")
                .help("lead to another model, or correct what the profiles say");
            found.push(problem);
        }
    }
    found
}

fn against(reason: Reason, from: &Model, to: &Model) -> Option<Against> {
    if !is_no_better(reason, from, to) {
        return None;
    }
    let (before, after) = (&from.attributes, &to.attributes);
    let (words, keys): (_, &'static [_]) = match reason {
        Reason::TooHeavy => {
            (format!("weighs {} g, not less than {} g", after.mass_g, before.mass_g), &["attributes", "mass_g"])
        }
        Reason::OverBudget => (format!("costs {}, not less than {}", to.price, from.price), &["price"]),
        Reason::TooNoisy => {
            let (before, after) = before.noise_db.zip(after.noise_db)?;
            (format!("has {after} dB(A), not less than {before} dB(A)"), &["attributes", "noise_db"])
        }
        Reason::SpectaclesClash => ("has no channel for spectacles".to_owned(), &["attributes", "spectacle_channel"]),
        Reason::ChinTouchesBar => {
            let (before, after) = before.chin_room.zip(after.chin_room)?;
            (format!("has {} chin room, not more than {}", name(after), name(before)), &["attributes", "chin_room"])
        }
        _ => return None,
    };
    Some(Against { words, keys })
}

fn name(room: ChinRoom) -> &'static str {
    match room {
        ChinRoom::Small => "small",
        ChinRoom::Medium => "medium",
        ChinRoom::Large => "large",
    }
}
