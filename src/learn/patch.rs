//! Proposed changes as changes of the lines of the profile files: only figures move, comments and layout stay.

use super::{Belief, Learned, LearnedModel, LearnedShell, Verdict};
use crate::catalogue::{Draft, Look};
use crate::diag::{SourceId, Sources, Span};
use crate::profile::{Model, Place, Placed};
use itertools::Itertools;
use std::collections::BTreeMap;

/// What becomes of one file of a profiles folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileChange {
    /// Its path within the folder, with `/` between the parts.
    pub path: String,
    /// Its lines as they are, each with its line break; none for a file that is new.
    pub old: Vec<String>,
    /// The lines that change, by their place in `old` in ascending order.
    pub changes: Vec<LineChange>,
}

/// What becomes of one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineChange {
    /// Its place, from 0; for a new file 0.
    pub at: usize,
    /// The lines that take its place, each with its line break.
    pub new: Vec<String>,
}

/// The changes of these profiles that are proposed, file by file. `within` says what a file is called within its folder.
/// `population` is the whole text of the shop's own population, for a file of its own.
#[must_use]
pub fn changes(
    learned: &Learned,
    (draft, sources): (&Draft, &Sources),
    within: impl Fn(&str) -> String,
    population: Option<&str>,
) -> Vec<FileChange> {
    let mut editor = Editor { look: Look::new(draft, sources), sources, edits: BTreeMap::new() };
    if let Some(shop) = &draft.shop {
        editor.shop(learned, &shop.place);
    }
    for model in &draft.models {
        if let Some(known) = learned.models.iter().find(|known| known.id == model.value.id) {
            editor.model(model, known);
        }
    }
    let changed = editor.edits.iter().map(|(source, edits)| {
        let text = sources.get(*source);
        FileChange { path: within(&text.name), old: lines(&text.text), changes: line_changes(&text.text, edits) }
    });
    let own = population.zip(learned.population.own.as_ref()).map(|(text, own)| FileChange {
        path: format!("populations/{}.yaml", own.id),
        old: Vec::new(),
        changes: vec![LineChange { at: 0, new: lines(text) }],
    });
    changed
        .chain(own.filter(|_| learned.population.verdict == Verdict::Change))
        .sorted_by(|a, b| a.path.cmp(&b.path))
        .collect()
}

/// Something else between two bytes of a text.
struct Edit {
    start: usize,
    end: usize,
    new: String,
}

struct Editor<'a> {
    look: Look<'a>,
    sources: &'a Sources,
    edits: BTreeMap<SourceId, Vec<Edit>>,
}

