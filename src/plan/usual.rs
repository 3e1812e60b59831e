//! What cuts usually take: regions, the lines that bound them, and what an area begins as.

use super::partings::{Area, Bound, Edge, End, Line, Pattern, Place};
use crate::head::Landmark;
use crate::words::{noted, tr};

/// Regions that cuts usually take, with what they are called.
pub fn usual_regions() -> Vec<(Vec<Bound>, &'static str)> {
    let occipital = Line::Level {
        at: Landmark::Occipital,
        up: 0.0,
    };
    let ear = Line::ToHighPoint(Edge::AboveEar);
    let fringe = Line::Fringe {
        depth: 5.0,
        width: 28.0,
    };
    let across = Line::EarToEar;
    vec![
        (vec![], tr("All of the hair")),
        (
            vec![Bound::Before(across)],
            tr("Before the ear-to-ear parting"),
        ),
        (
            vec![Bound::Behind(across)],
            tr("Behind the ear-to-ear parting"),
        ),
        (
            vec![Bound::Behind(across), Bound::Below(occipital)],
            tr("Nape, below the occipital bone"),
        ),
        (
            vec![Bound::Behind(across), Bound::Above(occipital)],
            tr("Back, above the occipital bone"),
        ),
        (
            vec![Bound::Above(Line::Horseshoe)],
            tr("Top, inside the horseshoe"),
        ),
        (
            vec![Bound::Below(Line::Horseshoe)],
            tr("All below the horseshoe"),
        ),
        (
            vec![Bound::Before(across), Bound::Below(Line::Horseshoe)],
            tr("Sides, below the horseshoe"),
        ),
        (
            vec![Bound::Before(across), Bound::Above(Line::Horseshoe)],
            tr("Top, before the ear-to-ear parting"),
        ),
        (vec![Bound::Before(fringe)], tr("Fringe triangle")),
        (
            vec![Bound::Before(ear)],
            tr("Before the ear, up to the high point"),
        ),
        (
            vec![Bound::Behind(ear)],
            tr("Behind the ear, up to the high point"),
        ),
    ]
}

impl Line {
    /// The lines that regions are usually bounded by.
    pub const USUAL: [Self; 6] = [
        Self::EarToEar,
        Self::Level {
            at: Landmark::Occipital,
            up: 0.0,
        },
        Self::Level {
            at: Landmark::ParietalRidge,
            up: 0.0,
        },
        Self::Level {
            at: Landmark::Crown,
            up: 0.0,
        },
        Self::Horseshoe,
        Self::ToHighPoint(Edge::AboveEar),
    ];
}

impl Area {
    /// Which kind it is, from 0: parted, a front piece, wedges, single places.
    pub const fn kind(&self) -> usize {
        match self {
            Self::Parted { .. } => 0,
            Self::FrontPiece { .. } => 1,
            Self::Pivoting { .. } => 2,
            Self::Places { .. } => 3,
        }
    }

    /// An area of another kind as it begins; itself where it is of that kind.
    pub fn as_kind(&self, kind: usize) -> Self {
        if kind == self.kind() {
            return self.clone();
        }
        match kind {
            1 => Self::FrontPiece {
                width: 20.0,
                depth: 4.0,
                name: noted("Front piece").to_owned(),
            },
            2 => Self::Pivoting {
                edges: vec![
                    Edge::Parting,
                    Edge::Temple,
                    Edge::BehindEar,
                    Edge::BackCentre,
                ],
                names: [noted("Front"), noted("Side"), noted("Back")]
                    .map(str::to_owned)
                    .into(),
            },
            3 => Self::Places {
                places: vec![Place {
                    name: noted("Temple hairline").to_owned(),
                    azimuth: 52.0,
                    out: 0.95,
                }],
            },
            _ => Self::Parted {
                region: Vec::new(),
                pattern: Pattern::Horizontal {
                    spacing: 3.0,
                    from: End::Bottom,
                },
                name: noted("Section").to_owned(),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_area_becomes_each_kind_and_stays_as_it_is_in_its_own() {
        let mut area = Area::Places { places: Vec::new() };
        for kind in [0, 1, 2, 3] {
            area = area.as_kind(kind);
            assert_eq!(area.kind(), kind);
            assert_eq!(area.as_kind(kind), area);
        }
    }

    #[test]
    fn no_two_usual_regions_are_one() {
        let all = usual_regions();
        for (i, (region, name)) in all.iter().enumerate() {
            let twice = all[..i].iter().any(|(r, n)| r == region || n == name);
            assert!(!twice, "{name}");
        }
    }
}
