//! A new profiles folder, for people: what was written, and what to do next.

use super::page::Page;
use crate::catalogue::{Beginning, NewFile};
use crate::render::diagnostics::one_line;

/// What stands in the folder now, and the next steps.
#[must_use]
pub fn init(folder: &str, beginning: Beginning, files: &[NewFile]) -> String {
    let mut page = Page::default();
    page.heading(&format!("WRITTEN into {}", one_line(folder)));
    files.iter().for_each(|file| page.line(&format!("  {}", file.path)));
    page.heading("NEXT");
    match beginning {
        Beginning::Starter => starter(&mut page),
        Beginning::Demo => demo(&mut page),
    }
    let folder = shell_word(folder);
    page.wrapped("  3. ", "For a helmet that is new to you, let the shape be proposed from what you know of it:");
    page.line("       lidladder sketch --help");
    page.wrapped("  4. ", "See what is wrong, and whether a plan comes out:");
    page.line(&format!("       lidladder check {folder}"));
    page.line(&format!("       lidladder plan --profiles {folder} --circumference 57.5cm"));
    page.finish()
}

fn starter(page: &mut Page) {
    page.wrapped("  1. ", "Write your shop's name and currency into shop.yaml.");
    page.wrapped(
        "  2. ",
        "Edit helmets/example.yaml: it explains every key. Put your own helmets in, and take the examples out, together \
         with their rules in fallbacks.yaml. An editor that knows the first line of these files completes the keys and \
         shows mistakes while you type.",
    );
}

fn demo(page: &mut Page) {
    page.wrapped("  1. ", "Look into helmets: one file for each family. All of it is invented.");
    page.wrapped("  2. ", "Change what you like: a shape index, a pad, a rule in fallbacks.yaml.");
}

/// A name as a shell takes it for one word.
fn shell_word(name: &str) -> String {
    let name = one_line(name);
    let is_plain = name.chars().all(|c| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '/' | '\\' | ':'));
    if is_plain { name } else { format!("'{}'", name.replace('\'', r"'\''")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_with_spaces_is_one_word() {
        assert_eq!(["my-shop", "my shop", "it's"].map(shell_word), ["my-shop", "'my shop'", r"'it'\''s'"]);
    }
}
