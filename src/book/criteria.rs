//! What is looked at when a cut is assessed, and what was said of it.
//!
//! The list is ours, in our own words, in the sense of public occupational standards as they were read, most
//! of them in their opening parts: see [`Standard`].

use crate::words::{noted, tr};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A public standard in whose sense a criterion is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standard {
    /// United Kingdom, national occupational standards SKAHDBR18, SKAHDBR3 and SKAHDBRBNS1: cutting, and
    /// consulting before it.
    Uk,
    /// Australia, training package units SHBHCUT001 to 004 and their SIHHHCS forerunners.
    Au,
    /// Canada, occupational standard for hairstylists, task C-7.
    Ca,
    /// United States, candidate bulletins of the national practical examinations for cosmetology, hair
    /// design and barber styling.
    Us,
}

impl Standard {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Uk, Self::Au, Self::Ca, Self::Us];

    /// A short mark behind a criterion.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Uk => "UK",
            Self::Au => "AU",
            Self::Ca => "CA",
            Self::Us => "US",
        }
    }

    /// What it is.
    pub fn title(self) -> &'static str {
        match self {
            Self::Uk => tr(
                "United Kingdom: national occupational standards SKAHDBR18, SKAHDBR3, SKAHDBRBNS1",
            ),
            Self::Au => tr("Australia: units SHBHCUT001 to SHBHCUT004"),
            Self::Ca => tr("Canada: occupational standard for hairstylists, task C-7"),
            Self::Us => tr("United States: bulletins of the national practical examinations"),
        }
    }
}

/// When a criterion is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Period {
    /// Before the first cut.
    Before,
    /// While cutting.
    During,
    /// Afterwards.
    After,
}

impl Period {
    /// All of them, in order.
    pub const ALL: [Self; 3] = [Self::Before, Self::During, Self::After];

    /// Its heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::Before => tr("Before the cut"),
            Self::During => tr("While cutting"),
            Self::After => tr("After the cut"),
        }
    }
}

/// One criterion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// The name it is kept under; never given to another one.
    pub id: &'static str,
    /// When it is looked at.
    pub period: Period,
    /// What is looked at.
    pub words: &'static str,
    /// In the sense of which standards.
    pub standards: &'static [Standard],
}

const fn criterion(
    id: &'static str,
    period: Period,
    words: &'static str,
    standards: &'static [Standard],
) -> Criterion {
    Criterion {
        id,
        period,
        words,
        standards,
    }
}

use Period::{After, Before, During};
use Standard::{Au, Ca, Uk, Us};

/// What is looked at, stage by stage.
pub const CRITERIA: [Criterion; 22] = [
    criterion(
        "asked",
        Before,
        noted("Asked for the wish, what was disliked last time, and daily styling"),
        &[Uk, Au],
    ),
    criterion(
        "health",
        Before,
        noted("Asked about scalp, skin and health as far as the cut needs it"),
        &[Uk],
    ),
    criterion(
        "looked",
        Before,
        noted("Looked at the hair dry and combed out: growth, parting, curl, density"),
        &[Uk, Au, Ca],
    ),
    criterion(
        "agreed",
        Before,
        noted("Agreed lengths in words and landmarks, with what could go wrong, and had a yes"),
        &[Uk],
    ),
    criterion(
        "planned",
        Before,
        noted("Said or drew the plan beforehand: outline, guide, partings, lift"),
        &[Au, Ca],
    ),
    criterion(
        "protected",
        Before,
        noted("Protected the clothes; tools clean and in reach"),
        &[Uk, Us],
    ),
    criterion(
        "parted",
        During,
        noted("Parted cleanly, sections thin enough to see the guide"),
        &[Uk, Au, Ca, Us],
    ),
    criterion(
        "guided",
        During,
        noted("Set one clear guide and followed it"),
        &[Au, Ca],
    ),
    criterion(
        "held",
        During,
        noted("Kept lift, direction and tension even from section to section"),
        &[Uk, Au, Ca],
    ),
    criterion(
        "posture",
        During,
        noted("Moved round the client; own back and wrists straight, client upright"),
        &[Uk, Au, Ca],
    ),
    criterion(
        "safe",
        During,
        noted("Kept points away from skin, ears and eyes; put tools down safely"),
        &[Uk, Us],
    ),
    criterion(
        "damp",
        During,
        noted("Kept the hair evenly damp, or evenly dry"),
        &[Uk, Au],
    ),
    criterion(
        "confirmed",
        During,
        noted("Showed the first length to the client before going on"),
        &[Uk],
    ),
    criterion("timed", During, noted("Stayed within the time"), &[Uk, Us]),
    criterion(
        "checked",
        After,
        noted("Cross-checked at right angles to how it was cut"),
        &[Uk, Ca],
    ),
    criterion(
        "even",
        After,
        noted("Both sides alike, as far as the plan has them alike"),
        &[Uk, Au, Us],
    ),
    criterion(
        "blended",
        After,
        noted("Blended where the plan has no step; a step only where it was wanted"),
        &[Uk, Au, Us],
    ),
    criterion(
        "viewed",
        After,
        noted("Looked at from all sides, in the mirror, and dry"),
        &[Uk],
    ),
    criterion(
        "asked_after",
        After,
        noted("Client confirmed the result"),
        &[Uk, Au],
    ),
    criterion(
        "advised",
        After,
        noted("Advised on care, styling and when to come back"),
        &[Uk, Au],
    ),
    criterion(
        "cleaned",
        After,
        noted("Swept, disinfected, sharps put apart"),
        &[Uk, Us],
    ),
    criterion(
        "recorded",
        After,
        noted("Wrote down what was done, and looked back on it"),
        &[Uk, Au],
    ),
];

