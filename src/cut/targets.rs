//! What a section comes to: its shortest and longest hair that is cut, how much reaches, how much comes
//! off at most, found over the whole section from few roots.
//!
//! Where every root of a section was cut by the same steps before, lengths are smooth over it: three
//! rows of three tell them by a surface of the second degree both ways, which is then looked at in many
//! places. Where the edge of an earlier cut runs through it, lengths step there: then it is looked at
//! in many places itself, and on both sides of that edge.

use super::fold::CutError;
use super::lengths::Lengths;
use super::line::CuttingLine;
use super::section::Strand;
use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use crate::plan::Patch;

/// Hair this little short of the line still reaches it, in cm: lines are laid no more exactly.
pub(super) const JUST: f64 = 1e-4;
/// Places each way at which a smooth section is looked at.
const SMOOTH: usize = 17;
/// The same for one that an earlier edge runs through.
const STEPPED: usize = 9;
/// Halvings by which such an edge is found between two places.
const HALVINGS: usize = 9;

/// A place of a section: how long its hair is before, and at what length the line cuts it, cm.
#[derive(Clone, Copy, Debug)]
struct Look {
    before: f64,
    cut_at: f64,
}

impl Look {
    fn reaches(self) -> bool {
        self.before >= self.cut_at - JUST
    }

    /// How much longer it is than it needs to be to reach.
    fn spare(self) -> f64 {
        self.before - self.cut_at
    }
}

/// What a section comes to, in cm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Targets {
    pub short: f64,
    pub long: f64,
    pub off: f64,
    /// Share of the section's hair that reaches, 0 to 1.
    pub reach: f64,
}

impl Targets {
    /// Of a section whose hair is cut along `line`: its nine strands, row by row.
    pub fn of(
        head: &Head,
        lengths: &Lengths,
        patch: &Patch,
        line: &CuttingLine,
        strands: &[Strand],
    ) -> Result<Self, CutError> {
        let Ok(nine) = <&[Strand; 9]>::try_from(strands) else {
            return Ok(Self::among(strands));
        };
        let roots = nine.map(|s| s.root);
        let found = if lengths.stepped(&roots) {
            stepped(head, lengths, patch, line)?
        } else {
            smooth(nine)
        };
        // What the strands themselves say counts too: the surface only runs near them.
        let own = Self::among(strands);
        Ok(match found {
            None => own,
            Some(found) if own.reach <= 0.0 => found,
            Some(found) => Self {
                short: found.short.min(own.short),
                long: found.long.max(own.long),
                off: found.off.max(own.off),
                reach: found.reach,
            },
        })
    }

    /// Among strands alone: of what reaches, or of all if none does or nothing is cut.
    pub fn among(strands: &[Strand]) -> Self {
        let any = strands.iter().any(Strand::reaches);
        let counted = strands.iter().filter(|s| !any || s.reaches());
        let lengths = || counted.clone().map(|s| s.after);
        let reached = strands.iter().filter(|s| s.reaches()).count();
        let cuts = strands.iter().any(|s| s.cut_at.is_some());
        Self {
            short: lengths().reduce(f64::min).unwrap_or(0.0),
            long: lengths().fold(0.0, f64::max),
            off: strands
                .iter()
                .map(|s| s.before - s.after)
                .fold(0.0, f64::max),
            reach: if cuts {
                reached as f64 / strands.len() as f64
            } else {
                1.0
            },
        }
    }

    /// Over looks in rows of `side`; none if nothing reaches.
    fn over(looks: &[Look], side: usize, more: &[f64]) -> Option<Self> {
        let reached = looks.iter().filter(|l| l.reaches());
        let count = reached.clone().count();
        let pairs = (0..looks.len()).flat_map(|i| {
            let along = (i % side + 1 < side).then_some((i, i + 1));
            let across = (i + side < looks.len()).then_some((i, i + side));
            along.into_iter().chain(across)
        });
        let just = pairs.filter_map(|(i, j)| just_reaching(looks[i], looks[j]));
        let counted: Vec<f64> = reached
            .map(|l| l.cut_at)
            .chain(just)
            .chain(more.iter().copied())
            .collect();
        let least = counted.iter().copied().reduce(f64::min)?;
        Some(Self {
            short: least.max(0.0),
            long: counted.iter().copied().fold(0.0, f64::max),
            off: looks.iter().map(|l| l.spare()).fold(0.0, f64::max),
            reach: count as f64 / looks.len() as f64,
        })
    }
}

