//! The head as it is seen from any side: its outline, the held hair of a section, the hair let down.
//!
//! `eye` is from where; `sculpt` the surface that is drawn and `mesh` its outline, with `depth` for what it
//! hides of itself; `features` the lines of the face; `cover` what the model's own convex parts hide of the
//! hair; `scene` what lies on the head at one place of a cut. What stays is built once a head
//! ([`Turned::new`]); one turn of the eye ([`Turned::drawn`]) is a few path texts for elements that are
//! there already, so that the picture follows a hand.

mod best;
mod cover;
mod depth;
mod eye;
mod features;
mod mesh;
mod runs;
mod scene;
mod sculpt;

pub use best::{facing, seen_best};
pub use eye::{Eye, Turning};
pub use scene::Scene;

use super::svg::{escaped, put};
use super::view::SCALE;
use crate::geometry::Vec3;
use crate::head::{Body, Head, Side};
use cover::Cover;
use depth::Depth;
use eye::Frame;
use features::Feature;
use kurbo::Point;
use mesh::Mesh;
use runs::{runs, visible};
use sculpt::Sculpt;

/// The classes of the paths that a picture is made of, in the order in which they are drawn.
pub const PENS: [&str; 15] = [
    "t-hair-far",
    "d-body",
    "d-patch",
    "t-done",
    "d-hairline",
    "d-head",
    "t-feature",
    "d-ear",
    "t-hair",
    "d-strand-light",
    "d-strand-behind",
    "d-strand",
    "t-root",
    "t-fingers-behind",
    "d-fingers",
];
const HAIR_FAR: usize = 0;
const BODY: usize = 1;
const PATCH: usize = 2;
const DONE: usize = 3;
const HAIRLINE: usize = 4;
const OUTLINE: usize = 5;
const FEATURE: usize = 6;
const EAR: usize = 7;
const HAIR: usize = 8;
const GUIDE: usize = 9;
const STRAND_BEHIND: usize = 10;
const STRAND: usize = 11;
const ROOT: usize = 12;
const FINGERS_BEHIND: usize = 13;
const FINGERS: usize = 14;

/// How far below the chin the outline is that of the body, drawn lightly, cm.
const COLLAR: f64 = 2.0;
/// How far below the chin its folds lie, cm.
const THROAT: f64 = 3.4;
/// The body is there at least down to here, cm: the shoulders begin.
const NECK: f64 = -28.0;
/// Hair may lie so far inside the drawn surface and be seen, cm: it rests on the model's parts, which are
/// rounder than a face.
const RESTS: f64 = 1.4;
/// The same of lines that lie on the surface, cm.
const LIES: f64 = 0.3;
/// The same of a rim, that of an ear or the jaw: its own surface stands before it.
const RIMS: f64 = 0.8;
/// A line on the surface is seen where that faces the eye by so much (1 is straight).
const FACES: f64 = 0.06;
/// How far beside the way of its neighbours a place of a line may lie and be left out, units of the picture.
const STRAIGHT: f64 = 0.1;
/// How finely the hairline is drawn, degrees.
const HAIRLINE_STEP: usize = 4;

/// What a picture is made of: the data of one path for each of [`PENS`].
pub type Drawn = [String; PENS.len()];

/// A head that can be turned.
#[derive(Clone, Debug)]
pub struct Turned {
    body: Body,
    mesh: Mesh,
    collar: f64,
    face: Vec<Feature>,
    jaw: Feature,
    ears: Vec<Feature>,
    hairline: Vec<Vec3>,
}

