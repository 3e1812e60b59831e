//! The outline's lowest edge: how low the hair reaches all the way round, and the steps in it.

use super::weight::Quarter;
use crate::geometry::Vec3;
use std::f64::consts::{PI, TAU};

/// Directions that the way round is shared into, at least and at most.
const SECTORS: (usize, usize) = (4, 3600);

/// The lowest tips, direction by direction about the upright axis through the middle of the head.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// The lowest tip in each sector, from straight back over the client's right, the front and the
    /// left; none where no hair fell.
    lowest: Vec<Option<f64>>,
}

/// A step in the edge: neighbouring directions whose hair ends at different heights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeStep {
    /// Where, radians about the upright axis: 0 the front, above 0 the client's left.
    pub azimuth: f64,
    /// How much lower the edge is just beyond it, where the azimuth is greater, than just before it,
    /// cm; below zero if it is higher.
    pub drop: f64,
}

impl Edge {
    /// The edge of these tips in `sectors` equal directions (4 to 3600). Use no more than the roots
    /// along the hairline fill, or its steps are gaps between samples.
    pub fn of(tips: impl IntoIterator<Item = Vec3>, sectors: usize) -> Self {
        let sectors = sectors.clamp(SECTORS.0, SECTORS.1);
        let mut lowest: Vec<Option<f64>> = vec![None; sectors];
        for tip in tips.into_iter().filter(|tip| tip.is_finite()) {
            let place = &mut lowest[sector(tip.x.atan2(tip.y), sectors)];
            *place = Some(place.map_or(tip.z, |z| z.min(tip.z)));
        }
        Self { lowest }
    }

    /// Azimuth in radians of the middle of each sector that holds a tip, and its lowest tip, cm;
    /// by rising azimuth from −π.
    pub fn points(&self) -> impl Iterator<Item = (f64, f64)> {
        let lowest = self.lowest.iter().enumerate();
        lowest.filter_map(|(i, z)| z.map(|z| (self.middle(i), z)))
    }

    /// The height of the edge at `azimuth` (radians, any turn), between the sectors on either side
    /// that hold tips; none if none does.
    pub fn level(&self, azimuth: f64) -> Option<f64> {
        let points: Vec<(f64, f64)> = self.points().collect();
        let (first, last) = (points.first()?, points.last()?);
        let at = wrapped(azimuth);
        let next = points.partition_point(|p| p.0 <= at);
        let before = next
            .checked_sub(1)
            .map_or((last.0 - TAU, last.1), |i| points[i]);
        let after = points.get(next).map_or((first.0 + TAU, first.1), |p| *p);
        let share = (at - before.0) / (after.0 - before.0);
        Some(before.1 + (after.1 - before.1) * share)
    }

    /// The mean height of the edge over one side, over the sectors that hold tips; none if none
    /// does.
    pub fn side(&self, side: Quarter) -> Option<f64> {
        let ours: Vec<f64> = self
            .points()
            .filter(|(azimuth, _)| {
                Quarter::of(Vec3::new(azimuth.sin(), azimuth.cos(), 0.0)) == side
            })
            .map(|(_, z)| z)
            .collect();
        (!ours.is_empty()).then(|| ours.iter().sum::<f64>() / ours.len() as f64)
    }

    /// The steps of more than `least` cm between neighbouring sectors, the largest first.
    pub fn steps(&self, least: f64) -> Vec<EdgeStep> {
        let width = TAU / self.lowest.len() as f64;
        let mut steps: Vec<EdgeStep> = (0..self.lowest.len())
            .filter_map(|i| {
                let beyond = self.lowest[(i + 1) % self.lowest.len()]?;
                Some(EdgeStep {
                    azimuth: wrapped(self.middle(i) + width / 2.0),
                    drop: self.lowest[i]? - beyond,
                })
            })
            .filter(|step| step.drop.abs() > least)
            .collect();
        steps.sort_by(|a, b| b.drop.abs().total_cmp(&a.drop.abs()));
        steps
    }

    fn middle(&self, i: usize) -> f64 {
        (i as f64 + 0.5) * TAU / self.lowest.len() as f64 - PI
    }
}

/// The same direction between −π and π; what is not a number is the front.
fn wrapped(azimuth: f64) -> f64 {
    let turned = (azimuth + PI).rem_euclid(TAU) - PI;
    if turned.is_finite() { turned } else { 0.0 }
}

fn sector(azimuth: f64, sectors: usize) -> usize {
    let place = (azimuth + PI) / TAU * sectors as f64;
    (place.max(0.0) as usize).min(sectors - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tips on a circle, `lower` on the client's left.
    fn tips(lower: f64) -> Vec<Vec3> {
        (0..360)
            .map(|i| {
                let azimuth = f64::from(i).to_radians() - PI + 0.001;
                let z = if azimuth > 0.0 { -20.0 - lower } else { -20.0 };
                Vec3::new(azimuth.sin() * 8.0, azimuth.cos() * 8.0, z)
            })
            .collect()
    }

    #[test]
    fn a_level_edge_has_no_steps() {
        let edge = Edge::of(tips(0.0), 36);
        assert_eq!(edge.steps(0.01), vec![]);
        assert_eq!(edge.level(2.3), Some(-20.0));
        assert_eq!(edge.side(Quarter::Back), Some(-20.0));
    }

    #[test]
    fn a_side_cut_lower_makes_a_step_front_and_back() {
        let edge = Edge::of(tips(1.5), 36);
        let steps = edge.steps(0.5);
        assert_eq!(steps.len(), 2);
        assert!(
            steps
                .iter()
                .any(|s| s.azimuth.abs() < 1e-9 && (s.drop - 1.5).abs() < 1e-9)
        );
        assert!(
            steps
                .iter()
                .any(|s| s.azimuth.abs() > 3.0 && (s.drop + 1.5).abs() < 1e-9)
        );
        assert_eq!(edge.side(Quarter::Left), Some(-21.5));
        assert_eq!(edge.side(Quarter::Right), Some(-20.0));
        // Between a right and a left sector it runs straight.
        assert!((edge.level(0.0).unwrap() + 20.75).abs() < 1e-9);
    }

    #[test]
    fn no_hair_has_no_edge() {
        let edge = Edge::of([Vec3::NAN], 0);
        assert_eq!(edge.level(0.0), None);
        assert_eq!(edge.side(Quarter::Front), None);
        let one = Edge::of([Vec3::new(1.0, 0.0, -3.0)], 12);
        assert_eq!(one.level(f64::NAN), Some(-3.0));
        assert_eq!(one.steps(0.0), vec![]);
    }
}
