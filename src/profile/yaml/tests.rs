use super::*;
use crate::diag::{MOST_PROBLEMS, Sources, Span};
use proptest::prelude::*;
use rstest::rstest;
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shelf {
    name: String,
    #[serde(default)]
    helmets: Vec<Helmet>,
    #[serde(default)]
    notes: BTreeMap<String, String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(dead_code, reason = "some are only read")]
struct Helmet {
    label: Label,
    price: Price,
    range: Option<[f64; 2]>,
    kind: Option<HelmetKind>,
    count: Option<u8>,
    ready: Option<bool>,
    loose: Option<Loose>,
}

/// A type that looks for itself what it is given.
#[derive(Debug)]
struct Loose;

impl<'de> Deserialize<'de> for Loose {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Words;
        impl serde::de::Visitor<'_> for Words {
            type Value = Loose;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a word or a number")
            }

            fn visit_str<E>(self, _: &str) -> Result<Loose, E> {
                Ok(Loose)
            }

            fn visit_u64<E>(self, _: u64) -> Result<Loose, E> {
                Ok(Loose)
            }

            fn visit_f64<E>(self, _: f64) -> Result<Loose, E> {
                Ok(Loose)
            }
        }
        deserializer.deserialize_any(Words)
    }
}

#[derive(Debug, Deserialize)]
#[serde(try_from = "f64")]
struct Price(f64);

#[derive(Debug, Deserialize)]
#[serde(try_from = "String")]
struct Label(String);

#[derive(Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum HelmetKind {
    FullFace,
    OpenFace,
}

impl TryFrom<f64> for Price {
    type Error = &'static str;

    fn try_from(value: f64) -> Result<Self, Self::Error> {
        // As all numbers of profiles it is finite.
        if value > 0.0 && value.is_finite() { Ok(Self(value)) } else { Err("a price is more than 0") }
    }
}

impl TryFrom<String> for Label {
    type Error = &'static str;

    fn try_from(value: String) -> Result<Self, Self::Error> {
        if value.is_empty() { Err("a label has a letter") } else { Ok(Self(value)) }
    }
}

/// Each problem as `line:column code "text at the place"`.
fn problems(text: &str) -> Vec<String> {
    let mut sources = Sources::default();
    let source = sources.add("shelf.yaml", text);
    let found = read_carefully::<Shelf>(source, text).problems;
    let show = |problem: &Diagnostic| {
        let span = problem.place.as_ref().unwrap().span;
        let (line, column) = sources.line_column(span);
        format!("{line}:{column} {} {:?}", problem.code.0, &text[span.start..span.end])
    };
    found.iter().map(show).collect()
}

