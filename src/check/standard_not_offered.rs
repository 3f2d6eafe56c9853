//! A standard pad that can't be bought although others of its zone can: once swapped or worn out, it is gone. Most
//! often one of the two thicknesses was misread.

use super::parts::{PlacedShell, PlacedSize, shells};
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Pad, Zone};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("standard-not-offered");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for shell in shells(model).filter(|shell| case.look.is_sound(&shell.place.key("pads"))) {
            for size in shell.sizes() {
                found.extend(Zone::ALL.into_iter().filter_map(|zone| gone(case, &shell, &size, zone)));
            }
        }
    }
    found
}

fn gone(case: &Case<'_>, shell: &PlacedShell<'_>, size: &PlacedSize<'_>, zone: Zone) -> Option<Diagnostic> {
    let standard = (*size.value.standard.get(zone))?;
    let off = |pad: &Pad| (pad.thickness - standard).abs();
    let offers = shell.value.pads.iter().enumerate();
    let offers = offers.filter(|(_, pad)| pad.zone == zone && pad.fits_size(&size.value.label));
    let (at, nearest) = offers.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)))?;
    let place = size.place.key("standard_pads_mm").key(zone.name());
    if off(nearest) < 0.05 || !case.look.is_sound(&place) {
        return None;
    }
    let offer = shell.place.key("pads").entry(at);
    let message = format!(
        "the standard pad of the {} in {} ({standard} mm) is not among those on offer",
        zone.name(),
        size.value.label
    );
    let problem = Diagnostic::warning(CODE, message)
        .at(case.look.span(&place), "not on offer")
        .see(case.look.span(&offer.key("thickness_mm")), "the nearest one")
        .help("correct the thickness, or add the pad to the offer");
    Some(problem)
}
