//! The little SVG that the drawings need.

use kurbo::{BezPath, PathEl, Point, Rect, Shape};
use std::fmt::{Display, Formatter, Write};

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
            Tidy(at.x),
            Tidy(at.y),
            Tidy(radius)
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
            Tidy(at.x),
            Tidy(at.y),
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
        let all = self.extent(margin);
        self.framed(class, title, description, all)
    }

    /// The same, showing no more than a frame.
    pub fn framed(self, class: &str, title: &str, description: &str, frame: Rect) -> String {
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="{class}" role="img" viewBox="{} {} {} {}"><title>{}</title><desc>{}</desc>{}</svg>"#,
            Tidy(frame.x0),
            Tidy(frame.y0),
            Tidy(frame.width()),
            Tidy(frame.height()),
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

/// A number to its hundredth, which is finer than any screen, without noughts at its end.
#[derive(Clone, Copy)]
struct Tidy(f64);

impl Display for Tidy {
    fn fmt(&self, f: &mut Formatter<'_>) -> std::fmt::Result {
        let mut text = String::new();
        self.push(&mut text);
        f.write_str(&text)
    }
}

impl Tidy {
    /// Writes it by whole numbers: many times as fast as a decimal to its last bit, and a picture has
    /// thousands.
    fn push(self, text: &mut String) {
        let hundredths = (self.0 * 100.0).round() as i64;
        let (size, mut unit) = (hundredths.unsigned_abs(), 100);
        if hundredths < 0 {
            text.push('-');
        }
        while size / unit >= 10 {
            unit *= 10;
        }
        let mut left = size;
        loop {
            text.push(char::from(b'0' + (left / unit % 10) as u8));
            left %= unit;
            if unit <= 100 && left == 0 {
                return;
            }
            if unit == 100 {
                text.push('.');
            }
            unit /= 10;
        }
    }
}

fn data(path: &BezPath) -> String {
    // About what a line of a contour takes.
    let mut text = String::with_capacity(path.elements().len() * 24);
    for element in path.elements() {
        let (letter, points): (char, &[Point]) = match element {
            PathEl::MoveTo(p) => ('M', &[*p]),
            PathEl::LineTo(p) => ('L', &[*p]),
            PathEl::QuadTo(a, b) => ('Q', &[*a, *b]),
            PathEl::CurveTo(a, b, c) => ('C', &[*a, *b, *c]),
            PathEl::ClosePath => ('Z', &[]),
        };
        if !text.is_empty() {
            text.push(' ');
        }
        text.push(letter);
        for (i, p) in points.iter().enumerate() {
            if i > 0 {
                text.push(' ');
            }
            Tidy(p.x).push(&mut text);
            text.push(',');
            Tidy(p.y).push(&mut text);
        }
    }
    text
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
    fn numbers_are_written_to_the_hundredth() {
        for (value, wanted) in [
            (0.0, "0"),
            (-0.0, "0"),
            (-0.004, "0"),
            (0.006, "0.01"),
            (-0.05, "-0.05"),
            (12.5, "12.5"),
            (-107.126, "-107.13"),
            (300.999, "301"),
            (99.1, "99.1"),
        ] {
            assert_eq!(Tidy(value).to_string(), wanted);
        }
        let mut path = polyline(&[Point::new(1.0, -2.5), Point::new(3.333, 4.0)], true);
        assert_eq!(data(&path), "M1,-2.5 L3.33,4 Z");
        path.move_to((0.0, 0.0));
        path.curve_to((1.0, 2.0), (3.0, 4.0), (5.0, 6.25));
        assert!(data(&path).ends_with(" M0,0 C1,2 3,4 5,6.25"));
    }

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
