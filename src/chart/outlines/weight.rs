//! The scales of the picture and the weight on them: how much of all hair ends at each height.

use super::frame::Frame;
use crate::fall::Profile;
use crate::measure::{CM_PER_INCH, Unit};
use crate::words::tr;
use plotters::prelude::*;

/// Stand-ins that plotters writes and [`inked`] turns into classes of the page.
const NUMBER: RGBColor = RGBColor(1, 1, 1);
const AXIS: RGBColor = RGBColor(2, 2, 2);
const ENDS: RGBColor = RGBColor(3, 3, 3);
const OTHER: RGBColor = RGBColor(4, 4, 4);
/// What plotters takes off the size of a letter.
const PLOTTERS_SIZE: f64 = 1.24;
/// Shares run at least to this, percent, and for what hair is laid against to so many times the hair's own
/// longest bar: past that its stairs run off, so that a blunt line before leaves soft layers legible.
const LEAST: f64 = 10.0;
const OTHER_MOST: f64 = 2.5;
/// How wide a share and the air beside it are, in heights of a word.
const SHARE_WIDE: f64 = 2.2;
/// The longest bar leaves so much of the way free.
const FULL: f64 = 0.96;

/// One bar of the weight: the heights that it counts, cm, and the share of all ends that lie there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heap {
    /// Its lower edge, cm in the head's frame.
    pub low: f64,
    /// Its upper edge, cm.
    pub high: f64,
    /// The share of all ends, percent.
    pub percent: f64,
}

/// The bars of a profile, from the highest down; heights where nothing ends have none.
pub fn heaps(profile: &Profile) -> Vec<Heap> {
    let total = profile.total();
    let all = profile.ends.iter().enumerate().rev();
    all.filter(|(_, ends)| **ends > 0.0 && total > 0.0)
        .map(|(i, ends)| {
            let low = profile.lowest + i as f64 * profile.bin;
            Heap {
                low,
                high: low + profile.bin,
                percent: ends / total * 100.0,
            }
        })
        .collect()
}

/// The height scale at the left, and at the right on the same heights the bars of `ends` and the stairs of
/// `other`, which go no further down than the frame.
///
/// # Errors
/// A sentence when plotters could not draw it.
pub(super) fn scales(
    frame: &Frame,
    ends: &[Heap],
    other: &[Heap],
    unit: Unit,
) -> Result<String, String> {
    let mut text = String::new();
    draw(&mut text, frame, ends, other, unit)
        .map_err(|e| tr!("The chart could not be drawn: {e}.", e))?;
    Ok(inked(&text))
}

