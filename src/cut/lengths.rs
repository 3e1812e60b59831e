//! How long the hair is, everywhere on the scalp, after the steps so far.

use super::fold::CutError;
use super::line::{CuttingLine, OnHead};
use super::sided::Cutting;
use crate::geometry::{Target, Taut, Vec3, taut};
use crate::hair::{Before, FallsTo, Growth, Hair};
use crate::head::{Head, Region, Side};
use crate::plan::Patch;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Two lengths this close are one, cm.
const SAME: f64 = 1e-3;

/// The length of the hair as a function of the place on the scalp, in cm as cut.
///
/// It is kept as what was done rather than as samples, so that any root can be asked exactly.
#[derive(Clone, Debug)]
pub struct Lengths {
    before: Before,
    /// The shortest that the last visit left, cm; none if what was chosen counts.
    least: Option<f64>,
    pub(super) hair: Arc<OnHead>,
    changes: Vec<Change>,
    /// The side whose hair is asked about. On an edge that both sides share it is as this one left it;
    /// without a side, as the shorter of the two.
    seen_from: Option<Side>,
    /// Whether hair was asked about that the other side cut.
    crossed: Arc<AtomicBool>,
}

/// What happened to the hair.
#[derive(Clone, Debug)]
enum Change {
    /// A section was cut.
    Cut {
        /// The plan's step, by its place.
        step: usize,
        side: Side,
        patch: Patch,
        line: Arc<CuttingLine>,
        /// How much longer than computed it came out, cm.
        shift: f64,
    },
    /// All of it grew by so many cm.
    Grew(f64),
}

impl Lengths {
    /// Hair that nobody has cut yet: as the last visit left it, if the hair knows of one, else as it was
    /// said to be.
    pub fn before(head: &Head, hair: &Hair, before: Before) -> Self {
        Self {
            before,
            least: hair.left.as_ref().map(|left| left.ends().0),
            hair: Arc::new(OnHead::new(head, hair)),
            changes: Vec::new(),
            seen_from: None,
            crossed: Arc::default(),
        }
    }

    /// The length in cm of the hair at a root on the skull.
    ///
    /// # Errors
    /// [`CutError`] when a path cannot be found.
    pub fn at(&self, head: &Head, root: Vec3) -> Result<f64, CutError> {
        if let Some(length) = self.cut_short(head, root)? {
            return Ok(length);
        }
        let mut length = match (&self.hair.hair.left, self.before) {
            (Some(left), _) => left.at(head.spot(root)),
            (None, Before::Everywhere(length)) => length.cm(),
            // Where it ends is told of the hair as it hangs.
            (None, falls) => self.hair.cut_at(root, falls.at(head, root)?),
        };
        let mut trimmed = None;
        for change in &self.changes {
            match change {
                Change::Grew(cm) => length += cm,
                Change::Cut {
                    step,
                    patch,
                    line,
                    shift,
                    ..
                } => {
                    let trims = matches!(**line, CuttingLine::Off(_));
                    // On an edge that sections have in common a trim still takes off what it says once.
                    if trims && trimmed == Some(*step) {
                        continue;
                    }
                    if patch.holds(root) && !self.is_the_others(change, root) {
                        trimmed = trims.then_some(*step);
                        if !trims && line.at_least(&self.hair, root) + shift > length + SAME {
                            continue;
                        }
                        let reach = line.reach(head, &self.hair, root, length)?.length + shift;
                        length = length.min(reach.max(0.0));
                    }
                }
            }
        }
        Ok(length)
    }

    /// What it was before a step, by its place.
    pub(super) fn before_step(&self, step: usize) -> Self {
        let mut earlier = self.clone();
        let is_earlier =
            |change: &Change| !matches!(change, Change::Cut { step: of, .. } if *of >= step);
        earlier.changes.retain(is_earlier);
        earlier
    }

    /// What it was after the first so many sections were cut.
    pub(super) fn first_cuts(&self, count: usize) -> Self {
        let mut earlier = self.clone();
        let mut left = count;
        earlier.changes.retain(|change| {
            let cut = matches!(change, Change::Cut { .. });
            let stays = !cut || left > 0;
            left -= usize::from(cut && stays);
            stays
        });
        earlier
    }

    /// The same hair as one side finds it: on an edge that both sides share, as that side left it, so that
    /// each goes on from its own guide.
    pub(super) fn seen_from(&self, side: Side) -> Self {
        Self {
            seen_from: Some(side),
            crossed: Arc::default(),
            ..self.clone()
        }
    }

    /// Whether this or a clone of it was asked about hair that the other side cut.
    pub(super) fn crossed(&self) -> bool {
        self.crossed.load(Ordering::Relaxed)
    }

    /// What one side of a step did, section by section.
    pub(super) fn cut_in(&self, index: usize, on: Side) -> Vec<Cutting> {
        let mut cuts = Vec::new();
        for change in &self.changes {
            if let Change::Cut {
                step,
                side,
                patch,
                line,
                shift,
            } = change
                && (*step, *side) == (index, on)
            {
                cuts.push((patch.clone(), Arc::clone(line), *shift));
            }
        }
        cuts
    }

    /// Whether hair that a change cut on the other side was cut on this one in the same step.
    fn is_the_others(&self, change: &Change, root: Vec3) -> bool {
        let (Some(own), Change::Cut { step: of, side, .. }) = (self.seen_from, change) else {
            return false;
        };
        if own == Side::Centre || *side == Side::Centre || own == *side {
            return false;
        }
        let others = self.changes.iter().any(|change| {
            matches!(change, Change::Cut { step, side, patch, .. }
                if step == of && *side == own && patch.holds(root))
        });
        if !others {
            self.crossed.store(true, Ordering::Relaxed);
        }
        others
    }

