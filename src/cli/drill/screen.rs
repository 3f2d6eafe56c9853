//! Where questions are shown.

use crate::cli::Ending;
use crate::cli::terminal::Terminal;

/// Where questions are shown. The document stands alone on standard output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Screen {
    /// On standard output.
    Page,
    /// On standard error, beside a document, for whoever answers at a keyboard.
    Beside,
    /// Nowhere.
    Nowhere,
}

impl Screen {
    /// Shows a text. A reader that went away is no error.
    pub(super) fn show(self, text: &str) {
        match self {
            Self::Page => {
                Terminal.show(text, Ending::Done);
            }
            Self::Beside => Terminal.say(text),
            Self::Nowhere => {}
        }
    }
}
