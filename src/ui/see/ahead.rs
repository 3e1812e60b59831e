//! Pictures that were drawn are kept, and those to come drawn while nobody waits.

use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// The pause before each: what a hand does in between comes first.
const PAUSE: Duration = Duration::from_millis(250);

/// Does one step after the other, a pause before each, until one says that nothing is left to do or what
/// `here` belongs to has left the screen.
pub fn ahead(here: StoredValue<()>, step: impl Fn() -> bool + 'static) {
    let go = move || {
        if here.try_get_value().is_some() && step() {
            ahead(here, step);
        }
    };
    set_timeout(go, PAUSE);
}

/// What was drawn already, each under what it shows; kept as long as what made it stands on the screen.
pub struct Shelf<K: Send + Sync + 'static, T: Send + Sync + 'static>(StoredValue<Vec<(K, Arc<T>)>>);

impl<K: PartialEq + Send + Sync, T: Send + Sync> Shelf<K, T> {
    /// An empty one.
    pub fn new() -> Self {
        Self(StoredValue::new(Vec::new()))
    }

    /// Whether something was drawn already.
    pub fn has(&self, key: &K) -> bool {
        self.find(key).is_some()
    }

    /// Draws it the first time that it is asked for.
    ///
    /// # Errors
    /// Those of drawing it.
    pub fn get(&self, key: K, draw: impl FnOnce() -> Result<T, String>) -> Result<Arc<T>, String> {
        if let Some(found) = self.find(&key) {
            return Ok(found);
        }
        let new = Arc::new(draw()?);
        self.0.update_value(|all| all.push((key, Arc::clone(&new))));
        Ok(new)
    }

    fn find(&self, key: &K) -> Option<Arc<T>> {
        self.0.with_value(|all| {
            let found = all.iter().find(|(of, _)| of == key);
            found.map(|(_, drawn)| Arc::clone(drawn))
        })
    }
}
