//! The part of the shop's graph that somebody asks for.

use super::{Circle, Fallbacks};
use crate::profile::{Edge, Model, Reason};
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeSet;

/// What somebody wants to see of the shop's rules.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Question<'a> {
    /// All of them.
    All,
    /// What follows when this model fails, and what leads to it.
    About(&'a Id),
    /// Those for any of these reasons.
    For(Vec<Reason>),
    /// Where one gets from this model for the first reason, from there for the second, and so on.
    Ways(&'a Id, Vec<Reason>),
}

/// Where a way goes on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Onward {
    /// Nowhere: no reason is left, and the model that was reached is the answer.
    Arrived,
    /// The shop has no rule for this reason here.
    Silent(Reason),
    /// There are rules, the first of the file first.
    Steps(Vec<Step>),
    /// There are rules, but more steps were taken already than anybody would read.
    LeftOut,
}

/// One step of a way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The rule, by its place in the file.
    pub rule: usize,
    /// What comes behind it.
    pub then: Onward,
}

/// The answer.
#[derive(Debug, Clone)]
pub struct Excerpt<'a> {
    /// What was asked.
    pub question: Question<'a>,
    /// The models that are part of it: families in the order of their first models. With everything asked for they are
    /// all models, otherwise the one asked for and those of the rules.
    pub models: Vec<&'a Model>,
    /// The rules that are part of it, with their places in the file, in the order of the file.
    pub rules: Vec<(usize, &'a Edge)>,
    /// Models that lead to each other by these rules.
    pub circles: Vec<Circle<'a>>,
    /// The ways, where some were asked for.
    pub ways: Option<Onward>,
}

/// The most steps of all ways together that are followed: parallel rules multiply.
const MOST_STEPS: usize = 400;

impl<'a> Excerpt<'a> {
    /// The answer to a question about these models and rules.
    #[must_use]
    pub fn new(models: &'a [Model], edges: &'a [Edge], question: Question<'a>) -> Self {
        let graph = Fallbacks::new(edges);
        let numbered = |is_wanted: &dyn Fn(&Edge) -> bool| {
            edges.iter().enumerate().filter(|(_, edge)| is_wanted(edge)).map(|(rule, _)| rule).collect_vec()
        };
        let mut ways = None;
        let rules = match &question {
            Question::All => numbered(&|_| true),
            Question::About(model) => numbered(&|edge| [&edge.from, &edge.to].contains(model)),
            Question::For(reasons) => numbered(&|edge| reasons.contains(&edge.reason)),
            Question::Ways(model, reasons) => {
                let found = graph.onward(model, reasons, &mut MOST_STEPS.clone());
                let rules = found.rules().into_iter().collect();
                ways = Some(found);
                rules
            }
        };
        let circles = graph.part(&rules).circles();
        let rules = rules.into_iter().map(|rule| (rule, &edges[rule])).collect_vec();
        let models = by_family(models, |model| match &question {
            Question::All => true,
            Question::About(asked) | Question::Ways(asked, _) if **asked == model.id => true,
            _ => rules.iter().any(|(_, edge)| [&edge.from, &edge.to].contains(&&model.id)),
        });
        Self { question, models, rules, circles, ways }
    }

    /// Whether the shop's rules have an answer: any rule, and for ways one that goes to its end.
    #[must_use]
    pub fn has_answer(&self) -> bool {
        self.ways.as_ref().map_or(!self.rules.is_empty(), Onward::arrives)
    }

    /// How people call the model of this id.
    #[must_use]
    pub fn name<'b>(&'b self, id: &'b Id) -> &'b str {
        self.models.iter().find(|model| model.id == *id).map_or(id.as_str(), |model| &model.name)
    }

    /// The rule at a place in the file, if it is part of the answer.
    #[must_use]
    pub fn rule(&self, place: usize) -> Option<&'a Edge> {
        let at = self.rules.binary_search_by_key(&place, |(rule, _)| *rule).ok()?;
        Some(self.rules[at].1)
    }

    /// The reasons of its rules, each once.
    #[must_use]
    pub fn reasons(&self) -> BTreeSet<Reason> {
        self.rules.iter().map(|(_, edge)| edge.reason).collect()
    }
}

