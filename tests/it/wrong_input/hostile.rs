//! Files that nobody would write at a counter: each is one clear problem, without a crash, a wait or a full memory.

#[cfg(unix)]
mod unix;

use super::{is_harmless, is_refused, is_told};
use crate::support::{Folder, Program, Run};
use rstest::rstest;
use std::fs;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

/// Ten times what the slowest takes where nothing is optimised and the machine is busy.
const LONGEST: Duration = Duration::from_secs(60);

/// A run that is given up for lost after a while.
#[track_caller]
fn soon(folder: &Folder, line: &str) -> Run {
    let child = Program::new().line(line).command(folder.path()).spawn().expect("the program starts");
    let (send, receive) = mpsc::channel();
    thread::spawn(move || send.send(child.wait_with_output()));
    let output = receive.recv_timeout(LONGEST).expect("the program doesn't hang").expect("it ends");
    let text = |bytes| String::from_utf8(bytes).expect("what is printed is UTF-8");
    Run {
        stdout: text(output.stdout),
        stderr: text(output.stderr),
        status: output.status.code().expect("no signal ended it"),
    }
}

#[track_caller]
fn load(folder: &Folder) -> Run {
    soon(folder, "plan --type off-road --profiles profiles")
}

#[track_caller]
fn is_one_error(run: &Run) {
    assert!(run.stderr.ends_with("\n1 error\n"), "{}", run.stderr);
}

/// The five kinds of files, and how each is read.
const FILES: [(&str, &str); 5] = [
    ("profiles/shop.yaml", "plan --type off-road --profiles profiles"),
    ("profiles/fallbacks.yaml", "plan --type off-road --profiles profiles"),
    ("profiles/helmets/dunvarrick.yaml", "plan --type off-road --profiles profiles"),
    ("profiles/populations/adults.yaml", "plan --type off-road --profiles profiles"),
    ("anna.yaml", "plan --type off-road --customer anna.yaml"),
];

#[rstest]
#[case::alias_bomb("schema: 1\na: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n", "yaml-alias")]
#[case::endless_alias("schema: &a [*a]\n", "yaml-alias")]
#[case::tag("schema: !!int 1\n", "yaml-tag")]
#[case::merge_key("schema: 1\n<<: {a: b}\n", "profile-unknown-key")]
#[case::deep_brackets(&"[".repeat(100_000), "yaml-depth")]
#[case::deep_groups(&"{a: ".repeat(100_000), "yaml-depth")]
#[case::deep_dashes(&"- ".repeat(100_000), "yaml-depth")]
#[case::deep_questions(&"? ".repeat(100_000), "yaml-depth")]
#[case::deep_lines(&(0..300).map(|n| format!("{}a:\n", " ".repeat(n))).collect::<String>(), "yaml-depth")]
#[case::twice("schema: 1\nschema: 1\n", "yaml-duplicate-key")]
#[case::two_documents("schema: 1\n---\nschema: 1\n", "yaml-documents")]
#[case::tab("schema: 1\n\tshop: a\n", "yaml-syntax")]
#[case::nul("schema: 1\0\n", "yaml-syntax")]
#[case::escape("schema: 1 # \u{1b}[31m\n", "yaml-syntax")]
#[case::direction("schema: 1\n\u{202e}a: b\n", "profile-unknown-key")]
#[case::mark_within("schema: 1\n\u{feff}a: b\n", "yaml-syntax")]
#[case::number_as_key("1e9: 1\n", "yaml-key")]
#[case::long_number(&format!("schema: {}\n", "9".repeat(400)), "profile-type")]
#[case::nan("schema: .nan\n", "profile-type")]
#[case::minus_nothing("schema: -0\n", "profile-type")]
#[case::large("schema: 4294967296\n", "profile-type")]
#[case::directive("%YAML 9.9\n---\nschema: 1\n", "")]
fn no_kind_of_file_takes_it(#[case] text: &str, #[case] code: &str, #[values(0, 1, 2, 3, 4)] kind: usize) {
    let folder = Folder::with_profiles();
    let (file, line) = FILES[kind];
    folder.write(file, text);
    let run = soon(&folder, line);
    // The other kinds lack keys there, which the notes of a customer don't have.
    if code.is_empty() {
        assert!(!run.stderr.contains("panicked"))
    } else {
        is_told(&run, code, &[file])
    }
    is_harmless(&run.stderr);
}

