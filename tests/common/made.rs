//! A plan worked out, with the hair before and a walk, for the pictures of it.

use tautline::chart::{Along, AlongLine, AlongOf};
use tautline::cut::{Job, Measured, Outcome, SectionKey, before, cut};
use tautline::hair::Hair;
use tautline::head::{Head, Side};
use tautline::measure::Length;
use tautline::plan::{Choices, Plan};
use tautline::walk::{Tolerances, Walk, order};

/// A plan worked out on a head, and the hair before.
pub struct Made {
    pub head: Head,
    pub hair: Hair,
    pub plan: Plan,
    pub choices: Choices,
    pub before: Outcome,
    pub planned: Outcome,
}

impl Made {
    /// With hair and choices as they come.
    pub fn of(head: &Head, plan: Plan) -> Self {
        let (hair, choices) = (Hair::default(), Choices::default());
        let job = Job {
            head,
            hair: &hair,
            plan: &plan,
            choices: &choices,
        };
        let (before, planned) = (before(&job), cut(&job, &Measured::new()).unwrap());
        Self {
            head: head.clone(),
            hair,
            choices,
            before,
            planned,
            plan,
        }
    }

    /// What the fold takes.
    pub fn job(&self) -> Job<'_> {
        Job {
            head: &self.head,
            hair: &self.hair,
            plan: &self.plan,
            choices: &self.choices,
        }
    }

    /// The lengths along a line.
    pub fn along(&self, line: AlongLine, cut: Option<(&Walk, &Outcome)>) -> Along {
        self.along_within(line, cut, &Tolerances::default())
    }

    /// The same with tolerances of one's own.
    pub fn along_within(
        &self,
        line: AlongLine,
        cut: Option<(&Walk, &Outcome)>,
        tolerances: &Tolerances,
    ) -> Along {
        let of = AlongOf {
            job: &self.job(),
            before: &self.before,
            planned: &self.planned,
            cut,
            tolerances,
        };
        Along::new(&of, line).unwrap()
    }

    /// The first sections of a walk done, the left guide `cm` longer than planned.
    pub fn walked(&self, sections: usize, cm: f64) -> (Walk, Outcome) {
        let keys = order(&self.planned);
        let mut walk = Walk::start("2026-11-26T10:00:00Z");
        let mut measured = Measured::new();
        for key in keys.iter().take(sections) {
            let target = self.planned.section(key).map(|s| s.long());
            walk.done(&keys, target, "2026-11-26T10:01:00Z");
        }
        let first = self.planned.sections.iter().find(|s| s.cuts()).unwrap();
        let left = SectionKey {
            side: Side::Left,
            ..first.key.clone()
        };
        let first = self.planned.section(&left).unwrap_or(first);
        let came_out = Length::from_cm(first.long().cm() + cm);
        measured.insert(first.key.clone(), came_out);
        let real = cut(&self.job(), &measured).unwrap();
        (walk, real)
    }
}
