//! A session at the counter, page by page.

mod answers;
mod summary;

pub use answers::COUNTER_HELP;
pub use summary::counter_summary;

use super::page::{PROMPT, Page, bold, mm, percent, whole_minutes};
use crate::catalogue::Catalogue;
use crate::counter::{Before, CHECKS, Event, Next, Now, OnHead, Opening, Origin, Outlook, Remarks, Standing, Tried};
use crate::fit::{self, PadSet};
use crate::head::Measure;
use crate::plan::{Lead, Source};
use crate::profile::{Nature, Reason, ShapeWords, Size};
use crate::render::plan_words::{changed, rounded_up};
use crate::unit::Id;
use itertools::Itertools;
use std::path::Path;

/// What to do now, with everything that can be answered.
#[must_use]
pub fn counter_step(
    catalogue: &Catalogue,
    opening: &Opening,
    standing: &Standing,
    next: &Next<'_>,
    customer: Option<u64>,
) -> String {
    let mut page = Page::default();
    if standing.fits() {
        page.heading("IT FITS  e or Enter writes it down and ends the session, b takes it back");
        return page.finish() + PROMPT;
    }
    page.heading(&title(opening, standing, next, customer));
    head(&mut page, catalogue, next);
    if let Some(now) = &next.now {
        step(&mut page, catalogue, standing, now);
    } else {
        page.wrapped("  now       ", nothing_left(opening));
        page.wrapped(
            "  answers   ",
            "t MODEL SIZE tries one of your own choice, m MEASURE=MM measures, e ends the session, ? shows the rest",
        );
    }
    page.finish() + PROMPT
}

/// What changed with the last answer.
#[must_use]
pub fn counter_remarks(catalogue: &Catalogue, event: &Event, changed: &Remarks, after: &Next<'_>) -> String {
    let is_swap = after.now.as_ref().is_some_and(|now| now.is_swap);
    let mut page = Page::default();
    page.line("");
    page.hanging(&bold("HEARD  "), 7, &heard(catalogue, event));
    if let Some(words) = head_moved(changed) {
        page.wrapped("  head      ", &words);
    }
    match &changed.before {
        None => {}
        Some(Before::Same { then }) => {
            page.wrapped("  plan      ", &format!("as planned; that was to fit {}", percent(*then)));
        }
        Some(Before::Other(outlook)) if is_swap => {
            let words = format!("other pads first; if they don't help either, it has {} for that", outlook.title);
            page.wrapped("  plan      ", &words);
        }
        Some(Before::Other(outlook)) => {
            let words =
                format!("had {}, {}, for that; what was heard now says otherwise", outlook.title, fits(outlook));
            page.wrapped("  plan      ", &words);
        }
        Some(Before::Stop) if is_swap => page.wrapped("  plan      ", "other pads first; it has nothing more for that"),
        Some(Before::Stop) => page.wrapped("  plan      ", "had nothing more for that"),
    }
    page.finish()
}

/// How a session that is left can be gone on with.
#[must_use]
pub fn counter_left(place: Option<(u64, &Path)>) -> String {
    match place {
        None => "Left. Nothing was kept, as no journal was named (--journal FILE).\n".to_owned(),
        Some((customer, journal)) => format!(
            "Left. To go on: lidladder counter --journal {} --resume={customer}\n",
            journal.display().to_string().escape_debug()
        ),
    }
}

/// Where a session that has ended is kept; an empty line where it isn't.
#[must_use]
pub fn counter_kept(place: Option<(u64, &Path)>) -> String {
    let kept = place.map(|(customer, journal)| {
        format!("\nWritten to {} as customer {customer}.\n\n", journal.display().to_string().escape_debug())
    });
    kept.unwrap_or_else(|| "\n".to_owned())
}

fn title(opening: &Opening, standing: &Standing, next: &Next<'_>, customer: Option<u64>) -> String {
    let who = customer.map_or_else(String::new, |number| format!("customer {number}, "));
    let is_swap = next.now.as_ref().is_some_and(|now| now.is_swap);
    let helmets = standing.helmets() + usize::from(next.now.is_some() && !is_swap);
    let minutes = whole_minutes(standing.minutes());
    let most = opening.tries;
    let helmet = match helmets {
        0 => format!("at most {most} helmets"),
        _ if helmets > most => format!("helmet {helmets}, more than the {most} expected"),
        _ => format!("helmet {helmets} of at most {most}"),
    };
    format!("STEP {}  {who}{helmet}, {minutes} minutes so far", standing.tried.len() + 1)
}

