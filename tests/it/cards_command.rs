//! The command `cards`.

mod hostile;
mod pages;

use crate::support::{Run, eighty_plain_columns, lidladder, once, root};
use itertools::Itertools;
use rstest::rstest;
use serde_json::Value;
use std::fs;
use std::sync::Arc;

/// All cards in a format.
fn deck(format: &str) -> Arc<Run> {
    once(&format!("cards --heads 5000 --format {format}"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

#[rstest]
#[case("cards --heads 5000", 16)]
#[case("cards --heads 1000 wexmarsh-one quorrie-plain wexmarsh-one", 2)]
#[case("cards --heads 1000 --type off-road --population women --seed 3", 2)]
#[case("cards --heads 1000 umberlow-bowl --out-of-stock umberlow-bowl/M,umberlow-bowl/L", 1)]
fn cards_have_their_parts_in_eighty_plain_columns(#[case] line: &str, #[case] cards: usize) {
    let run = once(line);
    eighty_plain_columns(run.good());
    assert_eq!(run.stdout.matches("CARD  ").count(), cards);
    for part in ["\nSUITS\n", "\nPADS\n", "\nWHAT IS HEARD\n", "\nWHERE TO GO NEXT\n"] {
        assert_eq!(run.stdout.matches(part).count(), cards, "{part}");
    }
    for part in ["\nCAUTIONS\n", "\nHOW SURE\n"] {
        assert_eq!(run.stdout.matches(part).count(), 1, "{part}: once behind all");
    }
}

/// The whole card of one model; `LIDLADDER_UPDATE=1` writes it anew.
#[test]
fn the_card_of_the_slender_is_the_one_of_today() {
    let path = root().join("tests/data/card.txt");
    let run = once("cards wexmarsh-slender --heads 20000");
    if std::env::var_os("LIDLADDER_UPDATE").is_some() {
        fs::write(&path, run.good()).expect("the card can be written");
    }
    assert_eq!(run.good(), fs::read_to_string(&path).unwrap_or_default());
}

/// Named cards come in the order of their names and say what they say among all.
#[test]
fn named_cards_are_those_of_the_whole_deck() {
    let all = deck("json").document();
    let some = once("cards wexmarsh-two-flip haspenfell-plum --heads 5000 --format json").document();
    let ids = list(&some["cards"]).iter().map(|card| card["model"].as_str().expect("an id")).collect_vec();
    assert_eq!(ids, ["wexmarsh-two-flip", "haspenfell-plum"]);
    for card in list(&some["cards"]) {
        assert!(list(&all["cards"]).contains(card), "{}", card["model"]);
    }
    assert_eq!((&all["models"], &some["models"]), (&16.into(), &16.into()));
}

/// What `range` says of a model stands on its card.
#[test]
fn cards_and_range_agree() {
    let range = once("range --heads 5000 --format json").document();
    let cards = deck("json").document();
    for (model, card) in list(&range["models"]).iter().zip(list(&cards["cards"])) {
        assert_eq!(model["model"], card["model"]);
        for (of_range, of_card) in [
            ("served_with_standard_pads", "as_it_comes"),
            ("served_with_pads_on_offer", "with_pads_on_offer"),
            ("served_only_by_it", "only_by_it"),
            ("best_fit", "best_fit"),
            ("best_fit_at", "best_fit_at"),
        ] {
            assert_eq!(model[of_range], card["suits"][of_card], "{}: {of_range}", model["model"]);
        }
    }
}

/// Of a table of heads the cards tell the same as of the same heads drawn, but for whose they are.
#[test]
fn a_table_of_heads_is_asked_as_well() {
    let folder = crate::support::Folder::new();
    folder.write(
        "heads.csv",
        "circumference,length,breadth,face width\n575,198,152,140\n575,190,160,140\n585,210,150,140\n",
    );
    let run = folder.run("cards wexmarsh-one --heads-from heads.csv --format json");
    let card = &run.document()["cards"][0];
    let heads = list(&card["suits"]["map"])
        .iter()
        .map(|row| ["long", "intermediate", "round"].map(|word| row[word]["heads"].as_u64().expect("heads")));
    let heads = heads.fold([0; 3], |sum, row| [sum[0] + row[0], sum[1] + row[1], sum[2] + row[2]]);
    // Indices 76.8, 84.2 and 71.4.
    assert_eq!(heads, [1, 1, 1]);
    assert_eq!(card["heard"]["heads"], 3);
    assert_eq!(run.status, 0);
}

#[rstest]
#[case("--threads 1")]
#[case("--threads 3")]
fn any_number_of_threads_prints_the_same(#[case] threads: &str) {
    let line = "cards haspenfell-plum --heads 40000 --format json";
    assert_eq!(lidladder(&format!("{line} {threads}")).good(), once(line).good());
}

#[rstest]
#[case("cards wexmarsh-oen", "unknown-model", "wexmarsh-one")]
#[case("cards wexmarsh-one nobody", "unknown-model", "nobody")]
#[case("cards wexmarsh-one --type open-face", "not-asked-for", "loosen them")]
#[case("cards --price-limit 1", "nothing-left", "--price-limit")]
#[case("cards --population nobody", "unknown-population", "adults")]
fn what_is_unknown_is_told(#[case] line: &str, #[case] code: &str, #[case] words: &str) {
    let run = lidladder(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains(code) && run.stderr.contains(words), "{}", run.stderr);
}
