//! The marks a person judges a cut by.

use serde::{Deserialize, Serialize};

/// What a ruler tells on combed hair, cm: it is good to 2 to 3 mm, so nothing smaller is made anything of.
pub const RULER: f64 = 0.25;

/// By how much a cut may miss its own plan. Judgement: public standards say balanced and even, and name no
/// centimetres, so a person sets them.
///
/// ```
/// use tautline::book::Marks;
/// let marks = Marks { pass: f64::NAN, best: 9.0, share: -1.0 };
/// // Whatever was stored is laid into a sane range.
/// assert_eq!((marks.pass(), marks.best(), marks.share()), (0.5, 0.5, 0.1));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Marks {
    /// A place this near to its plan is within the pass mark, cm.
    pub pass: f64,
    /// A place this near counts towards a pass with merit, cm.
    pub best: f64,
    /// The share of the measured places that must be within, 0 to 1.
    pub share: f64,
}

impl Default for Marks {
    fn default() -> Self {
        Self {
            pass: 0.5,
            best: 0.25,
            share: 0.8,
        }
    }
}

impl Marks {
    /// The least and the most a mark may be, cm: below a millimetre nobody measures, past three centimetres
    /// anything would do. Judgement.
    pub const RANGE: (f64, f64) = (0.1, 3.0);
    /// The least and the most of a share.
    pub const SHARES: (f64, f64) = (0.1, 1.0);

    /// The pass mark, cm, laid into [`Marks::RANGE`].
    pub fn pass(&self) -> f64 {
        laid(self.pass, Self::default().pass, Self::RANGE)
    }

    /// The mark for merit, cm; never wider than the pass mark.
    pub fn best(&self) -> f64 {
        laid(self.best, Self::default().best, Self::RANGE).min(self.pass())
    }

    /// Sets the pass mark, cm, laid into [`Marks::RANGE`].
    pub fn set_pass(&mut self, cm: f64) {
        self.pass = cm.clamp(Self::RANGE.0, Self::RANGE.1);
    }

    /// Sets the mark for merit, cm, laid into [`Marks::RANGE`].
    pub fn set_best(&mut self, cm: f64) {
        self.best = cm.clamp(Self::RANGE.0, Self::RANGE.1);
    }

    /// Which of some shares, in per cent, is its own: to the five that part those that are offered.
    pub fn percent_of(&self, offered: &[u8]) -> Option<u8> {
        let off = |percent: u8| (f64::from(percent) - self.share() * 100.0).abs();
        offered.iter().copied().find(|percent| off(*percent) <= 5.0)
    }

    /// Sets the share of places, in per cent.
    pub fn set_percent(&mut self, percent: u8) {
        self.share = f64::from(percent) / 100.0;
    }

    /// The share of places, laid into [`Marks::SHARES`].
    pub fn share(&self) -> f64 {
        laid(self.share, Self::default().share, Self::SHARES)
    }
}

fn laid(value: f64, usual: f64, (least, most): (f64, f64)) -> f64 {
    if value.is_nan() {
        usual
    } else {
        value.clamp(least, most)
    }
}
