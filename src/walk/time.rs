//! How long a walk takes, stage by stage, from the times that are kept with it.

use super::entries::Pause;
use super::run::{Walk, order};
use crate::cut::Outcome;
use crate::plan::Plan;
use crate::words::tr;

/// A longer gap than this in which no pause was noted is somebody being away, seconds. Judgement.
const AWAY: u64 = 15 * 60;

/// The time of one step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// The plan's step, by its place.
    pub step: usize,
    /// How long was spent on it so far, seconds.
    pub seconds: u64,
    /// How many of its sections are done.
    pub done: usize,
    /// How many it has, both sides.
    pub sections: usize,
    /// How long it usually takes, seconds: the plan's minutes shared out by sections. None if nobody said.
    pub usual: Option<u64>,
}

/// How long a walk took so far.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spent {
    /// All of it, without pauses and being away, seconds.
    pub total: u64,
    /// The steps that have sections, in order.
    pub stages: Vec<Stage>,
    /// Whether half of the usual time is over. Licensing exams call the time quietly about half-way; no
    /// more is made of it here either.
    pub half: bool,
    /// How long the plan usually takes, seconds; none if nobody said.
    pub planned: Option<u64>,
}

impl Spent {
    /// The time of a walk, up to `now`, an ISO 8601 time. The gap before each Done counts for the step of
    /// its section, the one that runs for the section on the screen. Times that don't read count for
    /// nothing, and a clock that was put back takes nothing away.
    pub fn of(walk: &Walk, plan: &Plan, outcome: &Outcome, now: &str) -> Self {
        let keys = order(outcome);
        let planned = Some(u64::from(plan.minutes) * 60).filter(|seconds| *seconds > 0);
        let mut stages: Vec<Stage> = Vec::new();
        for section in &outcome.sections {
            let at = match stages.iter().position(|s| s.step == section.step) {
                Some(at) => at,
                None => {
                    stages.push(Stage {
                        step: section.step,
                        seconds: 0,
                        done: 0,
                        sections: 0,
                        usual: None,
                    });
                    stages.len() - 1
                }
            };
            stages[at].sections += 1;
            stages[at].done += usize::from(walk.is_done(&section.key));
        }
        for stage in &mut stages {
            let share = |all| all * stage.sections as u64 / keys.len().max(1) as u64;
            stage.usual = planned.map(share);
        }

        // What ends when, and in which step; kept in order as it grows.
        let mut ends: Vec<(u64, Option<usize>)> = Vec::new();
        let mut end = |at: u64, step: Option<usize>| {
            let place = ends.partition_point(|(other, _)| *other <= at);
            ends.insert(place, (at, step));
        };
        let step_of = |key| outcome.section(key).map(|section| section.step);
        for done in &walk.done {
            if let Some(at) = seconds(&done.at) {
                end(at, step_of(&done.key));
            }
        }
        let due = walk.current(&keys).map(|place| &keys[place]);
        if walk.finished_at.is_none()
            && let (Some(key), Some(at)) = (due, seconds(now))
        {
            end(at, step_of(key));
        }

        let pauses = stretches(&walk.pauses);
        let mut total = 0;
        let mut from = seconds(&walk.started_at);
        for (to, step) in ends {
            let gap = from.map_or(0, |from| worked(&pauses, from, to));
            from = Some(from.map_or(to, |from| from.max(to)));
            total += gap;
            if let Some(stage) = stages.iter_mut().find(|s| Some(s.step) == step) {
                stage.seconds += gap;
            }
        }
        Self {
            total,
            stages,
            half: planned.is_some_and(|planned| total * 2 >= planned),
            planned,
        }
    }
}

/// When pauses began and ended, seconds; one that still lasts ends with time itself. Read once for the whole
/// walk, each beginning where the last one ended at the earliest, so that no minute is taken off twice. Those
/// that don't read, or lasted no time, are left out.
fn stretches(pauses: &[Pause]) -> Vec<(u64, u64)> {
    let mut read: Vec<(u64, u64)> = Vec::new();
    for pause in pauses {
        let last = read.last().map_or(0, |(_, ends)| *ends);
        let begins = seconds(&pause.from).map(|at| at.max(last));
        let ends = pause.to.as_ref().map_or(Some(u64::MAX), |at| seconds(at));
        if let (Some(begins), Some(ends)) = (begins, ends)
            && begins < ends
        {
            read.push((begins, ends));
        }
    }
    read
}

/// The seconds between two times that were spent at work.
fn worked(pauses: &[(u64, u64)], from: u64, to: u64) -> u64 {
    let gap = to.saturating_sub(from);
    let mut paused = 0;
    // They are in order: a damaged walk may hold thousands.
    let first = pauses.partition_point(|(_, ends)| *ends <= from);
    for (begins, ends) in &pauses[first..] {
        if *begins >= to {
            break;
        }
        paused += (*ends).min(to).saturating_sub((*begins).max(from));
    }
    if paused == 0 && gap > AWAY {
        return 0;
    }
    gap.saturating_sub(paused)
}