fn head(page: &mut Page, catalogue: &Catalogue, next: &Next<'_>) {
    let estimate = &next.head;
    let measure = |at: usize| {
        let (mean, sd) = (estimate.mean[at].value, estimate.sd[at].value);
        format!("{} {mean:.1}±{sd:.1}", Measure::ALL[at].name())
    };
    let words = ShapeWords::NAMES.iter().zip(estimate.words);
    let words = words.map(|(word, share)| format!("{word} {}", percent(share.value))).join(", ");
    let (index, sd) = (estimate.mean[4].value, estimate.sd[4].value);
    page.wrapped("  head      ", &format!("{} mm", (0..4).map(measure).join(", ")));
    page.wrapped("  shape     ", &format!("index {index:.1}±{sd:.1}: {words}"));
    if estimate.rarity > catalogue.shop.inconsistent_above {
        page.wrapped("            ", "such measures hardly ever go together on one head: measure again");
    }
}

fn step(page: &mut Page, catalogue: &Catalogue, standing: &Standing, now: &Now<'_>) {
    let title = format!("{} in {}", now.model.name, now.size.label);
    let verb = if now.is_swap { "  swap in   " } else { "  try       " };
    let error = rounded_up(now.fit.error, 100.0) * 100.0;
    let at_once = if now.is_swap {
        String::new()
    } else {
        format!(" ({} at once)", percent(now.heard.first().map_or(0.0, |fits| fits.value)))
    };
    let chance = format!(
        "- fits {}{at_once}, ±{error:.0} points; {} minutes",
        percent(now.fit.value),
        whole_minutes(now.minutes)
    );
    page.hanging(&format!("{verb}{} ", bold(&title)), 12, &chance);
    let mounted = standing.tried.last().filter(|_| now.is_swap);
    page.wrapped("            ", &mounted.map_or_else(|| pads(now), |tried| swap_words(&tried.helmet.pads, &now.pads)));
    page.wrapped("            ", &origin(catalogue, &now.origin));
    if now.is_swap {
        page.wrapped("  check     ", "all of it once more, the stops first");
    } else {
        checks(page);
    }
    answers::offered(page, &now.heard);
}

fn checks(page: &mut Page) {
    for (at, check) in CHECKS.iter().enumerate() {
        let lead = if at == 0 { "  check     " } else { "            " };
        page.hanging(&format!("{lead}{}. ", at + 1), 15, check.how);
    }
}

fn pads(now: &Now<'_>) -> String {
    let own = pad_words(now.size, &now.pads);
    let bring = now.bring.iter().into_group_map_by(|(zone, _)| *zone);
    let bring = bring.iter().sorted_by_key(|(zone, _)| **zone);
    let bring =
        bring.map(|(zone, all)| format!("{} {}", zone.name(), all.iter().map(|(_, mm)| self::mm(*mm)).join("/")));
    let bring = bring.collect_vec();
    if bring.is_empty() { own } else { format!("{own}; have at hand {} mm", bring.join(", ")) }
}

/// What to take out and what to put in.
fn swap_words(mounted: &PadSet, pads: &PadSet) -> String {
    let swaps = fit::changed(mounted, pads).map(|(zone, to)| {
        let from = mounted.get(zone).map_or_else(String::new, mm);
        format!("{} {from} -> {}", zone.name(), mm(to))
    });
    format!("{} mm; the other pads stay", swaps.collect_vec().join(", "))
}

/// A pad set by what is not standard in it.
pub(super) fn pad_words(size: &Size, pads: &PadSet) -> String {
    let changed = changed(&size.standard, pads);
    if changed.is_empty() {
        return "standard pads".to_owned();
    }
    changed.iter().map(|(zone, mm, word)| format!("{word} {} ({} mm)", zone.name(), self::mm(*mm))).join(", ")
}

