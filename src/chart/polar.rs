//! Roots of a scalp laid flat, many of them one after the other.

use crate::geometry::{Convex, Vec3};
use crate::head::{Head, Meridian, Spot};
use kurbo::Point;
use std::f64::consts::{PI, TAU};

/// The scalp about its high point, in columns.
pub(super) struct Polar<'a> {
    head: &'a Head,
    around: usize,
    /// Only the left is looked at; the right is like it.
    alike: bool,
    meridians: Vec<Option<Meridian>>,
}

impl<'a> Polar<'a> {
    /// The scalp of a head in so many columns about the whole of it; of the left alone if both sides are
    /// `alike`.
    pub fn new(head: &'a Head, around: usize, alike: bool) -> Self {
        Self {
            head,
            around,
            alike,
            meridians: vec![None; around + 1],
        }
    }

    /// The azimuth of the first column.
    pub fn start(&self) -> f64 {
        // Of two sides no column stands in the middle, where hair may belong to either.
        if self.alike {
            0.0
        } else {
            TAU / self.around as f64 / 2.0 - PI
        }
    }

    /// The root at a spot.
    pub fn root(&mut self, spot: Spot) -> Vec3 {
        let azimuth = if self.alike {
            spot.azimuth.abs()
        } else {
            spot.azimuth
        };
        let down = self.head.hairline().distance(azimuth) * spot.out;
        // How a way down bends changes little from column to column.
        let turns = (azimuth - self.start()).rem_euclid(TAU) / TAU * self.around as f64;
        let column = turns as usize;
        let [one, next] = [column, column + 1].map(|c| self.down(c, down));
        let way = one.lerp(next, turns - column as f64);
        let (sin, cos) = azimuth.sin_cos();
        self.head
            .skull()
            .along(Vec3::new(sin * way.x, cos * way.x, way.y))
    }

    /// The place so far down a column: out from the upright axis, and up.
    fn down(&mut self, column: usize, down: f64) -> Point {
        let azimuth = self.start() + column as f64 / self.around as f64 * TAU;
        let head = self.head;
        let all = self.meridians.len();
        let meridian = self.meridians[column % all].get_or_insert_with(|| head.meridian(azimuth));
        let p = meridian.at(down / meridian.hairline());
        Point::new((p.x * p.x + p.y * p.y).sqrt(), p.z)
    }
}
