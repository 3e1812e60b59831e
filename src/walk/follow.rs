//! What a measured guide changes for the sections after it.

use super::run::{SAME, Walk};
use crate::cut::{CutError, Job, Outcome, SectionCut, SectionKey, cut_on};
use crate::measure::{Length, Unit};
use crate::words::tr;

/// A section whose target moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// Which.
    pub key: SectionKey,
    /// Its name.
    pub name: String,
    /// The target of its long end before.
    pub from: Length,
    /// The target of its long end now.
    pub to: Length,
}

/// What a measured guide changes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Follow {
    /// The sections still to be cut whose targets moved, in order.
    pub moved: Vec<Moved>,
    /// How many sections still to be cut can't go on from it, because too little is left to be held as
    /// their step says: they stay as planned.
    pub unheld: usize,
}

/// The plan as a walk would go on had nothing of one section been measured: nothing is rewritten that is cut
/// already. `outcome` is the plan as it goes on now.
///
/// # Errors
/// [`CutError`] with a sentence.
pub fn without(
    job: &Job<'_>,
    outcome: &Outcome,
    walk: &Walk,
    key: &SectionKey,
) -> Result<Outcome, CutError> {
    let walk = walk.without(key);
    let planned = cut_on(job, outcome, &walk.measured())?;
    match walk.as_cut(&planned) {
        Some(as_cut) => cut_on(job, &planned, &as_cut),
        None => Ok(planned),
    }
}

/// A target that is no longer the plan's, because an earlier section was measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Since {
    /// The target of the long end as it was planned before the first cut.
    pub planned: Length,
    /// The same as it goes on now.
    pub now: Length,
    /// The name of the nearest earlier section that it follows; none where several move it only together.
    pub follows: Option<String>,
}

/// Why a section's target is not that of the plan; none where it is, or where the section itself was
/// measured or is to match its twin. `planned` is the plan with nothing measured, `outcome` as it goes on now.
///
/// # Errors
/// [`CutError`] with a sentence.
pub fn since(
    job: &Job<'_>,
    planned: &Outcome,
    outcome: &Outcome,
    walk: &Walk,
    key: &SectionKey,
) -> Result<Option<Since>, CutError> {
    let long = |of: &Outcome| of.section(key).map(SectionCut::long);
    let apart = |a: Length, b: Length| (a.cm() - b.cm()).abs() >= SAME;
    let (Some(was), Some(now)) = (long(planned), long(outcome)) else {
        return Ok(None);
    };
    let own = walk.came_out_at(key).is_some() || walk.matched(key).is_some();
    if own || !apart(was, now) {
        return Ok(None);
    }
    let measured = walk.measured();
    let earlier = outcome.sections.iter().take_while(|s| &s.key != key);
    let earlier: Vec<_> = earlier.filter(|s| measured.contains_key(&s.key)).collect();
    let mut follows = None;
    for section in earlier.into_iter().rev() {
        let other = without(job, outcome, walk, &section.key)?;
        if long(&other).is_some_and(|other| apart(other, now)) {
            follows = Some(section.section.name.clone());
            break;
        }
    }
    Ok(Some(Since {
        planned: was,
        now,
        follows,
    }))
}

impl Since {
    /// It in one line, as the lengths are shown in the unit; none where they are shown alike.
    pub fn said(&self, unit: Unit) -> Option<String> {
        let change = self.planned.change_shown(self.now, unit);
        if change == Length::ZERO {
            return None;
        }
        let size = Length::from_cm(change.cm().abs()).shown(unit);
        let planned = self.planned.shown(unit);
        let longer = change > Length::ZERO;
        Some(match (longer, &self.follows) {
            (true, Some(name)) => tr!(
                "{size} longer, follows “{name}”. Planned {planned}.",
                size,
                name,
                planned
            ),
            (false, Some(name)) => tr!(
                "{size} shorter, follows “{name}”. Planned {planned}.",
                size,
                name,
                planned
            ),
            (true, None) => tr!(
                "{size} longer, after what was measured. Planned {planned}.",
                size,
                planned
            ),
            (false, None) => tr!(
                "{size} shorter, after what was measured. Planned {planned}.",
                size,
                planned
            ),
        })
    }
}

