//! Rules that lead round in a circle which no reason leaves, with fewer models than a customer tries: the shop's
//! experience ends there, and the other models are never reached.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::fallback::Fallbacks;
use crate::profile::Edge;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-circle");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let placed: Vec<_> = case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)).collect();
    let edges: Vec<Edge> = placed.iter().map(|edge| edge.value.clone()).collect();
    let tries = trusted.shop.session.tries;
    let mut found = Vec::new();
    for circle in Fallbacks::new(&edges).closed_circles() {
        if circle.models.len() >= tries || circle.models.len() >= trusted.models().len() {
            continue;
        }
        let [first, others @ ..] = &circle.rules[..] else { continue };
        let way = [&circle.rules[..], &[*first]].concat();
        let way = way.iter().map(|rule| edges[*rule].from.as_str()).collect::<Vec<_>>().join(" -> ");
        let message = format!("no rule leads out of the circle {way}");
        let to = |rule: usize| case.look.span(&placed[rule].place.key("to"));
        let members = circle.models.iter().map(|id| id.as_str()).collect::<Vec<_>>().join(", ");
        let help = format!("let a rule of {members} lead to another model: a customer tries {tries} helmets");
        let problem = Diagnostic::warning(CODE, message).at(to(*first), "leads here").help(help);
        found.push(others.iter().fold(problem, |problem, rule| problem.see(to(*rule), "then here")));
    }
    found
}
