//! The JSON Schemas in `docs/schema`: they are what the program writes by, and an independent validator agrees.

mod customer;
mod profiles;
mod reader;

use crate::support::{Folder, once, root};
use jsonschema::Validator;
use lidladder::drill::result_schema;
use lidladder::journal::line_schema;
use lidladder::render::json::{
    AuditDocument, AwayDocument, CardsDocument, CheckDocument, DrillDocument, FallbacksDocument, FitDocument,
    JournalDocument, LearnDocument, PadsDocument, PlanDocument, ProposalDocument, RangeChangeDocument,
    RangeDesignDocument, RangeDocument, RangeKeepDocument, RangeMakerDocument, RangeStockDocument, SketchDocument,
    VerifyDocument, WhyDocument,
};
use rstest::rstest;
use schemars::generate::SchemaSettings;
use serde_json::{Value, json};
use std::fs;

const PLAN: &str = "plan.schema.json";
const FIT: &str = "fit.schema.json";
const CHECK: &str = "check.schema.json";
const FALLBACKS: &str = "fallbacks-shown.schema.json";
const SKETCH: &str = "sketch.schema.json";
const AUDIT: &str = "audit.schema.json";
const PROPOSAL: &str = "proposal.schema.json";
const PADS: &str = "pads.schema.json";
const AWAY: &str = "away.schema.json";
const RANGE: &str = "range.schema.json";
const RANGE_STOCK: &str = "range-stock.schema.json";
const WHY: &str = "why.schema.json";
const DRILL: &str = "drill.schema.json";
const RESULT: &str = "result.schema.json";
const TRY: &str = "try.schema.json";
const JOURNAL: &str = "journal.schema.json";
const LEARN: &str = "learn.schema.json";
const RANGE_DESIGN: &str = "range-design.schema.json";
const RANGE_MAKER: &str = "range-maker.schema.json";
const VERIFY: &str = "verify.schema.json";
const RANGE_KEEP: &str = "range-keep.schema.json";
const RANGE_CHANGE: &str = "range-change.schema.json";
const CARDS: &str = "cards.schema.json";

/// The schema as the code has it: of what is written, not of what would be read.
fn generated(file: &str) -> Value {
    let generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let schema = match file {
        PLAN => generator.into_root_schema_for::<PlanDocument>(),
        FIT => generator.into_root_schema_for::<FitDocument>(),
        CHECK => generator.into_root_schema_for::<CheckDocument>(),
        FALLBACKS => generator.into_root_schema_for::<FallbacksDocument>(),
        SKETCH => generator.into_root_schema_for::<SketchDocument>(),
        AUDIT => generator.into_root_schema_for::<AuditDocument>(),
        PROPOSAL => generator.into_root_schema_for::<ProposalDocument>(),
        PADS => generator.into_root_schema_for::<PadsDocument>(),
        AWAY => generator.into_root_schema_for::<AwayDocument>(),
        RANGE => generator.into_root_schema_for::<RangeDocument>(),
        RANGE_STOCK => generator.into_root_schema_for::<RangeStockDocument>(),
        WHY => generator.into_root_schema_for::<WhyDocument>(),
        DRILL => generator.into_root_schema_for::<DrillDocument>(),
        RESULT => return result_schema(),
        TRY => return line_schema(),
        JOURNAL => generator.into_root_schema_for::<JournalDocument>(),
        LEARN => generator.into_root_schema_for::<LearnDocument>(),
        RANGE_DESIGN => generator.into_root_schema_for::<RangeDesignDocument>(),
        RANGE_MAKER => generator.into_root_schema_for::<RangeMakerDocument>(),
        VERIFY => generator.into_root_schema_for::<VerifyDocument>(),
        RANGE_KEEP => generator.into_root_schema_for::<RangeKeepDocument>(),
        RANGE_CHANGE => generator.into_root_schema_for::<RangeChangeDocument>(),
        CARDS => generator.into_root_schema_for::<CardsDocument>(),
        other => panic!("no schema {other}"),
    };
    schema.to_value()
}

fn committed(file: &str) -> Value {
    let text = fs::read_to_string(root().join("docs/schema").join(file)).expect("the schema is there");
    serde_json::from_str(&text).expect("the schema is JSON")
}

fn validator(file: &str) -> Validator {
    jsonschema::draft202012::new(&committed(file)).expect("the schema is a valid one")
}

