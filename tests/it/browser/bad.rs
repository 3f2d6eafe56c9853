//! Small pages, each bad in one way, and one that is good.

use super::rules::Rule;

/// A page that breaks a rule.
pub(super) struct Bad {
    pub(super) rule: Rule,
    /// What stands between the tags of its body.
    pub(super) body: &'static str,
    /// Part of what must be told of it.
    pub(super) told: &'static str,
}

const fn bad(rule: Rule, body: &'static str, told: &'static str) -> Bad {
    Bad { rule, body, told }
}

pub(super) const BAD: &[Bad] = &[
    bad(Rule::SaysNothing, "<script>console.log('Hello')</script>", "it says log: Hello"),
    bad(Rule::SaysNothing, "<script>nothing()</script>", "it says error: nothing is not defined"),
    bad(Rule::AsksForNothing, r#"<img src="other.png" alt="other"/>"#, "other.png"),
    bad(Rule::AsksForNothing, "<style>p { background: url(ground.png) }</style><p>Words</p>", "ground.png"),
    bad(Rule::NoSidewaysScroll, r#"<p style="width: 400px">Wide</p>"#, "at 360 px: 4"),
    bad(Rule::NoSidewaysScroll, "<p>WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW</p>", "because of p \"WWW"),
    bad(Rule::NoSidewaysScroll, r#"<p style="position: absolute; left: 1300px">Far</p>"#, "at 1280 px: "),
    bad(
        Rule::TextsInside,
        r#"<svg width="90" height="40"><text x="60" y="20">Helmets</text></svg>"#,
        "\"Helmets\" is outside",
    ),
    bad(
        Rule::TextsInside,
        r#"<svg width="90" height="40"><text x="10" y="8">High</text></svg>"#,
        "\"High\" is outside",
    ),
    bad(
        Rule::TextsInside,
        r#"<svg width="200" height="60"><g><rect x="20" y="9" width="40" height="40"/><text x="30" y="30">Adventure</text></g></svg>"#,
        "\"Adventure\" is outside of the rectangle",
    ),
    bad(
        Rule::TextsApart,
        r#"<svg width="200" height="60"><text x="9" y="20">Brow</text><text x="30" y="24">Rear</text></svg>"#,
        "\"Brow\" and \"Rear\" overlap",
    ),
    bad(
        Rule::TextsReadable,
        r#"<svg width="200" height="60"><rect width="200" height="60" fill="black"/><text x="9" y="20" fill="navy">Brow</text></svg>"#,
        "light: \"Brow\" is [0.0, 0.0, 0.0] on [0.0, 0.0, 0.0], 1.00 to 1",
    ),
    bad(
        Rule::TextsReadable,
        r#"<style>@media (prefers-color-scheme: dark) { circle { fill: #333 } }</style>
<svg width="200" height="60"><circle fill="white" cx="30" cy="30" r="30"/><text x="9" y="30">Rear</text></svg>"#,
        "dark: \"Rear\" is [0.0, 0.0, 0.0] on [51.0, 51.0, 51.0], 1.66 to 1",
    ),
    bad(Rule::PicturesNamed, r#"<svg width="9" height="9"><title>T</title></svg>"#, "its <desc> is []"),
    bad(
        Rule::PicturesNamed,
        r#"<svg width="9" height="9"><title> </title><desc>D</desc></svg>"#,
        "its <title> is [\"\"]",
    ),
    bad(
        Rule::MarksAsData,
        r#"<svg><path data-edge="a b"><title>T</title></path><path data-edge="a b"><title>T</title></path></svg>"#,
        "data-edge \"a b\" is there twice",
    ),
    bad(
        Rule::MarksAsData,
        r#"<svg><path data-edge="a b"><title>T</title></path></svg>"#,
        "data-edge \"b a\" is missing",
    ),
    bad(Rule::MarksAsData, r#"<svg><path data-edge="b b"><title>T</title></path></svg>"#, "\"b b\" is not in the data"),
    bad(Rule::MarksAsData, r#"<svg><path data-edge="a b"/></svg>"#, "the title of data-edge \"a b\" is []"),
    bad(Rule::MarksAsData, r#"<svg><path data-zone="brow"/></svg>"#, "nothing says what data-zone must be"),
    bad(Rule::HeadingsInOrder, "<h1>One</h1><h3>Three</h3>", "\"Three\" has level 3 behind level 1"),
    bad(Rule::HeadingsInOrder, "<h1>One</h1><h1>Two</h1>", "2 headings of level 1"),
    bad(Rule::HeadingsInOrder, "<h2>Two</h2>", "0 headings of level 1"),
    bad(Rule::OneMain, "<h1>One</h1>", "0 main landmarks"),
    bad(Rule::OneMain, "<main>A</main><main>B</main>", "2 main landmarks"),
    bad(
        Rule::StopsInOrder,
        r##"<p><a href="#a">one</a> <a href="#a" tabindex="1">two</a></p>"##,
        "from a \"two\" the tab key leads back to a \"one\"",
    ),
    bad(Rule::StopsInOrder, r##"<p><a href="#a" tabindex="-1">one</a></p>"##, "the tab key doesn't reach a \"one\""),
    bad(Rule::TargetsLarge, r##"<nav><a href="#a">Cards</a> | <a href="#b">Maps</a></nav>"##, "a \"Maps\" is"),
    bad(
        Rule::TargetsLarge,
        r#"<details><summary style="line-height: 40px">More</summary>Words</details>"#,
        "summary \"More\" is 40.0 px high",
    ),
    bad(Rule::Accessible, r#"<main><h1>One</h1><p style="color: #999">Faint</p></main>"#, "light: color-contrast"),
    bad(
        Rule::Accessible,
        "<style>@media (prefers-color-scheme: dark) { p { color: #333 } body { background: #000 } }</style><p>Faint</p>",
        "dark: color-contrast",
    ),
    bad(Rule::Accessible, "<main><h1>One</h1></main><p>Alone</p>", "region"),
    bad(Rule::SheetsWhole, r#"<p>One</p><div style="break-before: page; height: 9px"></div>"#, "sheet 2 has no text"),
    bad(Rule::SheetsWhole, "<style>@page { size: A4 landscape }</style><p>One</p>", "sheet 1 has 842 x 595 points"),
    bad(Rule::SheetsWhole, r#"<p>One</p><div style="height: 600mm"></div><p>Two</p>"#, "it takes 3 sheets and not 2"),
    bad(Rule::NothingBesideTheSheet, r#"<p style="width: 300mm">Wide</p>"#, "p \"Wide\""),
    bad(
        Rule::NothingBesideTheSheet,
        r#"<div style="overflow-x: auto"><p style="width: 300mm">Wide</p></div>"#,
        "div \"Wide\"",
    ),
    bad(
        Rule::NothingCutByASheet,
        r#"<svg width="99" height="1100"><title>High</title></svg>"#,
        "\"High\" is 1100 px high",
    ),
    bad(
        Rule::NothingCutByASheet,
        r#"<table><tr><th>One</th><td><div style="height: 1040px">Two</div>Three</td></tr></table>"#,
        "tr \"OneTwoThree\" is on the sheets [1, 2]",
    ),
];

/// Right in every way, if only just: texts and edges touch, a target is 44 px high, tables go over two sheets between rows.
pub(super) const GOOD: &str = r##"<header><h1>Top</h1></header>
<main>
<h2>Words</h2>
<p>Look at <a href="#rows">the rows</a> first.</p>
<details><summary>More</summary><p>Hidden</p></details>
<svg viewBox="0 0 200 60" role="img" aria-labelledby="t"><title id="t">Rules</title><desc>Two rules.</desc>
<g data-edge="a b"><title>From a to b</title><rect width="90" height="25"/><text x="0" y="17">Brow</text></g>
<g data-edge="b a"><title>From b to a</title><rect y="30" width="90" height="25"/></g>
<text x="199" y="17" text-anchor="end" style="fill: #757575">Rear</text><text x="92" y="17">Sides</text></svg>
<h2 id="rows">Rows</h2>
<table><thead><tr><th scope="col">Helmet</th></tr></thead>
<tbody><tr><td><div class="high">One</div></td></tr>
<tr><td><div class="high">Two</div></td></tr></tbody></table>
</main>
<footer><nav><a class="large" href="#rows">top</a></nav></footer>
"##;

/// A page with this body.
pub(super) fn page(body: &str) -> String {
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/><title>Page</title>\n<style>\n\
         @page {{ size: A4 }} svg {{ max-width: 100%; fill: #ccc }} svg[viewBox] {{ width: 200px }} text {{ font: 14px sans-serif; fill: #000 }}\n\
         summary, .large {{ display: block; line-height: 44px }} .high {{ height: 180mm }} tr {{ break-inside: auto }}\n\
         </style></head>\n<body>{body}</body></html>\n"
    )
}