impl Editor<'_> {
    fn shop(&mut self, learned: &Learned, shop: &Place) {
        if learned.misreport_verdict == Verdict::Change {
            self.replace(&shop.key("misreport"), format!("{:.2}", learned.misreport[1].mean));
        }
        for (at, method) in learned.measuring.iter().enumerate() {
            if method.verdict == Verdict::Change {
                self.replace(&shop.key("measuring").entry(at).key("sd_mm"), tenths(method.sd[1].mean));
            }
        }
        if let (Verdict::Change, Some(own)) = (learned.population.verdict, &learned.population.own) {
            self.replace(&shop.key("population"), own.id.to_string());
        }
    }

    fn model(&mut self, model: &Placed<Model>, learned: &LearnedModel) {
        let interior = model.place.key("interior");
        if learned.verdict == Verdict::Change {
            let [_, index] = learned.index;
            self.replace(&interior.key("shape_index"), tenths(index.mean));
            let mut more = vec![("sd", least_tenth(index))];
            // Another origin brings another error of the centres, which nobody has learned.
            if model.value.interior.centre_sd.is_none()
                && let Some(shell) = learned.shells.first()
            {
                more.push(("centre_sd_mm", tenths(learned_of(model, shell).sd)));
            }
            self.put(&interior, ("origin", Some("learned")), &more);
        }
        for (at, shell) in learned.shells.iter().enumerate() {
            if shell.verdict == Verdict::Change {
                let place = model.place.key("shells").entry(at);
                let more =
                    [("centre_mm", tenths(shell.centre[1].mean)), ("centre_sd_mm", least_tenth(shell.centre[1]))];
                self.put(&place, ("id", None), &more);
            }
        }
    }

    fn replace(&mut self, place: &Place, new: String) {
        let Span { source, start, end } = self.look.span(place);
        self.edits.entry(source).or_default().push(Edit { start, end, new });
    }

    /// Gives keys of a group their values, behind another key where they are missing; that key may get a value, too.
    fn put(&mut self, group: &Place, (anchor, value): (&str, Option<&str>), keys: &[(&str, String)]) {
        let whole = self.look.span(group);
        let (there, missing): (Vec<_>, Vec<_>) =
            keys.iter().partition(|(key, _)| self.look.span(&group.key(key)) != whole);
        for (key, value) in there {
            self.replace(&group.key(key), value.clone());
        }
        let text = &self.sources.get(whole.source).text;
        let (key, old) = (self.look.key_span(&group.key(anchor)), self.look.span(&group.key(anchor)));
        let is_flow = text[whole.start..].starts_with('{');
        let new = value.map_or(text[old.start..old.end].to_owned(), str::to_owned);
        let written = missing.iter().map(|(key, value)| format!("{key}: {value}"));
        if is_flow {
            let new = std::iter::once(new).chain(written).join(", ");
            self.replace(&group.key(anchor), new);
            return;
        }
        let line_start = text[..key.start].rfind('\n').map_or(0, |at| at + 1);
        let indent = " ".repeat(text[line_start..key.start].chars().count());
        let line_end = text[old.end..].find(['\r', '\n']).map_or(text.len(), |at| old.end + at);
        let ending = if text[line_end..].starts_with('\r') { "\r\n" } else { "\n" };
        let inserted: String = written.map(|written| format!("{ending}{indent}{written}")).collect();
        if value.is_some() {
            self.replace(&group.key(anchor), new);
        }
        if !inserted.is_empty() {
            let edit = Edit { start: line_end, end: line_end, new: inserted };
            self.edits.entry(whole.source).or_default().push(edit);
        }
    }
}

/// What was believed of the centres of a shell without an error of its own.
fn learned_of(model: &Placed<Model>, shell: &LearnedShell) -> Belief {
    let own = model.value.shells.iter().find(|known| known.id == shell.id).and_then(|known| known.centre_sd);
    Belief { sd: own.unwrap_or(shell.centre[0].sd), ..shell.centre[0] }
}

fn tenths(value: f64) -> String {
    format!("{:.1}", value + 0.0)
}

fn least_tenth(belief: Belief) -> String {
    tenths(belief.sd.max(0.1))
}

/// The lines of a text, each with its line break.
fn lines(text: &str) -> Vec<String> {
    text.split_inclusive('\n').map(str::to_owned).collect()
}

/// What becomes of the lines that edits lie in: no edit goes over more than one.
fn line_changes(text: &str, edits: &[Edit]) -> Vec<LineChange> {
    let mut changes = Vec::new();
    let mut start = 0;
    for (at, line) in text.split_inclusive('\n').enumerate() {
        let end = start + line.len();
        let is_last = end == text.len();
        let within = edits.iter().filter(|edit| (start..end).contains(&edit.start) || (is_last && edit.start == end));
        let mut new = line.to_owned();
        for edit in within.clone().sorted_by_key(|edit| std::cmp::Reverse(edit.start)) {
            new.replace_range(edit.start - start..edit.end - start, &edit.new);
        }
        if new != line {
            changes.push(LineChange { at, new: lines(&new) });
        }
        start = end;
    }
    changes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_change_their_lines_and_no_others() {
        let edit = |start: usize, end: usize, new: &str| Edit { start, end, new: new.to_owned() };
        let found =
            line_changes("a: 1\nb: 22 # x\nc: 3", &[edit(8, 10, "7"), edit(14, 14, "\nd: 4"), edit(18, 19, "5")]);
        let line = |at, new: &[&str]| LineChange { at, new: new.iter().map(|line| (*line).to_owned()).collect() };
        assert_eq!(found, [line(1, &["b: 7 # x\n", "d: 4\n"]), line(2, &["c: 5"])]);
    }
}
