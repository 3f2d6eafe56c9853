//! An audit of the shop's rules.

use super::Page;
use super::block::{cautions, paragraph, section, table};
use crate::audit::{Audit, Question, Takes, Verified, Weighed};
use crate::catalogue::Catalogue;
use crate::render::audit_words::{
    AuditWords, NO_CHANGE, NONE_MISLEADS, TOGETHER, compared, minutes, no_fit, per_thousand, unweighed, ways,
    ways_note, weighed, who,
};
use crate::render::diagnostics::numbered;
use crate::render::markup::escaped;
use crate::render::table::{Cell, Column, Table};
use crate::render::text::thousands;
use itertools::Itertools;

/// Silent reasons that the page lists; the document has them all.
const LISTED: usize = 25;

/// The audit as a page.
#[must_use]
pub fn audit(catalogue: &Catalogue, question: &Question<'_>, audit: &Audit<'_>, cautioned: &[&str]) -> String {
    let words = AuditWords { catalogue, audit, arrow: "→" };
    let parts = [
        answer(audit),
        takes(catalogue, audit),
        changes(&words, question),
        misleading(&words),
        silences(&words),
        followed(&words),
        others(&words, question),
    ];
    let about = format!("{}, by {} customers", catalogue.shop.name, thousands(audit.heads));
    let footer = cautions(cautioned);
    let title = "The shop's rules, weighed";
    Page { title, about: &about, style: STYLE, main: parts.concat(), footer, ..Page::default() }.finish()
}

/// What matters most, in two sentences.
fn answer(audit: &Audit<'_>) -> String {
    let misleading = match audit.misleading.len() {
        0 => "No rule misleads by more than the sampling error.".to_owned(),
        1 => "1 rule misleads: customers would do better without it, or led elsewhere.".to_owned(),
        count => format!("{count} rules mislead: customers would do better without them, or led elsewhere."),
    };
    let helpful = match audit.together.len() {
        0 => "No single change saves anything.".to_owned(),
        count => with_all(count, &audit.verified),
    };
    format!("<div class=\"answer\">\n{}{}</div>\n", paragraph(&misleading), paragraph(&helpful))
}

/// What so many changes do together, in short.
fn with_all(count: usize, verified: &Verified) -> String {
    let Verified { before, after, saves } = verified;
    format!(
        "With the best {}, a customer saves {} of {:.2} minutes in all, and {:.1} % instead of {:.1} % leave without a fit.",
        numbered(count, "change"),
        minutes(*saves),
        before.in_all.value,
        after.no_fit.value * 100.0,
        before.no_fit.value * 100.0
    )
}

fn takes(catalogue: &Catalogue, audit: &Audit<'_>) -> String {
    let columns = ["tries", "minutes", "no fit", "in all"].map(Column::numbers);
    let columns = [Column::words("who follows")].into_iter().chain(columns).collect();
    let row = |(name, takes): (&str, &Takes)| {
        let [tries, took, in_all] = [takes.tries, takes.minutes, takes.in_all].map(minutes);
        vec![name.to_owned(), tries, took, no_fit(takes), in_all]
    };
    let note = paragraph(&ways_note(catalogue));
    let caption = "What each takes on average: helmets, minutes, and minutes with what going without costs";
    section("takes", "What customers take", &[table(caption, &Table::plain(columns, ways(audit).map(row))), note])
}

fn changes(words: &AuditWords<'_, '_>, question: &Question<'_>) -> String {
    let audit = words.audit;
    let note = paragraph(&weighed(question, audit));
    if audit.together.is_empty() {
        return section("changes", "What would help most", &[paragraph(NO_CHANGE), note]);
    }
    let row = |(at, Weighed { change, saves }): (usize, &Weighed)| {
        vec![format!("{}. {}", at + 1, words.change(*change)), minutes(*saves)]
    };
    let columns = vec![Column::words("change"), Column::numbers("saves, minutes")];
    let rows = Table::plain(columns, audit.together.iter().enumerate().map(row));
    let together = format!("{TOGETHER}{}", compared(audit.heads, &audit.verified));
    let parts = [table("The best changes, one after the other", &rows), paragraph(&together), note];
    section("changes", "What would help most", &parts)
}

