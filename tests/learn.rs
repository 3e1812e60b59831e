//! The lessons say what the trade says. Its rules: common practice, no source.

use tautline::learn::{Idea, Lesson};
use tautline::measure::Unit;

/// The longest hair of each section, cm, at each place of the slider.
fn longest(idea: Idea) -> Vec<Vec<f64>> {
    let lesson = Lesson::of(idea).unwrap();
    let turn = lesson.turn();
    let places = (turn.least..=turn.most).step_by(turn.step as usize);
    places
        .map(|at| {
            let shown = lesson.at(at, Unit::Cm).unwrap();
            assert!(shown.picture.contains("<title>") && !shown.said.is_empty());
            shown.rows.iter().map(|row| row.1.cm()).collect()
        })
        .collect()
}

fn spread(row: &[f64]) -> f64 {
    row.last().unwrap() - row.first().unwrap()
}

#[test]
fn straight_out_leaves_one_length_and_the_lower_it_is_held_the_longer_the_hair_from_above() {
    let all = longest(Idea::Elevation);
    let last = all.last().unwrap();
    assert!(spread(last).abs() < 0.3, "{last:?}");
    for pair in all.windows(2) {
        assert!(spread(&pair[0]) > spread(&pair[1]) - 1e-6, "{pair:?}");
    }
    assert!(spread(&all[0]) > 3.0, "{all:?}");
}

#[test]
fn the_further_the_side_is_combed_back_the_more_it_lengthens_towards_the_face() {
    let all = longest(Idea::OverDirection);
    assert!(spread(&all[0]).abs() < 0.3, "{all:?}");
    for pair in all.windows(2) {
        assert!(spread(&pair[1]) > spread(&pair[0]) - 1e-6, "{pair:?}");
    }
    assert!(spread(all.last().unwrap()) > 1.0, "{all:?}");
}

#[test]
fn all_that_is_combed_to_a_guide_that_stays_is_longer_the_further_its_root() {
    let all = longest(Idea::Guide);
    assert!(all.len() > 3, "{all:?}");
    for row in &all {
        assert!(row.windows(2).all(|pair| pair[1] > pair[0]), "{row:?}");
    }
    let lesson = Lesson::of(Idea::Guide).unwrap();
    assert_eq!(lesson.at(2, Unit::Cm).unwrap().marked, Some(1));
    // Beyond its end it stands at its end.
    assert_eq!(lesson.at(99, Unit::Cm).unwrap().marked, Some(all.len() - 1));
}

#[test]
fn lifted_hair_has_its_ends_spread_and_its_weight_higher() {
    let lesson = Lesson::of(Idea::Weight).unwrap();
    let turn = lesson.turn();
    let said = |at| lesson.at(at, Unit::Cm).unwrap().said;
    let numbers = |text: String| -> Vec<f64> {
        let words = text.split([' ', ';']).filter_map(|word| word.parse().ok());
        words.collect()
    };
    let (low, high) = (numbers(said(turn.least)), numbers(said(turn.most)));
    println!("{low:?} {high:?}");
    assert!(low[0] > high[0], "the line goes up: {low:?} {high:?}");
    assert!(low[1] > high[1], "and softens: {low:?} {high:?}");
}

#[test]
fn every_idea_has_words_and_an_address() {
    for idea in Idea::ALL {
        assert_eq!(Idea::of(idea.word()), Some(idea));
        assert!(!idea.about().is_empty() && !idea.to_try().is_empty() && !idea.turned().is_empty());
    }
    assert_eq!(Idea::of("nothing"), None);
}
