//! One-dimensional root finding, for measures that grow with what they are solved for.

/// No root between the two ends: the function has one sign at both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bracketless {
    /// The function's value at the lower end.
    pub at_low: f64,
    /// The function's value at the upper end.
    pub at_high: f64,
}

/// Where `f` is zero between `low` and `high`, to `accuracy` in its argument.
///
/// The ITP method (Oliveira and Takahashi, *ACM Trans. Math. Softw.* 47:5, 2020) from `kurbo`:
/// never slower than bisection, and it converges whenever the ends have opposite signs.
///
/// # Errors
/// [`Bracketless`] when both ends have the same sign or a value is not a number.
pub fn bracketed(
    (low, high): (f64, f64),
    accuracy: f64,
    mut f: impl FnMut(f64) -> f64,
) -> Result<f64, Bracketless> {
    let (at_low, at_high) = (f(low), f(high));
    if at_low == 0.0 {
        return Ok(low);
    }
    if at_high == 0.0 {
        return Ok(high);
    }
    if at_low < 0.0 && at_high > 0.0 {
        let k1 = 0.2 / (high - low);
        Ok(kurbo::common::solve_itp(
            f, low, high, accuracy, 1, k1, at_low, at_high,
        ))
    } else if at_low > 0.0 && at_high < 0.0 {
        let k1 = 0.2 / (high - low);
        let down = |x| -f(x);
        Ok(kurbo::common::solve_itp(
            down, low, high, accuracy, 1, k1, -at_low, -at_high,
        ))
    } else {
        Err(Bracketless { at_low, at_high })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_roots_up_and_down_and_says_when_there_is_none() {
        let up = bracketed((0.0, 3.0), 1e-12, |x| x * x - 2.0).unwrap();
        assert!((up - std::f64::consts::SQRT_2).abs() < 1e-10);
        let down = bracketed((0.0, 3.0), 1e-12, |x| 2.0 - x * x).unwrap();
        assert!((down - std::f64::consts::SQRT_2).abs() < 1e-10);
        assert!(bracketed((2.0, 3.0), 1e-12, |x| x * x - 2.0).is_err());
        assert!(bracketed((0.0, 1.0), 1e-12, |_| f64::NAN).is_err());
    }
}
