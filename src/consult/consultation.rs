//! What was talked over with one client.

use super::ask::{Ask, Zone};
use super::growth::Mark;
use crate::cut::Agreed;
use crate::hair::{Allowance, FallsTo, Hair, Reason, State};
use crate::head::{Head, Landmark, Region, Side, Spot};
use crate::measure::{Length, LengthError, Unit, read_length};
use crate::plan::{Choices, Kind, Plan, Settles, landmark_word};
use crate::words::tr;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What was talked over with one client. What was not asked is left out, and changes nothing.
///
/// Answers are kept as they were given, lengths as they were typed: a word that this version does not
/// know, or a length that does not read, is not said, but stays.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Consultation {
    /// By the key of the question.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    answers: BTreeMap<String, String>,
    /// Growth directions.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<Mark>,
}

/// How far about the middle of an ear hair is left longer for it, cm: an ear's length. Judgement.
const EAR_REACH: f64 = 5.0;

/// A length that reads and is not more than `most` cm.
pub(super) fn within(read: Result<Length, LengthError>, most: f64) -> Result<Length, String> {
    let length = read.map_err(|e| e.to_string())?;
    if length.cm() <= most {
        Ok(length)
    } else {
        Err(tr!("That is more than {most} cm. Is the unit right?", most))
    }
}

impl Consultation {
    /// Whether nothing was put down.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The answer as it was given; empty if there is none.
    pub fn answer(&self, ask: Ask) -> &str {
        self.answers.get(&ask.key()).map_or("", String::as_str)
    }

    /// Whether something was answered with yes.
    pub fn is_on(&self, ask: Ask) -> bool {
        self.answer(ask) == "on"
    }

    /// Puts an answer down as it was given; an empty one takes it back.
    pub fn put(&mut self, ask: Ask, answer: &str) {
        if answer.is_empty() {
            self.answers.remove(&ask.key());
        } else {
            self.answers.insert(ask.key(), answer.to_owned());
        }
    }

    /// The same as it may be handed to somebody else: head and hair only. The private note, what it is
    /// for, and what was answered to questions that this version does not know are left out.
    pub fn for_others(&self) -> Self {
        let mut other = self.clone();
        let ours = [Ask::Note.key(), Ask::Occasion.key()];
        other
            .answers
            .retain(|key, _| !ours.contains(key) && Ask::is_key(key));
        other
    }

    /// Whether the answer is this word.
    pub(super) fn is(&self, ask: Ask, word: &str) -> bool {
        self.answer(ask) == word
    }

    /// The landmark that was answered.
    pub fn landmark(&self, ask: Ask) -> Option<Landmark> {
        let answer = self.answer(ask);
        if answer.is_empty() {
            return None;
        }
        let all = ask.landmarks().iter().copied();
        all.into_iter().find(|l| landmark_word(*l) == answer)
    }

    fn read(&self, ask: Ask) -> Option<Result<Length, String>> {
        let typed = self.answer(ask).trim();
        let read = || within(read_length(typed, Unit::Cm), ask.most());
        (!typed.is_empty()).then(read)
    }

    /// The length that was answered, or the usual one.
    pub fn length(&self, ask: Ask) -> Option<Length> {
        let said = self.read(ask).and_then(Result::ok);
        said.or_else(|| ask.usual().map(Length::from_cm))
    }

    /// What is wrong with a typed length, in a sentence; of a lock also with its two together.
    pub fn fault(&self, ask: Ask) -> Option<String> {
        if let Some(Err(why)) = self.read(ask) {
            return Some(why);
        }
        match ask {
            Ask::LockCombed(region) => match self.lock(region)? {
                (hangs, combed) if hangs.cm() <= 0.0 && combed.cm() <= 0.0 => None,
                (hangs, combed) => Hair::default()
                    .measure_lock(Region::Top, hangs, combed)
                    .err()
                    .map(|why| why.to_string()),
            },
            _ => None,
        }
    }

    /// Both lengths of a lock, if both read.
    fn lock(&self, region: Option<Region>) -> Option<(Length, Length)> {
        let hangs = self.length(Ask::LockHangs(region))?;
        Some((hangs, self.length(Ask::LockCombed(region))?))
    }

