//! A proposed graph as a file of rules: comments for people, YAML for the program.

use super::audit::thousands;
use super::paste::comment;
use crate::audit::{Proposal, ProposedRule, Question, Spot};
use crate::catalogue::Catalogue;
use crate::diag::is_invisible;
use crate::profile::{Edge, SizeHint};
use crate::render::audit_words::{compared, per_thousand};
use itertools::Itertools;

/// Characters of a note, at most, as the reader of the file wants it.
const NOTE: usize = 200;

/// The text of a `fallbacks.yaml`. Without a date: the same question gives the same text.
#[must_use]
pub fn proposal(catalogue: &Catalogue, question: &Question<'_>, proposal: &Proposal, cautions: &[&str]) -> String {
    let mut text = String::new();
    head(&mut text, question, proposal);
    cautions.iter().for_each(|caution| comment(&mut text, 0, caution));
    text.push_str("schema: 1\nedges:");
    if proposal.rules.is_empty() && proposal.kept.is_empty() {
        text.push_str(" []\n");
        return text;
    }
    text.push('\n');
    let names = Names(catalogue);
    for (from, rules) in &proposal.rules.iter().chunk_by(|rule| rule.spot.from) {
        comment(&mut text, 2, &catalogue.models()[from].name);
        rules.for_each(|rule| names.rule(&mut text, rule));
    }
    if !proposal.kept.is_empty() {
        comment(&mut text, 2, "The shop's own, for what geometry doesn't tell: kept as they are.");
        proposal.kept.iter().for_each(|rule| edge(&mut text, &catalogue.edges()[*rule]));
    }
    names.without(&mut text, "Hardly heard, so without a rule", &proposal.rare);
    names.without(&mut text, "Without a rule, because nothing is worth its minutes then", &proposal.hopeless);
    text
}

fn head(text: &mut String, question: &Question<'_>, proposal: &Proposal) {
    let measured = question.measured.iter().map(|(measure, _)| measure.name()).join(", ");
    let words = format!(
        "Proposed from the computation (lidladder fallbacks propose, seed {}, {} customers of the population {}, known of \
         each: {measured}). {} rules for {} models, {} of them the shop's, too. Read and change them: what a fitter \
         knows is not in them.",
        question.seed,
        thousands(question.heads),
        question.population.id,
        proposal.rules.len(),
        proposal.models(),
        proposal.agreed()
    );
    comment(text, 0, &words);
    comment(text, 0, &format!("Against the shop's rules, {}", compared(question.heads, &proposal.verified)));
    let words = "No size is set: take the one that suits the head best. In the notes: how many of 1,000 customers who \
                 start with the model say so, and how many of these the next one fits.";
    comment(text, 0, words);
}

struct Names<'n>(&'n Catalogue);

impl Names<'_> {
    fn rule(&self, text: &mut String, rule: &ProposedRule) {
        let models = self.0.models();
        let ids = [rule.spot.from, rule.to].map(|model| &models[model].id);
        line(text, ids.map(|id| id.as_str()), rule.spot.reason.id(), None, &self.note(rule));
    }

    fn note(&self, rule: &ProposedRule) -> String {
        let whole = |share: f64| format!("{:.0} %", share * 100.0);
        let who = if rule.is_shops { "computed and the shop's" } else { "computed" };
        let short = format!("{who}: {} of 1,000 say so, it fits {}", per_thousand(rule.heard), whole(rule.fits));
        let other = rule.other.map(|(model, fits)| format!("{short}; {} {}", self.0.models()[model].name, whole(fits)));
        other.filter(|note| note.chars().count() <= NOTE).unwrap_or(short)
    }

    fn without(&self, text: &mut String, why: &str, spots: &[Spot]) {
        if spots.is_empty() {
            return;
        }
        let of_model = spots.iter().chunk_by(|spot| spot.from);
        let words = of_model.into_iter().map(|(from, spots)| {
            let reasons = spots.map(|spot| spot.reason.id()).join(", ");
            format!("{}: {reasons}", self.0.models()[from].id)
        });
        let words = words.collect_vec().join("; ");
        comment(text, 2, &format!("{why}: {words}."));
    }
}

fn edge(text: &mut String, edge: &Edge) {
    let size = edge.size.as_ref().map(|hint| match hint {
        SizeHint::Same => "same".to_owned(),
        SizeHint::Up => "up".to_owned(),
        SizeHint::Down => "down".to_owned(),
        SizeHint::Label(label) => quoted(label.as_str()),
    });
    line(text, [edge.from.as_str(), edge.to.as_str()], edge.reason.id(), size, &edge.note);
}

fn line(text: &mut String, [from, to]: [&str; 2], reason: &str, size: Option<String>, note: &str) {
    let size = size.map_or(String::new(), |size| format!(", size: {size}"));
    let [from, to] = [from, to].map(quoted);
    text.push_str(&format!(
        "  - {{from: {from}, reason: {reason}, to: {to}{size},\n     note: {}}}\n",
        in_quotes(note)
    ));
}

/// An id as YAML reads it back as text.
fn quoted(id: &str) -> String {
    super::paste::scalar(id)
}

/// A text in double quotes, as YAML and JSON read it alike.
pub(super) fn in_quotes(text: &str) -> String {
    let mut quoted = String::from("\"");
    for character in text.chars() {
        match character {
            '"' | '\\' => quoted.extend(['\\', character]),
            _ if is_invisible(character) => {
                let units = &mut [0; 2];
                quoted.extend(character.encode_utf16(units).iter().map(|unit| format!("\\u{unit:04x}")));
            }
            _ => quoted.push(character),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_would_end_or_spoil_a_note_is_escaped() {
        assert_eq!(in_quotes(r#"the "wide" one \ M"#), r#""the \"wide\" one \\ M""#);
        assert_eq!(in_quotes("a\u{202e}b\n"), r#""a\u202eb\u000a""#);
    }
}