impl Turned {
    /// A head with its body down to the height `bottom`, cm; at least neck and shoulders are there.
    pub fn new(head: &Head, bottom: f64) -> Self {
        let body = Body::of(head);
        let sculpt = Sculpt::new(head, &body);
        let collar = sculpt.chin() - COLLAR;
        let bottom = if bottom.is_finite() {
            bottom.max(-120.0)
        } else {
            NECK
        };
        let mut mesh = Mesh::new(head, &sculpt, bottom.min(NECK));
        let ears: Vec<Feature> = [Side::Left, Side::Right]
            .into_iter()
            .flat_map(|side| features::ear(head, side))
            .collect();
        for rim in ears.iter().step_by(2) {
            mesh = mesh.with(rim.places.iter().map(|(p, _)| *p).collect());
        }
        let round = (0..=360).step_by(HAIRLINE_STEP);
        Self {
            mesh,
            collar,
            face: features::face(&sculpt),
            jaw: features::jaw(&sculpt),
            ears,
            hairline: round
                .map(|degrees| head.meridian((degrees as f64).to_radians()).at(1.0))
                .collect(),
            body,
        }
    }

    /// What an eye sees of the head and of what lies on it.
    pub fn drawn(&self, eye: Eye, scene: &Scene) -> Drawn {
        self.draw(eye, scene, false)
    }

    /// The same with half of the hair that is let down, while a hand turns it.
    pub fn sketched(&self, eye: Eye, scene: &Scene) -> Drawn {
        self.draw(eye, scene, true)
    }

    fn draw(&self, eye: Eye, scene: &Scene, quick: bool) -> Drawn {
        let frame = eye.frame();
        let seen = self.mesh.seen(&frame);
        let cover = Cover::new(&self.body, frame);
        let sight = Sight {
            frame,
            cover,
            depth: seen.depth,
        };
        let mut drawn = Drawn::default();
        for run in seen.outline.iter().filter(|run| !self.is_throat(run)) {
            // Below the collar it is drawn lightly.
            let below = |p: Vec3| p.z < self.collar;
            for (head, piece) in runs(run, &below) {
                sight.curve(&mut drawn[if head { OUTLINE } else { BODY }], &piece);
            }
        }
        for (pen, features) in [(FEATURE, &self.face), (EAR, &self.ears)] {
            for feature in features {
                sight.feature(&mut drawn[pen], feature);
            }
        }
        sight.feature(&mut drawn[EAR], &self.jaw);
        let hides = |p: Vec3| sight.hides(p);
        for (seen, run) in runs(&self.hairline, &hides) {
            if seen {
                sight.line(&mut drawn[HAIRLINE], &run);
            }
        }
        self.lay(&mut drawn, &sight, scene, quick);
        drawn
    }

    /// Whether a piece of outline is a fold under the chin alone, which is too small to tell anything.
    fn is_throat(&self, run: &[Vec3]) -> bool {
        let chin = self.collar + COLLAR;
        run.iter().all(|p| p.z > chin - THROAT && p.z < chin + 0.3)
    }

    fn lay(&self, drawn: &mut Drawn, sight: &Sight, scene: &Scene, quick: bool) {
        let hides = |p: Vec3| sight.hides(p);
        for edge in &scene.done {
            for (_, run) in runs(edge, &hides).iter().filter(|(seen, _)| *seen) {
                sight.line(&mut drawn[DONE], run);
            }
        }
        let patch = visible(&scene.patch, &hides);
        if patch.len() > 2 {
            sight.line(&mut drawn[PATCH], &patch);
            drawn[PATCH].push('Z');
        }
        for way in &scene.guide {
            for (_, run) in runs(way, &hides).iter().filter(|(seen, _)| *seen) {
                sight.line(&mut drawn[GUIDE], run);
            }
        }
        for way in &scene.strands {
            for (seen, run) in runs(way, &hides) {
                let pen = if seen { STRAND } else { STRAND_BEHIND };
                sight.line(&mut drawn[pen], &run);
            }
        }
        for &root in scene.roots.iter().filter(|root| !sight.hides(**root)) {
            sight.dot(&mut drawn[ROOT], root);
        }
        match scene.line[..] {
            [] => {}
            [point] => {
                let pen = if sight.hides(point) {
                    FINGERS_BEHIND
                } else {
                    FINGERS
                };
                sight.dot(&mut drawn[pen], point);
            }
            _ => {
                for (seen, run) in runs(&scene.line, &hides) {
                    let pen = if seen { FINGERS } else { FINGERS_BEHIND };
                    sight.line(&mut drawn[pen], &run);
                }
            }
        }
        for (i, way) in scene.hairs.iter().enumerate() {
            // Left and right come in pairs.
            if quick && i / 2 % 2 == 1 {
                continue;
            }
            let Some(root) = way.first() else { continue };
            let pen = if sight.cover.skull_hides(sight.frame.turned(*root)) {
                HAIR_FAR
            } else {
                HAIR
            };
            for (_, run) in runs(way, &hides).iter().filter(|(seen, _)| *seen) {
                sight.line(&mut drawn[pen], run);
            }
        }
    }
}