fn faults(file: &str, document: &Value) -> Vec<String> {
    validator(file).iter_errors(document).map(|fault| format!("{}: {fault}", fault.instance_path())).collect()
}

#[rstest]
#[case(PLAN)]
#[case(FIT)]
#[case(CHECK)]
#[case(FALLBACKS)]
#[case(SKETCH)]
#[case(AUDIT)]
#[case(PROPOSAL)]
#[case(PADS)]
#[case(AWAY)]
#[case(RANGE)]
#[case(RANGE_STOCK)]
#[case(WHY)]
#[case(TRY)]
#[case(DRILL)]
#[case(RESULT)]
#[case(JOURNAL)]
#[case(LEARN)]
#[case(RANGE_DESIGN)]
#[case(RANGE_MAKER)]
#[case(VERIFY)]
#[case(RANGE_KEEP)]
#[case(RANGE_CHANGE)]
#[case(CARDS)]
fn the_committed_schema_is_the_generated_one(#[case] file: &str) {
    let path = root().join("docs/schema").join(file);
    let text = serde_json::to_string_pretty(&generated(file)).expect("a schema is JSON") + "\n";
    if std::env::var_os("LIDLADDER_UPDATE").is_some() {
        fs::create_dir_all(path.parent().expect("it lies in a folder")).expect("a folder can be made");
        fs::write(&path, &text).expect("the schema can be written");
    }
    let there = fs::read_to_string(&path).unwrap_or_default();
    assert!(there == text, "docs/schema/{file} is out of date: run this test with LIDLADDER_UPDATE=1");
}

#[rstest]
#[case(PLAN, "plan --format json -c 57.5cm", 0)]
#[case(PLAN, "plan --format json --type off-road -c 575±0 -l 197±0 -b 154±0 -w 140±0", 0)]
#[case(PLAN, "plan --format json --type open-face --shape round --wears quorrie-peak/M/too-oval --lead shop-only", 0)]
#[case(PLAN, "plan --format json --type off-road -c 690", 1)]
#[case(FIT, "fit lantreth-longways --format json -c 58cm -l 205 -b 150", 0)]
#[case(FIT, "fit haspenfell-penny --format json --size XS -c 62cm", 1)]
#[case(FIT, "fit quorrie-plain --format json --shape long --measured-by customer", 1)]
#[case(CHECK, "check --format json", 1)]
#[case(CHECK, "check nowhere --format json", 2)]
#[case(FALLBACKS, "fallbacks --format json", 0)]
#[case(FALLBACKS, "fallbacks --format json --from wexmarsh-one", 0)]
#[case(FALLBACKS, "fallbacks --format json --from wexmarsh-one --if too-round --if crown-gap", 1)]
#[case(SKETCH, "sketch --format json --size M=57-58", 1)]
#[case(SKETCH, "sketch --format json --size M=57-58 --like wexmarsh-one --tried M/c=575,b=158/too-oval/sides:12", 0)]
#[case(AUDIT, "fallbacks audit --customers 1000 --format json", 1)]
#[case(PROPOSAL, "fallbacks propose --customers 1000 --format json", 0)]
#[case(PADS, "pads wexmarsh-one M sides=9.5 cheeks=27.5 --format json", 0)]
#[case(PADS, "pads dunvarrick-gravel M brow=7 cheeks=34 --from cheeks=27 --sets 3 --in-drawer brow=7 --format json", 0)]
#[case(PADS, "pads dunvarrick-gravel M brow=7 --stock --format json", 0)]
#[case(AWAY, "away order --format json -c 575,578,574 -l 197,199,196 -b 153,152,154", 0)]
#[case(AWAY, "away order --format json -c 690", 1)]
#[case(RANGE, "range --heads 20000 --format json", 0)]
#[case(RANGE, "range --heads 20000 --format json --type flip-front", 0)]
#[case(RANGE_STOCK, "range stock --heads 2000 --format json", 0)]
#[case(RANGE_STOCK, "range stock --heads 2000 --margin 0.4 --budget 300 --model wexmarsh-one --format json", 0)]
#[case(WHY, "plan --format json -c 57.5cm --why", 0)]
#[case(WHY, "plan --format json -c 57.5cm --why=loose-sides", 0)]
#[case(WHY, "plan --format json -c 57.5cm --why=too-noisy", 0)]
#[case(WHY, "plan --format json -c 57.5cm --why=dislikes-it", 1)]
#[case(WHY, "plan --format json --type off-road -c 690 --why", 1)]
#[case(WHY, "plan --format json --type off-road -c 575±0 -l 197±0 -b 154±0 -w 140±0 --why", 0)]
#[case(RANGE_DESIGN, "range design --heads 4096 --type adventure --format json", 0)]
#[case(RANGE_DESIGN, "range design --heads 4096 --format json", 1)]
#[case(RANGE_MAKER, "range maker pellgrave --heads 4096 --format json", 0)]
#[case(RANGE_KEEP, "range keep --heads 20000 --format json", 0)]
#[case(DRILL, "drill --day 2026-03-14 --format json", 1)]
#[case(RANGE_CHANGE, "range --heads 2000 --drop lantreth-hush --without-pads wexmarsh-one/sides --format json", 0)]
#[case(RANGE_CHANGE, "range --heads 2000 --add wexmarsh-one@83/M --without-pads lantreth-longways --format json", 0)]
#[case(CARDS, "cards --heads 5000 --format json", 0)]
#[case(CARDS, "cards quorrie-plain --heads 1000 --type open-face --out-of-stock quorrie-plain/M --format json", 0)]
fn real_documents_are_valid(#[case] file: &str, #[case] line: &str, #[case] status: i32) {
    let run = once(line);
    assert_eq!(faults(file, &run.document()), Vec::<String>::new());
    assert_eq!(run.status, status, "{}", run.stdout);
}

