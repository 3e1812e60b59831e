//! One run through a plan.

use crate::cut::{Measured, Outcome, SectionKey};
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
}

/// One run at the chair: what is done, and which section is on the screen.
///
/// ```
/// use tautline::{cut, hair, head, plan, walk};
/// let plan = plan::built_in("soft-layers-face-frame").unwrap();
/// let head = head::Head::from_tapes(&head::Tapes::default()).unwrap();
/// let (hair, choices) = (hair::Hair::default(), plan::Choices::default());
/// let job = cut::Job { head: &head, hair: &hair, plan: &plan, choices: &choices };
/// let outcome = cut::cut(&job, &cut::Measured::new()).unwrap();
/// let order = walk::order(&outcome);
/// let mut run = walk::Walk::start("2026-11-25T09:00:00Z");
/// run.done(&order, "2026-11-25T09:05:00Z");
/// assert_eq!(run.current(&order), Some(1));
/// ```
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Walk {
    /// When it began, as an ISO 8601 time.
    pub started_at: String,
    /// When the last section was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finished_at: Option<String>,
    /// What is done, in the order in which it was.
    #[serde(default)]
    pub done: Vec<Done>,
    /// The section on the screen; the first one that is due if there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<SectionKey>,
}

/// The keys of a plan's sections in the order in which they are cut.
pub fn order(outcome: &Outcome) -> Vec<SectionKey> {
    outcome.sections.iter().map(|s| s.key.clone()).collect()
}

impl Walk {
    /// A run that begins now.
    pub fn start(now: &str) -> Self {
        Self {
            started_at: now.to_owned(),
            ..Self::default()
        }
    }

    /// Whether a section is done.
    pub fn is_done(&self, key: &SectionKey) -> bool {
        self.done.iter().any(|d| &d.key == key)
    }

    /// How many of these sections are done.
    pub fn count_done(&self, order: &[SectionKey]) -> usize {
        order.iter().filter(|key| self.is_done(key)).count()
    }

    /// The place in `order` of the section on the screen; none when all are done and none is looked
    /// at again.
    pub fn current(&self, order: &[SectionKey]) -> Option<usize> {
        let at = self
            .at
            .as_ref()
            .and_then(|key| order.iter().position(|k| k == key));
        at.or_else(|| order.iter().position(|key| !self.is_done(key)))
    }

    /// Marks the section on the screen done and goes on to the next one in order that is due; after
    /// the last of all, the run is finished.
    pub fn done(&mut self, order: &[SectionKey], now: &str) {
        let Some(place) = self.current(order) else {
            return;
        };
        let key = &order[place];
        if !self.is_done(key) {
            self.done.push(Done {
                key: key.clone(),
                came_out_at: None,
                at: now.to_owned(),
            });
        }
        let due = |key: &&SectionKey| !self.is_done(key);
        let next = order[place + 1..]
            .iter()
            .find(due)
            .or_else(|| order.iter().find(due));
        self.at = next.cloned();
        if next.is_none() {
            self.finished_at = Some(now.to_owned());
        }
    }

    /// Goes one section back. From the end it goes to the last section. Nothing is undone: a section
    /// that is done stays done, with what it came out at.
    pub fn back(&mut self, order: &[SectionKey]) {
        let place = self.current(order).unwrap_or(order.len());
        if let Some(before) = place.checked_sub(1) {
            self.at = order.get(before).cloned();
        }
    }

    /// Goes to one section.
    pub fn go_to(&mut self, key: &SectionKey) {
        self.at = Some(key.clone());
    }

    /// What a section came out at.
    pub fn came_out_at(&self, key: &SectionKey) -> Option<Length> {
        self.done
            .iter()
            .find(|d| &d.key == key)
            .and_then(|d| d.came_out_at)
    }

    /// Puts down what a section came out at, or takes that back; a section that was measured is
    /// done.
    pub fn put_down(&mut self, key: &SectionKey, length: Option<Length>, now: &str) {
        match self.done.iter_mut().find(|d| &d.key == key) {
            Some(done) => done.came_out_at = length,
            None if length.is_some() => {
                // The section stays on the screen although it is no longer due.
                self.at = Some(key.clone());
                self.done.push(Done {
                    key: key.clone(),
                    came_out_at: length,
                    at: now.to_owned(),
                });
            }
            None => {}
        }
    }

    /// Everything that was measured, for the fold to go on from.
    pub fn measured(&self) -> Measured {
        let done = self.done.iter();
        let mut measured = Measured::new();
        measured.extend(done.filter_map(|d| Some((d.key.clone(), d.came_out_at?))));
        measured
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::Side;

    fn keys() -> Vec<SectionKey> {
        (1..=3)
            .map(|number| SectionKey {
                step: "side".to_owned(),
                side: Side::Left,
                number,
            })
            .collect()
    }

    #[test]
    fn a_run_goes_forward_back_and_to_its_end() {
        let order = keys();
        let mut walk = Walk::start("t0");
        assert_eq!(walk.current(&order), Some(0));
        walk.back(&order);
        assert_eq!(walk.current(&order), Some(0));
        walk.done(&order, "t1");
        walk.done(&order, "t2");
        assert_eq!(walk.current(&order), Some(2));
        walk.back(&order);
        assert_eq!(walk.current(&order), Some(1));
        // Done again on a section that is done goes on to what is due, and counts once.
        walk.done(&order, "t3");
        assert_eq!(
            (walk.current(&order), walk.count_done(&order)),
            (Some(2), 2)
        );
        assert!(walk.finished_at.is_none());
        walk.done(&order, "t4");
        assert_eq!(
            (walk.current(&order), walk.finished_at.as_deref()),
            (None, Some("t4"))
        );
        walk.done(&order, "t5");
        assert_eq!(walk.finished_at.as_deref(), Some("t4"));
        walk.back(&order);
        assert_eq!(walk.current(&order), Some(2));
    }

    #[test]
    fn a_measured_section_is_done_and_stays_on_the_screen() {
        let order = keys();
        let mut walk = Walk::start("t0");
        walk.put_down(&order[0], Some(Length::from_cm(14.0)), "t1");
        assert_eq!(
            (walk.current(&order), walk.count_done(&order)),
            (Some(0), 1)
        );
        assert_eq!(walk.measured().len(), 1);
        walk.put_down(&order[0], None, "t2");
        assert!(walk.measured().is_empty() && walk.is_done(&order[0]));
        walk.put_down(&order[1], None, "t3");
        assert!(!walk.is_done(&order[1]));
    }

    #[test]
    fn it_is_the_same_after_storing() {
        let order = keys();
        let mut walk = Walk::start("t0");
        walk.put_down(&order[0], Some(Length::from_cm(14.5)), "t1");
        walk.done(&order, "t2");
        let text = serde_json::to_string(&walk).unwrap();
        assert_eq!(serde_json::from_str::<Walk>(&text).unwrap(), walk);
    }

    #[test]
    fn a_place_that_is_no_longer_in_the_plan_gives_way_to_what_is_due() {
        let order = keys();
        let mut walk = Walk::start("t0");
        walk.go_to(&SectionKey {
            step: "gone".to_owned(),
            side: Side::Left,
            number: 9,
        });
        assert_eq!(walk.current(&order), Some(0));
    }
}
