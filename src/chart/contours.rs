//! The scalp laid flat with the lengths of its hair as contour lines, or with what became of them.

use super::labels::{Word, label};
use super::relief::{Level, Relief};
use super::scalp_map::{ears, hairline, laid, outline, place, scalp, sides};
use super::svg::Svg;
use crate::cut::{CutError, Outcome, SectionCut, TOLD};
use crate::geometry::{Convex, Vec3};
use crate::hair::{Part, Wear};
use crate::head::{Head, Landmark, Side, Spot};
use crate::measure::{Length, Unit};
use kurbo::{BezPath, Point};

/// What the lines join.
#[derive(Clone, Copy, Debug)]
pub enum Lines<'a> {
    /// Hair of one length, as cut.
    Lengths(&'a Outcome),
    /// Hair that came out so much longer (above zero) or shorter than it was planned.
    Change {
        /// The plan.
        planned: &'a Outcome,
        /// What was cut, and what followed of it.
        cut: &'a Outcome,
    },
    /// Hair of the left that is so much longer (above zero) or shorter than its twin on the right; both
    /// halves of the map show the same.
    Sides(&'a Outcome),
}

/// One contour line.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    /// The length, or the difference, that it stands for.
    pub value: Length,
    /// Where it runs on the map, in millimetres of it.
    pub line: Vec<Point>,
    /// Whether it is drawn heavier: every fifth is, and the zero of a difference.
    pub heavy: bool,
}

/// The map with its lines.
#[derive(Clone, Debug, PartialEq)]
pub struct ContourMap {
    /// The picture.
    pub svg: String,
    /// How much longer the hair is from one line to the next.
    pub interval: Length,
    /// The lines.
    pub contours: Vec<Contour>,
    /// Steps between neighbouring hairs that a line met: it breaks off there.
    pub steps: Vec<Vec<Point>>,
    /// Whether all of it is alike: one length, or as planned.
    pub nothing: bool,
    /// At how many roots the length was worked out.
    pub asked: usize,
}

/// A map of no more lines than this is plain: its sections carry their values. Judgement.
const FEW_LINES: usize = 2;
/// Intervals from line to line, in the unit.
const IN_CM: [f64; 6] = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
const IN_INCHES: [f64; 6] = [0.25, 0.5, 1.0, 2.0, 4.0, 8.0];
/// More lines than this are not read any more. Judgement.
const MOST_LINES: f64 = 10.0;
/// Hair that differs by less than this share of the finest interval is all of one length. Judgement.
const EVEN: f64 = 0.8;
/// Hair that came out so little otherwise came out as planned, cm: what was cut is told to the millimetre.
const AS_PLANNED: f64 = 0.05;
/// Nearer to the middle than this no side is told from the other, cm.
const MIDDLE: f64 = 0.05;
/// A plain differs by less than this share of an interval from corner to corner of a square.
const PLAIN: f64 = 0.04;
/// A letter stands so far beside its point.
const BESIDE: f64 = 11.0;

/// The letter of a named place on the map and in its table; none of places off the scalp.
pub const fn place_letter(place: Landmark) -> &'static str {
    match place {
        Landmark::FrontHairline => "F",
        Landmark::Temple => "T",
        Landmark::InFrontOfEar => "E",
        Landmark::HighPoint => "H",
        Landmark::Crown => "C",
        Landmark::ParietalRidge => "R",
        Landmark::BehindEar => "B",
        Landmark::Occipital => "O",
        Landmark::Nape => "N",
        _ => "",
    }
}

