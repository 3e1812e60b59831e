//! A day to return, as a file that a calendar takes: RFC 5545.

use crate::measure::Day;
use ics::parameters::Value;
use ics::properties::{Categories, DtStart, Summary, Transp};
use ics::{Event, ICalendar, escape_text};

/// A haircut that takes a day, for a calendar: `title` as the calendar shows it, `id` a name that no other
/// has, `now` an ISO 8601 time in UTC.
///
/// ```
/// use tautline::{book::calendar, measure::Day};
/// let day = Day::read("2026-12-28").unwrap();
/// let text = calendar("19a", day, "Haircut: Straight fringe", "2026-11-25T09:05:00.000Z");
/// assert!(text.contains("DTSTART;VALUE=DATE:20261228\r\n"));
/// assert!(text.contains("SUMMARY:Haircut: Straight fringe\r\n"));
/// ```
pub fn calendar(id: &str, day: Day, title: &str, now: &str) -> String {
    let date = |day: Day| {
        let (year, month, day) = day.parts();
        format!("{year:04}{month:02}{day:02}")
    };
    // A time with no day in it is stamped with the day itself: a stamp is obligatory.
    let stamped = Day::read(now).unwrap_or(day);
    let time: String = now
        .split_once('T')
        .map_or("", |(_, time)| time)
        .chars()
        .take_while(|c| *c != '.' && *c != 'Z')
        .filter(char::is_ascii_digit)
        .collect();
    let time = if time.len() == 6 { &time } else { "000000" };
    let plain: String = title
        .chars()
        .map(|c| if c.is_control() && c != '\n' { ' ' } else { c })
        .collect();
    let mut event = Event::new(
        // Globally unique by the id, which is made of time and chance (3.8.4.7).
        format!("{id}-{}@tautline", date(day)),
        format!("{}T{time}Z", date(stamped)),
    );
    let mut start = DtStart::new(date(day));
    start.add(Value::DATE);
    event.push(start);
    event.push(Summary::new(escape_text(plain)));
    // Nobody is busy all day for a haircut.
    event.push(Transp::transparent());
    event.push(Categories::new("HAIRCUT"));
    let mut calendar = ICalendar::new("2.0", "-//Tautline//EN");
    calendar.add_event(event);
    calendar.to_string()
}
