//! What a choice of somebody's own costs.

use super::{RANGE, customer, query, tape};
use lidladder::fit::HeadSet;
use lidladder::plan::{Choice, Found, Lead, Midway, Plan, Query, Role, Swap, Weighed, explain, plan, weigh};
use lidladder::profile::{Kind, Model};
use rstest::rstest;

fn off_road() -> Query<'static> {
    let mut query = all();
    query.models.retain(|model| model.kind == Kind::OffRoad);
    query
}

fn all() -> Query<'static> {
    query(customer(tape(575.0), 1), Lead::ComputedOnly)
}

fn helmet(plan: &Plan<'static>, candidate: usize) -> Choice<'static> {
    let known = &plan.candidates[candidate];
    Choice::Helmet { model: known.model, size: known.size.label.clone() }
}

fn weighed(query: &Query<'static>, choices: &[Choice<'static>]) -> Vec<Weighed> {
    weigh(&RANGE, query, &Midway::default(), &HeadSet::chooser(&RANGE, &query.customer), choices)
}

fn is_near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[rstest]
#[case::searched_to_the_end(off_road())]
#[case::with_many_helmets(all())]
fn the_choice_of_the_plan_costs_nothing_and_the_others_what_the_explanation_says(#[case] query: Query<'static>) {
    let (made, answer) = explain(&RANGE, &query, &[]);
    let Found::Step(why) = answer.found else { panic!("no step") };
    let next = why.instead.iter().find(|other| other.roles.contains(&Role::NextBest)).expect("there is a next best");
    let choices = [helmet(&made, why.step.candidate), helmet(&made, next.candidate), Choice::Leave];
    let [own, other, leave] = weighed(&query, &choices)[..] else { panic!("three choices") };
    assert!(is_near(own.more_minutes.value, 0.0) && is_near(own.more_minutes.error, 0.0), "{own:?}");
    assert!(is_near(own.more_tries.value, 0.0) && is_near(own.more_without.value, 0.0), "{own:?}");
    assert!(is_near(own.fit.value, why.step.fit.value) && is_near(other.fit.value, next.fit.value));
    // Two ways to the same figure: one judges whole plans, the other takes bills apart.
    assert!(is_near(other.more_minutes.value, next.more.value), "{other:?} {:?}", next.more);
    assert!(is_near(leave.more_minutes.value, why.leaving.value), "{leave:?} {:?}", why.leaving);
    assert!(is_near(leave.more_without.value, 1.0 - made.totals.no_fit.value));
    assert!(is_near(leave.more_tries.value, -made.totals.tries.value));
}

#[test]
fn no_choice_is_better_than_the_plan_beyond_its_error() {
    let query = off_road();
    let made = plan(&RANGE, &query);
    let choices: Vec<_> = (0..made.candidates.len()).map(|candidate| helmet(&made, candidate)).collect();
    for weighed in weighed(&query, &choices) {
        assert!(weighed.more_minutes.value >= -weighed.more_minutes.error - 0.1, "{weighed:?}");
    }
}

#[test]
fn a_helmet_that_nobody_would_look_at_can_be_weighed_and_changes_no_other() {
    let query = all();
    let made = plan(&RANGE, &query);
    let far: &Model = query.models[0];
    let (_, size) = far.sizes().last().expect("it has sizes");
    assert!(made.candidates.iter().all(|known| known.model.id != far.id || known.size.label != size.label));
    let first = made.first.as_ref().expect("something fits").candidate;
    let [own, far] =
        weighed(&query, &[helmet(&made, first), Choice::Helmet { model: far, size: size.label.clone() }])[..]
    else {
        panic!("two choices")
    };
    assert!(is_near(own.more_minutes.value, 0.0), "{own:?}");
    // It takes its minutes and tells hardly anything.
    assert!(far.fit.value < 0.01 && far.more_minutes.value > 5.0, "{far:?}");
}

#[test]
fn pads_are_weighed_as_they_are() {
    let query = off_road();
    let made = plan(&RANGE, &query);
    let known = &made.candidates[made.first.as_ref().expect("something fits").candidate];
    let swap =
        |minutes| Swap { model: known.model, size: known.size.label.clone(), pads: known.size.standard, minutes };
    let [quick, slow] = [30.0, 40.0].map(|minutes| weighed(&query, &[Choice::Pads(swap(minutes))])[0]);
    assert!(is_near(quick.fit.value, slow.fit.value), "minutes change no fit");
    assert!((slow.more_minutes.value - quick.more_minutes.value - 10.0).abs() < 1e-6, "{quick:?} {slow:?}");
}
