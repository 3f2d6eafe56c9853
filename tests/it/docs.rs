//! What the documents show is what the program prints, and every diagnostic is documented with an example of it.
//!
//! A block ```console begins with `$ lidladder ...` and goes on with the output, standard error behind standard
//! output. A line `...` stands for any number of lines. `LIDLADDER_UPDATE=1` writes the outputs anew; a part that
//! stands behind `...` is found again by its first line, and keeps its number of paragraphs. The blocks of a document run one after
//! the other in a folder with copies of what documents name.

use crate::support::{Folder, files_below, lidladder, root};
use rstest::rstest;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const ELLIPSIS: &str = "...";

/// Codes that don't end the program: they stand in the JSON document.
const WARNINGS: [&str; 12] = [
    "learn-left-out",
    "readings-apart",
    "rare-head",
    "few-heads",
    "poor-fit",
    "no-step",
    "too-little-time",
    "sketch-at-odds",
    "sketch-far-moved",
    "sketch-little-learned",
    "sketch-odd-reports",
    "sketch-two-humps",
];

#[rstest]
#[case("README.md")]
#[case("docs/profiles.md")]
#[case("docs/diagnostics.md")]
#[case("docs/journal.md")]
#[case("docs/guide-fitter.md")]
#[case("docs/guide-trainer.md")]
#[case("docs/guide-buyer.md")]
#[case("docs/guide-profiles.md")]
#[case("docs/guide-rules.md")]
#[case("docs/guide-learn.md")]
#[case("docs/guide-away.md")]
#[case("docs/windows.md")]
fn shown_output_is_true(#[case] document: &str) {
    let path = root().join(document);
    let text = fs::read_to_string(&path).expect("the document is there");
    let ground = Folder::for_documents();
    let mut fresh = String::new();
    let mut rest = text.as_str();
    let mut blocks = 0;
    while let Some((before, block, after)) = next_block(rest, "console") {
        let (command, shown) = block.split_once('\n').expect("a command and its output");
        let command = command.strip_prefix("$ ").expect("a block begins with `$ `");
        let output = run(command, ground.path());
        let shown = match output {
            None => shown.to_owned(),
            Some(output) if is_updating() => renewed(shown, &output, command),
            Some(output) => {
                assert!(matches(shown, &output), "{document}: `{command}` now prints\n{output}\ninstead of\n{shown}");
                shown.to_owned()
            }
        };
        fresh.push_str(&format!("{before}```console\n$ {command}\n{shown}```\n"));
        rest = after;
        blocks += 1;
    }
    assert!(blocks > 0, "{document} shows no output");
    fresh.push_str(rest);
    if is_updating() && fresh != text {
        fs::write(&path, fresh).expect("the document can be written");
    }
}

#[test]
fn diagnostics_are_documented_in_order() {
    let documented: Vec<String> = sections().into_iter().map(|section| section.code).collect();
    assert!(documented.is_sorted(), "sections stand in the order of their codes");
    let mut used = BTreeSet::new();
    for text in sources() {
        used.extend(codes(&text));
    }
    assert!(used.len() > 30, "the search for codes in the source found {used:?}");
    assert_eq!(documented.into_iter().collect::<BTreeSet<_>>(), used);
}

