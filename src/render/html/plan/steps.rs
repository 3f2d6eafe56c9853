//! The steps one by one, and the pads that all of them want.

use crate::plan::Branch;
use crate::profile::Zone;
use crate::render::html::block::{facts, section, table};
use crate::render::html::cut::{WHO_GETS_HERE, cut};
use crate::render::markup::escaped;
use crate::render::plan_steps::NumberedStep;
use crate::render::plan_words::{PlanView, RARER, changed, heard, if_heard, pads};
use crate::render::table::{Column, Table};
use crate::render::text::{STOPS, mm, percent};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Every step with what is heard there and a link to what comes then.
pub(super) fn cards(view: &PlanView<'_>, steps: &[NumberedStep<'_>]) -> String {
    if steps.is_empty() {
        return String::new();
    }
    let parts = steps.iter().map(|step| card(view, steps, step)).collect_vec();
    section("steps", "Step by step", &parts)
}

fn card(view: &PlanView<'_>, steps: &[NumberedStep<'_>], step: &NumberedStep<'_>) -> String {
    let title = title(view, step);
    let back = step.from.and_then(|(from, branch)| Some((steps.get(from - 1)?, branch)));
    let back = back.map_or_else(String::new, |(from, branch)| {
        let heard = heard(branch).map_or_else(|| "of another reason".to_owned(), str::to_owned);
        format!(
            "<p class=\"back\"><a href=\"#step-{}\">{}</a> {} ({})</p>\n",
            from.number,
            escaped(&self::title(view, from)),
            escaped(&format!("failed because {heard}")),
            escaped(&view.says(branch, from.depth))
        )
    });
    let number = step.number;
    format!(
        "<article class=\"step\" id=\"step-{number}\">\n<h3>{}</h3>\n{back}<div class=\"what\">\n{}{}</div>\n{}</article>\n",
        escaped(&title),
        facts(&told(view, step)),
        next(view, steps, step),
        picture(view, step)
    )
}

fn title(view: &PlanView<'_>, step: &NumberedStep<'_>) -> String {
    format!("{}. {}", step.number, view.candidate(step.step.candidate).title())
}

fn told(view: &PlanView<'_>, step: &NumberedStep<'_>) -> Vec<(&'static str, String)> {
    let judged = step.step;
    let known = view.candidate(judged.candidate);
    let [circumference, length, breadth, face, index] = judged.head.mean;
    let fits = format!(
        "{} with the pads on offer, {} with those to start with",
        percent(judged.fit.value),
        percent(judged.pads.fit_at_once.value)
    );
    let mut told = vec![
        ("Fits", fits),
        ("Pads", pads(known, &judged.pads)),
        (
            "Takes",
            format!(
                "{:.0} minutes; {} of all customers with such a head get here",
                judged.minutes,
                percent(judged.reach)
            ),
        ),
        (
            "Head",
            format!(
                "{circumference:.0} mm around, {length:.0} long, {breadth:.0} broad, face {face:.0}; shape index {index:.1}"
            ),
        ),
    ];
    told.extend(view.rival(judged).map(|rival| ("But", rival)));
    told
}

/// What may be heard, and where it leads.
fn next(view: &PlanView<'_>, steps: &[NumberedStep<'_>], step: &NumberedStep<'_>) -> String {
    let ways = step.onward.iter().map(|(branch, to)| match to.and_then(|to| steps.get(to - 1)) {
        Some(next) => {
            let fits = format!("fits {}; {}", percent(next.step.fit.value), view.says(branch, step.depth));
            format!(
                "<li><a href=\"#step-{}\"><span>{}</span> <b>{}</b> <small>{}</small></a></li>\n",
                next.number,
                escaped(&lead(branch)),
                escaped(&title(view, next)),
                escaped(&fits)
            )
        }
        None => format!("<li>{} {}</li>\n", escaped(&lead(branch)), escaped(&view.says(branch, step.depth))),
    });
    let rest = step.rest.map(|rest| format!("<li>else ({}): {RARER}</li>\n", percent(rest)));
    let asides = view.asides(step.step).into_iter().map(|(edge, target, fit)| {
        let words =
            format!("if {}: {}, fits {} (shop: {})", edge.reason.words(), target.title(), percent(fit), edge.note);
        format!("<li>{}</li>\n", escaped(&words))
    });
    let items = ways.chain(rest).chain(asides).collect::<String>();
    // Whoever jumps from step to step doesn't see the end of the page.
    format!("<h4>If it fails</h4>\n<ul class=\"next\">\n{items}<li class=\"stop\">{}</li>\n</ul>\n", escaped(STOPS))
}

