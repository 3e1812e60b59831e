//! What is worth considering after the answers, with the reason: advice, never a rule.
//!
//! Face shapes, hair behaviour and occasions are common practice, no source; sources disagree on faces,
//! so each is worded as something to weigh against the client's own wish, which comes first.

use super::ask::{Ask, Zone};
use super::consultation::Consultation;
use super::growth::Growth;
use crate::head::Landmark;
use crate::words::tr;

/// Something to consider.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// The answers that it follows from.
    pub topic: Topic,
    /// In a sentence or two, with the reason.
    pub text: String,
    /// Whether two answers contradict each other, which has to be settled.
    pub warns: bool,
}

/// The groups of answers that advice follows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// Wishes and limits.
    Wishes,
    /// The hair.
    Hair,
    /// How it grows.
    Growth,
    /// What is left longer on purpose.
    Longer,
    /// The face.
    Face,
    /// What the cut is for.
    Occasion,
}

/// What is worth considering after these answers, in the order in which they are asked.
pub fn advice(said: &Consultation) -> Vec<Advice> {
    let mut all: Vec<Advice> = Zone::ALL
        .iter()
        .filter_map(|&zone| contradiction(said, zone))
        .collect();
    let plain = |(topic, text): (Topic, &str)| Advice {
        topic,
        text: text.to_owned(),
        warns: false,
    };
    let mut considered = about_hair(said);
    considered.extend(about_growth(said));
    considered.extend(about_longer(said));
    considered.extend(about_face(said.answer(Ask::Face)).map(|text| (Topic::Face, text)));
    let occasion = about_occasion(said.answer(Ask::Occasion));
    considered.extend(occasion.map(|text| (Topic::Occasion, text)));
    all.extend(considered.into_iter().map(plain));
    all
}

