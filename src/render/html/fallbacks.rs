//! The shop's rules: the drawing, and every rule in words.

use super::Page;
use super::block::{cautions, figure, list, paragraph, section};
use crate::fallback::{Excerpt, Onward, Question};
use crate::profile::{Edge, Model};
use crate::render::markup::escaped;
use crate::render::rule_words::{
    self, LEFT_OUT, NO_RULE, NONE, any_of, by_nature, counts, one_by_one, silent, size, stop,
};
use crate::render::svg::{self, Kind};
use crate::unit::Id;
use itertools::Itertools;

/// The rules that were asked for, as a page.
#[must_use]
pub fn fallbacks(shop: &str, excerpt: &Excerpt<'_>, cautioned: &[&str]) -> String {
    let title = title(excerpt);
    let about = format!("The rules of {shop}");
    let main = if excerpt.rules.is_empty() && excerpt.question != Question::All {
        [paragraph(NO_RULE), ways(excerpt)].concat()
    } else {
        [summary(excerpt), ways(excerpt), index(excerpt), drawing(excerpt), rules(excerpt)].concat()
    };
    let footer = cautions(cautioned);
    Page { title: &title, about: &about, pictures: &[Kind::Graph], style: STYLE, main, footer }.finish()
}

fn title(excerpt: &Excerpt<'_>) -> String {
    match &excerpt.question {
        Question::All => "What the shop tries next, and why".to_owned(),
        Question::For(reasons) => format!("What the shop tries next for {}", any_of(reasons)),
        Question::About(model) => format!("{}: what the shop tries next, and what leads here", excerpt.name(model)),
        Question::Ways(model, reasons) => format!("Ways from {}, if {}", excerpt.name(model), one_by_one(reasons)),
    }
}

/// How much there is, and what goes round in circles.
fn summary(excerpt: &Excerpt<'_>) -> String {
    if excerpt.rules.is_empty() {
        return paragraph(NO_RULE);
    }
    let circles = excerpt.circles.iter().map(|circle| rule_words::circle(excerpt, circle, " → "));
    let circles = circles.map(|words| format!("Circle: {words}.")).collect_vec();
    let circles = if circles.is_empty() { String::new() } else { list(&circles) };
    format!("{}{circles}", paragraph(&format!("{}.", counts(excerpt))))
}

/// Every way for the reasons one after the other.
fn ways(excerpt: &Excerpt<'_>) -> String {
    let Some(onward) = &excerpt.ways else { return String::new() };
    section("ways", "Ways", &[branch(excerpt, onward)])
}

fn branch(excerpt: &Excerpt<'_>, onward: &Onward) -> String {
    let lines = match onward {
        Onward::Arrived => return String::new(),
        Onward::Silent(reason) => format!("<li>{}.</li>\n", escaped(&silent(*reason))),
        Onward::LeftOut => format!("<li>{LEFT_OUT}</li>\n"),
        Onward::Steps(steps) => {
            let step = |(edge, then): (&Edge, &Onward)| {
                let stop = stop(excerpt, edge).map_or_else(String::new, |words| format!(" {}", escaped(&words)));
                let (reason, note) = (edge.reason.id(), escaped(&edge.note));
                let target = target(excerpt, edge);
                format!("<li><b>{reason}</b> → {target}: {note}{stop}\n{}</li>\n", branch(excerpt, then))
            };
            let known = steps.iter().filter_map(|step| Some((excerpt.rule(step.rule)?, &step.then)));
            known.map(step).join("")
        }
    };
    format!("<ul>\n{lines}</ul>\n")
}

fn drawing(excerpt: &Excerpt<'_>) -> String {
    match svg::fallbacks(excerpt) {
        _ if excerpt.rules.is_empty() => String::new(),
        Ok(picture) => figure(&picture, ""),
        Err(fault) => paragraph(&format!("There is no drawing: {fault}. All rules stand below.")),
    }
}

/// Links to the rules of each model, where there are enough of them to search.
fn index(excerpt: &Excerpt<'_>) -> String {
    const FEW: usize = 3;
    let models = excerpt.models.iter().filter(|model| has_place(excerpt, &model.id)).collect_vec();
    if models.len() <= FEW {
        return String::new();
    }
    let link = |model: &&&Model| format!("<li><a href=\"#{}\">{}</a></li>\n", place(&model.id), escaped(&model.name));
    format!("<nav aria-label=\"Models\">\n<ul>\n{}</ul>\n</nav>\n", models.iter().map(link).join(""))
}

/// The rules, model by model.
fn rules(excerpt: &Excerpt<'_>) -> String {
    let placed = |is_meant: &dyn Fn(&Model) -> bool| {
        let models = excerpt.models.iter().filter(|model| has_place(excerpt, &model.id) && is_meant(model));
        models.map(|model| of_model(excerpt, model)).collect_vec()
    };
    let Question::About(asked) = excerpt.question else { return section("rules", "Every rule", &placed(&|_| true)) };
    let name = excerpt.name(asked);
    let own = leading(excerpt, asked);
    let to = match placed(&|model| model.id != *asked) {
        none if none.is_empty() => vec![paragraph(NONE)],
        some => some,
    };
    let from = if own.is_empty() { paragraph(NONE) } else { table(excerpt, asked, &own) };
    [section(&place(asked), &format!("If {name} fails"), &[from]), section("to", &format!("What leads to {name}"), &to)]
        .concat()
}