fn only(text: &str) -> Diagnostic {
    let mut sources = Sources::default();
    let source = sources.add("shelf.yaml", text);
    let mut found = read::<Shelf>(source, text).problems;
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

fn at(text: &str, span: Span) -> &str {
    &text[span.start..span.end]
}

#[rstest]
#[case::syntax_unclosed_quote("name: \"x\n", "1:7 yaml-syntax \"\\\"\"")]
#[case::syntax_indentation("name: x\n helmets: []\n", "2:9 yaml-syntax \":\"")]
#[case::syntax_bracket("name: x\nhelmets: [{label: a]\n", "2:20 yaml-syntax \"]\"")]
#[case::syntax_after_other_characters("name: äöü€ : x: y\n", "1:12 yaml-syntax \":\"")]
#[case::tab_before_a_key("name: x\nnotes:\n\ta: b\n", "3:1 yaml-syntax \"\\t\"")]
#[case::control_character("name: a\u{1b}[31m\n", "1:8 yaml-syntax \"\\u{1b}\"")]
#[case::other_line_break("name: a # ä\u{2028}notes: {}\n", "1:12 yaml-syntax \"\\u{2028}\"")]
#[case::the_parsers_disagree("name: {a: b:c}\n", "1:7 profile-type \"{a: b:c}\"")]
#[case::duplicate_key("name: a\nnotes: {}\nname: b\n", "3:1 yaml-duplicate-key \"name\"")]
#[case::duplicate_key_in_a_map("name: a\nnotes: {é: b, 'é': c}\n", "2:15 yaml-duplicate-key \"'é'\"")]
#[case::anchor("name: &a x\n", "1:7 yaml-anchor \"&a\"")]
#[case::anchor_of_a_group("name: x\nnotes: &ä\n  a: b\n", "2:8 yaml-anchor \"&ä\"")]
#[case::alias("name: *a\n", "1:7 yaml-alias \"*a\"")]
#[case::tag("name: !!str x\n", "1:7 yaml-tag \"!!str\"")]
#[case::number_as_key("name: a\nnotes: {58: b}\n", "2:9 yaml-key \"58\"")]
#[case::list_as_key("name: a\n? [a, [b]]\n: c\n", "2:3 yaml-key \"[\"")]
#[case::two_documents("name: a\n---\nname: b\n", "2:1 yaml-documents \"---\"")]
#[case::nothing("", "1:1 yaml-empty \"\"")]
#[case::only_a_comment("# nothing\r\n", "1:1 yaml-empty \"\"")]
#[case::only_a_document_mark("---\n", "1:1 yaml-empty \"\"")]
#[case::missing_key("notes: {}\n", "1:1 profile-missing-key \"notes\"")]
#[case::unknown_key(
    "name: a\r\nö: b\r\nhelmet: []\r\n",
    "2:1 profile-unknown-key \"ö\"; 3:1 profile-unknown-key \"helmet\""
)]
#[case::wrong_type("name: [a]\n", "1:7 profile-type \"[a]\"")]
#[case::not_even_keys("- a\n", "1:1 profile-type \"- a\"")]
#[case::empty_value("name: a\nhelmets:\n  -\n", "3:3 profile-missing-key \"-\"")]
fn each_fault_is_told_at_its_place(#[case] text: &str, #[case] expected: &str) {
    assert_eq!(problems(text).join("; "), expected);
}

#[rstest]
#[case::text(
    "price: zwölf",
    "zwölf",
    "`price` needs a number, but has the text `zwölf`",
    "write a number such as 12 or 12.5"
)]
#[case::comma(
    "price: 12,5",
    "12,5",
    "`price` needs a number, but has the text `12,5`",
    "decimals stand behind a point: 12.5"
)]
#[case::unit(
    "price: 12 EUR",
    "12 EUR",
    "`price` needs a number, but has the text `12 EUR`",
    "write the number alone, without a unit"
)]
#[case::quoted(
    "price: '12'",
    "'12'",
    "`price` needs a number, but has the text `\"12\"` in quotes",
    "leave the quotes out"
)]
#[case::its_own_rule("price: 0", "0", "`price` can't be `0`: a price is more than 0", "")]
#[case::nothing("price: ~", "~", "`price` needs a number, but has nothing", "write a number such as 12 or 12.5")]
#[case::too_large("price: 1\n    count: 256", "256", "`count` needs a whole number from 0 to 255, but has `256`", "")]
#[case::too_few("price: 1\n    range: [1]", "[1]", "`range` needs a list of 2 entries, but has 1 entry", "")]
#[case::yes("price: 1\n    ready: yes", "yes", "`ready` needs `true` or `false`, but has the text `yes`", "write true")]
#[case::own_words("price: 1\n    loose: true", "true", "`loose` needs a word or a number, but has `true`", "")]
#[case::word("price: 1\n    kind: full-fase", "full-fase", "`kind` can't be `full-fase`", "did you mean `full-face`?")]
#[case::far_word(
    "price: 1\n    kind: '\\e[1m'",
    "'\\e[1m'",
    "`kind` can't be `\\e[1m`",
    "the words known here are `full-face`, `open-face`"
)]
#[case::control(
    "price: 1\n    kind: \"\\e[1m\"",
    "\"\\e[1m\"",
    "`kind` can't be `\\u{1b}[1m`",
    "the words known here are `full-face`, `open-face`"
)]
#[case::group_for_word(
    "price: 1\n    kind: {}",
    "{}",
    "`kind` needs one of the words `full-face`, `open-face`, but has a group of keys",
    ""
)]
#[case::typing_slip("pirce: 1", "pirce", "unknown key `pirce` in entry 1 of `helmets`", "did you mean `price`?")]
#[case::far_key(
    "price: 1\n    zzz: 1",
    "zzz",
    "unknown key `zzz` in entry 1 of `helmets`",
    "the keys known here are `label`, `price`, `range`, `kind`, `count`, `ready`, `loose`"
)]
#[case::missing(
    "count: 1",
    "label",
    "the key `price` is missing from entry 1 of `helmets`",
    "add `price` with its value"
)]
fn messages_teach(#[case] lines: &str, #[case] place: &str, #[case] message: &str, #[case] help: &str) {
    let text = format!("name: a\nhelmets:\n  - label: b\n    {lines}\n");
    let problem = only(&text);
    assert_eq!(at(&text, problem.place.unwrap().span), place);
    assert_eq!((problem.message.as_str(), problem.help.as_deref().unwrap_or_default()), (message, help));
}

