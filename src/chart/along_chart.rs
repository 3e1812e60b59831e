//! The chart of the lengths along a line of the head.

use super::along::{Along, AlongHalf, AlongRun};
use super::ink::{
    BAND, BAND_EDGE, BEFORE, CUT, FAINT, INK, LEFT, PAPER, RIGHT_CUT, RIGHT_TARGET, inked,
};
use super::lengths::at_axis;
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::words::tr;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// The chart of lengths along a line.
#[derive(Clone, Debug)]
pub struct AlongChart {
    /// The picture.
    pub svg: String,
    /// How long the hair before is where that is more than the chart shows; none where it shows all.
    pub above: Option<Length>,
    origin: (f64, f64),
    per_cm: (f64, f64),
}

impl AlongChart {
    /// Where a hair stands in the picture, in its own units: cm along the line, cm long.
    pub fn place(&self, at: f64, cm: f64) -> (f64, f64) {
        (
            self.origin.0 + at * self.per_cm.0,
            self.origin.1 + cm * self.per_cm.1,
        )
    }

    /// Units of the picture to a CSS pixel at its natural size.
    pub const FINE: f64 = 3.0;
}

/// The picture's size in its own units: finer than CSS pixels, for plotters rounds to whole ones.
const SIZE: (u32, u32) = (344 * 3, 280 * 3);
/// Letters, in plotters' measure: about 12.5 CSS pixels.
const LETTERS: u32 = 47;
/// Widths of lines.
const HAIR_LINE: u32 = 2;
const FINE_LINE: u32 = 3;
const FIRM_LINE: u32 = 6;
/// Dots on the cut hair stand about so far apart, cm, and are so large.
const DOTS: f64 = 1.5;
const DOT: i32 = 11;
/// Where the hair before is this many times as long as all else, the chart ends below it. Judgement.
const FAR_ABOVE: f64 = 2.0;

/// The chart of a line, in the unit: of both halves, or of the one on the side that is `shown`.
///
/// # Errors
/// A sentence when plotters could not draw it.
pub fn along_chart(
    along: &Along,
    shown: Option<Side>,
    unit: Unit,
    title: &str,
    description: &str,
) -> Result<AlongChart, String> {
    let ours = |half: &&AlongHalf| {
        shown.is_none() || half.side == Side::Centre || Some(half.side) == shown
    };
    let halves: Vec<&AlongHalf> = along.halves.iter().filter(ours).collect();
    let mut text = String::new();
    let framed =
        draw(&mut text, &halves, unit).map_err(|e| tr!("The chart could not be drawn: {e}.", e))?;
    Ok(AlongChart {
        svg: inked(&text, SIZE, title, description),
        ..framed
    })
}

/// The longest of some runs, cm.
fn longest(runs: &[AlongRun]) -> f64 {
    let all = runs.iter().flatten();
    all.fold(0.0, |most, (_, cm)| most.max(*cm))
}