/// One eye before one head.
struct Sight {
    frame: Frame,
    cover: Cover,
    depth: Depth,
}

impl Sight {
    /// Whether head or body hides a place that lies on them or outside.
    fn hides(&self, p: Vec3) -> bool {
        let turned = self.frame.turned(p);
        self.depth.hides(turned, RESTS) || self.cover.hides(p, turned)
    }

    fn feature(&self, data: &mut String, feature: &Feature) {
        let mut run: Vec<Vec3> = Vec::new();
        let lies = if feature.both { RIMS } else { LIES };
        for &(p, normal) in &feature.places {
            let seen = (feature.both || normal.dot(self.frame.toward) > FACES)
                && !self.depth.hides(self.frame.turned(p), lies);
            if seen {
                run.push(p);
            } else {
                self.curve(data, &std::mem::take(&mut run));
            }
        }
        self.curve(data, &run);
    }

    /// Straight from place to place; places on the way of their neighbours are left out.
    fn line(&self, data: &mut String, places: &[Vec3]) {
        let mut last = None;
        for (i, &p) in places.iter().enumerate() {
            let at = self.frame.project(p);
            let Some(from) = last else {
                write(data, 'M', at);
                last = Some(at);
                continue;
            };
            let on_the_way = places.get(i + 1).is_some_and(|next| {
                let way = self.frame.project(*next) - from;
                way.cross(at - from).abs() < STRAIGHT * way.hypot()
            });
            if !on_the_way {
                write(data, 'L', at);
                last = Some(at);
            }
        }
    }

    /// A dot, as a line of no length with round ends.
    fn dot(&self, data: &mut String, p: Vec3) {
        write(data, 'M', self.frame.project(p));
        data.push_str("h0");
    }

    /// A smooth line from the first place to the last, along the others.
    fn curve(&self, data: &mut String, places: &[Vec3]) {
        let [first, .., last] = places else { return };
        write(data, 'M', self.frame.project(*first));
        for pair in places.windows(2).skip(1) {
            let (at, next) = (self.frame.project(pair[0]), self.frame.project(pair[1]));
            write(data, 'Q', at);
            write(data, ' ', at.midpoint(next));
        }
        write(data, 'L', self.frame.project(*last));
    }
}

fn write(data: &mut String, command: char, at: Point) {
    data.push(command);
    put(data, at.x);
    data.push(' ');
    put(data, at.y);
}

/// The measures of a picture that holds head and hair in every turn, as SVG's `viewBox` takes them: `low` to
/// `high` are heights, `wide` half its breadth, cm.
pub fn turned_window((low, high): (f64, f64), wide: f64) -> String {
    let units = |cm: f64| (cm * SCALE).round();
    format!(
        "{} {} {} {}",
        units(-wide),
        units(-high),
        units(2.0 * wide),
        units(high - low)
    )
}

/// A whole picture, with a title and a description for those who can't see it.
pub fn turned_picture(drawn: &Drawn, window: &str, title: &str, description: &str) -> String {
    let mut body = String::new();
    for (class, data) in PENS.iter().zip(drawn) {
        body += &format!(r#"<path class="{class}" d="{data}"/>"#);
    }
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="drawing turned" role="img" viewBox="{window}"><title>{}</title><desc>{}</desc>{body}</svg>"#,
        escaped(title),
        escaped(description),
    )
}