/// What was said of a criterion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// It was met.
    Met,
    /// Not yet.
    NotYet,
    /// It was not seen, or had no place in this cut.
    NotSeen,
}

impl Said {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Met, Self::NotYet, Self::NotSeen];

    /// As it is kept.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotYet => "not_yet",
            Self::NotSeen => "not_seen",
        }
    }

    /// As it is read.
    pub fn name(self) -> &'static str {
        match self {
            Self::Met => tr("Met"),
            Self::NotYet => tr("Not yet"),
            Self::NotSeen => tr("Not seen"),
        }
    }
}

/// What was said of a cut, and what its maker makes of it. Kept by the names of criteria and answers, so that
/// what another version of the list asked stays.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Judged {
    /// By the name of the criterion.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    answers: BTreeMap<String, String>,
    /// Remarks, likewise.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    remarks: BTreeMap<String, String>,
    /// What went well.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub well: String,
    /// What its maker would do otherwise.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub otherwise: String,
    /// What to aim at next.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub next: String,
}

impl Judged {
    /// Whether nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What was said of a criterion; none if nothing was, or nothing this version knows.
    pub fn said(&self, id: &str) -> Option<Said> {
        let word = self.answers.get(id)?;
        Said::ALL.into_iter().find(|said| said.word() == word)
    }

    /// Puts an answer down by its word; an empty one takes it back.
    pub fn put(&mut self, id: &str, word: &str) {
        keep(&mut self.answers, id, word);
    }

    /// The remark on a criterion; empty if there is none.
    pub fn remark(&self, id: &str) -> &str {
        self.remarks.get(id).map_or("", String::as_str)
    }

    /// Puts a remark down as typed; an empty one takes it back.
    pub fn put_remark(&mut self, id: &str, text: &str) {
        keep(&mut self.remarks, id, text);
    }

    /// How many criteria of a stage were met, how many have an answer, and how many there are.
    pub fn count(&self, period: Period) -> (usize, usize, usize) {
        let all = || CRITERIA.iter().filter(|c| c.period == period);
        let said = |of: &dyn Fn(Said) -> bool| {
            let all = all().filter_map(|c| self.said(c.id));
            all.filter(|said| of(*said)).count()
        };
        (
            said(&|said| said == Said::Met),
            said(&|_| true),
            all().count(),
        )
    }
}

fn keep(all: &mut BTreeMap<String, String>, id: &str, text: &str) {
    if text.trim().is_empty() {
        all.remove(id);
    } else {
        all.insert(id.to_owned(), text.to_owned());
    }
}
