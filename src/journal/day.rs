//! A day of the calendar.

use jiff::civil::Date;
use std::fmt;

/// A day, written as 2026-03-14 (ISO 8601). No hour: a record needs none, and the less it says of a person the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// Why a text is no [`Day`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a day is written as year, month and day: 2026-03-14")]
pub struct BadDay;

impl Day {
    /// The day that the calendar calls so.
    ///
    /// # Errors
    ///
    /// Where there is no such day.
    pub fn new(year: i16, month: i8, day: i8) -> Result<Self, BadDay> {
        Date::new(year, month, day).map(Self).map_err(|_| BadDay)
    }

    /// So many days later.
    #[must_use]
    pub fn after(self, days: u32) -> Self {
        Self(self.0.saturating_add(jiff::Span::new().days(days)))
    }

    /// Days from this one to another; below 0 for an earlier one.
    #[must_use]
    pub fn until(self, other: Self) -> i32 {
        (other.0 - self.0).get_days()
    }
}

impl From<Date> for Day {
    fn from(date: Date) -> Self {
        Self(date)
    }
}

impl TryFrom<&str> for Day {
    type Error = BadDay;

    fn try_from(text: &str) -> Result<Self, BadDay> {
        let is_plain = text.len() == 10 && text.bytes().enumerate().all(|(at, b)| matches!(at, 4 | 7) == (b == b'-'));
        let date = text.parse().map_err(|_| BadDay)?;
        if is_plain { Ok(Self(date)) } else { Err(BadDay) }
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("2026-03-14")]
    #[case("2024-02-29")]
    fn a_day_is_read_and_written(#[case] text: &str) {
        assert_eq!(Day::try_from(text).unwrap().to_string(), text);
    }

    #[rstest]
    #[case("")]
    #[case("14.03.2026")]
    #[case("2026-02-29")]
    #[case("2026-3-14")]
    #[case("20260314")]
    #[case("2026-03-14T10:00")]
    #[case("+002026-03-14")]
    fn whatever_else_is_none(#[case] text: &str) {
        assert_eq!(Day::try_from(text), Err(BadDay));
    }

    #[test]
    fn days_are_counted_over_the_end_of_a_month() {
        assert_eq!(Day::new(2026, 2, 27).unwrap().after(3).to_string(), "2026-03-02");
    }
}
