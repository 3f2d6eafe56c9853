//! `range stock`: pads for the drawer.

use super::super::args::{TypedJournals, TypedPictureFormat, TypedStock};
use super::super::learn::{Heard, journals};
use super::super::resolve::{Asked, People, asked, stocking};
use super::super::{Ending, Output};
use super::people::counted;
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources};
use crate::range::stock::{DrawerQuestion, drawer, recorded_fits};
use crate::render::{StockReport, html, json, svg, text};

pub(super) fn answer(
    typed: &TypedStock,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.counted.people, &typed.counted.filter, catalogue, sources)?;
    let stocking = stocking(typed, &asked.models, catalogue, sources)?;
    let (records, warnings) = recorded(typed)?;
    let fits = recorded_fits(&records.concat(), &asked.models);
    #[expect(clippy::cast_precision_loss, reason = "numbers of tries")]
    let weights = fits.iter().map(|fits| 1.0 + *fits as f64).collect();
    let question = DrawerQuestion { rules: stocking.rules, weights, budget: stocking.budget, seed: asked.seed };
    let shelf = asked.shelf(catalogue);
    let customers = counted(&asked, &shelf, sources)?.kept;
    let drawer = drawer(&shelf, &customers, &question).map_err(|_| vec![without_limit()])?;
    let report = StockReport {
        catalogue,
        models: &asked.models,
        question: &question,
        drawer: &drawer,
        customers: (customers.len(), &whose(&asked)),
        recorded: (!typed.journal.is_empty()).then(|| fits.iter().sum()),
        only: stocking.model,
        warnings: &warnings,
        cautions: text::PADS_CAUTIONS,
    };
    let text = match typed.format {
        TypedPictureFormat::Text => text::range_stock(&report),
        TypedPictureFormat::Json => json::text(&json::range_stock(&report)),
        TypedPictureFormat::Html => html::range_stock(&report),
        TypedPictureFormat::Svg => svg::kits_in_order(&report).file(),
    };
    Ok(Output { text, ending: if warnings.is_empty() { Ending::Done } else { Ending::Findings } })
}

fn recorded(typed: &TypedStock) -> Result<Heard, Vec<Diagnostic>> {
    if typed.journal.is_empty() {
        return Ok(Heard::default());
    }
    journals(&TypedJournals { files: typed.journal.clone(), journal: None })
}

fn whose(asked: &Asked<'_>) -> String {
    match &asked.people {
        People::Drawn(_) => format!("the population {}", asked.population.name),
        People::Table(path) => path.display().to_string(),
    }
}

fn without_limit() -> Diagnostic {
    let message = "with a margin, and nothing lost by a pad that is left over, no stock is too large";
    let help = "say in shop.yaml what such a pad loses (stocking.left_over_loss), or leave the margin out";
    Diagnostic::error(Code("stock-without-limit"), message).help(help)
}
