//! A family whose prices are in another currency than the shop's: limits and totals would add up apples and pears.

use super::Agreement;
use crate::catalogue::Look;
use crate::diag::{Code, Diagnostic};

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("currency-mismatch");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let Some(shop) = &look.draft.shop else { return Vec::new() };
    let own = shop.place.key("currency");
    if !look.is_sound(&own) {
        return Vec::new();
    }
    let others = look.draft.currencies.iter().filter(|named| named.value != shop.value.currency);
    let problem = |named: &crate::profile::Placed<_>| {
        let message = format!("these prices are in {}, and the shop's are in {}", named.value, shop.value.currency);
        Diagnostic::error(CODE, message)
            .at(look.span(&named.place), "another currency")
            .see(look.span(&own), "the shop's")
            .help("convert the prices of this file, or leave the line out if they are in the shop's currency already")
    };
    others.filter(|named| look.is_sound(&named.place)).map(problem).collect()
}
