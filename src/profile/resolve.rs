//! From what a file says to values that the computation may trust, with every problem on the way.

mod customer;
mod fallbacks;
mod helmets;
mod population;
mod shop;

pub use customer::{CustomerNotes, customer};
pub use fallbacks::{PlacedEdge, fallbacks};
pub use helmets::helmets;
pub use population::population;
pub use shop::{PlacedShop, shop};

use super::place::{Noted, Place};
use super::raw::Number;
use super::yaml::{self, Places};
use crate::diag::{Code, Diagnostic, SourceId, Span, is_full, is_invisible, note};
use crate::unit::{Id, Money, plain};
use std::ops::RangeInclusive;
use std::sync::Arc;

/// The version of the profile files that this program reads.
const SCHEMA: u32 = 1;

/// Collects problems of one file while its values are checked; rules name a path, never a column.
struct Checker<'t> {
    source: SourceId,
    places: Places<'t>,
    noted: Arc<Noted>,
    problems: Vec<Diagnostic>,
}

impl<'t> Checker<'t> {
    fn new(source: SourceId, places: Places<'t>, schema: u32) -> Self {
        let mut checker = Self { source, places, noted: Arc::default(), problems: Vec::new() };
        if schema != SCHEMA {
            let message = format!("this file says schema {schema}, and this program reads schema {SCHEMA}");
            checker.error("profile-schema", "schema", message, "another version", "write `schema: 1`");
        }
        checker
    }

    /// The value where there was no problem, all problems otherwise.
    fn finish<T>(self, value: T) -> Result<T, Vec<Diagnostic>> {
        if self.problems.is_empty() { Ok(value) } else { Err(self.problems) }
    }

    fn error(&mut self, code: &'static str, path: &str, message: impl Into<String>, label: &str, help: &str) {
        self.note(path, |span| Diagnostic::error(Code(code), message).at(span, label).help(help));
    }

    /// Notes a problem at a path, as long as any more are told.
    fn note(&mut self, path: &str, problem: impl FnOnce(Span) -> Diagnostic) {
        if !is_full(&self.problems) {
            let span = self.places.value(path);
            note(&mut self.problems, || problem(span));
        }
    }

    fn span(&self, path: &str) -> Span {
        self.places.value(path)
    }

    /// A value's place, to be kept for problems that show only when files are held against each other.
    fn place(&self, path: impl Into<String>) -> Place {
        Place::new(self.source, path.into(), &self.noted)
    }

    /// Refuses a list that is longer than anybody needs, and forgets what is too much, so that nothing takes long.
    fn bounded<T>(&mut self, path: &str, list: &mut Vec<T>, most: usize, what: &str) {
        if list.len() > most {
            let message = format!("here are {} {what}, but at most {most} are read", list.len());
            self.error("profile-too-many", path, message, "too many", "leave out what no customer is shown");
            list.truncate(most);
        }
    }

    /// A number within bounds; `what` goes before "is 7, but must be". Returns the number all the same, so that
    /// the rest of the file is still looked at.
    fn number(&mut self, path: &str, number: Number, bounds: RangeInclusive<f64>, what: &str) -> f64 {
        if !bounds.contains(&number.0) {
            let message =
                format!("{what} is {}, but must be between {} and {}", plain(number.0), bounds.start(), bounds.end());
            self.error("profile-bounds", path, message, "out of bounds", "check the unit and the decimal point");
        }
        // Nothing less than 0, which is written -0, would show as that.
        number.0 + 0.0
    }

    fn money(&mut self, path: &str, number: Number) -> Money {
        Money::try_from(number.0).unwrap_or_else(|fault| {
            self.error("profile-price", path, fault.to_string(), "not a price", "write it as 389.00");
            Money::default()
        })
    }

    /// A name; a placeholder takes the place of a bad one, so that the rest of the file is still looked at.
    fn id(&mut self, path: &str, text: String) -> Id {
        Id::try_from(text).unwrap_or_else(|fault| {
            self.error("profile-name", path, fault.to_string(), "not a name", "use letters, digits and single hyphens");
            placeholder()
        })
    }

    /// A text for people: one line without control characters, at most 200 characters.
    fn text(&mut self, path: &str, text: String) -> String {
        if text.is_empty() || text.chars().count() > 200 || text.chars().any(is_invisible) {
            let message = "a text is 1 to 200 printable characters on one line";
            self.error("profile-text", path, message, "not plain text", "take out control characters and line breaks");
        }
        text
    }

    /// Reports the second and later of equal names, with the place of the first.
    fn unique(&mut self, what: &str, names: &[(String, String)]) {
        for (at, (name, path)) in names.iter().enumerate() {
            if let Some((_, first)) = names[..at].iter().find(|(earlier, _)| earlier == name) {
                let (name, first) = (quoted(name), self.span(first));
                self.note(path, |span| {
                    Diagnostic::error(Code("profile-duplicate"), format!("{what} `{name}` stands here twice"))
                        .at(span, "the second one")
                        .see(first, "the first one")
                        .help("give one of them another name, or take it out")
                });
            }
        }
    }
}

/// A text as it stands in a message: short, and without anything invisible.
fn quoted(text: &str) -> String {
    yaml::visible(text)
}

fn placeholder() -> Id {
    #[expect(clippy::unwrap_used, reason = "a constant that is a name")]
    Id::try_from("unnamed").unwrap()
}
