//! What was learned from journals.

use super::Page;
use super::block::{cautions, list, paragraph, section, table, warnings};
use crate::catalogue::Catalogue;
use crate::learn::{Difference, Learned, LearnedModel, LearnedShell, Question, Score, Verdict};
use crate::render::json::Warning;
use crate::render::learn_words::{
    self, NO_JUDGES, SCORE_ERROR, TAKE_OVER, changes, difference, from_to, judges, larger, name, too_little, untried,
    word,
};
use crate::render::table::{Cell, Column, Table};
use crate::render::text::{percent, thousands};
use itertools::Itertools;

/// Between before and now.
const ARROW: &str = " → ";

/// The page: what to change first, then how well it foretells, then every figure.
#[must_use]
pub fn learn(
    catalogue: &Catalogue,
    question: &Question<'_>,
    learned: &Learned,
    (warned, cautioned): (&[Warning], &[&str]),
) -> String {
    let more = learn_words::more_tries(catalogue, learned);
    let more =
        more.map_or_else(String::new, |words| section("more", "More tries would tell more", &[paragraph(&words)]));
    let parts = [
        warnings(warned.iter().map(|warning| warning.message.as_str())),
        heard(catalogue, learned),
        proposed(catalogue, learned),
        judged(question, learned),
        helmets(catalogue, learned),
        section("shop", "Readings, reasons, customers", &[list(&learn_words::shop(learned, ARROW))]),
        more,
    ];
    let about = format!("For {}", catalogue.shop.name);
    let footer = cautions(cautioned);
    let title = "What the journals say";
    Page { title, about: &about, style: STYLE, main: parts.concat(), footer, ..Page::default() }.finish()
}

fn heard(catalogue: &Catalogue, learned: &Learned) -> String {
    let little = too_little(catalogue, learned).map_or_else(String::new, |words| paragraph(&words));
    [paragraph(&learn_words::heard(learned)), little].concat()
}

fn proposed(catalogue: &Catalogue, learned: &Learned) -> String {
    let changes = changes(catalogue, learned, ARROW);
    let parts = if changes.is_empty() { vec![paragraph("None.")] } else { vec![list(&changes), paragraph(TAKE_OVER)] };
    section("proposed", "Proposed changes of the profiles", &parts)
}

fn judged(question: &Question<'_>, learned: &Learned) -> String {
    const TITLE: &str = "How well that foretells";
    let Some(scores) = &learned.scores else { return section("judged", TITLE, &[paragraph(NO_JUDGES)]) };
    let row = |name: &str, [before, after]: [f64; 2], by: Difference| {
        vec![name.to_owned(), format!("{before:.3}"), format!("{after:.3}"), difference(by)]
    };
    let columns = ["profiles", "learned"].map(Column::numbers);
    let columns = [Column::words("score")].into_iter().chain(columns).chain([Column::words("difference")]).collect();
    let (before, after) = (&scores.before, &scores.after);
    let rows = [
        row("Brier score", [before.brier, after.brier], scores.brier),
        row("log score", [before.log, after.log], scores.log),
    ];
    let parts = [
        paragraph(&judges(question, scores)),
        table("Scores of customers who were kept apart", &Table::plain(columns, rows)),
        paragraph(SCORE_ERROR),
        reliability("What the profiles said, and what came of it", before),
        reliability("What is said as learned, and what came of it", after),
    ];
    section("judged", TITLE, &parts)
}

fn reliability(caption: &str, score: &Score) -> String {
    let rows = score.reliability.iter().map(|row| {
        vec![
            Cell::from(format!("{} said", percent(row.said))),
            Cell::percent(row.happened()),
            thousands(row.count).into(),
        ]
    });
    let columns = vec![Column::words("chance of a fit"), Column::numbers("fitted"), Column::numbers("of")];
    table(caption, &Table { columns, rows: rows.collect() })
}

fn helmets(catalogue: &Catalogue, learned: &Learned) -> String {
    let tried = || learned.models.iter().filter(|model| model.tries > 0);
    let index = |model: &LearnedModel| {
        row(name(catalogue, model).to_owned(), model.tries, from_to(model.index, ARROW), model.verdict)
    };
    let shells = |model: &LearnedModel| {
        let name = name(catalogue, model).to_owned();
        let heard = model.shells.iter().filter(|shell| shell.tries > 0);
        let told = |shell: &LearnedShell| {
            row(format!("{name}, {}", shell.id), shell.tries, larger(shell.centre, ARROW), shell.verdict)
        };
        heard.map(told).collect_vec()
    };
    let columns = |what: &str| {
        let others = ["before → now", "what to do"].map(Column::words);
        [Column::words(what), Column::numbers("tries")].into_iter().chain(others).collect_vec()
    };
    let untried = untried(catalogue, learned).map_or_else(String::new, |words| paragraph(&words));
    if tried().next().is_none() {
        return section("helmets", "Helmets", &[untried]);
    }
    let parts = [
        table("Shape index", &Table::plain(columns("model"), tried().map(index))),
        table(
            "How much larger than labelled sizes are, in circumference",
            &Table::plain(columns("shell"), tried().flat_map(shells)),
        ),
        untried,
    ];
    section("helmets", "Helmets", &parts)
}

fn row(name: String, tries: usize, figure: String, verdict: Verdict) -> Vec<String> {
    vec![name, thousands(tries), figure, word(verdict).to_owned()]
}

const STYLE: &str = "\
.proposed { border: 2px solid var(--ink); border-radius: .5rem; padding: .6rem .9rem; margin: 1rem 0 }
.proposed h2 { margin-top: 0 }
tbody th, .helmets td { overflow-wrap: anywhere }
";
