//! Mistakes: each is told with its code, its place and what to do, on standard error, and ends with exit code 2.

mod files;
mod hostile;

use crate::support::{Program, Run, lidladder, once};
use rstest::rstest;

/// What every run that could not do it has in common.
#[track_caller]
fn is_refused(run: &Run) -> &str {
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(!run.stderr.contains("panicked"), "{}", run.stderr);
    assert!(!run.stderr.is_empty());
    is_harmless(&run.stderr);
    &run.stderr
}

/// Nothing that a terminal would obey.
#[track_caller]
fn is_harmless(text: &str) {
    let bad = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}');
    assert!(!text.contains(bad), "{text:?}");
}

/// Refused with this code once, and with these words wherever the lines break.
#[track_caller]
fn is_told(run: &Run, code: &str, words: &[&str]) {
    let told = is_refused(run);
    assert!(told.contains(&format!("error[{code}]: ")), "{code} is missing from {told}");
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in words {
        assert!(flat.contains(part), "{part:?} is missing from {told}");
    }
}

fn with(option: &str, value: &str) -> Run {
    Program::new().arguments(["plan", "--type", "off-road", option, value]).run()
}

#[rstest]
// A number without a unit is mm: what was meant is offered where a head could have it.
#[case("-c", "57.5", "measure-human", &["--circumference:1:1", "440 to 700 mm", "did you mean 57.5cm?"])]
#[case("-c", "22.6", "measure-human", &["did you mean 22.6in?"])]
#[case("-l", "19.7", "measure-human", &["--length:1:1", "did you mean 19.7cm?"])]
#[case("-b", "15.2", "measure-human", &["--breadth:1:1", "did you mean 15.2cm?"])]
#[case("-w", "13.9", "measure-human", &["--face-width:1:1", "did you mean 13.9cm?"])]
#[case("-c", "5750", "measure-human", &["a factor of ten: is the unit right?"])]
#[case("-c", "30cm", "measure-human", &["no human head has a circumference of 300 mm", "440 to 700 mm"])]
#[case("-c", "0", "measure-human", &["no human head"])]
#[case("-c", "99999999999", "measure-human", &["no human head"])]
#[case("-c", "9999999999999999999999999999999", "measure-number", &["this is not one number"])]
#[case("-c", "57,5cm", "measure-comma", &["--circumference:1:3", "57.5cm instead of 57,5cm"])]
#[case("-c", "-575", "measure-number", &["begins with a number"])]
#[case("-c", "-57.5cm", "measure-number", &["begins with a number"])]
#[case("-c", "NaN", "measure-number", &["begins with a number"])]
#[case("-c", "inf", "measure-number", &["begins with a number"])]
#[case("-c", "infinity", "measure-number", &["begins with a number"])]
#[case("-c", "", "measure-number", &["begins with a number"])]
#[case("-c", "   ", "measure-number", &["begins with a number"])]
#[case("-c", "5.7.5", "measure-number", &["this is not one number"])]
#[case("-c", "57.5ft", "measure-unit", &["--circumference:1:5", "mm, cm or in"])]
#[case("-c", "1e3", "measure-unit", &["mm, cm or in"])]
#[case("-c", "0x23f", "measure-unit", &["mm, cm or in"])]
#[case("-c", "575 mm mm", "measure-unit", &["mm, cm or in"])]
#[case("-c", "575±", "measure-number", &["--circumference:1:5"])]
#[case("-c", "575±-3", "measure-number", &["--circumference:1:5"])]
#[case("-c", "575±NaN", "measure-number", &["--circumference:1:5"])]
#[case("-c", "575±x", "measure-number", &["--circumference:1:5"])]
#[case("-c", "575±400", "measure-error", &["400 mm off says nothing"])]
#[case("-c", "５７５", "measure-number", &["begins with a number"])]
// Words.
#[case("--shape", "rund", "unknown-word", &["`rund`", "did you mean `round`?"])]
#[case("--shape", "oval", "unknown-word", &["known here: long, intermediate, round"])]
#[case("--type", "offroad", "unknown-word", &["did you mean `off-road`?"])]
#[case("--type", "off-road,enduro", "unknown-word", &["`enduro`"])]
#[case("--must", "chin", "unknown-word", &["did you mean `chin-room`?"])]
#[case("--population", "adult", "unknown-population", &["did you mean `adults`?"])]
#[case("--measured-by", "stuff", "unknown-word", &["did you mean `staff`?"])]
#[case("--measured-with", "calliper", "unknown-word", &["did you mean `caliper`?"])]
#[case("--lead", "shop", "", &["shop-first, shop-only, computed-only"])]
#[case("--format", "yaml", "", &["text, json"])]
// Helmets.
#[case("--wears", "wexmarsh-one", "helmet-form", &["MODEL/SIZE/REASON"])]
#[case("--wears", "wexmarsh-one/L/temples-press/now", "helmet-form", &["MODEL/SIZE/REASON"])]
#[case("--wears", "wexmarsh-won/L", "unknown-model", &["did you mean `wexmarsh-one`?"])]
#[case("--wears", "wexmarsh-one/XLL", "unknown-size", &["did you mean `XL"])]
#[case("--wears", "wexmarsh-one/L/temples-pres", "unknown-reason", &["did you mean `temples-press`?"])]
#[case("--wears", "wexmarsh-one/L/too-noisy", "silent-reason", &["says nothing about the measures"])]
#[case("--out-of-stock", "dunvarick-mud", "unknown-model", &["did you mean `dunvarrick-mud`?"])]
#[case("--out-of-stock", "dunvarrick-mud/7", "unknown-size", &["known here: S, M, L"])]
// Numbers.
#[case("--price-limit", "4,50", "not-a-number", &["a point for decimals"])]
#[case("--price-limit", "cheap", "not-a-number", &["`cheap`"])]
#[case("--price-limit", "450.123", "not-a-price", &["at most two decimals"])]
#[case("--price-limit", "99999999", "not-a-price", &["at most a million"])]
#[case("--price-limit", "-450", "not-a-number", &["--price-limit:1:1"])]
#[case("--price-limit", "0", "not-a-number", &["--price-limit:1:1"])]
#[case("--mass-limit", "inf", "not-a-number", &["a mass in g"])]
#[case("--mass-limit", "1.5kg", "not-a-number", &["a mass in g"])]
#[case("--minutes", "NaN", "not-a-number", &["a number of minutes"])]
#[case("--minutes", "-4", "not-a-number", &["a number of minutes"])]
#[case("--minutes", "", "not-a-number", &["a number of minutes"])]
#[case("--steps", "0", "", &["0 is not in 1..=8"])]
#[case("--steps", "9", "", &["9 is not in 1..=8"])]
#[case("--steps", "many", "", &["invalid digit"])]
#[case("--seed", "-1", "", &["--seed <NUMBER>"])]
#[case("--seed", "99999999999999999999", "", &["too large"])]
#[case("--colour", "red", "", &["unexpected argument '--colour'"])]
fn a_mistake_in_an_option_is_told(
    #[case] option: &str,
    #[case] value: &str,
    #[case] code: &str,
    #[case] words: &[&str],
) {
    let run = with(option, value);
    if code.is_empty() {
        // The argument parser has no codes.
        assert!(is_refused(&run).starts_with("error: "), "{}", run.stderr);
        assert!(words.iter().all(|part| run.stderr.contains(part)), "{}", run.stderr);
    } else {
        is_told(&run, code, words);
    }
}

