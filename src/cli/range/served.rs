//! `range`: who is served, and what would change.

use super::super::args::{TypedPictureFormat, TypedServed};
use super::super::resolve::{Asked, asked};
use super::super::{Ending, Output};
use super::people::{counted, customers};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::head::Particles;
use crate::range::stock::{DrawerQuestion, drawer};
use crate::range::{Customers, Served, Shelf, served};
use crate::render::html::{self, RangeReport};
use crate::render::{StockReport, json, svg, text};

pub(super) fn answer(
    typed: &TypedServed,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf, sources)?;
    let made = served(catalogue, &shelf, &counted, asked.seed);
    let customers = customers(&asked, &counted);
    let text = match typed.format {
        TypedPictureFormat::Text => text::served(catalogue, &customers, &made, text::RANGE_CAUTIONS),
        TypedPictureFormat::Json => json::text(&json::served(catalogue, &customers, &made, text::RANGE_CAUTIONS)),
        TypedPictureFormat::Html => page(catalogue, &asked, (&shelf, &counted.kept), (&customers, &made)),
        TypedPictureFormat::Svg => svg::range_map(&customers, &made).file(),
    };
    Ok(Output { text, ending: Ending::Done })
}

/// The page has the first kits of the drawer, too, by the shop's own rules.
fn page(
    catalogue: &Catalogue,
    asked: &Asked<'_>,
    (shelf, heads): (&Shelf<'_>, &Particles),
    (customers, served): (&Customers<'_>, &Served<'_>),
) -> String {
    let weights = vec![1.0; shelf.columns.len()];
    let question = DrawerQuestion { rules: catalogue.shop.stocking, weights, budget: None, seed: asked.seed };
    let drawer = drawer(shelf, heads, &question).ok();
    let whose = customers.whose();
    let stock = drawer.as_ref().map(|drawer| StockReport {
        catalogue,
        models: &asked.models,
        question: &question,
        drawer,
        customers: (heads.len(), &whose),
        recorded: None,
        only: None,
        warnings: &[],
        cautions: text::RANGE_CAUTIONS,
    });
    html::range(&RangeReport { catalogue, customers, served, stock: stock.as_ref(), cautions: text::RANGE_CAUTIONS })
}
