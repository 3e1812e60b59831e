//! All cuts as the lists show them, kept in memory so that coming back to a list takes no time.

use super::Kept;
use crate::book::{Catalogue, Line, Query};
use crate::plan::built_in_name;
use crate::store::{Anew, Aside, Lines, Named, StoreError, line_anew};
use crate::words::tr;
use leptos::prelude::*;
use std::sync::Arc;

/// What lists read last.
#[derive(Default)]
pub(super) struct Listing {
    /// What was in force then: while that stands nothing has to be read again.
    in_force: String,
    lines: Vec<Arc<Line>>,
    aside: Vec<Aside>,
    /// What was in force when the names were read; empty if they were not.
    named: String,
    names: Vec<Arc<Named>>,
    /// The names of built-in plans by id, as they are kept; one that this app does not have has none.
    plans: Vec<(String, Option<&'static str>)>,
    catalogue: Arc<Catalogue>,
}

/// All cuts, as the list shows them.
pub struct All {
    /// Those that read.
    pub readable: Arc<Catalogue>,
    /// Those that do not.
    pub aside: Vec<Aside>,
    /// How many are not looked at yet: [`Kept::take_anew`].
    pub missing: usize,
}

impl Kept {
    /// The lines of all cuts.
    ///
    /// # Errors
    /// As [`crate::store::Store::lines`].
    pub fn lines(self) -> Result<Vec<Arc<Line>>, StoreError> {
        self.read_lines(Some(line_anew)).map(|lines| lines.cuts)
    }

    /// Those of them that are there without reading a document; none if one is missing.
    pub fn lines_there(self) -> Option<Vec<Arc<Line>>> {
        let lines = self.read_lines(self.anew.get_value()).ok()?;
        (lines.missing == 0).then_some(lines.cuts)
    }

    /// Takes what makes missing lines: it reads whole documents, and its code may come late.
    pub fn take_anew(self, anew: Anew) {
        self.anew.set_value(Some(anew));
    }

    fn read_lines(self, anew: Option<Anew>) -> Result<Lines, StoreError> {
        let in_force = self.store.in_force()?;
        let read = self.listing.with_value(|listing| {
            if !in_force.is_empty() && listing.in_force == in_force {
                return Ok(Lines {
                    cuts: listing.lines.clone(),
                    aside: listing.aside.clone(),
                    missing: 0,
                });
            }
            self.store.lines_by(&listing.lines, anew)
        })?;
        self.listing.update_value(|listing| {
            // Not all of it was read as long as lines are missing.
            listing.in_force = if read.missing == 0 {
                in_force
            } else {
                String::new()
            };
            listing.lines.clone_from(&read.cuts);
            listing.aside.clone_from(&read.aside);
        });
        Ok(read)
    }

    /// All cuts for the list: it is made again when another window changes something. While the client
    /// looks on it knows no names.
    ///
    /// # Errors
    /// As [`crate::store::Store::lines`].
    pub fn catalogue(self, seen: bool) -> Result<All, StoreError> {
        self.listed();
        self.made(seen)
    }

    /// Reads what lists need while nobody waits for it: a thousand cuts take some hundredths of a second.
    pub fn read_list(self) {
        // What ails the shelf the list will say.
        let _ = self.made(self.settings_now().seen);
    }

    fn made(self, seen: bool) -> Result<All, StoreError> {
        let Lines {
            cuts: lines,
            aside,
            missing,
        } = self.read_lines(self.anew.get_value())?;
        let (names, named) = self.listing.with_value(|listing| {
            if seen {
                return Ok((Vec::new(), String::new()));
            }
            let names = if listing.named == listing.in_force && !listing.named.is_empty() {
                listing.names.clone()
            } else {
                self.store.names(&listing.names)?
            };
            Ok::<_, StoreError>((names, listing.in_force.clone()))
        })?;
        let mut readable = Arc::default();
        self.listing.update_value(|listing| {
            (listing.names, listing.named) = (names, named);
            for line in lines.iter().filter(|line| line.own.is_none()) {
                if !listing.plans.iter().any(|(id, _)| *id == line.plan) {
                    let name = built_in_name(&line.plan);
                    listing.plans.push((line.plan.clone(), name));
                }
            }
            let name_of = |id: &str| {
                let named = Named::among(&listing.names, id);
                named.map_or(String::new(), |named| named.name.clone())
            };
            let plan_of = |line: &Line| {
                let known = || listing.plans.iter().find(|(id, _)| *id == line.plan);
                match line.own.as_deref().or_else(|| known()?.1) {
                    None => tr("Unknown plan").to_owned(),
                    Some(name) if name.trim().is_empty() => tr("A plan without a name").to_owned(),
                    Some(name) => self.said(name),
                }
            };
            let made = Catalogue::of(&lines, &listing.catalogue, &name_of, &plan_of);
            listing.catalogue = Arc::new(made);
            readable = listing.catalogue.clone();
        });
        Ok(All {
            readable,
            aside,
            missing,
        })
    }

    /// What the list looks for.
    pub fn asked(self) -> RwSignal<Query> {
        self.asked
    }
}