/// A run over the examples, which lie where no other run looks.
fn of_journals(line: &str) -> Value {
    Folder::for_documents().run(line).document()
}

const LISTED: &str = "journal docs/examples/journal.jsonl docs/examples/doubtful.jsonl --format json";
const LEARNED: &str = "learn docs/examples/journal.jsonl --format json";
const VERIFIED: &str = "journal verify docs/examples/doubtful.jsonl --format json";

#[rstest]
#[case(JOURNAL, LISTED)]
#[case(JOURNAL, "journal docs/examples/journal.jsonl --customer 99 --format json")]
#[case(VERIFY, VERIFIED)]
#[case(VERIFY, "journal verify docs/examples/journal.jsonl --format json")]
#[case(LEARN, LEARNED)]
#[case(LEARN, "learn docs/examples/doubtful.jsonl --format json")]
#[case(RANGE_MAKER, "range maker tollern --heads 4096 --journal docs/examples/year/journal.jsonl --format json")]
fn documents_of_journals_are_valid(#[case] file: &str, #[case] line: &str) {
    assert_eq!(faults(file, &of_journals(line)), Vec::<String>::new());
}

#[test]
fn lines_of_a_journal_are_valid_and_the_schema_is_shown() {
    let text = fs::read_to_string(root().join("docs/examples/journal.jsonl")).expect("the example is there");
    for line in text.lines() {
        let line: Value = serde_json::from_str(line).expect("a line is JSON");
        assert_eq!(faults(TRY, &line), Vec::<String>::new());
    }
    let shown: Value = serde_json::from_str(once("schema try").good()).expect("a schema is JSON");
    assert_eq!(shown, committed(TRY));
}

/// Every kind of answer; and what is kept of it.
#[rstest]
#[case("session", "wex-o M\ne\n")]
#[case("session", "wex-o M rear=14.5\n")]
#[case("next", "e\n")]
#[case("pads", "none\n")]
#[case("shape", "long\n")]
#[case("stop", "stop\n")]
#[case("stop", "no\n")]
fn documents_and_lines_of_practice_are_valid(#[case] exercise: &str, #[case] answers: &str) {
    let folder = Folder::new();
    folder.write("answers.txt", answers);
    let options = "--customers 1 --seed 4 --answers answers.txt --results mine.jsonl --format json";
    let document = folder.run(&format!("drill --exercise {exercise} {options}")).document();
    assert_eq!(faults(DRILL, &document), Vec::<String>::new());
    assert!(document["tasks"][0]["answers"][0]["answer"].is_object(), "{document}");
    let kept = fs::read_to_string(folder.path().join("mine.jsonl")).expect("results are kept");
    let line: Value = serde_json::from_str(&kept).expect("a line is JSON");
    assert_eq!(faults(RESULT, &line), Vec::<String>::new());
}

fn a_try() -> Value {
    of_journals(LISTED)["journals"][0]["tries"][0]["record"].clone()
}

fn plan() -> Value {
    once("plan --format json --type off-road -c 57.5cm").document()
}

