//! Figures and names as a card tells them.

use crate::fit::Quote;
use crate::profile::{Edge, SizeHint};
use crate::render::diagnostics::one_line;

/// A share in whole numbers of 100, marked where sampling makes it rough.
pub(super) fn whole(share: Quote) -> String {
    let rough = if share.error > 0.05 { "~" } else { "" };
    let hundred = (share.value * 100.0).round() + 0.0;
    match hundred < 1.0 && share.value > 0.0 {
        true => format!("{rough}<1"),
        false => format!("{rough}{hundred:.0}"),
    }
}

/// The word for a shape: 0 long, 1 intermediate, 2 round.
pub(super) fn oval(word: usize) -> &'static str {
    ["a long oval", "an intermediate oval", "a round oval"][word]
}

/// The same for several heads.
pub(super) fn ovals(word: usize) -> &'static str {
    ["long ovals", "intermediate ovals", "round ovals"][word]
}

/// Which size of the next model.
pub(super) fn size(hint: Option<&SizeHint>) -> String {
    match hint {
        None => "any size".to_owned(),
        Some(SizeHint::Same) => "same size".to_owned(),
        Some(SizeHint::Up) => "a size up".to_owned(),
        Some(SizeHint::Down) => "a size down".to_owned(),
        Some(SizeHint::Label(label)) => format!("in {label}"),
    }
}

/// A rule of the shop with its note.
pub(super) fn rule(name: &str, edge: &Edge) -> String {
    format!("{}, {} (\"{}\")", one_line(name), size(edge.size.as_ref()), one_line(&edge.note))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rough_figure_is_marked_and_little_is_not_nothing() {
        let shares = [(0.934, 0.01), (0.934, 0.051), (0.001, 0.001), (0.0, 0.001), (0.996, 0.0)];
        let words = shares.map(|(value, error)| whole(Quote { value, error }));
        assert_eq!(words, ["93", "~93", "<1", "0", "100"]);
    }
}
