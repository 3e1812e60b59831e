//! The hair of a plan let down: where each root's hair falls, the outline and the weight.

use super::fold::{CutError, Job, Outcome};
use super::lengths::Lengths;
use crate::fall::{
    BIN, Drape, Edge, Fallen, HAIRS_PER_CM2, Hanging, Patched, Silhouette, View, Weight, fall_path,
    natural_fall,
};
use crate::geometry::Vec3;
use crate::hair::{Wear, Worn};
use crate::head::{Body, Head, Level, Sample};
use crate::plan::Covers;

/// Directions that the outline's lower edge is looked at in, over the number of roots round a ring.
const SECTORS: usize = 48;

/// Places of the scalp that are let down for whatever stands still on a screen, so that all screens tell one
/// weight of one plan. With the hem between them the outline lies within one and a half millimetres of that of
/// sixty times as many.
pub const PLACES: usize = 500;

/// A head of hair let down.
#[derive(Clone, Debug)]
pub struct LetDown {
    body: Body,
    worn: Worn,
    hairs: Vec<Hanging>,
    /// How far its roots lie from each other on average, cm.
    apart: f64,
    /// One for each place of the scalp that was asked, in the order of [`Head::samples`].
    pub fallen: Vec<Fallen>,
    /// Ends, bulk and the weight line.
    pub weight: Weight,
    /// The outline's lowest edge.
    pub edge: Edge,
}

/// Lets the hair of `lengths` down, worn so, at about `count` places of the scalp.
///
/// # Errors
/// [`CutError`] when a length cannot be worked out.
pub fn let_down(
    head: &Head,
    lengths: &Lengths,
    wear: &Wear,
    count: usize,
) -> Result<LetDown, CutError> {
    let samples = head.samples(count);
    let hairs = samples
        .iter()
        .map(|sample| hanging(head, lengths, sample))
        .collect::<Result<Vec<Hanging>, CutError>>()?;
    let (body, worn) = (Body::of(head), wear.on(head));
    let fallen = natural_fall(&body, &worn, &hairs);
    Ok(LetDown::told(body, worn, &samples, hairs, fallen))
}

fn hanging(head: &Head, lengths: &Lengths, sample: &Sample) -> Result<Hanging, CutError> {
    Ok(Hanging {
        root: sample.root,
        length: lengths.falls_to(head, sample.root)?,
    })
}

impl Outcome {
    /// Its hair let down, as it is worn, at about `count` places.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn let_down(&self, job: &Job<'_>, count: usize) -> Result<LetDown, CutError> {
        self.let_down_at(job, &job.head.samples(count))
    }

    /// What the plan is about let down, at about `count` places: all hair, or of a plan that covers a
    /// part only the hair that it cuts.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn let_down_part(&self, job: &Job<'_>, count: usize) -> Result<LetDown, CutError> {
        if job.plan.covers == Covers::All {
            return self.let_down(job, count);
        }
        // Enough for a part as small as a fringe.
        let mut samples = job.head.samples(4 * count);
        // Left and right stay in pairs: a place is kept if its twin is.
        let cuts = |at: &Sample| {
            let mut cutting = self.sections.iter().filter(|s| s.cuts());
            cutting.any(|s| s.section.patch.holds(at.root))
        };
        if self.uneven_since.is_none() {
            samples = samples
                .chunks(2)
                .filter(|pair| cuts(&pair[0]))
                .flatten()
                .copied()
                .collect();
        } else {
            samples.retain(cuts);
        }
        self.let_down_at(job, &samples)
    }

    /// The same at these places. Where left and right are alike, they come in pairs, the left one
    /// first, and only the left is worked out.
    fn let_down_at(&self, job: &Job<'_>, samples: &[Sample]) -> Result<LetDown, CutError> {
        let (head, wear) = (job.head, job.wear());
        let half = self.uneven_since.is_none() && wear.is_even();
        let hairs = samples
            .iter()
            .step_by(if half { 2 } else { 1 })
            .map(|sample| hanging(head, &self.lengths, sample))
            .collect::<Result<Vec<Hanging>, CutError>>()?;
        let (body, worn) = (Body::of(head), wear.on(head));
        let fallen = natural_fall(&body, &worn, &hairs);
        if !half {
            return Ok(LetDown::told(body, worn, samples, hairs, fallen));
        }
        let over = |p: Vec3| Vec3::new(-p.x, p.y, p.z);
        let hairs = hairs.into_iter().flat_map(|hair| {
            let root = over(hair.root);
            [hair, Hanging { root, ..hair }]
        });
        let fallen = fallen.into_iter().flat_map(|fallen| {
            let tip = over(fallen.tip);
            [fallen, Fallen { tip, ..fallen }]
        });
        let (hairs, fallen) = (hairs.collect(), fallen.collect());
        Ok(LetDown::told(body, worn, samples, hairs, fallen))
    }
}

