//! What a plan says adds up: probabilities, where they go, tries, minutes.

use super::{RANGE, customer, measured, query, tape};
use itertools::Itertools;
use lidladder::fit::Quote;
use lidladder::head::Reading;
use lidladder::plan::{JudgedStep, Lead, Plan, Query, plan};
use rstest::rstest;

fn usual(readings: Vec<Reading>, lead: Lead) -> Query<'static> {
    query(customer(readings, 3), lead)
}

#[rstest]
#[case::tape(usual(tape(575.0), Lead::ShopFirst))]
#[case::small(usual(tape(541.0), Lead::ComputedOnly))]
#[case::nothing_known(usual(Vec::new(), Lead::ShopFirst))]
#[case::long(usual(measured(585.0, 210.0, 148.0), Lead::ShopFirst))]
#[case::rules_alone(usual(tape(562.0), Lead::ShopOnly))]
#[case::two_tries(Query { tries: 2, ..usual(tape(590.0), Lead::ShopFirst) })]
#[case::little_time(Query { minutes: Some(20.0), ..usual(tape(575.0), Lead::ComputedOnly) })]
fn a_plan_adds_up(#[case] query: Query<'static>) {
    let made = plan(&RANGE, &query);
    let mut sums = Sums { tries: query.tries, ..Sums::default() };
    let first = made.first.as_ref().expect("something is worth a try");
    near("the first step is reached", first.reach, 1.0);
    sums.walk(first, 1.0, &mut Vec::new());
    near("no fit is what is left at the ends", made.totals.no_fit.value, sums.no_fit);
    near("a fit somewhere, or none", sums.fit + sums.no_fit, 1.0);
    near("tries are steps reached", made.totals.tries.value, sums.tried);
    near("minutes are those of the steps reached", made.totals.minutes.value, sums.minutes);
    quotes(&made);
    let quality = made.optimality;
    assert!(quality.cost >= quality.lower - 1e-9 && quality.computed >= quality.lower - 1e-9, "{quality:?}");
    assert!(quality.cost <= RANGE.shop.minutes.go_without + 1e-9, "{quality:?}: worse than going without");
}

#[derive(Default)]
struct Sums {
    tries: usize,
    fit: f64,
    no_fit: f64,
    tried: f64,
    minutes: f64,
}

impl Sums {
    fn walk(&mut self, step: &JudgedStep, reach: f64, path: &mut Vec<usize>) {
        near("the reach of a step", step.reach, reach);
        assert!(!path.contains(&step.candidate), "{path:?} tries {} again", step.candidate);
        path.push(step.candidate);
        assert!(path.len() <= self.tries, "{path:?} is too long");
        probability(step.fit);
        probability(step.pads.fit_at_once);
        assert!(step.pads.fit_at_once.value <= step.fit.value + 1e-9, "more fit at once than at all");
        let heard: f64 = step.branches.iter().map(|branch| branch.probability.value).sum();
        let whole = step.fit.value + heard;
        assert!((whole - 1.0).abs() < 1e-6, "{path:?}: fit and reports make {whole}");
        assert!(step.branches.iter().flat_map(|branch| &branch.reasons).all_unique(), "{path:?}: a reason twice");
        assert!(step.minutes >= RANGE.shop.minutes.fetch + RANGE.shop.minutes.check - 1e-6, "{path:?}: too quick");
        self.fit += reach * step.fit.value;
        self.tried += reach;
        self.minutes += reach * step.minutes;
        for branch in &step.branches {
            probability(branch.probability);
            let goes_on = reach * branch.probability.value;
            match &branch.next {
                Some(next) => self.walk(next, goes_on, path),
                None => self.no_fit += goes_on,
            }
        }
        path.pop();
    }
}

fn quotes(made: &Plan<'_>) {
    for ranked in &made.ranking {
        probability(ranked.fit);
        probability(ranked.pads.fit_at_once);
    }
    assert!(made.ranking.iter().map(|ranked| ranked.candidate).all_unique(), "a candidate is ranked twice");
    made.head.words.iter().for_each(|quote| probability(*quote));
    near("the three words", made.head.words.iter().map(|quote| quote.value).sum(), 1.0);
    for totals in [made.totals, made.fixed_order] {
        probability(totals.no_fit);
    }
    let chances = made.advice.gains.iter().map(|gain| gain.first_fit).chain([made.advice.first_fit, made.head.rarity]);
    assert!(chances.into_iter().all(|chance| (0.0..=1.0).contains(&chance)), "{:?}", made.advice);
}

fn probability(quote: Quote) {
    assert!((-1e-12..=1.0 + 1e-12).contains(&quote.value) && quote.error >= 0.0, "{quote:?} is no probability");
}

#[track_caller]
fn near(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{what}: {found} instead of {expected}");
}
