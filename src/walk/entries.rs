//! What a run at the chair is kept as, entry by entry; matches, checks and pauses put down and taken back.

use super::run::{Walk, sound};
use crate::cut::SectionKey;
use crate::measure::Length;
use serde::{Deserialize, Serialize};

/// A section that was cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Done {
    /// Which.
    pub key: SectionKey,
    /// What its long end came out at, as it was held, if that was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub came_out_at: Option<Length>,
    /// When it was marked done, as an ISO 8601 time.
    pub at: String,
    /// The target of its long end when it was marked done or measured: what the screen showed. None in
    /// walks of before this was kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<Length>,
    /// Put back on the screen by Back: it does not count as done until it is done again, but keeps its
    /// time and value.
    #[serde(default, skip_serializing_if = "is_false")]
    pub open: bool,
    /// It came out otherwise, but what it guides stays as planned.
    #[serde(default, skip_serializing_if = "is_false")]
    pub plan_kept: bool,
    /// It counts as done only because it was measured; nobody pressed Done yet.
    #[serde(default, skip_serializing_if = "is_false")]
    pub only_measured: bool,
}

/// A section that is to be cut to one length, to match its twin on the other side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Matched {
    /// Which.
    pub key: SectionKey,
    /// The length of its long end, as held.
    pub length: Length,
}

/// What was measured at one place of a check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Checked {
    /// The section of the check.
    pub key: SectionKey,
    /// The place within it, as [`super::CheckPlace::place`] counts.
    pub place: usize,
    /// How long the hair is there, as held.
    pub length: Length,
}

/// A time in which nobody cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pause {
    /// When it began, as an ISO 8601 time.
    pub from: String,
    /// When it ended; none while it lasts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands a reference over"
)]
pub(super) fn is_false(flag: &bool) -> bool {
    !*flag
}

impl Walk {
    /// Cuts a section to one length, to match its twin; or as planned again.
    pub fn match_to(&mut self, key: &SectionKey, length: Option<Length>) {
        self.matched.retain(|m| &m.key != key);
        self.matched.extend(length.map(|length| Matched {
            key: key.clone(),
            length,
        }));
    }

    /// The length that a section is cut to, to match its twin.
    pub fn matched(&self, key: &SectionKey) -> Option<Length> {
        let found = self.matched.iter().find(|m| &m.key == key);
        found.map(|m| m.length).filter(sound)
    }

    /// Puts down what was measured at a place of a check, or takes that back.
    pub fn check_down(&mut self, key: &SectionKey, place: usize, length: Option<Length>) {
        self.checked.retain(|c| &c.key != key || c.place != place);
        self.checked.extend(length.map(|length| Checked {
            key: key.clone(),
            place,
            length,
        }));
    }

    /// What was measured at a place of a check.
    pub fn checked_at(&self, key: &SectionKey, place: usize) -> Option<Length> {
        let mut all = self.checked.iter();
        let found = all.find(|c| &c.key == key && c.place == place);
        found.map(|c| c.length).filter(sound)
    }

    /// Begins a pause, if none lasts.
    pub fn pause(&mut self, now: &str) {
        if !self.is_paused() {
            self.pauses.push(Pause {
                from: now.to_owned(),
                to: None,
            });
        }
    }

    /// Ends the pause, if one lasts.
    pub fn go_on(&mut self, now: &str) {
        if let Some(pause) = self.pauses.last_mut()
            && pause.to.is_none()
        {
            pause.to = Some(now.to_owned());
        }
    }

    /// Whether a pause lasts.
    pub fn is_paused(&self) -> bool {
        self.pauses.last().is_some_and(|pause| pause.to.is_none())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::Side;

    #[test]
    fn pauses_matches_and_checks_are_put_down_and_taken_back() {
        let order = [1, 2, 3].map(|number| SectionKey {
            step: "side".to_owned(),
            side: Side::Left,
            number,
        });
        let mut walk = Walk::start("t0");
        let twelve = Some(Length::from_cm(12.0));
        walk.pause("t1");
        walk.pause("t2");
        assert!(walk.is_paused() && walk.pauses.len() == 1);
        walk.go_on("t3");
        walk.go_on("t4");
        assert_eq!(walk.pauses[0].to.as_deref(), Some("t3"));
        walk.match_to(&order[0], twelve);
        walk.match_to(&order[0], Some(Length::from_cm(13.0)));
        assert_eq!(walk.measured()[&order[0]].cm(), 13.0);
        walk.put_down(&order[0], twelve, None, "t5");
        assert_eq!(walk.measured()[&order[0]].cm(), 12.0);
        // As planned, and the plan was to match.
        walk.keep_plan(&order[0], true);
        assert_eq!(walk.measured()[&order[0]].cm(), 13.0);
        walk.match_to(&order[0], None);
        assert!(walk.measured().is_empty() && walk.keeps_plan(&order[0]));
        walk.check_down(&order[2], 1, twelve);
        assert_eq!(walk.checked_at(&order[2], 1), twelve);
        assert_eq!(walk.checked_at(&order[2], 0), None);
        let text = serde_json::to_string(&walk).unwrap();
        assert_eq!(serde_json::from_str::<Walk>(&text).unwrap(), walk);
        walk.check_down(&order[2], 1, None);
        assert!(walk.checked.is_empty());
        // Nothing is measured, so no plan is kept either.
        walk.keep_plan(&order[1], true);
        assert!(!walk.keeps_plan(&order[1]));
    }
}