impl Onward {
    /// Whether some way goes to its end.
    #[must_use]
    pub fn arrives(&self) -> bool {
        match self {
            Self::Arrived => true,
            Self::Silent(_) | Self::LeftOut => false,
            Self::Steps(steps) => steps.iter().any(|step| step.then.arrives()),
        }
    }

    /// All rules on the ways.
    fn rules(&self) -> BTreeSet<usize> {
        let Self::Steps(steps) = self else { return BTreeSet::new() };
        steps.iter().flat_map(|step| step.then.rules().into_iter().chain([step.rule])).collect()
    }
}

impl Fallbacks<'_> {
    /// Follows the rules for the first reason, from there those for the second, and so on, as long as steps are left.
    fn onward(&self, model: &Id, reasons: &[Reason], steps_left: &mut usize) -> Onward {
        let Some((reason, others)) = reasons.split_first() else { return Onward::Arrived };
        let rules = self.from(model).into_iter().filter(|(_, edge)| edge.reason == *reason).collect_vec();
        if rules.is_empty() {
            return Onward::Silent(*reason);
        }
        let Some(left) = steps_left.checked_sub(rules.len()) else { return Onward::LeftOut };
        *steps_left = left;
        let step = |(rule, edge): (usize, &Edge)| Step { rule, then: self.onward(&edge.to, others, steps_left) };
        Onward::Steps(rules.into_iter().map(step).collect())
    }
}

/// The wanted models, families in the order of their first models.
fn by_family(models: &[Model], is_wanted: impl Fn(&Model) -> bool) -> Vec<&Model> {
    let families = models.iter().map(|model| model.family.as_str()).unique().collect_vec();
    let place = |model: &&Model| families.iter().position(|family| *family == model.family);
    models.iter().filter(|model| is_wanted(model)).sorted_by_key(place).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edge(from: &str, reason: Reason, to: &str) -> Edge {
        let id = |text| Id::try_from(text).unwrap();
        Edge { from: id(from), to: id(to), reason, note: "n".to_owned(), size: None }
    }

    use Reason::{TooNoisy, TooOval, TooRound};

    #[test]
    fn parallel_rules_make_several_ways_and_silence_is_told() {
        let edges = [
            edge("a", TooRound, "b"),
            edge("a", TooNoisy, "c"),
            edge("a", TooRound, "c"),
            edge("c", TooOval, "a"),
            edge("c", TooOval, "c"),
        ];
        let a = Id::try_from("a").unwrap();
        let step = |rule, then| Step { rule, then };
        let found = Excerpt::new(&[], &edges, Question::Ways(&a, vec![TooRound, TooOval]));
        let ends = vec![step(3, Onward::Arrived), step(4, Onward::Arrived)];
        let ways = vec![step(0, Onward::Silent(TooOval)), step(2, Onward::Steps(ends))];
        assert_eq!(found.ways, Some(Onward::Steps(ways)));
        assert!(found.has_answer());
        assert_eq!(found.rules.iter().map(|(rule, _)| *rule).collect_vec(), [0, 2, 3, 4]);
        let none = Excerpt::new(&[], &edges, Question::Ways(&a, vec![TooRound, TooNoisy]));
        assert!(!none.has_answer() && none.rules.len() == 2);
    }

    #[test]
    fn ways_that_multiply_are_cut() {
        let edges = vec![edge("a", TooRound, "a"); 10];
        let a = Id::try_from("a").unwrap();
        let found = Excerpt::new(&[], &edges, Question::Ways(&a, vec![TooRound; 8]));
        let steps = |ways: &Onward| {
            fn count(ways: &Onward) -> usize {
                let Onward::Steps(steps) = ways else { return 0 };
                steps.iter().map(|step| 1 + count(&step.then)).sum()
            }
            count(ways)
        };
        assert_eq!(found.ways.as_ref().map(steps), Some(MOST_STEPS));
    }

    #[test]
    fn circles_are_those_of_the_rules_that_are_shown() {
        let edges = [edge("a", TooRound, "b"), edge("b", TooOval, "a"), edge("b", TooRound, "b")];
        assert_eq!(Excerpt::new(&[], &edges, Question::All).circles.len(), 1);
        assert!(Excerpt::new(&[], &edges, Question::For(vec![TooRound])).circles.is_empty());
    }
}
