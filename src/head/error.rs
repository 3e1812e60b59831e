//! Why tapes may not make a head.

/// Why the tapes do not make a head. Each says in a sentence which to take again.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HeadError {
    /// The circumference does not go with the length and breadth.
    #[error(
        "Around the head reads {circumference} cm, but a head {length:.1} cm long and {breadth:.1} cm broad is between {} and {} cm around. Measure these again.", up(.low), down(.high)
    )]
    Ring {
        /// Circumference given, cm.
        circumference: f64,
        /// Length, cm.
        length: f64,
        /// Breadth, cm.
        breadth: f64,
        /// The least circumference that goes with them, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The ear-to-ear arc does not go with the rest.
    #[error(
        "Ear to ear over the top reads {arc} cm; on a head of this breadth it is between {} and {} cm. Measure again.", up(.low), down(.high)
    )]
    EarToEar {
        /// The arc given, cm.
        arc: f64,
        /// The least that goes with the rest, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The hairline tape does not end at the back of the head.
    #[error(
        "Front hairline to nape reads {tape} cm; on a head of this size it is between {} and {} cm. Measure again.", up(.low), down(.high)
    )]
    Nape {
        /// The tape given, cm.
        tape: f64,
        /// The least that ends at the back, cm.
        low: f64,
        /// The greatest, cm.
        high: f64,
    },
    /// The face is too short.
    #[error(
        "Front hairline to chin reads {tape} cm; it is at least {} cm. Measure again.", up(.low)
    )]
    Chin {
        /// The tape given, cm.
        tape: f64,
        /// The least, cm.
        low: f64,
    },
    /// The measures make a body that is not convex.
    #[error("These measures don't make one head together. Measure them again.")]
    NotOneHead,
}

/// Bounds as they are said: rounded to the millimetre, inward, so that a value on a bound is within.
fn up(cm: &f64) -> f64 {
    (cm * 10.0).ceil() / 10.0
}

fn down(cm: &f64) -> f64 {
    (cm * 10.0).floor() / 10.0
}
