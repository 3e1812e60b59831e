//! The surface that is drawn as the head: the skull as it is, and a face, a neck and shoulders about it.
//!
//! Every level of the head is a closed line round an upright axis; the surface is the distance from that
//! axis by level and turn. The skull is the model's own. The face runs through the middle line of the flat
//! side drawing and is as broad as the flat front drawing, so that the head is recognised from any side. All
//! proportions of the face are judgement; no number is read off it.

use super::super::outline;
use crate::geometry::{Convex, Placed, Vec3};
use crate::head::{Body, BodyPart, Head, Landmark, Side};

/// Pairs of a height or a share and a value, by rising first.
type Table<const N: usize> = [(f64, f64); N];

/// The middle line of the face without nose, lips and chin, cm before the line from brow to chin, by the
/// share of the way down it.
const FLAT: Table<12> = [
    (-0.12, -0.8),
    (0.0, -0.12),
    (0.06, -0.15),
    (0.15, -0.38),
    (0.3, -0.2),
    (0.45, 0.05),
    (0.6, 0.15),
    (0.7, 0.1),
    (0.8, 0.0),
    (0.9, 0.05),
    (0.97, -0.1),
    (1.0, -0.35),
];
/// How far to each side nose, lips and chin reach, cm, by the share of the way down.
const BROAD: Table<10> = [
    (0.0, 1.4),
    (0.15, 0.95),
    (0.26, 1.05),
    (0.42, 1.5),
    (0.5, 2.0),
    (0.545, 1.9),
    (0.6, 2.3),
    (0.66, 3.0),
    (0.76, 2.8),
    (0.92, 3.2),
];
/// Half the breadth of the face, as a share of half the head's breadth, by the share of the way down.
const HALF_BROAD: Table<10> = [
    (-0.12, 0.86),
    (0.0, 0.93),
    (0.3, 0.925),
    (0.5, 0.88),
    (0.66, 0.80),
    (0.78, 0.70),
    (0.88, 0.54),
    (0.95, 0.36),
    (0.985, 0.24),
    (1.0, 0.1),
];
/// Where the face is broadest: the share of the way forward from the axis to its middle line.
const BROADEST: Table<6> = [
    (-0.12, 0.1),
    (0.3, 0.14),
    (0.6, 0.2),
    (0.78, 0.34),
    (0.9, 0.55),
    (1.0, 0.8),
];
/// The sockets of the eyes: how far aside and down, how broad and high, how deep, cm and share.
const EYE: (f64, f64) = (3.15, 0.2);
/// Half the neck's breadth, cm, by cm below the chin.
const NECK_BROAD: Table<9> = [
    (-8.0, 5.2),
    (-3.0, 5.4),
    (0.0, 5.35),
    (1.0, 5.55),
    (1.8, 6.0),
    (2.4, 6.8),
    (2.9, 8.0),
    (3.4, 9.8),
    (4.2, 12.5),
];
/// How far below the chin the throat goes on from the flat drawing's end, and forward of there, cm.
const THROAT: Table<3> = [(1.2, 0.0), (3.2, 1.0), (6.0, 3.0)];
/// The power of the face's level lines before their broadest place; 2 is an ellipse.
const FULL: f64 = 2.25;
/// How far rounded the seams between the parts are, cm: before and behind, at the sides, to the shoulders.
const SEAM: f64 = 0.4;
const SIDE_SEAM: f64 = 1.8;
const SLOPE: f64 = 3.0;

/// The drawn surface of one head.
#[derive(Clone, Debug)]
pub(super) struct Sculpt {
    head: Head,
    brow: Vec3,
    chin: Vec3,
    /// Height and y of the middle line of the face, by rising height.
    profile: Vec<(f64, f64)>,
    /// The same of the throat and of the back of the neck.
    throat: Vec<(f64, f64)>,
    behind: Vec<(f64, f64)>,
    shoulders: Vec<Placed>,
}

impl Sculpt {
    pub fn new(head: &Head, body: &Body) -> Self {
        let brow = outline::brow(head);
        let chin = head.landmark(Landmark::Chin, Side::Centre);
        let face = outline::face_places(head);
        let (throat, face) = face.split_at(4);
        let mut throat = line(throat, false);
        let (low, end) = throat.first().copied().unwrap_or((chin.z, chin.y));
        throat.push((chin.z + 9.0, chin.y - 5.0));
        for (below, forward) in THROAT {
            throat.insert(0, (low - below, end + forward));
        }
        let mut behind = line(&outline::neck_places(head), true);
        behind.push((-4.0, -5.5));
        if let Some(&(low, end)) = behind.first() {
            behind.insert(0, (low - 4.0, end - 2.0));
        }
        let drawn =
            |part: &&(BodyPart, Placed)| matches!(part.0, BodyPart::Shoulders | BodyPart::Trunk);
        Self {
            brow,
            chin,
            profile: line(face, true),
            throat,
            behind,
            shoulders: body
                .parts()
                .iter()
                .filter(drawn)
                .map(|(_, shape)| *shape)
                .collect(),
            head: head.clone(),
        }
    }

