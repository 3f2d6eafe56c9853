//! Hands the parser so much text at a time and no more.
//!
//! Whether a bracket opens the key of a group shows only behind its closing one, so that the parser keeps all that is
//! between them, at eighty bytes of memory for one of text. Where nothing comes of a long stretch, the text ends for it.

use std::cell::Cell;
use std::str::Chars;

/// How many characters the parser may take until it makes something of them.
const MOST_AHEAD: usize = 512 * 1024;

/// What is left of the present ration.
pub(super) struct Ration {
    left: Cell<usize>,
    is_spent: Cell<bool>,
}

/// The characters of a text as long as the ration lasts.
pub(super) struct Characters<'r, 't> {
    rest: Chars<'t>,
    ration: &'r Ration,
}

impl Default for Ration {
    fn default() -> Self {
        Self { left: Cell::new(MOST_AHEAD), is_spent: Cell::new(false) }
    }
}

impl Ration {
    pub(super) fn characters<'r, 't>(&'r self, text: &'t str) -> Characters<'r, 't> {
        Characters { rest: text.chars(), ration: self }
    }

    /// Gives a new one, for something came of the last.
    pub(super) fn renew(&self) {
        self.left.set(MOST_AHEAD);
    }

    /// Whether the text ended before its end.
    pub(super) fn is_spent(&self) -> bool {
        self.is_spent.get()
    }
}

impl Iterator for Characters<'_, '_> {
    type Item = char;

    fn next(&mut self) -> Option<char> {
        let left = self.ration.left.get();
        if (left == 0 && !self.rest.as_str().is_empty()) || self.ration.is_spent() {
            self.ration.is_spent.set(true);
            return None;
        }
        self.ration.left.set(left.saturating_sub(1));
        self.rest.next()
    }
}
