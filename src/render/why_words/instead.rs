//! What else could be tried, and why the choice wins.

use super::{WhyView, listed, signed};
use crate::plan::{Instead, Role, Shares, Source, StepWhy, Verdict, is_felt};
use crate::render::text::{percent, whole_minutes};
use itertools::Itertools;

/// Chances that differ by less are called alike.
const NEAR_BELOW: f64 = 0.025;

/// How the figures are meant.
pub(in crate::render) const COMPARED: &str =
    "Minutes. To the end: all tries, with going without counted; the choice can still be had later.";

/// What is said where there is nothing to compare.
pub(in crate::render) const NOTHING_ELSE: &str = "Without the choice, nothing else would be tried here.";

/// What something else is, and why the choice wins, if it does.
pub(in crate::render) fn compared(view: &WhyView<'_>, why: &StepWhy, other: &Instead) -> String {
    let choice = view.title(why.step.candidate);
    let mut roles = other.roles.iter().map(|role| match role {
        Role::NextBest => {
            let without =
                other.more_without.map_or_else(String::new, |more| format!(" (then {} minutes)", signed(more)));
            format!("what the plan would have if {choice} were not on the shelf{without}")
        }
        Role::Rule(rule) => format!("the shop's rule: {}", view.note(*rule)),
        Role::Computed => "what the computation alone would try".to_owned(),
    });
    let roles = roles.join("; ");
    let own = Side { fit: why.step.fit.value, minutes: why.minutes.value, hearing: why.hearing.value };
    let its = Side { fit: other.fit.value, minutes: other.minutes.value, hearing: other.hearing.value };
    let because = because(own, its, &other.shares);
    let verdict = match (other.verdict(), why.step.source) {
        (Verdict::Worse, _) => format!("{choice} is better here: {because}."),
        (Verdict::Alike, _) => format!("No clear difference to {choice}: {because}."),
        (Verdict::Better, Source::Rule(_)) => {
            format!(
                "By these figures better than {choice}, which leads as the shop's rule, within its margin: {because}."
            )
        }
        (Verdict::Better, Source::Computed) => {
            format!("By these figures better than {choice}; the heads that chose the plan did not show it: {because}.")
        }
    };
    format!("{}: {roles}. {verdict}", view.title(other.candidate))
}

/// What is said of both.
#[derive(Clone, Copy)]
struct Side {
    /// Probability of a fit.
    fit: f64,
    /// Of the try.
    minutes: f64,
    /// Minutes that hearing saves after a failure.
    hearing: f64,
}

/// What speaks for the choice, and what against it.
fn because(own: Side, its: Side, shares: &Shares) -> String {
    let (fits, other_fits) = (percent(own.fit), percent(its.fit));
    let pads = format!("{:.1} minutes of pads", (its.minutes - own.minutes).abs());
    let saves = format!("(saves {} minutes, against {})", whole_minutes(own.hearing), whole_minutes(its.hearing));
    let words = [
        (
            shares.fails,
            format!("it fits more often ({fits} against {other_fits})"),
            format!("it fits less often ({fits} against {other_fits})"),
        ),
        (shares.pads, format!("it takes {pads} less"), format!("it takes {pads} more")),
        (
            shares.heard,
            format!("what is heard when it fails tells more {saves}"),
            format!("what is heard when it fails tells less {saves}"),
        ),
        (
            shares.unheard,
            "those whom it doesn't fit are easier to serve".to_owned(),
            "those whom it doesn't fit are harder to serve".to_owned(),
        ),
    ];
    let [mut pros, mut cons] = [const { Vec::new() }; 2];
    for (share, pro, con) in words {
        if !is_felt(share) {
            continue;
        }
        if share.value > 0.0 { pros.push(pro) } else { cons.push(con) }
    }
    if !is_felt(shares.fails) {
        let is_near = (own.fit - its.fit).abs() < NEAR_BELOW;
        let alike = if is_near {
            format!("it fits about as often ({fits} against {other_fits})")
        } else {
            format!("too few heads tell whether it fits more often ({fits} against {other_fits})")
        };
        if pros.is_empty() { cons.insert(0, alike) } else { pros.insert(0, alike) }
    }
    match (listed(&pros), listed(&cons)) {
        (pros, cons) if cons.is_empty() => pros,
        (pros, cons) if pros.is_empty() => cons,
        (pros, cons) => format!("{pros}, though {cons}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::Quote;
    use rstest::rstest;

    /// Shares in minutes: pads, fails, unheard, heard; all with the same error.
    #[rstest]
    #[case::pads([1.7, 0.0, 0.0, 0.0], "it fits about as often (88 % against 90 %) and it takes 1.7 minutes of pads less")]
    #[case::tells(
        [0.0, -0.6, 0.0, 0.9],
        "what is heard when it fails tells more (saves 6 minutes, against 2), though it fits less often (88 % against 90 %)"
    )]
    #[case::against(
        [-0.5, 0.0, -0.3, 0.0],
        "it fits about as often (88 % against 90 %), it takes 1.7 minutes of pads more and those whom it doesn't fit are \
         harder to serve"
    )]
    #[case::nothing_is_felt([0.15, -0.09, 0.19, 0.0], "it fits about as often (88 % against 90 %)")]
    fn words_follow_from_the_shares(#[case] shares: [f64; 4], #[case] words: &str) {
        let [pads, fails, unheard, heard] = shares.map(|value| Quote { value, error: 0.2 });
        let own = Side { fit: 0.88, minutes: 14.0, hearing: 6.0 };
        let its = Side { fit: 0.90, minutes: 15.7, hearing: 2.0 };
        assert_eq!(because(own, its, &Shares { pads, fails, unheard, heard }), words);
    }

    #[test]
    fn what_few_heads_tell_is_said() {
        let none = Quote { value: 0.05, error: 0.9 };
        let [own, its] = [0.83, 0.75].map(|fit| Side { fit, minutes: 14.0, hearing: 0.0 });
        let words = because(own, its, &Shares { pads: none, fails: none, unheard: none, heard: none });
        assert_eq!(words, "too few heads tell whether it fits more often (83 % against 75 %)");
    }
}
