//! One customer: what is known, what is asked, what is heard.

use super::super::counter::tried_words;
use super::super::page::{PROMPT, Page, bold, mm, whole_minutes};
use super::DrillLook;
use super::look::drawn;
use super::wall::drawer;
use super::words::{helmet, is_prevented, says, whole};
use crate::catalogue::Catalogue;
use crate::counter::Standing;
use crate::drill::{Exercise, Level, Look, Task, Turn};
use crate::journal::Read;
use crate::profile::{Measurer, ShapeWords, Tool};
use itertools::Itertools;

/// What is known of a customer, and what is asked. `place` says the how manieth of how many it is.
#[must_use]
pub fn drill_task(catalogue: &Catalogue, task: &Task<'_>, place: (u64, u64), look: DrillLook) -> String {
    let (at, of) = place;
    let mut page = Page::default();
    let number = if task.number == at { format!("{at} of {of}") } else { format!("{} ({at} of {of})", task.number) };
    page.heading(&format!("CUSTOMER {number}  {}", task.exercise.words()));
    known(&mut page, catalogue, task, look);
    page.wrapped("  asked     ", question(task.exercise));
    format!("\n{}{PROMPT}", page.finish())
}

/// What the customer says of the last answer, and what is asked now.
#[must_use]
pub fn drill_heard(catalogue: &Catalogue, turn: &Turn<'_, '_>) -> String {
    let Some(mark) = turn.marks().last() else { return String::new() };
    let mut page = Page::default();
    if mark.helmet.is_some() && !is_prevented(mark) {
        page.hanging(&bold("HEARD  "), 7, &format!("{} {}", says(mark.heard), so_far(turn)));
    }
    if turn.is_over() {
        return page.finish();
    }
    on_head(&mut page, catalogue, &turn.standing(), turn.task().level);
    page.wrapped("  asked     ", question(turn.task().exercise));
    page.finish() + PROMPT
}

/// Everything that a fitter would have.
pub(super) fn known(page: &mut Page, catalogue: &Catalogue, task: &Task<'_>, look: DrillLook) {
    if let Some(situation) = task.situation {
        page.wrapped("  seen      ", situation.seen);
        return;
    }
    page.wrapped("  measured  ", &readings(&task.person.known.readings));
    for worn in &task.person.known.wears {
        let outcome = worn.reason.map_or("it fits", |reason| reason.words());
        page.wrapped("  comes in  ", &format!("with {}: {outcome}", helmet(catalogue, (&worn.model, &worn.size))));
    }
    seen(page, task, look);
    on_head(page, catalogue, &Standing::after(&task.before), task.level);
}

/// What is asked, with what can be answered.
pub(super) fn question(exercise: Exercise) -> &'static str {
    match exercise {
        Exercise::Session => "what now? MODEL SIZE, other pads as sides=10, or e to let the customer go",
        Exercise::Next => "what next? MODEL SIZE, other pads as sides=10, or e to let the customer go",
        Exercise::Shape => "which shape is it? long, intermediate or round",
        Exercise::Pads => "which pads? such as sides=10 cheeks=28; or none: no pads help, another helmet",
        Exercise::Stop => "is it an absolute stop? stop, or no",
    }
}

fn so_far(turn: &Turn<'_, '_>) -> String {
    if turn.task().exercise != Exercise::Session {
        return String::new();
    }
    let standing = turn.standing();
    let (helmets, minutes) = (standing.helmets(), whole_minutes(standing.minutes()));
    format!("Helmet {helmets} of at most {}, {minutes} minutes so far.", turn.task().opening.tries)
}

fn readings(reads: &[Read]) -> String {
    let groups = reads.iter().chunk_by(|read| (read.with, read.by));
    let words = groups.into_iter().map(|((with, by), reads)| {
        let values = reads.map(|read| format!("{} {}±{}", read.measure.name(), mm(read.value), mm(read.sd))).join(", ");
        format!("{values} mm ({}, {})", tool(with), measurer(by))
    });
    let words = words.collect_vec();
    if words.is_empty() { "nothing".to_owned() } else { words.join("; ") }
}

fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Tape => "tape",
        Tool::Caliper => "caliper",
        Tool::Ruler => "ruler",
        Tool::Phone => "phone",
    }
}

fn measurer(by: Measurer) -> &'static str {
    match by {
        Measurer::Staff => "by staff",
        Measurer::Customer => "by the customer",
    }
}

fn seen(page: &mut Page, task: &Task<'_>, look: DrillLook) {
    match (look, Look::of(&task.person)) {
        (DrillLook::Drawn, Some(seen)) => {
            page.wrapped("  looks     ", "from above, the face at the top; a row is 1 cm, a column half a cm");
            drawn(&seen).iter().for_each(|line| page.line(line));
        }
        // The word would be the answer.
        (DrillLook::Words, Some(seen)) if task.exercise == Exercise::Shape => {
            let index = 100.0 * seen.breadth / seen.length;
            page.wrapped("  looks     ", &format!("from above {index:.0} wide where it is 100 long"));
        }
        (DrillLook::Words, Some(_)) => {
            let word =
                task.person.known.shape.and_then(|shape| ShapeWords::NAMES.get(shape)).copied().unwrap_or_default();
            page.wrapped("  looks     ", &format!("{word} from above"));
        }
        (_, None) => {}
    }
}

/// What failed before, what is in the helmet on the head, and what the drawer has for it.
fn on_head(page: &mut Page, catalogue: &Catalogue, standing: &Standing, level: Level) {
    let Some((on, _)) = standing.failed() else { return };
    for (at, tried) in standing.tried.iter().enumerate() {
        let lead = if at == 0 { "  tried     " } else { "            " };
        page.hanging(lead, 14, &tried_words(catalogue, tried));
    }
    page.wrapped("  in it     ", &whole(&on.pads));
    if let Some(model) = catalogue.model(on.model.as_str()) {
        drawer(page, model, level);
    }
}