fn draw(text: &mut String, halves: &[&AlongHalf], unit: Unit) -> Result<AlongChart, String> {
    let most = |of: &dyn Fn(&AlongHalf) -> f64| halves.iter().map(|h| of(h)).fold(0.5, f64::max);
    let long = most(&|half| half.long);
    let before = most(&|half| longest(&half.before));
    let wanted = most(&|half| longest(&half.planned).max(longest(&half.cut)) + 1.0);
    let shown = if before > FAR_ABOVE * wanted {
        wanted * 1.15
    } else {
        before.max(wanted)
    };
    let in_unit = |cm: f64| match unit {
        Unit::Cm => cm,
        Unit::Inches => Length::from_cm(cm).inches(),
    };
    let top = in_unit(shown) * 1.05;
    let area = SVGBackend::with_string(text, SIZE).into_drawing_area();
    let say = |e: &dyn std::fmt::Display| e.to_string();
    let mut chart = ChartBuilder::on(&area)
        .margin(18)
        .margin_right(36)
        .x_label_area_size(132)
        .y_label_area_size(84)
        .build_cartesian_2d(0.0..long, 0.0..top)
        .map_err(|e| say(&e))?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .disable_x_axis()
        .y_labels(6)
        .y_label_formatter(&|v| at_axis(*v, top))
        .bold_line_style(FAINT.stroke_width(FINE_LINE))
        .light_line_style(TRANSPARENT)
        .axis_style(FAINT.stroke_width(FINE_LINE))
        .label_style(("sans-serif", LETTERS).into_font().color(&INK))
        .draw()
        .map_err(|e| say(&e))?;
    let plot = chart.plotting_area();
    let at = |along: f64, cm: f64| plot.map_coordinate(&(along, in_unit(cm)));
    // Everything else in the picture's own units.
    let line = |points: Vec<(i32, i32)>, ink: RGBColor, width: u32| {
        let path = PathElement::new(points, ink.stroke_width(width));
        area.draw(&path).map_err(|e| say(&e))
    };
    let run = |run: &[(f64, f64)], ink: RGBColor, width: u32| {
        line(run.iter().map(|&(s, cm)| at(s, cm)).collect(), ink, width)
    };
    for half in halves.iter().take(1) {
        for (place, mark) in half
            .marks
            .iter()
            .filter(|m| !m.short.is_empty())
            .enumerate()
        {
            let (x, bottom) = at(mark.at, 0.0);
            line(vec![(x, at(0.0, shown).1), (x, bottom)], FAINT, FINE_LINE)?;
            // Every other name a line lower, so that none stands over its neighbour.
            let low = place % 2 == 1;
            line(
                vec![(x, bottom), (x, bottom + if low { 64 } else { 14 })],
                FAINT,
                FINE_LINE,
            )?;
            let anchor = match mark.at / long {
                share if share < 0.08 => HPos::Left,
                share if share > 0.92 => HPos::Right,
                _ => HPos::Center,
            };
            let style = ("sans-serif", LETTERS)
                .into_font()
                .color(&INK)
                .pos(Pos::new(anchor, VPos::Top));
            let y = bottom + if low { 66 } else { 18 };
            area.draw_text(mark.short, &style, (x, y))
                .map_err(|e| say(&e))?;
        }
    }
    // What may be off lies under everything.
    for half in halves {
        for (run, tolerance) in half.planned.iter().zip(&half.tolerance) {
            let both = || run.iter().zip(tolerance);
            let mut edge: Vec<(i32, i32)> = both().map(|(&(s, cm), off)| at(s, cm + off)).collect();
            edge.extend(
                both()
                    .rev()
                    .map(|(&(s, cm), off)| at(s, (cm - off).max(0.0))),
            );
            let band = Polygon::new(edge.clone(), BAND.filled());
            area.draw(&band).map_err(|e| say(&e))?;
            let below = edge.split_off(run.len());
            line(edge, BAND_EDGE, HAIR_LINE)?;
            line(below, BAND_EDGE, HAIR_LINE)?;
        }
    }
    for half in halves {
        let right = half.side == Side::Right;
        for piece in half.before.iter() {
            // Broken off where it leaves the chart.
            for within in piece
                .split(|&(_, cm)| in_unit(cm) > top)
                .filter(|w| w.len() > 1)
            {
                run(within, BEFORE, FINE_LINE)?;
            }
        }
        for piece in &half.planned {
            run(piece, if right { RIGHT_TARGET } else { LEFT }, FIRM_LINE)?;
        }
    }
    for half in halves {
        let right = half.side == Side::Right;
        for piece in &half.cut {
            run(piece, if right { RIGHT_CUT } else { CUT }, FIRM_LINE)?;
            let mut next = f64::NEG_INFINITY;
            for &(s, cm) in piece.iter() {
                if s < next {
                    continue;
                }
                next = s + DOTS;
                let dot = Circle::new(at(s, cm), DOT, CUT.filled());
                area.draw(&dot).map_err(|e| say(&e))?;
                if right {
                    let hollow = Circle::new(at(s, cm), DOT - 5, PAPER.filled());
                    area.draw(&hollow).map_err(|e| say(&e))?;
                }
            }
        }
    }
    // Two far corners tell how the picture lies to a fraction of its units.
    let ((x0, y0), (x1, y1)) = (at(0.0, 0.0), at(long, shown));
    let origin = (f64::from(x0), f64::from(y0));
    area.present().map_err(|e| say(&e))?;
    Ok(AlongChart {
        svg: String::new(),
        above: (before > shown + 1e-9).then(|| Length::from_cm(before)),
        origin,
        per_cm: (
            (f64::from(x1) - origin.0) / long,
            (f64::from(y1) - origin.1) / shown,
        ),
    })
}
