//! Consultations answered well, badly or not at all.
#![allow(dead_code, reason = "each test takes what it needs")]

use proptest::prelude::*;
use proptest::sample::Index;
use tautline::consult::{Ask, Consultation, Growth, Mark, Zone};
use tautline::head::{Region, Spot};
use tautline::plan::landmark_word;

/// Every question of the consultation.
pub fn asks() -> Vec<Ask> {
    let mut all = vec![
        Ask::WeightAt,
        Ask::Shortest,
        Ask::Density,
        Ask::Texture,
        Ask::Curl,
        Ask::Parting,
        Ask::State,
        Ask::Face,
        Ask::Occasion,
        Ask::Ears,
        Ask::EarsBy,
        Ask::Curls,
        Ask::CurlsBy,
        Ask::TwoGoes,
        Ask::TwoGoesBy,
        Ask::Note,
    ];
    all.extend(Zone::ALL.map(Ask::EndsAt));
    all.extend(Zone::ALL.map(Ask::NoShorter));
    let regions = [None].into_iter().chain(Region::ALL.map(Some));
    all.extend(regions.flat_map(|r| [Ask::LockHangs(r), Ask::LockCombed(r)]));
    all
}
/// The words that answer a question; none where it takes a length or a text.
pub fn words(ask: Ask) -> Vec<String> {
    let landmarks = ask.landmarks().iter().map(|l| landmark_word(*l));
    let answers = ask
        .answers()
        .into_iter()
        .map(|(word, _)| (*word).to_owned());
    answers.chain(landmarks).collect()
}

/// A consultation whose questions are answered well, badly or not.
pub fn consultation(typed: &'static [&'static str]) -> BoxedStrategy<Consultation> {
    let all = asks();
    let answer = (
        prop::sample::select(all),
        proptest::prelude::any::<Index>(),
        prop::sample::select(typed),
        prop::bool::weighted(0.75),
    )
        .prop_map(|(ask, which, typed, well)| {
            let words = words(ask);
            let answer = if well && !words.is_empty() {
                words[which.index(words.len())].clone()
            } else {
                typed.to_owned()
            };
            (ask, answer)
        });
    let mark = (
        prop::sample::select(&Growth::ALL[..]),
        -400.0..400.0_f64,
        -1.0..2.0_f64,
        prop::sample::select(typed),
    )
        .prop_map(|(growth, azimuth, out, typed)| {
            let mut mark = Mark::at(growth, Spot::at_degrees(azimuth, out));
            mark.longer = typed.to_owned();
            mark
        });
    (
        prop::collection::vec(answer, 0..14),
        prop::collection::vec(mark, 0..4),
    )
        .prop_map(|(answers, marks)| {
            let mut all = Consultation::default();
            for (ask, answer) in answers {
                all.put(ask, &answer);
            }
            all.marks = marks;
            all
        })
        .boxed()
}
