//! One run through a plan.

use super::entries::{Checked, Done, Matched, Pause, is_false};
use crate::cut::{Measured, Outcome, SectionCut, SectionKey};
use crate::measure::{Length, storable};
use serde::{Deserialize, Serialize};

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
/// run.done(&order, Some(outcome.sections[0].long()), "2026-11-25T09:05:00Z");
/// assert_eq!(run.current(&order), Some(1));
/// // A wrong press is taken back in one.
/// run.back(&order);
/// assert_eq!((run.current(&order), run.count_done(&order)), (Some(0), 0));
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
    /// Sections that are cut to match their twins.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub matched: Vec<Matched>,
    /// What checks measured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checked: Vec<Checked>,
    /// Times in which nobody cut, in order; only the last may still last.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pauses: Vec<Pause>,
    /// Whether half of the usual time was called out already.
    #[serde(default, skip_serializing_if = "is_false")]
    pub half_told: bool,
}

/// Targets this close are one, cm: half of the finest that is typed. Judgement.
pub(super) const SAME: f64 = 0.05;

/// A target as it is kept: a document gives back no more digits than it is read with.
fn kept(target: Length) -> Length {
    Length::from_cm(storable(target.cm()))
}

/// Whether anybody can have put a length down: a stored number may be anything, and no screen shows that.
pub(super) fn sound(length: &Length) -> bool {
    (0.0..=LONGEST).contains(&length.cm())
}

