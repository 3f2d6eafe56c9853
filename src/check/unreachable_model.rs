//! A model that nobody will ever be handed: no rule leads to it, and it fits hardly any head of the population.

use super::sample::HEADS;
use super::{Case, Rule};
use crate::catalogue::FileKind;
use crate::diag::{Code, Diagnostic};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("unreachable-model");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let (trusted, sample) = (case.trusted, case.sample);
    if case.look.draft.hidden.contains(&FileKind::Fallbacks) {
        return Vec::new();
    }
    let mut found = Vec::new();
    for model in case.sound_models() {
        let share = sample.share_of_fits(&model.value.id);
        if !case.is_target(&model.value.id) && share < trusted.shop.checking.served_by_none {
            let message = format!(
                "{} will never be tried: no rule leads to it, and it fits {:.1} % of {HEADS} sampled heads",
                model.value.name,
                100.0 * share
            );
            let place = &model.place;
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&place.key("id")), "never reached")
                .see(case.look.span(&place.key("interior").key("shape_index")), "is the shape right?")
                .help("look at its shape index, its labels and its pads, or at the shop's population");
            found.push(problem);
        }
    }
    found
}