impl LetDown {
    fn told(
        body: Body,
        worn: Worn,
        samples: &[Sample],
        hairs: Vec<Hanging>,
        fallen: Vec<Fallen>,
    ) -> Self {
        let patched = |(sample, fallen): (&Sample, &Fallen)| Patched {
            fallen: *fallen,
            root: sample.root.z,
            area: sample.area,
        };
        let patches: Vec<Patched> = samples.iter().zip(&fallen).map(patched).collect();
        let area: f64 = samples.iter().map(|sample| sample.area).sum();
        Self {
            apart: (area / samples.len().max(1) as f64).sqrt(),
            weight: Weight::of(&patches, HAIRS_PER_CM2, BIN),
            edge: Edge::of(fallen.iter().map(|f| f.tip), SECTORS),
            body,
            worn,
            hairs,
            fallen,
        }
    }

    /// The lowest end's height, cm; 0 without hair.
    pub fn lowest(&self) -> f64 {
        self.fallen.iter().map(|f| f.tip.z).fold(0.0, f64::min)
    }

    /// The level of the weight line and its sharpness, 0 to 1; none without hair.
    pub fn weight_level(&self, head: &Head) -> Option<(Level, f64)> {
        let line = self.weight.overall.line?;
        Some((Level::of(head, line.z), line.sharpness))
    }

    /// Other hairs let down on the same head, worn alike.
    pub fn with(&self, hairs: &[Hanging]) -> Vec<Fallen> {
        natural_fall(&self.body, &self.worn, hairs)
    }

    /// The ways that hair falls whose roots are `seen` and no nearer to each other than `apart` cm: enough
    /// of them to see the shape. Points about every `spacing` cm.
    pub fn ways(&self, seen: impl Fn(Vec3) -> bool, apart: f64, spacing: f64) -> Vec<Vec<Vec3>> {
        let mut taken: Vec<Vec3> = Vec::new();
        let mut ways = Vec::new();
        for &hair in &self.hairs {
            if seen(hair.root) && taken.iter().all(|t| t.distance(hair.root) >= apart) {
                taken.push(hair.root);
                ways.push(fall_path(&self.body, &self.worn, hair, spacing).0);
            }
        }
        ways
    }

    /// The heights at which its ends lie, cm: the highest, where most lie, the lowest; none of no hair.
    pub fn ends(&self) -> Option<[f64; 3]> {
        let heights = || self.fallen.iter().map(|fallen| fallen.tip.z);
        let high = heights().reduce(f64::max)?;
        let low = heights().reduce(f64::min)?;
        let most = self.weight.overall.line.map_or(low, |line| line.z);
        Some([high, most, low])
    }

    /// The silhouette of the hair alone from one side, a band every `spacing` cm.
    pub fn hair_silhouette(&self, view: View, spacing: f64) -> Silhouette {
        let ways: Vec<_> = self
            .hairs
            .iter()
            .map(|&hair| fall_path(&self.body, &self.worn, hair, spacing).0)
            .collect();
        Silhouette::of_hair(view, &ways, spacing)
    }

    /// All its hair and `more` on the same head as one cloth, its ways in points about every `spacing` cm
    /// where they lie on the body.
    pub fn drape(&self, more: &[Hanging], spacing: f64) -> Drape {
        let ways = self.hairs.iter().chain(more);
        let ways = ways.map(|&hair| fall_path(&self.body, &self.worn, hair, spacing).0);
        Drape::of(ways.collect(), self.apart)
    }

    /// The silhouette of hair and body from one side, a band every `spacing` cm.
    pub fn silhouette(&self, view: View, spacing: f64) -> Silhouette {
        let low = self.lowest();
        let high = self.body.skull().top;
        let body = Silhouette::of_body(view, &self.body, (low, high), spacing);
        self.hair_silhouette(view, spacing).with(&body)
    }
}

impl Job<'_> {
    /// How the hair is worn by what was chosen: parted where the plan asks, about the hair's whorl.
    pub fn wear(&self) -> Wear {
        Wear {
            whorl: self.hair.whorl,
            ..Wear::parted(self.choices.parting(self.plan).azimuth())
        }
    }
}