fn sketch() -> Value {
    once("sketch --format json --size M=57-58 --like wexmarsh-one --tried M/c=575,b=158/too-oval/sides:12").document()
}

fn fit() -> Value {
    once("fit lantreth-longways --format json -c 58cm -l 205 -b 150").document()
}

fn fallbacks() -> Value {
    once("fallbacks --format json --from wexmarsh-one --if too-round --if too-oval").document()
}

fn why() -> Value {
    once("plan --format json --type off-road -c 57.5cm --why").document()
}

fn pads() -> Value {
    once("pads dunvarrick-gravel M brow=7 --format json").document()
}

fn range_stock() -> Value {
    once("range stock --heads 2000 --format json").document()
}

fn away() -> Value {
    once("away order --format json -c 575,578,574 -l 197,199,196 -b 153,152,154").document()
}

fn range_design() -> Value {
    once("range design --heads 4096 --type adventure --format json").document()
}

fn range_maker() -> Value {
    once("range maker pellgrave --heads 4096 --format json").document()
}

fn keep() -> Value {
    once("range keep --heads 20000 --format json").document()
}

fn change() -> Value {
    once("range --heads 2000 --add wexmarsh-one@83/M --without-pads lantreth-longways --format json").document()
}

fn a_deck() -> Value {
    once("cards --heads 5000 --format json").document()
}

fn practice() -> Value {
    once("drill --day 2026-03-14 --format json").document()
}

fn check() -> Value {
    once("check --format json").document()
}

