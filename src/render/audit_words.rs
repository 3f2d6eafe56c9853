//! The words of an audit, the same on every kind of page.

use super::text::{percent, thousands};
use crate::audit::{Audit, Change, Question, RuleFacts, Silence, Spot, Takes, Targets, Verified, Weighed};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::profile::Edge;
use itertools::Itertools;

/// Share of all customers from which a rule has a line of its own.
pub(super) const OFTEN: f64 = 0.0001;

/// How changes go together.
pub(super) const TOGETHER: &str =
    "The first is the best single change, the others are the best after those before them. With all of them, ";

/// Where no change helps.
pub(super) const NO_CHANGE: &str = "None of them saves anything.";

/// Where no rule misleads.
pub(super) const NONE_MISLEADS: &str = "None costs more minutes than the sampling error.";

/// Minutes, or tries, with their error.
pub(super) fn minutes(quote: Quote) -> String {
    format!("{:.2}±{:.2}", quote.value + 0.0, quote.error)
}

/// A share with its error.
pub(super) fn no_fit(takes: &Takes) -> String {
    format!("{:.1}±{:.1} %", takes.no_fit.value * 100.0, takes.no_fit.error * 100.0)
}

/// So many of 1,000 customers.
pub(super) fn per_thousand(share: f64) -> String {
    let count = share * 1000.0;
    match count {
        0.0 => "0".to_owned(),
        _ if count < 0.05 => "<0.1".to_owned(),
        _ if count < 10.0 => format!("{count:.1}"),
        _ => format!("{count:.0}"),
    }
}

/// What a changed graph does to customers who had no part in it.
pub(super) fn compared(customers: usize, verified: &Verified) -> String {
    let [before, after] = [verified.before, verified.after];
    format!(
        "{} other customers take {} instead of {} minutes in all, {:.1} % instead of {:.1} % leave without a fit; saves {}.",
        thousands(customers),
        minutes(after.in_all),
        minutes(before.in_all),
        after.no_fit.value * 100.0,
        before.no_fit.value * 100.0,
        minutes(verified.saves)
    )
}

/// Who comes in.
pub(super) fn who(question: &Question<'_>, audit: &Audit<'_>) -> String {
    let measured = question.measured.iter().map(|(measure, sd)| format!("{} (±{sd} mm)", measure.name())).join(", ");
    let tries = match question.tries {
        1 => "tries one helmet".to_owned(),
        tries => format!("tries up to {tries} helmets"),
    };
    format!(
        "Heads of the population {}. Known of each: {measured}, written down in steps of {} mm: {} different \
         customers on paper. Each {tries}.",
        question.population.name, question.reading_step, audit.readings
    )
}

/// What follows rules, orders and plans, each with what customers take.
pub(super) fn ways<'a>(audit: &'a Audit<'_>) -> [(&'static str, &'a Takes); 3] {
    [
        ("the shop's rules", &audit.graph),
        ("the best fixed order", &audit.fixed_order),
        ("the computed plan", &audit.computed),
    ]
}

/// What the figures of the ways are.
pub(super) fn ways_note(catalogue: &Catalogue) -> String {
    format!(
        "in all: minutes of the tries, and {} for whoever leaves without a helmet (go_without of shop.yaml). The rules \
         begin with the first of the ranking; where there is none for a reason, the customer leaves. Only reasons of \
         geometry are heard. ±: sampling error, four standard errors.",
        catalogue.shop.minutes.go_without
    )
}

/// Which changes were weighed.
pub(super) fn weighed(question: &Question<'_>, audit: &Audit<'_>) -> String {
    format!(
        "{} single changes weighed, each on {} customers: a rule added, taken away or led elsewhere{}. Minutes are \
         those in all that a customer saves on average.",
        thousands(audit.changes.len()),
        thousands(audit.weighed_on),
        match question.targets {
            Targets::AnyType => "",
            Targets::SameType => " (to models of the same type only)",
        }
    )
}

/// Rules that geometry can't weigh.
pub(super) fn unweighed(audit: &Audit<'_>) -> String {
    format!(
        "{} rules are for what geometry doesn't tell (noise, price, stops and the like). An audit can't weigh them.",
        audit.unweighed
    )
}

/// Names and sentences of one audit.
pub(super) struct AuditWords<'w, 'a> {
    pub(super) catalogue: &'w Catalogue,
    pub(super) audit: &'w Audit<'a>,
    /// What stands between a model and the next.
    pub(super) arrow: &'static str,
}

/// A rule that misleads.
pub(super) struct Misleading<'w> {
    pub(super) rule: String,
    pub(super) note: &'w str,
    /// What speaks against it, and what would be better.
    pub(super) why: String,
}

