//! Questions to hand out.

use super::super::page::Page;
use super::DrillLook;
use super::task::{known, question};
use super::wall::{customers_in_words, heads, wall};
use crate::catalogue::Catalogue;
use crate::drill::{Task, Wanted};
use itertools::Itertools;

/// The questions, each with a line for the answer, and without solutions.
#[must_use]
pub fn drill_paper(catalogue: &Catalogue, wanted: &Wanted<'_>, tasks: &[Task<'_>], look: DrillLook) -> String {
    let mut page = Page::default();
    let count = customers_in_words(tasks.len() as u64);
    page.heading(&format!("PAPER  {count}, level {}, seed {}", wanted.level.number(), wanted.seed));
    page.wrapped("  heads     ", &heads(wanted));
    page.wrapped("  answers   ", "one a line, in the order of the questions");
    page.wrapped("  checked   ", &checked(wanted));
    wall(&mut page, catalogue, wanted);
    for task in tasks {
        page.heading(&format!("{}.  {}", task.number, task.exercise.words()));
        known(&mut page, catalogue, task, look);
        page.wrapped("  asked     ", question(task.exercise));
        page.line("");
        page.line(&format!("  answer    {}", "_".repeat(50)));
    }
    page.finish()
}

fn checked(wanted: &Wanted<'_>) -> String {
    let exercises = wanted.exercises.iter().map(|exercise| exercise.id()).join(",");
    format!("with the same options, and in place of --paper --same-for-all --exercise {exercises} --answers FILE")
}
