//! Two sizes of one shell that can't both be right. The shell is one piece of foam: the head that a size is made for,
//! plus the pads that it leaves uncompressed, must reach from lining to lining, and that distance is the same for
//! every size of the shell.

use super::parts::{PlacedShell, PlacedSize, shells};
use super::{Case, Rule};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic};
use crate::fit::implied_cavity;
use crate::profile::{Axis, Model};
use itertools::Itertools;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("shell-contradiction");

/// Two sizes and what each implies between the linings on an axis, mm.
struct Contradiction<'m> {
    axis: Axis,
    odd: (PlacedSize<'m>, f64),
    other: (PlacedSize<'m>, f64),
}

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let mut found = Vec::new();
    for model in case.sound_models() {
        for shell in shells(model) {
            let axes = [Axis::Length, Axis::Breadth].into_iter();
            let widest = axes.filter_map(|axis| contradiction(trusted, &model.value, &shell, axis));
            let widest = widest.max_by(|a, b| a.gap().total_cmp(&b.gap()));
            if let Some(contradiction) = widest.filter(|it| it.gap() > trusted.shop.checking.shell_differs) {
                found.push(told(case, &contradiction, trusted.shop.fit.ideal));
            }
        }
    }
    found
}

/// The two sizes that are furthest apart on an axis. The one further from the shell's average is the odd one; of
/// two sizes alone, the larger.
fn contradiction<'m>(
    trusted: &Catalogue,
    model: &Model,
    shell: &PlacedShell<'m>,
    axis: Axis,
) -> Option<Contradiction<'m>> {
    let (rules, face_rule) = (&trusted.shop.fit, trusted.face_width_rule());
    let lining = |size: PlacedSize<'m>| {
        let distance = implied_cavity(model, size.value, rules, face_rule)[axis as usize];
        (size, distance)
    };
    let (low, high) = shell.sizes().map(lining).minmax_by(|a, b| a.1.total_cmp(&b.1)).into_option()?;
    let linings = shell.value.sizes.iter().map(|size| implied_cavity(model, size, rules, face_rule)[axis as usize]);
    let total: f64 = linings.sum();
    let average = total / f64::from(u32::try_from(shell.value.sizes.len()).unwrap_or(1));
    let [low_off, high_off] = [average - low.1, high.1 - average];
    let is_low_odd =
        low_off > high_off + 1e-9 || (low_off > high_off - 1e-9 && low.0.value.centre() > high.0.value.centre());
    let (odd, other) = if is_low_odd { (low, high) } else { (high, low) };
    Some(Contradiction { axis, odd, other })
}

fn told(case: &Case<'_>, found: &Contradiction<'_>, ideal: f64) -> Diagnostic {
    let Contradiction { axis, odd: (odd, is), other: (other, should_be) } = found;
    let (label, other_label) = (&odd.value.label, &other.value.label);
    let message = format!(
        "{label} and {other_label} sit in one shell, but by its label and pads {label} needs {is:.1} mm from lining to \
         lining, {}, and {other_label} {should_be:.1} mm",
        axis.name(),
    );
    let foam = (should_be - is) / (1.0 - ideal);
    let more = if foam > 0.0 { "more" } else { "less" };
    let help = format!(
        "measure the pads again: with {:.1} mm {more} foam in all, {}, {label} would agree; or it has another label, or \
         sits in another shell",
        foam.abs(),
        axis.name(),
    );
    let pads = |size: &PlacedSize<'_>| case.look.span(&size.place.key("standard_pads_mm"));
    Diagnostic::warning(CODE, message).at(pads(odd), "these pads").see(pads(other), "and these").help(help)
}

impl Contradiction<'_> {
    fn gap(&self) -> f64 {
        (self.odd.1 - self.other.1).abs()
    }
}
