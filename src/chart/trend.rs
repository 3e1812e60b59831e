//! What cuts came to in time order: a lane for each group, a dot for each cut about zero, and their mean.

use super::svg::Svg;
use crate::measure::{Length, Unit};
use crate::words::tr;
use kurbo::{Point, Rect, Shape};

/// One lane of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Lane {
    /// What stands above it.
    pub name: String,
    /// The place of each cut in time, from 0, and by how much it came out longer than planned, cm.
    pub cuts: Vec<(usize, f64)>,
    /// The mean, cm.
    pub mean: f64,
}

/// The picture's width in its own units, which are CSS pixels on a phone.
const WIDE: f64 = 344.0;
/// A lane's height, and that of its name above.
const LANE: f64 = 62.0;
const NAME: f64 = 26.0;
/// Where cuts begin and end.
const FROM: f64 = 40.0;
const TO: f64 = WIDE - 12.0;
/// Less than this is not drawn larger, cm either way.
const LEAST: f64 = 1.0;

/// The lanes below one another, all on one scale; `count` cuts in all. `ruler` is what a ruler leaves open,
/// cm: the band about zero.
pub fn trend_chart(
    lanes: &[Lane],
    count: usize,
    ruler: f64,
    unit: Unit,
    title: &str,
    description: &str,
) -> String {
    let mut svg = Svg::default();
    let sizes = lanes.iter().flat_map(|lane| &lane.cuts).map(|c| c.1.abs());
    let most = sizes.filter(|cm| cm.is_finite()).fold(LEAST, f64::max);
    let half = LANE / 2.0 - 4.0;
    let along = |cut: usize| {
        let share = (cut as f64 + 0.5) / count.max(1) as f64;
        FROM + (TO - FROM) * share.min(1.0)
    };
    for (i, lane) in lanes.iter().enumerate() {
        let top = i as f64 * (NAME + LANE);
        let zero = top + NAME + LANE / 2.0;
        let at = |cm: f64| zero - cm.clamp(-most, most) / most * half;
        svg.word("t-name", Point::new(2.0, top + 18.0), &lane.name);
        let middle = if lane.mean.is_finite() {
            lane.mean
        } else {
            0.0
        };
        let mean = told(middle, unit);
        svg.word("t-mean-said", Point::new(TO, top + 18.0), &mean);
        let band = Rect::new(FROM, at(ruler), TO, at(-ruler));
        svg.path("t-band", &band.to_path(0.1));
        svg.line("t-zero", &[Point::new(FROM, zero), Point::new(TO, zero)]);
        for (cm, name) in [(most, "+"), (-most, "−")] {
            let size = Length::from_cm(most).measured_number(unit);
            let y = at(cm) + if cm > 0.0 { 9.0 } else { 2.0 };
            svg.word("t-scale", Point::new(2.0, y), &[name, &size].concat());
        }
        let mean = at(middle);
        svg.line("t-mean", &[Point::new(FROM, mean), Point::new(TO, mean)]);
        for &(cut, cm) in lane.cuts.iter().filter(|c| c.1.is_finite()) {
            svg.dot("t-dot", Point::new(along(cut), at(cm)), 4.5);
        }
    }
    let high = lanes.len() as f64 * (NAME + LANE);
    let frame = Rect::new(0.0, 0.0, WIDE, high + 22.0);
    svg.word("t-scale", Point::new(FROM, high + 16.0), tr("first cut"));
    svg.word(
        "t-mean-said t-end",
        Point::new(TO, high + 16.0),
        tr("last cut"),
    );
    svg.framed("chart trend-chart", title, description, frame)
}

/// A mean with its sign: `−0.6 cm`, `+0.3 cm`, `0 cm`.
fn told(cm: f64, unit: Unit) -> String {
    let size = Length::from_cm(cm.abs()).measured_number(unit);
    let sign = match size.as_str() {
        "0" => "",
        _ if cm > 0.0 => "+",
        _ => "−",
    };
    [sign, &size, " ", unit.mark()].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cut_is_a_dot_and_shorter_lies_lower() {
        let lane = |name: &str, cuts: &[(usize, f64)]| Lane {
            name: name.to_owned(),
            cuts: cuts.to_vec(),
            mean: cuts.iter().map(|c| c.1).sum::<f64>() / cuts.len() as f64,
        };
        let lanes = [
            lane("Left <side>", &[(0, 0.5), (2, -0.5), (9, f64::NAN)]),
            lane("Right", &[(1, -5.0)]),
        ];
        let svg = trend_chart(&lanes, 3, 0.25, Unit::Cm, "T", "D");
        assert_eq!(svg.matches("t-dot").count(), 3);
        assert!(svg.contains("Left &lt;side&gt;") && !svg.contains("NaN"));
        let heights: Vec<f64> = svg
            .split("class=\"t-dot\"")
            .skip(1)
            .filter_map(|dot| dot.split("cy=\"").nth(1)?.split('"').next()?.parse().ok())
            .collect();
        assert!(
            heights[0] < heights[1] && heights[1] < heights[2],
            "{heights:?}"
        );
        let far = trend_chart(&[lane("Far", &[(0, -1e308)])], 1, 0.25, Unit::Cm, "T", "D");
        assert!(!far.contains("NaN") && !far.contains(">inf"), "{far}");
        assert_eq!(told(-0.62, Unit::Cm), "−0.6 cm");
        assert_eq!(told(0.01, Unit::Cm), "0 cm");
    }
}