/// Nobody types a longer length, cm (`measure::read_length`).
const LONGEST: f64 = 250.0;

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

    /// What was kept of a section, done or open.
    pub fn entry(&self, key: &SectionKey) -> Option<&Done> {
        self.done.iter().find(|d| &d.key == key)
    }

    fn entry_mut(&mut self, key: &SectionKey) -> Option<&mut Done> {
        self.done.iter_mut().find(|d| &d.key == key)
    }

    /// Whether a section is done. One that Back opened is not, until it is done again.
    pub fn is_done(&self, key: &SectionKey) -> bool {
        self.entry(key).is_some_and(|d| !d.open)
    }

    /// Whether anything was cut yet.
    pub fn has_cut(&self) -> bool {
        !self.done.is_empty()
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

    /// Marks the section on the screen done, cut to `target` as it stood there, and goes on to the next
    /// one in order that is due; after the last of all, the run is finished. A section that Back opened
    /// is only closed again: its time stays.
    pub fn done(&mut self, order: &[SectionKey], target: Option<Length>, now: &str) {
        let Some(place) = self.current(order) else {
            return;
        };
        let target = target.map(kept);
        let key = &order[place];
        // Who only looks at a section again finishes nothing.
        let closes = !self.is_done(key) || self.finished_at.is_none();
        match self.entry_mut(key) {
            Some(done) => {
                done.only_measured = false;
                // The plan may have changed meanwhile; hair that was cut only gets shorter.
                if done.open
                    && let (Some(old), Some(new)) = (done.target, target)
                    && new.cm() < old.cm() - SAME
                {
                    done.target = Some(new);
                }
                done.open = false;
            }
            None => self.done.push(Done {
                key: key.clone(),
                came_out_at: None,
                at: now.to_owned(),
                target,
                open: false,
                plan_kept: false,
                only_measured: false,
            }),
        }
        let due = |key: &&SectionKey| !self.is_done(key);
        let next = order[place + 1..]
            .iter()
            .find(due)
            .or_else(|| order.iter().find(due));
        self.at = next.cloned();
        if next.is_none() && closes {
            self.finished_at = Some(now.to_owned());
        }
    }

    /// Goes one section back and opens it, so that a wrong Done is taken back in one press: to the
    /// section from which Done led here, or else to the one before in order. What it came out at stays.
    /// From the end, the run is no longer finished.
    pub fn back(&mut self, order: &[SectionKey]) {
        let Some(before) = self.behind(order) else {
            return;
        };
        let key = &order[before];
        if let Some(done) = self.entry_mut(key) {
            done.open = true;
            self.finished_at = None;
        }
        self.at = Some(key.clone());
    }

    /// The place of the section that Back goes to; none at the beginning.
    pub fn behind(&self, order: &[SectionKey]) -> Option<usize> {
        let place = self.current(order).unwrap_or(order.len());
        let done = |i: &usize| self.is_done(&order[*i]);
        // Done skips what is done, so it led here from somewhere in the run of done sections before; or
        // from the last ones, if nothing was due after them and this is the first that is due.
        let run = (0..place).rev().take_while(done);
        let first = (0..order.len()).find(|i| !done(i)) == Some(place);
        let tail = (place..order.len()).rev().take_while(done);
        let from = run.chain(tail.filter(|_| first));
        let when = |i: &usize| self.done.iter().position(|d| d.key == order[*i]);
        from.max_by_key(when).or_else(|| place.checked_sub(1))
    }

    /// Goes to one section.
    pub fn go_to(&mut self, key: &SectionKey) {
        self.at = Some(key.clone());
    }

    /// What a section came out at.
    pub fn came_out_at(&self, key: &SectionKey) -> Option<Length> {
        self.entry(key).and_then(|d| d.came_out_at).filter(sound)
    }

    /// The target a section was cut to, as the screen showed it when it was done.
    pub fn target(&self, key: &SectionKey) -> Option<Length> {
        self.entry(key).and_then(|d| d.target).filter(sound)
    }

    /// What a section's long end was cut at: measured, or else the target that the screen showed; none if it
    /// is not cut yet. Walks of before targets were kept have only what the plan says `now`.
    pub fn cut_at(&self, key: &SectionKey, now: Option<Length>) -> Option<Length> {
        let target = || self.target(key).or(now).filter(|_| self.is_done(key));
        self.came_out_at(key).or_else(target)
    }

    /// Whether every section that cuts something is done.
    pub fn all_cut(&self, outcome: &Outcome) -> bool {
        let mut cutting = outcome.sections.iter().filter(|section| section.cuts());
        cutting.all(|section| self.is_done(&section.key))
    }

    /// Puts down what a section came out at, or takes that back. A section that was measured counts as
    /// done, but stays on the screen until Done is pressed; taken back, it is as before it was measured.
    pub fn put_down(
        &mut self,
        key: &SectionKey,
        length: Option<Length>,
        target: Option<Length>,
        now: &str,
    ) {
        let target = target.map(kept);
        if length.is_none() {
            let before = self.done.len();
            self.done.retain(|d| !(d.only_measured && &d.key == key));
            if self.done.len() < before {
                self.finished_at = None;
            }
        }
        match self.entry_mut(key) {
            Some(done) => {
                done.came_out_at = length;
                done.plan_kept &= length.is_some();
            }
            None if length.is_some() => {
                // The section stays on the screen although it is no longer due.
                self.at = Some(key.clone());
                self.done.push(Done {
                    key: key.clone(),
                    came_out_at: length,
                    at: now.to_owned(),
                    target,
                    open: false,
                    plan_kept: false,
                    only_measured: true,
                });
            }
            None => {}
        }
    }

    /// The same run had nothing of one section been measured: for what a measure changes.
    #[must_use]
    pub fn without(&self, key: &SectionKey) -> Self {
        let mut walk = self.clone();
        walk.put_down(key, None, None, "");
        walk
    }

    /// The length that a section is to be cut to: its twin's, where it is to match it; else that of the plan.
    pub fn to_cut(&self, section: &SectionCut) -> Length {
        self.matches(section).unwrap_or_else(|| section.long())
    }

    /// The length that a section is cut to, to match its twin; none either where its hair is too short for
    /// that now.
    pub fn matches(&self, section: &SectionCut) -> Option<Length> {
        let matched = self.matched(&section.key);
        matched.filter(|m| m.cm() <= section.most())
    }

    /// Leaves what a measured section guides as it was planned, or lets it follow again.
    pub fn keep_plan(&mut self, key: &SectionKey, keep: bool) {
        if let Some(done) = self.entry_mut(key) {
            done.plan_kept = keep && done.came_out_at.is_some();
        }
    }

    /// Whether what a section guides stays as planned although it came out otherwise.
    pub fn keeps_plan(&self, key: &SectionKey) -> bool {
        self.entry(key).is_some_and(|d| d.plan_kept)
    }

    /// What the fold goes on from: what sections came out at, open ones too, for their hair is cut,
    /// except where the plan is kept; else the lengths that match a twin.
    pub fn measured(&self) -> Measured {
        let mut measured = Measured::new();
        for matched in self.matched.iter().filter(|m| sound(&m.length)) {
            measured.insert(matched.key.clone(), matched.length);
        }
        for done in self.done.iter().filter(|d| !d.plan_kept) {
            if let Some(length) = done.came_out_at.filter(sound) {
                measured.insert(done.key.clone(), length);
            }
        }
        measured
    }

    /// The same with the targets that sections were cut to, where any of them is another than `outcome`, the
    /// fold of [`Walk::measured`], has now: a plan that was changed, or a guide that was measured late,
    /// never rewrites what is already cut. None if there is no such section.
    pub fn as_cut(&self, outcome: &Outcome) -> Option<Measured> {
        let mut measured = self.measured();
        let mut differs = false;
        // Where the plan is kept a section counts as cut to its target.
        let to_target = |d: &&Done| !d.open && (d.plan_kept || d.came_out_at.is_none());
        for done in self.done.iter().filter(to_target) {
            let Some(target) = done.target.filter(sound) else {
                continue;
            };
            let Some(section) = outcome.section(&done.key).filter(|s| s.cuts()) else {
                continue;
            };
            let now = self.to_cut(section);
            differs |= (now.cm() - target.cm()).abs() > SAME;
            // All of them, for one that differs may move another that agreed so far.
            measured.insert(done.key.clone(), target);
        }
        differs.then_some(measured)
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
        walk.done(&order, None, "t1");
        walk.done(&order, None, "t2");
        assert_eq!(walk.current(&order), Some(2));
        let before = walk.clone();
        walk.back(&order);
        assert_eq!(
            (walk.current(&order), walk.count_done(&order)),
            (Some(1), 1)
        );
        // Done again puts everything as it was, its time too.
        walk.done(&order, None, "t3");
        assert_eq!(walk, before);
        assert!(walk.finished_at.is_none());
        walk.done(&order, None, "t4");
        assert_eq!(
            (walk.current(&order), walk.finished_at.as_deref()),
            (None, Some("t4"))
        );
        walk.done(&order, None, "t5");
        assert_eq!(walk.finished_at.as_deref(), Some("t4"));
        walk.back(&order);
        assert_eq!(
            (walk.current(&order), walk.finished_at.as_deref()),
            (Some(2), None)
        );
        walk.done(&order, None, "t6");
        assert_eq!(walk.finished_at.as_deref(), Some("t6"));
    }

    #[test]
    fn back_goes_to_where_done_led_from() {
        let order = keys();
        let mut walk = Walk::start("t0");
        // The middle first, by hand; then Done on the first skips it.
        walk.go_to(&order[1]);
        walk.done(&order, None, "t1");
        assert_eq!(walk.current(&order), Some(2));
        walk.done(&order, None, "t2");
        assert_eq!(walk.current(&order), Some(0));
        // From the first that is due, back to the last that was done.
        walk.back(&order);
        assert_eq!(walk.current(&order), Some(2));
        walk.done(&order, None, "t3");
        walk.done(&order, None, "t4");
        assert_eq!(walk.current(&order), None);
        walk.back(&order);
        assert_eq!(walk.current(&order), Some(0));
    }

    #[test]
    fn a_measured_section_is_done_and_stays_on_the_screen() {
        let order = keys();
        let mut walk = Walk::start("t0");
        walk.put_down(&order[0], Some(Length::from_cm(14.0)), None, "t1");
        assert_eq!(
            (walk.current(&order), walk.count_done(&order)),
            (Some(0), 1)
        );
        assert_eq!(walk.measured().len(), 1);
        walk.put_down(&order[0], None, None, "t2");
        // Nobody pressed Done: it is due again.
        assert!(walk.measured().is_empty() && !walk.is_done(&order[0]));
        walk.done(&order, None, "t2");
        walk.put_down(&order[0], Some(Length::from_cm(14.0)), None, "t2");
        walk.put_down(&order[0], None, None, "t2");
        assert!(walk.is_done(&order[0]));
        walk.put_down(&order[1], None, None, "t3");
        assert!(!walk.is_done(&order[1]));
    }

    #[test]
    fn it_is_the_same_after_storing() {
        let order = keys();
        let mut walk = Walk::start("t0");
        walk.put_down(&order[0], Some(Length::from_cm(14.5)), None, "t1");
        walk.done(&order, None, "t2");
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
