//! What shows that lidladder wrote a file, and in which format.

/// On a page, in its head.
pub(super) const OF_A_PAGE: &str = "<meta name=\"generator\" content=\"lidladder\"/>";

/// In a picture that is a file by itself.
pub(super) const OF_A_PICTURE: &str = "<!-- made by lidladder -->";

/// How every document begins. A line of a journal begins otherwise, and is none.
const OF_A_DOCUMENT: &str = "{\n  \"schema\": \"lidladder.";

/// A format that shows who wrote a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// A page for a browser.
    Page,
    /// A picture.
    Picture,
    /// A JSON document.
    Document,
}

impl Mark {
    /// The mark that a text carries, if lidladder wrote it; the beginning is enough.
    #[must_use]
    pub fn of(text: &str) -> Option<Self> {
        match text {
            page if page.starts_with("<!DOCTYPE html>") && page.contains(OF_A_PAGE) => Some(Self::Page),
            picture if picture.starts_with("<svg ") && picture.contains(OF_A_PICTURE) => Some(Self::Picture),
            document if document.starts_with(OF_A_DOCUMENT) => Some(Self::Document),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_others_wrote_has_no_mark() {
        let journal = "{\"schema\":\"lidladder.try/1\"}\n";
        for text in ["", "schema: 1\n", journal, "<!DOCTYPE html>\n<html>", "<svg ></svg>", "{\n  \"schema\": \"x\"\n}"]
        {
            assert_eq!(Mark::of(text), None, "{text}");
        }
        assert_eq!(Mark::of("{\n  \"schema\": \"lidladder.plan/1\","), Some(Mark::Document));
    }
}
