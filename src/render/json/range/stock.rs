//! Pads for the drawer as a document: `lidladder.range-stock/1`.

use super::super::common::{Warning, error, round};
use crate::fit::Quote;
use crate::range::Figure;
use crate::range::stock::{BothWays, Bought, Kit, KitStep, StockedPad};
use crate::render::StockReport;
use crate::supply::{Found, Goods, Line};
use schemars::JsonSchema;
use serde::Serialize;

/// The pads that a drawer should have, and what they are worth. Amounts are in minor units of the currency; shares are of
/// all customers, 0 to 1.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A drawer of lidladder", extend("$id" = "urn:lidladder:range-stock:1"))]
pub struct RangeStockDocument {
    /// `lidladder.range-stock/1`.
    #[schemars(extend("const" = "lidladder.range-stock/1"))]
    schema: String,
    seed: u64,
    models: Vec<ModelBody>,
    /// Customers who were looked at.
    customers: usize,
    customers_of: String,
    rules: RulesBody,
    customer: CustomerBody,
    currency: String,
    /// Every pad on offer, shell by shell; with one model shown, of that one.
    pads: Vec<PadBody>,
    /// One kit for each shell of which something should be in the drawer.
    kits: Vec<KitBody>,
    totals: TotalsBody,
    /// Customers who are served at once without any kit.
    served_before: FigureBody,
    /// Kits in the order to buy them.
    order: Vec<StepBody>,
    /// Places of kits that win nobody beyond the others.
    idle_kits: Vec<usize>,
    /// What to buy for the budget; nothing where none was given.
    budget: Option<BudgetBody>,
    /// Customers who would fit nothing if a zone had only standard pads.
    without_zone: Vec<ZoneBody>,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ModelBody {
    model: String,
    /// How often it is taken where it fits, against the others.
    weight: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RulesBody {
    customers_per_week: f64,
    delivery_days: f64,
    /// Customers until the next delivery.
    customers_until_delivery: f64,
    /// What the stock goes by where no margin is given.
    service_level: f64,
    margin: Option<f64>,
    left_over_loss: f64,
}

/// A figure with its sampling error, and where nine in ten of its values lie when profiles are off as far as they say.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FigureBody {
    value: f64,
    /// Four standard errors.
    error: f64,
    from: f64,
    to: f64,
}

/// For one customer, on average.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CustomerBody {
    leaves_with_standard_pads: FigureBody,
    leaves_with_other_pads: FigureBody,
    leaves_with_nothing: FigureBody,
    /// No helmet fits with its standard pads, and some helmet with others.
    served_by_pads_alone: FigureBody,
    pads: FigureBody,
    spent_minor: FigureBody,
    /// Customers won for 100 major units that are spent on pads.
    won_by_100: FigureBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PadBody {
    model: String,
    shell: String,
    zone: String,
    thickness_mm: f64,
    /// The sizes that take it.
    sizes: Vec<String>,
    /// By one customer, on average.
    used: f64,
    /// Four standard errors.
    used_error: f64,
    /// Until the next delivery, on average.
    wanted: f64,
    stock: u32,
    /// The probability that the stock is enough.
    enough: f64,
    /// Expected to be missing until the next delivery.
    missing: f64,
    /// Expected to be left over.
    left_over: f64,
    /// The least that it costs, a pack shared evenly among its pads.
    worth_minor: u64,
    /// On its own; nothing where it comes only in packs.
    single_minor: Option<u64>,
    packs: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct KitBody {
    model: String,
    shell: String,
    order: Vec<LineBody>,
    bill_minor: u64,
    /// What it would cost if every pad could be had for the least that it costs anywhere.
    singly_minor: u64,
    /// Pads that come along in packs.
    left_over: u32,
    /// cheapest: of all ways to buy it; pad-by-pad: each pad where it costs least by itself.
    found: FoundWord,
    both_ways: Vec<BothWaysBody>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum FoundWord {
    Cheapest,
    PadByPad,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineBody {
    count: u32,
    /// The pack that is ordered; nothing for a single pad.
    pack: Option<String>,
    pads: Vec<KindBody>,
    /// Of one.
    price_minor: u64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct KindBody {
    zone: String,
    thickness_mm: f64,
}

/// A pad that can be had in two ways.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BothWaysBody {
    zone: String,
    thickness_mm: f64,
    /// Bought so.
    singly: u32,
    in_packs: u32,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TotalsBody {
    pads: u64,
    bill_minor: u64,
    singly_minor: u64,
    /// The share of the wanted pads that is there at once.
    filled: f64,
    /// By pads that are missing and left over until the next delivery; nothing without a margin.
    expected_loss_minor: Option<f64>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StepBody {
    /// Place in the list of kits.
    kit: usize,
    /// Customers whom it serves beyond those before, judged on other heads than it was chosen on.
    won: f64,
    /// Four standard errors.
    won_error: f64,
    /// Customers who are served at once with it and all before.
    served: FigureBody,
    /// For it and all before.
    spent_minor: u64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BudgetBody {
    budget_minor: u64,
    /// Places in the list of kits.
    kits: Vec<usize>,
    spent_minor: u64,
    won: f64,
    /// Four standard errors.
    won_error: f64,
    /// No choice for the money wins more than so many times as many; 1 where it is proved the best.
    at_most_times: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ZoneBody {
    zone: String,
    lost: FigureBody,
}

/// The document of a drawer.
#[must_use]
pub fn range_stock(report: &StockReport<'_>) -> RangeStockDocument {
    let drawer = report.drawer;
    let rules = &report.question.rules;
    let weighed = report.models.iter().zip(&report.question.weights);
    let (customers, customers_of) = report.customers;
    RangeStockDocument {
        schema: "lidladder.range-stock/1".to_owned(),
        seed: report.question.seed,
        models: weighed.map(|(model, weight)| ModelBody { model: model.id.to_string(), weight: *weight }).collect(),
        customers,
        customers_of: customers_of.to_owned(),
        rules: RulesBody {
            customers_per_week: rules.customers_per_week,
            delivery_days: rules.delivery_days,
            customers_until_delivery: round(drawer.customers, 4),
            service_level: rules.service_level,
            margin: rules.margin,
            left_over_loss: rules.left_over_loss,
        },
        customer: CustomerBody::of(report),
        currency: report.catalogue.shop.currency.to_string(),
        pads: drawer
            .pads
            .iter()
            .filter(|pad| report.shows(pad.place.model))
            .map(|pad| PadBody::of(report, pad))
            .collect(),
        kits: drawer.kits.iter().map(|kit| KitBody::of(report, kit)).collect(),
        totals: TotalsBody {
            pads: drawer.stock(),
            bill_minor: drawer.bill().minor(),
            singly_minor: drawer.singly().minor(),
            filled: round(drawer.filled(), 4),
            expected_loss_minor: drawer.expected_loss(rules).map(|loss| round(loss, 1)),
        },
        served_before: FigureBody::share(&drawer.order.before),
        order: drawer.order.steps.iter().map(StepBody::of).collect(),
        idle_kits: drawer.order.idle.clone(),
        budget: drawer.order.budget.as_ref().map(BudgetBody::of),
        without_zone: drawer
            .zones
            .iter()
            .map(|loss| ZoneBody { zone: loss.zone.name().to_owned(), lost: FigureBody::share(&loss.lost) })
            .collect(),
        warnings: report.warnings.to_vec(),
        cautions: report.cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

impl FigureBody {
    fn of(figure: &Figure, scale: f64, digits: i32) -> Self {
        let quote = Quote { value: figure.quote.value * scale, error: figure.quote.error * scale };
        Self {
            value: round(quote.value, digits),
            error: error(quote, digits),
            from: round(figure.spread.from * scale, digits),
            to: round(figure.spread.to * scale, digits),
        }
    }

    fn share(figure: &Figure) -> Self {
        Self::of(figure, 1.0, 5)
    }
}

impl CustomerBody {
    fn of(report: &StockReport<'_>) -> Self {
        let one = &report.drawer.customer;
        Self {
            leaves_with_standard_pads: FigureBody::share(&one.standard),
            leaves_with_other_pads: FigureBody::share(&one.swapped),
            leaves_with_nothing: FigureBody::share(&one.nothing),
            served_by_pads_alone: FigureBody::share(&one.won),
            pads: FigureBody::share(&one.pads),
            spent_minor: FigureBody::of(&one.spend, 1.0, 1),
            won_by_100: FigureBody::of(&one.won_by_spending, 10_000.0, 4),
        }
    }
}

impl PadBody {
    fn of(report: &StockReport<'_>, pad: &StockedPad<'_>) -> Self {
        let (model, shell) = report.of_pad(&pad.place);
        let article = &pad.place.article;
        Self {
            model: model.id.to_string(),
            shell: shell.id.to_string(),
            zone: article.kind.0.name().to_owned(),
            thickness_mm: article.kind.1,
            sizes: article.sizes.iter().map(ToString::to_string).collect(),
            used: round(pad.used.value, 6),
            used_error: error(pad.used, 6),
            wanted: round(pad.wanted, 5),
            stock: pad.stock,
            enough: round(pad.enough, 5),
            missing: round(pad.missing, 5),
            left_over: round(pad.left_over, 5),
            worth_minor: article.worth.minor(),
            single_minor: article.single.map(crate::unit::Money::minor),
            packs: article.packs.iter().map(|(pack, _)| pack.id.to_string()).collect(),
        }
    }
}

impl KitBody {
    fn of(report: &StockReport<'_>, kit: &Kit<'_>) -> Self {
        let (model, shell) = report.of_kit(kit);
        Self {
            model: model.id.to_string(),
            shell: shell.id.to_string(),
            order: kit.purchase.order.iter().map(LineBody::of).collect(),
            bill_minor: kit.purchase.bill.minor(),
            singly_minor: kit.singly.minor(),
            left_over: kit.purchase.left_over.iter().sum(),
            found: match kit.purchase.found {
                Found::Cheapest => FoundWord::Cheapest,
                Found::PadByPad => FoundWord::PadByPad,
            },
            both_ways: kit.both_ways.iter().map(|way| BothWaysBody::of(report, way)).collect(),
        }
    }
}

impl LineBody {
    fn of(line: &Line<'_>) -> Self {
        let pack = match line.goods {
            Goods::Single(_) => None,
            Goods::Pack(pack) => Some(pack.id.to_string()),
        };
        let pads = line.pads.iter().map(|(zone, mm)| KindBody { zone: zone.name().to_owned(), thickness_mm: *mm });
        Self { count: line.count, pack, pads: pads.collect(), price_minor: line.price.minor() }
    }
}

impl BothWaysBody {
    fn of(report: &StockReport<'_>, way: &BothWays) -> Self {
        let (zone, thickness_mm) = report.drawer.pads[way.pad].place.article.kind;
        Self { zone: zone.name().to_owned(), thickness_mm, singly: way.singly, in_packs: way.in_packs }
    }
}

impl StepBody {
    fn of(step: &KitStep) -> Self {
        Self {
            kit: step.kit,
            won: round(step.won.value, 5),
            won_error: error(step.won, 5),
            served: FigureBody::share(&step.served),
            spent_minor: step.spent.minor(),
        }
    }
}

impl BudgetBody {
    fn of(bought: &Bought) -> Self {
        Self {
            budget_minor: bought.budget.minor(),
            kits: bought.kits.clone(),
            spent_minor: bought.spent.minor(),
            won: round(bought.won.value, 5),
            won_error: error(bought.won, 5),
            at_most_times: round(bought.at_most_times, 4),
        }
    }
}
