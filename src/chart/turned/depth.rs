//! How near the surface lies, place by place of the picture: what hides what.

use crate::geometry::Vec3;

/// How fine the places are, cm.
const FINE: f64 = 0.25;

/// The nearest depth towards the eye at each place of a grid over the picture.
#[derive(Clone, Debug)]
pub(super) struct Depth {
    left: f64,
    low: f64,
    wide: usize,
    high: usize,
    nearest: Vec<f32>,
}

impl Depth {
    /// Nothing yet, over where these turned places lie.
    pub fn over(places: &[Vec3]) -> Self {
        let (mut least, mut most) = (Vec3::splat(f64::MAX), Vec3::splat(f64::MIN));
        for p in places {
            least = least.min(*p);
            most = most.max(*p);
        }
        let cells = |from: f64, to: f64| ((to - from) / FINE).clamp(0.0, 2000.0) as usize + 4;
        let (wide, high) = (cells(least.x, most.x), cells(least.y, most.y));
        Self {
            left: least.x - FINE,
            low: least.y - FINE,
            wide,
            high,
            nearest: vec![f32::NEG_INFINITY; wide * high],
        }
    }

    /// A turned place in the grid's own measure: columns, rows, and depth in cm.
    pub fn placed(&self, p: Vec3) -> Vec3 {
        let fine = FINE.recip();
        Vec3::new((p.x - self.left) * fine, (p.y - self.low) * fine, p.z)
    }

    /// Lays a triangle over it, its corners placed.
    pub fn lay(&mut self, [a, b, c]: [Vec3; 3]) {
        let from = |one: f64, two: f64, three: f64| one.min(two).min(three).ceil().max(0.0);
        let to = |one: f64, two: f64, three: f64| one.max(two).max(three);
        let (left, right) = (from(a.x, b.x, c.x), to(a.x, b.x, c.x));
        let (low, high) = (from(a.y, b.y, c.y), to(a.y, b.y, c.y));
        // Many lie between the places of the grid.
        if left > right || low > high {
            return;
        }
        let (ab, ac) = (b - a, c - a);
        let whole = ab.x * ac.y - ab.y * ac.x;
        if whole.abs() < 1e-9 {
            return;
        }
        let share = whole.recip();
        // The shares of the second and the third corner, and the depth, by the step across.
        let (across_t, across_u) = (ac.y * share, -ab.y * share);
        let (up_t, up_u) = (-ac.x * share, ab.x * share);
        let across = across_t * ab.z + across_u * ac.z;
        let first = left as usize;
        let last = (right as usize).min(self.wide - 1);
        for y in low as usize..=(high as usize).min(self.high - 1) {
            let (px, py) = (left - a.x, y as f64 - a.y);
            let mut t = px * across_t + py * up_t;
            let mut u = px * across_u + py * up_u;
            let mut near = a.z + t * ab.z + u * ac.z;
            for x in first..=last {
                if t >= 0.0 && u >= 0.0 && t + u <= 1.0 {
                    let cell = &mut self.nearest[y * self.wide + x];
                    *cell = cell.max(near as f32);
                }
                t += across_t;
                u += across_u;
                near += across;
            }
        }
    }

    /// Whether a turned place lies more than `by` cm behind what is seen at all four places about it.
    pub fn hides(&self, p: Vec3, by: f64) -> bool {
        let (x, y) = ((p.x - self.left) / FINE, (p.y - self.low) / FINE);
        if !(x >= 0.0 && y >= 0.0) {
            return false;
        }
        let (x, y) = (x as usize, y as usize);
        if x + 1 >= self.wide || y + 1 >= self.high {
            return false;
        }
        let behind = (p.z + by) as f32;
        [(x, y), (x + 1, y), (x, y + 1), (x + 1, y + 1)]
            .into_iter()
            .all(|(x, y)| self.nearest[y * self.wide + x] > behind)
    }
}
