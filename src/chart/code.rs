//! A code on the screen that another device's camera reads (QR code, ISO/IEC 18004).

use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write;

/// How wide the quiet edge around a code is, modules: four, by the standard.
const QUIET: i32 = 4;
/// The most that a code holds, bytes (ISO/IEC 18004, version 40 at level L).
pub const MOST_IN_CODE: usize = 2953;

/// A code of more bytes than that is so fine that a camera has to come close. Judgement: about 100
/// modules a side, 3 pixels each on a narrow phone.
pub const MOST_IN_COARSE_CODE: usize = 1200;

/// A text as a code, always dark on white, with its quiet edge; none where it is longer than
/// [`MOST_IN_CODE`].
pub fn code_picture(text: &str, title: &str) -> Option<String> {
    let code = QrCode::encode_text(text, QrCodeEcc::Low).ok()?;
    let size = code.size();
    let mut dark = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|x| code.get_module(*x, y)).count();
            if run > 0 {
                let (left, top) = (x + QUIET, y + QUIET);
                let _ = write!(dark, "M{left} {top}h{run}v1h-{run}z");
            }
            x += i32::try_from(run).unwrap_or(0).max(1);
        }
    }
    let whole = size + 2 * QUIET;
    let title = super::svg::escaped(title);
    Some(format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" class="code" role="img" viewBox="0 0 {whole} {whole}" shape-rendering="crispEdges"><title>{title}</title><rect width="{whole}" height="{whole}" fill="#fff"/><path fill="#000" d="{dark}"/></svg>"##
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_holds_what_the_standard_says_and_no_more() {
        let full = "a".repeat(MOST_IN_CODE);
        let svg = code_picture(&full, "A \"plan\"").unwrap();
        // Version 40 has 177 modules a side.
        assert!(svg.contains("viewBox=\"0 0 185 185\""));
        assert!(svg.contains("A &quot;plan&quot;"));
        assert!(code_picture(&[full, "a".to_owned()].concat(), "").is_none());
    }
}
