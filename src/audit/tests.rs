//! Laws of an audit, on its own numbers: what a change is said to save is what it saves, and no graph beats the best plan.

use super::auditor::Auditor;
use super::customers::{Batches, draw};
use super::follow::{Junction, Unseen};
use super::known::Known;
use super::rules::{Patched, Rules};
use super::shelf::Shelf;
use super::weigh::Savings;
use super::{Question, Spot, Targets, audit};
use crate::catalogue::{Catalogue, Origin, load};
use crate::diag::Sources;
use crate::head::{Measure, Stream};
use crate::plan::{Effort, Problem, solve};
use itertools::Itertools;
use rstest::rstest;
use std::sync::LazyLock;

static DEMO: LazyLock<Catalogue> = LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).unwrap());

fn question(heads: usize) -> Question<'static> {
    Question {
        population: DEMO.population("adults").unwrap(),
        measured: vec![(Measure::Circumference, 3.0)],
        reading_step: 5.0,
        heads,
        tries: 4,
        targets: Targets::AnyType,
        seed: 1,
    }
}

/// One arbitrary rule for every model and reason, so that paths come back to a spot.
fn tangled(shelf: &Shelf<'_>, scramble: u32) -> Rules {
    let stream = Stream::new(3, scramble, "rules");
    let models = u32::try_from(shelf.models().len()).unwrap();
    let target = |at: u32, spot: Spot| {
        let [u, ..] = stream.uniforms(at, 0);
        let step = 1 + (u * f64::from(models - 1)) as usize;
        (spot, (spot.from + step) % shelf.models().len())
    };
    Rules::leading(shelf, (0..).zip(Spot::all(shelf)).map(|(at, spot)| target(at, spot)))
}

/// The shop's rules, arbitrary ones, and none at all.
fn graphs(shelf: &Shelf<'_>) -> Vec<Rules> {
    vec![Rules::of(shelf, DEMO.edges()), tangled(shelf, 0), tangled(shelf, 1), Rules::of(shelf, &[])]
}

#[rstest]
#[case::of_the_shop(0)]
#[case::tangled(1)]
#[case::tangled_otherwise(2)]
#[case::without_rules(3)]
fn what_a_change_saves_is_what_following_it_saves(#[case] graph: usize) {
    let question = question(1000);
    let shelf = Shelf::of(&DEMO, question.targets);
    let rules = graphs(&shelf).swap_remove(graph);
    let groups = draw(&shelf, &question, &Batches::of(question.heads, 5), 0..1);
    let (mut met, mut saving) = (0, 0);
    for group in groups.values().filter(|group| group.batch.len() >= 5).step_by(4) {
        let known = Known::of(&shelf, &question, &group.readings, groups.len());
        let session = known.session(&shelf, group);
        let follow = |rules: &Rules| session.trace(Patched { rules, patch: None }, &mut Unseen);
        let (before, junctions) = follow(&rules);
        met += junctions.iter().filter(|junction| is_met_before(&junctions, junction)).count();
        let savings = Savings::of(&session, &rules);
        let ranked = Savings::ranked(&shelf, &rules, std::iter::once(&savings), 1.0);
        for weighed in ranked.iter().step_by(7) {
            let (after, _) = follow(&rules.changed(weighed.change));
            assert!((before - after - weighed.saved).abs() < 1e-12, "{weighed:?} instead of {}", before - after);
            saving += usize::from(weighed.saved > 1e-9);
        }
        let reached = junctions.iter().map(|junction| junction.spot).unique().count();
        assert_eq!(ranked.iter().map(|weighed| weighed.change.spot).unique().count(), reached, "every spot is weighed");
    }
    assert!(saving > 0, "some change helps");
    assert_eq!(met > 0, graph == 1 || graph == 2, "tangled rules come back to a spot");
}

fn is_met_before(junctions: &[Junction], junction: &Junction) -> bool {
    let mut above = std::iter::successors(junction.before, |at| junctions[*at].before);
    above.any(|at| junctions[at].spot == junction.spot)
}

/// The optimum knows the customers whom it serves; a graph is followed by somebody who doesn't.
#[rstest]
#[case(2)]
#[case(3)]
fn no_graph_is_better_than_the_best_plan(#[case] tries: usize) {
    let question = Question { tries, ..question(1000) };
    let shelf = Shelf::of(&DEMO, question.targets);
    let groups = draw(&shelf, &question, &Batches::of(question.heads, 6), 0..1);
    let graphs = graphs(&shelf);
    for group in groups.values().filter(|group| group.batch.len() >= 3).step_by(2 * tries) {
        let known = Known::of(&shelf, &question, &group.readings, groups.len());
        let session = known.session(&shelf, group);
        let best = solve(&normalised(&group.crowd), Effort::WHOLE);
        let share: f64 = group.crowd.weight.iter().sum();
        assert!(best.cost - best.lower < 1e-9, "the best plan is proven: {} and {}", best.lower, best.cost);
        for rules in &graphs {
            let (cost, _) = session.trace(Patched { rules, patch: None }, &mut Unseen);
            assert!(cost >= best.cost * share - 1e-12, "{} < {}", cost / share, best.cost);
        }
    }
}

fn normalised(crowd: &Problem) -> Problem {
    let total: f64 = crowd.weight.iter().sum();
    let mut problem = crowd.clone();
    problem.weight.iter_mut().for_each(|weight| *weight /= total);
    problem
}

#[test]
fn the_best_change_never_makes_it_worse() {
    let question = question(2000);
    let shelf = Shelf::of(&DEMO, question.targets);
    let rules = Rules::of(&shelf, DEMO.edges());
    let mut silent = |_| {};
    let mut auditor = Auditor::new(&shelf, &question, &mut silent);
    let seen = auditor.watch(&rules);
    let improved = auditor.improve(&rules, &seen.held);
    assert_eq!(improved.together.len(), 5);
    let first = improved.together[0];
    assert_eq!(first.change, improved.changes[0].0);
    assert!((first.saves.value - improved.changes[0].1).abs() < 1e-9, "weighed and followed alike");
    assert!(improved.together.iter().all(|weighed| weighed.saves.value > 0.0));
    assert!(
        improved.together.is_sorted_by(|a, b| a.saves.value >= b.saves.value - 0.05),
        "the greatest steps come first"
    );
}

#[test]
fn shares_and_sums_are_in_order() {
    let mut told = Vec::new();
    let made = audit(&DEMO, &question(2000), &mut |progress| told.push((progress.done, progress.of)));
    for takes in [made.graph, made.computed, made.fixed_order, made.verified.before, made.verified.after] {
        assert!((1.0..=4.0).contains(&takes.tries.value));
        assert!((0.0..=1.0).contains(&takes.no_fit.value));
        let in_all = takes.minutes.value + DEMO.shop.minutes.go_without * takes.no_fit.value;
        assert!((takes.in_all.value - in_all).abs() < 1e-9);
    }
    let left: f64 = made.silences.iter().map(|silence| silence.share).sum();
    assert!(left <= made.graph.no_fit.value + 1e-12, "who is left without a rule leaves");
    for facts in &made.rules {
        let fails: f64 = facts.fails.iter().map(|(_, share)| share).sum();
        assert!((facts.fits.value + fails - 1.0).abs() < 1e-9, "it fits or it fails");
        assert!((0.0..=1.0).contains(&facts.used));
    }
    let geometric = made.rules.len() + made.unused.len();
    assert_eq!(geometric + made.unweighed, DEMO.edges().len(), "every rule is somewhere");
    assert!(told.is_sorted(), "progress goes on");
    assert!(told.iter().all(|(done, of)| done <= of) && told.len() > 5);
}