#[rstest]
#[case("", &["Usage: lidladder", "plan", "fit"])]
#[case("plam", &["plam", "plan"])]
#[case("fit", &["MODEL"])]
#[case("plan 57.5cm", &["unexpected argument '57.5cm'"])]
#[case("plan -c", &["--circumference"])]
#[case("plan -c 575 -c 580", &["cannot be used multiple times"])]
#[case("fit wexmarsh-one --type full-face", &["unexpected argument '--type'"])]
fn a_mistake_in_the_command_is_told(#[case] line: &str, #[case] words: &[&str]) {
    let run = lidladder(line);
    let told = is_refused(&run);
    assert!(words.iter().all(|part| told.contains(part)), "{told}");
}

#[rstest]
#[case("fit wexmarsh-won", "unknown-model", &["MODEL:1:1", "did you mean `wexmarsh-one`?"])]
#[case("fit 7", "unknown-model", &["known here: dunvarrick-gravel", "wexmarsh-two-flip"])]
#[case("fit wexmarsh-one --size XLL", "unknown-size", &["--size:1:1", "`XLL`"])]
#[case("fit quorrie-plain --size XXL", "unknown-size", &["`XXL`"])]
#[case("fit wexmarsh-one -c 57.5", "measure-human", &["did you mean 57.5cm?"])]
fn a_mistake_about_one_helmet_is_told(#[case] line: &str, #[case] code: &str, #[case] words: &[&str]) {
    is_told(&lidladder(line), code, words);
}

