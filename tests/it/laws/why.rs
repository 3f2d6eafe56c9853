//! What is said of a step agrees with the plan and with itself.

use super::{RANGE, customer, measured, query, tape};
use itertools::Itertools;
use lidladder::fit::Quote;
use lidladder::plan::{Answer, Found, Instead, JudgedStep, Lead, Likely, Plan, Query, Role, StepWhy, explain, plan};
use lidladder::profile::{Kind, Reason};
use rstest::rstest;
use std::sync::LazyLock;

/// Planned exactly: a handful of helmets.
fn off_road() -> Query<'static> {
    let mut query = query(customer(tape(575.0), 1), Lead::ShopFirst);
    query.models.retain(|model| model.kind == Kind::OffRoad);
    query
}

fn usual() -> Query<'static> {
    query(customer(tape(575.0), 1), Lead::ShopFirst)
}

/// A plan, and some of its steps with what is said of them.
type Explained = (Plan<'static>, Vec<(JudgedStep, StepWhy)>);

/// Every step of these plans that a way of single reasons leads to, with what is said of it.
static EXPLAINED: LazyLock<Vec<Explained>> = LazyLock::new(|| {
    let shop = Query { tries: 3, ..query(customer(measured(580.0, 190.0, 158.0), 2), Lead::ShopOnly) };
    [off_road(), usual(), shop].map(|query| every_step(&query)).into()
});

fn every_step(query: &Query<'static>) -> Explained {
    let made = plan(&RANGE, query);
    let mut ways = vec![(Vec::new(), made.first.clone().expect("something is worth a try"))];
    let mut explained = Vec::new();
    while let Some((way, step)) = ways.pop() {
        explained.push((step.clone(), step_why(explain(&RANGE, query, &way).1)));
        // Two steps deep, the two most probable reports and the folded ones, is enough to see.
        if way.len() < 2 {
            let last = step.branches.len() - 1;
            let some = step.branches.into_iter().enumerate().filter(|(at, _)| *at < 2 || *at == last);
            let next = some.filter_map(|(_, branch)| branch.next.map(|next| (branch.reasons[0], next)));
            ways.extend(next.map(|(reason, next)| ([way.as_slice(), &[reason]].concat(), next)));
        }
    }
    (made, explained)
}

#[track_caller]
fn step_why(answer: Answer) -> StepWhy {
    match answer.found {
        Found::Step(why) => *why,
        other => panic!("no step: {other:?}"),
    }
}

fn all() -> impl Iterator<Item = &'static (JudgedStep, StepWhy)> {
    EXPLAINED.iter().flat_map(|(_, steps)| steps)
}

fn others() -> impl Iterator<Item = (&'static StepWhy, &'static Instead)> {
    all().flat_map(|(_, why)| why.instead.iter().map(move |other| (why, other)))
}

#[test]
fn to_ask_changes_no_plan() {
    for query in [off_road(), usual()] {
        assert_eq!(explain(&RANGE, &query, &[Reason::LooseSides]).0, plan(&RANGE, &query));
    }
}

#[test]
fn a_step_has_the_figures_of_the_plan() {
    assert!(all().count() > 10);
    for (step, why) in all() {
        assert_eq!(why.step, *step);
        near("the way here", why.reach.value, step.reach);
        near("minutes of the try", why.minutes.value, step.minutes);
    }
}

#[test]
fn what_is_to_come_is_what_the_steps_take() {
    for (made, steps) in EXPLAINED.iter() {
        let (first, why) = &steps[0];
        assert_eq!(Some(first), made.first.as_ref());
        for (own, whole) in [
            (why.rest.minutes, made.totals.minutes),
            (why.rest.tries, made.totals.tries),
            (why.rest.no_fit, made.totals.no_fit),
        ] {
            near("the whole plan", own.value, whole.value);
            near("its error", own.error, whole.error);
        }
        for (step, why) in steps {
            let [tries, minutes, no_fit] = sums(step).map(|sum| sum / step.reach);
            near("helmets", why.rest.tries.value, tries);
            near("minutes", why.rest.minutes.value, minutes);
            near("leaving without", why.rest.no_fit.value, no_fit);
            let go_without = RANGE.shop.minutes.go_without;
            near("the cost", why.rest.cost.value, minutes + go_without * no_fit);
            near("leaving at once", why.leaving.value, go_without - why.rest.cost.value);
            let after = (why.rest.cost.value - why.minutes.value) / (1.0 - step.fit.value);
            near("after a failure", why.unheard.value - why.hearing.value, after);
        }
    }
}

