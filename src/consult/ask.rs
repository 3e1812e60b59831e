//! What is asked, and what may be answered.

use crate::head::{Landmark, Region};
use crate::words::{noted, tr, tr_in};

/// One question of the consultation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// The landmark that the hair of a place should end at.
    EndsAt(Zone),
    /// The landmark that the hair of a place must still reach.
    NoShorter(Zone),
    /// The landmark at whose height most of the weight should lie.
    WeightAt,
    /// The shortest that any hair may be, hanging dry; a length.
    Shortest,
    /// How much hair there is.
    Density,
    /// How thick one hair is.
    Texture,
    /// How it curls.
    Curl,
    /// How long a lock hangs, dry and let go; a length. None: the one lock that stands for all.
    LockHangs(Option<Region>),
    /// How long the same lock is, combed straight; a length.
    LockCombed(Option<Region>),
    /// Where the parting is worn.
    Parting,
    /// Wet or dry when it is cut.
    State,
    /// The face.
    Face,
    /// What the cut is for.
    Occasion,
    /// Whether hair over the ears is left longer.
    Ears,
    /// By how much; a length.
    EarsBy,
    /// Whether all of it is left longer for its curl.
    Curls,
    /// By how much; a length.
    CurlsBy,
    /// Whether the fringe is cut in two goes.
    TwoGoes,
    /// By how much the first go leaves it longer; a length.
    TwoGoesBy,
    /// A private note.
    Note,
}

/// Where on the head wishes and limits are said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// The front hairline beside the parting.
    Front,
    /// In front of the ears.
    Sides,
    /// The middle of the back, low.
    Back,
}

impl Zone {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Front, Self::Sides, Self::Back];

    /// Its word in stored answers.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Sides => "sides",
            Self::Back => "back",
        }
    }

    /// Its name on the screen.
    pub fn name(self) -> &'static str {
        match self {
            Self::Front => tr_in("region of the head", "Front"),
            Self::Sides => tr_in("region of the head", "Sides"),
            Self::Back => tr_in("region of the head", "Back"),
        }
    }
}

/// An answer's stored word and how it reads.
pub type Answer = (&'static str, &'static str);

const DENSITIES: [Answer; 3] = [
    ("low", noted("Little")),
    ("medium", noted("Middling")),
    ("high", noted("Much")),
];
const TEXTURES: [Answer; 3] = [
    ("fine", noted("Fine")),
    ("medium", noted("Medium")),
    ("coarse", noted("Coarse")),
];
const CURLS: [Answer; 4] = [
    ("straight", noted("Straight")),
    ("wavy", noted("Wavy")),
    ("curly", noted("Curly")),
    ("coily", noted("Coily")),
];
const PARTINGS: [Answer; 3] = [
    ("left", noted("Client's left")),
    ("centre", noted("Centre")),
    ("right", noted("Client's right")),
];
const STATES: [Answer; 2] = [("wet", noted("Wet or damp")), ("dry", noted("Dry"))];
const OCCASIONS: [Answer; 5] = [
    ("everyday", noted("Everyday")),
    ("event", noted("An event soon")),
    ("growing", noted("Growing it out")),
    ("first", noted("First cut together")),
    ("assessment", noted("An assessment")),
];
const ON: [Answer; 2] = [("on", noted("Yes")), ("off", noted("No"))];

/// Faces. Their words mean other things elsewhere.
fn faces() -> [Answer; 7] {
    [
        ("oval", tr_in("of a face", "Oval")),
        ("round", tr_in("of a face", "Round")),
        ("square", tr_in("of a face", "Square")),
        ("heart", tr_in("of a face", "Heart")),
        ("long", tr_in("of a face", "Long")),
        ("diamond", tr_in("of a face", "Diamond")),
        ("triangle", tr_in("of a face", "Wide at the jaw")),
    ]
}

/// Landmarks that weight is said at.
const WEIGHTS: [Landmark; 7] = [
    Landmark::Crown,
    Landmark::Occipital,
    Landmark::Cheekbone,
    Landmark::MouthCorner,
    Landmark::JawCorner,
    Landmark::Chin,
    Landmark::Shoulder,
];

impl Ask {
    /// What may be left longer on purpose, each with the question by how much.
    pub const LONGER: [(Self, Self); 3] = [
        (Self::Ears, Self::EarsBy),
        (Self::Curls, Self::CurlsBy),
        (Self::TwoGoes, Self::TwoGoesBy),
    ];

