//! One person's hair: how far it hangs, how it is cut, where it is left longer.

use super::{CutAt, FallsTo, LengthMap, Whorl};
use crate::geometry::Vec3;
use crate::head::Region;
use crate::measure::Length;
use crate::words::{decimal, tr};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// In which state hair is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Dry, as the hanging ratio was measured.
    #[default]
    Dry,
    /// Wet, or evenly damp.
    Wet,
}

/// How hard hair is held.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tension {
    /// Hardly: over ears, at cowlicks, on curls and fringes.
    Low,
    /// Combed straight, without pull.
    #[default]
    Normal,
    /// Pulled.
    Firm,
}

/// Why hair is left longer on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// It lies over an ear, where a pull would let it jump up.
    Ear,
    /// It grows against its fall at the hairline.
    Cowlick,
    /// It turns about a whorl.
    Whorl,
    /// It grows up at the nape.
    Nape,
    /// It lifts at the front.
    Lift,
    /// It curls.
    Curl,
}

impl Reason {
    /// What it is left on for, after "left on for".
    pub fn words(self) -> &'static str {
        match self {
            Self::Ear => tr("the ear"),
            Self::Cowlick => tr("the cowlick"),
            Self::Whorl => tr("the whorl"),
            Self::Nape => tr("the nape that grows up"),
            Self::Lift => tr("the lift at the front"),
            Self::Curl => tr("the curl"),
        }
    }
}

/// More length left on purpose near a place: no tension over an ear, a cowlick, a curl.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Allowance {
    /// The middle of the place on the scalp, in the head's frame, cm.
    pub at: [f64; 3],
    /// How far it reaches, cm. The allowance fades from the middle to nothing there.
    pub within: f64,
    /// How much longer hair is left in the middle, cm. Over an ear 0.5 to 1 cm is common; no source.
    pub more: Length,
    /// Why, if anybody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<Reason>,
}

impl Allowance {
    /// How much longer hair at `root` is left, cm: a smooth hill about its middle.
    pub fn at_root(&self, root: Vec3) -> f64 {
        if self.within.is_nan() || self.within <= 0.0 {
            return 0.0;
        }
        let share = (root.distance(Vec3::from(self.at)) / self.within).min(1.0);
        self.more.cm().max(0.0) * (1.0 - share * share).powi(2)
    }

    /// Whether it is the other in a mirror, to a thousandth of a millimetre.
    fn mirrors(&self, other: &Self) -> bool {
        const SAME: f64 = 1e-4;
        let ([x, y, z], [other_x, other_y, other_z]) = (self.at, other.at);
        let apart = Vec3::new(x + other_x, y - other_y, z - other_z).length();
        apart < SAME && self.within == other.within && self.more == other.more
    }
}

/// By how much a firm hold stretches dry hair, as a share of its length. A fibre gives about 2 % before
/// it yields (Robbins, *Chemical and Physical Behavior of Human Hair*, from memory); how much of that
/// a hand uses is judgement.
const FIRM: f64 = 0.01;
/// How much further the same pull stretches wet hair: its modulus is two to three times smaller
/// (secondary review of fibre mechanics). The fibre itself hardly lengthens when wet.
const WET_OVER_DRY: f64 = 2.5;
/// How much of the spring-back is left when hair is held with hardly any tension. Judgement.
const LOW_TENSION: f64 = 0.5;

/// One person's hair.
///
/// ```
/// use tautline::{hair::{CutAt, Hair}, head::Region, measure::Length};
/// let mut hair = Hair::default();
/// // One lock at the crown: 30 cm combed straight, 24 cm as it hangs dry.
/// hair.measure_lock(Region::Crown, Length::from_cm(24.0), Length::from_cm(30.0)).unwrap();
/// let falls = hair.falls_to(CutAt::from_cm(20.0), Region::Crown);
/// assert!((falls.cm() - 16.0).abs() < 1e-12);
/// assert!((hair.cut_at(falls, Region::Crown).cm() - 20.0).abs() < 1e-12);
/// ```
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Hair {
    /// Length hanging dry over length combed straight, dry, for each region that was measured.
    hanging: BTreeMap<Region, f64>,
    /// In which state it is cut.
    pub state: State,
    /// How hard it is held.
    pub tension: Tension,
    /// Where it is left longer.
    pub allowances: Vec<Allowance>,
    /// How much longer all of it is left, for its curl. Judgement.
    pub longer: Length,
    /// The whorl that it radiates from.
    pub whorl: Whorl,
    /// Whether how it hangs was guessed from its curl rather than measured on a lock.
    pub estimated: bool,
    /// How long it is before the cut, as the last visit left it; none where that is what was chosen in the
    /// plan.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<LengthMap>,
}

