//! The outline of a head of hair with its weight beside it, on one scale of heights.
//!
//! At the left stands the head from any side with the hair let down; at the right how much of all hair
//! ends at each height. Both are drawn on the scales of one frame, so that a level runs through both.
//! What it is laid against is dashed: the hair before, another plan, the other side.

mod body;
mod draped;
mod edges;
mod frame;
mod weight;

pub use draped::Draped;
pub use weight::{Heap, heaps};

use super::outline;
use super::svg::{Svg, escaped};
use super::view::{SCALE, View};
use crate::cut::What;
use crate::fall::{BIN, Profile, Quarter, Row};
use crate::head::{Head, Landmark, Side};
use crate::measure::{Length, Unit};
use crate::words::tr;
use edges::{Edges, put_line};
use frame::Frame;
use kurbo::{Point, Rect};
use std::borrow::Cow;
use std::fmt::Write;

/// The head's part is at least so wide to either side of its middle, cm: face and neck have room.
const BESIDE: f64 = 11.5;
/// Air beside the hair, cm.
const AIR: f64 = 1.2;
/// How large the mark of an end is, units.
const MARK: f64 = 3.6;
/// How wide the word at the weight line is, in heights of a word.
const WEIGHT_WORD: f64 = 3.6;

/// What a head of hair is laid against.
#[derive(Clone, Copy, Debug)]
pub enum Against<'a> {
    /// Nothing.
    Nothing,
    /// Another head of hair, in the same frame.
    Other(&'a Draped),
    /// Its own other side, mirrored.
    OtherSide,
}

/// The outline of one head of hair from one side, with its weight.
#[derive(Clone, Copy, Debug)]
pub struct OutlineChart<'a> {
    /// From where it is seen.
    pub view: View,
    /// The hair: filled.
    pub hair: &'a Draped,
    /// What it is laid against: dashed.
    pub against: Against<'a>,
    /// What the scale of heights is read in.
    pub unit: Unit,
}

