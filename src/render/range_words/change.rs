//! What would change with other models.

use crate::range::{Alteration, Changed, Group, LeftOut, What};
use crate::unit::plain;
use itertools::Itertools;

/// What the columns of the tables of changes mean.
pub(in crate::render) const FIGURES: &str = "The profiles at their word; ±: sampling error, four standard errors, of the change on the same customers. The last \
                                             column: where the change lies when profiles are off as far as they say.";

/// Said where nobody wins or loses.
pub(in crate::render) const NOTHING: &str = "Nothing changes: every one of these customers is served as before.";

/// Whether nobody wins or loses, with any pads.
pub(in crate::render) fn is_nothing(changed: &Changed) -> bool {
    let [on_offer, standard] = [changed.together.on_offer.change, changed.together.standard.change];
    on_offer.won + on_offer.lost + standard.won + standard.lost == 0
}

/// What becomes of a model: in, out, or less of it.
pub(in crate::render) fn direction(alteration: &Alteration) -> &'static str {
    match alteration.what {
        What::Dropped => "out",
        What::Added | What::Like { .. } => "in",
        What::WithoutPads(_) => "less",
    }
}

/// The model, and what of it.
pub(in crate::render) fn what(alteration: &Alteration) -> String {
    let name = &alteration.name;
    let sizes = alteration.put.iter().flat_map(|model| model.sizes()).map(|(_, size)| size.label.as_str()).join(", ");
    match &alteration.what {
        What::Dropped => name.clone(),
        What::Added => format!("{name} in {sizes}"),
        What::Like { name: other, from } => {
            format!("{name} in {sizes}: like {other}, whose shape index is {}, and known by eye", plain(*from))
        }
        What::WithoutPads(left_out) => format!("{name} without {}", left_out.iter().map(pads).join(", ")),
    }
}

fn pads(left_out: &LeftOut) -> String {
    match left_out {
        LeftOut::All => "any pads but those that it comes with".to_owned(),
        LeftOut::Zone(zone) => format!("other {} pads", zone.name()),
        LeftOut::Pad(zone, mm) => format!("{} {} mm", zone.name(), plain(*mm)),
    }
}

/// Whose heads a group has.
pub(in crate::render) fn group(group: &Group) -> String {
    let shapes = ["long oval", "intermediate oval", "round oval"];
    format!("{} (about {:.0} cm), {}", group.size, group.circumference / 10.0, shapes[group.shape])
}

/// The groups that a page lists, and the share of all others; the document has them all.
pub(in crate::render) fn told(groups: &[Group]) -> (&[Group], Option<f64>) {
    let (told, rest) = groups.split_at(groups.len().min(LISTED));
    (told, (!rest.is_empty()).then(|| rest.iter().map(|group| group.share).sum()))
}

const LISTED: usize = 4;
