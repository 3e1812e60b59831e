//! At the chair: the walk through the sections, and the look back at its end.
//!
//! `walk` is the screen, `at` what its parts share; a section is `section` with its `drawing`, and
//! `result` or, for a check, `checked`; `overview` shows the whole with its `switches`, `paused` a pause; `keys` moves
//! by keyboard, presenter or foot switch, `half` calls the time, `more` reads on without a swipe.

mod at;
mod before;
mod checked;
mod drawing;
mod end;
mod half;
mod keys;
mod more;
mod overview;
mod paused;
mod result;
mod section;
mod switches;
mod walk;

pub use end::EndScreen;
pub use switches::Switches;
pub use walk::WalkScreen;
