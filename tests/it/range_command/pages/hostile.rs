//! Names that try to be something else stay names.

use crate::markup::{is_sound, named, parsed};
use crate::support::Folder;
use rstest::rstest;

const NAME: &str = "<b>|`x`<script>&\"'</svg>";

fn spoilt() -> Folder {
    let folder = Folder::with_profiles();
    let name = NAME.replace('"', "\\\"");
    folder.edit("profiles/helmets/quorrie.yaml", "maker: Tollern", &format!("maker: \"{name}\""));
    folder.edit("profiles/helmets/quorrie.yaml", "name: Quorrie Plain", &format!("name: \"{name}\""));
    folder
}

#[rstest]
#[case("range")]
#[case("range --drop quorrie-plain")]
#[case("range keep")]
#[case("range stock --model quorrie-plain")]
fn a_name_is_no_element(#[case] line: &str) {
    let run = spoilt().run(&format!("{line} --heads 1000 --profiles profiles --format html"));
    is_sound(run.good());
    let page = parsed(run.good());
    let bold = named(&page, "b").map(|node| node.parent().map(|parent| parent.tag_name().name()));
    assert!(bold.into_iter().all(|parent| parent == Some("li")), "only large figures");
    assert!(run.stdout.contains("&lt;b&gt;|`x`&lt;script&gt;&amp;&quot;&#39;&lt;/svg&gt;"), "the name is told");
}