fn misleading(words: &AuditWords<'_, '_>) -> String {
    let misleading = words.misleading();
    if misleading.is_empty() {
        return section("misleading", "Rules that mislead", &[paragraph(NONE_MISLEADS)]);
    }
    let told = misleading.into_iter().map(|misleading| {
        let [rule, note, why] = [&misleading.rule, misleading.note, &misleading.why].map(escaped);
        format!("<div class=\"rule\">\n<h3>{rule}</h3>\n<p><q>{note}</q></p>\n<p>{why}</p>\n</div>\n")
    });
    section("misleading", "Rules that mislead", &told.collect_vec())
}

fn silences(words: &AuditWords<'_, '_>) -> String {
    let silences = &words.audit.silences;
    if silences.is_empty() {
        return String::new();
    }
    let rest = silences.iter().skip(LISTED).map(|silence| silence.share).sum::<f64>();
    let others = silences.len().saturating_sub(LISTED);
    let row = |place: String, share: f64| vec![Cell::from(place), Cell::shaded(per_thousand(share), share)];
    let listed = silences.iter().take(LISTED).map(|silence| row(words.silence(silence), silence.share));
    let others = (others > 0).then(|| row(format!("at {others} other places, each in the JSON document"), rest));
    let columns = vec![Column::words("where, and what a rule would save in minutes"), Column::numbers("of 1,000")];
    let rows = listed.chain(others).collect();
    let caption = "Customers of 1,000 who leave without a helmet here";
    section("silences", "No rule, and the customer leaves", &[table(caption, &Table { columns, rows })])
}

fn followed(words: &AuditWords<'_, '_>) -> String {
    let (often, hardly) = words.followed();
    if words.audit.rules.is_empty() {
        return String::new();
    }
    let rows = often.into_iter().filter_map(|facts| {
        let edge = words.edge(facts.rule)?;
        let better = facts.better();
        let best = better.map_or_else(|| Cell::from("-".to_owned()), |(_, fits)| Cell::percent(fits));
        let other = better.map_or(String::new(), |(model, _)| words.name(model).to_owned());
        let used = per_thousand(facts.used);
        Some(vec![Cell::from(words.rule(edge)), used.into(), Cell::percent(facts.fits.value), best, other.into()])
    });
    let columns = vec![
        Column::words("rule"),
        Column::numbers("of 1,000"),
        Column::numbers("fits"),
        Column::numbers("best"),
        Column::words("which would fit so many"),
    ];
    let caption =
        "How many of 1,000 customers go this way, whom the next model fits, and the most that one model would fit";
    let table = table(caption, &Table { columns, rows: rows.collect() });
    let hardly = match hardly {
        0 => String::new(),
        count => paragraph(&format!("{count} other rules are hardly used, each in the JSON document.")),
    };
    section("followed", "Rules as they are followed", &[table, hardly])
}

fn others(words: &AuditWords<'_, '_>, question: &Question<'_>) -> String {
    let unused = words.unused().map_or_else(String::new, |unused| paragraph(&unused));
    let customers = format!("{} customers. {}", thousands(words.audit.heads), who(question, words.audit));
    let others = section("others", "The other rules", &[unused, paragraph(&unweighed(words.audit))]);
    [others, section("customers", "Who came in", &[paragraph(&customers)])].concat()
}

const STYLE: &str = "\
.answer { font-size: 1.15rem; border-left: .4rem solid var(--mark); padding: .1rem .9rem }
.rule { break-inside: avoid }
q { color: var(--soft) }
tbody th, td { overflow-wrap: anywhere }
.silences tbody th, .changes tbody th, .followed tbody th { font-weight: normal }
.followed table { min-width: 42rem }
@media print { .followed table { min-width: 0 } }
";