#[rstest]
#[case("profiles/shop.yaml", "misreport: 0.08 ", "misreport: 1e308 ", "profile-bounds", "is 1e308, but")]
#[case("profiles/shop.yaml", "misreport: 0.08 ", "misreport: -1e-300 ", "profile-bounds", "is -1e-300, but")]
#[case("profiles/helmets/quorrie.yaml", "mass_g: 1150", "mass_g: 1e308", "profile-bounds", "is 1e308, but")]
#[case("profiles/helmets/quorrie.yaml", "price: 129.00", "price: 1e308", "profile-price", "from 0 to 1000000")]
#[case("profiles/populations/men.yaml", "share: 1", "share: 1e-320", "profile-population", "add up to 1")]
#[case("profiles/populations/men.yaml", "[257.5551,", "[1e300,", "profile-bounds", "is 1e300, but")]
fn a_huge_number_is_told_in_a_few_digits(
    #[case] file: &str,
    #[case] old: &str,
    #[case] new: &str,
    #[case] code: &str,
    #[case] words: &str,
) {
    let folder = Folder::with_profiles();
    folder.edit(file, old, new);
    is_told(&load(&folder), code, &[words]);
}

#[test]
fn a_number_less_than_nothing_by_its_sign_alone_is_nothing() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "fetch: 3.0 ", "fetch: -0 ");
    folder.edit("profiles/shop.yaml", "misreport: 0.08 ", "misreport: -0.0 ");
    let run = load(&folder);
    assert_eq!(run.status, 0, "{}", run.stderr);
    assert!(!run.stdout.contains("-0"), "{}", run.stdout);
}

#[rstest]
#[case::soft_hyphen('\u{ad}')]
#[case::letter_mark('\u{61c}')]
#[case::zero_width('\u{200b}')]
#[case::line_separator('\u{2028}')]
#[case::turned('\u{202e}')]
#[case::isolated('\u{2066}')]
#[case::annotation('\u{fff9}')]
#[case::tag('\u{e0041}')]
#[case::next_line('\u{85}')]
#[case::control_sequence('\u{9b}')]
#[case::delete('\u{7f}')]
#[case::bell('\u{7}')]
fn a_name_with_something_invisible_is_refused(#[case] character: char, #[values(true, false)] is_escaped: bool) {
    let folder = Folder::with_profiles();
    let shown = if is_escaped { format!("\\U{:08x}", u32::from(character)) } else { character.to_string() };
    folder.edit("profiles/helmets/quorrie.yaml", "maker: Tollern", &format!("maker: \"a{shown}b\""));
    let run = load(&folder);
    // As it is, some parsers take it for a line break.
    let code = if run.stderr.contains("yaml-syntax") && !is_escaped { "yaml-syntax" } else { "profile-text" };
    is_told(&run, code, &["profiles/helmets/quorrie.yaml"]);
}

#[test]
fn a_measure_that_is_written_in_escapes_is_shown_as_a_whole() {
    let folder = Folder::new();
    // As many bytes in the file as in what it means, but others.
    folder.write("anna.yaml", "schema: 1\ncircumference: \"\\L\\Lé,é\"\n");
    is_told(&soon(&folder, "plan --customer anna.yaml"), "measure-comma", &["anna.yaml:2:16"]);
}

#[test]
fn a_word_as_long_as_a_book_is_told_in_short() {
    let folder = Folder::new();
    folder.write("anna.yaml", format!("schema: 1\nshape: {}\n", "round-".repeat(80_000)));
    let run = soon(&folder, "plan --customer anna.yaml");
    is_told(&run, "unknown-word", &["known here: long, intermediate, round"]);
    assert!(run.stderr.len() < 3000, "{}", run.stderr.len());
}

#[rstest]
#[case("wears", 51, "at most 50 are read")]
#[case("types", 10_000, "at most 50 are read")]
#[case("out_of_stock", 2001, "at most 2000 are read")]
fn a_list_without_end_is_refused(#[case] key: &str, #[case] count: usize, #[case] words: &str) {
    let folder = Folder::new();
    folder.write("anna.yaml", format!("schema: 1\n{key}: [{}]\n", "a, ".repeat(count)));
    let run = soon(&folder, "plan --customer anna.yaml");
    is_told(&run, "profile-too-many", &["anna.yaml:2:", words]);
    is_one_error(&run);
}

#[test]
fn more_mistakes_than_anybody_reads_are_cut_and_that_is_said() {
    let folder = Folder::with_profiles();
    let rules = "  - {from: nobody, reason: too-round, to: nowhere, note: a}\n".repeat(4000);
    folder.write("profiles/fallbacks.yaml", format!("schema: 1\nedges:\n{rules}"));
    let run = load(&folder);
    is_told(&run, "more-problems", &["mend these first"]);
    assert!(run.stderr.ends_with("\n201 errors\n"));
    folder.write("profiles/fallbacks.yaml", format!("schema: 1\nedges:\n{}", rules.replace("too-round", "x")));
    assert!(load(&folder).stderr.ends_with("\n201 errors\n"));
}