/// Each section has a wrong and a right example: a command, or a piece of a profile that is part of the built-in range
/// and what takes its place.
#[test]
fn examples_of_diagnostics_bring_them_about() {
    let built_in = lidladder("check").stdout;
    let ground = Folder::for_documents();
    for section in sections() {
        let code = &section.code;
        if let Some((_, block, _)) = next_block(&section.text, "console") {
            let command = block.lines().next().and_then(|line| line.strip_prefix("$ ")).expect("a command");
            let (command, wanted) = match WARNINGS.contains(&code.as_str()) {
                true => (format!("{command} --format json"), format!("\"code\": \"{code}\"")),
                false => (command.to_owned(), format!("error[{code}]")),
            };
            let said = run(&command, ground.path()).expect("nothing but this program is needed");
            assert!(said.contains(&wanted), "{code}: `{command}` brings about\n{said}");
            assert!(section.text.contains("\nRight: "), "{code}: what is right?");
            continue;
        }
        let (file, wrong, right) = section.profile_example();
        let folder = Folder::with_profiles();
        let path = folder.path().join("profiles").join(&file);
        let good = fs::read_to_string(&path).expect("part of the built-in range");
        assert!(good.contains(&right), "{code}: the right example stands nowhere in {file}");
        fs::write(&path, good.replacen(&right, &wrong, 1)).expect("a temporary file");
        let said = folder.run("check profiles").stdout;
        let count = |text: &str| text.matches(&format!("[{code}]")).count();
        assert!(count(&said) > count(&built_in), "{code}: the example brings about\n{said}");
    }
}

/// A section of docs/diagnostics.md.
struct Section {
    code: String,
    text: String,
}

impl Section {
    /// The file within the profiles, the wrong piece and the right one.
    fn profile_example(&self) -> (String, String, String) {
        let (_, named) = self.text.split_once("Wrong, in `").unwrap_or_else(|| panic!("{}: no example", self.code));
        let (file, rest) = named.split_once("`:").expect("the file's name in backticks and a colon");
        let (_, wrong, after) = next_block(rest, "yaml").expect("the wrong piece");
        let (_, right, _) = next_block(after, "yaml").expect("the right piece");
        (file.to_owned(), wrong.to_owned(), right.to_owned())
    }
}

fn sections() -> Vec<Section> {
    let text = fs::read_to_string(root().join("docs/diagnostics.md")).expect("the document is there");
    let sections = text.split("\n## ").skip(1).map(|section| {
        let (code, text) = section.split_once('\n').expect("a heading and a text");
        Section { code: code.to_owned(), text: text.to_owned() }
    });
    sections.collect()
}

/// Text before the next block of a language, the block without its fences, and the text behind it.
fn next_block<'a>(text: &'a str, language: &str) -> Option<(&'a str, &'a str, &'a str)> {
    let fence = format!("```{language}\n");
    let start = text.find(&fence)?;
    let body = &text[start + fence.len()..];
    let end = body.find("```\n")?;
    Some((&text[..start], &body[..end], &body[end + "```\n".len()..]))
}

fn is_updating() -> bool {
    std::env::var_os("LIDLADDER_UPDATE").is_some()
}

/// Without anything of the environment that changes what is printed.
fn clean(mut command: Command, folder: &Path) -> Command {
    command
        .current_dir(folder)
        .env_remove("LIDLADDER_PROFILES")
        .env_remove("LIDLADDER_JOURNAL")
        .env("NO_COLOR", "1")
        .env("COLUMNS", "100");
    command
}

/// What a command of a document prints; `None` where another program that it needs is missing.
#[expect(clippy::print_stdout, reason = "a skipped check must be seen")]
fn run(command: &str, ground: &Path) -> Option<String> {
    let is_own = command.contains("lidladder") || command.starts_with("python3 docs/examples/");
    assert!(is_own, "`{command}` is no command of this program");
    for other in ["python3", "jq"] {
        let has_it =
            || shell(&format!("command -v {other}"), ground).output().is_ok_and(|found| found.status.success());
        if command.contains(other) && !has_it() {
            println!("skipped, {other} is missing: {command}");
            return None;
        }
    }
    Some(printed(&mut shell(command, ground)))
}

fn shell(command: &str, ground: &Path) -> Command {
    let folder = Path::new(env!("CARGO_BIN_EXE_lidladder")).parent().expect("a folder");
    let path = std::env::var("PATH").unwrap_or_default();
    let mut shell = clean(Command::new("sh"), ground);
    shell.args(["-c", command]).env("PATH", format!("{}:{path}", folder.display()));
    shell
}

fn printed(command: &mut Command) -> String {
    let Output { stdout, stderr, .. } = command.output().expect("the program can be started");
    String::from_utf8([stdout, stderr].concat()).expect("the program prints UTF-8")
}