/// Helmets, minutes and leaving without, each times the probability of getting there.
fn sums(step: &JudgedStep) -> [f64; 3] {
    let mut sums = [step.reach, step.reach * step.minutes, 0.0];
    for branch in &step.branches {
        match &branch.next {
            Some(next) => sums.iter_mut().zip(self::sums(next)).for_each(|(sum, more)| *sum += more),
            None => sums[2] += step.reach * branch.probability.value,
        }
    }
    sums
}

/// The law of total probability: whoever is left after each outcome, mixed, is whoever was there before.
#[test]
fn the_heads_after_every_outcome_mix_back_to_those_before() {
    for (_, why) in all() {
        let before = why.here.as_ref().expect("some head gets here");
        let after = why.told.iter().filter_map(|told| Some((told.probability.value, told.likely.as_ref()?)));
        let after = after.collect_vec();
        near("all outcomes", after.iter().map(|(chance, _)| chance).sum(), 1.0);
        let mixed = |value: &dyn Fn(&Likely) -> f64| after.iter().map(|(chance, heads)| chance * value(heads)).sum();
        for k in 0..5 {
            near("a mean", mixed(&|heads| heads.mean[k].value), before.mean[k].value);
            let square = |heads: &Likely| heads.sd[k].value.powi(2) + heads.mean[k].value.powi(2);
            let (found, wanted): (f64, f64) = (mixed(&square), square(before));
            assert!((found / wanted - 1.0).abs() < 1e-9, "the square of measure {k}: {found} instead of {wanted}");
        }
        for k in 0..3 {
            near("a word", mixed(&|heads| heads.words[k].value), before.words[k].value);
        }
    }
}

#[test]
fn outcomes_stand_in_order_a_fit_first_and_what_is_folded_last() {
    for (step, why) in all() {
        assert_eq!(why.told.len(), step.branches.len() + 1);
        assert!(why.told[0].reasons.is_empty(), "a fit has no reason");
        near("a fit", why.told[0].probability.value, step.fit.value);
        let single = why.told[1..].iter().filter(|told| told.reasons.len() == 1);
        let chances = single.map(|told| told.probability.value).collect_vec();
        assert!(chances.windows(2).all(|pair| pair[0] >= pair[1]), "{chances:?}");
        let folded = why.told.iter().positions(|told| told.reasons.len() > 1).collect_vec();
        assert!(folded.is_empty() || folded == [why.told.len() - 1], "{folded:?}");
    }
}

#[test]
fn before_anything_is_tried_the_heads_are_those_of_the_plan() {
    for (made, steps) in EXPLAINED.iter() {
        for k in 0..5 {
            near("a mean", steps[0].1.measured.mean[k].value, made.head.mean[k].value);
            near("its error", steps[0].1.measured.mean[k].error, made.head.mean[k].error);
            // There the mean of the sets' own, here that of all heads together.
            let [own, of_sets] = [steps[0].1.measured.sd[k].value, made.head.sd[k].value];
            assert!((own / of_sets - 1.0).abs() < 1e-3, "{own} and {of_sets}");
        }
        assert_eq!(Some(&steps[0].1.measured), steps[0].1.here.as_ref());
    }
}

#[test]
fn the_shares_of_a_difference_add_up_to_it() {
    assert!(others().count() > 10);
    for (why, other) in others() {
        let shares = &other.shares;
        let sum = [shares.pads, shares.fails, shares.unheard, shares.heard].map(|share| share.value).iter().sum();
        near("four shares", sum, other.more.value);
        near("the difference", other.more.value, other.rest.cost.value - why.rest.cost.value);
        near("the pads", shares.pads.value, other.minutes.value - why.minutes.value);
        assert!(other.candidate != why.step.candidate && other.roles.iter().all_unique());
        assert_eq!(other.more_without.is_some(), other.roles.contains(&Role::NextBest));
    }
}