    /// The sections, by their places among all so far, that cut hair at a root.
    pub(super) fn cut_by(&self, root: Vec3) -> Vec<usize> {
        let holds = |(_, change): &(usize, &Change)| matches!(change, Change::Cut { patch, .. } if patch.holds(root));
        let changes = self.changes.iter().enumerate();
        changes.filter(holds).map(|(i, _)| i).collect()
    }

    /// Whether a section that was cut so far holds a root.
    pub(super) fn was_cut(&self, root: Vec3) -> bool {
        self.changes
            .iter()
            .any(|change| matches!(change, Change::Cut { patch, .. } if patch.holds(root)))
    }

    /// Whether some of these roots, but not all, lie within one section that was cut.
    pub(super) fn stepped(&self, roots: &[Vec3]) -> bool {
        self.changes.iter().any(|change| match change {
            Change::Cut { patch, .. } => {
                let within = roots.iter().filter(|&&root| patch.holds(root)).count();
                within > 0 && within < roots.len()
            }
            Change::Grew(_) => false,
        })
    }

    /// The length of hair that was cut shorter than it can have been before, without asking how long it
    /// was: no way down to a level is shorter than straight down, and nothing of what a visit left shorter
    /// than the shortest of it. None where that does not settle it.
    fn cut_short(&self, head: &Head, root: Vec3) -> Result<Option<f64>, CutError> {
        let level = match (&self.least, self.before) {
            (Some(_), _) => None,
            (None, Before::EndsAt(landmark)) => Some(landmark),
            (None, Before::Everywhere(_)) => return Ok(None),
        };
        let mut least = f64::INFINITY;
        // The last first: they mostly cut shortest.
        for change in self.changes.iter().rev() {
            match change {
                Change::Cut {
                    patch, line, shift, ..
                } if !matches!(**line, CuttingLine::Off(_)) => {
                    if patch.holds(root) && !self.is_the_others(change, root) {
                        // What cannot be shorter than it is cut already needs no path.
                        if line.at_least(&self.hair, root) + shift > least + SAME {
                            continue;
                        }
                        let reach = line.reach(head, &self.hair, root, f64::INFINITY)?;
                        least = least.min((reach.length + shift).max(0.0));
                    }
                }
                // Growth and trims begin from what was there.
                Change::Cut { .. } | Change::Grew(_) => return Ok(None),
            }
        }
        let floor = match level {
            Some(landmark) => {
                let level = head.landmark(landmark, Side::Centre).z;
                self.hair.cut_at(root, (root.z - level).max(0.0))
            }
            None => self.least.unwrap_or(0.0),
        };
        Ok((least <= floor).then_some(least))
    }

    /// How long the hair at a root hangs, dry and let go.
    ///
    /// # Errors
    /// As [`Lengths::at`].
    pub fn falls_to(&self, head: &Head, root: Vec3) -> Result<FallsTo, CutError> {
        Ok(self.hair.falls_to(root, self.at(head, root)?))
    }

    /// The height in cm at which the hair of a root ends, combed down in its fall, dry: z in the head's
    /// frame. On the head it ends a like share of the way down.
    ///
    /// # Errors
    /// As [`Lengths::at`].
    pub fn ends_at(&self, head: &Head, root: Vec3) -> Result<f64, CutError> {
        let hanging = self.falls_to(head, root)?.cm();
        // Down to the widest level it lies on the head; from there it hangs.
        if root.z <= 0.0 {
            return Ok(root.z - hanging);
        }
        let down = taut(head.skull(), root, &Target::level(0.0))?.length;
        Ok(if hanging > down {
            down - hanging
        } else {
            root.z * (1.0 - hanging / down)
        })
    }

    /// The way along which the hair of a root was last cut: that of the line that made it `length` cm
    /// long. None if no step of this plan did.
    pub(super) fn way(
        &self,
        head: &Head,
        root: Vec3,
        length: f64,
    ) -> Result<Option<Taut>, CutError> {
        for change in self.changes.iter().rev() {
            if let Change::Cut {
                patch, line, shift, ..
            } = change
                && patch.holds(root)
                && !self.is_the_others(change, root)
            {
                let reach = line.reach(head, &self.hair, root, f64::INFINITY)?;
                if (reach.length + shift - length).abs() < SAME {
                    return Ok(reach.path);
                }
            }
        }
        Ok(None)
    }

    /// How long hair at a root hangs, dry and let go, that is `cut` cm long as cut.
    pub fn hangs(&self, root: Vec3, cut: f64) -> FallsTo {
        self.hair.falls_to(root, cut)
    }

    /// The region of the scalp that a root lies in, where hair differs by region.
    pub fn region(&self, root: Vec3) -> Region {
        self.hair.region(root)
    }

    /// The same hair so many weeks later.
    pub fn grown(mut self, growth: Growth, weeks: f64) -> Self {
        self.changes
            .push(Change::Grew(growth.over_weeks(weeks).cm()));
        self
    }

    /// The same hair with one more section of a step cut along `line`, `shift` cm longer than computed.
    pub(super) fn with(
        mut self,
        (step, side): (usize, Side),
        patch: Patch,
        line: Arc<CuttingLine>,
        shift: f64,
    ) -> Self {
        self.changes.push(Change::Cut {
            step,
            side,
            patch,
            line,
            shift,
        });
        self
    }
}
