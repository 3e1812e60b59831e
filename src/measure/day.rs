//! Days of the calendar.

use crate::words::{noted, tr};
use std::fmt;
use time::{Date, Month};

const MONTHS: [&str; 12] = [
    noted("January"),
    noted("February"),
    noted("March"),
    noted("April"),
    noted("May"),
    noted("June"),
    noted("July"),
    noted("August"),
    noted("September"),
    noted("October"),
    noted("November"),
    noted("December"),
];

/// A day of the calendar.
///
/// ```
/// use tautline::measure::Day;
/// let day = Day::read("2026-11-25T09:05:00.000Z").unwrap();
/// assert_eq!(day.after_days(42).to_string(), "2027-01-06");
/// assert_eq!(day.until(Day::read("2026-12-25").unwrap()), 30);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(Date);

impl Day {
    /// The day that an ISO 8601 day or time begins with, of the years 1900 to 2200; none if it does not
    /// read.
    pub fn read(text: &str) -> Option<Self> {
        let part = |from: usize, to: usize| {
            let digits = text.get(from..to)?;
            let sound = digits.bytes().all(|b| b.is_ascii_digit());
            sound.then(|| digits.parse::<u16>().ok()).flatten()
        };
        let bytes = text.as_bytes();
        let marks = bytes.get(4) == Some(&b'-') && bytes.get(7) == Some(&b'-');
        let ends = matches!(bytes.get(10), None | Some(b'T'));
        if !marks || !ends {
            return None;
        }
        let year = i32::from(part(0, 4)?);
        if !(1900..=2200).contains(&year) {
            return None;
        }
        let month = Month::try_from(u8::try_from(part(5, 7)?).ok()?).ok()?;
        let day = u8::try_from(part(8, 10)?).ok()?;
        Date::from_calendar_date(year, month, day).ok().map(Self)
    }

    /// So many days later; earlier if below zero. Past the calendar's end it stays where it is.
    #[must_use]
    pub fn after_days(self, days: i64) -> Self {
        let to = i64::from(self.0.to_julian_day()).saturating_add(days);
        let to = i32::try_from(to)
            .ok()
            .and_then(|to| Date::from_julian_day(to).ok());
        to.map_or(self, Self)
    }

    /// How many days it is until another; below zero if that is earlier.
    pub fn until(self, other: Self) -> i64 {
        i64::from(other.0.to_julian_day()) - i64::from(self.0.to_julian_day())
    }

    /// As a person reads it: `25 November 2026`.
    pub fn said(self) -> String {
        let (year, month, day) = self.parts();
        let month = MONTHS.get(usize::from(month).wrapping_sub(1));
        let month = month.map_or("", |month| tr(month));
        tr!("{day} {month} {year}", day, month, year)
    }

    /// Year, month from 1, day from 1.
    pub fn parts(self) -> (i32, u8, u8) {
        (self.0.year(), self.0.month().into(), self.0.day())
    }
}

/// As ISO 8601 writes it.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.parts();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_day_does_not_read() {
        for text in [
            "",
            "2026",
            "2026-13-01",
            "2026-02-29",
            "2026-1-01",
            "20261101",
            "2026-11-25x",
            "+026-11-25",
            "0000-01-01",
            "9999-01-01",
            "2026-11-00",
            "２０２６-11-25",
        ] {
            assert_eq!(Day::read(text), None, "{text}");
        }
        assert_eq!(Day::read("2028-02-29").unwrap().to_string(), "2028-02-29");
    }
}
