//! The hair of a plan let down: where each root's hair falls, the outline and the weight.

use super::fold::{CutError, Job, Outcome};
use super::lengths::Lengths;
use crate::fall::{
    BIN, Edge, Fallen, HAIRS_PER_CM2, Hanging, Patched, Silhouette, View, Weight, fall_path,
    natural_fall,
};
use crate::hair::{Wear, Worn};
use crate::head::{Body, Head, Sample};
use crate::plan::Covers;

/// Directions that the outline's lower edge is looked at in, over the number of roots round a ring.
const SECTORS: usize = 48;

/// A head of hair let down.
#[derive(Clone, Debug)]
pub struct LetDown {
    body: Body,
    worn: Worn,
    hairs: Vec<Hanging>,
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
    let_down_at(head, lengths, wear, &head.samples(count))
}

/// The same at these places of the scalp.
fn let_down_at(
    head: &Head,
    lengths: &Lengths,
    wear: &Wear,
    samples: &[Sample],
) -> Result<LetDown, CutError> {
    let (body, worn) = (Body::of(head), wear.on(head));
    let hairs = samples
        .iter()
        .map(|sample| {
            Ok(Hanging {
                root: sample.root,
                length: lengths.falls_to(head, sample.root)?,
            })
        })
        .collect::<Result<Vec<Hanging>, CutError>>()?;
    let fallen = natural_fall(&body, &worn, &hairs);
    let patched = |(sample, fallen): (&Sample, &Fallen)| Patched {
        fallen: *fallen,
        root: sample.root.z,
        area: sample.area,
    };
    let patches: Vec<Patched> = samples.iter().zip(&fallen).map(patched).collect();
    Ok(LetDown {
        weight: Weight::of(&patches, HAIRS_PER_CM2, BIN),
        edge: Edge::of(fallen.iter().map(|f| f.tip), SECTORS),
        body,
        worn,
        hairs,
        fallen,
    })
}

impl LetDown {
    /// The heights at which its ends lie, cm: the highest, where most lie, the lowest; none of no hair.
    pub fn ends(&self) -> Option<[f64; 3]> {
        let heights = || self.fallen.iter().map(|fallen| fallen.tip.z);
        let high = heights().reduce(f64::max)?;
        let low = heights().reduce(f64::min)?;
        let most = self.weight.overall.line.map_or(low, |line| line.z);
        Some([high, most, low])
    }

    /// The silhouette of the hair alone from one side, a band every `spacing` cm.
    pub fn hair(&self, view: View, spacing: f64) -> Silhouette {
        let ways: Vec<_> = self
            .hairs
            .iter()
            .map(|&hair| fall_path(&self.body, &self.worn, hair, spacing).0)
            .collect();
        Silhouette::of_hair(view, &ways, spacing)
    }

    /// The silhouette of hair and body from one side, a band every `spacing` cm.
    pub fn silhouette(&self, view: View, spacing: f64) -> Silhouette {
        let lowest = self.fallen.iter().map(|f| f.tip.z);
        let low = lowest.fold(0.0, f64::min);
        let high = self.body.skull().top;
        self.hair(view, spacing)
            .with(&Silhouette::of_body(view, &self.body, (low, high), spacing))
    }
}

impl Job<'_> {
    /// Lets down what the plan is about, at about `count` places: all hair, or of a plan that covers
    /// a part only the hair that it cuts.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn let_down(&self, outcome: &Outcome, count: usize) -> Result<LetDown, CutError> {
        let mut samples = self.head.samples(match self.plan.covers {
            Covers::All => count,
            // Enough for a part as small as a fringe.
            Covers::Part => 4 * count,
        });
        if self.plan.covers == Covers::Part {
            let cuts = |at: &Sample| {
                let mut cutting = outcome.sections.iter().filter(|s| s.cuts());
                cutting.any(|s| s.section.patch.holds(at.root))
            };
            samples.retain(cuts);
        }
        let_down_at(self.head, &outcome.lengths, &self.wear(), &samples)
    }

    /// How the hair is worn by what was chosen: parted where the plan asks, whorl at the crown.
    pub fn wear(&self) -> Wear {
        Wear::parted(self.choices.parting(self.plan).azimuth())
    }
}