impl OutlineChart<'_> {
    /// The weight that is drawn, and that of what it is laid against; of both sides' hair where they are
    /// laid against each other.
    pub fn weights(&self) -> (&Profile, Option<&Profile>) {
        let own = &self.hair.down.weight;
        match self.against {
            Against::Nothing => (&own.overall, None),
            Against::Other(other) => (&own.overall, Some(&other.down.weight.overall)),
            Against::OtherSide => {
                let sides = [Quarter::Left, Quarter::Right].map(|side| own.side(side));
                match self.view {
                    View::Right => (sides[1], Some(sides[0])),
                    _ => (sides[0], Some(sides[1])),
                }
            }
        }
    }

    /// The weight by height, from the top down: the bars of the picture in numbers.
    pub fn table(&self) -> Vec<WeightRow> {
        let zero = self.hair.head.skull().top;
        let (own, other) = self.weights();
        let row = |heap: &Heap| WeightRow {
            from: Length::from_cm(zero - heap.high),
            to: Length::from_cm(zero - heap.low),
            percent: 0.0,
            other: other.map(|_| 0.0),
        };
        let mut rows: Vec<WeightRow> = Vec::new();
        let mut at = |heap: &Heap, set: fn(&mut WeightRow, f64)| {
            let new = row(heap);
            let below = rows
                .iter()
                .position(|r| r.from.cm() > new.from.cm() - 0.5 * BIN);
            let place = below.unwrap_or(rows.len());
            if rows
                .get(place)
                .is_none_or(|r| r.from.cm() > new.from.cm() + 0.5 * BIN)
            {
                rows.insert(place, new);
            }
            set(&mut rows[place], heap.percent);
        };
        for heap in heaps(own) {
            at(&heap, |row, percent| row.percent = percent);
        }
        for heap in other.map(heaps).unwrap_or_default() {
            at(&heap, |row, percent| row.other = Some(percent));
        }
        rows
    }

    /// Whether it is laid against hair on another head.
    pub fn heads_differ(&self) -> bool {
        match self.against {
            Against::Other(other) => !alike(&self.hair.head, &other.head),
            Against::Nothing | Against::OtherSide => false,
        }
    }

    /// The picture as SVG.
    ///
    /// # Errors
    /// A sentence when the scales could not be drawn.
    pub fn svg(&self, title: &str, description: &str) -> Result<String, String> {
        let laid = self.laid();
        let frame = self.frame(&laid);
        let (own, other) = self.weights();
        let stairs = other.map(heaps).unwrap_or_default();
        let scales = weight::scales(&frame, &heaps(own), &stairs, self.unit)?;
        let (width, height) = frame.size();
        let mut svg = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="outline" role="img" font-size="{}" viewBox="0 0 {width} {height}"><title>{}</title><desc>{}</desc>"#,
            frame.words(),
            escaped(title),
            escaped(description),
        );
        svg.push_str(&scales);
        let origin = frame.origin();
        let _ = write!(
            svg,
            r#"<g transform="translate({} {})">"#,
            origin.x.round(),
            origin.y.round()
        );
        let mut pen = Pen { svg, frame };
        let levels = frame.levels(&self.hair.head);
        pen.drawing(self, &laid);
        for (_, z) in &levels {
            pen.level("o-level", *z);
        }
        let marks: Vec<(Point, &str)> = self.marks(pen.frame.floor).collect();
        pen.weights(own, other, &marks);
        let lines = [own.line, other.and_then(|other| other.line)];
        pen.words(&levels, lines.into_iter().flatten().map(|line| line.z));
        for (at, letter) in marks {
            pen.mark(at, letter);
        }
        pen.svg.push_str("</g></svg>");
        Ok(pen.svg)
    }

    /// Where front pieces, sides and back end, as far as that is seen, each with its letter. Laid against its
    /// other side the back is nobody's.
    fn marks(&self, floor: f64) -> impl Iterator<Item = (Point, &'static str)> {
        let (view, against) = (self.view, self.against);
        let ends = self.hair.ends.iter();
        ends.filter_map(move |end| {
            let (letter, seen) = match (end.what, end.side) {
                (What::Front, side) => (
                    "F",
                    view == View::Front || view.side() == side && view != View::Back,
                ),
                (What::Back, _) => (
                    "B",
                    view != View::Front && !matches!(against, Against::OtherSide),
                ),
                (_, side) => (
                    "S",
                    matches!(view, View::Front | View::Back) || view.side() == side,
                ),
            };
            (seen && end.tip.z >= floor).then(|| (view.project(end.tip), letter))
        })
    }

    /// What is drawn, row by row.
    fn laid(&self) -> Laid<'_> {
        let view = self.view;
        let rows = self.hair.rows(view);
        let (dashed, near_dashed, other_head) = match self.against {
            Against::Nothing => (Cow::Borrowed(&[][..]), Cow::Borrowed(&[][..]), None),
            Against::Other(other) => {
                let head = self.heads_differ().then_some(&other.head);
                (other.rows(view).into(), other.near_rows(view).into(), head)
            }
            Against::OtherSide => {
                let over = view.opposite();
                let rows = mirrored(self.hair.rows(over));
                (
                    rows.into(),
                    mirrored(self.hair.near_rows(over)).into(),
                    None,
                )
            }
        };
        Laid {
            rows,
            dashed,
            near_dashed,
            other_head,
        }
    }

    fn frame(&self, laid: &Laid<'_>) -> Frame {
        let reach = |rows: &[Row]| rows.last().map_or(0.0, |row| row.z);
        let heads = [Some(&self.hair.head), laid.other_head];
        let heads: Vec<&Head> = heads.into_iter().flatten().collect();
        let lowest = (reach(laid.rows), reach(&laid.dashed));
        let mut frame = Frame::new(&heads, (-BESIDE, BESIDE), lowest);
        let shown = laid.rows.iter().chain(laid.dashed.iter());
        for row in shown.filter(|row| row.z >= frame.floor) {
            for span in &row.spans {
                frame.left = frame.left.min((span.0 - AIR).floor());
                frame.right = frame.right.max((span.1 + AIR).ceil());
            }
        }
        frame
    }
}

/// What is drawn, row by row.
struct Laid<'a> {
    rows: &'a [Row],
    dashed: Cow<'a, [Row]>,
    /// From the front and the back: of the dashed what lies before the head.
    near_dashed: Cow<'a, [Row]>,
    /// The head of the dashed, where it is another.
    other_head: Option<&'a Head>,
}

/// One height of the weight, in numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightRow {
    /// How far below the high point it begins and ends.
    pub from: Length,
    /// See [`WeightRow::from`].
    pub to: Length,
    /// The share of all ends that lie there, percent.
    pub percent: f64,
    /// The same of what it is laid against, if it is.
    pub other: Option<f64>,
}

/// What writes into the head's part, its origin the middle of the head.
struct Pen {
    svg: String,
    frame: Frame,
}

