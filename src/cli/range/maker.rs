//! `range maker`

use super::super::args::{TypedJournals, TypedMaker, TypedPageFormat};
use super::super::journal::{named, unreadable};
use super::super::resolve::asked;
use super::super::{Ending, Output};
use super::people::counted;
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources, known_here};
use crate::journal::{Record, read};
use crate::range::{Column, Shelf, complaints, maker_sheet};
use crate::render::{html, json, text};
use itertools::Itertools;

pub(super) fn answer(
    typed: &TypedMaker,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let maker = maker(typed, catalogue, sources)?;
    let asked = asked(&typed.counted.people, &typed.counted.filter, catalogue, sources)?;
    if !asked.models.iter().any(|model| model.maker == maker) {
        let problem = Diagnostic::error(Code("nothing-left"), format!("these filters leave no helmet of {maker}"));
        return Err(vec![problem.help("loosen one of them")]);
    }
    let (journals, unread) = journals(typed)?;
    // What is out of stock here is on offer all the same: its maker sells it.
    let columns = asked.models.iter().map(|model| Column::of(model, catalogue)).collect();
    let shelf = Shelf::new(columns, catalogue.shop.fit);
    let counted = counted(&asked, &shelf, sources)?;
    let sheet = maker_sheet(maker, &shelf, &counted.kept, catalogue, asked.seed);
    let heard = complaints(&sheet.models, &journals, least_tries(catalogue));
    let heard = (!typed.journal.is_empty()).then_some((&heard, unread));
    let text = match typed.format {
        TypedPageFormat::Text => text::range_maker(catalogue, asked.population, &sheet, heard),
        TypedPageFormat::Json => {
            let origin = json::SheetOrigin {
                seed: asked.seed,
                population: asked.population,
                shop: &catalogue.shop.name,
                currency: catalogue.shop.currency.as_str(),
            };
            json::text(&json::range_maker(origin, &sheet, heard))
        }
        TypedPageFormat::Html => html::range_maker(catalogue, asked.population, &sheet, heard),
    };
    Ok(Output { text, ending: if unread > 0 { Ending::Findings } else { Ending::Done } })
}

/// The maker as the profiles write the name.
fn maker<'a>(typed: &TypedMaker, catalogue: &'a Catalogue, sources: &mut Sources) -> Result<&'a str, Vec<Diagnostic>> {
    let said = sources.say("NAME", typed.maker.clone());
    let known = catalogue.models().iter().map(|model| model.maker.as_str()).sorted().dedup().collect_vec();
    let wanted = typed.maker.to_lowercase();
    known.iter().find(|maker| maker.to_lowercase() == wanted).copied().ok_or_else(|| {
        let problem = Diagnostic::error(Code("unknown-maker"), "no helmet of the profiles is by this maker");
        vec![problem.at(said.span, "not known").help(known_here(&typed.maker, &known))]
    })
}

/// The records of each journal, and how many lines are none.
fn journals(typed: &TypedMaker) -> Result<(Vec<Vec<Record>>, usize), Vec<Diagnostic>> {
    if typed.journal.is_empty() {
        return Ok((Vec::new(), 0));
    }
    let mut journals = Vec::new();
    let mut unread = 0;
    for path in named(&TypedJournals { files: typed.journal.clone(), journal: None })? {
        let contents = read(&path).map_err(|fault| vec![unreadable(&fault)])?;
        unread += contents.bad_lines;
        journals.push(contents.records.into_iter().map(|(_, record)| record).collect());
    }
    Ok((journals, unread))
}

/// Fewer tries of a size say nothing of it.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the bounds of profiles keep it small")]
fn least_tries(catalogue: &Catalogue) -> usize {
    catalogue.shop.learning.least_customers as usize
}