#[rstest]
#[case::check_without_a_code(CHECK, check(), "/findings/0/code", None)]
#[case::check_of_another_severity(CHECK, check(), "/findings/0/severity", Some(json!("note")))]
#[case::another_version(PLAN, plan(), "/schema", Some(json!("lidladder.plan/2")))]
#[case::the_other_document(PLAN, fit(), "/seed", Some(json!(1)))]
#[case::a_text_for_a_number(PLAN, plan(), "/plan/expected_tries", Some(json!("1.2")))]
#[case::deep_in_the_tree(PLAN, plan(), "/plan/first/on/0/probability", Some(json!(null)))]
#[case::a_missing_key(PLAN, plan(), "/plan/first/start_pads", None)]
#[case::a_missing_optional_key(PLAN, plan(), "/plan/first", None)]
#[case::an_unknown_key(PLAN, plan(), "/plan/guess", Some(json!(1)))]
#[case::an_unknown_key_in_a_step(PLAN, plan(), "/plan/first/guess", Some(json!(1)))]
#[case::a_negative_price(PLAN, plan(), "/ranking/0/price_minor", Some(json!(-1)))]
#[case::practice_of_another_version(DRILL, practice(), "/schema", Some(json!("lidladder.drill/2")))]
#[case::practice_an_unknown_key(DRILL, practice(), "/trainee", Some(json!("x")))]
#[case::practice_a_level_that_is_none(DRILL, practice(), "/level", Some(json!(4)))]
#[case::practice_without_tasks(DRILL, practice(), "/tasks", None)]
#[case::fit_a_missing_key(FIT, fit(), "/fits", None)]
#[case::fit_of_another_version(FIT, fit(), "/schema", Some(json!("lidladder.fit/2")))]
#[case::fit_an_unknown_key_in_a_zone(FIT, fit(), "/zones/0/colour", Some(json!("red")))]
#[case::fit_a_group_for_a_list(FIT, fit(), "/zones", Some(json!({})))]
#[case::fallbacks_of_another_version(FALLBACKS, fallbacks(), "/schema", Some(json!("lidladder.fallbacks/2")))]
#[case::fallbacks_a_missing_key(FALLBACKS, fallbacks(), "/rules/0/size", None)]
#[case::fallbacks_a_word_for_a_number(FALLBACKS, fallbacks(), "/ways/0/rules", Some(json!(["first"])))]
#[case::fallbacks_an_unknown_key(FALLBACKS, fallbacks(), "/models/0/colour", Some(json!("red")))]
#[case::sketch_of_another_version(SKETCH, sketch(), "/schema", Some(json!("lidladder.sketch/2")))]
#[case::sketch_a_missing_key(SKETCH, sketch(), "/interior/sd", None)]
#[case::sketch_a_text_for_a_number(SKETCH, sketch(), "/customers/0/pull", Some(json!("up")))]
#[case::sketch_an_unknown_key_in_a_size(SKETCH, sketch(), "/sizes/0/colour", Some(json!("red")))]
#[case::a_try_of_another_version(TRY, a_try(), "/schema", Some(json!("lidladder.try/2")))]
#[case::a_try_without_rounds(TRY, a_try(), "/rounds", Some(json!([])))]
#[case::a_try_with_a_name(TRY, a_try(), "/name", Some(json!("Anna")))]
#[case::a_try_without_a_customer(TRY, a_try(), "/customer", Some(json!(0)))]
#[case::a_journal_of_another_version(JOURNAL, of_journals(LISTED), "/schema", Some(json!("lidladder.journal/2")))]
#[case::a_journal_with_a_name(JOURNAL, of_journals(LISTED), "/journals/0/tries/0/record/name", Some(json!("Anna")))]
#[case::a_finding_without_a_code(VERIFY, of_journals(VERIFIED), "/findings/0/code", None)]
#[case::learned_of_another_version(LEARN, of_journals(LEARNED), "/schema", Some(json!("lidladder.learn/2")))]
#[case::learned_without_an_error(LEARN, of_journals(LEARNED), "/models/0/shape_index/now/sd", None)]
#[case::pads_of_another_version(PADS, pads(), "/schema", Some(json!("lidladder.pads/2")))]
#[case::pads_for_nobody(PADS, pads(), "/paid_by", Some(json!("nobody")))]
#[case::pads_with_half_a_cent(PADS, pads(), "/best/bill_minor", Some(json!(0.5)))]
#[case::away_of_another_version(AWAY, away(), "/schema", Some(json!("lidladder.away/2")))]
#[case::away_without_an_error(AWAY, away(), "/one/fit_probability_error", None)]
#[case::away_of_another_verdict(AWAY, away(), "/verdict", Some(json!("send-three")))]
#[case::a_drawer_of_another_version(RANGE_STOCK, range_stock(), "/schema", Some(json!("lidladder.range-stock/2")))]
#[case::a_drawer_without_an_error(RANGE_STOCK, range_stock(), "/customer/pads/error", None)]
#[case::a_drawer_with_half_a_pad(RANGE_STOCK, range_stock(), "/pads/0/stock", Some(json!(0.5)))]
#[case::a_design_without_an_error(RANGE_DESIGN, range_design(), "/best/wins/error", None)]
#[case::a_sheet_of_another_version(RANGE_MAKER, range_maker(), "/schema", Some(json!("lidladder.range-maker/2")))]
#[case::a_sheet_with_half_a_cent(RANGE_MAKER, range_maker(), "/packs/0/price_minor", Some(json!(0.5)))]
#[case::why_of_another_version(WHY, why(), "/schema", Some(json!("lidladder.why/2")))]
#[case::why_without_an_error(WHY, why(), "/step/fit_probability_error", None)]
#[case::why_an_unknown_key_in_an_outcome(WHY, why(), "/step/heads/after/0/guess", Some(json!(1)))]
#[case::why_a_text_for_a_share(WHY, why(), "/step/instead/0/shares/pads", Some(json!("1.2")))]
#[case::keep_of_another_version(RANGE_KEEP, keep(), "/schema", Some(json!("lidladder.range-keep/2")))]
#[case::keep_without_an_error(RANGE_KEEP, keep(), "/curve/0/on_offer/error", None)]
#[case::change_of_another_version(RANGE_CHANGE, change(), "/schema", Some(json!("lidladder.range-change/2")))]
#[case::change_of_half_a_customer(RANGE_CHANGE, change(), "/together/standard/won", Some(json!(0.5)))]
#[case::cards_of_another_version(CARDS, a_deck(), "/schema", Some(json!("lidladder.cards/2")))]
#[case::a_card_of_half_a_head(CARDS, a_deck(), "/cards/0/suits/map/1/long/heads", Some(json!(0.5)))]
#[case::a_card_without_an_error(CARDS, a_deck(), "/cards/0/heard/complaints/0/stays/error", None)]
fn a_spoilt_document_is_not_valid(
    #[case] file: &str,
    #[case] mut document: Value,
    #[case] place: &str,
    #[case] value: Option<Value>,
) {
    let (parent, key) = place.rsplit_once('/').expect("a place has a slash");
    let group = document.pointer_mut(parent).and_then(Value::as_object_mut).expect("the place is there");
    match value {
        Some(value) => group.insert(key.to_owned(), value),
        None => Some(group.remove(key).expect("the key is there")),
    };
    assert_ne!(faults(file, &document), Vec::<String>::new());
}