    /// How long the face is from brow to chin, cm.
    pub fn long(&self) -> f64 {
        self.brow.z - self.chin.z
    }

    /// The height this share of the way down the face.
    pub fn level(&self, down: f64) -> f64 {
        self.brow.z - down * self.long()
    }

    /// Height of the chin, cm.
    pub fn chin(&self) -> f64 {
        self.chin.z
    }

    /// The axis at a height: upright through the head, then back into the neck.
    pub fn axis(&self, z: f64) -> Vec3 {
        let neck = self.chin.y - 11.4;
        let share = smooth((self.level(0.3) - z) / (0.75 * self.long()));
        Vec3::new(0.0, neck * share, z)
    }

    /// The place of the surface at a height and a turn (radians, 0 the front, above 0 the client's left).
    pub fn at(&self, z: f64, turn: f64) -> Vec3 {
        let out = Vec3::new(turn.sin(), turn.cos(), 0.0);
        let axis = self.axis(z);
        axis + out * self.reach(axis, out)
    }

    /// The place of the face at a height and so far to the client's left, cm, and its normal there.
    pub fn face(&self, z: f64, aside: f64) -> (Vec3, Vec3) {
        let axis = self.axis(z);
        let mut turn = (aside / 11.0).atan();
        for _ in 0..3 {
            let p = self.at(z, turn);
            turn += (aside - p.x) / (p.y - axis.y).max(1.0);
        }
        let p = self.at(z, turn);
        let across = self.at(z, turn + 0.01) - p;
        let up = self.at(z + 0.1, turn) - p;
        let normal = across.cross(up).normalize_or_zero();
        (p, if normal.y < 0.0 { -normal } else { normal })
    }

    /// The jaw from the chin to its corner on the left: where the face is broadest, level by level.
    pub fn jaw(&self) -> Vec<Vec3> {
        let chin = Vec3::new(0.0, self.chin.y + of(&FLAT, 0.99), self.level(0.998));
        let mut line = vec![chin];
        for share in [0.985, 0.965, 0.94, 0.91, 0.88, 0.85, 0.82, 0.79, 0.765] {
            let z = self.level(share);
            let flat = self.brow.y + (self.chin.y - self.brow.y) * share + of(&FLAT, share);
            let axis = self.axis(z).y;
            let y = axis + (flat - axis) * of(&BROADEST, share);
            let half = of(&HALF_BROAD, share) * self.head.skull().half_breadth;
            line.push(Vec3::new(half, y, z));
        }
        line
    }

    fn reach(&self, axis: Vec3, out: Vec3) -> f64 {
        let z = axis.z;
        let skull = self.head.skull();
        // Near its lower end the skull is inside the neck.
        let mut reach = if z > -0.95 * skull.bottom {
            skull.reach(axis, out, 7.0)
        } else {
            0.0
        };
        let down = (self.brow.z - z) / self.long();
        let seam = SEAM + (SIDE_SEAM - SEAM) * (1.0 - out.y * out.y);
        if (-0.12..1.0).contains(&down) {
            reach = union(reach, self.face_reach(axis, out, down), seam);
        }
        if z < self.level(0.2) {
            reach = union(reach, self.neck_reach(axis, out), seam);
        }
        let body = self.shoulders.iter().filter(|shape| shape.heights().1 > z);
        for shape in body {
            if let Some(far) = section(shape, axis, out) {
                reach = union(reach, far, SLOPE);
            }
        }
        reach.max(0.05)
    }

    fn face_reach(&self, axis: Vec3, out: Vec3, down: f64) -> f64 {
        let skull = self.head.skull();
        let line = self.brow.y + (self.chin.y - self.brow.y) * down;
        let flat = line + of(&FLAT, down);
        let half = of(&HALF_BROAD, down) * skull.half_breadth;
        let broadest = axis.y + (flat - axis.y) * of(&BROADEST, down);
        let behind = broadest - axis.y + 1.0;
        let from = axis.y - broadest;
        let mut reach = ellipse(from, (half, behind), out);
        let deep = flat - broadest;
        if from + out.y * reach > 0.0 {
            // Before its broadest place it is a little fuller than an ellipse.
            let least = ellipse(from, (half, deep), out);
            reach = least;
            for _ in 0..4 {
                let (x, y) = (
                    (out.x * reach / half).abs(),
                    ((from + out.y * reach) / deep).max(0.0),
                );
                let (fuller_x, fuller_y) = (x * x.sqrt().sqrt(), y * y.sqrt().sqrt());
                let over = fuller_x * x + fuller_y * y - 1.0;
                let slope = FULL * (fuller_x * out.x.abs() / half + fuller_y * out.y / deep);
                // No fuller than this anywhere.
                reach = (reach - over / slope.max(1e-3)).clamp(least, 1.1 * least);
            }
        }
        if out.y <= 0.0 {
            return reach;
        }
        let aside = (reach * out.x).abs();
        // Nose, lips and chin stand out in the middle, eyes lie in their sockets.
        let fades = (1.0 + down / 0.12).clamp(0.0, 1.0);
        let more = (of(&self.profile, axis.z) - flat) * fades;
        let bump = bell(aside / of(&BROAD, down)) * more;
        let (x, y) = ((aside - EYE.0) / 2.3, (down - EYE.1) * self.long() / 1.7);
        let socket = bell(x.hypot(y)) * -0.75;
        let (x, y) = ((aside - EYE.0) / 1.6, (down - EYE.1) * self.long() / 1.05);
        let ball = bell(x.hypot(y)) * 0.45;
        let (x, y) = ((aside - 4.6) / 3.0, (down - 0.36) * self.long() / 2.2);
        let cheek = bell(x.hypot(y)) * 0.35;
        reach + (bump + socket + ball + cheek) * out.y
    }