impl<'w> AuditWords<'w, '_> {
    /// The rules that mislead, the worst first.
    pub(super) fn misleading(&self) -> Vec<Misleading<'w>> {
        let told = |Weighed { change, saves }: &Weighed| {
            let rule = change.dropped?.rule?;
            let edge = self.edge(rule)?;
            let facts = self.audit.rules.iter().find(|facts| facts.rule == rule);
            let why = facts.map_or(String::new(), |facts| self.why(edge, facts));
            let why = format!("{why} {}: saves {}.", self.instead(*change), minutes(*saves));
            Some(Misleading { rule: self.rule(edge), note: &edge.note, why })
        };
        self.audit.misleading.iter().filter_map(told).collect()
    }

    /// Rules that nobody followed, if there are any.
    pub(super) fn unused(&self) -> Option<String> {
        let names = self.audit.unused.iter().filter_map(|rule| self.edge(*rule)).map(|edge| self.rule(edge));
        let names = names.collect_vec();
        (!names.is_empty()).then(|| format!("Nobody came this way: {}.", names.join("; ")))
    }

    /// The rules that are followed often enough for a line, the most used first, and how many others there are.
    pub(super) fn followed(&self) -> (Vec<&'w RuleFacts>, usize) {
        let by_use = self.audit.rules.iter().sorted_by(|a, b| b.used.total_cmp(&a.used).then(a.rule.cmp(&b.rule)));
        let (often, hardly): (Vec<_>, Vec<_>) = by_use.partition(|facts| facts.used >= OFTEN);
        (often, hardly.len())
    }

    /// What speaks against a rule.
    fn why(&self, edge: &Edge, facts: &RuleFacts) -> String {
        let used = per_thousand(facts.used);
        let mut words = vec![format!(
            "Of 1,000 customers {used} go this way, and it fits {} of them (±{:.0}).",
            percent(facts.fits.value),
            facts.fits.error * 100.0
        )];
        let again = facts.again(edge.reason);
        if again >= 0.2 {
            words.push(format!("For {} of them {} again.", percent(again), edge.reason.words()));
        } else if let Some((reason, share)) = facts.fails.first().filter(|(_, share)| *share >= 0.2) {
            words.push(format!("For {} of them {} then.", percent(*share), reason.words()));
        }
        words.extend(self.geometry(edge, facts));
        if let Some((model, fits)) = facts.best.filter(|(_, fits)| *fits > facts.fits.value + 0.05) {
            words.push(format!("{} would fit {}.", self.name(model), percent(fits)));
        }
        words.join(" ")
    }

    /// The two helmets compared, where the second is no better for the reason.
    fn geometry(&self, edge: &Edge, facts: &RuleFacts) -> Option<String> {
        let usual = facts.usual.filter(|usual| usual.helps(edge.reason) < 0.5)?;
        let [failed, next] = [usual.failed, usual.next].map(|at| &self.audit.candidates[at]);
        let [before, after] = [failed, next].map(|candidate| candidate.model.interior.shape_index);
        let shape = match after - before {
            change if change > 0.25 => "rounder",
            change if change < -0.25 => "a longer oval",
            _ => "of the same shape",
        };
        let axes = ["front to back", "at the sides", "at the cheeks"];
        let mut differs = usual.wider.iter().zip(axes).filter(|(wider, _)| wider.abs() >= 0.5).map(|(wider, axis)| {
            format!("{:.0} mm {} {axis}", wider.abs(), if *wider > 0.0 { "wider" } else { "narrower" })
        });
        let differs = differs.join(" and ");
        Some(format!(
            "It points the wrong way: {} is {shape} ({after} against {before}){}.",
            next.title(),
            if differs.is_empty() { String::new() } else { format!(", {differs} than {}", failed.title()) }
        ))
    }

    /// Where customers leave, and what a rule would save.
    pub(super) fn silence(&self, silence: &Silence) -> String {
        let here = |change: &Change| change.spot == silence.spot;
        let best = self.audit.changes.iter().find(|(change, saved)| here(change) && *saved > 0.0);
        let best = best.and_then(|(change, saved)| change.put.map(|to| (to, saved)));
        let spot = self.spot(silence.spot);
        match best {
            Some((to, saved)) => format!("{spot}; a rule to {} would save {saved:.2}", self.name(to)),
            None => format!("{spot}; no rule would help"),
        }
    }

    /// A change in words.
    pub(super) fn change(&self, change: Change) -> String {
        let (spot, arrow) = (self.spot(change.spot), self.arrow);
        let to = |model: usize| self.name(model);
        match (change.dropped.map(|lead| lead.to), change.put) {
            (None, Some(put)) => format!("add {spot} {arrow} {}", to(put)),
            (Some(dropped), None) => format!("take away {spot} {arrow} {}", to(dropped)),
            (Some(dropped), Some(put)) if dropped == put => {
                format!("{spot} {arrow} {}: leave its size open", to(put))
            }
            (Some(dropped), Some(put)) => format!("{spot} {arrow} {} instead of {}", to(put), to(dropped)),
            (None, None) => spot,
        }
    }

    /// What a rule would better be.
    fn instead(&self, change: Change) -> String {
        match change.put {
            None => "Without it".to_owned(),
            Some(to) if change.dropped.is_some_and(|lead| lead.to == to) => "With its size left open".to_owned(),
            Some(to) => format!("Led to {} instead", self.name(to)),
        }
    }

    /// A rule by its models and its reason.
    pub(super) fn rule(&self, edge: &Edge) -> String {
        let name = |id| self.catalogue.model(id).map_or(id, |model| model.name.as_str());
        format!("{}, {} {} {}", name(edge.from.as_str()), edge.reason.id(), self.arrow, name(edge.to.as_str()))
    }

    fn spot(&self, spot: Spot) -> String {
        format!("{}, {}", self.name(spot.from), spot.reason.id())
    }

    /// The name of the model at a place in the catalogue.
    pub(super) fn name(&self, model: usize) -> &'w str {
        &self.catalogue.models()[model].name
    }

    /// The rule at a place in the list.
    pub(super) fn edge(&self, rule: usize) -> Option<&'w Edge> {
        self.catalogue.edges().get(rule)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_rare_is_not_nothing() {
        assert_eq!([0.0, 0.00001, 0.0014, 0.0146].map(per_thousand), ["0", "<0.1", "1.4", "15"]);
    }
}