fn origin(catalogue: &Catalogue, origin: &Origin) -> String {
    match origin {
        Origin::Fitter => "your own choice".to_owned(),
        Origin::Plan { source, rival } => {
            let own = said(catalogue, *source);
            match rival {
                None => own,
                Some(rival) => {
                    format!("{own}; instead of {}: {}, {}", whose(catalogue, rival.source), rival.title, fits(rival))
                }
            }
        }
    }
}

fn said(catalogue: &Catalogue, source: Source) -> String {
    match source {
        Source::Computed => "computed".to_owned(),
        Source::Rule(rule) => format!("shop's rule: {}", catalogue.edges().get(rule).map_or("", |edge| &edge.note)),
    }
}

fn whose(catalogue: &Catalogue, source: Source) -> String {
    match source {
        Source::Computed => "the computed one".to_owned(),
        Source::Rule(rule) => {
            format!("the shop's rule \"{}\"", catalogue.edges().get(rule).map_or("", |edge| &edge.note))
        }
    }
}

fn fits(outlook: &Outlook) -> String {
    format!("fits {}", percent(outlook.fit.value))
}

fn nothing_left(opening: &Opening) -> &'static str {
    if opening.lead == Lead::ShopOnly {
        "the shop has no rule for what was heard"
    } else {
        "nothing left in this range is worth the minutes of a try"
    }
}

fn heard(catalogue: &Catalogue, event: &Event) -> String {
    let name = |id: &Id| catalogue.model(id.as_str()).map_or_else(|| id.to_string(), |m| m.name.clone());
    match event {
        Event::Tried(tried) => tried_words(catalogue, tried),
        Event::Chose(helmet) if helmet.is_swap => "other pads, your own choice".to_owned(),
        Event::Chose(helmet) => format!("{} in {}, your own choice", name(&helmet.model), helmet.size),
        Event::Declined(model) => format!("the customer doesn't want to put {} on: it is out", name(model)),
        Event::Measured(read) => format!("{} {}±{} mm", read.measure.name(), mm(read.value), mm(read.sd)),
        Event::TookBack => "the last answer is taken back".to_owned(),
        Event::Ended => "the session ends".to_owned(),
    }
}

/// A round in words: `Wexmarsh One in L, standard pads: the temples press`.
pub(super) fn tried_words(catalogue: &Catalogue, tried: &Tried) -> String {
    let OnHead { model, size, .. } = &tried.helmet;
    let title = catalogue.model(model.as_str()).map_or_else(|| model.to_string(), |model| model.name.clone());
    format!("{title} in {size}, {}", round_words(catalogue, tried))
}

/// The same without the helmet: `standard pads: the temples press`.
pub(super) fn round_words(catalogue: &Catalogue, tried: &Tried) -> String {
    let pads = found(catalogue, tried).map_or_else(String::new, |size| pad_words(size, &tried.helmet.pads));
    format!("{pads}: {}", outcome(tried.reason))
}

fn outcome(reason: Option<Reason>) -> String {
    match reason {
        None => "it fits".to_owned(),
        Some(reason) if reason.nature() == Nature::Stop => {
            format!("{}. A STOP: this model in this size is out, whatever the pads", reason.words())
        }
        Some(reason) => reason.words().to_owned(),
    }
}

fn found<'a>(catalogue: &'a Catalogue, tried: &Tried) -> Option<&'a Size> {
    let model = catalogue.model(tried.helmet.model.as_str())?;
    model.size(&tried.helmet.size).map(|(_, size)| size)
}

fn head_moved(changed: &Remarks) -> Option<String> {
    let [(before, its_sd), (after, sd)] = changed.index;
    let moves_little = (after - before).abs() < 0.05 && (sd - its_sd).abs() < 0.05;
    let measures =
        changed.moved.iter().map(|(at, then, now)| format!("{} {then:.1} -> {now:.1} mm", Measure::ALL[*at].name()));
    let measures = measures.collect_vec();
    if moves_little && measures.is_empty() {
        return None;
    }
    let index = format!("shape index {before:.1}±{its_sd:.1} -> {after:.1}±{sd:.1}");
    Some(std::iter::once(index).chain(measures).join("; "))
}
