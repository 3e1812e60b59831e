//! A worked-out head of hair let down, with all that its outlines are drawn from.

use super::super::outline;
use super::super::svg::Svg;
use super::super::view::View;
use crate::cut::{CutError, EndAt, Job, LetDown, Outcome, PLACES};
use crate::fall::{Drape, Hanging, Row};
use crate::geometry::Vec3;
use crate::head::{Head, Landmark, Side, Spot};
use std::f64::consts::{PI, TAU};
use std::sync::OnceLock;

/// Places along the hairline besides: most of an outline is its hair.
const EDGE: u32 = 240;
/// They lie closer by this share at the front than on average, and further apart at the back: steps in the
/// lengths round the face show most.
const CLOSER: f64 = 0.6;
/// How near to the middle line and to the parting some of them lie, radians about the high point: what
/// falls furthest forward and back grows there.
const BESIDE: f64 = 0.004;
/// How finely ways of hair are followed over the body, cm.
const SPACING: f64 = 0.5;
/// From a side, hair this far beyond the middle line still counts as seen, cm: what lies on the middle
/// line belongs to both sides.
const BEYOND: f64 = 0.5;
/// Seen from the front or the back, hair less far beyond the ear's opening than this lies before the head,
/// cm.
const BESIDE_EAR: f64 = 1.0;

/// Hair let down on its head. Made once, it is drawn from any side.
#[derive(Clone, Debug)]
pub struct Draped {
    /// The head.
    pub head: Head,
    /// The hair.
    pub down: LetDown,
    /// Where front pieces, sides and back end.
    pub ends: Vec<EndAt>,
    drape: Drape,
    /// What was asked for already: one a view, and of the front and the back what lies before the head.
    rows: [OnceLock<Vec<Row>>; 4],
    near: [OnceLock<Vec<Row>>; 2],
    drawn: [OnceLock<String>; 4],
}

impl Draped {
    /// Lets the hair of an outcome down.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn of(job: &Job<'_>, outcome: &Outcome) -> Result<Self, CutError> {
        let down = outcome.let_down(job, PLACES)?;
        let round = (0..EDGE).map(|i| (f64::from(i) + 0.5) / f64::from(EDGE) * TAU);
        let closer = round.map(|azimuth| azimuth - CLOSER * azimuth.sin());
        let parting = job.choices.parting(job.plan).azimuth();
        let beside = [0.0, PI, parting].into_iter();
        let beside = beside.flat_map(|middle| [middle - BESIDE, middle + BESIDE]);
        let edge = closer.chain(beside).map(|azimuth| {
            let root = job.head.place(Spot { azimuth, out: 1.0 });
            let length = outcome.lengths.falls_to(job.head, root)?;
            Ok(Hanging { root, length })
        });
        let edge = edge.collect::<Result<Vec<Hanging>, CutError>>()?;
        Ok(Self {
            head: job.head.clone(),
            ends: outcome.ends_round(job, &down)?,
            drape: down.drape(&edge, SPACING),
            down,
            rows: Default::default(),
            near: Default::default(),
            drawn: Default::default(),
        })
    }

    /// What its hair covers from one side, row by row: from the left and the right the hair of that side,
    /// from the front and the back all of it. Worked out the first time it is asked for.
    pub fn rows(&self, view: View) -> &[Row] {
        let rows = || match view {
            View::Left | View::Right => self.drape.rows(view.falls(), |p| view.depth(p) > -BEYOND),
            View::Front | View::Back => self.drape.rows(view.falls(), |_| true),
        };
        self.rows[view as usize].get_or_init(rows)
    }

    /// The head alone from one side, drawn.
    pub(super) fn drawn(&self, view: View) -> &str {
        self.drawn[view as usize].get_or_init(|| {
            let mut svg = Svg::default();
            if matches!(view, View::Front | View::Back) {
                outline::draw_edge(&mut svg, "o-flesh", &self.head, view);
            }
            outline::draw(&mut svg, &self.head, view);
            svg.body()
        })
    }

    /// From the front or the back: what lies before the head, with all that lies over it. From the front
    /// it leaves the face free. From a side nothing.
    pub(super) fn near_rows(&self, view: View) -> &[Row] {
        let (near, edge) = match view {
            View::Left | View::Right => return &[],
            View::Front => (&self.near[0], Landmark::FrontHairline),
            View::Back => (&self.near[1], Landmark::Nape),
        };
        near.get_or_init(|| {
            let ear = view.depth(self.head.ear_opening(Side::Left)) - BESIDE_EAR;
            let over = self.head.landmark(edge, Side::Centre).z;
            let seen = |p: Vec3| view.depth(p) > ear || p.z > over;
            self.drape.rows(view.falls(), seen)
        })
    }
}