#[test]
fn one_run_tells_the_problems_of_every_entry() {
    let text = "nmae: a\nhelmets:\n  - {label: '', price: 1, count: x}\n  - {label: [a], price: 1}\n  - {price: -1}\n  \
                - {label: b, price: 2, kind: none, ready: 1}\n  - nothing\nnotes: {a: [b], c: d}\n";
    assert_eq!(
        problems(text),
        [
            "1:1 profile-unknown-key \"nmae\"",
            "3:13 profile-type \"''\"",
            "3:34 profile-type \"x\"",
            "4:13 profile-type \"[a]\"",
            "5:6 profile-missing-key \"price\"",
            "5:13 profile-type \"-1\"",
            "6:32 profile-unknown-word \"none\"",
            "6:45 profile-type \"1\"",
            "7:5 profile-type \"nothing\"",
            "8:12 profile-type \"[b]\"",
        ]
    );
}

#[derive(Debug, Deserialize)]
#[serde(try_from = "String")]
struct Currency(#[expect(dead_code, reason = "only read")] String);

impl TryFrom<String> for Currency {
    type Error = &'static str;

    fn try_from(value: String) -> Result<Self, Self::Error> {
        if value.len() == 3 { Ok(Self(value)) } else { Err("a currency has three letters") }
    }
}

#[rstest]
#[case::in_a_list("[[a], eur, e, EUR, f]", "[a] e f")]
#[case::alone("[[a]]", "[a]")]
fn a_type_that_takes_nothing_filled_in_is_left_out(#[case] text: &str, #[case] expected: &str) {
    let mut sources = Sources::default();
    let source = sources.add("list.yaml", text);
    let found = read::<Vec<Currency>>(source, text).problems;
    let places: Vec<_> = found.iter().map(|problem| at(text, problem.place.as_ref().unwrap().span)).collect();
    assert_eq!(places.join(" "), expected);
}

#[rstest]
#[case::in_pairs("[[a, eur], [b]]", "a [b]")]
#[case::in_a_map("{x: a, y: [b], z: eur}", "a [b]")]
fn what_is_around_it_is_left_out_too(#[case] text: &str, #[case] expected: &str) {
    let mut sources = Sources::default();
    let source = sources.add("list.yaml", text);
    let found = if text.starts_with('[') {
        read::<Vec<[Currency; 2]>>(source, text).problems
    } else {
        read::<BTreeMap<String, Currency>>(source, text).problems
    };
    let places: Vec<_> = found.iter().map(|problem| at(text, problem.place.as_ref().unwrap().span)).collect();
    assert_eq!(places.join(" "), expected);
}

#[test]
fn refused_parts_and_wrong_types_are_told_together() {
    let text = "name: &a x\nnotes: *a\nhelmets: [{label: !b c, price: d}]\nname: [e]\n";
    assert_eq!(
        problems(text),
        [
            "1:7 yaml-anchor \"&a\"",
            "2:8 yaml-alias \"*a\"",
            "3:19 yaml-tag \"!b\"",
            "3:32 profile-type \"d\"",
            "4:1 yaml-duplicate-key \"name\"",
        ]
    );
}

#[test]
fn a_duplicate_key_shows_both_places() {
    let text = "name: ä\r\nname: b\r\n";
    let problem = only(text);
    assert_eq!(problem.place.unwrap().span.start, 10);
    assert_eq!(problem.related[0].span.start, 0);
}

#[test]
fn problems_are_not_told_without_end() {
    let text = format!("name: a\nhelmets: [{}]", "x, ".repeat(5000));
    is_cut(&problems(&text), "profile-type");
    let text = format!("name: a\nhelmets: [{}]", "{label: a}, ".repeat(5000));
    is_cut(&problems(&text), "profile-missing-key");
    let text = format!("name: a\nhelmets: [{}]", "{label: a, price: .nan}, ".repeat(5000));
    is_cut(&problems(&text), "profile-type");
    let text = format!("name: a\n{}", "name: b\n".repeat(5000));
    is_cut(&problems(&text), "yaml-duplicate-key");
    let notes: String = (0..5000).map(|number| format!("  k{number}: &a b\n")).collect();
    let text = format!("name: a\nnotes:\n{notes}");
    is_cut(&problems(&text), "yaml-anchor");
}

/// The first ones are told, and behind them that there are more, from the place of the next one on.
#[track_caller]
fn is_cut(told: &[String], code: &str) {
    assert_eq!(told.len(), MOST_PROBLEMS + 1);
    assert!(told[..MOST_PROBLEMS].iter().all(|problem| problem.contains(code)), "{}", told[0]);
    assert!(told[MOST_PROBLEMS].contains("more-problems"), "{}", told[MOST_PROBLEMS]);
    let line_column = |at: usize| {
        let (line, column) = told[at].split(' ').next().unwrap().split_once(':').unwrap();
        (line.parse::<usize>().unwrap(), column.parse::<usize>().unwrap())
    };
    assert!((1..told.len()).all(|at| line_column(at - 1) < line_column(at)), "they stand in order");
}

#[test]
fn as_many_problems_as_are_told_are_not_cut() {
    let text = format!("name: a\nhelmets: [{}]", "x, ".repeat(MOST_PROBLEMS));
    let told = problems(&text);
    assert_eq!(told.len(), MOST_PROBLEMS);
    assert!(!told.concat().contains("more-problems"));
}

/// A type with rules of its own ends a round for each value that it refuses.
#[test]
fn rounds_without_end_are_cut_too() {
    let text = format!("name: a\nhelmets: [{}]", "{label: '', price: 1}, ".repeat(30_000));
    let told = problems(&text);
    assert!((2..MOST_PROBLEMS).contains(&told.len()), "{}", told.len());
    assert!(told.iter().rev().skip(1).all(|problem| problem.contains("profile-type")));
    assert!(told[told.len() - 1].contains("more-problems"));
}

#[rstest]
#[case::list("- {a: [", "x,")]
#[case::list_on_lines("- {a: [", "x,\n   ")]
#[case::text("- \"", "word ")]
#[case::text_on_lines("- ", "word\n  ")]
#[case::comment("- # ", "x")]
#[case::comments("- a\n", "# x\n")]
#[case::empty_lines("- a\n", "\n")]
fn a_stretch_without_end_is_refused_where_it_begins(#[case] start: &str, #[case] part: &str) {
    let told = problems(&format!("{start}{}", part.repeat(700_000)));
    assert_eq!(told.len(), 1, "{}", told[0]);
    assert!(told[0].contains("yaml-too-large") && told[0].starts_with("1:"), "{}", told[0]);
    let told = problems(&format!("{start}{}", part.repeat(100_000 / part.len())));
    assert!(!told.concat().contains("yaml-too-large"), "{}", told[0]);
}

#[test]
fn too_many_values_are_refused_where_they_become_too_many() {
    let text = format!("name: a\nnotes: [{}]", "x,".repeat(600_000));
    assert_eq!(problems(&text), ["2:999999 yaml-too-large \"x\""]);
}

#[rstest]
#[case::brackets("[")]
#[case::groups("{a: ")]
#[case::dashes("- ")]
#[case::keys("? ")]
fn deep_nesting_is_refused_before_it_costs_time(#[case] part: &str) {
    let found = problems(&part.repeat(200_000));
    assert!(found.iter().any(|problem| problem.contains("yaml-depth")), "{found:?}");
}

#[test]
fn thirty_two_levels_are_not_too_deep() {
    let nested = |depth: usize| format!("{}1{}", "[".repeat(depth), "]".repeat(depth));
    assert!(!problems(&nested(32)).concat().contains("yaml-depth"));
    assert!(problems(&nested(33)).concat().contains("yaml-depth"));
}

#[test]
fn scalars_are_read_as_the_typed_parser_reads_them() {
    // The wrong key makes the patient decoder look at everything; it finds no other fault.
    let text = "x: 1\nname: 12\nhelmets:\n  - {label: true, price: 012, count: 0x10, range: [1, 2.5], kind: ~, loose: 1.5}\nnotes: {a: }\n";
    assert_eq!(problems(text), ["1:1 profile-unknown-key \"x\""]);
    let mut sources = Sources::default();
    let text = &text["x: 1\n".len()..];
    let source = sources.add("shelf.yaml", text);
    let shelf = read::<Shelf>(source, text).value.unwrap();
    assert_eq!((shelf.name.as_str(), shelf.helmets[0].label.0.as_str()), ("12", "true"));
    assert_eq!((shelf.helmets[0].count, shelf.helmets[0].kind.as_ref()), (Some(16), None));
    assert!((shelf.helmets[0].price.0 - 12.0).abs() < 1e-9);
    assert_eq!(shelf.notes["a"], "");
}

const WITH_PLACES: &str = "name: Grüße  # ö\r\nhelmets:\r\n- label: 'ü''' # 'c'\r\n  price: 1\r\n  range: [1, 2]  # c\r\n\r\n# d\r\n- label: |\r\n    é\r\n  price: 2\r\nnotes: {a.b: x, a: , \"c[0]\": \"\\\"y\"  }\r\n";

#[rstest]
#[case("name", "Grüße")]
#[case("helmets[0].label", "'ü'''")]
#[case("helmets[0].range", "[1, 2]")]
#[case("helmets[0].range[1]", "2")]
#[case("helmets[0]", "label: 'ü''' # 'c'\r\n  price: 1\r\n  range: [1, 2]")]
#[case("helmets[1].label", "é")]
#[case("helmets[1].price", "2")]
#[case("notes.a.b", "x")]
#[case("notes.a", "a")]
#[case("notes.c[0]", "\"\\\"y\"")]
#[case::unknown_key("helmets[0].range.zzz", "[1, 2]")]
#[case::unknown_entry("helmets[0].range[7]", "[1, 2]")]
#[case::no_path_at_all("name.]][[", "Grüße")]
fn paths_lead_to_values(#[case] path: &str, #[case] value: &str) {
    let mut sources = Sources::default();
    let source = sources.add("shelf.yaml", WITH_PLACES);
    let now = read_carefully::<Shelf>(source, WITH_PLACES).places;
    let later = read::<Shelf>(source, WITH_PLACES).places;
    for places in [now, later] {
        assert_eq!(at(WITH_PLACES, places.value(path)), value);
    }
}

#[rstest]
#[case("")]
#[case(".")]
fn the_whole_document_has_a_path(#[case] path: &str) {
    let mut sources = Sources::default();
    let source = sources.add("shelf.yaml", WITH_PLACES);
    let places = read::<Shelf>(source, WITH_PLACES).places;
    assert_eq!(at(WITH_PLACES, places.value(path)), WITH_PLACES.trim_end());
}

#[test]
fn a_plain_text_tells_its_problems_too() {
    assert!(is_plain("name: []\n"));
    let mut sources = Sources::default();
    let source = sources.add("built in", "name: []\n");
    assert_eq!(read::<Shelf>(source, "name: []\n").problems.len(), 1);
}

#[test]
fn cutting_a_text_short_anywhere_never_panics() {
    for (end, _) in WITH_PLACES.char_indices() {
        for extra in ["", "&é ", "!é", "*é", "\t", "\u{1b}", "\"", "{", "- [", "? ", "é: é: "] {
            let text = format!("{}{extra}", &WITH_PLACES[..end]);
            // Showing a problem slices the text, which fails off a character boundary.
            for problem in problems(&text) {
                assert!(!problem.is_empty());
            }
        }
    }
}

#[rstest]
#[case::plain(b"name: a".to_vec(), Ok("name: a"))]
#[case::marked(b"\xef\xbb\xbfname: a".to_vec(), Ok("name: a"))]
#[case::other_encoding(b"a: b\nc: \xe4\n".to_vec(), Err("yaml-encoding: x\\u{1b}.yaml is not UTF-8 text: byte 9 (line 2) can't be read"))]
#[case::wide(b"\xff\xfea\0".to_vec(), Err("yaml-encoding: x\\u{1b}.yaml is UTF-16 text: byte 1 (line 1) can't be read"))]
#[case::largest(vec![b' '; MOST_BYTES], Ok(""))]
#[case::too_large(
    vec![b' '; MOST_BYTES + 1],
    Err("yaml-too-large: x\\u{1b}.yaml holds more than the 4194304 bytes that are read")
)]
fn bytes_become_text(#[case] bytes: Vec<u8>, #[case] expected: Result<&str, &str>) {
    let read = text_of("x\u{1b}.yaml", bytes).map_err(|problem| format!("{}: {}", problem.code.0, problem.message));
    assert_eq!(read.as_deref().map(str::trim), expected.map_err(str::to_owned).as_ref().map(|text| *text));
}

