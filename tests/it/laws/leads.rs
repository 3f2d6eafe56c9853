//! Who leads: the shop's rules, the computation, or the rules with the computation as a check on them.

use super::{RANGE, plan_for, tape};
use itertools::Itertools;
use lidladder::fit::Quote;
use lidladder::plan::{JudgedStep, Lead, Source};
use rstest::rstest;

/// Steps that fewer customers reach are judged on too few heads to hold a margin against.
const JUDGED_FROM: f64 = 0.02;

/// The margin is applied on the heads that choose; the quoted figures come from other heads.
const OTHER_HEADS: f64 = 0.03;

fn steps<'a>(step: &'a JudgedStep, depth: usize, all: &mut Vec<(usize, &'a JudgedStep)>) {
    all.push((depth, step));
    step.branches.iter().filter_map(|branch| branch.next.as_ref()).for_each(|next| steps(next, depth + 1, all));
}

#[test]
fn the_rules_alone_lead_after_the_first_try() {
    let made = plan_for(tape(575.0), Lead::ShopOnly);
    let mut all = Vec::new();
    steps(made.first.as_ref().unwrap(), 0, &mut all);
    assert_eq!(all[0].1.source, Source::Computed, "no rule says where to begin");
    assert!(all.len() > 1, "some rule leads on");
    for (depth, step) in &all {
        assert!(*depth == 0 || matches!(step.source, Source::Rule(_)), "{depth}: {:?}", step.source);
        assert!(step.rival.is_none(), "nobody else is asked");
    }
    follow_their_edges(made.first.as_ref().unwrap(), &made.candidates.iter().map(|c| &c.model.id).collect_vec());
}

/// A step by a rule goes where the rule says, after the model and the reason that it is for.
fn follow_their_edges(step: &JudgedStep, models: &[&lidladder::unit::Id]) {
    for branch in &step.branches {
        let Some(next) = &branch.next else { continue };
        if let Source::Rule(rule) = next.source {
            let edge = &RANGE.edges()[rule];
            assert_eq!((&edge.from, &edge.to), (models[step.candidate], models[next.candidate]));
            assert_eq!(branch.reasons, [edge.reason]);
        }
        follow_their_edges(next, models);
    }
}

#[rstest]
#[case(562.0)]
#[case(575.0)]
#[case(596.0)]
fn a_computed_step_leads_against_a_rule_only_by_the_margin(#[case] circumference: f64) {
    let made = plan_for(tape(circumference), Lead::ShopFirst);
    let mut all = Vec::new();
    steps(made.first.as_ref().unwrap(), 0, &mut all);
    let margin = RANGE.shop.session.shop_rule_margin;
    let mut contested = 0;
    for (_, step) in all {
        let Some((_, who, rival)) = step.rival else { continue };
        contested += 1;
        if step.reach < JUDGED_FROM {
            continue;
        }
        let room = OTHER_HEADS + room(step.fit, rival);
        match (step.source, who) {
            (Source::Computed, Source::Rule(_)) => {
                assert!(step.fit.value > rival.value + margin - room, "{:?} against {rival:?}", step.fit);
            }
            (Source::Rule(_), Source::Computed) => {
                assert!(rival.value <= step.fit.value + margin + room, "{:?} against {rival:?}", step.fit);
            }
            sources => panic!("{sources:?}: a rule contests the computation, nobody else"),
        }
    }
    assert!(contested > 0, "no rule differs from the computation: no test of the margin");
    follow_their_edges(made.first.as_ref().unwrap(), &made.candidates.iter().map(|c| &c.model.id).collect_vec());
}

fn room(a: Quote, b: Quote) -> f64 {
    a.error + b.error
}
