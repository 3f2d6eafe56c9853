//! `range` with models dropped, models added, or fewer pads.

use crate::support::{Folder, Run, eighty_plain_columns, once, root};
use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::profile::Zone;
use lidladder::range::{
    Alteration, Changed, Column, Counted, Drawn, LeftOut, Shelf, Spread, What, WhatIf, count, like, without_pads,
};
use lidladder::unit::Id;
use proptest::prelude::*;
use rstest::rstest;
use serde_json::Value;
use std::fs;
use std::num::NonZeroUsize;
use std::sync::LazyLock;

static RANGE: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

const BOTH: &str = "range --heads 20000 --drop wexmarsh-slender,lantreth-longways --add wexmarsh-one@83/S/M";

fn columns() -> Vec<Column<'static>> {
    RANGE.models().iter().map(|model| Column::of(model, &RANGE)).collect()
}

fn counted(shelf: &Shelf<'_>, heads: u64) -> Counted {
    let adults = RANGE.population("adults").expect("part of the demo range");
    count(shelf, Drawn::new(adults, heads, 1), NonZeroUsize::MIN, &mut |_| {}).expect("nothing is wrong")
}

fn changed(alterations: &[Alteration], heads: u64) -> Changed {
    let what_if = WhatIf::new(columns(), alterations, &[], &RANGE);
    what_if.changed(&counted(&what_if.shelf, heads), RANGE.shop.words, 1)
}

fn drop(column: usize) -> Alteration {
    alteration(What::Dropped, Some(column), None)
}

fn alteration(what: What, out: Option<usize>, put: Option<lidladder::profile::Model>) -> Alteration {
    Alteration { what, id: "x".to_owned(), name: "X".to_owned(), out, put }
}

fn add(base: usize, index: f64) -> Alteration {
    let model = &RANGE.models()[base];
    let put = like(model, Id::try_from("new-one").expect("a name"), index, &RANGE);
    alteration(What::Like { name: model.name.clone(), from: model.interior.shape_index }, None, Some(put))
}

fn less(column: usize, left_out: LeftOut) -> Alteration {
    let put = without_pads(&RANGE.models()[column], &[left_out]);
    alteration(What::WithoutPads(vec![left_out]), Some(column), Some(put))
}

/// To the head: what stands side by side on one shelf is what two shelves say.
#[test]
fn a_change_is_the_difference_of_two_ranges() {
    let alterations = [drop(4), less(7, LeftOut::All), add(13, 83.0)];
    let changed = changed(&alterations, 30_000);
    let mut after = columns();
    after[7] = Column::of(alterations[1].put.as_ref().expect("fewer pads"), &RANGE);
    after.push(Column::of(alterations[2].put.as_ref().expect("a new one"), &RANGE));
    after.remove(4);
    let [before, after] = [columns(), after].map(|columns| counted(&Shelf::new(columns, RANGE.shop.fit), 30_000).tally);
    let standard = [&before, &after].map(|tally| tally.count(|pattern| !pattern.standard.is_empty()));
    let on_offer = [&before, &after].map(|tally| tally.count(|pattern| !pattern.on_offer.is_empty()));
    for (effect, [before, after]) in [(changed.together.standard, standard), (changed.together.on_offer, on_offer)] {
        assert_eq!(before + effect.change.won, after + effect.change.lost);
        assert!(effect.change.won > 0 && effect.change.lost > 0, "{effect:?}");
        assert_eq!((effect.before.value * 30_000.0).round() as u64, before);
        assert_eq!((effect.after.value * 30_000.0).round() as u64, after);
    }
    assert_eq!(changed.alone.len(), 3);
    for groups in [&changed.won, &changed.lost] {
        assert!((groups.iter().map(|group| group.share).sum::<f64>() - 1.0).abs() < 1e-9);
        assert!(groups.windows(2).all(|pair| pair[0].share >= pair[1].share));
    }
}

