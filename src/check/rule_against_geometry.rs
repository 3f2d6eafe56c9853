//! A rule that points the wrong way: the heads that fail so in its first model miss the target by more, not by less.

use super::sample::{HEADS, Led};
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Edge, Placed};
use crate::unit::Id;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-against-geometry");

/// With fewer heads than these nothing is said about a rule.
const FEW: usize = 10;

/// By how many standard errors the target must be worse.
const CLEARLY: f64 = 4.0;

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let sample = case.sample;
    let edges = case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place));
    let wrong_way = edges.filter_map(|edge| {
        // To itself it is no better and no worse, whatever the sizes: `rule-to-itself` speaks about those.
        let led = sample.follow(&edge.value).filter(|_| edge.value.from != edge.value.to)?;
        let is_worse = led.miss_after - led.miss_before > CLEARLY * led.error;
        (led.heads >= FEW && is_worse)
            .then(|| told(case, edge, led, sample.best_after(&edge.value.from, edge.value.reason)))
    });
    wrong_way.collect()
}

fn told(case: &Case<'_>, edge: &Placed<Edge>, led: Led, better: Option<(&Id, f64)>) -> Diagnostic {
    let rule = &edge.value;
    let message = format!("this rule points the wrong way: {} is worse there than {}", rule.to, rule.from);
    let better = better.map_or(String::new(), |(to, share)| format!("; {:.0} % fit {to}", 100.0 * share));
    let help = format!(
        "of {HEADS} sampled heads {} fail so; on average they miss by {:.1} mm in {}, but by {:.1} mm in {}, where {} of \
         them fit{better}",
        led.heads, led.miss_before, rule.from, led.miss_after, rule.to, led.fit
    );
    Diagnostic::warning(CODE, message)
        .at(case.look.span(&edge.place.key("to")), format!("after {}", rule.reason.id()))
        .help(help)
}
