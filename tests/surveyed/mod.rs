//! The single heads of `tests/data`, for the tests that hold the model against them.

use tautline::head::Tape;

/// The tapes that the surveys have, in the order of their rows.
pub const ENTERED: [Tape; 4] = [
    Tape::Circumference,
    Tape::Length,
    Tape::Breadth,
    Tape::EarToEar,
];

/// Columns of a survey file as cm, by name.
fn survey(text: &str, columns: &[&str]) -> Vec<Vec<f64>> {
    let mut lines = text.lines();
    let names: Vec<&str> = lines
        .next()
        .unwrap()
        .split(',')
        .map(|n| n.trim_matches('"'))
        .collect();
    let places: Vec<usize> = columns
        .iter()
        .map(|c| {
            names
                .iter()
                .position(|n| n == c)
                .unwrap_or_else(|| panic!("no column {c}"))
        })
        .collect();
    lines
        .map(|line| {
            // The first column of one file has a comma in its quoted name only, not in its values.
            let values: Vec<&str> = line.split(',').collect();
            let shift = names.len() - values.len();
            places
                .iter()
                .map(|&i| values[i - shift].parse::<f64>().unwrap() / 10.0)
                .collect()
        })
        .collect()
}

/// The 120 heads of ANSUR II: circumference, length and breadth in cm.
pub fn ansur() -> Vec<Vec<f64>> {
    let columns = ["headcircumference", "headlength", "headbreadth"];
    let mut heads = survey(
        include_str!("../data/ansur2_heads_female_sample.csv"),
        &columns,
    );
    heads.extend(survey(
        include_str!("../data/ansur2_heads_male_sample.csv"),
        &columns,
    ));
    heads
}

/// The 120 heads of NIOSH 2003: circumference, length, breadth and ear-to-ear arc in cm.
pub fn niosh() -> Vec<Vec<f64>> {
    survey(
        include_str!("../data/niosh2003_heads_sample.csv"),
        &[
            "head_circumference",
            "head_length",
            "head_breadth",
            "bitragion_coronal_arc",
        ],
    )
}

/// Whether each head of [`niosh`] is a man's, in its order.
#[allow(dead_code, reason = "not every test file asks")]
pub fn niosh_men() -> Vec<bool> {
    include_str!("../data/niosh2003_heads_sample.csv")
        .lines()
        .skip(1)
        .map(|line| line.starts_with("1,"))
        .collect()
}
