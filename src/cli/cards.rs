//! `cards`: one page about each model.

use super::args::{TypedCardFormat, TypedCards};
use super::range::{counted, customers};
use super::resolve::{Asked, Resolver, asked, column};
use super::{Ending, Output};
use crate::card::cards;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{CardDeck, html, json, markdown, text};
use itertools::Itertools;

pub(super) fn answer(
    typed: &TypedCards,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let columns = columns(typed, &asked, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf, sources)?;
    let made = cards(catalogue, &shelf, &counted, &columns, asked.seed);
    let customers = customers(&asked, &counted);
    let deck = CardDeck { catalogue, customers: &customers, cards: &made, cautions: text::CARD_CAUTIONS };
    let text = match typed.format {
        TypedCardFormat::Text => text::cards(&deck),
        TypedCardFormat::Markdown => markdown::cards(&deck),
        TypedCardFormat::Html => html::cards(&deck),
        TypedCardFormat::Json => json::text(&json::cards(&deck)),
    };
    Ok(Output { text, ending: Ending::Done })
}

/// Where the models stand whose cards are wanted: each once, in the order in which they were named; all without a name.
fn columns(
    typed: &TypedCards,
    asked: &Asked<'_>,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Vec<usize>, Vec<Diagnostic>> {
    if typed.models.is_empty() {
        return Ok((0..asked.models.len()).collect());
    }
    let mut resolver = Resolver::default();
    let named =
        typed.models.iter().map(|id| column(&mut resolver, &sources.say("MODEL", id.clone()), asked, catalogue));
    let named = named.collect_vec().into_iter().flatten().unique().collect();
    resolver.finish(Some(named))
}
