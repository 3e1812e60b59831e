//! The one door to what is kept on the device.
//!
//! [`Shelf`] is a plain key-value place; in the browser it is local storage. [`Store`] keeps saved
//! cuts on it so that a crash between two writes leaves the old version: a document is written under
//! a new key, then the index moves, then the old key goes. A document that cannot be read is left
//! where it is and listed with the reason; it is never dropped. A cut that is finished is kept packed, and
//! beside each cut stands a line, which is all that a list has to read. A second copy goes into the journal
//! (`journal`), which a killed browser does not take along. Everything but the browser's shelf and
//! journal is plain Rust. Depends on the documents of the rooms above; only `ui` depends on it.

#[cfg(target_arch = "wasm32")]
mod browser;
#[cfg(target_arch = "wasm32")]
mod browser_journal;
mod index;
mod index_text;
mod journal;
mod lines;
mod records;
mod recover;
mod settings;
mod shelf;
mod shelved;
mod texts;
mod used;

#[cfg(target_arch = "wasm32")]
pub use browser::LocalShelf;
#[cfg(target_arch = "wasm32")]
pub use browser_journal::{durable, recover};
pub use index::{Listed, Store, StoreError};
pub use journal::{Due, Entry};
pub use lines::{Aside, Lines, walk_to_go_on};
pub use records::{ListedRecord, Named};
pub use settings::{Look, Settings};
pub use shelf::{MemoryShelf, Shelf, ShelfError};
pub use used::USUAL_ROOM;
