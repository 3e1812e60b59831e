//! The sign test: whether more cuts came out to one side than chance would have it.

/// How likely it is that of `fewer + more` tosses of a fair coin no more than `fewer`, or no fewer than
/// `more`, fall one way: the sign test, both sides counted (W. J. Dixon and A. M. Mood, "The statistical sign
/// test", Journal of the American Statistical Association 41, 1946, 557 to 566). 1 where both are alike.
///
/// ```
/// use tautline::book::sign_test;
/// // Six of six: 2 / 2⁶.
/// assert_eq!(sign_test(0, 6), 0.03125);
/// assert_eq!(sign_test(1, 4), 0.375);
/// ```
pub fn sign_test(fewer: usize, more: usize) -> f64 {
    let (fewer, more) = (fewer.min(more), fewer.max(more));
    let tosses = fewer.saturating_add(more);
    if fewer == more {
        return 1.0;
    }
    // Each term of the binomial row from the one before; past a thousand tosses the first is nothing, and so
    // is what follows from it: there the answer is as good as certain either way.
    let mut term = 0.5_f64.powi(i32::try_from(tosses).unwrap_or(i32::MAX));
    let mut sum = 0.0;
    for toss in 0..=fewer {
        sum += term;
        term *= (tosses - toss) as f64 / (toss + 1) as f64;
    }
    (2.0 * sum).min(1.0)
}
