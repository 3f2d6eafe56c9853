//! How all pages look: on screens of any width, light or dark, and on paper, there black on white.

use crate::render::colour::{DARK, LIGHT, Scheme};
use itertools::Itertools;

/// The rules of style that all pages share.
pub(super) fn look() -> String {
    let [light, dark] = [&LIGHT, &DARK].map(colours);
    format!(
        ":root {{ color-scheme: light dark; {light} }}\n\
         @media screen and (prefers-color-scheme: dark) {{ :root {{ {dark} }} }}\n{LOOK}"
    )
}

fn colours(scheme: &Scheme) -> String {
    let Scheme { ground, panel, ink, faint, geometric, experience, .. } = scheme;
    // What is little has the ground of the page.
    let stronger = scheme.shades.iter().rev().skip(1).zip(2..=4);
    let shades = stronger.map(|((ground, words), step)| format!("--s{step}: {ground}; --on-s{step}: {words}"));
    let shades = shades.chain([format!("--s1: {panel}; --on-s1: {ink}")]).join("; ");
    format!(
        "--paper: {ground}; --panel: {panel}; --ink: {ink}; --soft: {faint}; --mark: {geometric}; --shop: {experience}; \
         {shades}"
    )
}

const LOOK: &str = "\
@page { size: A4; margin: 14mm }
* { box-sizing: border-box }
body { font: 16px/1.45 sans-serif; max-width: 62rem; margin: 0 auto; padding: 0 .9rem 2rem; color: var(--ink);
  background: var(--paper); overflow-wrap: anywhere }
header { margin: 1rem 0; border-bottom: 3px solid var(--ink); padding-bottom: .4rem }
header p { margin: 0; color: var(--soft) }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .2rem }
h2 { font-size: 1.25rem; line-height: 1.25; margin: 1.8rem 0 .4rem; break-after: avoid }
h3 { font-size: 1.05rem; margin: 1.1rem 0 .3rem; break-after: avoid }
p, ul, ol, dl { margin: .4rem 0 }
ul, ol { padding-left: 1.3rem }
li { margin: .2rem 0; break-inside: avoid }
a { color: var(--mark) }
code { font-size: .95em }
:focus-visible { outline: 3px solid var(--mark); outline-offset: 2px }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem .9rem }
dt { color: var(--soft) }
dd { margin: 0 }
.warnings { border: 2px solid var(--ink); border-left-width: .6rem; padding: .2rem .8rem; margin: 1rem 0; break-inside: avoid }
.wide { overflow-x: auto }
table { border-collapse: collapse; min-width: min(100%, 24rem); margin: .5rem 0; font-variant-numeric: tabular-nums; }
caption, .caption { text-align: left; color: var(--soft); padding: .2rem 0 }
.caption { margin-bottom: 0; break-after: avoid }
tr { break-inside: avoid }
th, td { padding: .25rem .5rem; text-align: left; vertical-align: top; border-bottom: 1px solid var(--soft);
  overflow-wrap: normal }
thead th { font-size: .88rem; vertical-align: bottom }
tbody th { font-weight: 600 }
.long { overflow-wrap: anywhere }
.n { text-align: right; white-space: nowrap }
thead .n { white-space: normal }
.s1 { background: var(--s1); color: var(--on-s1) } .s2 { background: var(--s2); color: var(--on-s2) }
.s3 { background: var(--s3); color: var(--on-s3) } .s4 { background: var(--s4); color: var(--on-s4) }
figure { margin: .8rem 0; break-inside: avoid }
figure svg { display: block; max-width: 100%; height: auto }
.wide > svg { max-width: none }
figcaption { color: var(--soft); font-size: .92rem }
@media (min-width: 48rem) { .beside { display: grid; grid-template-columns: 1fr 340px; column-gap: 2rem; align-items: start }
  .beside > * { grid-column: 1 } .beside > figure { grid-column: 2; grid-row: 1 / span 9 } .beside h2 { margin-top: .6rem } }
footer { margin-top: 2rem; border-top: 3px solid var(--ink) }
@media (max-width: 34rem) { dl { grid-template-columns: 1fr; gap: 0 } dd { margin-bottom: .4rem }
  th, td { padding: .2rem .3rem } table { font-size: .88rem } }
@media print {
  body { font-size: 9.5pt; line-height: 1.28; max-width: none; padding: 0 }
  h2 { margin-top: .9rem }
  .wide { overflow: visible; break-inside: avoid }
  .beside { display: grid; grid-template-columns: 1fr 70mm; column-gap: 6mm; align-items: start }
  .beside > * { grid-column: 1 } .beside > figure { grid-column: 2; grid-row: 1 / span 9 }
  table { break-inside: avoid }
  .s1, .s2, .s3, .s4 { background: none; color: inherit }
  .wide > svg { max-width: 100% }
  footer, .cautions { break-inside: avoid }
}
";
