//! What a section comes to: its shortest and longest hair that is cut, how much reaches, how much comes
//! off at most, found over the whole section from few roots.
//!
//! Where every root of a section was cut by the same steps before, lengths are smooth over it: three
//! rows of three tell them by a surface of the second degree both ways, which is then looked at in many
//! places. Four places between them say whether it is good enough; if not, five rows of five or nine of
//! nine make it of several pieces. Where the edge of an earlier cut runs through a section, lengths step
//! there: then it is looked at in many places itself, and on both sides of that edge.

use super::fold::CutError;
use super::lengths::Lengths;
use super::line::CuttingLine;
use super::section::Strand;
use crate::geometry::{Convex, Vec3};
use crate::head::Head;
use crate::plan::Patch;

/// Hair this little short of the line still reaches it, in cm: lines are laid no more exactly.
pub(super) const JUST: f64 = 1e-4;
/// Places each way at which the lowest and highest of a surface are looked for.
const PLACES: usize = 13;
/// Places each way at which a piece of a smooth section is looked at.
const SMOOTH: usize = 9;
/// A surface that misses no place between by more than this is good enough, cm.
const FINE: f64 = 0.025;
/// Hair that is this much longer than the line needs it at nine places reaches everywhere, cm.
const PLENTY: f64 = 3.0;
/// The most rows that are looked at.
const FINEST: usize = 9;
/// The rows of the surfaces that are tried after one another, each with what the one before may miss
/// between its rows, cm: a finer one misses its lowest and highest by less than other places.
const FINER: [(usize, f64); 2] = [(5, FINE), (FINEST, 6.0 * FINE)];
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
    /// Of hair that reaches, whatever it was before.
    fn spared(cut_at: f64) -> Self {
        Self {
            before: cut_at + PLENTY,
            cut_at,
        }
    }

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
            return Ok(Self::among(strands, true));
        };
        let roots = nine.map(|s| s.root);
        let section = Looked {
            head,
            lengths,
            patch,
            line,
        };
        let found = if lengths.stepped(&roots) {
            section.stepped()?
        } else {
            section.smooth(nine)?
        };
        // What the strands themselves say counts too: the surface only runs near them.
        let own = Self::among(strands, true);
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

    /// Among strands alone: of what reaches, or of all if none does or nothing `cuts` them.
    pub fn among(strands: &[Strand], cuts: bool) -> Self {
        let any = strands.iter().any(Strand::reaches);
        let counted = strands.iter().filter(|s| !any || s.reaches());
        let lengths = || counted.clone().map(|s| s.after);
        let reached = strands.iter().filter(|s| s.reaches()).count();
        Self {
            short: lengths().reduce(f64::min).unwrap_or(0.0),
            long: lengths().fold(0.0, f64::max),
            off: strands
                .iter()
                .map(|s| s.before - s.after)
                .fold(0.0, f64::max),
            reach: if cuts && !strands.is_empty() {
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

/// A section as it is looked at.
struct Looked<'a> {
    head: &'a Head,
    lengths: &'a Lengths,
    patch: &'a Patch,
    line: &'a CuttingLine,
}

/// A surface through looks in rows: pieces of the second degree both ways, three rows of three each.
struct Surface {
    looks: Vec<Look>,
    rows: usize,
}

impl Surface {
    /// At shares of the way across and along, 0 to 1.
    fn at(&self, across: f64, along: f64) -> Look {
        let pieces = (self.rows - 1) / 2;
        let (row, a) = piece(across, pieces);
        let (place, b) = piece(along, pieces);
        let mut look = Look {
            before: 0.0,
            cut_at: 0.0,
        };
        for (r, a) in a.iter().enumerate() {
            for (p, b) in b.iter().enumerate() {
                let of = self.looks[(2 * row + r) * self.rows + 2 * place + p];
                look.before += a * b * of.before;
                look.cut_at += a * b * of.cut_at;
            }
        }
        look
    }

    fn targets(&self) -> Option<Targets> {
        let side = (SMOOTH - 1) * (self.rows - 1) / 2 + 1;
        let share = |i: usize| i as f64 / (side - 1) as f64;
        let looks: Vec<Look> = (0..side * side)
            .map(|i| self.at(share(i / side), share(i % side)))
            .collect();
        Targets::over(&looks, side, &[])
    }
}

/// Which of so many pieces a share lies in, and Lagrange's weights of its three places.
fn piece(share: f64, pieces: usize) -> (usize, [f64; 3]) {
    let at = share * pieces as f64;
    let piece = (at as usize).min(pieces - 1);
    let t = at - piece as f64;
    let weights = [
        (2.0 * t - 1.0) * (t - 1.0),
        4.0 * t * (1.0 - t),
        t * (2.0 * t - 1.0),
    ];
    (piece, weights)
}

impl Looked<'_> {
    /// A place that has hair to spare, whatever it was before.
    fn spared(&self, root: Vec3) -> Result<Look, CutError> {
        let reach = self
            .line
            .reach(self.head, &self.lengths.hair, root, f64::INFINITY)?;
        Ok(Look::spared(reach.length))
    }

    fn look(&self, root: Vec3) -> Result<Look, CutError> {
        let before = self.lengths.at(self.head, root)?;
        let reach = self
            .line
            .reach(self.head, &self.lengths.hair, root, before)?;
        Ok(Look {
            before,
            cut_at: reach.length,
        })
    }

    fn looks(&self, roots: &[Vec3]) -> Result<Vec<Look>, CutError> {
        roots.iter().map(|&root| self.look(root)).collect()
    }

    /// Whether all of these have so much to spare that what they were before does not matter.
    fn plenty(&self, strands: &[Strand; 9]) -> bool {
        let spare = |s: &Strand| s.cut_at.is_some_and(|cm| s.before > cm + PLENTY);
        !matches!(self.line, CuttingLine::Off(_)) && strands.iter().all(spare)
    }

    /// Over a surface through the nine strands, or a finer one if that is not good enough.
    fn smooth(&self, strands: &[Strand; 9]) -> Result<Option<Targets>, CutError> {
        if strands.iter().any(|s| s.cut_at.is_none()) {
            return Ok(None);
        }
        let plenty = self.plenty(strands);
        let of = |s: &Strand| {
            let cut_at = s.cut_at.unwrap_or_default();
            if plenty {
                Look::spared(cut_at)
            } else {
                let before = s.before;
                Look { before, cut_at }
            }
        };
        let surface = Surface {
            looks: strands.iter().map(of).collect(),
            rows: 3,
        };
        if plenty && let Some(found) = self.plain(&surface)? {
            return Ok(Some(found));
        }
        self.finer(surface, plenty)
    }

    /// Where all reaches: by the places at which the surface is lowest and highest, if it is right
    /// between the rows, at their ends, where the hairline may bend.
    fn plain(&self, surface: &Surface) -> Result<Option<Targets>, CutError> {
        for across in [0.25, 0.75] {
            let row = self.patch.row(self.head, across);
            let inset = (0.01 / row.length().max(0.01)).min(0.25);
            for along in [across, 1.0 - inset] {
                let Some(root) = row.at(self.head, along) else {
                    return Ok(None);
                };
                let there = self.spared(root)?;
                if (there.cut_at - surface.at(across, along).cut_at).abs() > FINE {
                    return Ok(None);
                }
            }
        }
        let share = |i: usize| i as f64 / (PLACES - 1) as f64;
        let all = (0..PLACES * PLACES).map(|i| {
            let (across, along) = (share(i / PLACES), share(i % PLACES));
            (surface.at(across, along).cut_at, across, along)
        });
        let (mut lowest, mut highest) = ((f64::INFINITY, 0.0, 0.0), (0.0, 0.0, 0.0));
        for place in all {
            if place.0 < lowest.0 {
                lowest = place;
            }
            if place.0 > highest.0 {
                highest = place;
            }
        }
        // At a root the strand itself says it.
        let exactly = |(said, across, along): (f64, f64, f64)| {
            let at_root = |share: f64| (2.0 * share - (2.0 * share).round()).abs() < 1e-9;
            if at_root(across) && at_root(along) {
                return Ok::<f64, CutError>(said);
            }
            let root = self.patch.at(self.head, across, along);
            Ok(self.spared(root)?.cut_at)
        };
        Ok(Some(Targets {
            short: exactly(lowest)?,
            long: exactly(highest)?,
            off: 0.0,
            reach: 1.0,
        }))
    }

    /// By finer surfaces, until one misses no place between its rows.
    fn finer(&self, mut surface: Surface, plenty: bool) -> Result<Option<Targets>, CutError> {
        let look = |root: Vec3| {
            if plenty {
                self.spared(root)
            } else {
                self.look(root)
            }
        };
        for (rows, allowed) in FINER {
            let roots = self.patch.roots(self.head, rows);
            if roots.len() < rows * rows {
                break;
            }
            let share = |i: usize| i as f64 / (rows - 1) as f64;
            let mut fine = true;
            for i in (1..rows).step_by(2) {
                // Two in every row amid the pieces of the surface, near its ends.
                for j in [1, rows - 2] {
                    let there = look(roots[i * rows + j])?;
                    let said = surface.at(share(i), share(j));
                    fine &= (there.cut_at - said.cut_at).abs() <= allowed
                        && (plenty || (there.before - said.before).abs() <= allowed);
                }
                if !fine {
                    break;
                }
            }
            if fine {
                break;
            }
            // Every other place of every other row was looked at before.
            let looks: Vec<Look> = (0..rows * rows)
                .map(|i| match (i / rows, i % rows) {
                    (r, p) if r % 2 == 0 && p % 2 == 0 => {
                        Ok(surface.looks[r / 2 * surface.rows + p / 2])
                    }
                    _ => look(roots[i]),
                })
                .collect::<Result<_, CutError>>()?;
            if looks.iter().any(|l| !l.cut_at.is_finite()) {
                return Ok(None);
            }
            surface = Surface { looks, rows };
        }
        // So many rows that no surface fitted: it has corners, and its places speak for themselves.
        if surface.rows == FINEST {
            return Ok(Targets::over(&surface.looks, FINEST, &[]));
        }
        Ok(surface.targets())
    }

    /// Looked at in many places, and on both sides of every edge of an earlier cut between two of them.
    fn stepped(&self) -> Result<Option<Targets>, CutError> {
        let roots = self.patch.roots(self.head, STEPPED);
        let looks = self.looks(&roots)?;
        let cut_by: Vec<_> = roots.iter().map(|&r| self.lengths.cut_by(r)).collect();
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
                    let middle = self.head.skull().settle(here.midpoint(there));
                    if self.lengths.cut_by(middle) == cut_by[i] {
                        here = middle;
                    } else {
                        there = middle;
                    }
                }
                for root in [here, there] {
                    let edge = self.look(root)?;
                    if edge.reaches() {
                        at_edges.push(edge.cut_at);
                    }
                }
            }
        }
        Ok(Targets::over(&looks, STEPPED, &at_edges))
    }
}
