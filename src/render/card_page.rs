//! What stands on a card: headings, words, tables and lists, the same on every kind of page.
//!
//! All texts are plain; whoever writes them down makes them harmless in their own format.

mod figures;
mod heard;
mod pads;
mod suits;

use crate::card::Card;
use crate::profile::{ChinRoom, Model, Origin};
use crate::render::CardDeck;
use crate::render::diagnostics::one_line;
use crate::render::table::Table;
use crate::render::text::thousands;
use crate::unit::plain;
use itertools::Itertools;

/// A card.
pub(super) struct CardPage {
    /// The model's id.
    pub(super) id: String,
    /// The model's name.
    pub(super) title: String,
    /// What kind of helmet it is, and how well its inside is known.
    pub(super) facts: Vec<String>,
    /// The rest of what is told of it.
    pub(super) sections: Vec<Section>,
}

/// All cards, and what must be said with each that is handed on by itself.
pub(super) struct CardPages {
    pub(super) cards: Vec<CardPage>,
    pub(super) closing: Vec<Section>,
}

/// A part of a card under a heading.
pub(super) struct Section {
    /// What a style sheet calls it.
    pub(super) key: &'static str,
    /// The heading.
    pub(super) title: &'static str,
    /// What stands below it.
    pub(super) parts: Vec<Part>,
}

/// Something that stands on a card.
pub(super) enum Part {
    Words(String),
    List(Vec<String>),
    Table(Table),
}

/// The cards of a deck, in its order.
pub(super) fn pages(deck: &CardDeck<'_>) -> CardPages {
    let said = |key, title, words| Section { key, title, parts: vec![Part::Words(words)] };
    CardPages {
        cards: deck.cards.cards.iter().map(|card| CardPage::of(card, deck)).collect(),
        closing: vec![said("cautions", "Cautions", deck.cautions.join(" ")), said("how", "How sure", how(deck))],
    }
}

impl CardPage {
    fn of(card: &Card<'_>, deck: &CardDeck<'_>) -> Self {
        let sections = [
            suits::suits(card),
            pads::pads(card, deck.catalogue.shop.currency.as_str()),
            heard::heard(card),
            heard::next(card, deck.catalogue),
            heard::other_rules(card, deck.catalogue),
        ];
        let sections = sections.into_iter().filter(|section| !section.parts.is_empty());
        Self {
            id: card.model.id.to_string(),
            title: one_line(&card.model.name),
            facts: vec![helmet(card.model, deck), inside(card, deck)],
            sections: sections.collect(),
        }
    }
}

/// What everybody can see and weigh.
fn helmet(model: &Model, deck: &CardDeck<'_>) -> String {
    let attributes = &model.attributes;
    let mut facts = vec![
        format!("{}, by {}", model.kind.name(), one_line(&model.maker)),
        format!("{} {}", model.price, deck.catalogue.shop.currency.as_str()),
        format!("{} g", plain(attributes.mass_g)),
    ];
    facts.extend(attributes.noise_db.map(|noise| format!("{} dB(A)", plain(noise))));
    facts.push(if attributes.spectacle_channel { "spectacle channel" } else { "no spectacle channel" }.to_owned());
    facts.push(if attributes.intercom_ready { "intercom-ready" } else { "not intercom-ready" }.to_owned());
    facts.push(chin(attributes.chin_room).to_owned());
    facts.push(match &attributes.approvals[..] {
        [] => "no approval in the profile".to_owned(),
        approvals => approvals.iter().map(|mark| one_line(mark)).join(", "),
    });
    facts.join("; ")
}

fn chin(room: Option<ChinRoom>) -> &'static str {
    match room {
        None => "no chin bar",
        Some(ChinRoom::Small) => "little room before the chin",
        Some(ChinRoom::Medium) => "some room before the chin",
        Some(ChinRoom::Large) => "much room before the chin",
    }
}

/// The shape of the interior and how well it is known.
fn inside(card: &Card<'_>, deck: &CardDeck<'_>) -> String {
    let interior = card.model.interior;
    let origin = match interior.origin {
        Origin::ByEye => "by eye",
        Origin::Measured => "measured",
        Origin::Learned => "learned from tries",
    };
    format!(
        "Inside: shape index {}, {}; {origin}, so it may be off by {} and the sizes by {} mm around (standard deviations).",
        plain(interior.shape_index),
        figures::oval(deck.catalogue.shop.words.place(interior.shape_index)),
        plain(card.error.shape_index),
        plain(card.error.centre)
    )
}

fn how(deck: &CardDeck<'_>) -> String {
    let cards = deck.cards;
    let heads = thousands(usize::try_from(cards.heads).unwrap_or(usize::MAX));
    let looked_at = match cards.looked_at as u64 == cards.heads {
        true => String::new(),
        false => format!(", {} of them one by one", thousands(cards.looked_at)),
    };
    format!(
        "Counted on {heads} heads of {}{looked_at}, seed {}, the profiles at their word. ±: sampling, four standard errors; ~: it \
         is more than 5 of 100. If profiles are off: nine in ten of {} ranges, each off as far as the profiles say. The next \
         helmet is chosen among {} models on one half of the heads and quoted on the other.",
        one_line(&deck.customers.whose()),
        deck.customers.seed,
        crate::range::WORLDS,
        cards.models
    )
}
