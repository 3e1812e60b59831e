//! What a measure is likely to be when it was not taken, from two published surveys.
//!
//! Means, standard deviations and correlations are computed from the public working data of
//! Gordon et al., *2012 Anthropometric Survey of U.S. Army Personnel*, NATICK/TR-15/007 (2014),
//! 1,986 women and 4,082 men; those of the ear-to-ear arc from the NIOSH respirator survey of 2003
//! (Zhuang and Bradtmiller, *J. Occup. Environ. Hyg.* 2:567, 2005), 1,454 women and 2,543 men.
//! Women and men are weighed alike, so a guess leans to neither. Of practice heads there is no
//! survey; theirs are invented.

use super::shape::Kind;

/// What is estimated together: circumference, length, breadth, height of the top above the ear
/// opening, and the ear-to-ear arc over the top, all in cm.
const COUNT: usize = 5;

/// One survey population.
struct Population {
    mean: [f64; COUNT],
    deviation: [f64; COUNT],
    /// Correlations below the diagonal: row i holds those with 0..i.
    correlation: [[f64; 4]; 4],
}

/// The height of the top above the ear opening and the arc over the top were measured in different
/// surveys; no correlation is published. None is used: an arc, when measured, is fitted instead.
const NOT_SURVEYED: f64 = 0.0;

const WOMEN: Population = Population {
    mean: [56.11, 18.98, 14.78, 12.65, 34.10],
    deviation: [1.94, 0.74, 0.52, 0.65, 1.56],
    correlation: [
        [0.76, 0.0, 0.0, 0.0],
        [0.49, 0.22, 0.0, 0.0],
        [0.37, 0.29, 0.33, 0.0],
        [0.44, 0.26, 0.47, NOT_SURVEYED],
    ],
};

const MEN: Population = Population {
    mean: [57.44, 19.95, 15.43, 13.11, 35.07],
    deviation: [1.60, 0.70, 0.55, 0.62, 1.41],
    correlation: [
        [0.82, 0.0, 0.0, 0.0],
        [0.55, 0.18, 0.0, 0.0],
        [0.39, 0.29, 0.31, 0.0],
        [0.50, 0.29, 0.55, NOT_SURVEYED],
    ],
};

/// Practice heads. Invented: the mean person of the surveys at 0.934 of the size, spread like
/// people with their heights less sure, and related like people.
const PRACTICE: Population = Population {
    mean: [53.0, 18.2, 14.1, 12.0, 32.3],
    deviation: [1.8, 0.8, 0.6, 0.9, 1.7],
    correlation: [
        [0.79, 0.0, 0.0, 0.0],
        [0.52, 0.20, 0.0, 0.0],
        [0.38, 0.29, 0.32, 0.0],
        [0.47, 0.28, 0.51, NOT_SURVEYED],
    ],
};

impl Population {
    fn covariance(&self, i: usize, j: usize) -> f64 {
        let r = match i.cmp(&j) {
            std::cmp::Ordering::Equal => 1.0,
            std::cmp::Ordering::Greater => self.correlation[i - 1][j],
            std::cmp::Ordering::Less => self.correlation[j - 1][i],
        };
        r * self.deviation[i] * self.deviation[j]
    }
}

/// A measure that was taken or estimated, with how sure it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The measure in cm.
    pub cm: f64,
    /// Its standard error in cm; zero when it was measured.
    pub error: f64,
}

/// The likely circumference, length, breadth, height of the top above the ear opening and
/// ear-to-ear arc, in this order, given those that were measured, of a person or a practice head.
///
/// The conditional mean of a normal distribution, one given measure after the other; with one given
/// it is the survey's own regression on it.
pub fn estimate(kind: Kind, given: [Option<f64>; COUNT]) -> [Estimate; COUNT] {
    let (one, other) = match kind {
        Kind::Person => (&WOMEN, &MEN),
        Kind::Practice => (&PRACTICE, &PRACTICE),
    };
    let mut mean: [f64; COUNT] = std::array::from_fn(|i| (one.mean[i] + other.mean[i]) / 2.0);
    let gap: [f64; COUNT] = std::array::from_fn(|i| (other.mean[i] - one.mean[i]) / 2.0);
    // Half of each population: their spreads, and the spread between their means.
    let mut spread: [[f64; COUNT]; COUNT] = std::array::from_fn(|i| {
        std::array::from_fn(|j| {
            (one.covariance(i, j) + other.covariance(i, j)) / 2.0 + gap[i] * gap[j]
        })
    });
    for (k, value) in given.iter().enumerate() {
        let Some(value) = value else { continue };
        let column: [f64; COUNT] = std::array::from_fn(|i| spread[i][k]);
        let own = column[k];
        // Two measures may leave nothing of a third to learn from; then it adds nothing.
        if own > 1e-9 {
            let surprise = value - mean[k];
            for i in 0..COUNT {
                mean[i] += column[i] / own * surprise;
                for j in 0..COUNT {
                    spread[i][j] -= column[i] * column[j] / own;
                }
            }
        }
    }
    std::array::from_fn(|i| Estimate {
        cm: given[i].unwrap_or(mean[i]),
        error: if given[i].is_some() {
            0.0
        } else {
            spread[i][i].max(0.0).sqrt()
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The survey's own regressions of length and breadth on circumference, women and men
    /// (computed from the ANSUR II files): L = 26.3 + 0.2914 C and −7.4 + 0.3603 C mm,
    /// B = 73.4 + 0.1325 C and 44.7 + 0.1909 C mm. An estimate that leans to neither must lie
    /// close to both.
    #[test]
    fn estimates_lie_between_the_published_regressions() {
        for c in [54.0, 56.0, 57.0, 58.0, 60.0] {
            let [_, length, breadth, ..] =
                estimate(Kind::Person, [Some(c), None, None, None, None]);
            let mm = c * 10.0;
            let lengths = [26.3 + 0.2914 * mm, -7.4 + 0.3603 * mm];
            let breadths = [73.4 + 0.1325 * mm, 44.7 + 0.1909 * mm];
            for (got, [women, men]) in [(length.cm, lengths), (breadth.cm, breadths)] {
                let (low, high) = (women.min(men) / 10.0 - 0.2, women.max(men) / 10.0 + 0.2);
                assert!(
                    (low..=high).contains(&got),
                    "{c}: {got} not in {low}..{high}"
                );
            }
            // Residual deviations published with them: 4.9 and 4.0, 4.5 and 4.6 mm.
            assert!((0.40..0.60).contains(&length.error), "{}", length.error);
            assert!((0.45..0.60).contains(&breadth.error), "{}", breadth.error);
        }
    }

    #[test]
    fn what_is_given_comes_back_and_nothing_given_is_the_mean() {
        let all = estimate(Kind::Person, [None; COUNT]);
        assert!((all[0].cm - 56.775).abs() < 1e-9);
        let some = estimate(
            Kind::Person,
            [Some(60.0), None, Some(15.0), None, Some(36.0)],
        );
        let practice = estimate(Kind::Practice, [None; COUNT]);
        assert!(practice[0].cm < 55.0 && practice[0].error > 1.0);
        assert_eq!(some[0].cm, 60.0);
        assert_eq!(some[2].cm, 15.0);
        assert_eq!(some[4].cm, 36.0);
        assert!(some[1].error > 0.0 && some[0].error == 0.0);
    }
}