/// Whether a model has a place of its own on the page: it leads somewhere, or all are asked for.
fn has_place(excerpt: &Excerpt<'_>, model: &Id) -> bool {
    match excerpt.question {
        Question::All => true,
        Question::About(asked) if asked == model => true,
        _ => !leading(excerpt, model).is_empty(),
    }
}

fn leading<'a>(excerpt: &Excerpt<'a>, model: &Id) -> Vec<&'a Edge> {
    excerpt.rules.iter().map(|(_, edge)| *edge).filter(|edge| edge.from == *model).collect()
}

/// What links to a model lead to.
fn place(model: &Id) -> String {
    format!("model-{}", escaped(model.as_str()))
}

fn of_model(excerpt: &Excerpt<'_>, model: &Model) -> String {
    let [id, name] = [model.id.as_str(), &model.name].map(escaped);
    let rules = leading(excerpt, &model.id);
    let rules = if rules.is_empty() { paragraph(NONE) } else { table(excerpt, &model.id, &rules) };
    let kind = model.kind.name();
    format!("<section id=\"{}\">\n<h3>{name} <small>{id}, {kind}</small></h3>\n{rules}</section>\n", place(&model.id))
}

/// Rules from a model under the kinds of their reasons.
fn table(excerpt: &Excerpt<'_>, model: &Id, rules: &[&Edge]) -> String {
    let bodies = by_nature(rules).into_iter().map(|(nature, rules)| {
        let rows = rules.into_iter().map(|edge| row(excerpt, edge)).join("");
        format!(
            "<tbody class=\"{}\">\n<tr><th colspan=\"3\" scope=\"rowgroup\">{}</th></tr>\n{rows}</tbody>\n",
            nature.name(),
            rule_words::kind(nature)
        )
    });
    format!(
        "<table aria-label=\"If {} fails\">\n<thead>\n<tr><th scope=\"col\">If</th><th scope=\"col\">Try next</th>\
         <th scope=\"col\">Note</th></tr>\n</thead>\n{}</table>\n",
        escaped(excerpt.name(model)),
        bodies.collect_vec().concat()
    )
}

fn row(excerpt: &Excerpt<'_>, edge: &Edge) -> String {
    format!(
        "<tr><th scope=\"row\">{} <small>{}</small></th><td>{}</td><td>{}</td></tr>\n",
        edge.reason.id(),
        escaped(edge.reason.words()),
        target(excerpt, edge),
        escaped(&edge.note)
    )
}

/// A model with a link to its rules, and which size of it.
fn target(excerpt: &Excerpt<'_>, edge: &Edge) -> String {
    let name = escaped(excerpt.name(&edge.to));
    let is_there = has_place(excerpt, &edge.to);
    let named = if is_there { format!("<a href=\"#{}\">{name}</a>", place(&edge.to)) } else { name };
    format!("{named}, {}", escaped(&size(edge)))
}

/// The kinds differ as their strokes in the drawing do.
const STYLE: &str = "\
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .4rem }
nav li { margin: 0 }
nav a { display: inline-flex; align-items: center; min-height: 44px; padding: 0 .8rem; border: 1px solid var(--soft);
  border-radius: .4rem; text-decoration: none }
small { font-weight: normal; color: var(--soft) }
tbody small { display: block }
table { width: 100%; table-layout: fixed }
thead th:first-child { width: 36% }
thead th:nth-child(2) { width: 30% }
th[scope=rowgroup] { color: var(--soft); font-weight: normal; padding-top: .5rem }
tbody th, td { overflow-wrap: anywhere }
tbody th { border-left: .4rem solid var(--mark) }
tbody.experience th { border-left-style: dashed; border-left-color: var(--shop) }
tbody.stop th { border-left-style: double; border-left-color: var(--ink) }
.ways ul { list-style: none; border-left: 2px solid var(--soft); padding-left: .8rem; margin: .3rem 0 }
:target { scroll-margin-top: .5rem }
.wide > svg { margin: 0 auto }
/* Drawings are wider than lines of text may be. */
@media (min-width: 62rem) { figure { margin-left: calc(50% - 48vw); margin-right: calc(50% - 48vw) } }
@media (pointer: coarse) { td a, .ways a { display: inline-block; padding: .7rem 0 } }
@media print {
  nav { display: none }
  figure { margin: .3rem 0 }
  /* Beneath the heading, on the same sheet. */
  .wide > svg { max-height: 21cm }
  section section { break-inside: avoid }
  a { color: inherit; text-decoration: none }
}
";