/// The length of the hair between two places that only just reaches the line, if one of them reaches
/// and the other does not.
fn just_reaching(a: Look, b: Look) -> Option<f64> {
    let (over, under) = (a.spare(), b.spare());
    if (over >= 0.0) == (under >= 0.0) || !(over - under).is_finite() {
        return None;
    }
    let share = over / (over - under);
    Some(a.before + (b.before - a.before) * share)
}

/// Over the surface of the second degree through nine strands.
fn smooth(strands: &[Strand; 9]) -> Option<Targets> {
    let looks = strands.each_ref().map(|s| Look {
        before: s.before,
        cut_at: s.cut_at.unwrap_or(f64::INFINITY),
    });
    if looks.iter().any(|l| !l.cut_at.is_finite()) {
        return None;
    }
    // Lagrange's weights for 0, a half and 1.
    let weights = |t: f64| {
        [
            (2.0 * t - 1.0) * (t - 1.0),
            4.0 * t * (1.0 - t),
            t * (2.0 * t - 1.0),
        ]
    };
    let share = |i: usize| weights(i as f64 / (SMOOTH - 1) as f64);
    let mut all = Vec::with_capacity(SMOOTH * SMOOTH);
    for row in 0..SMOOTH {
        let across = share(row);
        for place in 0..SMOOTH {
            let along = share(place);
            let mut look = Look {
                before: 0.0,
                cut_at: 0.0,
            };
            for (r, a) in across.iter().enumerate() {
                for (p, b) in along.iter().enumerate() {
                    let of = looks[3 * r + p];
                    look.before += a * b * of.before;
                    look.cut_at += a * b * of.cut_at;
                }
            }
            all.push(look);
        }
    }
    Targets::over(&all, SMOOTH, &[])
}

/// Looked at in many places, and on both sides of every edge of an earlier cut between two of them.
fn stepped(
    head: &Head,
    lengths: &Lengths,
    patch: &Patch,
    line: &CuttingLine,
) -> Result<Option<Targets>, CutError> {
    let roots = patch.roots(head, STEPPED);
    let look = |root: Vec3| -> Result<Look, CutError> {
        let before = lengths.at(head, root)?;
        let cut_at = line.reach(head, &lengths.hair, root, before)?.length;
        Ok(Look { before, cut_at })
    };
    let looks: Vec<Look> = roots
        .iter()
        .map(|&root| look(root))
        .collect::<Result<_, _>>()?;
    let cut_by: Vec<_> = roots.iter().map(|&root| lengths.cut_by(root)).collect();
    let mut at_edges = Vec::new();
    for i in 0..roots.len() {
        let along = (i % STEPPED + 1 < STEPPED).then_some(i + 1);
        let across = (i + STEPPED < roots.len()).then_some(i + STEPPED);
        for j in along.into_iter().chain(across) {
            if cut_by[i] == cut_by[j] {
                continue;
            }
            let (mut here, mut there) = (roots[i], roots[j]);
            for _ in 0..HALVINGS {
                let middle = head.skull().settle(here.midpoint(there));
                if lengths.cut_by(middle) == cut_by[i] {
                    here = middle;
                } else {
                    there = middle;
                }
            }
            for root in [here, there] {
                let edge = look(root)?;
                if edge.reaches() {
                    at_edges.push(edge.cut_at);
                }
            }
        }
    }
    Ok(Targets::over(&looks, STEPPED, &at_edges))
}