impl Pen {
    fn path(&mut self, class: &str, data: &str) {
        if !data.is_empty() {
            let _ = write!(self.svg, r#"<path class="{class}" d="{data}"/>"#);
        }
    }

    /// A word, its foot at `at`.
    fn word(&mut self, class: &str, anchor: &str, at: Point, words: &str) {
        let _ = write!(
            self.svg,
            r#"<text class="{class}" text-anchor="{anchor}" x="{}" y="{}">{}</text>"#,
            at.x.round(),
            at.y.round(),
            escaped(words)
        );
    }

    /// Where lines across both parts begin and end.
    fn across(&self) -> (f64, f64) {
        let from = self.frame.left * SCALE;
        (from, from + self.frame.across() + self.frame.weight())
    }

    fn level(&mut self, class: &str, z: f64) {
        if z > self.frame.floor {
            let (from, to) = self.across();
            let mut data = String::new();
            let y = -z * SCALE;
            put_line(&mut data, &[Point::new(from, y), Point::new(to, y)]);
            self.path(class, &data);
        }
    }

    /// Hair, head and body. From the front and the back the body hides what hangs behind it.
    fn drawing(&mut self, chart: &OutlineChart<'_>, laid: &Laid<'_>) {
        let (view, head, floor) = (chart.view, &chart.hair.head, self.frame.floor);
        let hair = Edges::of(laid.rows, floor);
        let dashed = Edges::of(&laid.dashed, floor);
        let upright = matches!(view, View::Front | View::Back);
        if upright {
            self.path("o-hair", &hair.fill);
            self.path("o-dashed", &dashed.edge);
        }
        body::draw(&mut self.svg, &self.frame, head, view);
        if let Some(other) = laid.other_head {
            let mut svg = Svg::default();
            outline::draw_edge(&mut svg, "o-other-head", other, view);
            self.svg.push_str(&svg.body());
        }
        self.svg.push_str(chart.hair.drawn(view));
        if upright {
            // What hangs behind the body is there all the same.
            self.path("o-behind", &hair.edge);
            let near = Edges::of(chart.hair.near_rows(view), floor);
            self.path("o-hair", &near.fill);
            self.path("o-dashed", &Edges::of(&laid.near_dashed, floor).edge);
            self.path("o-edge", &near.edge);
        } else {
            self.path("o-hair", &hair.fill);
            self.path("o-dashed", &dashed.edge);
            self.path("o-edge", &hair.edge);
        }
        if dashed.runs_on {
            self.runs_on();
        }
    }

    /// Says that the dashed edge runs on below.
    fn runs_on(&mut self) {
        let at = Point::new(
            self.frame.right * SCALE - 4.0,
            -self.frame.floor * SCALE - 0.4 * self.frame.words(),
        );
        self.word("o-word", "end", at, tr("↓ dashed runs on"));
    }

    /// The weight lines across both parts; the word stands where it is over no mark, if there is such a place.
    fn weights(&mut self, own: &Profile, other: Option<&Profile>, marks: &[(Point, &str)]) {
        if let Some(line) = other.and_then(|other| other.line) {
            self.level("o-weight-other", line.z);
        }
        if let Some(line) = own.line {
            self.level("o-weight", line.z);
            let tall = self.frame.words();
            let (wide, y) = (WEIGHT_WORD * tall, -line.z * SCALE);
            let (left, right) = (self.across().0 + 4.0, self.frame.right * SCALE - 4.0 - wide);
            let (over, under) = (y - 4.0, y + tall);
            let places = [(left, over), (right, over), (left, under), (right, under)];
            let free = |(x, foot): &&(f64, f64)| {
                let word = Rect::new(*x, foot - tall, x + wide, *foot);
                // A mark is its dot and the letter under it.
                marks.iter().all(|(at, _)| {
                    let mark = Rect::from_points(*at, (at.x, at.y + MARK + tall));
                    mark.inflate(MARK + 2.0, MARK)
                        .intersect(word)
                        .is_zero_area()
                })
            };
            let (x, foot) = *places.iter().find(free).unwrap_or(&places[0]);
            self.word(
                "o-word o-weight-word",
                "start",
                Point::new(x, foot),
                tr("weight"),
            );
        }
    }

    /// The names of levels, each over its line, or under it where a weight line runs through the word.
    fn words(&mut self, levels: &[(Landmark, f64)], lines: impl Iterator<Item = f64> + Clone) {
        let end = self.across().1 - 3.0;
        let tall = self.frame.words() / SCALE;
        for (landmark, z) in levels {
            let struck = lines
                .clone()
                .any(|line| line > z + 0.1 && line < z + 1.2 * tall);
            let off = if struck { 0.9 * tall * SCALE } else { -3.0 };
            let at = Point::new(end, -z * SCALE + off);
            self.word("o-word", "end", at, landmark.short());
        }
    }

    /// The mark of an end, its letter under it.
    fn mark(&mut self, at: Point, letter: &str) {
        let mut svg = Svg::default();
        svg.dot("o-mark", at, MARK);
        self.svg.push_str(&svg.body());
        let letters = Point::new(at.x, at.y + MARK + self.frame.words() * 0.85);
        self.word("o-word o-letter", "middle", letters, letter);
    }
}

/// Whether two heads are drawn alike: the same skull, and what the hairline and the face hang from.
fn alike(one: &Head, other: &Head) -> bool {
    let same = |landmark: Landmark| {
        [Side::Left, Side::Right].into_iter().all(|side| {
            let at = |head: &Head| head.landmark(landmark, side);
            at(one).distance(at(other)) < 0.05
        })
    };
    let marks = [Landmark::Chin, Landmark::AboveEar, Landmark::Temple];
    one.skull() == other.skull() && marks.into_iter().all(same)
}

/// Rows seen in a mirror.
fn mirrored(rows: &[Row]) -> Vec<Row> {
    let turned = |row: &Row| Row {
        z: row.z,
        spans: row
            .spans
            .iter()
            .rev()
            .map(|span| (-span.1, -span.0))
            .collect(),
    };
    rows.iter().map(turned).collect()
}
