//! Neither the order of files nor that of records matters.

use super::{Truth, demo, id, journal, learned};
use lidladder::journal::Record;
use proptest::prelude::*;
use std::sync::OnceLock;

fn records() -> &'static [Record] {
    static RECORDS: OnceLock<Vec<Record>> = OnceLock::new();
    RECORDS.get_or_init(|| journal(&demo(), Truth { index: 2.0, ..Truth::default() }, 40, 11))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_records_and_files_says_the_same(order in Just(records().to_vec()).prop_shuffle(), first in any::<bool>()) {
        let catalogue = demo();
        // Two branches number their customers alike: whoever has an even number came to the other one.
        let part = |of: &[Record], rest: u64| of.iter().filter(|r| r.customer % 2 == rest).cloned().collect::<Vec<_>>();
        let whole = learned(&catalogue, &[part(records(), 0), part(records(), 1)]);
        let (a, b) = (part(&order, 0), part(&order, 1));
        let journals = if first { vec![a, b] } else { vec![b, a] };
        prop_assert_eq!(learned(&catalogue, &journals), whole);
    }
}

#[test]
fn a_journal_that_is_named_twice_counts_once_and_unknown_helmets_are_told() {
    let catalogue = demo();
    let once = learned(&catalogue, &[records().to_vec()]);
    let mut more = records().to_vec();
    let stranger = Record { customer: 9_999, model: id("nobody-knows"), ..more[0].clone() };
    more.push(stranger);
    let twice = learned(&catalogue, &[records().to_vec(), more]);
    assert_eq!(twice.twice, once.customers);
    assert_eq!(twice.unknown, [(id("nobody-knows"), records()[0].size.clone(), 1)]);
    assert_eq!((twice.models, twice.misreport, twice.scores), (once.models, once.misreport, once.scores));
}
