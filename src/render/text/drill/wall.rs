//! What is there to practise with.

use super::super::page::{PROMPT, Page, mm};
use crate::catalogue::Catalogue;
use crate::drill::{Again, Exercise, Level, Spread, Wanted};
use crate::profile::{Model, Shell, Size, Zone};
use crate::supply::on_offer;
use itertools::Itertools;

/// How a run begins: what comes, and what hangs on the wall where helmets are asked for.
#[must_use]
pub fn drill_begins(catalogue: &Catalogue, wanted: &Wanted<'_>, customers: u64) -> String {
    let mut page = Page::default();
    let level = wanted.level.number();
    page.heading(&format!("PRACTICE  {}, level {level}, seed {}", customers_in_words(customers), wanted.seed));
    page.wrapped("  asked     ", &exercises(wanted));
    page.wrapped("  known     ", known(wanted.level));
    page.wrapped("  heads     ", &heads(wanted));
    page.wrapped("  again     ", again(wanted.again));
    page.wrapped("  answers   ", "a few letters each; ? shows what can be answered, q ends the run with the results");
    wall(&mut page, catalogue, wanted);
    page.finish()
}

/// What can be answered, and the wall once more.
#[must_use]
pub fn drill_help(catalogue: &Catalogue, wanted: &Wanted<'_>) -> String {
    let mut page = Page::default();
    page.line("");
    HELP.iter().for_each(|(answer, meaning)| page.hanging(&format!("  {answer:<18}"), 20, meaning));
    wall(&mut page, catalogue, wanted);
    page.finish() + "\n" + PROMPT
}

/// The thicknesses of a zone that any shell of a model takes.
#[must_use]
pub fn drill_pads(model: &Model, zone: Zone) -> String {
    let pads = thicknesses(model.sizes(), zone);
    if pads.is_empty() { "none".to_owned() } else { format!("{} mm", in_a_row(&pads)) }
}

const HELP: [(&str, &str); 9] = [
    (
        "MODEL SIZE",
        "fetches a helmet: wexmarsh-one M. Beginnings are enough where no other model has the same: wex-o M. Pads that are not standard stand behind: wex-o M sides=10",
    ),
    ("ZONE=MM ...", "other pads in the helmet on the head: p sides=10 cheeks=28, or without the p"),
    ("none", "no pads help, another helmet (where pads are asked for)"),
    ("e", "nothing more is worth trying: the customer goes"),
    ("long", "the shape: long, intermediate or round, or the beginning of it"),
    ("stop", "it is an absolute stop"),
    ("no", "it is none"),
    ("?", "this"),
    ("q", "ends the run: what was finished counts"),
];

/// All models with the sizes that are there.
pub(super) fn wall(page: &mut Page, catalogue: &Catalogue, wanted: &Wanted<'_>) {
    if wanted.exercises.iter().all(|exercise| matches!(exercise, Exercise::Shape | Exercise::Stop)) {
        return;
    }
    page.heading("ON THE WALL  each size with its label's range in cm");
    for model in &wanted.models {
        let is_here =
            |(_, size): &(&Shell, &Size)| !wanted.absent.iter().any(|gone| gone.0 == model.id && gone.1 == size.label);
        let sizes = model.sizes().filter(is_here).map(|(_, size)| {
            format!("{}={}-{}", size.label, mm(size.circumference.0 / 10.0), mm(size.circumference.1 / 10.0))
        });
        // Whoever is beyond the first level knows the models.
        let shape = match wanted.level {
            Level::First => format!(", {}", catalogue.shop.words.word(model.interior.shape_index)),
            Level::Second | Level::Third => String::new(),
        };
        let words = format!("{}, {}{shape}: {}", model.name, model.kind.name(), sizes.collect_vec().join(", "));
        page.hanging(&format!("  {:<20}", model.id.as_str()), 22, &words);
    }
}

/// What is in the drawer for a model: at the first level by shell; then all of it, and the shells are for the trainee to
/// know.
pub(super) fn drawer(page: &mut Page, model: &Model, level: Level) {
    if level != Level::First {
        let all = offered(model.sizes().collect_vec().as_slice());
        page.wrapped("  drawer    ", &format!("all pads of {}, its shells mixed: {all}", model.name));
        return;
    }
    for (at, shell) in model.shells.iter().enumerate() {
        let lead = if at == 0 { "  drawer    " } else { "            " };
        // Sizes of a shell that take the same pads stand together.
        let sizes = shell.sizes.iter().map(|size| (size, offered(&[(shell, size)])));
        let alike = sizes.chunk_by(|(_, pads)| pads.clone());
        let groups = alike
            .into_iter()
            .map(|(pads, sizes)| format!("for {}: {pads}", sizes.map(|(size, _)| size.label.as_str()).join(", ")));
        page.hanging(lead, 14, &format!("shell {} {}", shell.id, groups.collect_vec().join("; ")));
    }
}

/// What is there for any of these sizes, zone by zone. Zones without a choice are left out.
fn offered(sizes: &[(&Shell, &Size)]) -> String {
    let has_choice = |zone: &Zone| sizes.iter().any(|(shell, size)| !on_offer(shell, size, *zone).is_empty());
    let zones = Zone::ALL.into_iter().filter(has_choice);
    let zones = zones.map(|zone| (zone, thicknesses(sizes.iter().copied(), zone)));
    let words = zones.map(|(zone, pads)| format!("{} {}", zone.name(), in_a_row(&pads))).join(", ");
    if words.is_empty() { "no other pads".to_owned() } else { words + " mm" }
}

fn thicknesses<'m>(sizes: impl Iterator<Item = (&'m Shell, &'m Size)>, zone: Zone) -> Vec<f64> {
    let all = sizes.flat_map(|(shell, size)| on_offer(shell, size, zone).into_iter().chain(*size.standard.get(zone)));
    let sorted = all.sorted_by(f64::total_cmp).collect_vec();
    sorted.into_iter().dedup_by(|a, b| (a - b).abs() < 1e-9).collect()
}

fn in_a_row(pads: &[f64]) -> String {
    pads.iter().map(|pad| mm(*pad)).join("/")
}

pub(super) fn customers_in_words(customers: u64) -> String {
    if customers == 1 { "1 customer".to_owned() } else { format!("{customers} customers") }
}

pub(super) fn exercises(wanted: &Wanted<'_>) -> String {
    wanted.exercises.iter().map(|exercise| exercise.words()).join(", ")
}

pub(super) fn heads(wanted: &Wanted<'_>) -> String {
    let spread = match wanted.spread {
        Spread::Even => "rare heads come as often as common ones, so more of them than in a shop",
        Spread::AsTheyCome => "as often as they come into the shop",
    };
    format!("{}; {spread}", wanted.population.name)
}

fn known(level: Level) -> &'static str {
    match level {
        Level::First => "tape and caliper in trained hands, a look from above; customers say what they feel",
        Level::Second => "the tape, a look from above, where a worn helmet hurts; customers say what they feel",
        Level::Third => {
            "the customer's own tape, where a worn helmet hurts; what customers say is wrong as often as the shop assumes"
        }
    }
}

fn again(again: Again) -> &'static str {
    match again {
        Again::Due => "what went wrong comes again after some customers",
        Again::Never => "nothing comes again: the same customers for everybody with this seed and these options",
    }
}
