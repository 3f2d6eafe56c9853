//! What to order for a pad set as a document: `lidladder.pads/1`.

use crate::catalogue::Catalogue;
use crate::profile::Payer;
use crate::supply::{Goods, Kind, Line, Purpose, Stack, Supplied, Way, Wish};
use schemars::JsonSchema;
use serde::Serialize;

/// The cheapest way to a pad set. Amounts are in minor units of the currency.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A pad order of lidladder", extend("$id" = "urn:lidladder:pads:1"))]
pub struct PadsDocument {
    /// `lidladder.pads/1`.
    #[schemars(extend("const" = "lidladder.pads/1"))]
    schema: String,
    model: String,
    size: String,
    shell: String,
    maker: String,
    /// helmet: the pads go into a customer's helmet; stock: into the drawer.
    purpose: PurposeWord,
    /// What was asked for, each `sets` times.
    wanted: Vec<PadBody>,
    sets: u32,
    currency: String,
    best: WayBody,
    /// The best other way; nothing where there is none.
    next_best: Option<WayBody>,
    /// Standard pads that go back to the maker, with what the maker credits for them.
    goes_back: Vec<StackBody>,
    /// Pads that come out and that the maker doesn't take back.
    stays: Vec<PadBody>,
    credit_minor: u64,
    paid_by: PayerWord,
    customer_pays_minor: u64,
    /// The customer's payment and the credit less the bill: below 0 the shop pays.
    shop_gains_minor: i64,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum PurposeWord {
    Helmet,
    Stock,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum PayerWord {
    Customer,
    Shop,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WayBody {
    order: Vec<LineBody>,
    bill_minor: u64,
    /// Wanted pads that the shop has already, with what they are worth.
    from_drawer: Vec<StackBody>,
    /// Ordered pads that nobody wanted, with what they cost.
    left_over: Vec<StackBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineBody {
    count: u32,
    /// The pack that is ordered; nothing for a single pad.
    pack: Option<String>,
    /// The pads in one of it.
    pads: Vec<PadBody>,
    /// Of one.
    price_minor: u64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StackBody {
    zone: String,
    thickness_mm: f64,
    count: u32,
    /// Of all of them.
    value_minor: u64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PadBody {
    zone: String,
    thickness_mm: f64,
}

/// The document of an order.
#[must_use]
pub fn pads(catalogue: &Catalogue, wish: &Wish<'_>, supplied: &Supplied<'_>, cautions: &[&str]) -> PadsDocument {
    let settlement = &supplied.settlement;
    PadsDocument {
        schema: "lidladder.pads/1".to_owned(),
        model: wish.model.id.to_string(),
        size: wish.size.label.to_string(),
        shell: wish.shell.id.to_string(),
        maker: wish.model.maker.clone(),
        purpose: match wish.purpose {
            Purpose::Helmet => PurposeWord::Helmet,
            Purpose::Stock => PurposeWord::Stock,
        },
        wanted: wish.pads.iter().copied().map(PadBody::of).collect(),
        sets: wish.sets,
        currency: catalogue.shop.currency.to_string(),
        best: WayBody::of(&supplied.best),
        next_best: supplied.second.as_ref().map(WayBody::of),
        goes_back: settlement.goes_back.iter().map(StackBody::of).collect(),
        stays: settlement.stays.iter().copied().map(PadBody::of).collect(),
        credit_minor: settlement.credit.minor(),
        paid_by: match (wish.purpose, wish.rules.paid_by) {
            (Purpose::Helmet, Payer::Customer) => PayerWord::Customer,
            _ => PayerWord::Shop,
        },
        customer_pays_minor: settlement.customer.minor(),
        shop_gains_minor: settlement.shop.minor(),
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

impl WayBody {
    fn of(way: &Way<'_>) -> Self {
        Self {
            order: way.order.iter().map(LineBody::of).collect(),
            bill_minor: way.bill.minor(),
            from_drawer: way.from_drawer.iter().map(StackBody::of).collect(),
            left_over: way.left_over.iter().map(StackBody::of).collect(),
        }
    }
}

impl LineBody {
    fn of(line: &Line<'_>) -> Self {
        let pack = match line.goods {
            Goods::Single(_) => None,
            Goods::Pack(pack) => Some(pack.id.to_string()),
        };
        Self {
            count: line.count,
            pack,
            pads: line.pads.iter().copied().map(PadBody::of).collect(),
            price_minor: line.price.minor(),
        }
    }
}

impl StackBody {
    fn of(stack: &Stack) -> Self {
        let (zone, thickness_mm) = stack.kind;
        Self { zone: zone.name().to_owned(), thickness_mm, count: stack.count, value_minor: stack.value.minor() }
    }
}

impl PadBody {
    fn of((zone, thickness_mm): Kind) -> Self {
        Self { zone: zone.name().to_owned(), thickness_mm }
    }
}