/// What the two decoders say of a text without a fault in its form: whether it is a `T`.
fn said_by_both<T: DeserializeOwned>(text: &str) -> [bool; 2] {
    let mut sources = Sources::default();
    let source = sources.add("a.yaml", text);
    let first = first_pass(source, text);
    if !first.problems.is_empty() {
        return [false; 2];
    }
    let places = Places::new(source, first.tree);
    let mut problems = Vec::new();
    let value = patient::read::<T>(&places, &mut problems);
    assert!(value.is_some() || !problems.is_empty(), "whoever has no value says why");
    [problems.is_empty(), decode::<T>(text).is_ok()]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn the_two_decoders_agree(text in SHELF) {
        let [patient, typed] = said_by_both::<Shelf>(&text);
        prop_assert_eq!(patient, typed);
    }
}

/// Shelves with the values that are read in more than one way.
const SHELF: &str = "name: (a|12|''|~|\\|\n  b\n|>-\n  c\n  d\n|\"\\\\L\\\\x41\"|true|\\[\\]|)\nhelmets:\n  - \\{label: \
                     (a|1|'b'''|\"\"|~|yes|), price: (1|-0|\\+1|012|0x1|1e3|\\.5|5\\.|\\.inf|1_0|'1'|~), count: \
                     (1|-0|\\+1|0x10|0o7|0b1|1\\.0|256|~|''), ready: (true|True|yes|'true'|~), kind: \
                     (full-face|'open-face'|~|Full-Face), loose: (a|1|-1|1\\.5|'1'|true|~), range: \\[1, (2|a|-0|~)\\]\\}\n";

#[test]
fn what_the_typed_parser_takes_has_no_problem() {
    use crate::profile::raw::{CustomerFile, FallbackFile, HelmetFile, PopulationFile, ShopFile};
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/fuzz/corpus/profile");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let Ok(text) = text_of("a", std::fs::read(&path).unwrap()) else { continue };
        let mut characters = text.chars();
        characters.next();
        let text = characters.as_str();
        let said = [
            said_by_both::<HelmetFile>(text),
            said_by_both::<ShopFile>(text),
            said_by_both::<FallbackFile>(text),
            said_by_both::<PopulationFile>(text),
            said_by_both::<CustomerFile>(text),
        ];
        // The other way round it is a text that the parsers read differently, which is refused.
        assert!(said.iter().all(|[patient, typed]| *patient || !typed), "{}: {said:?}", path.display());
        count += 1;
    }
    assert!(count > 50, "{count}");
}