    /// Its name in stored answers.
    pub fn key(self) -> String {
        let of = |what: &str, part: &str| [what, part].join("/");
        let lock = |what: &str, region: Option<Region>| match region {
            Some(region) => of(what, region_word(region)),
            None => what.to_owned(),
        };
        let word = match self {
            Self::EndsAt(zone) => return of("ends_at", zone.word()),
            Self::NoShorter(zone) => return of("no_shorter", zone.word()),
            Self::LockHangs(region) => return lock("lock_hangs", region),
            Self::LockCombed(region) => return lock("lock_combed", region),
            Self::WeightAt => "weight_at",
            Self::Shortest => "shortest",
            Self::Density => "density",
            Self::Texture => "texture",
            Self::Curl => "curl",
            Self::Parting => "parting",
            Self::State => "state",
            Self::Face => "face",
            Self::Occasion => "occasion",
            Self::Ears => "ears",
            Self::EarsBy => "ears_by",
            Self::Curls => "curls",
            Self::CurlsBy => "curls_by",
            Self::TwoGoes => "two_goes",
            Self::TwoGoesBy => "two_goes_by",
            Self::Note => "note",
        };
        word.to_owned()
    }

    /// Whether a stored answer's name is that of a question this version asks.
    pub(super) fn is_key(key: &str) -> bool {
        const WORDS: [&str; 20] = [
            "ends_at",
            "no_shorter",
            "lock_hangs",
            "lock_combed",
            "weight_at",
            "shortest",
            "density",
            "texture",
            "curl",
            "parting",
            "state",
            "face",
            "occasion",
            "ears",
            "ears_by",
            "curls",
            "curls_by",
            "two_goes",
            "two_goes_by",
            "note",
        ];
        let word = key.split_once('/').map_or(key, |(word, _)| word);
        WORDS.contains(&word)
    }

    /// The question as it reads.
    pub fn words(self) -> &'static str {
        match self {
            Self::EndsAt(_) => tr("Should end at"),
            Self::NoShorter(_) => tr("Never shorter than"),
            Self::WeightAt => tr("Most of the weight at the height of"),
            Self::Shortest => tr("No hair shorter than, hanging dry"),
            Self::Density => tr("How much hair"),
            Self::Texture => tr("One hair is"),
            Self::Curl => tr_in("question: straight or curly", "It grows"),
            Self::LockHangs(_) => tr("One lock hangs, dry and let go"),
            Self::LockCombed(_) => tr("The same lock, combed straight"),
            Self::Parting => tr("Parting worn"),
            Self::State => tr_in("question: wet or dry", "Cut it"),
            Self::Face => tr_in("question", "Face"),
            Self::Occasion => tr("What for"),
            Self::Ears => tr("Leave it longer over the ears"),
            Self::Curls => tr("Leave it longer for the curl"),
            Self::TwoGoes => tr("Cut the fringe in two goes"),
            Self::EarsBy => tr("Over the ears longer by"),
            Self::CurlsBy => tr("For the curl longer by"),
            Self::TwoGoesBy => tr("First go longer by"),
            Self::Note => tr("Private note"),
        }
    }

    /// What may be answered, where there are few answers that are no landmarks.
    pub fn answers(self) -> Vec<Answer> {
        let read = |all: &[Answer]| all.iter().map(|&(word, said)| (word, tr(said))).collect();
        match self {
            Self::Density => read(&DENSITIES),
            Self::Texture => read(&TEXTURES),
            Self::Curl => read(&CURLS),
            Self::Parting => read(&PARTINGS),
            Self::State => read(&STATES),
            Self::Face => faces().to_vec(),
            Self::Occasion => read(&OCCASIONS),
            Self::Ears | Self::Curls | Self::TwoGoes => read(&ON),
            _ => Vec::new(),
        }
    }

    /// The landmarks that may be answered, from the top down.
    pub const fn landmarks(self) -> &'static [Landmark] {
        match self {
            Self::EndsAt(_) | Self::NoShorter(_) => &Landmark::LEVELS,
            Self::WeightAt => &WEIGHTS,
            _ => &[],
        }
    }

    /// The length that is taken until one is said, cm; none where nothing is taken. Over an ear 0.5 to
    /// 1 cm, on curls and a fringe's first go 2.5 to 4 cm: common practice, no source; the least of
    /// each.
    pub const fn usual(self) -> Option<f64> {
        match self {
            Self::EarsBy => Some(0.5),
            Self::CurlsBy | Self::TwoGoesBy => Some(2.5),
            _ => None,
        }
    }

    /// The most that a length may be, cm: what is left longer, or hair.
    pub const fn most(self) -> f64 {
        match self {
            Self::EarsBy => 3.0,
            Self::CurlsBy | Self::TwoGoesBy => 10.0,
            _ => 150.0,
        }
    }
}

/// A region's word in stored answers.
const fn region_word(region: Region) -> &'static str {
    match region {
        Region::Front => "front",
        Region::Top => "top",
        Region::Crown => "crown",
        Region::Side => "side",
        Region::Back => "back",
        Region::Nape => "nape",
    }
}
