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
    use crate::head::Side;

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