    fn neck_reach(&self, axis: Vec3, out: Vec3) -> f64 {
        let z = axis.z;
        let (front, back) = (of(&self.throat, z), of(&self.behind, z));
        let half = of(&NECK_BROAD, self.chin.z - z);
        let (middle, deep) = ((front + back) / 2.0, (front - back) / 2.0);
        ellipse(axis.y - middle, (half, deep), out)
    }
}

/// How far along `out` a level ellipse ends, from a place so far before its middle; nothing if it is passed
/// by.
fn ellipse(from: f64, (half, deep): (f64, f64), out: Vec3) -> f64 {
    let (x, y, start) = (out.x / half, out.y / deep, from / deep);
    let (a, b, c) = (x * x + y * y, start * y, start * start - 1.0);
    let under = b * b - a * c;
    if under > 0.0 {
        ((-b + under.sqrt()) / a).max(0.0)
    } else {
        0.0
    }
}

/// How far a part reaches at the level of `axis`, from there along `out`; none where it does not.
fn section(shape: &Placed, axis: Vec3, out: Vec3) -> Option<f64> {
    // F along the ray is a t² + 2 b t + c + 1.
    let (value, slope) = shape.slope(axis);
    let form = shape.jet(axis).hessian;
    let (a, b, c) = (out.dot(form * out) / 2.0, slope.dot(out) / 2.0, value - 1.0);
    let under = b * b - a * c;
    (under > 0.0)
        .then(|| (-b + under.sqrt()) / a)
        .filter(|far| *far > 0.0)
}

/// Height and y of places, by rising height; `closer` draws a smooth line through them.
fn line(places: &[Vec3], closer: bool) -> Vec<(f64, f64)> {
    let mut all: Vec<(f64, f64)> = Vec::new();
    let mut take = |z: f64, y: f64| {
        let at = all.partition_point(|p| p.0 < z);
        all.insert(at, (z, y));
    };
    for (i, p) in places.iter().enumerate() {
        take(p.z, p.y);
        let (Some(to), true) = (places.get(i + 1), closer) else {
            continue;
        };
        let before = places[i.saturating_sub(1)];
        let after = places.get(i + 2).unwrap_or(to);
        for share in [0.25_f64, 0.5, 0.75] {
            // As chart::svg draws it (Catmull and Rom, 1974).
            let (a, b) = (*p + (*to - before) / 6.0, *to - (*after - *p) / 6.0);
            let rest = 1.0 - share;
            let at = *p * rest.powi(3)
                + a * (3.0 * rest * rest * share)
                + b * (3.0 * rest * share * share)
                + *to * share.powi(3);
            take(at.z, at.y);
        }
    }
    all
}

/// The value of a table straight between its entries; beyond its ends that of the end.
fn of(table: &[(f64, f64)], at: f64) -> f64 {
    let next = table.partition_point(|(key, _)| *key < at);
    match (table.get(next.wrapping_sub(1)), table.get(next)) {
        (Some(&(a, from)), Some(&(b, to))) => from + (to - from) * (at - a) / (b - a).max(1e-9),
        (Some(&(_, end)), None) | (None, Some(&(_, end))) => end,
        (None, None) => 0.0,
    }
}

/// 0 to 1, level at both ends.
fn smooth(share: f64) -> f64 {
    let share = share.clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

/// 1 in the middle, 0 from 1 on, level at both.
fn bell(off: f64) -> f64 {
    let left = (1.0 - off * off).max(0.0);
    left * left
}

/// The farther of two reaches, rounded where they are within `seam` cm of each other.
fn union(a: f64, b: f64, seam: f64) -> f64 {
    let near = ((seam - (a - b).abs()) / seam).max(0.0);
    a.max(b) + near * near * seam / 4.0
}