/// Why a lock's lengths were refused.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error(
    "{}", tr!("The lock hangs {hanging} cm and is {straight} cm combed straight; it hangs at most as long as it is combed, and at least a tenth of it. Measure again.", hanging = decimal(.hanging.to_string()), straight = decimal(.straight.to_string())))]
pub struct LockError {
    hanging: f64,
    straight: f64,
}

impl Hair {
    /// The least hanging ratio that is taken for a measurement: coils of less are not measured by
    /// a ruler.
    const LEAST: f64 = 0.1;

    /// Puts down what one lock showed: how long it hangs dry and let go, and how long it is combed
    /// straight, dry.
    ///
    /// # Errors
    /// [`LockError`] when the ratio is not one that hair has, 0.1 to 1.
    pub fn measure_lock(
        &mut self,
        region: Region,
        hanging: Length,
        straight: Length,
    ) -> Result<(), LockError> {
        let ratio = hanging.cm() / straight.cm();
        if !(Self::LEAST..=1.0).contains(&ratio) {
            return Err(LockError {
                hanging: hanging.cm(),
                straight: straight.cm(),
            });
        }
        self.hanging.insert(region, ratio);
        Ok(())
    }

    /// The same hair, begun with what a visit left; with what is chosen in the plan if none.
    #[must_use]
    pub fn beginning(self, left: Option<LengthMap>) -> Self {
        Self { left, ..self }
    }

    /// The hanging ratio of a region, 0.1 to 1: measured there, or the mean of what was measured
    /// elsewhere, or 1 (straight hair) if nothing was.
    pub fn hanging(&self, region: Region) -> f64 {
        // A stored ratio may be anything.
        let sane = |ratio: f64| {
            if ratio.is_nan() {
                1.0
            } else {
                ratio.clamp(Self::LEAST, 1.0)
            }
        };
        match self.hanging.get(&region) {
            Some(&ratio) => sane(ratio),
            None if self.hanging.is_empty() => 1.0,
            None => {
                let sum: f64 = self.hanging.values().copied().map(sane).sum();
                sum / self.hanging.len() as f64
            }
        }
    }

    /// What hangs, dry and let go, over what is in the fingers.
    fn spring_back(&self, region: Region) -> f64 {
        let hanging = self.hanging(region);
        match (self.tension, self.state) {
            (Tension::Low, _) => 1.0 - LOW_TENSION * (1.0 - hanging),
            (Tension::Normal, _) => hanging,
            (Tension::Firm, State::Dry) => hanging / (1.0 + FIRM),
            (Tension::Firm, State::Wet) => hanging / (1.0 + FIRM * WET_OVER_DRY),
        }
    }

    /// What is left hanging, dry, of hair that was cut at this length.
    pub fn falls_to(&self, cut: CutAt, region: Region) -> FallsTo {
        FallsTo::from_cm(cut.cm() * self.spring_back(region))
    }

    /// How long hair must be cut to hang at this length, dry.
    pub fn cut_at(&self, falls: FallsTo, region: Region) -> CutAt {
        CutAt::from_cm(falls.cm() / self.spring_back(region))
    }

    /// Whether every region hangs alike.
    pub fn is_even(&self) -> bool {
        let first = self.hanging(Region::ALL[0]);
        Region::ALL.iter().all(|&r| self.hanging(r) == first)
    }

    /// How much longer hair at `root` is left than the line says, cm.
    pub fn allowance(&self, root: Vec3) -> f64 {
        let near: f64 = self.allowances.iter().map(|a| a.at_root(root)).sum();
        near + self.everywhere()
    }

    /// Why hair at `root` is left longer, each reason once.
    pub fn reasons(&self, root: Vec3) -> Vec<Reason> {
        let near = self.allowances.iter().filter(|a| a.at_root(root) > 0.0);
        let curl = (self.everywhere() > 0.0).then_some(Reason::Curl);
        let mut all: Vec<Reason> = Vec::new();
        for reason in near.filter_map(|a| a.reason).chain(curl) {
            let place = all.partition_point(|before| *before < reason);
            if all.get(place) != Some(&reason) {
                all.insert(place, reason);
            }
        }
        all
    }

    fn everywhere(&self) -> f64 {
        let cm = self.longer.cm();
        if cm > 0.0 { cm } else { 0.0 }
    }