#[rstest]
#[case("--from wexmarsh-won", "unknown-model", &["--from:1:1", "did you mean `wexmarsh-one`?"])]
#[case("--if too-nosy", "unknown-reason", &["--if:1:1", "did you mean `too-noisy`?"])]
#[case("--from wexmarsh-one --if too-noisy --if 7", "unknown-reason", &["--if:1:1", "known here: tight-all-round"])]
#[case(&format!("--from wexmarsh-one{}", " --if too-round".repeat(9)), "way-too-long", &["9 reasons", "at most 8"])]
fn a_mistake_about_the_rules_is_told(#[case] words: &str, #[case] code: &str, #[case] parts: &[&str]) {
    is_told(&lidladder(&format!("fallbacks {words}")), code, parts);
}

#[rstest]
#[case("", "", &["--size <LABEL=FROM-TO>"])]
#[case("--size M", "size-form", &["--size:1:1", "a size is LABEL=FROM-TO"])]
#[case("--size M=", "size-form", &["--size:1:3"])]
#[case("--size =57-58", "size-form", &["--size:1:1", "a label is"])]
#[case("--size M--x=57-58", "size-form", &["a label is"])]
#[case("--size M=57-58-59", "size-form", &["FROM-TO in cm"])]
#[case("--size M=57,5-58", "size-form", &["--size:1:3", "M=57.5-58.5"])]
#[case("--size M=-57", "size-form", &["FROM-TO in cm"])]
#[case("--size M=NaN-58", "size-form", &["44 to 70"])]
#[case("--size M=58-57", "size-form", &["backwards"])]
#[case("--size M=43.9-58", "size-form", &["44 to 70"])]
#[case("--size M=570-580", "size-form", &["44 to 70"])]
#[case("--size M=57-58 --size m=59-60", "size-form", &["`m` is given twice"])]
#[case("--size M=57-58 --like wexmarsh-won", "unknown-model", &["--like:1:1", "did you mean `wexmarsh-one`?"])]
#[case("--size M=57-58 --like wexmarsh-one/rond", "unknown-word", &["--like:1:14", "did you mean `rounder`?"])]
#[case("--size M=57-58 --like wexmarsh-one/rounder/x", "like-form", &["MODEL/COMPARISON"])]
#[case("--size M=57-58 --like wexmarsh-one --like wexmarsh-one/longer", "like-form", &["named twice"])]
#[case("--size M=57-58 --shape oval", "unknown-word", &["--shape:1:1"])]
#[case("--size M=57-58 --type helmet", "unknown-word", &["--type:1:1"])]
#[case("--size M=57-58 --population man", "unknown-population", &["known here: adults, men, women"])]
#[case("--size M=57-58 --measured-with tape --tried M/575/fits", "unknown-word", &["`tape`"])]
#[case("--size M=57-58 --pads brow:10", "pads-form", &["LABEL=ZONE:MM"])]
#[case("--size M=57-58 --pads S=brow:10", "unknown-size", &["no --size says what `S` is", "known here: M"])]
#[case("--size M=57-58 --pads M=brow", "pads-form", &["--pads:1:3"])]
#[case("--size M=57-58 --pads M=front:10", "unknown-word", &["`front`", "brow, rear, sides, crown, cheeks"])]
#[case("--size M=57-58 --pads M=brow:0.9", "pads-form", &["--pads:1:8", "1 to 60 mm"])]
#[case("--size M=57-58 --pads M=brow:61", "pads-form", &["1 to 60 mm"])]
#[case("--size M=57-58 --pads M=brow:NaN", "pads-form", &["`NaN`"])]
#[case("--size M=57-58 --pads M=sides:none", "pads-form", &["only crown and cheeks"])]
#[case("--size M=57-58 --pads M=brow:10,brow:11", "pads-form", &["--pads:1:11", "given twice"])]
#[case("--size M=57-58 --pads M=brow:10 --pads M=rear:11", "pads-form", &["`M` are given twice"])]
#[case("--size M=57-58 --tried M/575", "try-form", &["SIZE/HEAD/OUTCOME"])]
#[case("--size M=57-58 --tried M/575/fits/sides:10/x", "try-form", &["SIZE/HEAD/OUTCOME"])]
#[case("--size M=57-58 --tried L/575/fits", "unknown-size", &["--tried:1:1", "no --size says what `L` is"])]
#[case("--size M=57-58 --tried M/57.5/fits", "measure-human", &["--tried:1:3", "did you mean 57.5cm?"])]
#[case("--size M=57-58 --tried M/c=57,5cm/fits", "try-form", &["--tried:1:8", "a point for decimals"])]
#[case("--size M=57-58 --tried M/d=575/fits", "unknown-word", &["`d`", "known here: c, l, b, w, shape"])]
#[case("--size M=57-58 --tried M/575,c=575/fits", "try-form", &["given twice"])]
#[case("--size M=57-58 --tried M/c=575,/fits", "try-form", &["--tried:1:9"])]
#[case("--size M=57-58 --tried M/575±90/fits", "measure-error", &["90 mm off says nothing"])]
#[case("--size M=57-58 --tried M/575/fit", "unknown-reason", &["--tried:1:7", "did you mean `fits`?"])]
#[case("--size M=57-58 --tried M/575/", "unknown-reason", &["--tried:1:7"])]
#[case("--size M=57-58 --tried M/575/too-noisy", "silent-reason", &["--tried:1:7"])]
#[case("--size M=57-58 --tried M/575/fits/sides", "pads-form", &["--tried:1:12"])]
#[case("--size M=57-58 --tries nowhere.yaml", "tries-unreadable", &["nowhere.yaml"])]
fn a_mistake_about_a_new_helmet_is_told(#[case] words: &str, #[case] code: &str, #[case] parts: &[&str]) {
    let run = lidladder(&format!("sketch {words}"));
    if code.is_empty() {
        assert!(parts.iter().all(|part| is_refused(&run).contains(part)), "{}", run.stderr);
    } else {
        is_told(&run, code, parts);
        assert!(run.stderr.ends_with("\n1 error\n"), "one mistake is told once: {}", run.stderr);
    }
}