/// The sections after `from` that are not done and whose targets differ between two folds of one plan:
/// `before` [`without`] what was measured of `from`, `after` with it.
pub fn follow(before: &Outcome, after: &Outcome, walk: &Walk, from: &SectionKey) -> Follow {
    let later = after.sections.iter().skip_while(|s| &s.key != from).skip(1);
    let due = later.filter(|s| s.cuts() && !walk.is_done(&s.key));
    let held = |section: &&SectionCut| {
        let own = |was: &SectionCut| before.follows(was);
        after.follows(section) || !before.section(&section.key).is_some_and(own)
    };
    let unheld = due.clone().filter(|section| !held(section)).count();
    let moved = due.filter(held).filter_map(|section| {
        let was = before.section(&section.key)?.long();
        let is = section.long();
        ((is.cm() - was.cm()).abs() >= SAME).then(|| Moved {
            key: section.key.clone(),
            name: section.section.name.clone(),
            from: was,
            to: is,
        })
    });
    Follow {
        moved: moved.collect(),
        unheld,
    }
}

impl Follow {
    /// It in one line, lengths in the unit.
    pub fn said(&self, unit: Unit) -> String {
        if self.unheld == 0 {
            return self.moves(unit);
        }
        let stay = tr!(
            "1 later section stays as planned: too little is left to hold it by this."
                | "{n} later sections stay as planned: too little is left to hold them by this."
                    % self.unheld
        );
        if self.moved.is_empty() {
            stay
        } else {
            format!("{} {stay}", self.moves(unit))
        }
    }