/// A time as a person reads it: `12 min`, `1 h 05`. Begun minutes don't count.
pub fn clock(seconds: u64) -> String {
    let minutes = seconds / 60;
    if minutes < 60 {
        tr!("{minutes} min", minutes)
    } else {
        format!("{} h {:02}", minutes / 60, minutes % 60)
    }
}

/// Seconds since 1970 of a time such as `2026-11-25T09:05:00.000Z`, as browsers write it; parts of a
/// second don't count. None if it does not read. Our own reader: one fixed form takes less code than a
/// library that reads them all.
pub(super) fn seconds(time: &str) -> Option<u64> {
    let part = |from: usize, to: usize| {
        let text = time.get(from..to)?;
        let digits = text.bytes().all(|b| b.is_ascii_digit());
        if digits {
            text.parse::<u64>().ok()
        } else {
            None
        }
    };
    let marks = [(4, b'-'), (7, b'-'), (10, b'T'), (13, b':'), (16, b':')];
    let bytes = time.as_bytes();
    if !time.ends_with('Z') || marks.iter().any(|&(at, mark)| bytes.get(at) != Some(&mark)) {
        return None;
    }
    let (year, month, day) = (part(0, 4)?, part(5, 7)?, part(8, 10)?);
    let (hour, minute, second) = (part(11, 13)?, part(14, 16)?, part(17, 19)?);
    let sound = year >= 1970
        && (1..=12).contains(&month)
        && (1..=31).contains(&day)
        && hour < 24
        && minute < 60
        && second <= 60;
    if !sound {
        return None;
    }
    // Years begin in March, so that the leap day is a year's last.
    let (year, month) = if month > 2 {
        (year, month - 3)
    } else {
        (year - 1, month + 9)
    };
    let leaps = year / 4 - year / 100 + year / 400;
    // 719,468 days from 1 March of the year 0 to 1970.
    let days = (365 * year + leaps + (153 * month + 2) / 5 + day - 1).checked_sub(719_468)?;
    Some(((days * 24 + hour) * 60 + minute) * 60 + second)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Unix times that are known by heart: the billennium, twice that, and a leap day.
    #[test]
    fn times_are_read_as_browsers_write_them() {
        for (time, unix) in [
            ("1970-01-01T00:00:00Z", 0),
            ("2001-09-09T01:46:40.000Z", 1_000_000_000),
            ("2033-05-18T03:33:20Z", 2_000_000_000),
            ("2000-02-29T12:00:00.999Z", 951_825_600),
            ("2000-03-01T00:00:00Z", 951_868_800),
        ] {
            assert_eq!(seconds(time), Some(unix), "{time}");
        }
        for time in [
            "",
            "t1",
            "2026-11-25",
            "2026-13-01T00:00:00Z",
            "2026-01-01T24:00:00Z",
            "1969-12-31T23:59:59Z",
            "2026-01-01T00:00:00",
            "2026-01-0\u{e9}T00:00:00Z",
            "+026-01-01T00:00:00Z",
        ] {
            assert_eq!(seconds(time), None, "{time}");
        }
    }

    #[test]
    fn times_are_shown_in_minutes() {
        let shown = [0, 59, 60, 12 * 60 + 59, 3600, 65 * 60].map(clock);
        let wanted = ["0 min", "0 min", "1 min", "12 min", "1 h 00", "1 h 05"];
        assert_eq!(shown, wanted);
    }

    #[test]
    fn pauses_and_being_away_do_not_count() {
        let pause = |from: &str, to: Option<&str>| Pause {
            from: format!("2026-01-01T{from}Z"),
            to: to.map(|to| format!("2026-01-01T{to}Z")),
        };
        let worked = |pauses: &[Pause], from, to| worked(&stretches(pauses), from, to);
        let day = seconds("2026-01-01T00:00:00Z").unwrap();
        let (from, to) = (day + 600, day + 1200);
        assert_eq!(worked(&[], from, to), 600);
        // A clock that was put back.
        assert_eq!(worked(&[], to, from), 0);
        let half = [pause("00:12:00", Some("00:17:00"))];
        assert_eq!(worked(&half, from, to), 300);
        // It began before, or lasts still.
        assert_eq!(
            worked(&[pause("00:00:00", Some("00:12:00"))], from, to),
            480
        );
        assert_eq!(worked(&[pause("00:19:00", None)], from, to), 540);
        assert_eq!(worked(&[pause("later", None)], from, to), 600);
        assert_eq!(worked(&[], day, day + AWAY), AWAY);
        assert_eq!(worked(&[], day, day + AWAY + 1), 0);
        assert_eq!(worked(&half, day, day + 1200), 900);
    }
}