/// A text that would recolour, retitle, clear and reverse a terminal that obeyed it.
const NASTY: &str = "57\u{1b}[31m\u{1b}]0;x\u{7}\u{1b}[2J\r\u{8}\u{9b}5m\u{202e}cm\n5";

#[rstest]
#[case(&["plan", "-c", NASTY])]
#[case(&["plan", "--shape", NASTY])]
#[case(&["plan", "--type", NASTY])]
#[case(&["plan", "--wears", NASTY])]
#[case(&["plan", "--out-of-stock", NASTY])]
#[case(&["plan", "--population", NASTY])]
#[case(&["plan", "--minutes", NASTY])]
#[case(&["plan", "--price-limit", NASTY])]
#[case(&["plan", "--customer", NASTY])]
#[case(&["plan", "--profiles", NASTY])]
#[case(&["plan", "--steps", NASTY])]
#[case(&["plan", "--seed", NASTY])]
#[case(&["plan", "--lead", NASTY])]
#[case(&["plan", NASTY])]
#[case(&["fit", NASTY])]
#[case(&["fit", "wexmarsh-one", "--size", NASTY])]
#[case(&["sketch", "--size", NASTY])]
#[case(&["sketch", "--size", "M=57-58", "--like", NASTY])]
#[case(&["sketch", "--size", "M=57-58", "--pads", NASTY])]
#[case(&["sketch", "--size", "M=57-58", "--tried", NASTY])]
#[case(&["sketch", "--size", "M=57-58", "--tries", NASTY])]
#[case(&[NASTY])]
fn nothing_that_is_typed_reaches_the_terminal_raw(#[case] arguments: &[&str]) {
    is_refused(&Program::new().arguments(arguments).run());
    // Where colours are shown, only colours are.
    let coloured = Program::new().arguments(arguments).set("CLICOLOR_FORCE", "1").run();
    assert_eq!(coloured.status, 2);
    let mut rest = String::new();
    for (at, part) in coloured.stderr.split("\u{1b}[").enumerate() {
        let (code, shown) = if at == 0 { ("", part) } else { part.split_once('m').expect("a colour") };
        assert!(code.chars().all(|c| c.is_ascii_digit() || c == ';'), "{:?}", coloured.stderr);
        rest.push_str(shown);
    }
    is_harmless(&rest);
}

