//! From what a file says to values that the computation may trust, with every problem on the way.

mod customer;
mod fallbacks;
mod helmets;
mod population;
mod shop;
mod sketch_rules;
mod tries;

pub use customer::{CustomerNotes, customer};
pub use fallbacks::{PlacedEdge, fallbacks};
pub use helmets::helmets;
pub use population::population;
pub use shop::{PlacedShop, shop};
pub use tries::tries;

use super::place::Place;
use super::raw::Number;
use super::yaml::Places;
use crate::diag::{Code, Diagnostic, SourceId, Span};
use crate::unit::{Id, Money};
use std::ops::RangeInclusive;

/// The version of the profile files that this program reads.
const SCHEMA: u32 = 1;

/// Collects problems of one file while its values are checked; rules name a path, never a column.
struct Checker<'t> {
    source: SourceId,
    places: Places<'t>,
    problems: Vec<Diagnostic>,
}

impl<'t> Checker<'t> {
    fn new(source: SourceId, places: Places<'t>, schema: u32) -> Self {
        let mut checker = Self { source, places, problems: Vec::new() };
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
        let problem = Diagnostic::error(Code(code), message).at(self.places.value(path), label).help(help);
        self.problems.push(problem);
    }

    fn span(&self, path: &str) -> Span {
        self.places.value(path)
    }

    /// A value's place, to be kept for problems that show only when files are held against each other.
    fn place(&self, path: impl Into<String>) -> Place {
        Place::new(self.source, path)
    }

    /// A number within bounds; `what` goes before "is 7, but must be". Returns the number all the same, so that
    /// the rest of the file is still looked at.
    fn number(&mut self, path: &str, number: Number, bounds: RangeInclusive<f64>, what: &str) -> f64 {
        if !bounds.contains(&number.0) {
            let message =
                format!("{what} is {}, but must be between {} and {}", number.0, bounds.start(), bounds.end());
            self.error("profile-bounds", path, message, "out of bounds", "check the unit and the decimal point");
        }
        number.0
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
        if text.is_empty() || text.chars().count() > 200 || text.chars().any(is_unprintable) {
            let message = "a text is 1 to 200 printable characters on one line";
            self.error("profile-text", path, message, "not plain text", "take out control characters and line breaks");
        }
        text
    }

    /// Reports the second and later of equal names, with the place of the first.
    fn unique(&mut self, what: &str, names: &[(String, String)]) {
        for (at, (name, path)) in names.iter().enumerate() {
            if let Some((_, first)) = names[..at].iter().find(|(earlier, _)| earlier == name) {
                let problem =
                    Diagnostic::error(Code("profile-duplicate"), format!("{what} `{name}` stands here twice"))
                        .at(self.span(path), "the second one")
                        .see(self.span(first), "the first one")
                        .help("give one of them another name, or take it out");
                self.problems.push(problem);
            }
        }
    }
}

/// Whether a character could do something to a terminal other than stand there.
fn is_unprintable(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

fn placeholder() -> Id {
    #[expect(clippy::unwrap_used, reason = "a constant that is a name")]
    Id::try_from("unnamed").unwrap()
}
