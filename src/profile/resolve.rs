//! From what a file says to values that the computation may trust, with every problem on the way.

mod away_rules;
mod buying_rules;
mod customer;
mod fallbacks;
mod helmets;
mod learning_rules;
mod pad_rules;
mod population;
mod practice_rules;
mod shop;
mod sketch_rules;
mod tries;

pub use customer::{CustomerNotes, customer};
pub use fallbacks::{Rules, Unclear, fallbacks};
pub use helmets::{Family, helmets};
pub use population::population;
pub use shop::shop;
pub use tries::tries;

use super::bounds::{SCHEMA, TEXT_LENGTH};
use super::place::{Place, Placed};
use super::raw::Number;
use super::yaml::{self, Document, Places};
use crate::diag::{Code, Diagnostic, SourceId, Span, in_order, is_full, is_invisible, note};
use crate::unit::{Currency, Id, Money, plain};
use std::ops::RangeInclusive;

/// What a file says, as far as it can be read, and everything that is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Read<T> {
    /// `None` where nothing of it can be used. Where only a part can't be, a harmless value stands in its place, and
    /// one of the problems lies there: without problems it may be trusted, with some it is for looking further.
    pub value: Option<T>,
    /// The problems, in order of place.
    pub problems: Vec<Diagnostic>,
}

impl<T> Read<T> {
    /// The value where there was no problem, all problems otherwise.
    ///
    /// # Errors
    ///
    /// The problems.
    pub fn trusted(self) -> Result<T, Vec<Diagnostic>> {
        match self.value {
            Some(value) if self.problems.is_empty() => Ok(value),
            _ => Err(self.problems),
        }
    }
}

/// Collects problems of one file while its values are checked; rules name a path, never a column.
struct Checker<'t> {
    source: SourceId,
    places: Places<'t>,
    /// What was wrong before any value was looked at.
    known: Vec<Diagnostic>,
    problems: Vec<Diagnostic>,
}

/// Checks what a document says with a function for its type.
fn resolve<'t, R, T>(
    source: SourceId,
    document: Document<'t, R>,
    schema: impl Fn(&R) -> u32,
    make: impl FnOnce(&mut Checker<'t>, R) -> Option<T>,
) -> Read<T> {
    let Document { value, places, problems } = document;
    let Some(raw) = value else { return Read { value: None, problems } };
    let mut checker = Checker { source, places, known: problems, problems: Vec::new() };
    checker.schema(schema(&raw));
    let value = make(&mut checker, raw);
    checker.finish(value)
}

impl<'t> Checker<'t> {
    fn schema(&mut self, schema: u32) {
        if schema != SCHEMA {
            let message = format!("this file says schema {schema}, and this program reads schema {SCHEMA}");
            self.error("profile-schema", "schema", message, "another version", "write `schema: 1`");
        }
    }

    /// Together with what was known before, except for words about what only stands in for something unreadable.
    fn finish<T>(mut self, value: Option<T>) -> Read<T> {
        let known: Vec<Span> = self.known.iter().filter_map(|problem| Some(problem.place.as_ref()?.span)).collect();
        let is_new = |problem: &Diagnostic| {
            problem.place.as_ref().is_none_or(|place| !known.iter().any(|known| known.holds_start_of(place.span)))
        };
        self.problems.retain(is_new);
        self.known.append(&mut self.problems);
        Read { value, problems: in_order(self.known) }
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

    /// Something that belongs to another shell, with the place where it is defined.
    fn foreign(&mut self, code: Code, path: &str, there: &str, (message, help): (&str, &str)) {
        let there = self.span(there);
        self.note(path, |span| {
            Diagnostic::error(code, message).at(span, "of another shell").see(there, "it is defined here").help(help)
        });
    }

    fn span(&self, path: &str) -> Span {
        self.places.value(path)
    }

    /// A value together with its place, for problems that show only when files are held against each other.
    fn placed<T>(&self, value: T, path: impl Into<String>) -> Placed<T> {
        Placed { value, place: Place::new(self.source, path) }
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
            self.error("profile-price", path, fault.to_string(), "not a price", "write it like 389.00");
            Money::default()
        })
    }

    /// A name; the nearest good one takes the place of a bad one, so that whatever names it is still looked at.
    fn id(&mut self, path: &str, text: String) -> Id {
        Id::try_from(text.as_str()).unwrap_or_else(|fault| {
            self.error("profile-name", path, fault.to_string(), "not a name", "use letters, digits and single hyphens");
            Id::nearest_to(&text)
        })
    }

    /// A text for people: one line without control characters, and not too long.
    fn text(&mut self, path: &str, text: String) -> String {
        let (least, most) = TEXT_LENGTH.into_inner();
        let length = text.chars().count();
        if !(least..=most).contains(&length) || text.chars().any(is_invisible) {
            let message = format!("a text is {least} to {most} printable characters on one line");
            let help = match length {
                _ if length < least => "write something here",
                _ if length > most => "shorten it",
                _ => "take out control characters and line breaks",
            };
            self.error("profile-text", path, message, "not plain text", help);
        }
        text
    }

    /// Reports the second and later of equal names, with the place of the first. Options are typed in any case, so `m`
    /// is the same name as `M`.
    fn unique(&mut self, what: &str, names: &[(String, String)]) {
        for (at, (name, path)) in names.iter().enumerate() {
            if let Some((_, first)) = names[..at].iter().find(|(earlier, _)| earlier.eq_ignore_ascii_case(name)) {
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

fn currency(check: &mut Checker<'_>, text: &str) -> Currency {
    Currency::try_from(text.to_owned()).unwrap_or_else(|fault| {
        check.error("profile-currency", "currency", fault, "not a currency", "write for example EUR");
        #[expect(clippy::unwrap_used, reason = "the code of ISO 4217 for no currency")]
        Currency::try_from("XXX".to_owned()).unwrap()
    })
}

/// A text as it stands in a message: short, and without anything invisible.
fn quoted(text: &str) -> String {
    yaml::visible(text)
}
