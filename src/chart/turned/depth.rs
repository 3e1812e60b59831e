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

    /// Lays a turned triangle over it.
    pub fn lay(&mut self, corners: [Vec3; 3]) {
        let [a, b, c] =
            corners.map(|p| Vec3::new((p.x - self.left) / FINE, (p.y - self.low) / FINE, p.z));
        let whole = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
        if whole.abs() < 1e-9 {
            return;
        }
        let least = a.min(b).min(c);
        let most = a.max(b).max(c);
        let from = |low: f64| low.ceil().max(0.0) as usize;
        let to = |high: f64, end: usize| (high.floor().max(0.0) as usize).min(end - 1);
        // The shares of the second and the third corner, and the depth, by the step across.
        let (across_t, across_u) = ((c.y - a.y) / whole, (a.y - b.y) / whole);
        let across = across_t * (b.z - a.z) + across_u * (c.z - a.z);
        let (first, last) = (from(least.x), to(most.x, self.wide));
        for y in from(least.y)..=to(most.y, self.high) {
            let (px, py) = (first as f64 - a.x, y as f64 - a.y);
            let mut t = px * across_t - py * (c.x - a.x) / whole;
            let mut u = py * (b.x - a.x) / whole + px * across_u;
            let mut near = a.z + t * (b.z - a.z) + u * (c.z - a.z);
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