#[test]
fn when_most_files_are_wrong_the_rest_is_not_read() {
    let folder = Folder::with_profiles();
    for number in 0..20 {
        folder.write(&format!("profiles/helmets/{number}.yaml"), "- a: b\n".repeat(10) + &"x:\n".repeat(500));
        folder.write(&format!("profiles/populations/{number}.yaml"), "name: {}\n".repeat(500));
    }
    let run = load(&folder);
    is_told(&run, "more-problems", &[]);
    let count = run.stderr.lines().last().and_then(|line| line.split(' ').next()).and_then(|n| n.parse::<usize>().ok());
    assert!(count.is_some_and(|count| (1001..1300).contains(&count)), "{count:?}");
}

#[test]
fn too_many_files_are_one_problem() {
    let folder = Folder::with_profiles();
    for number in 0..2001 {
        folder.write(&format!("profiles/helmets/{number}.yaml"), "");
    }
    let run = load(&folder);
    is_told(&run, "profile-too-large", &["profiles holds more than the 2000 files that are read"]);
    is_one_error(&run);
}

#[test]
fn too_many_bytes_are_one_problem_and_are_not_read() {
    let folder = Folder::with_profiles();
    for number in 0..3 {
        let path = folder.write(&format!("profiles/helmets/{number}.yaml"), "");
        // Of no use on the disk but as a number.
        fs::File::options().write(true).open(path).and_then(|file| file.set_len(1 << 40)).expect("a length");
    }
    let run = load(&folder);
    is_told(&run, "profile-too-large", &["profiles holds more than the 8388608 bytes that are read in all"]);
    is_one_error(&run);
}

#[test]
fn too_many_models_and_sizes_are_refused() {
    let folder = Folder::with_profiles();
    let head = "schema: 1\nmaker: a\nfamily: b\npads_trade: sale\nswap_minutes: {}\nmodels:\n";
    let size = |number: usize| {
        format!("{{label: L{number}, circumference_cm: [57, 58], standard_pads_mm: {{brow: 9, rear: 9, sides: 9}}}}")
    };
    let sizes = |count: usize| (0..count).map(size).collect::<Vec<_>>().join(", ");
    let model = |id: &str, sizes: &str| {
        format!(
            "- {{id: {id}, name: a, type: open-face, price: 1, interior: {{shape_index: 77, origin: by-eye}}, shells: \
             [{{id: a, sizes: [{sizes}]}}], attributes: {{mass_g: 999, spectacle_channel: true, intercom_ready: true, \
             approvals: []}}}}\n"
        )
    };
    for file in 0..6 {
        let models: String = (0..200).map(|number| model(&format!("m{file}-{number}"), &sizes(7))).collect();
        folder.write(&format!("profiles/helmets/{file}.yaml"), format!("{head}{models}"));
    }
    let run = load(&folder);
    is_told(&run, "profile-too-many", &["1216 models, but at most 1000", "sizes, but at most 8000"]);
    folder.write("profiles/helmets/5.yaml", format!("{head}{}", model("a", &sizes(41))));
    folder.write("profiles/helmets/4.yaml", format!("{head}{}", model("a", "").repeat(201)));
    is_told(&load(&folder), "profile-too-many", &["here are 41 sizes, but at most 40", "here are 201 models"]);
}

#[rstest]
#[case::many_keys("", "k: 1\n", "")]
#[case::one_line("schema: 1\nwears: [", "a: b, ", "]\n")]
#[case::small_lists("schema: 1\nwears:\n", "- [a, b]\n", "")]
#[case::anchors("schema: 1\nwears:\n", "- &a b\n", "")]
#[case::groups("schema: 1\nwears:\n", "- {a: b}\n", "")]
#[case::buffered("- {a: [", "X,", "]}\n")]
fn a_large_text_full_of_mistakes_is_read_and_told_soon(#[case] start: &str, #[case] part: &str, #[case] end: &str) {
    let folder = Folder::with_profiles();
    let text = format!("{start}{}{end}", part.repeat((1 << 20) / part.len()));
    for (file, line) in [FILES[2], FILES[4]] {
        folder.write(file, &text);
        is_refused(&soon(&folder, line));
    }
}

#[test]
fn a_folder_where_a_file_belongs_is_told() {
    let folder = Folder::with_profiles();
    fs::create_dir(folder.path().join("profiles/helmets/old.yaml")).expect("a folder");
    let run = load(&folder);
    is_told(&run, "profile-unreadable", &["can't read profiles/helmets/old.yaml: it is a folder, not a file"]);
    is_one_error(&run);
    is_told(&soon(&folder, "plan --customer profiles"), "customer-unreadable", &["it is a folder, not a file"]);
}