impl ContourMap {
    /// The map of this head; hair worn as in `wear` has its parting drawn.
    ///
    /// # Errors
    /// [`CutError`] when a length cannot be worked out.
    pub fn new(
        head: &Head,
        lines: Lines<'_>,
        wear: &Wear,
        unit: Unit,
        (title, description): (&str, &str),
    ) -> Result<Self, CutError> {
        let (shown, alike) = match lines {
            Lines::Lengths(outcome) => (outcome, outcome.is_even()),
            Lines::Change { planned, cut } => (cut, planned.is_even() && cut.is_even()),
            Lines::Sides(outcome) => (outcome, true),
        };
        // What is compared: from what to what, cm.
        let compared = |root: Vec3| match lines {
            Lines::Lengths(outcome) => Ok((0.0, outcome.lengths.at(head, root)?)),
            Lines::Change { planned, cut } => {
                Ok((planned.lengths.at(head, root)?, cut.lengths.at(head, root)?))
            }
            Lines::Sides(outcome) if outcome.is_even() => Ok((0.0, 0.0)),
            Lines::Sides(outcome) => {
                // On the middle line hair may belong to either side.
                let left = head
                    .skull()
                    .settle(Vec3::new(root.x.abs().max(MIDDLE), root.y, root.z));
                let right = Vec3::new(-left.x, left.y, left.z);
                Ok((
                    outcome.lengths.at(head, right)?,
                    outcome.lengths.at(head, left)?,
                ))
            }
        };
        let height = |root: Vec3| compared(root).map(|(from, to): (f64, f64)| to - from);
        let changes = !matches!(lines, Lines::Lengths(_));
        let mut relief = Relief::new(head, &height, alike);
        let range = relief.range()?;
        let (interval, values) = values(range, unit);
        let even = if changes {
            AS_PLANNED
        } else {
            EVEN * interval.cm()
        };
        let nothing = range.1 - range.0 < even;
        let cm: Vec<f64> = values
            .iter()
            .filter(|_| !nothing)
            .map(|(_, cm)| *cm)
            .collect();
        let (levels, steps) = relief.levels(&cm, PLAIN * interval.cm())?;
        let asked = relief.asked;
        let heavy = |level: &Level| {
            let of = |(count, cm): &(i64, f64)| *cm == level.value && count % 5 == 0;
            values.iter().any(of)
        };
        let contours: Vec<Contour> = levels
            .into_iter()
            .map(|level| Contour {
                heavy: heavy(&level),
                value: Length::from_cm(level.value),
                line: level.line,
            })
            .collect();

        let mut svg = Svg::default();
        scalp(&mut svg, head);
        let mut taken: Vec<Word> = Vec::new();
        for section in guides(shown) {
            svg.path("c-guide", &outline(head, &section.section.patch));
        }
        // Within a plain no line says how far off it is, or how long.
        let plain = changes || contours.len() <= FEW_LINES;
        if plain {
            for section in shown.sections.iter().filter(|s| s.cuts()) {
                svg.path("c-parcel", &outline(head, &section.section.patch));
            }
        }
        parting(&mut svg, head, wear);
        for contour in &contours {
            let class = match (changes && contour.value == Length::ZERO, contour.heavy) {
                (true, _) => "c-line c-zero",
                (_, true) => "c-line c-heavy",
                _ => "c-line",
            };
            svg.path(class, &drawn(&contour.line));
        }
        for step in &steps {
            svg.path("c-step", &drawn(step));
        }
        // Over the edges of sections.
        svg.path("c-hairline", &hairline(head));
        ears(&mut svg, head);
        sides(&mut svg, head);
        places(&mut svg, head, &mut taken);
        let says = |value: Length| said(value, unit, changes);
        label(&mut svg, head, (&contours, changes), &says, &mut taken);
        if plain {
            for section in shown.sections.iter().filter(|s| s.cuts()) {
                let root = section.section.patch.at(head, 0.5, 0.62);
                let (from, to) = compared(root)?;
                let (from, to) = (Length::from_cm(from), Length::from_cm(to));
                // A difference adds up with the lengths in the table.
                let text = if changes {
                    says(from.change_shown(to, unit))
                } else {
                    says(to)
                };
                let word = Word::new(laid(head, root), &text);
                if text != "0" && taken.iter().all(|other| word.clear_of(other) > 0.0) {
                    word.write(&mut svg, "c-spot", &text);
                    taken.push(word);
                }
            }
        }
        Ok(Self {
            svg: svg.finish("map", title, description, 6.0),
            interval,
            nothing,
            contours,
            steps,
            asked,
        })
    }
}

/// The interval and the values between a lowest and a highest length, each with how many intervals it is.
fn values((low, high): (f64, f64), unit: Unit) -> (Length, Vec<(i64, f64)>) {
    let (all, cm): (&[f64; 6], fn(f64) -> Length) = match unit {
        Unit::Cm => (&IN_CM, Length::from_cm),
        Unit::Inches => (&IN_INCHES, Length::from_inches),
    };
    let few = |v: &&f64| (high - low) / cm(**v).cm() <= MOST_LINES;
    let interval = all.iter().find(few).copied().unwrap_or(all[5]);
    let apart = cm(interval).cm();
    let (first, last) = ((low / apart).ceil() as i64, (high / apart).floor() as i64);
    // Whatever is stored, no more lines than can be drawn.
    let counts = first..=last.min(first.saturating_add(4 * MOST_LINES as i64));
    let values = counts.map(|count| (count, cm(count as f64 * interval).cm()));
    (cm(interval), values.collect())
}

