//! Cards of models as a document: `lidladder.cards/1`.

mod heard;
mod helmet;
mod suits;

use super::range::CustomersBody;
use crate::card::Card;
use crate::render::CardDeck;
use heard::{HeardBody, RuleBody};
use helmet::{HelmetBody, ShellBody, SizeBody};
use schemars::JsonSchema;
use serde::Serialize;
use suits::SuitsBody;

/// One card for each model that was asked for. Shares are from 0 to 1.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Cards of lidladder", extend("$id" = "urn:lidladder:cards:1"))]
pub struct CardsDocument {
    /// `lidladder.cards/1`.
    #[schemars(extend("const" = "lidladder.cards/1"))]
    schema: String,
    seed: u64,
    customers: CustomersBody,
    /// On how many of their heads everything but the shares of all customers rests.
    looked_at_closely: usize,
    /// How many models there are to go to.
    models: usize,
    currency: String,
    cards: Vec<CardBody>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CardBody {
    model: String,
    name: String,
    helmet: HelmetBody,
    sizes: Vec<SizeBody>,
    suits: SuitsBody,
    /// Shell by shell: pads of one shell go into no other.
    pads: Vec<ShellBody>,
    heard: HeardBody,
    /// The shop's rules for what no geometry tells.
    other_rules: Vec<RuleBody>,
}

/// The document.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> CardsDocument {
    CardsDocument {
        schema: "lidladder.cards/1".to_owned(),
        seed: deck.customers.seed,
        customers: deck.customers.into(),
        looked_at_closely: deck.cards.looked_at,
        models: deck.cards.models,
        currency: deck.catalogue.shop.currency.to_string(),
        cards: deck.cards.cards.iter().map(|card| CardBody::of(card, deck)).collect(),
        cautions: deck.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

impl CardBody {
    fn of(card: &Card<'_>, deck: &CardDeck<'_>) -> Self {
        Self {
            model: card.model.id.to_string(),
            name: card.model.name.clone(),
            helmet: HelmetBody::of(card, deck.catalogue.shop.words),
            sizes: card.sizes.iter().map(SizeBody::of).collect(),
            suits: SuitsBody::of(card),
            pads: card.pads.iter().map(ShellBody::of).collect(),
            heard: HeardBody::of(&card.complaints),
            other_rules: card.other_rules.iter().map(|(place, edge)| RuleBody::of(*place, edge)).collect(),
        }
    }
}