/// `?` stands for a byte that begins no character.
#[cfg(unix)]
#[rstest]
#[case(&["plan", "-c", "??"])]
#[case(&["plan", "--type", "?"])]
#[case(&["plan", "--profiles", "no?where\u{1b}[31m"])]
#[case(&["plan", "--customer", "no?where\u{1b}[31m"])]
#[case(&["plan", "-c", "?\u{1b}[31m"])]
#[case(&["fit", "?"])]
#[case(&["?"])]
#[case(&["?\u{1b}[31m"])]
fn bytes_that_are_no_text_are_refused(#[case] arguments: &[&str]) {
    use std::ffi::OsString;
    use std::os::unix::ffi::OsStringExt;
    let bytes = |text: &&str| text.bytes().map(|byte| if byte == b'?' { 0xff } else { byte }).collect();
    is_refused(&Program::new().arguments(arguments.iter().map(|text| OsString::from_vec(bytes(text)))).run());
}

#[test]
fn filters_that_leave_nothing_say_what_each_did() {
    let run = lidladder("plan --type off-road --price-limit 200 --mass-limit 1000");
    is_told(
        &run,
        "nothing-left",
        &["--type leaves 2 of 16", "--price-limit 200.00 leaves 1 of 2", "--mass-limit 1000 leaves 0 of 1"],
    );
    let run = lidladder("plan --type off-road --must spectacle-channel --out-of-stock dunvarrick-mud,umberlow-furrow");
    is_told(&run, "nothing-left", &["--type leaves 2 of 16", "leaves 0 of"]);
}

#[test]
fn several_mistakes_are_told_in_one_run() {
    let run = lidladder(
        "plan -c 57.5 -l 19,7cm --shape rund --type offroad --must chin --wears wexmarsh-won/L --price-limit cheap \
         --out-of-stock nothing --population adult --minutes no",
    );
    for (code, count) in [
        ("measure-human", 1),
        ("measure-comma", 1),
        ("unknown-word", 3),
        ("unknown-model", 2),
        ("unknown-population", 1),
        ("not-a-number", 2),
    ] {
        assert_eq!(is_refused(&run).matches(&format!("error[{code}]: ")).count(), count, "{code}: {}", run.stderr);
    }
    assert!(run.stderr.ends_with("\n10 errors\n"), "{}", run.stderr);
}

#[rstest]
#[case("plan -c 52cm±0 -l 215±0 --type full-face --steps 2", "measure again")]
#[case("fit wexmarsh-one -c 52cm±0 -l 215±0", "measure again")]
#[case("plan -c 690 --type off-road", "on such a head")]
#[case("plan -c 445 --type adventure", "on such a head")]
fn a_head_to_look_at_twice_is_planned_with_a_warning(#[case] line: &str, #[case] words: &str) {
    let run = once(line);
    assert_eq!((run.status, run.stderr.as_str()), (1, ""));
    let first = run.stdout.split("\nHEAD\n").next().unwrap_or_default();
    assert!(first.starts_with("LOOK HERE  "), "{}", run.stdout);
    let flat = first.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(words), "{first}");
    assert!(run.stdout.contains("\nCAUTIONS\n"));
    let document = once(&format!("{line} --format json"));
    assert_eq!(document.status, 1);
    assert_ne!(document.document()["warnings"], serde_json::json!([]));
}
