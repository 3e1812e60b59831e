//! The one door to what is kept on the device.
//!
//! [`Shelf`] is a plain key-value place; in the browser it is local storage. [`Store`] keeps saved
//! cuts on it so that a crash between two writes leaves the old version: a document is written under
//! a new key, then the index moves, then the old key goes. A document that cannot be read is left
//! where it is and listed with the reason; it is never dropped. A cut that is finished is kept packed, and
//! beside each cut stands a line, which is all that a list has to read. A second copy goes into the journal
//! (`journal`), which a killed browser does not take along. What finds no room waits in `held` and is
//! read as if it were kept. Everything but the browser's shelf and
//! journal is plain Rust. Depends on the documents of the rooms above; only `ui` depends on it.
//!
//! ```
//! use tautline::book::SavedCut;
//! use tautline::store::{MemoryShelf, Store};
//!
//! let store = Store::new(MemoryShelf::default());
//! store.save(&SavedCut::new("1", "Invented", "trim", "2026-03-01T10:00:00Z"))?;
//! assert_eq!(store.load("1")?.title, "Invented");
//! assert_eq!(store.list()?.len(), 1);
//! store.delete("1")?;
//! assert!(store.load("1").is_err());
//! # Ok::<(), tautline::store::StoreError>(())
//! ```

mod bring;
#[cfg(target_arch = "wasm32")]
mod browser;
#[cfg(target_arch = "wasm32")]
mod browser_journal;
mod crossed;
mod file;
mod held;
mod index;
mod index_text;
mod journal;
mod lines;
mod lock;
mod records;
mod recover;
mod room;
mod seal;
mod settings;
mod shelf;
mod shelved;
mod sound;
mod used;

pub use bring::{Counts, Intent, Way};
#[cfg(target_arch = "wasm32")]
pub use browser::LocalShelf;
#[cfg(target_arch = "wasm32")]
pub use browser_journal::{durable, put_back, recover};
pub use crossed::{Crossed, Wrote, both};
pub use file::{FileError, Incoming, MOST_FILE, Reading};
pub use held::Held;
pub use index::{Listed, Store, StoreError};
pub use journal::{Due, Entry};
pub use lines::{Anew, Aside, Lines, line_anew, walk_to_go_on};
pub use lock::{Forgotten, LOCK_CHANCE, Lock, LockError, Tried, asks_again};
pub use records::{ListedRecord, Named};
pub use room::Room;
pub use seal::{CHANCE, SealError, is_sealed, open, seal};
pub use settings::{Look, Settings};
pub use shelf::{MemoryShelf, Noted, Shelf, ShelfError};
pub use used::USUAL_ROOM;
