//! The scalp laid flat with its growth directions, and the place of it that was tapped.

use super::scalp_map::{ears, place, scalp, scalp_spot};
use super::svg::Svg;
use crate::consult::Mark;
use crate::head::{Head, Spot};
use crate::words::tr;
use kurbo::{Point, Rect};

/// Air around the picture.
const AIR: f64 = 6.0;
/// A tap this far past the hairline, as a share of the way to it, still means the hairline.
const PAST: f64 = 1.15;

/// The map of growth directions.
#[derive(Clone, Debug)]
pub struct GrowthMap {
    /// The picture.
    pub svg: String,
    frame: Rect,
}

impl GrowthMap {
    /// The map of this head with these marks, numbered from 1.
    pub fn new(head: &Head, marks: &[Mark]) -> Self {
        let mut svg = Svg::default();
        scalp(&mut svg, head);
        ears(&mut svg, head);
        svg.dot("m-high-point", Point::ZERO, 2.0);
        for (word, degrees, off) in [(tr("Face"), 0.0, -10.0), (tr("Nape"), 180.0, 18.0)] {
            let edge = place(head, Spot::at_degrees(degrees, 1.0));
            svg.word("g-word", Point::new(edge.x, edge.y + off), word);
        }
        for (number, mark) in (1..).zip(marks) {
            let at = place(head, mark.spot());
            svg.dot("g-mark", at, 10.0);
            let number: i32 = number;
            let below = Point::new(at.x, at.y + 4.5);
            svg.word("g-number", below, &number.to_string());
        }
        let frame = svg.extent(AIR);
        let svg = svg.finish(
            "map",
            tr("Growth directions on the scalp"),
            tr("The scalp from above, face up, the client\u{2019}s left on the left. The numbered marks are listed beside it."),
            AIR,
        );
        Self { svg, frame }
    }

    /// The spot of the scalp at a place of the picture, across and down from its upper left corner, shown
    /// at this size, all in CSS pixels; none off the scalp.
    pub fn spot(
        &self,
        head: &Head,
        (x, y): (f64, f64),
        (width, height): (f64, f64),
    ) -> Option<Spot> {
        // The picture keeps its shape and stands in the middle of its box.
        let scale = (width / self.frame.width()).min(height / self.frame.height());
        if scale.is_nan() || scale <= 0.0 {
            return None;
        }
        let at = Point::new((x - width / 2.0) / scale, (y - height / 2.0) / scale)
            + self.frame.center().to_vec2();
        let spot = scalp_spot(head, at);
        (spot.out <= PAST).then_some(Spot {
            out: spot.out.min(1.0),
            ..spot
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::consult::Growth;
    use crate::head::Tapes;

    #[test]
    fn a_tap_finds_the_place_that_is_drawn_there() {
        let head = Head::from_tapes(&Tapes::default()).unwrap();
        let spots = [(0.0, 0.9), (100.0, 0.5), (-150.0, 0.7), (180.0, 0.95)];
        let marks = spots.map(|(d, out)| Mark::at(Growth::Cowlick, Spot::at_degrees(d, out)));
        let map = GrowthMap::new(&head, &marks);
        assert!(map.svg.contains(">4</text>"));
        // A box wider than the picture: air on both sides.
        let (width, height) = (3.0 * map.frame.width(), 2.0 * map.frame.height());
        for mark in &marks {
            let drawn = place(&head, mark.spot()) - map.frame.center().to_vec2();
            let tapped = (2.0 * drawn.x + width / 2.0, 2.0 * drawn.y + height / 2.0);
            let spot = map.spot(&head, tapped, (width, height)).unwrap();
            assert_eq!(Mark::at(Growth::Cowlick, spot), *mark);
        }
        assert_eq!(map.spot(&head, (0.0, 0.0), (width, height)), None);
        assert_eq!(map.spot(&head, (0.0, 0.0), (0.0, 0.0)), None);
    }
}
