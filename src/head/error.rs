//! Why tapes may not make a head.

use crate::words::{decimal, tr};

/// Why the tapes do not make a head. Each says in a sentence which to take again.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HeadError {
    /// The circumference does not go with the length and breadth.
    #[error(
        "{}", tr!("Around the head reads {circumference} cm, but a head {length} cm long and {breadth} cm broad is between {} and {} cm around. Measure these again.", up(.low), down(.high), circumference = typed(.circumference), length = tenths(.length), breadth = tenths(.breadth)))]
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
        "{}", tr!("Ear to ear over the top reads {arc} cm; on a head of this breadth it is between {} and {} cm. Measure again.", up(.low), down(.high), arc = typed(.arc)))]
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
        "{}", tr!("Front hairline to nape reads {tape} cm; on a head of this size it is between {} and {} cm. Measure again.", up(.low), down(.high), tape = typed(.tape)))]
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
        "{}", tr!("Front hairline to chin reads {tape} cm; it is at least {} cm. Measure again.", up(.low), tape = typed(.tape)))]
    Chin {
        /// The tape given, cm.
        tape: f64,
        /// The least, cm.
        low: f64,
    },
    /// The measures make a body that is not convex.
    #[error(
        "{}",
        tr("These measures don't make one head together. Measure them again.")
    )]
    NotOneHead,
}

/// What was typed, as it was.
fn typed(cm: &f64) -> String {
    decimal(cm.to_string())
}

/// A measure to the millimetre.
fn tenths(cm: &f64) -> String {
    decimal(format!("{cm:.1}"))
}

/// Bounds as they are said: rounded to the millimetre, inward, so that a value on a bound is within.
fn up(cm: &f64) -> String {
    decimal(((cm * 10.0).ceil() / 10.0).to_string())
}

fn down(cm: &f64) -> String {
    decimal(((cm * 10.0).floor() / 10.0).to_string())
}
