//! A label that the interior measured in the empty helmet contradicts: it was made for heads of another size.

use super::parts::sizes;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::fit::Nominal;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("label-contradiction");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let mut found = Vec::new();
    for model in case.sound_models() {
        for size in sizes(model).filter(|size| size.value.measured.is_some()) {
            let nominal = Nominal::of(&model.value, size.value, &trusted.shop.fit, trusted.face_width_rule());
            let off = nominal.circumference - size.value.runs_larger - size.value.centre();
            if off.abs() > trusted.shop.checking.label_differs {
                let message = format!(
                    "the interior measured in {} is made for a head of {:.1} cm, but its label says {}",
                    size.value.label,
                    nominal.circumference / 10.0,
                    size.value.range()
                );
                let problem = Diagnostic::warning(CODE, message)
                    .at(case.look.span(&size.place.key("measured_interior_mm")), format!("{off:+.0} mm off"))
                    .see(case.look.span(&size.place.key("circumference_cm")), "the label")
                    .help("measure again between uncompressed pads, and look at the label");
                found.push(problem);
            }
        }
    }
    found
}