    fn moves(&self, unit: Unit) -> String {
        let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
        let (mut longer, mut shorter) = (false, false);
        for moved in &self.moved {
            let by = moved.to.cm() - moved.from.cm();
            least = least.min(by.abs());
            most = most.max(by.abs());
            longer |= by > 0.0;
            shorter |= by < 0.0;
        }
        let count = self.moved.len();
        if count == 0 {
            // Also said of a guide that came out as planned, or whose sections are cut already.
            return tr("Nothing later changes.").to_owned();
        }
        let (least, most) = (Length::from_cm(least), Length::from_cm(most));
        let finest = Length::ZERO.stepped(unit, 1).shown(unit);
        if most.number(unit) == "0" {
            return tr!(
                "1 later section changes by less than {finest}."
                    | "{n} later sections change by less than {finest}." % count,
                finest
            );
        }
        let by = match least.number(unit) {
            low if low == most.number(unit) => most.shown(unit),
            low if low == "0" => tr!("up to {}", most.shown(unit)),
            low => tr!("{low} to {}", most.shown(unit), low),
        };
        match (longer, shorter) {
            (true, false) => tr!(
                "1 later section becomes {by} longer."
                    | "{n} later sections become {by} longer." % count,
                by
            ),
            (false, true) => tr!(
                "1 later section becomes {by} shorter."
                    | "{n} later sections become {by} shorter." % count,
                by
            ),
            _ => tr!(
                "1 later section changes by up to {most}."
                    | "{n} later sections change by up to {most}." % count,
                most = most.shown(unit)
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cut::{Measured, cut};
    use crate::hair::Hair;
    use crate::head::{Head, Side, Tapes};
    use crate::plan::{Choices, built_in};

    fn moved(pairs: &[(f64, f64)]) -> Follow {
        let moved = pairs.iter().enumerate().map(|(i, &(from, to))| Moved {
            key: SectionKey {
                step: "side".to_owned(),
                side: Side::Left,
                number: i + 1,
            },
            name: String::new(),
            from: Length::from_cm(from),
            to: Length::from_cm(to),
        });
        Follow {
            moved: moved.collect(),
            unheld: 0,
        }
    }

    #[test]
    fn a_target_that_follows_says_what_and_from_where() {
        let plan = built_in("soft-layers-face-frame").unwrap();
        let job = Job {
            head: &Head::from_tapes(&Tapes::default()).unwrap(),
            hair: &Hair::default(),
            plan: &plan,
            choices: &Choices::default(),
        };
        let planned = cut(&job, &Measured::new()).unwrap();
        let first = &planned.sections[0];
        let mut walk = Walk::start("t0");
        let longer = Length::from_cm(first.long().cm() + 1.0);
        walk.put_down(&first.key, Some(longer), None, "t1");
        let outcome = cut(&job, &walk.measured()).unwrap();
        let of = |place: usize| {
            let key = &planned.sections[place].key;
            since(&job, &planned, &outcome, &walk, key).unwrap()
        };
        // What was measured itself follows nothing.
        assert_eq!(of(0), None);
        let pairs = planned.sections.iter().zip(&outcome.sections).enumerate();
        let apart = |(was, is): (&SectionCut, &SectionCut)| is.long().cm() - was.long().cm();
        let (mut moved, mut stayed) = (0, 0);
        for (place, pair) in pairs.skip(1) {
            match of(place) {
                Some(since) => {
                    moved += 1;
                    assert_eq!(since.follows.as_ref(), Some(&first.section.name));
                    assert_eq!((since.planned, since.now), (pair.0.long(), pair.1.long()));
                }
                None => {
                    stayed += 1;
                    assert!(apart(pair).abs() < SAME);
                }
            }
        }
        assert!(moved > 2 && stayed > 2, "{moved} moved, {stayed} stayed");
        let since = Since {
            planned: Length::from_cm(7.5),
            now: Length::from_cm(8.6),
            follows: Some("Nape 3".to_owned()),
        };
        let said = since.said(Unit::Cm).unwrap();
        assert_eq!(said, "1 cm longer, follows “Nape 3”. Planned 7.5 cm.");
        let alike = Since {
            now: Length::from_cm(7.6),
            ..since
        };
        assert_eq!(alike.said(Unit::Cm), None);
    }

    #[test]
    fn what_changes_is_said_in_one_line() {
        let said = |pairs: &[(f64, f64)]| moved(pairs).said(Unit::Cm);
        assert_eq!(said(&[]), "Nothing later changes.");
        assert_eq!(
            said(&[(12.0, 11.0)]),
            "1 later section becomes 1 cm shorter."
        );
        assert_eq!(
            said(&[(12.0, 13.0), (14.0, 15.1)]),
            "2 later sections become 1 cm longer."
        );
        assert_eq!(
            said(&[(12.0, 11.0), (14.0, 13.5)]),
            "2 later sections become 0.5 to 1 cm shorter."
        );
        assert_eq!(
            said(&[(12.0, 11.0), (14.0, 13.9)]),
            "2 later sections become up to 1 cm shorter."
        );
        assert_eq!(
            said(&[(12.0, 11.0), (14.0, 14.5)]),
            "2 later sections change by up to 1 cm."
        );
        assert_eq!(
            said(&[(12.0, 11.9)]),
            "1 later section changes by less than 0.5 cm."
        );
        assert_eq!(
            moved(&[(12.0, 11.9)]).said(Unit::Inches),
            "1 later section changes by less than 1/8 in."
        );
        let unheld = |unheld, pairs: &[(f64, f64)]| {
            let follow = Follow {
                unheld,
                ..moved(pairs)
            };
            follow.said(Unit::Cm)
        };
        assert_eq!(
            unheld(1, &[]),
            "1 later section stays as planned: too little is left to hold it by this."
        );
        assert_eq!(
            unheld(3, &[(12.0, 11.0)]),
            "1 later section becomes 1 cm shorter. 3 later sections stay as planned: too little is left \
             to hold them by this."
        );
    }
}
