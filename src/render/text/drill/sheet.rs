//! The result of a run.

use super::super::page::{Page, fixed, percent, whole_minutes};
use super::wall::{customers_in_words, exercises, heads};
use super::words::{answered, tenths};
use crate::catalogue::Catalogue;
use crate::drill::{Again, Done, Scored, Sheet, Standing};
use crate::fit::Quote;
use itertools::Itertools;

/// What somebody did: scores, what to practise, and when it returns.
#[must_use]
pub fn drill_sheet(catalogue: &Catalogue, sheet: &Sheet<'_, '_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    head(&mut page, sheet);
    if sheet.done.is_empty() {
        page.wrapped("  score     ", "none: no customer was finished");
    } else {
        table(&mut page, sheet);
        sessions(&mut page, sheet);
        weak(&mut page, catalogue, sheet);
        others(&mut page, sheet);
    }
    returns(&mut page, sheet);
    page.cautions(cautions);
    format!("\n{}", page.finish())
}

fn head(page: &mut Page, sheet: &Sheet<'_, '_>) {
    let wanted = sheet.wanted;
    let done = sheet.done.len() as u64;
    let of = if done == sheet.tasks { String::new() } else { format!("{done} of ") };
    let customers = customers_in_words(sheet.tasks);
    page.heading(&format!(
        "RESULT  {of}{customers}, level {}, seed {}, {}",
        wanted.level.number(),
        wanted.seed,
        wanted.day
    ));
    page.wrapped("  asked     ", &exercises(wanted));
    page.wrapped("  heads     ", &heads(wanted));
    if wanted.again == Again::Never {
        page.wrapped("  again     ", "nothing: everybody with this seed and these options has had the same customers");
    }
}

fn table(page: &mut Page, sheet: &Sheet<'_, '_>) {
    page.heading("SCORE                 customers    score    minutes lost     rounds lost");
    for scored in &sheet.scores.exercises {
        let [minutes, tries] = if is_timed(scored) {
            [scored.more_minutes, scored.more_tries].map(|lost| tenths(a_customer(lost, scored.tasks)))
        } else {
            ["", ""].map(str::to_owned)
        };
        let (name, score) = (fixed(scored.exercise.words(), 20), percent(scored.score));
        page.line(&format!("  {name}  {:>7}  {score:>7}  {minutes:>14}  {tries:>14}", scored.tasks));
    }
    if let Some(all) = sheet.scores.in_all {
        page.line(&format!("  {}  {:>7}  {:>7}", fixed("in all", 20), sheet.done.len(), percent(all)));
    }
    page.wrapped(
        "  ",
        "Lost: a customer, against the best plan, as it could be expected when each answer was given, the best being done \
         from there on. Luck doesn't count. The score is the plan's minutes as a share of those of the answers, going without \
         counted; of shapes and stops, what an answer is worth. What can hurt somebody scores 0.",
    );
}

/// Minutes hang on what is tried.
fn is_timed(scored: &Scored) -> bool {
    use crate::drill::Exercise as E;
    matches!(scored.exercise, E::Session | E::Next | E::Pads)
}

fn a_customer(lost: Quote, tasks: usize) -> Quote {
    #[expect(clippy::cast_precision_loss, reason = "a count of customers")]
    let tasks = tasks.max(1) as f64;
    Quote { value: lost.value / tasks, error: lost.error / tasks }
}

fn sessions(page: &mut Page, sheet: &Sheet<'_, '_>) {
    let took = sheet.done.iter().filter_map(|done| Some((done, done.took?))).collect_vec();
    if took.is_empty() {
        return;
    }
    page.heading("SESSIONS");
    for (done, took) in took {
        let helmets = if took.helmets == 1 { "1 helmet".to_owned() } else { format!("{} helmets", took.helmets) };
        let end = if took.fits { "a fit" } else { "no helmet" };
        let lost = done.more_minutes();
        let words = format!("{helmets}, {} minutes, {end}; lost {lost:.1} minutes", whole_minutes(took.minutes));
        page.wrapped(&format!("  customer {}: ", done.number), &words);
    }
}

fn weak(page: &mut Page, catalogue: &Catalogue, sheet: &Sheet<'_, '_>) {
    page.heading("WHAT TO PRACTISE");
    if sheet.earlier > 0 {
        let most = catalogue.shop.practice.looks_back;
        page.wrapped("  ", &format!("With the last choices of earlier runs, up to {most:.0} of a kind in all."));
    }
    if sheet.weak.is_empty() {
        page.wrapped("  ", "Nothing that these answers are enough to be sure of.");
    }
    for (at, standing) in sheet.weak.iter().enumerate() {
        let minutes =
            if standing.minutes > 0.0 { format!("; it cost {:.1} minutes", standing.minutes) } else { String::new() };
        page.hanging(&format!("{:>3}. ", at + 1), 5, &format!("{}{minutes}", often(standing)));
        page.hanging("     instead: ", 14, standing.habit.instead());
        if let Some((done, mark)) = sheet.example(standing.habit) {
            let answer = answered(catalogue, &mark.answer);
            page.hanging("     such as: ", 14, &format!("customer {}, {answer}", done.number));
        }
    }
}

fn often(standing: &Standing) -> String {
    format!("{}, {} of {} times", standing.habit.words(), standing.slips, standing.choices)
}

fn others(page: &mut Page, sheet: &Sheet<'_, '_>) {
    if !sheet.in_hand.is_empty() {
        page.heading("IN HAND");
        sheet.in_hand.iter().for_each(|standing| page.wrapped("  - ", &often(standing)));
    }
    if !sheet.open.is_empty() {
        page.heading("TOO FEW CHOICES TO SAY");
        sheet.open.iter().for_each(|standing| page.wrapped("  - ", &often(standing)));
    }
}

fn returns(page: &mut Page, sheet: &Sheet<'_, '_>) {
    if sheet.returns.is_empty() {
        return;
    }
    page.heading("RETURNS");
    for again in &sheet.returns {
        let done: &[Done] = sheet.done;
        let next = done.last().map_or(1, |done| done.number + 1);
        let words =
            format!("{}: from customer {} on, or from {} on", again.habit.words(), again.number.max(next), again.day);
        page.wrapped("  - ", &words);
    }
}
