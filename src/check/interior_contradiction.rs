//! A shape index that the interior measured in the empty helmet contradicts. The measured one is computed with, so
//! the index misleads only people; but one of the two is wrong.

use super::parts::sizes;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::fit::Nominal;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("interior-contradiction");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let mut found = Vec::new();
    for model in case.sound_models() {
        let said = model.value.interior.shape_index;
        for size in sizes(model).filter(|size| size.value.measured.is_some()) {
            let nominal = Nominal::of(&model.value, size.value, &trusted.shop.fit, trusted.face_width_rule());
            let measured = nominal.shape_index;
            if (measured - said).abs() > trusted.shop.checking.index_differs {
                let message = format!(
                    "the interior measured in {} has the shape index {measured:.1}, but the profile says {said}",
                    size.value.label
                );
                let problem = Diagnostic::warning(CODE, message)
                    .at(
                        case.look.span(&size.place.key("measured_interior_mm")),
                        format!("with its pads: {measured:.1}"),
                    )
                    .see(case.look.span(&model.place.key("interior").key("shape_index")), format!("{said}"))
                    .help("measure length and breadth again between uncompressed pads, or correct the index");
                found.push(problem);
            }
        }
    }
    found
}