    /// Whether nothing is left longer anywhere.
    pub fn is_cut_as_held(&self) -> bool {
        self.allowances.is_empty() && self.everywhere() == 0.0
    }

    /// Whether it is and is left longer on one side just as on the other: each place has its twin in a
    /// mirror.
    pub fn sides_alike(&self) -> bool {
        self.left.as_ref().is_none_or(LengthMap::sides_alike)
            && self
                .allowances
                .iter()
                .all(|one| self.allowances.iter().any(|other| one.mirrors(other)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lock_that_hangs_longer_than_it_is_combed_is_refused() {
        let mut hair = Hair::default();
        let cm = Length::from_cm;
        assert!(hair.measure_lock(Region::Top, cm(31.0), cm(30.0)).is_err());
        assert!(hair.measure_lock(Region::Top, cm(0.0), cm(0.0)).is_err());
        let refused = hair.measure_lock(Region::Top, cm(1.0), cm(30.0));
        assert!(refused.unwrap_err().to_string().contains("Measure again"));
        assert_eq!(hair, Hair::default());
    }

    #[test]
    fn a_region_that_was_not_measured_takes_the_mean_of_the_others() {
        let mut hair = Hair::default();
        assert_eq!(hair.hanging(Region::Nape), 1.0);
        let cm = Length::from_cm;
        hair.measure_lock(Region::Top, cm(15.0), cm(30.0)).unwrap();
        hair.measure_lock(Region::Back, cm(21.0), cm(30.0)).unwrap();
        assert!((hair.hanging(Region::Nape) - 0.6).abs() < 1e-12);
    }

    #[test]
    fn firmly_held_hair_springs_back_further_and_wet_hair_more() {
        let mut hair = Hair::default();
        let cm = Length::from_cm;
        hair.measure_lock(Region::Side, cm(27.0), cm(30.0)).unwrap();
        let hangs = |tension, state| {
            let held = Hair {
                tension,
                state,
                ..hair.clone()
            };
            held.falls_to(CutAt::from_cm(20.0), Region::Side).cm()
        };
        let firm = |state| hangs(Tension::Firm, state);
        assert_eq!(hangs(Tension::Normal, State::Wet), 18.0);
        assert_eq!(hangs(Tension::Low, State::Dry), 19.0);
        assert!(firm(State::Wet) < firm(State::Dry) && firm(State::Dry) < 18.0);
    }

    #[test]
    fn an_allowance_fades_to_nothing() {
        let ear = Allowance {
            at: [7.0, 0.0, 0.0],
            within: 4.0,
            more: Length::from_cm(1.0),
            reason: None,
        };
        let at = |x: f64| ear.at_root(Vec3::new(x, 0.0, 0.0));
        assert_eq!((at(7.0), at(11.0), at(20.0)), (1.0, 0.0, 0.0));
        assert!(at(8.0) > at(9.0) && at(9.0) > 0.0);
    }

    #[test]
    fn both_sides_are_alike_where_each_place_has_its_twin() {
        let ear = Allowance {
            at: [7.0, 0.0, 0.0],
            within: 4.0,
            more: Length::from_cm(1.0),
            reason: Some(Reason::Ear),
        };
        let of = |at: &[[f64; 3]]| Hair {
            allowances: at.iter().map(|&at| Allowance { at, ..ear }).collect(),
            ..Hair::default()
        };
        assert!(of(&[[0.0, 8.0, 5.0]]).sides_alike());
        assert!(of(&[[-7.0, 0.0, 0.0], [7.0, 0.0, 0.0]]).sides_alike());
        assert!(!of(&[[7.0, 0.0, 0.0]]).sides_alike());
        assert!(!of(&[[-7.0, 0.0, 0.0], [6.0, 0.0, 0.0]]).sides_alike());
    }

    #[test]
    fn an_old_hair_file_reads() {
        let old = r#"{"hanging":{"crown":0.8},"state":"wet","allowances":[{"at":[7,0,0],"within":4,"more":1}]}"#;
        let hair: Hair = serde_json::from_str(old).unwrap();
        assert_eq!(hair.hanging(Region::Nape), 0.8);
        assert_eq!(hair.allowance(Vec3::new(7.0, 0.0, 0.0)), 1.0);
        assert_eq!(hair.whorl, Whorl::default());
        let root = Vec3::new(7.0, 0.0, 0.0);
        let curly = Hair {
            longer: Length::from_cm(2.5),
            ..hair
        };
        assert_eq!(curly.allowance(root), 3.5);
        assert_eq!(curly.reasons(root), [Reason::Curl]);
    }
}