    /// How much of its combed length hair of this curl hangs at: the middle of what is usually lost,
    /// 0 to 5, 5 to 15, 15 to 35 and 40 to 70 %. Judgement, about figures of the trade.
    fn curls_to(&self) -> Option<f64> {
        match self.answer(Ask::Curl) {
            "straight" => Some(0.975),
            "wavy" => Some(0.9),
            "curly" => Some(0.75),
            "coily" => Some(0.45),
            _ => None,
        }
    }

    /// How many of these questions were answered.
    pub fn answered(&self, asks: &[Ask]) -> usize {
        asks.iter()
            .filter(|&&ask| !self.answer(ask).is_empty())
            .count()
    }

    /// How much of its combed length the hair hangs at, 0 to 1, and whether that is guessed from its
    /// curl; none if nothing was said of it. Of several locks that of all, or the first.
    pub fn hangs_at(&self) -> Option<(f64, bool)> {
        let locks = [None].into_iter().chain(Region::ALL.map(Some));
        let mut hair = Hair::default();
        for (hangs, combed) in locks.filter_map(|region| self.lock(region)) {
            if hair.measure_lock(Region::Top, hangs, combed).is_ok() {
                return Some((hair.hanging(Region::Top), false));
            }
        }
        Some((self.curls_to()?, true))
    }

    /// The hair as it was described, on this head.
    pub fn hair(&self, head: &Head) -> Hair {
        let mut hair = Hair::default();
        // One lock stands for every region that has none of its own.
        for region in Region::ALL {
            let own = self.lock(Some(region));
            for (hangs, combed) in [own, self.lock(None)].into_iter().flatten() {
                if hair.measure_lock(region, hangs, combed).is_ok() {
                    break;
                }
            }
        }
        if hair == Hair::default()
            && let Some(ratio) = self.curls_to()
        {
            hair.estimated = true;
            let [hangs, combed] = [100.0 * ratio, 100.0].map(Length::from_cm);
            // A ratio of this table is one that hair has.
            let _ = hair.measure_lock(Region::Top, hangs, combed);
        }
        if self.is(Ask::State, "wet") {
            hair.state = State::Wet;
        }
        if self.is_on(Ask::Curls) {
            hair.longer = self.length(Ask::CurlsBy).unwrap_or_default();
        }
        if self.is_on(Ask::Ears) {
            let more = self.length(Ask::EarsBy).unwrap_or_default();
            hair.allowances = [Side::Left, Side::Right]
                .map(|side| Allowance {
                    at: head.landmark(Landmark::AboveEar, side).to_array(),
                    within: EAR_REACH,
                    more,
                    reason: Some(Reason::Ear),
                })
                .to_vec();
        }
        let marked = self.marks.iter().map(|mark| mark.allowance(head));
        hair.allowances.extend(marked);
        if let Some(whorl) = self.marks.iter().find_map(Mark::whorl) {
            hair.whorl = whorl;
        }
        hair
    }

    /// What was agreed, on this head.
    pub fn agreed(&self, head: &Head) -> Agreed {
        let limits = Zone::ALL.into_iter().filter_map(|zone| {
            let landmark = self.landmark(Ask::NoShorter(zone))?;
            Some(zone.spots().map(|spot| (head.place(spot), landmark)))
        });
        Agreed {
            shortest: self.length(Ask::Shortest).map(FallsTo),
            no_higher: limits.flatten().collect(),
        }
    }

    /// The choices of a plan; what was not chosen there but said here is taken from here.
    pub fn choices(&self, plan: &Plan, choices: &Choices) -> Choices {
        let mut all = choices.clone();
        for choice in &plan.choices {
            let ask = match (&choice.kind, choice.settles) {
                (Kind::Parting | Kind::SideParting, _) => Ask::Parting,
                (Kind::Landmark { .. }, Some(Settles::Front)) => Ask::EndsAt(Zone::Front),
                (Kind::Landmark { .. }, Some(Settles::Outline)) => Ask::EndsAt(Zone::Back),
                _ => continue,
            };
            if !choices.is_answered(choice) {
                // A wish that the plan does not offer is no answer to it.
                let _ = all.set(plan, &choice.id, self.answer(ask));
            }
        }
        all
    }
}

impl Zone {
    /// The places that stand for it, left and right, where its outline grows. Judgement.
    pub fn spots(self) -> [Spot; 2] {
        let (degrees, out) = match self {
            Self::Front => (8.0, 0.97),
            Self::Sides => (80.0, 0.9),
            Self::Back => (172.0, 0.9),
        };
        [degrees, -degrees].map(|degrees| Spot::at_degrees(degrees, out))
    }
}
