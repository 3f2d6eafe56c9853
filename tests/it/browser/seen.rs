//! Has all pages measured, once for all tests.

use super::bad::{BAD, GOOD, page};
use super::facts::Facts;
use super::pages::{PAGES, hostile};
use super::rules::Rule;
use crate::support::{Folder, root};
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::OnceLock;

/// A page as a browser shows it, and what should be on it.
pub(super) struct Seen {
    pub(super) name: String,
    pub(super) facts: Facts,
    /// Keys by the kind of their marks.
    pub(super) keys: BTreeMap<String, BTreeSet<String>>,
    /// How many it must take, where that is known.
    pub(super) sheets: Option<usize>,
    pub(super) known: &'static [Rule],
}

pub(super) struct All {
    pub(super) ours: Vec<Seen>,
    /// In the order of `BAD`.
    pub(super) bad: Vec<Seen>,
    pub(super) good: Seen,
}

/// A file for the browser.
struct Job {
    name: String,
    ending: &'static str,
    text: String,
    keys: BTreeMap<String, BTreeSet<String>>,
    sheets: Option<usize>,
    known: &'static [Rule],
}

/// What the browser shows; none where there is no browser, unless `LIDLADDER_BROWSER` is `required`.
///
/// # Panics
/// When what is required is missing, or when the measuring itself fails.
pub(super) fn all() -> Option<&'static All> {
    static ALL: OnceLock<Result<All, Fault>> = OnceLock::new();
    match ALL.get_or_init(measured) {
        Ok(all) => Some(all),
        Err(Fault::Missing(what)) => {
            let is_required = std::env::var_os("LIDLADDER_BROWSER").is_some_and(|value| value == "required");
            assert!(!is_required, "{what}");
            None
        }
        Err(Fault::Failed(what)) => panic!("{what}"),
    }
}

enum Fault {
    Missing(String),
    Failed(String),
}

fn measured() -> Result<All, Fault> {
    if let Some(what) = missing() {
        let told = format!("skipped: no page is looked at in a browser, because {what}\n");
        // Past the test's own capture, which shows nothing of a test that passes.
        std::io::stderr().write_all(told.as_bytes()).expect("standard error can be written");
        return Err(Fault::Missing(what));
    }
    let names = hostile();
    let ours = PAGES.iter().map(|page| Job {
        name: page.name(),
        ending: page.format,
        text: page.made(&names),
        keys: page.keys(&names),
        sheets: page.sheets,
        known: page.known,
    });
    let made = |name: String, body: &str| Job {
        name,
        ending: "html",
        text: page(body),
        keys: BTreeMap::from([("edge".to_owned(), ["a b", "b a"].map(str::to_owned).into())]),
        sheets: Some(2),
        known: &[],
    };
    let bad = BAD.iter().map(|bad| made(format!("a page that breaks {:?}", bad.rule), bad.body));
    let jobs: Vec<Job> = ours.chain(bad).chain([made("a good page".to_owned(), GOOD)]).collect();
    let mut seen = looked_at(jobs).map_err(Fault::Failed)?;
    let good = seen.pop().expect("the last one");
    let bad = seen.split_off(PAGES.len());
    Ok(All { ours: seen, bad, good })
}

/// What is missing, and what to do about it.
fn missing() -> Option<String> {
    let browser = std::env::var("LIDLADDER_CHROMIUM").unwrap_or_else(|_| "/usr/bin/chromium".to_owned());
    let node = Command::new("node").arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status();
    if !Path::new(&browser).exists() {
        return Some(format!("{browser} is missing: install Chromium, or set LIDLADDER_CHROMIUM to its path"));
    }
    if node.is_err() {
        return Some("node is missing: install Node.js".to_owned());
    }
    let is_installed = root().join("tests/browser/node_modules/playwright-core").exists();
    (!is_installed)
        .then(|| "tests/browser/node_modules is missing: run npm ci --prefix tests/browser --ignore-scripts".to_owned())
}

fn looked_at(jobs: Vec<Job>) -> Result<Vec<Seen>, String> {
    let folder = Folder::new();
    let list = jobs.iter().enumerate().map(|(at, job)| {
        let path = folder.write(&format!("{at}.{}", job.ending), &job.text);
        json!({"name": job.name, "path": path})
    });
    let list = serde_json::Value::from(list.collect::<Vec<_>>()).to_string();
    let mut command = Command::new("node");
    command.arg(root().join("tests/browser/measure.mjs"));
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().map_err(|fault| format!("node: {fault}"))?;
    // The list is read to its end before anything is written.
    let mut input = child.stdin.take().expect("it is a pipe");
    input.write_all(list.as_bytes()).map_err(|fault| format!("node: {fault}"))?;
    drop(input);
    let output = child.wait_with_output().map_err(|fault| format!("node: {fault}"))?;
    let told = String::from_utf8_lossy(&output.stderr);
    if !output.status.success() {
        return Err(format!("the measuring failed:\n{told}"));
    }
    let facts: Vec<Facts> =
        serde_json::from_slice(&output.stdout).map_err(|fault| format!("no facts: {fault}\n{told}"))?;
    assert_eq!(facts.len(), jobs.len(), "facts for each page");
    let seen = |(job, facts): (Job, Facts)| {
        assert_eq!(job.name, facts.name, "facts come in the order of the pages");
        Seen { name: job.name, facts, keys: job.keys, sheets: job.sheets, known: job.known }
    };
    Ok(jobs.into_iter().zip(facts).map(seen).collect())
}