fn matches(shown: &str, output: &str) -> bool {
    fn from_here(shown: &[&str], output: &[&str]) -> bool {
        match shown.split_first() {
            None => output.is_empty(),
            Some((&ELLIPSIS, rest)) => (0..=output.len()).any(|skipped| from_here(rest, &output[skipped..])),
            Some((line, rest)) => output.first() == Some(line) && from_here(rest, &output[1..]),
        }
    }
    from_here(&shown.lines().collect::<Vec<_>>(), &output.lines().collect::<Vec<_>>())
}

/// The output with the same parts left out as before.
fn renewed(shown: &str, output: &str, command: &str) -> String {
    let output: Vec<&str> = output.lines().collect();
    let shown: Vec<&str> = shown.lines().collect();
    // A drawing has such a line of its own where lines of a file are left out.
    let is_whole = ![shown.first(), shown.last()].contains(&Some(&ELLIPSIS));
    if is_whole && output.contains(&ELLIPSIS) {
        return output.into_iter().map(|line| format!("{line}\n")).collect();
    }
    let parts: Vec<&[&str]> = shown.split(|line| *line == ELLIPSIS).collect();
    let mut at = 0;
    let mut fresh = Vec::new();
    for (number, part) in parts.iter().enumerate() {
        if number > 0 {
            fresh.push(ELLIPSIS);
            let Some(first) = part.first() else { continue };
            let ahead = output[at..].iter().position(|line| line == first);
            at += ahead.unwrap_or_else(|| panic!("`{command}` no longer prints the line `{first}`"));
        }
        let is_last = number + 1 == parts.len();
        let end = if is_last { output.len() } else { end_of_paragraphs(&output, at, paragraphs(part)) };
        fresh.extend(&output[at..end]);
        at = end;
    }
    fresh.into_iter().map(|line| format!("{line}\n")).collect()
}

fn paragraphs(part: &[&str]) -> usize {
    part.split(|line| line.is_empty()).filter(|paragraph| !paragraph.is_empty()).count()
}

/// Where so many paragraphs from a line on end, the empty line behind them included.
fn end_of_paragraphs(output: &[&str], start: usize, count: usize) -> usize {
    let ends = (start..output.len()).filter(|at| output[*at].is_empty());
    if count == 0 { start } else { ends.map(|at| at + 1).nth(count - 1).unwrap_or(output.len()) }
}

/// The texts of all source files, without their tests.
fn sources() -> Vec<String> {
    let files = files_below(&root().join("src"));
    let program = files.iter().filter(|path| path.file_name().is_some_and(|name| name != "tests.rs"));
    let text = |path| fs::read_to_string(path).expect("a source");
    program.map(text).map(|text| text.split("#[cfg(test)]").next().unwrap_or_default().to_owned()).collect()
}

/// The codes that a source names: in `Code("...")`, as the first of a helper's arguments, and those of warnings.
pub(crate) fn codes(text: &str) -> BTreeSet<String> {
    const BEGINNINGS: [&str; 20] = [
        "add-form",
        "answer-",
        "yaml-",
        "profile-",
        "unknown-",
        "measure-",
        "not-a-",
        "not-asked-for",
        "customer-",
        "comes-in-twice",
        "credit-",
        "pad-",
        "nothing-",
        "helmet-form",
        "silent-reason",
        "like-form",
        "model-unclear",
        "pads-form",
        "size-form",
        "try-form",
    ];
    let is_word = |text: &&str| {
        text.contains('-') && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-') && !text.ends_with('-')
    };
    // Every piece between two quotes, also those between two texts: these hold more than a word.
    let quoted = text.split('"').filter(is_word);
    let is_code = |word: &&str| {
        WARNINGS.contains(word)
            || BEGINNINGS.iter().any(|start| word.starts_with(start))
            || text.contains(&format!("Code(\"{word}\")"))
    };
    quoted.filter(is_code).map(str::to_owned).collect()
}
