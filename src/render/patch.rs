//! Changes of files as a unified diff, as the common patch tools take it.

use crate::learn::FileChange;

/// Unchanged lines that are shown around a change.
const AROUND: usize = 3;

/// The diff of all files; empty without any. To be applied within the profiles folder with `-p1`.
#[must_use]
pub fn patch(files: &[FileChange]) -> String {
    files.iter().map(file).collect()
}

fn file(file: &FileChange) -> String {
    let mut text = if file.old.is_empty() {
        format!("--- /dev/null\n+++ b/{}\n", file.path)
    } else {
        format!("--- a/{0}\n+++ b/{0}\n", file.path)
    };
    if file.old.is_empty() {
        let new: Vec<&String> = file.changes.iter().flat_map(|change| &change.new).collect();
        text.push_str(&format!("@@ -0,0 +1,{} @@\n", new.len()));
        new.into_iter().for_each(|line| push(&mut text, '+', line));
        return text;
    }
    // How many lines more the new file has so far.
    let mut more = 0;
    for hunk in hunks(file) {
        let first = file.changes[hunk.0].at.saturating_sub(AROUND);
        let last = (file.changes[hunk.1].at + AROUND + 1).min(file.old.len());
        let grown: usize = file.changes[hunk.0..=hunk.1].iter().map(|change| change.new.len() - 1).sum();
        let (count, begins) = (last - first, first + 1);
        text.push_str(&format!("@@ -{begins},{count} +{},{} @@\n", begins + more, count + grown));
        for at in first..last {
            match file.changes.iter().find(|change| change.at == at) {
                None => push(&mut text, ' ', &file.old[at]),
                Some(change) => {
                    push(&mut text, '-', &file.old[at]);
                    change.new.iter().for_each(|line| push(&mut text, '+', line));
                }
            }
        }
        more += grown;
    }
    text
}

/// The first and the last change of each hunk: those whose surroundings meet share one.
fn hunks(file: &FileChange) -> Vec<(usize, usize)> {
    let mut hunks: Vec<(usize, usize)> = Vec::new();
    for (at, change) in file.changes.iter().enumerate() {
        match hunks.last_mut() {
            Some(hunk) if change.at <= file.changes[hunk.1].at + 2 * AROUND => hunk.1 = at,
            _ => hunks.push((at, at)),
        }
    }
    hunks
}

fn push(text: &mut String, sign: char, line: &str) {
    text.push(sign);
    text.push_str(line);
    if !line.ends_with('\n') {
        text.push_str("\n\\ No newline at end of file\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::learn::LineChange;

    fn lines(text: &[&str]) -> Vec<String> {
        text.iter().map(|line| (*line).to_owned()).collect()
    }

    #[test]
    fn near_changes_share_a_hunk_and_far_ones_don_t() {
        let old: Vec<String> = (1..=20).map(|k| format!("{k}\n")).collect();
        let change = |at, new: &[&str]| LineChange { at, new: lines(new) };
        let changes = vec![change(1, &["two\n", "more\n"]), change(4, &["five\n"]), change(18, &["nineteen\n"])];
        let diff = patch(&[FileChange { path: "a/b.yaml".to_owned(), old, changes }]);
        assert_eq!(
            diff,
            "--- a/a/b.yaml\n+++ b/a/b.yaml\n@@ -1,8 +1,9 @@\n 1\n-2\n+two\n+more\n 3\n 4\n-5\n+five\n 6\n 7\n 8\n\
             @@ -16,5 +17,5 @@\n 16\n 17\n 18\n-19\n+nineteen\n 20\n"
        );
    }

    #[test]
    fn a_file_without_a_last_line_break_says_so_and_a_new_one_comes_from_nowhere() {
        let change = |new: &[&str]| vec![LineChange { at: 0, new: lines(new) }];
        let old = FileChange { path: "x".to_owned(), old: lines(&["a"]), changes: change(&["b"]) };
        let mark = "\\ No newline at end of file";
        assert_eq!(patch(&[old]), format!("--- a/x\n+++ b/x\n@@ -1,1 +1,1 @@\n-a\n{mark}\n+b\n{mark}\n"));
        let new = FileChange { path: "x".to_owned(), old: Vec::new(), changes: change(&["a\n", "b\n"]) };
        assert_eq!(patch(&[new]), "--- /dev/null\n+++ b/x\n@@ -0,0 +1,2 @@\n+a\n+b\n");
    }
}