/// Differences are taken on the same heads: that is what makes them worth quoting.
#[test]
fn a_difference_is_known_better_than_what_it_is_between() {
    let [paired, apart] = others().fold([0.0, 0.0], |[paired, apart], (why, other)| {
        [paired + other.more.error, apart + why.rest.cost.error.hypot(other.rest.cost.error)]
    });
    assert!(paired < 0.8 * apart, "{paired} against {apart}");
}

#[test]
fn whom_the_plan_overruled_is_compared() {
    for (_, why) in all() {
        if let Some((rival, _, fit)) = why.step.rival {
            let named = why.instead.iter().find(|other| other.candidate == rival).expect("it is named");
            assert_eq!(named.fit, fit);
            assert!(named.roles.iter().any(|role| *role != Role::NextBest), "{:?}", named.roles);
        }
    }
    assert!(all().any(|(_, why)| why.step.rival.is_some()), "somebody is overruled");
}

/// The next best is what the plan begins with when the choice is said not to be there, and costs as much more.
#[test]
fn the_next_best_is_the_first_when_the_choice_is_absent() {
    let query = off_road();
    let (made, answer) = explain(&RANGE, &query, &[]);
    let why = step_why(answer);
    let choice = &made.candidates[why.step.candidate];
    let absent = vec![(choice.model.id.clone(), choice.size.label.clone())];
    let without = plan(&RANGE, &Query { absent, ..query });
    let next = why.instead.iter().find(|other| other.roles.contains(&Role::NextBest)).expect("there is another");
    let first = without.first.as_ref().expect("there is another");
    assert_eq!(made.candidates[next.candidate].title(), without.candidates[first.candidate].title());
    let go_without = RANGE.shop.minutes.go_without;
    let cost = without.totals.minutes.value + go_without * without.totals.no_fit.value;
    let more = next.more_without.expect("it is the next best").value;
    near("without the choice", why.rest.cost.value + more, cost);
}

/// In the whole range plans are not exact; what the next best costs is still about what that plan takes.
#[test]
fn the_next_best_of_a_large_range_is_about_the_plan_without_the_choice() {
    let query = usual();
    let (made, answer) = explain(&RANGE, &query, &[]);
    let why = step_why(answer);
    let choice = &made.candidates[why.step.candidate];
    let absent = vec![(choice.model.id.clone(), choice.size.label.clone())];
    let without = plan(&RANGE, &Query { absent, ..query });
    let next = why.instead.iter().find(|other| other.roles.contains(&Role::NextBest)).expect("there is another");
    let cost = without.totals.minutes.value + RANGE.shop.minutes.go_without * without.totals.no_fit.value;
    let more = next.more_without.expect("it is the next best").value;
    assert!((why.rest.cost.value + more - cost).abs() < 0.3, "{} + {more} against {cost}", why.rest.cost.value);
}

/// A customer of whom two reasons in a row are heard is known better than before.
#[rstest]
#[case(&[Reason::LooseSides], 4, -1.0)]
#[case(&[Reason::LooseFrontToBack], 4, 1.0)]
#[case(&[Reason::CheeksLoose], 3, -1.0)]
fn a_report_moves_the_head_its_way(#[case] way: &[Reason], #[case] measure: usize, #[case] direction: f64) {
    let why = step_why(explain(&RANGE, &usual(), way).1);
    let here = why.here.expect("some head gets here");
    let [before, after] = [&why.measured, &here].map(|heads| heads.mean[measure].value);
    assert!((after - before) * direction > 1.0, "{before} became {after}");
    assert!(here.sd[measure].value < why.measured.sd[measure].value);
    assert!(!here.moved.is_empty());
}

#[track_caller]
fn near(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{what}: {found} instead of {expected}");
}

#[test]
fn errors_are_some() {
    let quotes = others().flat_map(|(_, other)| [other.more, other.fit, other.minutes, other.hearing]);
    let quotes = quotes.chain(all().flat_map(|(_, why)| [why.reach, why.minutes, why.rest.cost, why.leaving]));
    for Quote { value, error } in quotes {
        assert!(value.is_finite() && error.is_finite() && error >= 0.0, "{value} {error}");
    }
}
