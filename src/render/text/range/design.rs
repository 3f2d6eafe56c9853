//! The new model that would win most customers, for people.

use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::head::Population;
use crate::range::{Design, Designs};
use crate::render::range_words::design::{DesignWords, named, sizes};
use crate::render::range_words::figures::share;
use crate::render::text::page::{Page, fixed};
use crate::unit::plain;

/// The answer as a page.
#[must_use]
pub fn range_design(
    catalogue: &Catalogue,
    population: &Population,
    models: usize,
    designs: &Designs<'_>,
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    let words = DesignWords { catalogue, designs };
    page.heading("CUSTOMERS WITHOUT A HELMET");
    page.wrapped("  ", &words.who(population, models));
    match &designs.best {
        Some(best) if best.pays => found(&mut page, &words, best),
        _ => {
            page.heading("NO NEW MODEL IS WORTH HAVING");
            page.wrapped("  ", &words.nothing());
        }
    }
    page.heading("HOW SURE");
    page.wrapped("  ", &words.how());
    page.cautions(cautions);
    page.finish()
}

fn found(page: &mut Page, words: &DesignWords<'_, '_>, best: &Design) {
    page.heading("THE NEW MODEL THAT WOULD WIN MOST");
    for (name, fact) in words.facts(best) {
        page.wrapped(&format!("  {name:<10}"), &fact);
    }
    page.heading("WHAT EACH PART OF IT WINS, customers lost without it");
    for (part, quote) in &best.parts {
        page.line(&format!("  {}{:>14}", fixed(&named(part), 36), share(*quote)));
    }
    page.wrapped("  ", &words.least());
    page.heading("ANOTHER SHAPE");
    page.wrapped("  ", &words.next());
    by_index(page, words);
    if let Some(words) = words.reshaped(best) {
        page.heading("A MODEL THAT EXISTS, WITH THIS SHAPE");
        page.wrapped("  ", &words);
    }
}

/// One line for each whole point of the index.
fn by_index(page: &mut Page, words: &DesignWords<'_, '_>) {
    page.heading("THE BEST MODEL OF EACH SHAPE");
    page.line("  index          wins");
    for (blueprint, gain) in words.by_index() {
        let (bar, sizes) = (bar(*gain, words.most()), sizes(blueprint, " "));
        let line = format!("  {:>5}{:>14}  {}{sizes}", plain(blueprint.shape_index), share(*gain), fixed(&bar, 26));
        page.line(&fixed(&line, 80));
    }
}

/// As long as the gain, the largest being 24 columns.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 24")]
fn bar(gain: Quote, most: f64) -> String {
    "#".repeat((24.0 * gain.value / most).round() as usize)
}
