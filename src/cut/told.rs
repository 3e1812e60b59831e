//! Where the hair of a section falls, told by landmarks.

use super::fold::Job;
use super::lengths::Lengths;
use super::section::Strand;
use crate::fall::{Fallen, Hanging, natural_fall};
use crate::hair::{FallsTo, Worn};
use crate::head::{Body, BodyPart, Head, Landmark, Level, Side};

/// A head of hair ready to be let down section by section.
#[derive(Clone, Debug)]
pub struct Telling<'a> {
    head: &'a Head,
    lengths: &'a Lengths,
    body: Body,
    worn: Worn,
    top: f64,
}

/// What some hairs fall to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// The shortest of them, as it hangs.
    pub short: FallsTo,
    /// The longest, as it hangs.
    pub long: FallsTo,
    /// How far straight below the high point the lowest end falls, cm.
    pub below_top: f64,
    /// That level.
    pub level: Level,
    /// What that end lies on; none if it hangs free.
    pub rests: Option<BodyPart>,
}

impl<'a> Telling<'a> {
    /// The hair of `lengths`, worn as was chosen.
    pub fn new(job: &Job<'a>, lengths: &'a Lengths) -> Self {
        let head = job.head;
        Self {
            head,
            lengths,
            body: Body::of(head),
            worn: job.wear().on(head),
            top: head.landmark(Landmark::HighPoint, Side::Centre).z,
        }
    }

    /// How far below the high point a height lies, cm.
    pub fn below_top(&self, z: f64) -> f64 {
        self.top - z
    }

    /// What the hair of these strands falls to after their cut. Of no strands: nothing, at the top.
    pub fn told(&self, strands: &[Strand]) -> Told {
        let hairs: Vec<Hanging> = strands
            .iter()
            .map(|strand| Hanging {
                root: strand.root,
                length: self.lengths.hangs(strand.root, strand.after),
            })
            .collect();
        let lowest: Option<Fallen> = natural_fall(&self.body, &self.worn, &hairs)
            .into_iter()
            .min_by(|a, b| a.tip.z.total_cmp(&b.tip.z));
        let z = lowest.map_or(self.top, |fallen| fallen.tip.z);
        let lengths = || hairs.iter().map(|hair| hair.length.cm());
        Told {
            short: FallsTo::from_cm(lengths().reduce(f64::min).unwrap_or(0.0)),
            long: FallsTo::from_cm(lengths().fold(0.0, f64::max)),
            below_top: self.below_top(z),
            level: Level::of(self.head, z),
            rests: lowest.and_then(|fallen| fallen.rests),
        }
    }
}