fn draw(
    text: &mut String,
    frame: &Frame,
    ends: &[Heap],
    other: &[Heap],
    unit: Unit,
) -> Result<(), String> {
    let say = |e: &dyn std::fmt::Display| e.to_string();
    let (width, height) = frame.size();
    let area = SVGBackend::with_string(text, (width as u32, height as u32)).into_drawing_area();
    let head = frame.numbers() + frame.across();
    let (beside, weight) = area.split_horizontally(head as i32);
    let letters = || {
        let font = ("sans-serif", frame.words() * PLOTTERS_SIZE).into_font();
        font.color(&NUMBER)
    };
    // Down from the high point, in what lengths are read in.
    let down = |z: f64| {
        let cm = z - frame.zero;
        match unit {
            Unit::Cm => cm,
            Unit::Inches => cm / CM_PER_INCH,
        }
    };
    let heights = || down(frame.floor)..down(frame.top);
    let mut scale = ChartBuilder::on(&beside)
        .x_label_area_size(frame.below() as u32)
        .y_label_area_size(frame.numbers() as u32)
        .build_cartesian_2d(frame.left..frame.right, heights())
        .map_err(|e| say(&e))?;
    scale
        .configure_mesh()
        .disable_mesh()
        .disable_x_axis()
        .y_labels((frame.tall() / frame.words() / 2.5) as usize)
        .y_label_formatter(&|down| {
            let down = -down.round() as i32;
            if down < 0 {
                String::new()
            } else {
                down.to_string()
            }
        })
        .axis_style(AXIS)
        .label_style(letters())
        .draw()
        .map_err(|e| say(&e))?;

    let longest = |heaps: &[Heap]| heaps.iter().map(|heap| heap.percent).fold(0.0, f64::max);
    let own = longest(ends).max(LEAST);
    let most = own.max(longest(other).min(OTHER_MOST * own)) / FULL;
    let every = apart(most, frame);
    let mut chart = ChartBuilder::on(&weight)
        .margin_right((1.4 * frame.words()) as u32)
        .x_label_area_size(frame.below() as u32)
        .build_cartesian_2d(0.0..most, heights())
        .map_err(|e| say(&e))?;
    chart
        .configure_mesh()
        .disable_y_mesh()
        .disable_y_axis()
        .x_labels(3)
        .x_label_formatter(&|percent| match percent.round() as i32 {
            0 => "0".to_owned(),
            percent if percent % every != 0 => String::new(),
            percent => format!("{percent}%"),
        })
        .bold_line_style(AXIS)
        .light_line_style(TRANSPARENT)
        .axis_style(AXIS)
        .label_style(letters())
        .draw()
        .map_err(|e| say(&e))?;
    let shown = |heap: &&Heap| heap.low >= frame.floor;
    let bar = |heap: &Heap| [(0.0, down(heap.low)), (heap.percent, down(heap.high))];
    chart
        .draw_series(
            ends.iter()
                .filter(shown)
                .map(|heap| Rectangle::new(bar(heap), ENDS.filled())),
        )
        .map_err(|e| say(&e))?;
    chart
        .draw_series(
            stairs(other.iter().filter(shown).map(bar), most)
                .into_iter()
                .map(|points| PathElement::new(points, OTHER.stroke_width(2))),
        )
        .map_err(|e| say(&e))?;
    area.present().map_err(|e| say(&e))
}

/// Every so many percent a share is written, so that no two of them touch: at each line of the axis, which
/// ends at `most`, or at every other one.
fn apart(most: f64, frame: &Frame) -> i32 {
    let wide = frame.weight() - 1.4 * frame.words();
    // As plotters sets no more than three.
    let few = |step: &i32| most < 3.0 * f64::from(*step);
    let step = [5, 10, 20, 50].into_iter().find(few).unwrap_or(100);
    if f64::from(step) / most * wide > SHARE_WIDE * frame.words() {
        step
    } else {
        2 * step
    }
}

/// Stairs down bars, back to the axis where there are none, and open where they reach further than `most`.
fn stairs(bars: impl Iterator<Item = [(f64, f64); 2]>, most: f64) -> Vec<Vec<(f64, f64)>> {
    let mut lines: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut line: Vec<(f64, f64)> = Vec::new();
    for [(axis, low), (share, high)] in bars {
        match line.last().copied() {
            Some(last) if (last.1 - high).abs() < 1e-9 => {}
            last => {
                line.extend(last.map(|last| (axis, last.1)));
                lines.push(std::mem::take(&mut line));
                line.push((axis, high));
            }
        }
        line.push((share.min(most), high));
        if share > most {
            lines.push(std::mem::take(&mut line));
        }
        line.push((share.min(most), low));
    }
    line.extend(line.last().copied().map(|last| (0.0, last.1)));
    lines.push(line);
    lines.retain(|line| line.len() > 1);
    lines
}

/// What plotters drew without its frame, its inks given over to the page.
fn inked(text: &str) -> String {
    let inside = text.find('>').map_or("", |end| &text[end + 1..]);
    let mut svg = inside.replace("</svg>", "");
    for (stand_in, class) in [
        (r##"opacity="1" fill="#010101""##, "o-number"),
        (
            r##"opacity="1" stroke="#020202" stroke-width="1""##,
            "o-axis",
        ),
        (r##"opacity="1" fill="#030303" stroke="none""##, "o-bar"),
        (
            r##"fill="none" opacity="1" stroke="#040404" stroke-width="2""##,
            "o-stairs",
        ),
        // Axes are lines too, but drawn as a path.
        (
            r##"fill="none" opacity="1" stroke="#020202" stroke-width="1""##,
            "o-axis",
        ),
    ] {
        svg = svg.replace(stand_in, &format!(r#"class="{class}""#));
    }
    svg
}
