//! What else could be tried, and why the choice wins.

use super::super::page::{Page, fixed, percent};
use crate::fit::Quote;
use crate::plan::StepWhy;
use crate::render::why_words::{COMPARED, NOTHING_ELSE, WhyView, compared, quoted, signed};

/// The choice beside everything else that is named.
pub(super) fn instead(view: &WhyView<'_>, page: &mut Page, why: &StepWhy) {
    page.heading("INSTEAD of this step");
    page.line("     model and size                 fits  the try   to the end  than the choice");
    let row = |label: &str, candidate: usize, fit: Quote, minutes: Quote, cost: Quote| {
        let title = fixed(&view.title(candidate), 28);
        let (fit, minutes) = (percent(fit.value), minutes.value);
        format!("{label:>4} {title} {fit:>6} {minutes:>8.1} {:>12}", quoted(cost))
    };
    page.line(&row("", why.step.candidate, why.step.fit, why.minutes, why.rest.cost));
    for (letter, other) in ('a'..).zip(&why.instead) {
        let line = row(&format!("{letter}."), other.candidate, other.fit, other.minutes, other.rest.cost);
        page.line(&format!("{line} {:>16}", signed(other.more)));
    }
    let leaving = format!(
        "     {} {:>6} {:>8} {:>12.1}",
        fixed("leaving without", 28),
        "",
        "",
        view.catalogue.shop.minutes.go_without
    );
    page.line(&format!("{leaving} {:>16}", signed(why.leaving)));
    page.wrapped("     ", COMPARED);
    for (letter, other) in ('a'..).zip(&why.instead) {
        page.hanging(&format!("  {letter}. "), 5, &compared(view, why, other));
    }
    if why.instead.is_empty() {
        page.wrapped("     ", NOTHING_ELSE);
    }
}
