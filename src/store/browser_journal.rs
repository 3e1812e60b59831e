//! The journal in the browser: one object store of IndexedDB, texts under keys.
//!
//! A write asks for strict durability: it counts as done only once it is on the disk. Nothing here
//! is waited for by a screen, and where there is no IndexedDB (a private window, switched off, no
//! room) everything goes on without it.

use super::browser::LocalShelf;
use super::index::{Store, StoreError};
use super::journal::all_of;
use super::shelf::Noted;
use js_sys::{Array, JSON, Promise};
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction};

const ENTRIES: &str = "journal";

#[wasm_bindgen]
extern "C" {
    /// Of `public/boot.js`: comes true with the database.
    #[wasm_bindgen(js_name = tautlineJournal, catch)]
    fn journal() -> Result<Promise, JsValue>;
    // What the bindings do not have yet.
    #[wasm_bindgen(js_name = IDBDatabase)]
    type Database;
    #[wasm_bindgen(method, catch)]
    fn transaction(
        this: &Database,
        store: &str,
        mode: &str,
        options: &JsValue,
    ) -> Result<IdbTransaction, JsValue>;
    #[wasm_bindgen(js_name = IDBTransaction)]
    type Transaction;
    #[wasm_bindgen(method, catch)]
    fn commit(this: &Transaction) -> Result<(), JsValue>;
}

thread_local! {
    static OPEN: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
    /// Whether the last write reached the disk.
    static WELL: Cell<bool> = const { Cell::new(false) };
}

/// Whether what is saved is on the disk at once, so that even a dying device does not lose it.
pub fn durable() -> bool {
    WELL.get()
}

/// Opens the journal, and has put back what it has newer than local storage, by [`put_back`], whose code
/// may come late: it is seldom needed. Says whether there was anything. To be waited for before the first screen, but not for long.
pub async fn recover(put_back: impl AsyncFn(String, String) -> bool) -> bool {
    look(put_back).await.unwrap_or(false)
}

/// Puts an entry of the journal back in local storage where it is newer; says whether it was.
///
/// # Errors
/// As [`Store::put_back`].
pub fn put_back(entry: &str, text: &str) -> Result<bool, StoreError> {
    Store::new(LocalShelf).put_back(entry, text)
}

/// Puts a text in the place of all that the journal has of an id.
pub(super) fn put(id: &str, key: &str, text: &str) {
    write(|entries| note(entries, id, key, text));
}

/// Puts many texts in, in one transaction; `alone` if nothing else is to stay.
pub(super) fn put_many(alone: bool, notes: &[Noted]) {
    write(|entries| {
        if alone {
            entries.clear().ok()?;
        }
        let mut notes = notes.iter();
        notes.try_for_each(|n| note(entries, &n.id, &n.key, &n.text))
    });
}

fn note(entries: &IdbObjectStore, id: &str, key: &str, text: &str) -> Option<()> {
    let [from, to] = all_of(id);
    let range = IdbKeyRange::bound(&from.into(), &to.into()).ok()?;
    entries.delete(&range).ok()?;
    entries.put_with_key(&text.into(), &key.into()).ok()?;
    Some(())
}

fn write(work: impl FnOnce(&IdbObjectStore) -> Option<()>) {
    let written = OPEN.with_borrow(|db| {
        let (transaction, entries) = begin(db.as_ref()?, true)?;
        work(&entries)?;
        Some(ended(&transaction))
    });
    spawn_local(async move {
        let well = match written {
            Some(written) => JsFuture::from(written).await.is_ok(),
            None => false,
        };
        WELL.set(well);
        if !well {
            // The browser may have closed it; the next write finds it open again.
            let _ = open().await;
        }
    });
}

async fn look(put_back: impl AsyncFn(String, String) -> bool) -> Option<bool> {
    open().await?;
    let store = Store::new(LocalShelf);
    let keys: Array = ask(None).await?.unchecked_into();
    let keys: Vec<String> = keys.iter().filter_map(|key| key.as_string()).collect();
    WELL.set(true);
    let due = store.due(&keys).ok()?;
    let mut moved = false;
    for key in due.put_back {
        let text = ask(Some(&key)).await;
        if let Some(text) = text.and_then(|text| text.as_string()) {
            moved |= put_back(key, text).await;
        }
    }
    for key in due.delete {
        moved |= store.delete_again(&key).unwrap_or(false);
    }
    for key in due.done {
        // Waited for by nobody.
        let (_, entries) = OPEN.with_borrow(|db| begin(db.as_ref()?, true))?;
        entries.delete(&key.as_str().into()).ok()?;
    }
    Some(moved)
}

/// Opens it: the script that runs before the app has begun to.
async fn open() -> Option<()> {
    OPEN.set(None);
    let opened = JsFuture::from(journal().ok()?).await.ok()?;
    OPEN.set(Some(opened.unchecked_into()));
    Some(())
}

/// The object store within a transaction.
fn begin(db: &IdbDatabase, write: bool) -> Option<(IdbTransaction, IdbObjectStore)> {
    let mode = if write { "readwrite" } else { "readonly" };
    let strict = JSON::parse("{\"durability\":\"strict\"}").ok()?;
    let db = db.unchecked_ref::<Database>();
    let transaction = db.transaction(ENTRIES, mode, &strict).ok()?;
    let entries = transaction.object_store(ENTRIES).ok()?;
    Some((transaction, entries))
}

/// Reads the text under a key, or all keys.
async fn ask(key: Option<&str>) -> Option<JsValue> {
    let request = OPEN.with_borrow(|db| {
        let (_, entries) = begin(db.as_ref()?, false)?;
        match key {
            Some(key) => entries.get(&key.into()).ok(),
            None => entries.get_all_keys().ok(),
        }
    })?;
    JsFuture::from(answer(&request)).await.ok()?;
    request.result().ok()
}

/// Comes true when a request has its answer.
fn answer(request: &IdbRequest) -> Promise {
    Promise::new(&mut |well, ill| {
        request.set_onsuccess(Some(&well));
        request.set_onerror(Some(&ill));
    })
}

/// Comes true when a transaction is on the disk. It is told not to wait for anything more, so that
/// the browser writes while the page still draws.
fn ended(transaction: &IdbTransaction) -> Promise {
    Promise::new(&mut |well, ill| {
        transaction.set_oncomplete(Some(&well));
        transaction.set_onabort(Some(&ill));
        // Where it is not known, it ends by itself a little later.
        let _ = transaction.unchecked_ref::<Transaction>().commit();
    })
}
