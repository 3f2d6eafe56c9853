//! Where a value stands, kept as a path until somebody needs to see it.

use super::yaml::spans_of;
use crate::diag::{SourceId, Sources, Span};
use std::cmp::Ordering;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A value of a profile file, by the path to it.
#[derive(Debug, Clone)]
pub struct Place {
    source: SourceId,
    path: Arc<str>,
    number: usize,
    noted: Arc<Noted>,
}

/// The places of one file. The text is read once more when somebody asks for one, and then for all of them: there
/// may be thousands, and only problems need any.
#[derive(Debug, Default)]
pub(super) struct Noted {
    paths: Mutex<Vec<Arc<str>>>,
    spans: OnceLock<Vec<Span>>,
}

impl Place {
    /// Notes a place together with the others of the same file.
    pub(super) fn new(source: SourceId, path: impl Into<Arc<str>>, noted: &Arc<Noted>) -> Self {
        let path = path.into();
        // A list of paths is whole whoever left it.
        let mut paths = noted.paths.lock().unwrap_or_else(PoisonError::into_inner);
        paths.push(Arc::clone(&path));
        Self { source, path, number: paths.len() - 1, noted: Arc::clone(noted) }
    }

    /// The stretch of text. Reads the text once more, for all the places of the file.
    #[must_use]
    pub fn span(&self, sources: &Sources) -> Span {
        let text = &sources.get(self.source).text;
        let spans = self.noted.spans.get_or_init(|| {
            let paths = self.noted.paths.lock().unwrap_or_else(PoisonError::into_inner);
            spans_of(self.source, text, &paths)
        });
        // One that was noted after somebody asked is looked up alone.
        let own = || spans_of(self.source, text, std::slice::from_ref(&self.path)).pop();
        let whole = Span { source: self.source, start: 0, end: text.len() };
        spans.get(self.number).copied().or_else(own).unwrap_or(whole)
    }

    fn key(&self) -> (SourceId, &str) {
        (self.source, &self.path)
    }
}

impl PartialEq for Place {
    fn eq(&self, other: &Self) -> bool {
        self.key() == other.key()
    }
}

impl Eq for Place {}

impl PartialOrd for Place {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Place {
    fn cmp(&self, other: &Self) -> Ordering {
        self.key().cmp(&other.key())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_found_whenever_they_are_noted() {
        let mut sources = Sources::default();
        let source = sources.add("a.yaml", "a: [1, 22]\nb: 3\n");
        let noted = Arc::default();
        let [second, b] = ["a[1]", "b"].map(|path| Place::new(source, path, &noted));
        let text = |place: &Place| {
            let span = place.span(&sources);
            sources.get(source).text[span.start..span.end].to_owned()
        };
        assert_eq!([text(&second), text(&b)], ["22", "3"]);
        let late = Place::new(source, "a[0]", &noted);
        assert_eq!([text(&late), text(&second)], ["1", "22"]);
        assert!(late < second && second == Place::new(source, "a[1]", &Arc::default()));
    }
}
