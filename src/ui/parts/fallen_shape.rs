//! A plan as it would fall, in a small picture.

use crate::book::Ready;
use crate::chart::shape_picture;
use crate::cut::Outcome;
use crate::fall::View;
use crate::ui::kept::Kept;
use crate::ui::words;

/// Hairs that the picture lets fall, and how finely it is drawn, cm.
const HAIRS: usize = 500;
const SPACING: f64 = 0.5;

/// A worked-out plan as it would fall, seen from the left, and where its ends lie in words; none where that
/// can't be told.
pub fn fallen_shape(kept: Kept, ready: &Ready, outcome: &Outcome) -> Option<(String, String)> {
    let down = outcome.let_down_part(&ready.job(), HAIRS).ok()?;
    let said = words::ends(&ready.head, down.ends()?, kept.unit_now());
    let hair = down.hair_silhouette(View::LeftSide, SPACING);
    let picture = shape_picture(&ready.head, &hair, &ready.plan.name, &said);
    Some((picture, said))
}
