//! `fallbacks`: the shop's rules, all or some of them.

use super::args::{TypedGraphFormat, TypedShown};
use super::resolve::Resolver;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources};
use crate::fallback::{Excerpt, Question};
use crate::render::{dot, html, json, svg, text};
use itertools::Itertools;

/// The most reasons of a way: `plan` lets nobody try on more helmets.
const MOST_REASONS: usize = 8;

pub(super) fn answer(
    typed: &TypedShown,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let question = question(typed, catalogue, sources)?;
    let excerpt = Excerpt::new(catalogue.models(), catalogue.edges(), question);
    let text = match typed.format {
        TypedGraphFormat::Text => text::fallbacks(&excerpt, text::FALLBACKS_CAUTIONS),
        TypedGraphFormat::Json => json::text(&json::fallbacks(&excerpt, text::FALLBACKS_CAUTIONS)),
        TypedGraphFormat::Html => html::fallbacks(&catalogue.shop.name, &excerpt, text::FALLBACKS_CAUTIONS),
        TypedGraphFormat::Dot => dot::fallbacks(&excerpt),
        TypedGraphFormat::Svg => svg::fallbacks(&excerpt)
            .map_err(|fault| {
                let help = "ask for a part of it with --from or --if, or hand --format dot to a graph tool";
                vec![Diagnostic::error(Code("drawing-too-large"), fault.to_string()).help(help)]
            })?
            .file(),
    };
    let ending = if excerpt.has_answer() { Ending::Done } else { Ending::Findings };
    Ok(Output { text, ending })
}

fn question<'a>(
    typed: &TypedShown,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Question<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let from = typed.from.as_ref().map(|id| resolver.model(&sources.say("--from", id.clone()), catalogue));
    let reasons = typed.reasons.iter().map(|reason| resolver.reason(&sources.say("--if", reason.clone())));
    let reasons = reasons.collect_vec().into_iter().flatten().collect_vec();
    let question = match from {
        None if reasons.is_empty() => Some(Question::All),
        None => Some(Question::For(reasons)),
        Some(model) if reasons.is_empty() => model.map(|model| Question::About(&model.id)),
        Some(model) => model.map(|model| Question::Ways(&model.id, reasons)),
    };
    let question = resolver.finish(question)?;
    if let Question::Ways(_, reasons) = &question
        && reasons.len() > MOST_REASONS
    {
        let message = format!("a way for {} reasons one after the other is asked for", reasons.len());
        let help = format!("at most {MOST_REASONS} can be followed: nobody tries on more helmets");
        return Err(vec![Diagnostic::error(Code("way-too-long"), message).help(help)]);
    }
    Ok(question)
}