/// A model like another one with the same shape fits the same heads, though somebody measured that one.
#[test]
fn only_the_shape_of_a_model_like_another_one_differs() {
    let gravel =
        RANGE.models().iter().position(|model| model.id.as_str() == "dunvarrick-gravel").expect("a measured one");
    let size = RANGE.models()[gravel].sizes().next().expect("a size").1;
    assert!(size.measured.is_some());
    let nominal = lidladder::fit::Candidate::of_models([&RANGE.models()[gravel]], &RANGE)[0].nominal;
    let same = alteration(What::Added, None, add(gravel, nominal.shape_index).put);
    let together = changed(&[drop(gravel), same], 5_000).together;
    let moved = |change: lidladder::range::Change| change.won + change.lost;
    // Sizes that were measured differ a little in their shape.
    assert!(moved(together.standard.change) < 20, "{together:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    /// Another model serves nobody less, a model less nobody more, and so do pads less; the standard pads stay.
    #[test]
    fn more_is_never_less(model in 0..16_usize, other in 0..16_usize, index in 66.0..94.0, zone in 0..5_usize) {
        for effects in [changed(&[add(model, index)], 2_000).together, changed(&[add(model, index), add(other, 70.0)], 2_000).together] {
            prop_assert_eq!((effects.standard.change.lost, effects.on_offer.change.lost), (0, 0));
            prop_assert!(effects.standard.spread.from >= 0.0 && effects.on_offer.spread.from >= 0.0);
        }
        let dropped = changed(&[drop(model)], 2_000).together;
        prop_assert_eq!((dropped.standard.change.won, dropped.on_offer.change.won), (0, 0));
        let less = changed(&[less(model, LeftOut::Zone(Zone::ALL[zone]))], 2_000).together;
        prop_assert_eq!((less.standard.change.won, less.standard.change.lost, less.on_offer.change.won), (0, 0, 0));
        prop_assert!(less.standard.spread == Spread::default() && less.on_offer.spread.to <= 0.0, "it is the same helmet");
    }
}

#[rstest]
#[case(BOTH)]
#[case("range --heads 2000 --drop haspenfell-plum")]
#[case("range --heads 2000 --without-pads lantreth-hush,wexmarsh-one/sides,wexmarsh-one/cheeks=27.5 --type full-face")]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str) {
    let page = once(line);
    eighty_plain_columns(page.good());
    let mut rest = page.good();
    for part in ["CUSTOMERS ", "\nWHAT IS CHANGED\n", "\nSERVED, of 100 customers\n", "\nCAUTIONS\n"] {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
}

#[test]
fn a_document_tells_each_change_and_all_together() {
    let document = once(&format!("{BOTH} --format json")).document();
    let changes = document["changes"].as_array().expect("a list");
    let told = changes.iter().map(|change| (change["change"].as_str(), change["model"].as_str())).collect_vec();
    let expected = [("drop", "wexmarsh-slender"), ("drop", "lantreth-longways"), ("add-like", "wexmarsh-one@83/S/M")];
    assert_eq!(told, expected.map(|(change, model)| (Some(change), Some(model))));
    assert_eq!(changes[2]["sizes"], serde_json::json!(["S", "M"]));
    assert_eq!(changes[2]["shape_index"], 83.0);
    let won = |value: &Value| value["on_offer"]["won"].as_u64().expect("a count");
    assert!(won(&changes[2]["alone"]) > 0 && won(&changes[0]["alone"]) == 0);
    let together = &document["together"]["on_offer"];
    let number = |value: &Value| value.as_f64().expect("a number");
    let [before, after, change] = ["before", "after", "change"].map(|key| number(&together[key]["value"]));
    assert!((after - before - change).abs() < 2e-6);
}

/// The file of one family, with some text replaced.
fn family(old: &str, new: &str) -> Folder {
    let folder = Folder::new();
    let text = fs::read_to_string(root().join("profiles/helmets/dunvarrick.yaml")).expect("part of the demo range");
    assert!(text.contains(old));
    folder.write("new.yaml", text.replace(old, new));
    folder
}

#[test]
fn what_goes_and_comes_back_changes_nothing_in_any_world() {
    let folder = family("Dunvarrick", "Dunvarrick");
    let line = "range --heads 3000 --drop dunvarrick-gravel,dunvarrick-mud --add new.yaml";
    let page = folder.run(line);
    assert!(page.good().contains("Nothing changes"), "{}", page.stdout);
    let together = folder.run(&format!("{line} --format json")).document()["together"].clone();
    for pads in ["standard", "on_offer"] {
        let spread = &together[pads]["change_spread"];
        assert_eq!((&spread["from"], &spread["to"]), (&Value::from(0.0), &Value::from(0.0)));
    }
}

/// A helmet with fewer pads is the same helmet: as it comes it fits whom it fitted, however wrong its profile is.
#[test]
fn fewer_pads_change_nothing_for_the_standard_pads_in_any_world() {
    let together = once("range --heads 3000 --without-pads haspenfell-plum,lantreth-hush,wexmarsh-one --format json")
        .document()["together"]
        .clone();
    let zero = serde_json::json!({"mean": 0.0, "from": 0.0, "to": 0.0});
    assert_eq!(together["standard"]["change_spread"], zero);
    assert!(together["on_offer"]["lost"].as_u64().expect("a count") > 0);
}

/// The next year's model has the old one's id and is off in its own way.
#[test]
fn a_new_model_of_an_old_name_has_errors_of_its_own() {
    let folder = family("origin: measured}", "origin: measured, sd: 0.8}");
    let line = "range --heads 3000 --drop dunvarrick-gravel,dunvarrick-mud --add new.yaml --format json";
    let standard = folder.run(line).document()["together"]["standard"].clone();
    assert_eq!((&standard["won"], &standard["lost"]), (&Value::from(0), &Value::from(0)));
    let number = |key: &str| standard["change_spread"][key].as_f64().expect("a number");
    assert!(number("from") < 0.0 && number("to") > 0.0, "{standard}");
}

#[track_caller]
fn is_told(run: &Run, code: &str, words: &str) {
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    let flat = run.stderr.split_whitespace().join(" ");
    assert!(flat.contains(&format!("error[{code}]")) && flat.contains(words), "{}", run.stderr);
}

#[rstest]
#[case("--drop wexmarsh-on", "unknown-model", "did you mean `wexmarsh-one`?")]
#[case("--drop wexmarsh-one --type off-road", "not-asked-for", "Wexmarsh One is none of the models")]
#[case("--add wexmarsh-on@83", "unknown-model", "did you mean `wexmarsh-one`?")]
#[case("--add wexmarsh-one@", "not-a-number", "a shape index, such as 83")]
#[case("--add wexmarsh-one@round", "not-a-number", "`round` is not a shape index")]
#[case("--add wexmarsh-one@8", "add-form", "expected 65 to 95")]
#[case("--add wexmarsh-one@83/XXXXL", "unknown-size", "no size `XXXXL`")]
#[case("--add wexmarsh-one@83/M,L", "unknown-size", "no size `M,L`")]
#[case("--add wexmarsh-one@83 --add wexmarsh-one@83", "comes-in-twice", "comes in twice")]
#[case("--add wexmarsh-one", "profile-unreadable", "wexmarsh-one@83")]
#[case("--add nowhere.yaml", "profile-unreadable", "can't read nowhere.yaml")]
#[case("--without-pads wexmarsh-one/temples", "unknown-word", "`temples` is no word for a zone")]
#[case("--without-pads wexmarsh-one/sides=99", "nothing-left-out", "on offer for Wexmarsh One")]
#[case("--without-pads wexmarsh-one/sides=9.5 --drop wexmarsh-one", "nothing-left-out", "is dropped")]
fn what_makes_no_sense_is_told(#[case] options: &str, #[case] code: &str, #[case] words: &str) {
    is_told(&once(&format!("range --heads 1000 {options}")), code, words);
}

#[rstest]
#[case("shape_index: 79.5", "shape_index: 7.95", "profile-bounds", "new.yaml:14:29")]
#[case("maker: Orveld", "maker: Orveld\ncurrency: USD", "currency-mismatch", "new.yaml:4:11")]
#[case("id: dunvarrick-mud", "id: dunvarrick-gravel", "profile-duplicate", "defined twice")]
#[case("maker: Orveld", "maker: [Orveld", "yaml-syntax", "new.yaml:")]
#[case("maker: Orveld", "maker: Orveld ", "comes-in-twice", "new.yaml:10:9")]
fn a_file_that_can_not_come_in_shows_its_line(
    #[case] old: &str,
    #[case] new: &str,
    #[case] code: &str,
    #[case] words: &str,
) {
    is_told(&family(old, new).run("range --heads 1000 --add new.yaml"), code, words);
}