/// A value as its line says it; differences with their sign.
fn said(value: Length, unit: Unit, signed: bool) -> String {
    if !signed {
        return value.number(unit);
    }
    let size = Length::from_cm(value.cm().abs()).measured_number(unit);
    match value.cm() {
        _ if size == "0" => size,
        cm if cm > 0.0 => format!("+{size}"),
        _ => format!("\u{2212}{size}"),
    }
}

/// The sections that begin the cut: the first, and its twin.
fn guides(outcome: &Outcome) -> Vec<&SectionCut> {
    let Some(first) = outcome.sections.iter().find(|s| s.cuts()) else {
        return Vec::new();
    };
    let like = |s: &&SectionCut| s.step == first.step && s.key.number == first.key.number;
    outcome.sections.iter().filter(like).collect()
}

/// A contour as it is drawn: rounded from middle to middle of its pieces, so never outside of them.
fn drawn(line: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let (Some(&first), Some(&last)) = (line.first(), line.last()) else {
        return path;
    };
    let closed = line.len() > 3 && first.distance(last) < 0.5;
    if closed {
        let start = first.midpoint(line[1]);
        path.move_to(start);
        for pair in line[1..].windows(2) {
            path.quad_to(pair[0], pair[0].midpoint(pair[1]));
        }
        path.quad_to(first, start);
        path.close_path();
        return path;
    }
    path.move_to(first);
    for (i, pair) in line.windows(2).enumerate().skip(1) {
        let to = if i + 2 == line.len() {
            pair[1]
        } else {
            pair[0].midpoint(pair[1])
        };
        path.quad_to(pair[0], to);
    }
    if line.len() == 2 {
        path.line_to(last);
    }
    path
}

/// The parting, from the front hairline to the whorl.
fn parting(svg: &mut Svg, head: &Head, wear: &Wear) {
    let Part::At(azimuth) = wear.part else { return };
    let front = head.place(Spot { azimuth, out: 1.0 });
    let whorl = wear.whorl.place.map_or_else(
        || head.landmark(Landmark::Crown, Side::Centre),
        |spot| head.place(spot),
    );
    let line: Vec<Point> = (0..=10)
        .map(|i| {
            // Straight as seen from above.
            let p = front.lerp(whorl, f64::from(i) / 10.0);
            laid(
                head,
                head.skull().along_from(Vec3::new(p.x, p.y, 0.0), Vec3::Z),
            )
        })
        .collect();
    svg.line("c-part", &line);
}

/// The named places, each with its letter.
fn places(svg: &mut Svg, head: &Head, taken: &mut Vec<Word>) {
    for landmark in TOLD {
        let left = spot_of(head, landmark, Side::Left);
        for side in [Side::Left, Side::Right] {
            let spot = match side {
                Side::Right if head.is_even() => left.mirrored(),
                Side::Right => spot_of(head, landmark, side),
                _ => left,
            };
            let at = place(head, spot);
            let middle = at.x.abs() < 0.5;
            if middle && side == Side::Right {
                continue;
            }
            // Those of the hairline have their letter outside.
            let away = if spot.out > 0.97 {
                at.to_vec2() / at.to_vec2().hypot() * BESIDE
            } else {
                let way = if side == Side::Right || middle {
                    1.0
                } else {
                    -1.0
                };
                kurbo::Vec2::new(way * BESIDE, 0.0)
            };
            svg.dot("c-point", at, 2.0);
            let word = Word::new(at + away, place_letter(landmark));
            word.write(svg, "c-letter", place_letter(landmark));
            taken.push(word);
            taken.push(Word::new(at, ""));
        }
    }
}

/// Where a named place lies. Those of the hairline need no looking for.
fn spot_of(head: &Head, landmark: Landmark, side: Side) -> Spot {
    let sign = if side == Side::Right { -1.0 } else { 1.0 };
    if let Some(azimuth) = landmark.hairline_azimuth() {
        let azimuth = azimuth * sign;
        return Spot { azimuth, out: 1.0 };
    }
    head.spot(head.landmark(landmark, side))
}
