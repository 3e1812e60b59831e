//! The little SVG that the drawings need.

use kurbo::{BezPath, PathEl, Point, Rect, Shape};
use std::fmt::Write;

/// An SVG picture in the making.
#[derive(Debug, Default)]
pub struct Svg {
    body: String,
    bounds: Option<Rect>,
}

impl Svg {
    /// Draws a path with a CSS class.
    pub fn path(&mut self, class: &str, path: &BezPath) {
        if path.is_empty() {
            return;
        }
        self.cover(path.bounding_box());
        let _ = write!(self.body, r#"<path class="{class}" d="{}"/>"#, data(path));
    }

    /// Draws a line through points.
    pub fn line(&mut self, class: &str, points: &[Point]) {
        self.path(class, &polyline(points, false));
    }

    /// Draws a dot.
    pub fn dot(&mut self, class: &str, at: Point, radius: f64) {
        self.cover(Rect::from_center_size(at, (2.0 * radius, 2.0 * radius)));
        let _ = write!(
            self.body,
            r#"<circle class="{class}" cx="{}" cy="{}" r="{}"/>"#,
            tidy(at.x),
            tidy(at.y),
            tidy(radius)
        );
    }

    /// Writes a word, its middle at `at`.
    pub fn word(&mut self, class: &str, at: Point, text: &str) {
        // About as wide as the words are drawn: enough to keep them inside the picture.
        let width = text.chars().count() as f64 * 6.5;
        self.cover(Rect::from_center_size(at, (width, 14.0)));
        let _ = write!(
            self.body,
            r#"<text class="{class}" x="{}" y="{}" text-anchor="middle">{}</text>"#,
            tidy(at.x),
            tidy(at.y),
            escaped(text)
        );
    }

    /// What was drawn so far with so much air around it: what [`Svg::finish`] will show.
    pub fn extent(&self, margin: f64) -> Rect {
        self.bounds.unwrap_or_default().inflate(margin, margin)
    }

    /// What was drawn, without a frame around it.
    pub fn body(self) -> String {
        self.body
    }

    fn cover(&mut self, rect: Rect) {
        self.bounds = Some(self.bounds.map_or(rect, |b| b.union(rect)));
    }

    /// The finished picture, with a title and a description for those who can't see it, and `margin`
    /// units of air around what was drawn.
    pub fn finish(self, class: &str, title: &str, description: &str, margin: f64) -> String {
        let r = self.extent(margin);
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="{class}" role="img" viewBox="{} {} {} {}"><title>{}</title><desc>{}</desc>{}</svg>"#,
            tidy(r.x0),
            tidy(r.y0),
            tidy(r.width()),
            tidy(r.height()),
            escaped(title),
            escaped(description),
            self.body
        )
    }
}

/// Text that is safe between tags and in attributes.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// Straight lines through points.
pub fn polyline(points: &[Point], closed: bool) -> BezPath {
    let mut path = BezPath::new();
    for (i, &point) in points.iter().enumerate() {
        path.push(if i == 0 {
            PathEl::MoveTo(point)
        } else {
            PathEl::LineTo(point)
        });
    }
    if closed && !points.is_empty() {
        path.close_path();
    }
    path
}

/// A smooth line through points: centripetal in spirit, with tangents along the chord of the
/// neighbours (Catmull and Rom, 1974).
pub fn smooth(points: &[Point], closed: bool) -> BezPath {
    let n = points.len();
    if n < 3 {
        return polyline(points, closed);
    }
    let at = |i: isize| {
        let n = n as isize;
        points[if closed {
            i.rem_euclid(n)
        } else {
            i.clamp(0, n - 1)
        } as usize]
    };
    let mut path = BezPath::new();
    path.move_to(points[0]);
    let spans = if closed { n } else { n - 1 };
    for i in 0..spans as isize {
        let (before, from, to, after) = (at(i - 1), at(i), at(i + 1), at(i + 2));
        path.curve_to(from + (to - before) / 6.0, to - (after - from) / 6.0, to);
    }
    if closed {
        path.close_path();
    }
    path
}

/// Hundredths of a unit are finer than any screen.
fn tidy(value: f64) -> f64 {
    (value * 100.0).round() / 100.0 + 0.0
}

fn data(path: &BezPath) -> String {
    let tidied = |p: Point| Point::new(tidy(p.x), tidy(p.y));
    let elements = path.elements().iter().map(|el| match *el {
        PathEl::MoveTo(p) => PathEl::MoveTo(tidied(p)),
        PathEl::LineTo(p) => PathEl::LineTo(tidied(p)),
        PathEl::QuadTo(a, b) => PathEl::QuadTo(tidied(a), tidied(b)),
        PathEl::CurveTo(a, b, c) => PathEl::CurveTo(tidied(a), tidied(b), tidied(c)),
        PathEl::ClosePath => PathEl::ClosePath,
    });
    BezPath::from_iter(elements).to_svg()
}

/// Writes a measure to the tenth. Digit by digit it is written many times faster than as a fraction, and a
/// picture that moves has thousands of them.
pub fn put(data: &mut String, value: f64) {
    let tenths = (value * 10.0).round() as i32;
    let mut left = tenths.unsigned_abs();
    let mut digits = [b'0'; 12];
    let mut at = digits.len();
    // The tenth, the point, and at least one digit before it.
    while left > 0 || at > digits.len() - 3 {
        at -= 1;
        digits[at] = if at == digits.len() - 2 {
            b'.'
        } else {
            let digit = (left % 10) as u8;
            left /= 10;
            b'0' + digit
        };
    }
    if tenths < 0 {
        data.push('-');
    }
    data.extend(digits[at..].iter().map(|&digit| char::from(digit)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tenths_are_written_as_they_are_read() {
        for value in [
            0.0,
            0.04,
            0.05,
            -0.3,
            1.0,
            9.96,
            -10.0,
            123.45,
            -2046.5,
            2e8,
            -1e12,
            f64::NAN,
        ] {
            let mut data = String::new();
            put(&mut data, value);
            let tenths = f64::from((value * 10.0).round() as i32) / 10.0;
            assert_eq!(data.parse::<f64>(), Ok(tenths), "{value}: {data}");
        }
    }
}
