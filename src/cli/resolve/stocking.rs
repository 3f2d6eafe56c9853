//! How the drawer is filled, from what was typed.

use super::{Resolver, shown};
use crate::catalogue::Catalogue;
use crate::cli::args::TypedStock;
use crate::diag::{Code, Diagnostic, Said, Sources};
use crate::profile::{Bounds, CUSTOMERS_PER_WEEK, DELIVERY_DAYS, Model, SERVICE_LEVEL, SHARE, StockingRules};
use crate::unit::{Money, plain};

/// How the drawer is filled, and what is shown of it.
pub(in crate::cli) struct Stocking<'a> {
    /// The shop's rules with the options in their place.
    pub(in crate::cli) rules: StockingRules,
    /// What there is to spend.
    pub(in crate::cli) budget: Option<Money>,
    /// The one model that is shown, pad by pad.
    pub(in crate::cli) model: Option<&'a Model>,
}

/// What the options mean, or everything that is wrong with them. `models` are those that are asked for.
pub(in crate::cli) fn stocking<'a>(
    typed: &TypedStock,
    models: &[&'a Model],
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Stocking<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let mut said = |name: &str, text: &Option<String>| text.as_ref().map(|text| sources.say(name, text.clone()));
    let shop = catalogue.shop.stocking;
    let weekly = said("--customers-per-week", &typed.customers_per_week);
    let days = said("--delivery-days", &typed.delivery_days);
    let level = said("--service-level", &typed.service_level);
    let margin = said("--margin", &typed.margin);
    let budget = said("--budget", &typed.budget);
    let model = said("--model", &typed.model);
    let mut within = |said: Option<Said>, bounds: Bounds| said.and_then(|said| resolver.within(&said, &bounds));
    let rules = StockingRules {
        customers_per_week: within(weekly, CUSTOMERS_PER_WEEK).unwrap_or(shop.customers_per_week),
        delivery_days: within(days, DELIVERY_DAYS).unwrap_or(shop.delivery_days),
        service_level: within(level, SERVICE_LEVEL).unwrap_or(shop.service_level),
        margin: within(margin, SHARE).or(shop.margin),
        left_over_loss: shop.left_over_loss,
    };
    let budget = budget.and_then(|said| resolver.money(&said));
    let model = model.and_then(|said| resolver.shown_model(&said, models, catalogue));
    resolver.finish(Some(Stocking { rules, budget, model }))
}

impl Resolver {
    /// A number that `shop.yaml` might hold, too.
    fn within(&mut self, said: &Said, bounds: &Bounds) -> Option<f64> {
        let number = said.text.trim().parse::<f64>().ok().filter(|number| bounds.contains(number));
        if number.is_none() {
            let (least, most) = (plain(*bounds.start()), plain(*bounds.end()));
            let message = format!("`{}` is no number from {least} to {most}", shown(&said.text));
            let problem = Diagnostic::error(Code("stock-bounds"), message).at(said.span, "out of bounds");
            self.problems.push(problem.help("write digits, with a point for decimals"));
        }
        number
    }

    fn shown_model<'a>(&mut self, said: &Said, models: &[&'a Model], catalogue: &'a Catalogue) -> Option<&'a Model> {
        let model = self.model(said, catalogue)?;
        if !models.iter().any(|known| known.id == model.id) {
            let message = format!("the filters leave {} out", model.id);
            let problem = Diagnostic::error(Code("nothing-left"), message).at(said.span, "not asked for");
            self.problems.push(problem.help("loosen a filter, or name a model that passes them"));
        }
        Some(model)
    }
}