fn lead(branch: &Branch) -> String {
    format!("{} ({}):", if_heard(branch, "something else"), percent(branch.probability.value))
}

fn picture(view: &PlanView<'_>, step: &NumberedStep<'_>) -> String {
    let known = view.candidate(step.step.candidate);
    let (title, key) = (title(view, step), format!("step-{}", step.number));
    cut(known, &step.step.head, &view.catalogue.shop.fit, [WHO_GETS_HERE, &title, &key])
}

/// The pads to have at hand before anybody comes, helmet by helmet.
pub(super) fn bring(view: &PlanView<'_>, steps: &[NumberedStep<'_>]) -> String {
    let mut wanted = BTreeMap::<usize, (Vec<usize>, Vec<(Zone, f64)>)>::new();
    let mut order = Vec::new();
    for NumberedStep { step, number, .. } in steps {
        let known = view.candidate(step.candidate);
        let (numbers, pads) = wanted.entry(step.candidate).or_default();
        if numbers.is_empty() {
            order.push(step.candidate);
        }
        numbers.push(*number);
        pads.extend(changed(&known.size.standard, &step.pads.start).iter().map(|(zone, mm, _)| (*zone, *mm)));
        pads.extend(&step.pads.bring);
    }
    let rows = order.iter().filter_map(|candidate| {
        let (numbers, pads) = wanted.get(candidate)?;
        let known = view.candidate(*candidate);
        (!pads.is_empty()).then(|| vec![known.title(), numbers.iter().join(", "), listed(pads)])
    });
    let rows = rows.collect_vec();
    if rows.is_empty() {
        return String::new();
    }
    let columns = vec![Column::words("helmet"), Column::words("step"), Column::words("pads, mm")];
    section("bring", "Pads to bring", &[table("Beside those that come with each helmet", &Table::plain(columns, rows))])
}

/// Pads by zone: "brow 7, 16; sides 9.5".
fn listed(pads: &[(Zone, f64)]) -> String {
    let sorted = pads.iter().sorted_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let by_zone = sorted.dedup_by(|a, b| a.0 == b.0 && (a.1 - b.1).abs() < 1e-9).chunk_by(|(zone, _)| *zone);
    let zones = by_zone
        .into_iter()
        .map(|(zone, pads)| format!("{} {}", zone.name(), pads.map(|(_, thick)| mm(*thick)).join(", ")));
    zones.collect_vec().join("; ")
}

pub(super) const STYLE: &str = "\
.step { border-top: 2px solid var(--soft); padding-top: .3rem; margin-top: 1.4rem; scroll-margin-top: .5rem }
.step:target { border-top: 6px solid var(--mark) }
.step h3 { font-size: 1.2rem; margin: .2rem 0 }
.step h4 { font-size: 1rem; margin: .8rem 0 .2rem }
.back { color: var(--soft) }
.next { list-style: none; padding: 0 }
.next li { border-top: 1px solid var(--soft); padding: .5rem 0 }
.next a { display: block; min-height: 44px; padding: .4rem .7rem; margin: -.5rem 0; border-left: .4rem solid var(--mark);
  background: var(--panel); color: var(--ink); text-decoration: none }
.next a b { text-decoration: underline; color: var(--mark) }
.next .stop { font-size: .88rem; color: var(--soft) }
.back a { display: inline-block; min-height: 44px; line-height: 44px }
@media (min-width: 48rem) { .step { display: grid; grid-template-columns: 1fr 340px; column-gap: 1.5rem; align-items: start }
  .step > * { grid-column: 1 } .step > figure { grid-column: 2; grid-row: 1 / span 4; margin-top: 0 } }
@media print { .step { break-inside: avoid; margin-top: .8rem; display: grid; grid-template-columns: 1fr 47mm; column-gap: 6mm; align-items: start }
  .step > * { grid-column: 1 } .step > figure { grid-column: 2; grid-row: 1 / span 4; margin-top: 0 }
  .step h4, .step .next { margin: .3rem 0 } .next li { padding: .15rem 0 } .next .stop { font-size: 8.5pt } .next a { margin: -.15rem 0; padding: .15rem .4rem; min-height: 0 }
  .back a { min-height: 0; line-height: inherit }
  .step dl, .step p { margin: .2rem 0 } .step figcaption { font-size: 8.5pt } }
";
