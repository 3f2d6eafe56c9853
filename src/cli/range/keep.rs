//! `range keep`: the smallest range that still serves nearly everybody.

use super::super::args::{TypedKeep, TypedPictureFormat, TypedServedWith};
use super::super::resolve::{Asked, Resolver, asked, column};
use super::super::{Ending, Output};
use super::people::{counted, customers};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::{FewerWanted, KEEP_STEPS, Pads, keep};
use crate::render::{html, json, svg, text};
use itertools::Itertools;

pub(super) fn answer(
    typed: &TypedKeep,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.counted.people, &typed.counted.filter, catalogue, sources)?;
    let wanted = wanted(typed, &asked, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf, sources)?;
    let fewer = keep(shelf, &counted, &wanted, asked.seed);
    let customers = customers(&asked, &counted);
    let cautions = text::RANGE_CAUTIONS;
    let text = match typed.format {
        TypedPictureFormat::Text => text::range_keep(&customers, &wanted, &fewer, cautions),
        TypedPictureFormat::Json => json::text(&json::range_keep(&customers, &wanted, &fewer, cautions)),
        TypedPictureFormat::Html => html::range_keep(catalogue, &customers, &wanted, &fewer, cautions),
        TypedPictureFormat::Svg => svg::models_and_shares(&wanted, &fewer).file(),
    };
    Ok(Output { text, ending: Ending::Done })
}

fn wanted(
    typed: &TypedKeep,
    asked: &Asked<'_>,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<FewerWanted, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let share = typed.share.as_ref().map(|text| resolver.share(&sources.say("--share", text.clone())));
    let always =
        typed.always.iter().map(|id| column(&mut resolver, &sources.say("--always", id.clone()), asked, catalogue));
    let always = always.collect_vec().into_iter().flatten().sorted_unstable().dedup().collect_vec();
    let keep = share.unwrap_or(Some(catalogue.shop.buying.keep));
    let pads = match typed.pads {
        TypedServedWith::OnOffer => Pads::OnOffer,
        TypedServedWith::Standard => Pads::Standard,
    };
    resolver.finish(keep.map(|keep| FewerWanted { keep, always, pads, steps: KEEP_STEPS }))
}