type Considered = Vec<(Topic, &'static str)>;

/// A wish that ends higher than the limit of its place allows.
fn contradiction(said: &Consultation, zone: Zone) -> Option<Advice> {
    let (wish, limit) = (
        said.landmark(Ask::EndsAt(zone))?,
        said.landmark(Ask::NoShorter(zone))?,
    );
    let rank = |landmark: Landmark| Landmark::LEVELS.iter().position(|l| *l == landmark);
    (rank(wish) < rank(limit)).then(|| Advice {
        topic: Topic::Wishes,
        text: tr!(
            "{}: the wish ends at {}, above {} that it must still reach. Settle which of the two counts.",
            zone.name(),
            wish.the(),
            limit.the()
        ),
        warns: true,
    })
}

fn curls(said: &Consultation) -> bool {
    said.is(Ask::Curl, "curly") || said.is(Ask::Curl, "coily")
}

fn about_hair(said: &Consultation) -> Considered {
    let is = |ask, word| said.is(ask, word);
    let curly = curls(said);
    let rows = [
        (
            is(Ask::Density, "low") || is(Ask::Texture, "fine"),
            tr(
                "Consider few layers, a blunt edge and low elevation: every layer takes hair from the edge, and there is little to spare.",
            ),
        ),
        (
            is(Ask::Density, "high"),
            tr(
                "Consider thinner sections and more layers: the guide must show through, and layers take weight out.",
            ),
        ),
        (
            is(Ask::Texture, "coarse") && is(Ask::Curl, "straight"),
            tr(
                "Coarse straight hair sticks out when it is short: consider leaving it long enough to lie.",
            ),
        ),
        (
            curly,
            tr(
                "Curl builds weight by itself and spreads sideways: consider less elevation, and refine it dry.",
            ),
        ),
        (
            curly && is(Ask::State, "wet"),
            tr(
                "Wet curl hides how far it springs up: consider cutting it dry, or leaving it longer first.",
            ),
        ),
    ];
    rows.into_iter()
        .filter_map(|(holds, text)| holds.then_some((Topic::Hair, text)))
        .collect()
}

fn about_growth(said: &Consultation) -> Considered {
    let marked = |growth| said.marks.iter().any(|mark| mark.growth == growth);
    let front = marked(Growth::Cowlick) || marked(Growth::FrontLift);
    let rows = [
        (
            front,
            tr(
                "Hair that grows against its fall jumps up when it was pulled: hold it with the least tension, or cut it dry.",
            ),
        ),
        (
            front && said.landmark(Ask::EndsAt(Zone::Front)) == Some(Landmark::Brow),
            tr("A fringe over it may part or lift: consider it longer, heavier or to one side."),
        ),
        (
            marked(Growth::WhorlClockwise) || marked(Growth::WhorlAnticlockwise),
            tr(
                "Short hair about a whorl stands up: consider leaving it longer and looking at it dry.",
            ),
        ),
        (
            marked(Growth::NapeUp),
            tr("A short nape that grows up stands off: consider leaving it long enough to lie."),
        ),
    ];
    rows.into_iter()
        .filter_map(|(holds, text)| holds.then_some((Topic::Growth, text)))
        .collect()
}

fn about_longer(said: &Consultation) -> Considered {
    let open = |ask| said.answer(ask).is_empty();
    let fringe = matches!(
        said.landmark(Ask::EndsAt(Zone::Front)),
        Some(Landmark::Brow | Landmark::Cheekbone)
    );
    let rows = [
        (
            curls(said) && open(Ask::Curls),
            tr(
                "On curl 2.5 to 5 cm more is often left first and refined dry: how far it springs up differs from lock to lock.",
            ),
        ),
        (
            fringe && open(Ask::TwoGoes),
            tr(
                "A fringe is often cut in two goes: it jumps up when it dries, and too short cannot be undone.",
            ),
        ),
        (
            fringe && curls(said),
            tr(
                "Take no more than a fifth to a quarter of a curly fringe at first: it springs up most where it is lightest.",
            ),
        ),
    ];
    rows.into_iter()
        .filter_map(|(holds, text)| holds.then_some((Topic::Longer, text)))
        .collect()
}

fn about_face(face: &str) -> Option<&'static str> {
    Some(match face {
        "oval" => {
            tr("Nearly any length and fringe sits easily on it. The client’s wish settles it.")
        }
        "round" => tr(
            "Consider height on top, a long or side-swept fringe, a frame that ends below the chin: they lengthen. Width at the cheeks and a short blunt fringe make it rounder.",
        ),
        "square" => tr(
            "Consider soft ends, long sides, a side-swept fringe, layers about the jaw: they soften its corners. A blunt line at the jaw repeats them.",
        ),
        "heart" => tr(
            "Consider fullness by the jaw and a soft or side-swept fringe: they balance the brow. Height and width on top add to it.",
        ),
        "long" => tr(
            "Consider a full or wide fringe, fullness at the sides, an end between chin and shoulder: they shorten it. A tall crown and long flat sides lengthen it.",
        ),
        "diamond" => tr(
            "Consider width at the forehead and the jaw and a soft side-swept fringe: they balance the cheekbones. Width at the cheekbones adds to them.",
        ),
        "triangle" => tr(
            "Consider layers and fullness at the temples: they balance the jaw. Weight at the jaw adds to it.",
        ),
        _ => return None,
    })
}

fn about_occasion(occasion: &str) -> Option<&'static str> {
    Some(match occasion {
        "event" => tr(
            "Hair grows about 1.25 cm a month, so nothing grows back in time: consider a small change, and see it styled today.",
        ),
        "growing" => tr(
            "Consider taking only what keeps the shape: hair grows about 1.25 cm a month, and as much off undoes that month.",
        ),
        "first" => tr(
            "Cut less the first time, and look together before more comes off: you do not know yet how this hair falls.",
        ),
        "assessment" => tr(
            "Say beforehand what you will do and what it will come to: you are compared with your own plan.",
        ),
        _ => return None,
    })
}
