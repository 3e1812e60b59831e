//! The chart of section lengths, planned and cut, along the head from the front to the back.

use super::ink::{CUT, FAINT, INK, LEFT, PAPER, RIGHT, inked};
use crate::cut::Outcome;
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::walk::Row;
use crate::words::{decimal, noted, tr};
use plotters::prelude::*;

/// One section in the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Degrees about the high point from the front to the section's middle.
    pub along: f64,
    /// The client's side.
    pub side: Side,
    /// Shortest and longest, as planned.
    pub planned: (Length, Length),
    /// What its long end was cut at, if it was.
    pub cut: Option<Length>,
}

/// The bars of a plan: every section that cuts something, with what a walk made of it.
pub fn section_bars(planned: &Outcome, cut: &[Row]) -> Vec<Bar> {
    planned
        .sections
        .iter()
        .filter(|section| section.cuts())
        .map(|section| Bar {
            along: section.azimuth().to_degrees().abs(),
            side: section.key.side,
            planned: (section.short(), section.long()),
            cut: cut
                .iter()
                .find(|row| row.key == section.key)
                .and_then(|row| row.cut),
        })
        .collect()
}

/// The picture's size in CSS pixels at its natural size.
const SIZE: (u32, u32) = (344, 250);
/// How large its letters are for plotters, which makes them a fifth smaller: on the narrowest phones they come
/// out at 12 pixels.
const LETTERS: u32 = 16;
/// Where the names along the head stand, in degrees.
const NAMES: [(f64, &str); 4] = [
    (10.0, noted("front")),
    (52.0, noted("temple")),
    (98.0, noted("ear")),
    (166.0, noted("back")),
];
/// Half the width of a bar, and how far left and right bars stand apart, in degrees.
const HALF_BAR: f64 = 2.6;
const APART: f64 = 3.2;

/// The chart as SVG.
///
/// # Errors
/// A sentence when plotters could not draw it.
pub fn section_chart(
    bars: &[Bar],
    unit: Unit,
    title: &str,
    description: &str,
) -> Result<String, String> {
    let mut text = String::new();
    draw(&mut text, bars, unit).map_err(|e| tr!("The chart could not be drawn: {e}.", e))?;
    Ok(inked(&text, SIZE, title, description))
}

fn value(length: Length, unit: Unit) -> f64 {
    match unit {
        Unit::Cm => length.cm(),
        Unit::Inches => length.inches(),
    }
}

/// A value at an axis that reaches up to `most`: with tenths where whole numbers would repeat.
pub(super) fn at_axis(value: f64, most: f64) -> String {
    if most < 4.0 {
        decimal(format!("{value:.1}"))
    } else {
        format!("{value:.0}")
    }
}

fn draw(text: &mut String, bars: &[Bar], unit: Unit) -> Result<(), String> {
    let most = bars
        .iter()
        .flat_map(|bar| [Some(bar.planned.1), bar.cut])
        .flatten()
        .map(|length| value(length, unit))
        .fold(1.0, f64::max);
    let area = SVGBackend::with_string(text, SIZE).into_drawing_area();
    let say = |e: &dyn std::fmt::Display| e.to_string();
    let mut chart = ChartBuilder::on(&area)
        .margin(6)
        .margin_right(10)
        .x_label_area_size(24)
        .y_label_area_size(34)
        .build_cartesian_2d(-4.0..184.0, 0.0..most * 1.08)
        .map_err(|e| say(&e))?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .disable_x_axis()
        .y_labels(6)
        .y_label_formatter(&|v| at_axis(*v, most))
        .bold_line_style(FAINT)
        .light_line_style(TRANSPARENT)
        .axis_style(FAINT)
        .label_style(("sans-serif", LETTERS).into_font().color(&INK))
        .draw()
        .map_err(|e| say(&e))?;
    chart
        .draw_series(NAMES.iter().map(|&(along, name)| {
            EmptyElement::at((along, 0.0))
                + Text::new(
                    tr(name),
                    (-16, 6),
                    ("sans-serif", LETTERS).into_font().color(&INK),
                )
        }))
        .map_err(|e| say(&e))?;
    for (side, ink) in [
        (Side::Left, LEFT),
        (Side::Centre, LEFT),
        (Side::Right, RIGHT),
    ] {
        let ours = || bars.iter().filter(move |bar| bar.side == side);
        let middle = |bar: &Bar| bar.along - APART * side.sign();
        // Hollow like the bars of the right.
        let dot = match side {
            Side::Right => CUT.stroke_width(2),
            _ => CUT.filled(),
        };
        chart
            .draw_series(ours().map(|bar| {
                let (short, long) = bar.planned;
                // A bar of one length is still seen.
                let low = value(short, unit).min(value(long, unit) - most * 0.008);
                let corners = [
                    (middle(bar) - HALF_BAR, low),
                    (middle(bar) + HALF_BAR, value(long, unit)),
                ];
                if side != Side::Right {
                    Rectangle::new(corners, ink.filled())
                } else {
                    Rectangle::new(corners, ink.stroke_width(2))
                }
            }))
            .map_err(|e| say(&e))?;
        chart
            .draw_series(
                ours()
                    .filter_map(|bar| Some((middle(bar), value(bar.cut?, unit))))
                    .map(|at| {
                        EmptyElement::at(at)
                            + Circle::new((0, 0), 5, PAPER.filled())
                            + Circle::new((0, 0), 4, dot)
                    }),
            )
            .map_err(|e| say(&e))?;
    }
    area.present().map_err(|e| say(&e))
}
